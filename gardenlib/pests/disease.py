"""Diseases of the cabbage family: what a bed's history says before anything shows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

import numpy as np

from gardenlib.beds import rotation_of
from gardenlib.beds.rotation import Verdict
from gardenlib.pests.clubroot import spores_left
from gardenlib.problems import InputProblem
from gardenlib.soil.lime_limits import limit, limit_source
from gardenlib.tables.loader import rows
from gardenlib.units import Quantity, Range, f_to_c
from gardenlib.working import Answer, Notes, Value

if TYPE_CHECKING:
    import pandas as pd

FAMILY = "Brassicaceae"


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
        For clubroot, where any year is known: of 100 spores, how many may still live; at most that many where
        ``last_year`` is None.
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
    if half is None or (last_year is None and not without):
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
