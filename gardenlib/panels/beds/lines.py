"""Page 03, core: the bed in straight lines, with a list for the person with the string."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts
from gardenlib.beds import LinesAnswer, has_spacing
from gardenlib.beds.line_answer import BedLine
from gardenlib.charts.bed_lines import bed_in_lines
from gardenlib.panels import controls as c
from gardenlib.panels.bed_of import stands_in
from gardenlib.panels.beds.count import WHICH
from gardenlib.panels.beds.line_bed import answer, crop_ids, own_bed, sides_of, told_of
from gardenlib.panels.check import Check, CheckBox, Reply
from gardenlib.panels.guess import Guess
from gardenlib.panels.own_plantings import own_plantings
from gardenlib.panels.panel import Panel, Spec
from gardenlib.units import MM_PER_INCH, Quantity
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

ID = "03.lines"
LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789"
# The guess and the check ask with whole numbers of the class's own unit.
GUESSED = {"us": (18, 10, 2), "metric": (45, 25, 5)}
ASKED = {"us": (14, 26, 12, 40), "metric": (35, 65, 30, 100)}


def panel(session: Session) -> Panel:
    """Show the bed in lines."""
    return Panel(session, SPEC).show()


def check(session: Session) -> CheckBox:
    """Ask what a list of lines means."""
    return CheckBox(session, _CHECK).show()


def _controls(session: Session) -> dict[str, w.Widget]:
    say = session.voice.say
    options = [(say(words), which) for which, words in WHICH.items()]
    return {"which": c.choice(say("lines.which"), options, "closest")}


def view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Draw the bed and list its lines."""
    say, found = session.voice.say, answer(session, values)
    edge, _ = sides_of(session, found)
    letters, rows = _letters(session), _rows(session, found)
    table = pd.DataFrame(
        rows, columns=[say("lines.column_line"), say("lines.column_from", edge=edge), say("lines.column_what")]
    )
    places = found.places
    drawn = places.assign(letter=places.crop.map(letters))
    chart = bed_in_lines(
        found.length_m,
        found.width_m,
        drawn[["x_m", "y_m", "spread_m", "letter"]],
        [line.from_edge_m for line in found.lines],
        voice=session.voice,
    )
    on = Said("lines.on", {"n": len(found.lines)})
    told = " ".join(say("lines.alt_line", distance=distance, standing=what) for _, distance, what in rows)
    return charts.View(_finding(session, found), table, charts.svg(chart), say("lines.alt", lines=on, list=told))


def _letters(session: Session) -> dict[str, str]:
    return dict(zip(crop_ids(session), LETTERS, strict=False))


def _rows(session: Session, found: LinesAnswer) -> list[tuple[str, str, str]]:
    """List the lines for the person with the string: number, distance, and what stands there."""
    letters = _letters(session)
    return [
        (str(number), _cm(session, line.from_edge_m), _what(session, line, letters))
        for number, line in enumerate(found.lines, 1)
    ]


def _cm(session: Session, metres: float) -> str:
    return session.voice.quantity(Quantity(metres * 100, "cm"))


def _what(session: Session, line: BedLine, letters: Mapping[str, str]) -> str:
    say = session.voice.say
    parts = [
        say(
            "lines.part",
            letter=letters.get(part.crop, ""),
            crop=session.crop_name(part.crop),
            n=part.plants,
            first=_cm(session, part.first_m),
            apart=_cm(session, part.spacing_m),
        )
        for part in line.parts
    ]
    return "; ".join([*parts, say("lines.kept_mark")] if line.kept else parts)


def _finding(session: Session, found: LinesAnswer) -> str:
    say, on = session.voice.say, Said("lines.on", {"n": len(found.lines)})
    if not found.left_over:
        return say("lines.finding_all", n=found.placed, lines=on)
    over = ", ".join(say("lines.over", crop=session.crop_name(item.crop), n=item.fits) for item in found.left_over)
    return say("lines.finding_some", placed=found.placed, wanted=found.wanted, lines=on, over=over)


def notes(session: Session, values: Mapping[str, Any]) -> list[Said]:
    """Say where to measure from, what the order leans on, and what is not known."""
    found = answer(session, values)
    edge, end = sides_of(session, found)
    told = [Said("lines.measure_from", {"edge": edge, "end": end})]
    told += [Said("lines.string", {"n": int(n), "distance": at, "what": what}) for n, at, what in _rows(session, found)]
    told += [Said("lines.thinned"), *told_of(session, found)]
    known = own_bed(session)["bearing_deg"] is not None
    told += [*stands_in(session), *([] if known else [Said("lines.no_bearing")])]
    shown = (
        {"lines.tall_side_north", "lines.tall_side_south", "lines.no_side", "lines.no_side_tropics"} if known else set()
    )
    told += [said for said in found.assumptions if said.key in shown | {"lines.shades", "fit.unchecked"}]
    told += [Said("lines.reach_one", {"edge": edge})] if own_bed(session)["reach"] == "one" else []
    told += [] if session.plot.plantings or not own_plantings(session) else [Said("lines.class_counts")]
    if not all(any(p.crop == i and p.plants for p in own_plantings(session)) for i in crop_ids(session)):
        told.append(Said("lines.usual_counts"))
    lacking = [session.crop_name(i) for i in session.crop_ids if not has_spacing(session.crop(i))]
    return [*told, Said("lines.no_distance", {"crops": ", ".join(lacking)})] if lacking else told


# ---- the guess and the check -----------------------------------------------------------------------


def _length(session: Session, number: float) -> Quantity:
    return Quantity(number * MM_PER_INCH / 10 if session.voice.units == "us" else number, "cm")


def _question(session: Session) -> Said:
    wide, _, narrow = (_length(session, number) for number in GUESSED[session.voice.units])
    names = {"wide": session.crop_name("cabbage_main"), "narrow": session.crop_name("carrot")}
    return Said("lines.question", {"first": wide, "second": narrow, **names})


def _options(session: Session) -> list[tuple[str, Said]]:
    wide, middle, narrow = (_length(session, number) for number in GUESSED[session.voice.units])
    return [
        ("more", Said("lines.option_more", {"gap": wide})),
        ("mean", Said("lines.option_mean", {"gap": middle})),
        ("less", Said("lines.option_less", {"gap": narrow})),
    ]


SPEC = Spec(
    ID,
    Said("lines.title"),
    _controls,
    view,
    guess=Guess(
        "03.lines.guess",
        _question,
        _options,
        lambda session: Said("lines.truth", {"gap": _length(session, GUESSED[session.voice.units][1])}),
    ),
    working=answer,
    notes=notes,
)


def _replies(session: Session) -> list[Reply]:
    _, second, gap, both = (
        Said("lines.check_gap", {"gap": _length(session, number)}) for number in ASKED[session.voice.units]
    )
    return [
        Reply("gap", gap, True, Said("lines.check_right")),
        Reply("from_line", second, False, Said("lines.check_from_line")),
        Reply("added", both, False, Said("lines.check_added")),
    ]


def _asked(session: Session) -> Said:
    first, second, *_ = (_length(session, number) for number in ASKED[session.voice.units])
    return Said("lines.check_question", {"first": first, "second": second})


_CHECK = Check("03.lines.check1", _asked, _replies)
