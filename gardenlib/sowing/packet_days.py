"""A packet's own days in place of the published range."""

from __future__ import annotations

from dataclasses import replace
from typing import Any, Literal

from gardenlib.problems import InputProblem
from gardenlib.sowing.limits import as_crop
from gardenlib.sowing.windows import SET_OUT, days_of_weeks, paths_of
from gardenlib.tables import Crop, Published
from gardenlib.units import Quantity, Range
from gardenlib.working import Notes, Value

FEWEST_DAYS, MOST_DAYS = 15, 365


def with_packet(crop: str | Crop, packet_days: float | str, packet_from: Literal["plants", "seed"]) -> Crop:
    """Give a crop with the days that a packet prints in place of the published range.

    Parameters
    ----------
    crop : str or Crop
        A crop id or a crop.
    packet_days : float or str
        Days to the first harvest, a whole number.
    packet_from : {"plants", "seed"}
        From where the packet counts: plants that are set out, or seed that is sown.

    Returns
    -------
    Crop
        The crop with the packet's days.

    Raises
    ------
    InputProblem
        When the days are no whole number from 15 to 365, it is not said from where they count, the crop is never set
        out as plants, or fewer days from seed than the plants stay indoors.

    Notes
    -----
    Days from seed of a crop that is raised indoors lose the weeks indoors: common practice, no source.

    Examples
    --------
    >>> with_packet("cabbage_early", 62, "plants").days_from_transplant.full
    Range(low=62, high=62, unit='days')
    """
    plant, days = as_crop(crop), _whole_days(packet_days)
    if packet_from not in ("plants", "seed"):
        raise InputProblem("kinds.packet_from", value=packet_from)
    if packet_from == "plants" and SET_OUT not in paths_of(plant):
        raise InputProblem("kinds.packet_not_plants", crop=plant.name)
    fields: dict[str, Any] = {"days_from_transplant": None, "days_from_seed": None, "days_basis_not_stated": None}
    fields[f"days_from_{'transplant' if packet_from == 'plants' else 'seed'}"] = _packet(days, days)
    if packet_from == "seed" and SET_OUT in paths_of(plant) and plant.weeks_indoor is not None:
        weeks = plant.weeks_indoor.typical
        left = days - days_of_weeks(weeks.high), days - days_of_weeks(weeks.low)
        if left[0] < 1:
            raise InputProblem("kinds.packet_short", value=days, weeks=weeks)
        fields["days_from_transplant"] = _packet(*left)
    return replace(plant, **fields)


def _whole_days(value: float | str) -> int:
    try:
        days = float(value)
    except (TypeError, ValueError):
        raise InputProblem("kinds.packet_words", value=value) from None
    if isinstance(value, bool) or not FEWEST_DAYS <= days <= MOST_DAYS or not days.is_integer():
        raise InputProblem("kinds.packet_days", value=str(value), low=FEWEST_DAYS, high=MOST_DAYS)
    return int(days)


def _packet(low: int, high: int) -> Published:
    span = Range(low, high, "days")
    return Published(full=span, typical=span, status="published", sources=("seed_packet",))


def tell_packet(notes: Notes, plant: Crop, packet_from: str) -> None:
    """Keep what the packet says and what was counted from it."""
    notes.say("kinds.from_packet", "seed_packet", crop=plant.name)
    seed, left = plant.days_from_seed, plant.days_from_transplant
    if packet_from == "seed" and seed is not None and left is not None and plant.weeks_indoor is not None:
        inputs: dict[str, Value] = {
            "packet_days": Quantity(seed.full.low, "days"),
            "weeks_indoors": plant.weeks_indoor.typical,
        }
        notes.step("kinds.after_indoors", "packet_days - weeks_indoors * 7", inputs, left.full, "common_practice")
        notes.say("kinds.check_slow", "common_practice")
