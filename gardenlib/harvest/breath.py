"""What broccoli breathes out, and the warmth that it gives off."""

from __future__ import annotations

from dataclasses import dataclass

from gardenlib.problems import InputProblem
from gardenlib.tables.loader import rows
from gardenlib.units import Quantity, Range
from gardenlib.working import Answer, Notes

KCAL_PER_ML = 122.0
"""Kilocalories a tonne and day for each mL of CO2 a kilogram and hour."""
_BROCCOLI = "davis_broccoli"


@dataclass(frozen=True, kw_only=True)
class Breathing(Answer):
    """What broccoli breathes out and how warm that is.

    Parameters
    ----------
    temp_c : float
        Temperature, degrees Celsius.
    co2_ml_kg_hour : Range
        Carbon dioxide, mL a kilogram and hour.
    heat_kcal_tonne_day : Range
        Warmth, kilocalories a tonne and day.
    """

    temp_c: float
    co2_ml_kg_hour: Range
    heat_kcal_tonne_day: Range

    def times(self, cooler: Breathing) -> Range:
        """Tell how many times as much it breathes as in a cooler place.

        Parameters
        ----------
        cooler : Breathing
            What it breathes there.

        Returns
        -------
        Range
            Lowest and highest ratio of the two printed spans.
        """
        mine, other = self.co2_ml_kg_hour, cooler.co2_ml_kg_hour
        return Range(mine.low / other.high, mine.high / other.low, "times")


def breathing(temp_c: float) -> Breathing:
    """Tell what broccoli breathes out at a printed temperature, and how warm that is.

    Parameters
    ----------
    temp_c : float
        One of the printed temperatures: 0, 5, 10, 15 or 20 degrees Celsius.

    Returns
    -------
    Breathing
        Carbon dioxide and warmth. It explains why warmth shortens a life; no life is reckoned from it.

    Raises
    ------
    InputProblem
        At any other temperature.

    Notes
    -----
    Source: University of California Davis Postharvest, Produce Facts: Broccoli, rates of respiration and 122
    kilocalories a tonne and day for each mL of CO2 a kilogram and hour.

    Examples
    --------
    >>> breathing(0.0).heat_kcal_tonne_day
    Range(low=1220.0, high=1342.0, unit='kcal')
    """
    printed = {row["temp_c"]: row for row in rows("breathing")}
    if temp_c not in printed:
        known = ", ".join(f"{temp:g}" for temp in printed)
        raise InputProblem("air.breathing", value=str(temp_c), known=known)
    row, notes = printed[temp_c], Notes()
    low, high = row["low_ml_kg_hour"], row["high_ml_kg_hour"]
    co2, heat = Range(low, high, "ml"), Range(low * KCAL_PER_ML, high * KCAL_PER_ML, "kcal")
    notes.step("air.breath", "as printed", {"place": Quantity(temp_c, "degC")}, co2, _BROCCOLI)
    notes.step("air.heat", "122 * CO2", {"CO2": co2}, heat, _BROCCOLI)
    return Breathing(temp_c=float(temp_c), co2_ml_kg_hour=co2, heat_kcal_tonne_day=heat, **notes.parts())
