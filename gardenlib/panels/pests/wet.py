"""How long leaves stay wet: a panel of the fold on diseases, and its check."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts
from gardenlib.charts.wet_hours import wet_hours
from gardenlib.panels import controls as c
from gardenlib.panels.check import Check, Reply
from gardenlib.panels.panel import Spec
from gardenlib.pests import WetLeaves, leaf_wetness
from gardenlib.units import Quantity
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

DEW, BEFORE_DEW = 8, 3


def _wet_controls(session: Session) -> dict[str, w.Widget]:
    say = session.voice.say
    ways = [(say(f"disease.water_{way}"), way) for way in ("no", "evening", "morning")]
    return {
        "dew": c.whole_number(say("disease.dew"), 0, 16, DEW),
        "sprinkled": c.choice(say("disease.water"), ways, "no"),
        "before": c.whole_number(say("disease.before"), 0, 8, BEFORE_DEW),
    }


def _wet(session: Session, values: Mapping[str, Any]) -> WetLeaves:
    return leaf_wetness(values["dew"], sprinkled=values["sprinkled"], hours_before_dew=values["before"])


def wet_view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Draw the hours of wet leaves against the published ones."""
    say, voice, found = session.voice.say, session.voice, _wet(session, values)
    said = {
        "wet": Quantity(found.wet_hours, "hours"),
        "limit": Quantity(found.limit_hours, "hours"),
        "added": Quantity(found.added_hours, "hours"),
    }
    finding = say("disease.wet_long" if found.long_enough else "disease.wet_short", **said)
    if found.added_hours:
        finding = f"{finding} {say('disease.wet_added', **said)}"
    parts = (say("disease.bar_sprinkled"), say("disease.bar_dew"), say("disease.bar_limit", **said))
    words = (*parts, say("disease.bar_axis"))
    dew = Quantity(values["dew"], "hours")
    drawn = wet_hours(found.added_hours, dew.value, found.limit_hours, words=words)
    rows = [(part, voice.quantity(hours)) for part, hours in zip(parts[:2], (said["added"], dew), strict=True)]
    rows += [
        (say("disease.bar_all"), voice.quantity(said["wet"])),
        (say("disease.bar_needed"), voice.quantity(said["limit"])),
    ]
    table = pd.DataFrame(rows, columns=[say("disease.column_what"), say("disease.column_hours")])
    return charts.View(finding, table, charts.svg(drawn), say("disease.wet_alt", **said))


WET = Spec(
    "05.wet",
    Said("disease.wet_title"),
    _wet_controls,
    wet_view,
    intro=Said("disease.wet_title"),
    working=_wet,
    notes=lambda session, values: [*_wet(session, values).assumptions, Said("disease.wet_others")],
)


def _hours_replies(session: Session) -> list[Reply]:
    wet = leaf_wetness(DEW, sprinkled="evening", hours_before_dew=BEFORE_DEW)
    limit = {"limit": Quantity(wet.limit_hours, "hours")}
    dew, both = Quantity(DEW, "hours"), Quantity(wet.wet_hours, "hours")
    alone = Quantity(wet.added_hours, "hours")
    return [
        Reply("dew", Said("disease.check2_hours", {"x": dew}), False, Said("disease.check2_dew_reply")),
        Reply("both", Said("disease.check2_hours", {"x": both}), True, Said("disease.check2_both_reply", limit)),
        Reply("alone", Said("disease.check2_hours", {"x": alone}), False, Said("disease.check2_alone_reply")),
    ]


HOURS = Check(
    "05.disease.check2",
    lambda session: Said(
        "disease.check2_question", {"before": Quantity(BEFORE_DEW, "hours"), "dew": Quantity(DEW, "hours")}
    ),
    _hours_replies,
)
