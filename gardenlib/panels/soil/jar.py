"""Page 02, the fold on the jar: when to mark it, and what its layers come to."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts
from gardenlib.panels import controls as c
from gardenlib.panels.check import Check, CheckBox, Reply
from gardenlib.panels.more import more
from gardenlib.panels.panel import Panel, Spec
from gardenlib.panels.soil.jar_times import TIMES
from gardenlib.panels.soil.keeping import KeepPanel
from gardenlib.panels.soil.names import known_name, named, triangle
from gardenlib.soil import SoilTexture, jar_texture, texture_name
from gardenlib.units import MM_PER_INCH
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

WAY = "02.jar.way"
PARTS = ("sand", "silt", "clay")
# A jar to begin with: about the same on either ruler, as marks and as layers.
START = {
    "marks": {"in": (1.2, 2.0, 2.4), "cm": (3.0, 5.0, 6.0)},
    "layers": {"in": (1.2, 0.8, 0.4), "cm": (3.0, 2.0, 1.0)},
}
MOST = {"in": 12.0, "cm": 30.0}
MM = {"in": MM_PER_INCH, "cm": 10.0}


def fold(session: Session) -> w.Widget:
    """Offer the jar: when to mark it, its marks, the class and the classes nearby."""
    return more(session, Said("jar.title"), 8, _inside)


def _inside(session: Session) -> w.Widget:
    how = c.text(session.voice.say("jar.how"))
    parts = [Panel(session, TIMES), Panel(session, _WAY), MarksPanel(session), CheckBox(session, _MARKS)]
    return w.VBox([how, *parts, CheckBox(session, _WATER)])


# ---- marks or layers -------------------------------------------------------------------------------


def _way(session: Session) -> str:
    return str(session.kept(WAY).get("way", "marks"))


def _way_controls(session: Session) -> dict[str, w.Widget]:
    say = session.voice.say
    return {"way": c.one_of(say("jar.way"), [(say(f"jar.way_{way}"), way) for way in START], "marks")}


def _way_view(session: Session, values: Mapping[str, Any]) -> charts.View:
    say, way = session.voice.say, values["way"]
    labels = {part: say(f"jar.draw_{way}_{part}") for part in PARTS}
    water = {} if way == "marks" else {"water": say("jar.label_water")}
    picture = charts.sketch("soil_jar_marks" if way == "marks" else "soil_jar", **labels, **water)
    return charts.View(say(f"jar.way_finding_{way}"), None, picture, say("jar.way_alt"))


_WAY = Spec(WAY, Said("jar.way_title"), _way_controls, _way_view)


# ---- the jar of this class -------------------------------------------------------------------------


class MarksPanel(KeepPanel):
    """The three lengths and what they come to; it is made anew when marks become layers."""

    def __init__(self, session: Session) -> None:
        self._way = _way(session)
        super().__init__(session, _JAR, Said("jar.keep"), _put)
        session.watch(on_saved=self._follow)

    def _follow(self) -> None:
        if _way(self.session) != self._way:
            self._way = _way(self.session)
            self.build()


def _unit(session: Session) -> str:
    return "in" if session.voice.units == "us" else "cm"


def _controls(session: Session) -> dict[str, w.Widget]:
    say, way, unit = session.voice.say, _way(session), _unit(session)
    in_words = Said(f"jar.unit_{session.voice.units}_length")
    # Each way and each unit keeps its own numbers, so that none is ever read as another.
    return {
        f"{way}_{part}_{unit}": c.number(
            say("jar.field", part=Said(f"jar.{way}_{part}"), unit=in_words), 0.0, MOST[unit], start, 0.1
        )
        for part, start in zip(PARTS, START[way][unit], strict=True)
    }


def _jar(session: Session, values: Mapping[str, Any]) -> SoilTexture:
    way, unit = _way(session), _unit(session)
    sand, silt, clay = (values[f"{way}_{part}_{unit}"] * MM[unit] for part in PARTS)
    return jar_texture((sand, silt, clay), given="marks" if way == "marks" else "layers")


def view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Show the class of the jar, with its doubt, in the triangle."""
    voice, say, jar = session.voice, session.voice.say, _jar(session, values)
    mix = (jar.sand_pct, jar.silt_pct, jar.clay_pct)
    shares = {part: voice.number(share, 0) for part, share in zip(PARTS, mix, strict=True)}
    name = texture_name(jar.texture)
    finding = say("jar.finding_near" if jar.neighbours else "jar.finding", name=name)
    rows = [(say(f"texture.{part}"), share) for part, share in shares.items()]
    table = pd.DataFrame(rows, columns=[say("jar.column_part"), say("jar.column_share")])
    picture = triangle(voice, chosen=jar.texture, near=jar.neighbours, point=mix, corners=jar.corners)
    alt = say("jar.alt", sand=shares["sand"], silt=shares["silt"], clay=shares["clay"])
    return charts.View(finding, table, picture, alt)


def _notes(session: Session, values: Mapping[str, Any]) -> list[Said]:
    jar = _jar(session, values)
    near = Said("jar.near", {"names": named(jar.neighbours, session.voice)})
    return [near if jar.neighbours else Said("jar.none_near"), Said("texture.sides"), *jar.assumptions]


def _put(session: Session, values: Mapping[str, Any]) -> Said:
    """Keep class and shares; a laboratory's class stands, since it is the surer one."""
    jar, before = _jar(session, values), session.plot.soil
    if before.texture_from == "lab":
        return Said("jar.lab_stands", {"name": known_name(before.texture, session.voice)})
    shares = {
        "sand_pct": round(jar.sand_pct, 1),
        "silt_pct": round(jar.silt_pct, 1),
        "clay_pct": round(jar.clay_pct, 1),
    }
    session.save_fields("soil", texture=jar.texture, texture_from="jar", **shares)
    said = {"name": texture_name(jar.texture), "before": known_name(before.texture, session.voice)}
    return Said("jar.kept_before" if before.texture not in {"", jar.texture} else "jar.kept", said)


_JAR = Spec("02.jar", Said("jar.panel_title"), _controls, view, working=_jar, notes=_notes)


# ---- the checks ------------------------------------------------------------------------------------

_MARKS = Check(
    "02.jar.check1",
    lambda session: Said("jar.check1_question"),
    lambda session: [
        Reply("mark", Said("jar.check1_mark"), False, Said("jar.check1_mark_reply")),
        Reply("added", Said("jar.check1_added"), False, Said("jar.check1_added_reply")),
        Reply("right", Said("jar.check1_right"), True, Said("jar.check1_right_reply")),
    ],
)

_WATER = Check(
    "02.jar.check2",
    lambda session: Said("jar.check2_question"),
    lambda session: [
        Reply("water", Said("jar.check2_water"), False, Said("jar.check2_water_reply")),
        Reply("right", Said("jar.check2_right"), True, Said("jar.check2_right_reply")),
        Reply("third", Said("jar.check2_third"), False, Said("jar.check2_third_reply")),
    ],
)
