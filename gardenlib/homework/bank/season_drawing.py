"""The season of a question's place: how the risk of a freeze falls in spring and rises in fall."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from gardenlib.homework.bank.choose import FREEZE_F
from gardenlib.problems import InputProblem
from gardenlib.season.plan_limits import growing_year
from gardenlib.words import Voice

if TYPE_CHECKING:
    from gardenlib.homework.ground import Ground

_CURVE = ("day", "risk")


def season_drawing(ground: Ground, marks: Mapping[str, date]) -> str:
    """Draw the season with the days that a question names; `marks` are days by the keys of their words."""
    freezes, voice = ground.place.freezes, ground.voice
    if freezes is None:
        raise InputProblem("homework_skills.no_freeze")
    curves = [
        (half, *row)
        for half in ("spring", "fall")
        for row in freezes.curve(half, FREEZE_F, year=ground.year)[list(_CURVE)].itertuples(index=False, name=None)
    ]
    season = growing_year(ground.place.latitude, ground.year)
    spoken = voice.language, voice.units, tuple(sorted(voice.local.items()))
    return _drawn(tuple(curves), season, tuple(marks.items()), spoken)


@lru_cache(maxsize=64)
def _drawn(curves: Any, season: Any, marks: tuple[tuple[str, date], ...], spoken: Any) -> str:
    """Draw once what many learners of one place look at."""
    import pandas as pd

    from gardenlib import charts

    language, units, local = spoken
    voice = Voice(language=language, units=units, local=dict(local))
    chart = charts.freeze_season(
        pd.DataFrame(curves, columns=["half", *_CURVE]),
        season=season,
        voice=voice,
        marks=[charts.Mark(day, voice.say(key), "cold") for key, day in marks],
        note=voice.say("risk.no_curve"),
    )
    return charts.svg(chart)
