"""Published limits: how much lime or sulphur at a time, how long between, how high a pH."""

from __future__ import annotations

from collections.abc import Sequence

from gardenlib.checks import checked_choice
from gardenlib.tables.loader import rows
from gardenlib.units import KG_PER_POUND, M_PER_FOOT, Range

LB_100_SQ_FT = KG_PER_POUND / (100 * M_PER_FOOT**2)
"""One pound in 100 square feet, kg per square metre."""
LB_1000_SQ_FT = LB_100_SQ_FT / 10
LB_AC = LB_1000_SQ_FT / 43.56
SHORT_T_AC = 2000 * LB_AC
TO_KG_M2 = {
    "lb_100_sq_ft": LB_100_SQ_FT,
    "lb_1000_sq_ft": LB_1000_SQ_FT,
    "lb_ac": LB_AC,
    "short_t_ac": SHORT_T_AC,
    "g_m2": 0.001,
}
MIXED_BED = "mixed_bed"


def limit(rule: str) -> Range:
    """Give a published limit by its name."""
    row = next(row for row in rows("lime_limits") if row["rule"] == rule)
    return Range(row["low"], row["high"], row["unit"])


def limit_source(rule: str) -> str:
    """Give the first source of a limit."""
    return str(next(row for row in rows("lime_limits") if row["rule"] == rule)["source"]).split("|")[0]


def largest_dose_kg_m2(*, worked_in: bool) -> float:
    """Give the most lime for one application, worked in or left on top.

    Parameters
    ----------
    worked_in : bool
        Whether it is dug in, as in an empty bed.

    Returns
    -------
    float
        Kilograms per square metre of what is spread.

    Notes
    -----
    Source: Virginia Cooperative Extension 452-719 (5 pounds in 100 square feet on top of an established bed; up to 10
    worked in at once) and Pennsylvania State University, Home Garden report notes (two applications from 11 pounds).

    Examples
    --------
    >>> round(largest_dose_kg_m2(worked_in=False), 3)
    0.244
    """
    found = limit("worked_in_dose" if worked_in else "surface_dose")
    return found.high * TO_KG_M2[found.unit]


def bed_target_ph(crop_ids: Sequence[str]) -> float:
    """Give the pH to aim at for what grows in a bed.

    Parameters
    ----------
    crop_ids : sequence of str
        Crop ids.

    Returns
    -------
    float
        A pH: the crop's own lowest where one crop that has a figure grows alone, else that of a mixed bed.

    Notes
    -----
    Source: Oregon State University Extension, EM 9057, Table 1 (mixed vegetables 6.5).

    Examples
    --------
    >>> bed_target_ph(["tomato", "bean_bush"]), bed_target_ph(["bean_bush"])
    (6.5, 5.8)
    """
    least = {row["crop"]: row["least_ph"] for row in rows("target_ph")}
    alone = crop_ids[0] if len(set(crop_ids)) == 1 else MIXED_BED
    return float(least.get(alone, least[MIXED_BED]))


def lime_kind(magnesium: str) -> str | None:
    """Choose between calcitic and dolomitic lime by the sheet's magnesium.

    Parameters
    ----------
    magnesium : str
        ``low``, ``medium``, ``high``, ``very_high``, or empty where the sheet has none.

    Returns
    -------
    str or None
        ``dolomitic``, ``calcitic``, or None without a result.

    Raises
    ------
    InputProblem
        When the word is none of these.

    Notes
    -----
    Source: University of Connecticut, Suggested fertilizer practices for vegetables: dolomitic lime unless magnesium
    stands above its best level.

    Examples
    --------
    >>> lime_kind("low"), lime_kind("very_high"), lime_kind("")
    ('dolomitic', 'calcitic', None)
    """
    level = checked_choice(magnesium, "magnesium", ("", "low", "medium", "high", "very_high"))
    if not level:
        return None
    return "calcitic" if level in {"high", "very_high"} else "dolomitic"
