"""The air of a store: how strongly it dries, and what white cabbage loses there."""

from __future__ import annotations

from dataclasses import dataclass

from gardenlib.checks import checked_between
from gardenlib.harvest.vapor import (
    CABBAGE_C,
    CABBAGE_DAYS,
    CABBAGE_PA,
    cabbage_loss_pct,
    vapor_deficit_pa,
    vapor_pressure_kpa,
)
from gardenlib.problems import InputProblem
from gardenlib.units import Quantity, Range
from gardenlib.working import Answer, Notes, Value

STORE_C = (-5.0, 45.0)
_FAO, _ACTA = "fao56", "acta_157"


@dataclass(frozen=True, kw_only=True)
class Wilting(Answer):
    """How a store dries what lies in it.

    Parameters
    ----------
    deficit_pa : float
        How much more water vapor the air could hold, pascals.
    warmed_humidity_pct : float
        What the same air would read at room temperature, percent.
    cabbage_loss_pct : float or None
        What white cabbage loses of its weight; None where the trial does not reach.
    """

    deficit_pa: float
    warmed_humidity_pct: float
    cabbage_loss_pct: float | None


def wilting(temp_c: float, humidity_pct: float, days: float = 90.0, *, room_c: float = 20.0) -> Wilting:
    """Tell how strongly a store's air dries, and what white cabbage would lose there.

    Parameters
    ----------
    temp_c : float
        Temperature of the store, degrees Celsius.
    humidity_pct : float
        Relative humidity there, 0 to 100.
    days : float
        Days in the store.
    room_c : float
        Temperature of the room into which the air is brought, degrees Celsius.

    Returns
    -------
    Wilting
        The deficit, the reading in the room, and the loss where the trial reaches.

    Raises
    ------
    InputProblem
        When a number cannot be used.

    Notes
    -----
    Sources: FAO Irrigation and Drainage Paper 56, equation 11; Acta Horticulturae 157 (1984), article 34, with
    cabbage at 0.5 to 8 C, 14 to 88 Pa, for 2 to 3 months.

    Examples
    --------
    >>> round(wilting(4.0, 92.0, 60).cabbage_loss_pct, 1)
    4.7
    """
    temp, room = (checked_between(value, "temp_c", *STORE_C) for value in (temp_c, room_c))
    humidity = checked_between(humidity_pct, "humidity_pct", 0, 100)
    kept = checked_between(days, "days", 0, 3650)
    notes = Notes()
    full, full_room = (float(vapor_pressure_kpa(at)) for at in (temp, room))
    deficit = float(vapor_deficit_pa(temp, humidity))
    warmed = min(100.0, humidity * full / full_room)
    at: dict[str, Value] = {"T": temp}
    notes.step("air.full", "1000 * 0.6108 * e ^ (17.27 T / (T + 237.3)), T in C", at, Quantity(1000 * full, "Pa"), _FAO)
    given: dict[str, Value] = {"full": Quantity(1000 * full, "Pa"), "humidity": Quantity(humidity, "percent")}
    notes.step("air.deficit", "full * (1 - humidity / 100)", given, Quantity(deficit, "Pa"), _FAO)
    room_full = Quantity(1000 * full_room, "Pa")
    notes.step(
        "air.warmed",
        "humidity * full / full_in_the_room, at most 100",
        {**given, "full_in_the_room": room_full},
        Quantity(warmed, "percent"),
        _FAO,
    )
    return Wilting(
        deficit_pa=deficit,
        warmed_humidity_pct=warmed,
        cabbage_loss_pct=_loss(temp, deficit, kept, notes),
        **notes.parts(),
    )


def _loss(temp: float, deficit: float, days: float, notes: Notes) -> float | None:
    """Reckon the loss of cabbage where the trial reaches."""
    try:
        loss = cabbage_loss_pct(deficit, days)
    except InputProblem:
        loss = None
    if loss is None or not CABBAGE_C[0] <= temp <= CABBAGE_C[1]:
        spans = {
            "span": Range(*CABBAGE_C, "degC"),
            "air": Range(*CABBAGE_PA, "Pa"),
            "days": Range(*CABBAGE_DAYS, "days"),
        }
        notes.say("air.not_tried", _ACTA, **spans)
        return None
    given: dict[str, Value] = {"deficit": Quantity(deficit, "Pa"), "days": Quantity(days, "days")}
    notes.step("air.loss", "0.0696 deficit + 0.0314 days - 1.74", given, Quantity(loss, "percent"), _ACTA)
    notes.say("air.first_week", _ACTA)
    return loss
