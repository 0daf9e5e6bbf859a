"""Hardening off, day by day: from an hour in the shade to the day of setting out."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import TYPE_CHECKING, Any

from gardenlib.problems import InputProblem
from gardenlib.sowing.limits import TENDER, as_crop
from gardenlib.sowing.windows import SET_OUT, paths_of
from gardenlib.tables import Crop
from gardenlib.tables.loader import rows
from gardenlib.units import Quantity, f_to_c
from gardenlib.working import Answer, Notes

if TYPE_CHECKING:
    import pandas as pd

SHORTEST_DAYS, LONGEST_DAYS, USUAL_DAYS = 3, 14, 10
MOST_DAYTIME_HOURS = 10
BUTTONS = ("broccoli", "cauliflower")


@dataclass(frozen=True, kw_only=True)
class HardeningPlan(Answer):
    """What to do with young plants on each day before they are set out.

    Parameters
    ----------
    crop : str
        Crop id.
    set_out : date
        The day of setting out.
    night_above_c : float
        Nights outside must stay above this, degrees Celsius.
    table : DataFrame
        One row a day, the last one the day of setting out: ``day``, ``hours_outside``, ``light`` (``shade``,
        ``part_sun``, ``full_sun``), ``night`` (``inside``, ``outside``).
    """

    crop: str
    set_out: date
    night_above_c: float
    table: pd.DataFrame


def hardening_plan(crop: str | Crop, set_out: date, *, days: int = USUAL_DAYS) -> HardeningPlan:
    """Plan the days of hardening off before a day of setting out.

    Parameters
    ----------
    crop : str or Crop
        A crop id or a crop that is set out as plants.
    set_out : date
        The day of setting out.
    days : int
        Days of hardening off, 3 to 14.

    Returns
    -------
    HardeningPlan
        The plan; hours outside never fall, and shade, part sun and full sun get a third of the days each.

    Raises
    ------
    InputProblem
        When the crop is not set out as plants, the day is no date, or the days are not 3 to 14.

    Notes
    -----
    Sources: University of Maryland Extension (2023), 7 to 14 days, shade first, more light each day, less water, in
    at night below 45 F, cucumbers and melons below 50 F; University of Massachusetts and University of Connecticut
    Extension (2016), 3 to 6 days; Hennepin County Master Gardeners (2014), 14 days, 1 hour on the first.  How the
    hours rise in between, and that the last quarter of the nights is spent outside, is common practice, no source.

    Examples
    --------
    >>> plan = hardening_plan("tomato", date(2027, 5, 10), days=7)
    >>> plan.table["hours_outside"].tolist()
    [1, 3, 5, 6, 8, 10, 24, 24]
    """
    import pandas as pd

    plant = as_crop(crop)
    if SET_OUT not in paths_of(plant) or plant.method == "sets":
        raise InputProblem("hardening.not_set_out", crop=plant.name)
    if not isinstance(set_out, date) or isinstance(set_out, datetime):
        raise InputProblem("hardening.set_out", value=set_out)
    if isinstance(days, bool) or not isinstance(days, int) or not SHORTEST_DAYS <= days <= LONGEST_DAYS:
        raise InputProblem("hardening.days", value=days, low=SHORTEST_DAYS, high=LONGEST_DAYS)
    notes = Notes()
    outside, first = max(1, days // 4), _figure("first_day", "all")
    by_day = days - outside
    rise = (MOST_DAYTIME_HOURS - first["low"]) / (by_day - 1)
    plan: list[tuple[date, int, str, str]] = [
        (
            set_out - timedelta(days=days - n),
            24 if n >= by_day else int(first["low"] + rise * n + 0.5),
            ("shade", "part_sun", "full_sun")[min(2, n * 3 // days)],
            "outside" if n >= by_day else "inside",
        )
        for n in range(days + 1)
    ]
    night = _night(plant)
    night_c = f_to_c(night["low"])
    _tell(notes, plant, days, set_out)
    temp = Quantity(night_c, "degC")
    notes.step("hardening.night", "lowest night by kind of plant", {"plants": _group(plant)}, temp, night["source"])
    notes.say("hardening.water", "maryland_hardening_2023")
    notes.say("hardening.rise", "common_practice")
    table = pd.DataFrame(plan, columns=["day", "hours_outside", "light", "night"])
    table["day"] = pd.to_datetime(table["day"])
    return HardeningPlan(crop=plant.id, set_out=set_out, night_above_c=night_c, table=table, **notes.parts())


def _tell(notes: Notes, plant: Crop, days: int, set_out: date) -> None:
    """Keep the length with the sources that differ on it, and the warnings."""
    usual, shorter, longer = (_figure(topic, "all") for topic in ("length", "length_shorter", "length_longer"))
    notes.step(
        "hardening.start",
        "set_out - days",
        {"set_out": set_out, "days": Quantity(days, "days")},
        set_out - timedelta(days=days),
        shorter["source"] if days < usual["low"] else usual["source"],
    )
    notes.step("hardening.first_day", "hours on the first day", {}, Quantity(1, "hours"), "hennepin_hardening_2014")
    notes.say(
        "hardening.sources_differ",
        *(figure["source"] for figure in (usual, shorter, longer)),
        low=int(usual["low"]),
        high=int(usual["high"]),
        short_low=int(shorter["low"]),
        short_high=int(shorter["high"]),
    )
    if plant.hardiness not in TENDER:
        notes.say("hardening.too_much", "newengland_hardening_2016")
    if plant.id in BUTTONS:
        notes.say("hardening.never_stop", "maryland_hardening_2023", crop=plant.name)


def _figure(topic: str, plants: str) -> Any:
    return next(row for row in rows("hardening_off") if row["topic"] == topic and row["plants"] == plants)


def _group(plant: Crop) -> str:
    if plant.family == "Cucurbitaceae":
        return "cucurbits"
    return "tender" if plant.hardiness in TENDER else "others"


def _night(plant: Crop) -> Any:
    return _figure("night_above", _group(plant))
