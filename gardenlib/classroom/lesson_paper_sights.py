"""Which panels of a page go on paper, and with which choices made."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import partial
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from gardenlib.charts import View
    from gardenlib.panels import Session
    from gardenlib.panels.panel import Spec


@dataclass(frozen=True)
class Sight:
    """A panel as it is printed.

    Parameters
    ----------
    spec : Spec
        The panel.
    values : mapping
        Values of its controls, where they are not those it begins with.
    asks : str
        A control whose answers are printed to tick.
    heads : bool
        Whether its title and its guess are printed: not where it goes on with the panel before.
    works : bool
        Whether its working is printed.
    view : callable, optional
        Makes what is printed, where it is not what the panel shows.
    left_out : tuple of str
        Keys of notes that speak of the screen.
    """

    spec: Spec
    values: Mapping[str, Any] = field(default_factory=dict)
    asks: str = ""
    heads: bool = True
    works: bool = True
    view: Callable[[Session, Mapping[str, Any]], View] | None = None
    left_out: tuple[str, ...] = ()


def sights(lesson: str) -> tuple[Sight, ...]:
    """Give the panels of a lesson's page, in the page's order."""
    return {
        "start": _start,
        "site": _site,
        "soil": _soil,
        "beds": _beds,
        "sowing": _sowing,
        "pests": _pests,
        "harvest": _harvest,
        "season": _season,
    }[lesson]()


def _start() -> tuple[Sight, ...]:
    from gardenlib.panels import start

    return (Sight(start.COLD),)


def _site() -> tuple[Sight, ...]:
    from gardenlib.panels import place, risk

    return Sight(place.SPEC), Sight(risk.SPEC)


def _soil() -> tuple[Sight, ...]:
    from gardenlib.panels.soil import feel, lime

    # The key of three questions, one picture each.
    walk = (
        Sight(feel.SPEC, asks="ball", works=False),
        Sight(feel.SPEC, {"ball": "yes"}, asks="ribbon", heads=False, works=False),
        Sight(feel.SPEC, {"ball": "yes", "ribbon": "middle"}, asks="feel", heads=False, works=False, view=_feel_key),
    )
    return *walk, Sight(lime.SPEC)


def _feel_key(session: Session, values: Mapping[str, Any]) -> View:
    """Show all ends of the key by feel at once, since paper cannot lead from question to question."""
    import pandas as pd

    from gardenlib import charts
    from gardenlib.panels.soil import feel
    from gardenlib.soil import texture_by_feel, texture_name

    say, last = session.voice.say, feel.SPEC.controls(session)
    feels = [(words, name) for words, name in last["feel"].options]

    def end(*answers: str) -> str:
        return " / ".join(say(texture_name(name)) for name in texture_by_feel(*answers).classes)

    rows = [[say("feel.ball_no"), *[end("no")] * len(feels)]]
    for words, ribbon in last["ribbon"].options:
        rows.append([words, *(end("yes", ribbon, *([name] if ribbon != "none" else [])) for _, name in feels)])
    head = [say("feel.row_ribbon"), *(words for words, _ in feels)]
    shown = feel.view(session, values)
    return charts.View(say("day.lesson.feel_key"), pd.DataFrame(rows, columns=head), shown.chart, shown.alt)


def _beds() -> tuple[Sight, ...]:
    from gardenlib.panels.beds import count, lines

    return Sight(count.SPEC), Sight(lines.SPEC, left_out=("lines.string",))


def _sowing() -> tuple[Sight, ...]:
    from gardenlib.panels import my_list, sowing

    return Sight(sowing.SPEC), Sight(my_list.SPEC)


def _pests() -> tuple[Sight, ...]:
    from gardenlib.panels.pests import look, when

    return Sight(when.SPEC, left_out=("pests.type_seen",)), Sight(look.SPEC)


def _harvest() -> tuple[Sight, ...]:
    from gardenlib.panels.harvest import keep, much

    # On the screen the last sentence sends the reader to the next fold of the page.
    return Sight(much.SPEC, view=partial(much.view, too_much="day.lesson.left_over")), Sight(keep.SPEC)


def _season() -> tuple[Sight, ...]:
    from gardenlib.panels.season import plan, replay

    return Sight(plan.SPEC), Sight(replay.SPEC)
