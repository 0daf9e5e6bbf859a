"""Diseases of the cabbage family: what a bed's history and wet leaves say before anything shows."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, Literal, get_args

import numpy as np

from gardenlib.beds import rotation_of
from gardenlib.beds.rotation import Verdict
from gardenlib.problems import InputProblem
from gardenlib.soil.lime_limits import limit, limit_source
from gardenlib.sowing.chance import checked_fraction
from gardenlib.tables.loader import rows
from gardenlib.units import Quantity, Range, f_to_c
from gardenlib.working import Answer, Notes, Value

if TYPE_CHECKING:
    import pandas as pd

Sprinkled = Literal["no", "evening", "morning"]

FAMILY = "Brassicaceae"
WETNESS_DISEASE = "alternaria"
MOST_HOURS = 24.0


@dataclass(frozen=True, kw_only=True)
class DiseaseAnswer(Answer):
    """What a bed's history says of one disease.

    Parameters
    ----------
    disease : str
        Its short name.
    last_year : int or None
        When the cabbage family grew here last, as far as is known.
    years_without : int
        Full years without it; where it never grew, the years that are known.
    asked_years : Range or None
        Years without the family that sources ask for after this disease; None where none was published for it.
    asked_by : tuple of str
        Keys of those sources.
    verdict : {"free", "wait", "differ", "not_known"}
        Enough years for all sources, too few for all, enough for some, or nobody can tell.
    spores_left_pct : Range or None
        For clubroot: of 100 spores, how many may still live; at most that many where ``last_year`` is None.
    facts : DataFrame
        One row a published figure: ``property``, ``low`` and ``high`` in ``unit``, ``source``.
    """

    disease: str
    last_year: int | None
    years_without: int
    asked_years: Range | None
    asked_by: tuple[str, ...]
    verdict: Verdict
    spores_left_pct: Range | None
    facts: pd.DataFrame = field(repr=False)


@dataclass(frozen=True, kw_only=True)
class WetLeaves(Answer):
    """How long leaves stay wet at a stretch, against the published hours.

    Parameters
    ----------
    wet_hours, added_hours : float
        Hours at a stretch, and how many of them sprinkling added.
    limit_hours : float
        More hours than this let Alternaria leaf spot in.
    long_enough : bool
        Whether the leaves stayed wet for longer.
    """

    wet_hours: float
    added_hours: float
    limit_hours: float
    long_enough: bool


def disease_names() -> tuple[str, ...]:
    """List the diseases of the table.

    Returns
    -------
    tuple of str
        Short names, as `disease_in_bed` takes them.

    Notes
    -----
    Source: the keys in ``tables.table("diseases")``.

    Examples
    --------
    >>> disease_names()[:2]
    ('black_rot', 'clubroot')
    """
    return tuple(dict.fromkeys(row["disease"] for row in rows("diseases")))


def spores_left(years: Any, half_life_years: Any) -> Any:
    """Give the share of clubroot's spores that still live after years without a plant to feed on.

    Parameters
    ----------
    years : float or array
        Years without the cabbage family, 0 or more.
    half_life_years : float or array
        Years in which half of them die.

    Returns
    -------
    float or array
        A share from 0 to 1.

    Raises
    ------
    InputProblem
        When years are negative or a half-life is not above 0.

    Notes
    -----
    ``0.5 ** (years / half_life)``; Pacific Northwest handbook, clubroot: a half-life of 3 to 6 years.

    Examples
    --------
    >>> [round(float(left), 4) for left in spores_left(7, np.array([3, 6]))]
    [0.1984, 0.4454]
    """
    try:
        past, half = np.asarray(years, dtype=float), np.asarray(half_life_years, dtype=float)
    except (TypeError, ValueError):
        past = half = np.asarray(math.nan)
    if not (np.all(np.isfinite(past)) and np.all(past >= 0) and np.all(np.isfinite(half)) and np.all(half > 0)):
        raise InputProblem("disease.spores", years=str(years)[:40], half_life=str(half_life_years)[:40])
    return 0.5 ** (past / half)


def years_until(left_fraction: float, half_life_years: Any) -> Any:
    """Give the years until only this share of clubroot's spores still lives.

    Parameters
    ----------
    left_fraction : float
        The share, above 0 and at most 1.
    half_life_years : float or array
        Years in which half of them die.

    Returns
    -------
    float or array
        Years.

    Raises
    ------
    InputProblem
        When the share is not one, or a half-life is not above 0.

    Notes
    -----
    The inverse of `spores_left`; common practice, no source.

    Examples
    --------
    >>> round(float(years_until(0.01, 3)), 2)
    19.93
    """
    share = checked_fraction(left_fraction, "left_fraction")
    if share == 0:
        raise InputProblem("disease.share", value=f"{left_fraction:g}")
    # One year at a time also checks the half-life.
    return math.log(share) / np.log(spores_left(1, half_life_years))


def disease_in_bed(disease: str, past_families: Sequence[Sequence[str]], *, year: int) -> DiseaseAnswer:
    """Say what a bed's history means for one disease of the cabbage family.

    Parameters
    ----------
    disease : str
        One of `disease_names`.
    past_families : sequence of sequence of str
        Families that grew in the bed, the latest year first; the first is the year before `year`.
    year : int
        The year that is planned.

    Returns
    -------
    DiseaseAnswer
        Years without the family against what sources ask for, and published figures.

    Raises
    ------
    InputProblem
        When the disease is unknown, or the history cannot be used.

    Notes
    -----
    Source: the rows of the tables ``rotation`` (University of Connecticut; `beds.rotation_of`) and ``diseases``. The
    years asked for run from the least to the most of all sources. Where no source names years for the disease, what
    holds for the whole family stands in.

    Examples
    --------
    >>> found = disease_in_bed("clubroot", [["Fabaceae"], ["Brassicaceae"]], year=2027)
    >>> found.years_without, found.asked_years.low, found.asked_years.high, found.verdict
    (1, 5.0, 7.0, 'wait')
    """
    import pandas as pd

    _checked(disease)
    own_years = any(row["what"] == disease for row in rows("rotation"))
    rotation = rotation_of(FAMILY, past_families, year=year, disease=disease if own_years else None)
    mine = [row for row in rows("diseases") if row["disease"] == disease]
    notes = Notes(list(rotation.steps), list(rotation.assumptions), list(rotation.sources))
    asked: Range | None = None
    by: tuple[str, ...] = ()
    verdict, without = rotation.verdict, rotation.years_without
    if own_years:
        asked, by = _asked(rotation.table, disease, mine)
        verdict = _verdict(without, rotation.last_year, asked)
        given: dict[str, Value] = {"years_without": str(without)}
        notes.step("disease.asked", "least to most of all sources", given, asked, by[0])
        notes.cite(*by)
    else:
        notes.say("disease.no_years")
    if disease == "clubroot":
        notes.say("disease.lime", limit_source("clubroot_ph"), ph=limit("clubroot_ph").low)
    for row in mine:
        notes.cite(*row["source"].split("|"))
    return DiseaseAnswer(
        disease=disease,
        last_year=rotation.last_year,
        years_without=without,
        asked_years=asked,
        asked_by=by,
        verdict=verdict,
        spores_left_pct=_spores(without, rotation.last_year, mine, notes),
        facts=pd.DataFrame([_fact(row) for row in mine if row["property"] != "rotation"]),
        **notes.parts(),
    )


def history(years_ago: int) -> tuple[tuple[str, ...], ...]:
    """Write a history, the latest year first, in which the cabbage family grew last so many years ago."""
    return (*((),) * (years_ago - 1), (FAMILY,))


def _checked(disease: str) -> None:
    if disease not in disease_names():
        raise InputProblem("disease.unknown", value=str(disease)[:40], known=", ".join(disease_names()))


def _asked(table: pd.DataFrame, disease: str, mine: Sequence[Any]) -> tuple[Range, tuple[str, ...]]:
    """Span the years that all sources ask for after this disease, and name the sources."""
    own = table[table["what"] == disease]
    more = [row for row in mine if row["property"] == "rotation"]
    low = min([*own["low_years"], *(row["low"] for row in more)])
    high = max([*own["high_years"], *(row["high"] for row in more)])
    return Range(float(low), float(high), "years"), (*own["source"], *(row["source"] for row in more))


def _verdict(without: int, last_year: int | None, asked: Range) -> Verdict:
    if without >= asked.high:
        return "free"
    if last_year is None:
        return "not_known"
    return "wait" if without < asked.low else "differ"


def _spores(without: int, last_year: int | None, mine: Sequence[Any], notes: Notes) -> Range | None:
    half = next((row for row in mine if row["property"] == "half_life"), None)
    if half is None:
        return None
    low, high = (100 * float(left) for left in spores_left(without, np.array([half["low"], half["high"]])))
    given: dict[str, Value] = {
        "years": Quantity(without, "years"),
        "half_life": Range(half["low"], half["high"], "years"),
    }
    left = Range(low, high, "percent")
    notes.step("disease.spores", "0.5 ** (years / half_life)", given, left, half["source"])
    notes.say("disease.spores_if")
    if last_year is None:
        notes.say("disease.spores_at_most")
    return left


def _fact(row: Any) -> dict[str, Any]:
    low, high, unit = row["low"], row["high"], row["unit"]
    if unit in {"F", "C"}:
        low, high = (f_to_c(end) if unit == "F" else end for end in (low, high))
        unit = "degC"
    return {"property": row["property"], "low": low, "high": high, "unit": unit, "source": row["source"]}


def leaf_wetness(dew_hours: float, *, sprinkled: Sprinkled = "no", hours_before_dew: float = 0.0) -> WetLeaves:
    """Count the hours for which leaves stay wet at a stretch, and set them against the published ones.

    Parameters
    ----------
    dew_hours : float
        Hours from the first dew, or rain, until the leaves are dry again.
    sprinkled : {"no", "evening", "morning"}
        Whether and when water falls on the leaves; water at the roots is ``no``.
    hours_before_dew : float
        For the evening: hours from sprinkling until the dew falls.

    Returns
    -------
    WetLeaves
        Hours, and whether they are more than 9.

    Raises
    ------
    InputProblem
        When hours are not between 0 and 24, or the time of sprinkling is unknown.

    Notes
    -----
    Source: University of Connecticut, late-season cole crop diseases: more than 9 hours of wet leaves let Alternaria
    in. Leaves that are sprinkled in the evening are taken to stay wet until the dew falls, and those sprinkled in the
    morning, while the dew still lies, to dry no later (FAO's cabbage guide gives the direction, no figure).

    Examples
    --------
    >>> leaf_wetness(8).long_enough, leaf_wetness(8, sprinkled="evening", hours_before_dew=3).wet_hours
    (False, 11.0)
    """
    if sprinkled not in get_args(Sprinkled):
        raise InputProblem("disease.sprinkled", value=str(sprinkled)[:40], known=", ".join(get_args(Sprinkled)))
    dew, before = _hours(dew_hours), _hours(hours_before_dew)
    added = before if sprinkled == "evening" else 0.0
    row = next(row for row in rows("diseases") if (row["disease"], row["property"]) == (WETNESS_DISEASE, "wet_hours"))
    limit, wet, notes = float(row["high"]), dew + added, Notes()
    given: dict[str, Value] = {"dew": Quantity(dew, "hours"), "sprinkled": Quantity(added, "hours")}
    notes.step("disease.wet", "dew + sprinkled", given, Quantity(wet, "hours"), "common_practice")
    notes.step("disease.limit", "wet > limit", {"wet": Quantity(wet, "hours")}, Quantity(limit, "hours"), row["source"])
    if sprinkled != "no":
        notes.say(f"disease.taken_{sprinkled}", "fao_cabbage_ipm")
    return WetLeaves(wet_hours=wet, added_hours=added, limit_hours=limit, long_enough=wet > limit, **notes.parts())


def _hours(value: float) -> float:
    number = isinstance(value, int | float) and not isinstance(value, bool)
    if not number or not 0 <= value <= MOST_HOURS:
        raise InputProblem("disease.hours", value=str(value)[:40], most=f"{MOST_HOURS:g}")
    return float(value)
