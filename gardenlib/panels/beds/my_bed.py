"""Page 03, the fold in which the learner writes down the bed."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import ipywidgets as w

from gardenlib.beds import families, families_grown
from gardenlib.beds.fits import LONGEST_M
from gardenlib.panels import controls as c
from gardenlib.panels.bed_of import CLUBROOT, family_name
from gardenlib.panels.form import Fields, Form
from gardenlib.panels.more import more
from gardenlib.problems import InputProblem
from gardenlib.units import Quantity, in_system
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

FIRST_BED = "bed-1"
YEARS = 4
KINDS = {"ground": Said("my_bed.ground"), "raised": Said("my_bed.raised"), "container": Said("my_bed.container")}
REACHES = {
    "both": Said("my_bed.reach_both"),
    "one": Said("my_bed.reach_one"),
    "seated": Said("my_bed.reach_seated"),
    "child": Said("my_bed.reach_child"),
}
BEARINGS = {
    0: Said("my_bed.north_south"),
    45: Said("my_bed.northeast_southwest"),
    90: Said("my_bed.east_west"),
    135: Said("my_bed.southeast_northwest"),
}


def fold(session: Session) -> w.Widget:
    """Offer to write down the bed: its size, kind, reach, and what grew there."""
    return more(session, Said("my_bed.title"), 4, lambda _: Form(session, Said("my_bed.about"), _fields, _save))


def _own(session: Session) -> dict[str, Any]:
    return session.plot.beds[0].model_dump(mode="json") if session.plot.beds else {"id": FIRST_BED}


def _fields(session: Session) -> Fields:
    say, own = session.voice.say, _own(session)
    units = session.voice.units

    def shown(name: str, unit: str, per_m: float = 1.0) -> float:
        return round(in_system((own.get(name) or 0.0) * per_m, unit, units)[0], 2)

    none = (say("my_bed.not_known"), "")
    fields: Fields = {
        "name": c.line(say("my_bed.name"), own.get("name") or ""),
        "length": c.number(say(f"my_bed.length_{units}"), 0, 330, shown("length_m", "m")),
        "width": c.number(say(f"my_bed.width_{units}"), 0, 330, shown("width_m", "m")),
        "kind": c.choice(say("my_bed.kind"), _options(session, KINDS, none), own.get("kind") or ""),
        "depth": c.number(say(f"my_bed.depth_{units}"), 0, 100, shown("depth_m", "cm", 100)),
        "bearing": c.choice(say("my_bed.bearing"), _options(session, BEARINGS, none), _bearing(own)),
        "reach": c.choice(say("my_bed.reach"), _options(session, REACHES, none), own.get("reach") or ""),
    }
    fields["disease"] = _disease(session, own.get("known_disease") or "")
    past = own.get("families") or []
    for back in range(1, YEARS + 1):
        grew = ", ".join(family_name(session, family) for family in past[back - 1]) if back <= len(past) else ""
        fields[f"grew_{back}"] = c.line(say("my_bed.grew", n=back), grew, say("my_bed.grew_hint"))
    return fields


def _options(session: Session, words: Mapping[Any, Said], none: tuple[str, str]) -> list[tuple[str, Any]]:
    return [none, *((session.voice.say(said), value) for value, said in words.items())]


def _disease(session: Session, known: str) -> w.Widget:
    """Offer the diseases that change what a page tells; other words in the file stay as they are."""
    say = session.voice.say
    options = [(say("my_bed.disease_none"), ""), (say("my_bed.disease_clubroot"), CLUBROOT)]
    if known not in {"", CLUBROOT}:
        options.append((known, known))
    return c.choice(say("my_bed.disease"), options, known)


def _bearing(own: Mapping[str, Any]) -> Any:
    """Give the choice for a bearing: a long edge looks the same from both ends."""
    bearing = own.get("bearing_deg")
    return "" if bearing is None else min(BEARINGS, key=lambda known: abs((bearing - known + 90) % 180 - 90))


def _save(session: Session, values: Mapping[str, Any]) -> Said:
    length, width = (_metres(session, values[side]) for side in ("length", "width"))
    depth_cm = _in_si(session, values["depth"], "cm")
    own = {
        **_own(session),
        "name": values["name"].strip(),
        "length_m": length,
        "width_m": width,
        "kind": values["kind"],
        "depth_m": depth_cm / 100 if depth_cm else None,
        "bearing_deg": None if values["bearing"] == "" else values["bearing"],
        "reach": values["reach"],
        "families": _grown(session, values),
        "known_disease": values["disease"],
    }
    others = [bed.model_dump(mode="json") for bed in session.plot.beds[1:]]
    session.save("beds", [own, *others])
    return Said("my_bed.saved", {"length": Quantity(length, "m"), "width": Quantity(width, "m")})


def _in_si(session: Session, value: float, unit: str) -> float:
    """Take a number in the class's units back to the ones that are kept."""
    per, _ = in_system(1.0, unit, session.voice.units)
    return value / per


def _metres(session: Session, value: float) -> float:
    """Take a side in metres; what cannot be is said in the units in which it was typed."""
    side_m = _in_si(session, value, "m")
    if not 0 < side_m <= LONGEST_M:
        raise InputProblem("fit.side", value=Quantity(side_m, "m"), most=Quantity(LONGEST_M, "m"))
    return side_m


def _grown(session: Session, values: Mapping[str, Any]) -> list[list[str]]:
    """Read what grew, the latest year first; years at the end without a word are left out."""
    known = {session.crop_name(crop_id): session.crop(crop_id).family for crop_id in session.all_crop_ids}
    known |= {family: family for family in families()}
    known |= {family_name(session, family): family for family in families()}
    grew = [list(families_grown(values[f"grew_{back}"], known)) for back in range(1, YEARS + 1)]
    while grew and not grew[-1]:
        grew.pop()
    return grew
