"""Page 02: the texture by feel, a key walked with a handful of moist soil."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts
from gardenlib.panels import controls as c
from gardenlib.panels.check import Check, CheckBox, Reply
from gardenlib.panels.guess import Guess
from gardenlib.panels.panel import Panel, Spec
from gardenlib.panels.soil.keeping import KeepPanel
from gardenlib.panels.soil.names import known_name, named, triangle
from gardenlib.problems import InputProblem
from gardenlib.soil import FelTexture, ribbon_length, texture_by_feel, texture_name
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

GUESS = "02.feel.guess"
GROUPS = ("coarse", "middle", "fine")
RIBBONS = ("short", "middle", "long")


def panel(session: Session) -> Panel:
    """Walk the key of three questions, and keep what it comes to."""
    return KeepPanel(session, SPEC, Said("feel.keep"), _put).show()


def check(session: Session) -> CheckBox:
    """Ask what a ribbon and a smooth feel mean together."""
    return CheckBox(session, _CHECK).show()


def _controls(session: Session) -> dict[str, w.Widget]:
    say = session.voice.say
    lengths = [(_ribbon_words(session, name), name) for name in RIBBONS]
    made = {
        "ball": c.one_of(say("feel.ball"), [(say("feel.ball_yes"), "yes"), (say("feel.ball_no"), "no")]),
        "ribbon": c.one_of(say("feel.ribbon"), [(say("feel.ribbon_none"), "none"), *lengths]),
        "feel": c.one_of(
            say("feel.feel"), [(say(f"feel.feel_{name}"), name) for name in ("gritty", "neither", "smooth")]
        ),
    }

    def reach(_: Any = None) -> None:
        """Show a question once the answers before it lead there."""
        ball, ribbon, _ = (control.value for control in made.values())
        made["ribbon"].layout.display = None if ball == "yes" else "none"
        made["feel"].layout.display = None if ball == "yes" and ribbon not in {None, "none"} else "none"

    reach()
    for name in ("ball", "ribbon"):
        made[name].observe(reach, "value")
    return made


def _walk(session: Session, values: Mapping[str, Any]) -> FelTexture:
    return texture_by_feel(values["ball"], values["ribbon"], values["feel"])


def view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Show how to answer the next question or, at the end, where the class lies."""
    voice, say, walk = session.voice, session.voice.say, _walk(session, values)
    if walk.asks == "ball":
        picture = charts.sketch("soil_squeeze", stays=say("feel.draw_stays"), falls=say("feel.draw_falls"))
        return charts.View(say("feel.finding_ball"), None, picture, say("feel.alt_ball"))
    if walk.asks == "ribbon":
        drawn = {name: _ribbon_words(session, name) for name in RIBBONS}
        picture = charts.sketch("soil_ribbons", **drawn)
        return charts.View(say("feel.finding_ribbon"), None, picture, say("feel.alt_ribbon"))
    if walk.texture is None:
        finding = say("feel.finding_feel", classes=named(walk.classes, voice))
        palms = {feel: say(f"feel.palm_{feel}") for feel in ("gritty", "smooth")}
        return charts.View(finding, None, charts.sketch("soil_palms", **palms), say("feel.alt_palm"))
    name, group = texture_name(walk.texture), Said(f"feel.group_{walk.groups[0]}")
    rows = [(say("feel.row_ball"), say(f"feel.ball_{values['ball']}"))]
    if values["ball"] == "yes":
        rows.append((say("feel.row_ribbon"), _ribbon_words(session, values["ribbon"])))
        if values["ribbon"] != "none":
            rows.append((say("feel.row_feel"), say(f"feel.feel_{values['feel']}")))
    rows.append((say("feel.row_class"), say(name)))
    rows.append((say("feel.row_near"), named(walk.neighbours, voice)))
    table = pd.DataFrame(rows, columns=[say("feel.column_question"), say("feel.column_answer")])
    picture = triangle(voice, chosen=walk.texture, near=walk.neighbours)
    return charts.View(say("feel.finding", name=name, group=group), table, picture, say("feel.alt_end", name=name))


def _ribbon_words(session: Session, ribbon: str) -> str:
    if ribbon == "none":
        return session.voice.say("feel.ribbon_none")
    return session.voice.say(f"feel.ribbon_{ribbon}", length=ribbon_length(ribbon))


def _notes(session: Session, values: Mapping[str, Any]) -> list[Said]:
    walk = _walk(session, values)
    told = [Said("feel.unchecked_lengths")] if walk.asks == "ribbon" or walk.unchecked else []
    if walk.texture is not None:
        guess, group = session.guess(GUESS), walk.groups[0]
        if guess in GROUPS:
            said = {"guess": Said(f"feel.group_{guess}"), "group": Said(f"feel.group_{group}")}
            told.insert(0, Said("feel.guess_same") if guess == group else Said("feel.guess_other", said))
        told.append(Said("feel.near", {"names": named(walk.neighbours, session.voice)}))
    return told


def _put(session: Session, values: Mapping[str, Any]) -> Said:
    """Keep the class; a laboratory's class stands, since it is the surer one."""
    walk, before = _walk(session, values), session.plot.soil
    if walk.texture is None:
        raise InputProblem("feel.answer_first")
    if before.texture_from == "lab":
        return Said("feel.lab_stands", {"name": known_name(before.texture, session.voice)})
    session.save_fields("soil", texture=walk.texture, texture_from="feel", sand_pct=None, silt_pct=None, clay_pct=None)
    said = {"name": texture_name(walk.texture), "before": known_name(before.texture, session.voice)}
    return Said("feel.kept_before" if before.texture not in {"", walk.texture} else "feel.kept", said)


def _truth(session: Session) -> Said:
    """Say what is kept already, or that the hand will tell."""
    soil = session.plot.soil
    if not soil.texture:
        return Said("feel.truth_open")
    return Said("feel.truth_known", {"name": known_name(soil.texture, session.voice)})


SPEC = Spec(
    "02.feel",
    Said("feel.title"),
    _controls,
    view,
    guess=Guess(
        GUESS,
        lambda session: Said("feel.question"),
        lambda session: [(group, Said(f"feel.option_{group}")) for group in GROUPS],
        _truth,
    ),
    working=_walk,
    notes=_notes,
)

_CHECK = Check(
    "02.feel.check1",
    lambda session: Said("feel.check_question"),
    lambda session: [
        Reply("clay", Said("feel.check_clay"), False, Said("feel.check_clay_reply")),
        Reply("right", Said("feel.check_right"), True, Said("feel.check_right_reply")),
        Reply("sandy", Said("feel.check_sandy"), False, Said("feel.check_sandy_reply")),
    ],
)
