"""The season's water by week, in the fold on water."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts
from gardenlib.beds import season_water
from gardenlib.charts.water_weeks import water_weeks
from gardenlib.panels import controls as c
from gardenlib.panels.beds.hose import said_depth
from gardenlib.panels.beds.weather import thirsty_crops, weekly_of
from gardenlib.panels.panel import Spec, note
from gardenlib.units import MM_PER_INCH, Quantity
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session


def _controls(session: Session) -> dict[str, w.Widget]:
    ids = thirsty_crops(session)
    return {"crop": c.choice(session.voice.say("water.crop"), [(session.crop_name(i), i) for i in ids], ids[0])}


def view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Show the weeks of a full bed against an inch."""
    say, voice, weekly = session.voice.say, session.voice, weekly_of(session)
    if weekly is None:
        return note(say("water.season_none"))
    used, name = season_water(session.crop(values["crop"]), weekly), session.crop_name(values["crop"])
    header = say("water.season_unit_us") if voice.units == "us" else say("water.season_unit_metric")
    chart = water_weeks(
        used.starts,
        used.typical_mm.tolist(),
        None if used.dry_mm is None else used.dry_mm.tolist(),
        MM_PER_INCH,
        voice=voice,
        header=header,
        labels=(say("water.line_typical"), say("water.line_dry"), say("water.line_rule")),
    )
    most = voice.quantity(Quantity(used.most_mm, "mm"), places=1)
    finding = f"{say('water.season_finding', n=used.weeks_over, crop=name)} "
    finding += say("water.season_most", most=most, day=used.most_from)
    columns = {
        say("water.season_column"): [voice.date(day) for day in used.starts[::4]],
        say("water.season_typical"): [said_depth(session, mm) for mm in used.typical_mm[::4]],
    }
    if used.dry_mm is not None:
        columns[say("water.season_dry")] = [said_depth(session, mm) for mm in used.dry_mm[::4]]
    alt = say("water.season_alt", crop=name, n=used.weeks_over)
    return charts.View(finding, pd.DataFrame(columns), charts.svg(chart), alt)


SEASON = Spec("03.water_season", Said("water.season_title"), _controls, view)
