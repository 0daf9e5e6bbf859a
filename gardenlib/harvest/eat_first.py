"""What to eat first: stored lots in an order that loses the least, and what is left of them week by week."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
import numpy.typing as npt

from gardenlib.checks import checked_between
from gardenlib.harvest.keeping_time import storage_life
from gardenlib.harvest.store_places import MOST_DAYS, days_left
from gardenlib.problems import InputProblem
from gardenlib.sowing.limits import as_crop
from gardenlib.units import Quantity
from gardenlib.working import Answer, Notes, Value

if TYPE_CHECKING:
    from gardenlib.tables import Crop

MOST_KG = 10_000.0
MOST_LOTS = 40
MOST_WEEKS = 52


@dataclass(frozen=True)
class Lot:
    """One lot in the store.

    Parameters
    ----------
    crop : str or Crop
        What it is.
    kg : float
        How much of it.
    temp_c : float
        Temperature of its place, degrees Celsius.
    kept_days : float
        How long it lay there already, days.
    """

    crop: str | Crop
    kg: float
    temp_c: float
    kept_days: float = 0.0


@dataclass(frozen=True)
class Turn:
    """When a lot's turn comes.

    Parameters
    ----------
    place : int
        Its place in the list that was given, from 0.
    crop : str
        Crop id.
    kg : float
        How much of it lies there.
    good_days : float
        Days for which it stays good yet, by the short end of the published life.
    lost_kg : float
        What goes bad before it can be eaten.
    """

    place: int
    crop: str
    kg: float
    good_days: float
    lost_kg: float


@dataclass(frozen=True, kw_only=True)
class EatingOrder(Answer):
    """An order for eating, and what is left.

    Parameters
    ----------
    turns : tuple of Turn
        Lots in the order in which they are eaten.
    left_kg : array, shape (weeks + 1, lots)
        What is still good and not eaten after each week, lots in the order of `turns`; the first row is today.
    lost_kg : float
        What goes bad, all lots together.
    """

    turns: tuple[Turn, ...]
    left_kg: npt.NDArray[np.float64]
    lost_kg: float


def _eaten(
    kg: npt.NDArray[np.float64], good: npt.NDArray[np.float64], kg_day: float
) -> tuple[npt.NDArray[np.float64], npt.NDArray[np.float64], npt.NDArray[np.float64]]:
    """Give for each lot the day its eating starts and ends, and what is lost."""
    starts, ends, now = np.zeros(len(kg)), np.zeros(len(kg)), 0.0
    for place, (amount, until) in enumerate(zip(kg, good, strict=True)):
        starts[place] = now
        now = ends[place] = max(now, min(now + amount / kg_day, until))
    lost = kg - (ends - starts) * kg_day
    return starts, ends, np.where(lost < 1e-9, 0.0, lost)


def eating_order(lots: Sequence[Lot], kg_week: float, *, weeks: int = 8) -> EatingOrder:
    """Order stored lots so that as little as can be goes bad.

    Parameters
    ----------
    lots : sequence of Lot
        What lies in the store, 1 to 40 lots.
    kg_week : float
        What is eaten in a week, kilograms.
    weeks : int
        For how many weeks to tell what is left, 1 to 52.

    Returns
    -------
    EatingOrder
        The order, and what is left week by week.

    Raises
    ------
    InputProblem
        When there is no lot, a number cannot be used, or nothing is published for a lot's crop and temperature.

    Notes
    -----
    The lot that goes bad soonest is eaten first (common practice, no source); for
    lots that all lie there today no order loses less. Lives are those of `storage_life`, at their short end.

    Examples
    --------
    >>> lots = [Lot("cabbage_main", 4.0, 4.0), Lot("kale", 1.0, 5.0)]
    >>> [turn.crop for turn in eating_order(lots, 1.0).turns]
    ['kale', 'cabbage_main']
    """
    if not 1 <= len(lots) <= MOST_LOTS:
        raise InputProblem("eatfirst.lots", n=len(lots), most=MOST_LOTS)
    rate = _amount(kg_week, "kg_week")
    shown = int(checked_between(weeks, "weeks", 1, MOST_WEEKS))
    notes = Notes()
    amounts = np.array([_amount(lot.kg, "kg") for lot in lots])
    good = np.array([_good_days(lot, n, notes) for n, lot in enumerate(lots, start=1)])
    order = np.lexsort((np.arange(len(lots)), good))
    kg, until = amounts[order], good[order]
    starts, ends, lost = _eaten(kg, until, rate / 7)
    after = 7.0 * np.arange(shown + 1)[:, None]
    eaten = np.clip(after - starts, 0, ends - starts) * rate / 7
    left = np.where(after < until, kg - eaten, 0.0)
    notes.say("eatfirst.short_end")
    notes.say("eatfirst.soonest_first")
    return EatingOrder(
        turns=tuple(
            Turn(int(place), as_crop(lots[place].crop).id, float(amounts[place]), float(good[place]), float(gone))
            for place, gone in zip(order, lost, strict=True)
        ),
        left_kg=np.where(left < 1e-9, 0.0, left),
        lost_kg=float(lost.sum()),
        **notes.parts(),
    )


def _amount(value: float, name: str) -> float:
    amount = checked_between(value, name, 0, MOST_KG)
    if amount == 0:
        raise InputProblem("eatfirst.nothing", name=name)
    return amount


def _good_days(lot: Lot, number: int, notes: Notes) -> float:
    kept = checked_between(lot.kept_days, "kept_days", 0, MOST_DAYS)
    left = days_left(lot.crop, lot.temp_c, [(lot.temp_c, kept)]).low
    life = storage_life(lot.crop, lot.temp_c)
    given: dict[str, Value] = {"lot": number, "life": Quantity(life.days.low, "days"), "kept": Quantity(kept, "days")}
    notes.step("eatfirst.left", "life - kept, at least 0", given, Quantity(left, "days"), life.source)
    return left
