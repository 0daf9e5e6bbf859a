"""What every source says of a place, and what a life in one place after another leaves."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from gardenlib.checks import checked_between
from gardenlib.harvest.keeping_rows import series_of
from gardenlib.harvest.keeping_time import EDGE_C, TEMP_C, StorageLife, storage_life
from gardenlib.sowing.limits import as_crop
from gardenlib.units import Range

if TYPE_CHECKING:
    from gardenlib.tables import Crop

MOST_DAYS = 3650.0


def storage_lives(crop: str | Crop, temp_c: float) -> tuple[StorageLife, ...]:
    """Tell what each source says of a crop at one temperature, the source with the most temperatures first.

    Parameters
    ----------
    crop : str or Crop
        What is stored.
    temp_c : float
        Temperature of the store, degrees Celsius.

    Returns
    -------
    tuple of StorageLife
        One a source and form whose temperatures reach so far; none where no source does.

    Raises
    ------
    InputProblem
        When there is no such crop, or the temperature cannot be used.

    Notes
    -----
    Each source stands alone, as in `storage_life`; they are never averaged.

    Examples
    --------
    >>> [life.source for life in storage_lives("cabbage_main", 4.0)]
    ['dpird_brassica_2017', 'ahr_storage']
    """
    plant, temp = as_crop(crop), checked_between(temp_c, "temp_c", *TEMP_C)
    return tuple(
        storage_life(plant, temp, form=series.form, source=series.source)
        for series in series_of(plant.id)
        if series.temp_c.low - EDGE_C <= temp <= series.temp_c.high + EDGE_C
    )


def days_left(
    crop: str | Crop,
    temp_c: float,
    past: Sequence[tuple[float, float]],
    *,
    form: str | None = None,
    source: str | None = None,
) -> Range:
    """Tell how long a crop stays good after it lay in other places: the shares of life that were used add up.

    Parameters
    ----------
    crop : str or Crop
        What is stored.
    temp_c : float
        Temperature of the place it lies in from now on, degrees Celsius.
    past : sequence of (float, float)
        Temperature, degrees Celsius, and days, of each place it lay in so far.
    form, source : str, optional
        As in `storage_life`; one source for all places.

    Returns
    -------
    Range
        Days left, shortest and longest; 0 where the life is used up.

    Raises
    ------
    InputProblem
        When a number cannot be used, or a temperature lies outside the printed ones.

    Notes
    -----
    The life is used up when the sum of days / life(temperature) reaches 1; common practice, no source.

    Examples
    --------
    A week at 20 C is all that the source gives a cabbage.

    >>> days_left("cabbage_main", 4.0, [(20.0, 3.5)])
    Range(low=7.0, high=21.0, unit='days')
    """
    now = storage_life(crop, temp_c, form=form, source=source)
    low, high = 1.0, 1.0
    for place_c, days in past:
        spent = checked_between(days, "days", 0, MOST_DAYS)
        life = storage_life(crop, place_c, form=now.form, source=now.source).days
        low, high = low - spent / life.low, high - spent / life.high
    return Range(max(low, 0.0) * now.days.low, max(high, 0.0) * now.days.high, "days")
