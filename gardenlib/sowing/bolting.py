"""Cold after setting out: how often past springs were cold enough to make young cabbages bolt."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING, Any

from gardenlib.sowing.cold_days import check, cold_days
from gardenlib.sowing.limits import as_crop
from gardenlib.tables import Crop
from gardenlib.tables.loader import rows
from gardenlib.units import Quantity, f_to_c
from gardenlib.words import Said
from gardenlib.working import Answer, Notes, Value

if TYPE_CHECKING:
    import pandas as pd

FIRST_WEEKS = 4
FEWEST_SPRINGS = 20
MOST_MISSING_FRACTION = 0.1


@dataclass(frozen=True, kw_only=True)
class ColdSpell(Answer):
    """How many cold days past springs brought after a day of setting out.

    Parameters
    ----------
    crop : str
        Crop id.
    set_out : date
        The day of setting out.
    weeks : int
        Weeks after it that are looked at.
    response : {"bolts", "buttons"} or None
        What long cold makes the crop do; None where no source was found.
    stage : {"grown", "seedling"} or None
        From when on it feels the cold.
    stem_mm : float or None
        Stem from which it feels the cold, millimetres; None where unknown.
    days, below_c : int, float, or None
        So many days with a mean below it count as a cold spell; None where no source gives a limit.
    unchecked : bool
        Whether these two are from memory.
    table : DataFrame
        One row a spring: ``year`` of the setting out, ``cold_days`` and ``missing_days``; empty without a limit.
    springs, springs_hit : int
        Springs with a usable record, and those of them with a cold spell.
    springs_in_ten : int or None
        The same in ten; None from fewer than 20 springs or without a limit.
    reason : Said or None
        Why there is no number.
    """

    crop: str
    set_out: date
    weeks: int
    response: str | None
    stage: str | None
    stem_mm: float | None
    days: int | None
    below_c: float | None
    unchecked: bool
    table: pd.DataFrame
    springs: int
    springs_hit: int
    springs_in_ten: int | None
    reason: Said | None


def cold_spell_risk(
    crop: str | Crop,
    daily: pd.DataFrame,
    set_out: date,
    *,
    weeks: int = FIRST_WEEKS,
    days: int | None = None,
    below_c: float | None = None,
) -> ColdSpell:
    """Count the cold days after setting out in each past spring.

    Parameters
    ----------
    crop : str or Crop
        A crop id or a crop.
    daily : DataFrame, one row a day
        Daily record with ``tmin_c`` and ``tmax_c``, degrees Celsius, its index dates.
    set_out : date
        The day of setting out; month and day are taken in every year of the record.
    weeks : int
        Weeks after it that are looked at, 1 to 12.
    days : int, optional
        Cold days that make a cold spell; by default those known for the crop.
    below_c : float, optional
        A day is cold when the mean of its low and high is below, degrees Celsius; by default as known for the crop.

    Returns
    -------
    ColdSpell
        Counts by spring, and in how many of ten springs a cold spell came.

    Raises
    ------
    InputProblem
        When crop, day, weeks, days or limit cannot be used, or the record has no such columns.

    Notes
    -----
    Sources: Wien and Wurr, quoted, cabbage feels cold from a stem of about 6 mm on; Johnson, University of Delaware,
    which crops bolt as seedlings; University of Minnesota Extension, the first month decides.  The limits themselves
    (10 days below 50 F for cabbage, 4 for broccoli and cauliflower) are from memory and marked so.  Days are counted
    whether or not they follow each other, and by the mean of low and high: our own choice.

    Examples
    --------
    >>> import pandas as pd
    >>> spring = pd.date_range("2000-01-01", "2024-12-31")
    >>> daily = pd.DataFrame({"tmin_c": 2.0, "tmax_c": 12.0}, index=spring)
    >>> cold_spell_risk("cabbage_early", daily, date(2027, 4, 1)).springs_in_ten
    10
    """
    import pandas as pd

    plant = as_crop(crop)
    known = next((row for row in rows("cold_response") if row["crop"] == plant.id), None)
    check(set_out, weeks, days, below_c, daily)
    notes = Notes()
    limit = _limit(known, days, below_c)
    common: dict[str, Any] = {
        "crop": plant.id,
        "set_out": set_out,
        "weeks": weeks,
        "response": known and known["response"],
        "stage": known and known["stage"],
        "stem_mm": known and known["stem_mm"],
        "days": limit and limit[0],
        "below_c": limit and limit[1],
        "unchecked": bool(limit and (days is None or below_c is None)),
    }
    _tell(notes, plant, known)
    if limit is None:
        table = pd.DataFrame({name: pd.Series(dtype=int) for name in ("year", "cold_days", "missing_days")})
        reason = Said("bolting.no_limit" if known else "bolting.not_known", {"crop": plant.name})
        return ColdSpell(
            **common, table=table, springs=0, springs_hit=0, springs_in_ten=None, reason=reason, **notes.parts()
        )
    table = cold_days(daily, set_out, weeks, limit[1])
    usable = table[table["missing_days"] <= MOST_MISSING_FRACTION * 7 * weeks]
    hit = int((usable["cold_days"] >= limit[0]).sum())
    n = len(usable)
    enough = n >= FEWEST_SPRINGS
    in_ten = int(10 * hit / n + 0.5) if enough else None
    source = "common_practice" if known is None or not common["unchecked"] else str(known["limit_source"])
    if common["unchecked"]:
        notes.say("bolting.limit_unchecked", source, crop=plant.name)
    notes.say("bolting.counted_apart", "minnesota_cool_season")
    inputs: dict[str, Value] = {
        "mean_below": Quantity(limit[1], "degC"),
        "weeks": Quantity(weeks, "weeks"),
        "set_out": set_out,
    }
    notes.step("bolting.count", "days with (low + high) / 2 < mean_below", inputs, None, source)
    cold: dict[str, Value] = {"days_needed": Quantity(limit[0], "days"), "springs": n}
    notes.step("bolting.springs", "springs with cold_days >= days_needed", cold, hit, source)
    if in_ten is not None:
        notes.step("bolting.in_ten", "10 * hit / springs", {"hit": hit, "springs": n}, in_ten, "common_practice")
    few = None if enough else Said("bolting.too_few", {"n": n, "needed": FEWEST_SPRINGS})
    return ColdSpell(
        **common, table=table, springs=n, springs_hit=hit, springs_in_ten=in_ten, reason=few, **notes.parts()
    )


def _limit(known: Any, days: int | None, below_c: float | None) -> tuple[int, float] | None:
    """Take what was typed, else what is known; None when one of the two stays unknown."""
    if known is not None and known["days"] is not None:
        days = int(known["days"]) if days is None else days
        below_c = f_to_c(known["below_f"]) if below_c is None else below_c
    return None if days is None or below_c is None else (days, float(below_c))


def _tell(notes: Notes, plant: Crop, known: Any) -> None:
    if known is None:
        return
    if known["stage"] == "seedling":
        notes.say("bolting.as_seedling", known["source"], crop=plant.name)
    elif known["stem_mm"] is not None:
        notes.say("bolting.stem", known["source"], crop=plant.name)
    elif known["response"] == "buttons":
        notes.say("bolting.buttons", known["source"], crop=plant.name)
    else:
        notes.say("bolting.stem_unknown", known["source"], crop=plant.name)
