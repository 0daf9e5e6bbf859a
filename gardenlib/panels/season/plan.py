"""Page 07, core: what to do in the next four weeks, the plan to print and the calendar file."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date, timedelta
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts
from gardenlib.panels import controls as c
from gardenlib.panels.check import Check, CheckBox, Reply
from gardenlib.panels.guess import Guess
from gardenlib.panels.panel import Panel, Spec
from gardenlib.panels.places import MIDDLE, PlanDates
from gardenlib.panels.season.plan_files import take_along
from gardenlib.panels.season.plan_here import plan_here, told_here
from gardenlib.panels.sowing import FREEZE_F
from gardenlib.season import SeasonTasks, Task
from gardenlib.sowing import week_of
from gardenlib.words import Said, Voice

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

ID = "07.plan"
WEEKS = 4
DAY = timedelta(days=1)
KINDS = {
    "all": (),
    "raise": ("sow_indoors", "harden_off"),
    "plant": ("direct_sow", "set_out", "cover_on"),
    "care": ("look", "feed", "cover_off", "carry_water", "water_check", "lime"),
    "pick": ("harvest",),
    "garden": ("water_on", "water_off", "workday"),
}
# Named for crop after crop this would hide what matters.
LEFT_TO_THE_WORKING = "plan.no_keeping"


def panel(session: Session) -> Panel:
    """Show the tasks of four weeks, and offer the plan for the garden and for the calendar."""
    made = Panel(session, SPEC).show()
    take_along(session)
    return made


def check(session: Session) -> CheckBox:
    """Ask which day lies in a window."""
    return CheckBox(session, _CHECK).show()


# ---- the four weeks --------------------------------------------------------------------------------


def _controls(session: Session) -> dict[str, w.Widget]:
    say, mondays = session.voice.say, plan_here(session).mondays(session.today)
    weeks = [(say("plan.week", day=monday), monday.isoformat()) for monday in mondays]
    now = min(max(week_of(session.today), mondays[0]), mondays[-1])
    kinds = [(say(f"plan.kind_{kind}"), kind) for kind in KINDS]
    return {
        "start": c.choice(say("plan.start"), weeks, now.isoformat()),
        "kind": c.choice(say("plan.kind"), kinds, "all"),
    }


def view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """List the tasks of four weeks."""
    say, voice, plan = session.voice.say, session.voice, plan_here(session)
    start = date.fromisoformat(values["start"])
    kinds = KINDS[values["kind"]]
    tasks = [task for task in plan.weeks(start, WEEKS) if not kinds or task.kind in kinds]
    finding = _finding(plan, tasks, start, values["kind"], voice)
    rows = [(_when(task, voice), _what(task, voice)) for task in tasks]
    columns = [say("plan.column_when"), say("plan.column_what")]
    return charts.View(finding, pd.DataFrame(rows, columns=columns) if rows else None, None, finding)


def _finding(plan: SeasonTasks, tasks: Sequence[Task], start: date, kind: str, voice: Voice) -> str:
    if tasks:
        begun = next((task for task in tasks if task.first >= start), tasks[0])
        return voice.say("plan.finding", n=len(tasks), day=start, task=begun.said, when=_when(begun, voice))
    later = plan.next_from(start)
    if later is None:
        return voice.say("plan.finding_over", day=start)
    none = "plan.finding_none" if KINDS[kind] else "plan.finding_free"
    return voice.say(none, day=start, task=later.said, when=_when(later, voice))


def _when(task: Task, voice: Voice) -> str:
    from gardenlib.sheets import when_words

    return when_words(task, voice)


def _what(task: Task, voice: Voice) -> str:
    """Write a task with its caution, and behind that the number it guards."""
    return " ".join(f"{voice.say(said)}." if said is task.said else voice.say(said) for said in _parts(task))


def _parts(task: Task) -> list[Said]:
    return [said for said in (task.said, task.caution, task.more) if said is not None]


def _notes(session: Session, values: Mapping[str, Any]) -> list[Said]:
    plan = plan_here(session)
    beside = [
        said
        for said in plan.assumptions
        if said.key.startswith(("plan.", "before.")) and said.key != LEFT_TO_THE_WORKING
    ]
    return [*told_here(session), *plan.not_possible, *beside]


def _working(session: Session, values: Mapping[str, Any]) -> SeasonTasks:
    return plan_here(session)


# ---- the guess and the check -------------------------------------------------------------------------


def _truth(session: Session) -> Said:
    plan = plan_here(session)
    day = PlanDates(session.freezes, session.year).date("spring", FREEZE_F, MIDDLE)
    if day is None:
        return Said("plan.truth_plain", {"n": len(plan.tasks)})
    return Said("plan.truth", {"before": plan.begun_before(day), "n": len(plan.tasks), "day": day})


SPEC = Spec(
    ID,
    Said("plan.title"),
    _controls,
    view,
    guess=Guess(
        "07.plan.guess",
        lambda session: Said("plan.question"),
        lambda session: [
            ("few", Said("plan.option_few")),
            ("half", Said("plan.option_half")),
            ("most", Said("plan.option_most")),
        ],
        _truth,
    ),
    working=_working,
    notes=_notes,
)


def _window(session: Session) -> Task | None:
    """Take the first task of the learner's own plan that may be done on more than one day."""
    return next((task for task in plan_here(session).tasks if task.last > task.first and not task.goes_on), None)


def _asked(session: Session) -> tuple[Said, date, date]:
    task = _window(session)
    if task is not None:
        return task.said, task.first, task.last
    first = session.season[0]
    return Said("plan.check1_made_up"), first, first + 14 * DAY


def _question(session: Session) -> Said:
    said, first, last = _asked(session)
    return Said("plan.check1_question", {"task": said, "first": first, "last": last})


def _replies(session: Session) -> list[Reply]:
    _, first, last = _asked(session)
    days = {"before": first - DAY, "last": last, "after": last + DAY}
    return [
        Reply(name, Said("plan.check1_day", {"day": day}), name == "last", Said(f"plan.check1_{name}_reply"))
        for name, day in days.items()
    ]


_CHECK = Check("07.plan.check1", _question, _replies)
