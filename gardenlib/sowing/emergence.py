"""Warm enough? Days from sowing to emergence by soil temperature."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Literal

from gardenlib.problems import InputProblem
from gardenlib.sowing.limits import as_crop
from gardenlib.tables import Crop
from gardenlib.tables.loader import rows
from gardenlib.units import Quantity, Range, f_to_c
from gardenlib.words import Said
from gardenlib.working import Answer, Notes

State = Literal["days", "none", "not tested", "between", "sources differ", "beyond", "no row"]
DISPUTED_ABOVE_F = {"cabbage": 85}
"""Copies of the table differ for warmer soil."""
COLDEST_C, WARMEST_C = -30.0, 70.0
_SAME_C = 1e-6


@dataclass(frozen=True)
class _Cell:
    temp_c: float
    state: str
    days: float | None


@dataclass(frozen=True, kw_only=True)
class Emergence(Answer):
    """How long seed takes to come up at a soil temperature.

    Parameters
    ----------
    crop : str
        Crop id.
    soil_temp_c, error_c : float
        Soil temperature and how far off it may be, degrees Celsius.
    state : str
        ``days``: they are known. ``none``: no seed came up in the test. ``not tested``: nobody tried. ``between``: on
        one side seed came up, on the other it did not or was not tried. ``sources differ``: copies of the table do
        not agree. ``beyond``: colder or warmer than the table. ``no row``: the crop is not in the table.
    days : float or None
        Days from sowing half an inch deep to emergence.
    span : Range or None
        Fewest and most days within the error; None without an error, or where a part of it has no days.
    reason : Said or None
        Why there are no days.
    tested : tuple of (float, str, float or None)
        The cells of the table: soil temperature in degrees Celsius, state, days.
    """

    crop: str
    soil_temp_c: float
    error_c: float
    state: State
    days: float | None
    span: Range | None
    reason: Said | None
    tested: tuple[tuple[float, str, float | None], ...]


def days_to_emerge(crop: str | Crop, soil_temp_c: float, *, error_c: float = 0.0) -> Emergence:
    """Tell how many days seed takes to come up in soil of a temperature.

    Parameters
    ----------
    crop : str or Crop
        A crop id or a crop.
    soil_temp_c : float
        Soil temperature, degrees Celsius.
    error_c : float
        How far off the temperature may be, degrees Celsius; 0 for one that was measured.

    Returns
    -------
    Emergence
        The days, or why there are none.

    Raises
    ------
    InputProblem
        When the temperature is none that soil can have, or the error is below 0.

    Notes
    -----
    Source: Harrington and Minges (1954), reprinted in Knott's Handbook (1997). Between two tested temperatures with
    days the rate (1 / days) is drawn straight; nothing is drawn across a cell without days or beyond the table.

    Examples
    --------
    >>> days_to_emerge("carrot", 10.0).days
    17.0
    >>> days_to_emerge("bean_bush", 10.0).state
    'none'
    """
    plant, notes = as_crop(crop), Notes()
    if not COLDEST_C <= soil_temp_c <= WARMEST_C:
        raise InputProblem("warm.soil_temp", temp=Quantity(soil_temp_c, "degC"))
    if not error_c >= 0:
        raise InputProblem("warm.error", value=f"{error_c:g}")
    row = [line for line in rows("emergence_by_temp") if line["crop"] == plant.id]
    cells = tuple(_Cell(f_to_c(line["soil_temp_f"]), line["state"], line["days"]) for line in row)
    top_f = DISPUTED_ABOVE_F.get(row[0]["vegetable"]) if row else None
    top_c = None if top_f is None else f_to_c(float(top_f))
    state, days = _read(cells, soil_temp_c, top_c)
    span = _span(cells, soil_temp_c, error_c, top_c)
    if row:
        source = row[0]["source"]
        below, above = _around(cells, soil_temp_c) if state != "beyond" else (None, None)
        inputs: dict[str, Any] = {"soil": Quantity(soil_temp_c, "degC")}
        if below and above and below is not above and days is not None:
            inputs |= {
                "cooler": Quantity(below.temp_c, "degC"),
                "days_cooler": below.days,
                "warmer": Quantity(above.temp_c, "degC"),
                "days_warmer": above.days,
            }
            formula = "1 / (1/days_cooler + (1/days_warmer - 1/days_cooler) * (soil - cooler) / (warmer - cooler))"
            notes.step("warm.between", formula, inputs, Quantity(days, "days"), source)
        else:
            result = None if days is None else Quantity(days, "days")
            notes.step("warm.read", "days at soil", inputs, result, source)
        notes.say("warm.half_inch", source)
        if row[0]["where"].endswith("the same species"):
            notes.say("warm.as_cabbage", crop=plant.name)
        if span is not None:
            given = {"soil": Quantity(soil_temp_c, "degC"), "error": Quantity(error_c, "degC_difference")}
            notes.step("warm.span", "days from soil - error to soil + error", given, span, source)
    return Emergence(
        crop=plant.id,
        soil_temp_c=soil_temp_c,
        error_c=error_c,
        state=state,
        days=days,
        span=span,
        reason=_reason(state, plant, soil_temp_c, cells, top_c),
        tested=tuple((cell.temp_c, cell.state, cell.days) for cell in cells),
        **notes.parts(),
    )


def _around(cells: tuple[_Cell, ...], temp_c: float) -> tuple[_Cell, _Cell]:
    below = max((cell for cell in cells if cell.temp_c <= temp_c + _SAME_C), key=lambda cell: cell.temp_c)
    if abs(below.temp_c - temp_c) <= _SAME_C:
        return below, below
    return below, min((cell for cell in cells if cell.temp_c > temp_c), key=lambda cell: cell.temp_c)


def _read(cells: tuple[_Cell, ...], temp_c: float, top_c: float | None) -> tuple[State, float | None]:
    if not cells:
        return "no row", None
    if temp_c < cells[0].temp_c - _SAME_C or temp_c > cells[-1].temp_c + _SAME_C:
        return "beyond", None
    below, above = _around(cells, temp_c)
    if below.days is not None and above.days is not None:
        if top_c is not None and temp_c > top_c + _SAME_C:
            return "sources differ", None
        apart = above.temp_c - below.temp_c
        share = (temp_c - below.temp_c) / apart if apart else 0.0
        return "days", 1 / (1 / below.days + (1 / above.days - 1 / below.days) * share)
    alike: State = "none" if below.state == "none" else "not tested"
    return (alike if below.state == above.state else "between"), None


def _span(cells: tuple[_Cell, ...], temp_c: float, error_c: float, top_c: float | None) -> Range | None:
    if error_c == 0:
        return None
    low, high = temp_c - error_c, temp_c + error_c
    temps = [low, high, temp_c, *(cell.temp_c for cell in cells if low < cell.temp_c < high)]
    found = [_read(cells, temp, top_c)[1] for temp in temps]
    known = [days for days in found if days is not None]
    return Range(min(known), max(known), "days") if len(known) == len(found) else None


def _reason(state: State, plant: Crop, temp_c: float, cells: tuple[_Cell, ...], top_c: float | None) -> Said | None:
    said = {"crop": plant.name, "temp": Quantity(temp_c, "degC")}
    if state == "none":
        return Said("warm.none", said)
    if state == "not tested":
        return Said("warm.not_tested", said)
    if state == "between":
        return Said("warm.at_the_edge", said)
    if state == "sources differ" and top_c is not None:
        return Said("warm.sources_differ", {"crop": plant.name, "temp": Quantity(top_c, "degC")})
    if state == "beyond":
        ends = Range(cells[0].temp_c, cells[-1].temp_c, "degC")
        return Said("warm.beyond", {**said, "span": ends})
    return Said("warm.no_row", said) if state == "no row" else None
