"""Page 03, core: how many plants of one crop fit in the bed."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts
from gardenlib.beds import BedCount, crop_count, crop_spacing, has_spacing, positions, slips
from gardenlib.beds.distances import Which
from gardenlib.charts.bed_plan import bed_plan
from gardenlib.panels import controls as c
from gardenlib.panels.bed_of import bed_here
from gardenlib.panels.check import Check, CheckBox, Reply
from gardenlib.panels.guess import Guess
from gardenlib.panels.panel import Panel, Spec
from gardenlib.units import Quantity
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

PATTERNS = {"square": Said("fit.square"), "offset": Said("fit.offset"), "rows": Said("fit.rows")}
WHICH: dict[Which, Said] = {"closest": Said("fit.closest"), "middle": Said("fit.middle"), "widest": Said("fit.widest")}

NEIGHBOR_M = {"us": (14 * 0.3048, 4 * 0.3048), "metric": (4.4, 1.2)}


def panel(session: Session) -> Panel:
    """Show what fits in the bed, in rows, in squares and offset."""
    return Panel(session, SPEC).show()


def check(session: Session) -> CheckBox:
    """Ask for a count of squares; three foreseen mistakes get a reply each."""
    return CheckBox(session, _CHECK).show()


def crop_ids(session: Session) -> list[str]:
    """List the learner's crops that have a distance, then the others."""
    ids = session.crops_own_first
    return [crop_id for crop_id in ids if has_spacing(session.crop(crop_id))]


def _controls(session: Session) -> dict[str, w.Widget]:
    say, ids = session.voice.say, crop_ids(session)
    return {
        "crop": c.choice(say("fit.crop"), [(session.crop_name(i), i) for i in ids], ids[0]),
        "which": c.choice(say("fit.which"), [(say(words), which) for which, words in WHICH.items()], "closest"),
        "pattern": c.choice(say("fit.pattern"), [(say(words), name) for name, words in PATTERNS.items()], "offset"),
    }


def _count(session: Session, values: Mapping[str, Any], **changed: Any) -> BedCount:
    bed, asked = bed_here(session), {**values, **changed}
    crop = session.crop(asked["crop"])
    return crop_count(bed.length_m, bed.width_m, crop, which=asked["which"], pattern=asked["pattern"])


def view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Draw the bed with its plants and compare the patterns."""
    say, found = session.voice.say, _count(session, values)
    name = session.crop_name(values["crop"])
    spacing = Quantity(found.spacing_m * 100, "cm")
    bed = {"length": Quantity(found.length_m, "m"), "width": Quantity(found.width_m, "m")}
    if not found.plants:
        none = say("fit.finding_none", crop=name, spacing=spacing, **bed)
        return charts.View(none, None, None, none)
    _, row_m = crop_spacing(session.crop(values["crop"])).pick(values["which"], values["pattern"])
    places = positions(found.length_m, found.width_m, found.spacing_m, pattern=found.pattern, row_spacing_m=row_m)
    chart = bed_plan(
        found.length_m, found.width_m, places.assign(spread_m=found.spacing_m, letter=""), voice=session.voice
    )
    pattern = say(PATTERNS[found.pattern])
    alt = say(
        "fit.alt",
        n=found.plants,
        crop=name,
        pattern=pattern,
        lines=Said("fit.lines_n", {"n": found.lines}),
        spacing=spacing,
        **bed,
    )
    return charts.View(_finding(session, found, name), _table(session, values), charts.svg(chart), alt)


def _finding(session: Session, found: BedCount, name: str) -> str:
    say = session.voice.say
    said = {"crop": name, "spacing": Quantity(found.spacing_m * 100, "cm")}
    if found.pattern == "rows" and found.lines == 1:
        return say("fit.finding_one_row", n=found.plants, **said)
    if found.pattern == "rows":
        apart = Quantity(found.lines_apart_m * 100, "cm")
        return say("fit.finding_rows", n=found.plants, rows=Said("fit.rows_n", {"n": found.lines}), apart=apart, **said)
    both = say("fit.finding", square=found.square, offset=found.offset, **said)
    if found.gain == 0:
        return f"{both} {say('fit.gains_nothing')}"
    return f"{both} {say('fit.gains', n=found.gain) if found.gain > 0 else say('fit.loses', n=-found.gain)}"


def _table(session: Session, values: Mapping[str, Any]) -> pd.DataFrame:
    say, rows = session.voice.say, []
    for pattern, words in PATTERNS.items():
        found = _count(session, values, pattern=pattern)
        room = say("fit.nothing") if found.room_m2 is None else session.voice.quantity(Quantity(found.room_m2, "m2"), 2)
        rows.append((say(words), str(found.plants), room))
        if pattern == "offset":
            textbook = (say("fit.row_textbook"), str(found.textbook), say("fit.nothing"))
    rows.append(textbook)
    return pd.DataFrame(rows, columns=[say("fit.column_pattern"), say("fit.column_plants"), say("fit.column_room")])


def notes(session: Session, values: Mapping[str, Any]) -> list[Said]:
    """Say so where the distance in use comes from no source that could be found."""
    crop = session.crop(values["crop"])
    sure = crop_spacing(crop).is_checked(values["pattern"])
    return [] if sure else [Said("fit.unchecked", {"crop": crop.name})]


# ---- the guess and the check -----------------------------------------------------------------------


def _asked(session: Session) -> dict[str, Any]:
    """Take the learner's first crop at its closest, in the bed as it is."""
    crop_id, bed = crop_ids(session)[0], bed_here(session)
    found = _count(session, {"crop": crop_id, "which": "closest", "pattern": "square"})
    return {
        "found": found,
        "bed": {
            "crop": session.crop_name(crop_id),
            "spacing": Quantity(found.spacing_m * 100, "cm"),
            "name": bed.name,
            "length": Quantity(bed.length_m, "m"),
            "width": Quantity(bed.width_m, "m"),
        },
    }


