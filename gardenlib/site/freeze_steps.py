"""The working of a freeze date, step by step."""

from __future__ import annotations

from typing import TypedDict

from gardenlib.site.freeze import Half, date_of
from gardenlib.site.freeze_half import FromSeasons, Published
from gardenlib.units import f_to_c
from gardenlib.working import Quantity, Step

SOURCE = "ncei_2021_methods"


class _Words(TypedDict):
    usable: str
    froze: str
    place: str
    date: str


_KEYS: dict[Half, _Words] = {
    "spring": {
        "usable": "climate.springs_usable",
        "froze": "climate.springs_froze",
        "place": "climate.springs_place",
        "date": "climate.springs_date",
    },
    "fall": {
        "usable": "climate.falls_usable",
        "froze": "climate.falls_froze",
        "place": "climate.falls_place",
        "date": "climate.falls_date",
    },
}


def counting(part: FromSeasons | Published, threshold_f: float) -> tuple[Step, ...]:
    """Give the steps that do not hang on a risk: how many seasons count and how many froze."""
    keys, at = _KEYS[part.half], Quantity(f_to_c(float(threshold_f)), "degC")
    if isinstance(part, FromSeasons):
        return (
            Step(keys["usable"], "at most 10 nights missing", {}, part.n_usable, SOURCE),
            Step(keys["froze"], "lowest of a night ≤ limit", {"limit": at}, len(part.days), SOURCE),
        )
    given = Step("climate.published_given", "dates as published", {"limit": at}, None, SOURCE)
    if part.state != "dates" or part.share == 1:
        return (given,)
    return (
        given,
        Step("climate.share", "years with a freeze of 100", {"limit": at}, round(part.share * 100, 1), SOURCE),
    )


def to_date(
    part: FromSeasons | Published, threshold_f: float, risk: float, day: float | None, *, year: int, typed: bool
) -> tuple[Step, ...]:
    """Give all steps to one date, `day` being what the source answers at the risk."""
    before = () if typed else counting(part, threshold_f)
    when = None if day is None else date_of(day, year)
    tenths = round(risk * 10, 2)
    if when is None:
        return (
            *before,
            Step("climate.no_date", "freezes rarer than the risk", {"risk of 10": tenths}, None, SOURCE),
        )
    if isinstance(part, FromSeasons):
        keys = _KEYS[part.half]
        place = round((part.n_usable - 1) * risk + 1, 2)
        return (
            *before,
            Step(
                keys["place"],
                "place = (seasons − 1) × risk of 10 ÷ 10 + 1",
                {"seasons": part.n_usable, "risk of 10": tenths},
                place,
                SOURCE,
            ),
            Step(keys["date"], "date at that place in the line", {"place": place}, when, SOURCE),
        )
    known = {f"{round(r * 10, 2):g} of 10": date_of(d, year) for r, d in sorted(part.points.items())}
    key = "climate.typed_date" if typed else "climate.published_date"
    return (
        *before,
        Step(
            key,
            "straight line between the nearest two",
            {"risk of 10": tenths, **known},
            when,
            "common_practice" if typed else SOURCE,
        ),
    )
