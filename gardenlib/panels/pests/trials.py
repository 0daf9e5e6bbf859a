"""What published trials of nets and of rotation found, each with its place."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import pandas as pd

from gardenlib import charts
from gardenlib.panels.panel import Spec
from gardenlib.tables.loader import rows
from gardenlib.units import Range
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session


def less(session: Session, trial: str) -> str:
    """Write what one trial found, in parts of 100."""
    return session.voice.number(next(row["low"] for row in rows("control_trials") if row["trial"] == trial), 0)


def trials_view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """List published trials of nets and rotation, each with its place."""
    say, found = session.voice.say, []
    for row in rows("control_trials"):
        if row["unit"] == "m":
            effect = session.voice.range(Range(row["low"], row["high"], "m"), places=0)
        else:
            effect = "" if row["low"] is None else session.voice.number(row["low"])
        trial = row["trial"]
        found.append((say(f"before.trial_{trial}"), say(f"before.found_{trial}", x=effect)))
    table = pd.DataFrame(found, columns=[say("before.column_trial"), say("before.column_found")])
    return charts.View(say("before.trials_finding"), table, None, say("before.trials_finding"))


TRIALS = Spec(
    "05.trials",
    Said("before.trials_title"),
    lambda session: {},
    trials_view,
    intro=Said("before.trials_title"),
    notes=lambda session, values: [Said("before.small_garden")],
)
