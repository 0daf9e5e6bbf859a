"""Page 05, a fold: before it happens, with covers, collars and hands."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts
from gardenlib.panels import controls as c
from gardenlib.panels.bed_of import grown_here
from gardenlib.panels.check import Check, CheckBox, Reply
from gardenlib.panels.guess import Guess
from gardenlib.panels.more import more
from gardenlib.panels.panel import Panel, Spec, note
from gardenlib.panels.pests.trials import TRIALS, less
from gardenlib.panels.sowing import dates_for, window
from gardenlib.pests import CoverDates, NetAnswer, cover_dates, mesh_keeps_out
from gardenlib.pests.covers import ground_of
from gardenlib.pests.nets import LARGEST_MM, SMALLEST_MM, Kept, figure
from gardenlib.words import Said
from gardenlib.working import Answer

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

HOLE_MM = 0.8
KEPT = {True: "yes", False: "no", None: "differ"}


def fold(session: Session) -> w.Widget:
    """Offer covers, collars, hand picking, and what trials found."""
    return more(session, Said("before.title"), 7, _inside)


def _inside(session: Session) -> w.Widget:
    say, rule = session.voice.say, session.klass.spray_rule
    garden = say("before.rule", rule=rule) if rule else say("before.no_rule")
    heads = [c.text(f"{say('before.caution')} {garden}", "caution")]
    spray = c.text(say("before.spray"), "note")
    return w.VBox([*heads, Panel(session, _SPEC), CheckBox(session, _CHECK), Panel(session, TRIALS), spray])


# ---- a cover ---------------------------------------------------------------------------------------


def _controls(session: Session) -> dict[str, w.Widget]:
    say = session.voice.say
    ids = session.crops_own_first
    grounds = [(say("before.ground_written", bed=grown_here(session)[0]), "written")]
    grounds += [(say(f"before.ground_{ground}"), ground) for ground in ("rotated", "same")]
    return {
        "crop": c.choice(say("before.crop"), [(session.crop_name(i), i) for i in ids], ids[0]),
        "hole": c.number(say("before.hole"), SMALLEST_MM, LARGEST_MM, HOLE_MM, 0.1),
        "ground": c.choice(say("before.ground"), grounds, "written"),
    }


def _net(session: Session, values: Mapping[str, Any]) -> NetAnswer:
    return mesh_keeps_out(values["hole"], family=session.crop(values["crop"]).family)


def _dates(session: Session, values: Mapping[str, Any]) -> CoverDates | Said:
    """Ask when the cover goes on, or say why the crop has no day here."""
    crop = session.crop(values["crop"])
    planned = dates_for(session, values["crop"])
    out = window(planned)
    if out is None:
        return planned.reason or Said("before.no_window", {"crop": crop.name})
    ground = values["ground"]
    if ground == "written":
        ground = ground_of(crop.family, grown_here(session)[1])
    first = planned.harvest[0] if planned.harvest else None
    return cover_dates(crop, out[0], ground=ground, first_harvest=first)


def view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Say when the cover goes on and off, and what the net keeps out."""
    say, voice = session.voice.say, session.voice
    dates, net, name = _dates(session, values), _net(session, values), session.crop_name(values["crop"])
    if isinstance(dates, Said):
        return note(say(dates))
    if dates.on is None:
        finding = say("before.not_here" if dates.advice == "not_here" else "before.ask_first", crop=name)
    else:
        finding = f"{say('before.on', crop=name, on=voice.date(dates.on, 'MMMd'))} {_off(session, dates)}"
    kept = {"n": len(net.kept_out), "of": len(net.pests), "hole": voice.number(net.hole_mm, 3)}
    finding = f"{finding} {say('before.keeps_out' if net.kept_out else 'before.keeps_none', **kept)}"
    names = [say(f"before.column_{name}") for name in ("pest", "largest", "kept", "checked")]
    table = pd.DataFrame([_row(session, one) for one in net.pests], columns=names)
    return charts.View(finding, table, _drawn(session), say("before.alt"))


def _off(session: Session, dates: CoverDates) -> str:
    say = session.voice.say
    if dates.off == "first_flower":
        return say("before.off_first_flower")
    if dates.until is None:
        return say("before.off_harvest")
    return say("before.off_until", until=session.voice.date(dates.until, "MMMd"))


def _row(session: Session, kept: Kept) -> tuple[str, str, str, str]:
    say, size = session.voice.say, kept.largest_hole_mm
    ends = dict.fromkeys(session.voice.number(end, 3) for end in (size.low, size.high))
    return (
        say(f"before.pest_{kept.pest}"),
        " – ".join(ends),
        say(f"before.kept_{KEPT[kept.keeps_out]}"),
        say("before.checked" if kept.checked else "before.not_checked"),
    )


def _drawn(session: Session) -> str:
    say = session.voice.say
    return charts.sketch(
        "cover_collar",
        cover=say("before.label_cover"),
        edge=say("before.label_edge", depth=figure("edges", "buried")),
        touch=say("before.label_touch"),
        collar=say("before.label_collar"),
        above=say("before.label_above", height=figure("cutworm", "above_soil")),
        below=say("before.label_below", depth=figure("cutworm", "in_soil")),
    )


def _notes(session: Session, values: Mapping[str, Any]) -> list[Said]:
    dates = _dates(session, values)
    told = () if isinstance(dates, Said) else (*dates.assumptions, *_why(dates))
    picking = Said("before.picking", {"days": figure("caterpillars", "every")})
    always = (Said("before.bigger"), Said("before.millimetres"), Said("before.touch"), picking)
    return [*told, *_net(session, values).assumptions, *always]


def _why(dates: CoverDates) -> list[Said]:
    if dates.advice != "cover" or dates.why == "not_listed":
        return []
    return [Said(f"before.why_{dates.why}")]


def _working(session: Session, values: Mapping[str, Any]) -> Answer:
    """Show the steps for the dates, then those for the net."""
    dates, net = _dates(session, values), _net(session, values)
    if isinstance(dates, Said):
        return net
    parts = (dates, net)
    return Answer(
        steps=tuple(step for part in parts for step in part.steps),
        assumptions=tuple(said for part in parts for said in part.assumptions),
        sources=tuple(dict.fromkeys(key for part in parts for key in part.sources)),
    )


_SPEC = Spec(
    "05.before",
    Said("before.title"),
    _controls,
    view,
    guess=Guess(
        "05.before.guess",
        lambda session: Said("before.question"),
        lambda session: [
            ("third", Said("before.option_third")),
            ("most", Said("before.option_most")),
            ("all", Said("before.option_all")),
        ],
        lambda session: Said(
            "before.truth", {"fine": less(session, "fine_net"), "coarse": less(session, "coarse_net")}
        ),
    ),
    working=_working,
    notes=_notes,
)


# ---- the check -------------------------------------------------------------------------------------

_CHECK = Check(
    "05.before.check1",
    lambda session: Said("before.check1_question"),
    lambda session: [
        Reply("here", Said("before.check1_here"), False, Said("before.check1_here_reply")),
        Reply("late", Said("before.check1_late"), False, Said("before.check1_late_reply")),
        Reply("moved", Said("before.check1_moved"), True, Said("before.check1_moved_reply")),
    ],
)