def _truth(session: Session) -> Said:
    found = _asked(session)["found"]
    return Said("fit.truth", {"square": found.square, "offset": found.offset, "textbook": found.textbook})


SPEC = Spec(
    "03.count",
    Said("fit.title"),
    _controls,
    view,
    guess=Guess(
        "03.count.guess",
        lambda session: Said("fit.question", _asked(session)["bed"]),
        lambda session: [
            ("same", Said("fit.option_same")),
            ("some", Said("fit.option_some")),
            ("fifteen", Said("fit.option_fifteen")),
        ],
        _truth,
    ),
    working=_count,
    notes=notes,
)


def _neighbor(session: Session) -> tuple[BedCount, dict[str, Any]]:
    """Take the learner's first crop at its closest, in a bed whose count stands nowhere on the page."""
    crop_id, (length_m, width_m) = crop_ids(session)[0], NEIGHBOR_M[session.voice.units]
    found = crop_count(length_m, width_m, session.crop(crop_id), which="closest", pattern="square")
    return found, {
        "crop": session.crop_name(crop_id),
        "spacing": Quantity(found.spacing_m * 100, "cm"),
        "length": Quantity(length_m, "m"),
        "width": Quantity(width_m, "m"),
    }


def _replies(session: Session) -> list[Reply]:
    found, units = _neighbor(session)[0], session.voice.units
    out = slips(found.length_m, found.width_m, found.spacing_m, system=units)
    mixed = Said("fit.check_few") if out.units_mixed < 1 else Said("fit.check_plants", {"n": int(out.units_mixed)})
    plants = {
        name: Said("fit.check_plants", {"n": getattr(out, name)}) for name in ("not_squared", "no_margin", "right")
    }
    mistakes = [
        Reply("not_squared", plants["not_squared"], False, Said("fit.check_not_squared")),
        Reply("no_margin", plants["no_margin"], False, Said("fit.check_no_margin")),
        Reply("units_mixed", mixed, False, Said(f"fit.check_units_{units}")),
    ]
    right = Reply("right", plants["right"], True, Said("fit.check_right"))
    seen, kept = {str(right.words)}, [right]
    for reply in mistakes:
        if str(reply.words) not in seen:
            seen.add(str(reply.words))
            kept.append(reply)
    return sorted(kept, key=lambda reply: reply.value)


_CHECK = Check("03.count.check1", lambda session: Said("fit.check_question", _neighbor(session)[1]), _replies)
