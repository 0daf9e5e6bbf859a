"""Page 07, its end: what comes next."""

from __future__ import annotations

from typing import TYPE_CHECKING

from gardenlib.panels.season.plan_here import plan_here

if TYPE_CHECKING:
    from gardenlib.panels.session import Session


def results(session: Session) -> list[tuple[str, str]]:
    """List the next task with its day, the number of tasks, and the plants to raise."""
    say, plan = session.voice.say, plan_here(session)
    coming = plan.next_from(session.today)
    counted = [say("plan.plants", n=n, crop=session.crop_name(crop)) for crop, n in plan.plants.items()]
    return [
        (
            say("plan.next"),
            say("plan.next_none") if coming is None else say("plan.next_is", task=coming.said, day=coming.first),
        ),
        (say("plan.in_all"), str(len(plan.tasks))),
        (say("plan.to_raise"), ", ".join(counted) or say("settled.nothing")),
    ]
