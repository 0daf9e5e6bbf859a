"""Rotation: the families that grew in a bed against the published years without them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, Literal

from gardenlib.beds.kin import checked_family, diseases, plain
from gardenlib.problems import InputProblem
from gardenlib.tables.loader import rows
from gardenlib.working import Answer, Notes, Value

if TYPE_CHECKING:
    import pandas as pd

Verdict = Literal["free", "wait", "differ", "not_known"]
YEARS = range(1900, 2201)


@dataclass(frozen=True, kw_only=True)
class RotationAnswer(Answer):
    """Whether a family may come back to a bed.

    Parameters
    ----------
    family : str
        The family asked about.
    year : int
        The year that is planned.
    last_year : int or None
        When the family grew here last, as far as is known.
    years_without : int
        Full years without it; where it never grew, the years that are known.
    verdict : {"free", "wait", "differ", "not_known"}
        What all sources say together: go on, wait, sources differ, or nobody can tell. With a disease its own row
        alone decides.
    table : DataFrame
        One row a source: ``what``, ``low_years``, ``high_years``, ``counted``, ``from_low`` and ``from_high`` (first
        year in which the family may come back), ``verdict``, ``source`` and ``status``.
    """

    family: str
    year: int
    last_year: int | None
    years_without: int
    verdict: Verdict
    table: pd.DataFrame = field(repr=False)


def rotation_of(
    family: str, past_families: Sequence[Sequence[str]], *, year: int, disease: str | None = None
) -> RotationAnswer:
    """Say when a family may come back to a bed.

    Parameters
    ----------
    family : str
        Plant family of what is to be grown.
    past_families : sequence of sequence of str
        Families that grew in the bed, the latest year first; the first is the year before `year`.
    year : int
        The year that is planned.
    disease : str, optional
        A disease that was found in the bed, one of `diseases`.

    Returns
    -------
    RotationAnswer
        What each source says, with the working.

    Raises
    ------
    InputProblem
        When the family, the year or the disease cannot be used.

    Notes
    -----
    Source: Iowa State, West Virginia, Minnesota and Connecticut extension, rows of the table ``rotation``. N years
    without: from the last year plus N plus 1. Once every N years: from the last year plus N.

    Examples
    --------
    >>> found = rotation_of("Brassicaceae", [["Brassicaceae"]], year=2027)
    >>> found.last_year, found.verdict
    (2026, 'wait')
    """
    import pandas as pd

    own = checked_family(family)
    if year not in YEARS:
        raise InputProblem("rotation.year", value=str(year), low=YEARS[0], high=YEARS[-1])
    if disease is not None and disease not in diseases(own):
        raise InputProblem("rotation.disease", value=disease, family=own, known=", ".join(diseases(own)) or "-")
    grew = [back for back, names in enumerate(past_families, 1) if own.casefold() in {plain(name) for name in names}]
    last = year - grew[0] if grew else None
    without = grew[0] - 1 if grew else len(past_families)
    notes = Notes()
    notes.say("rotation.flying", "common_practice")
    notes.say("rotation.one_family", "common_practice")
    if last is not None:
        given: dict[str, Value] = {"year": str(year), "last": str(last)}
        notes.step("rotation.without", "year - last - 1", given, without, "common_practice")
    told = [_told(row, last, without, year) for row in _rules(own, disease)]
    for row in told:
        notes.cite(row["source"])
        if last is not None and row["counted"] != "many":
            _first_year_step(notes, row, last)
        if row["status"] == "memory":
            notes.say("rotation.unchecked")
    return RotationAnswer(
        family=own,
        year=year,
        last_year=last,
        years_without=without,
        verdict=_together([row["verdict"] for row in told if disease in {None, row["what"]}]),
        table=pd.DataFrame(told),
        **notes.parts(),
    )


def _rules(family: str, disease: str | None) -> list[Mapping[str, Any]]:
    kept = [row for row in rows("rotation") if row["family"] in {"any", family}]
    return [row for row in kept if row["kind"] == "family" or row["what"] == disease]


def _told(row: Mapping[str, Any], last: int | None, without: int, year: int) -> dict[str, Any]:
    kept = {name: row[name] for name in ("what", "low_years", "high_years", "counted", "source", "status")}
    if row["counted"] == "many":
        return {**kept, "from_low": None, "from_high": None, "verdict": "not_known"}
    # "Once every four years" leaves three years between.
    between = [int(row[end]) - int(row["counted"] == "once_every") for end in ("low_years", "high_years")]
    if last is None:
        return {
            **kept,
            "from_low": None,
            "from_high": None,
            "verdict": "free" if without >= between[1] else "not_known",
        }
    low, high = (last + years + 1 for years in between)
    verdict = "free" if year >= high else "wait" if year < low else "differ"
    return {**kept, "from_low": low, "from_high": high, "verdict": verdict}


def _first_year_step(notes: Notes, row: Mapping[str, Any], last: int) -> None:
    for years, first in ((row["low_years"], row["from_low"]), (row["high_years"], row["from_high"])):
        given: dict[str, Value] = {"last": str(last), "years": int(years)}
        notes.step(
            "rotation.first_year",
            "last + years" if row["counted"] == "once_every" else "last + years + 1",
            given,
            str(first),
            row["source"],
        )


def _together(verdicts: Sequence[str]) -> Verdict:
    """Weigh what all sources say: waiting goes before not knowing, and both before going on."""
    if {"wait", "free"} <= set(verdicts) or "differ" in verdicts:
        return "differ"
    order: tuple[Verdict, ...] = ("wait", "not_known", "free")
    return next(verdict for verdict in order if verdict in verdicts)
