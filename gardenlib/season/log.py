"""The plot log: a new line, checked, and the lines of one season."""

from __future__ import annotations

import re
from collections.abc import Sequence
from datetime import date
from typing import TYPE_CHECKING, Literal, cast, get_args

from gardenlib.plot.model import Did, LogEntry
from gardenlib.problems import InputProblem
from gardenlib.units import Quantity
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.working import Notes

Measure = Literal["amount_kg", "plants", "hours"]
KINDS: tuple[Did, ...] = get_args(Did)
OF_A_PLANT = ("sown", "set_out", "picked", "given")
_MEASURES: dict[str, Measure] = {
    **dict.fromkeys(("sown", "set_out"), "plants"),
    **dict.fromkeys(("picked", "given"), "amount_kg"),
    "worked": "hours",
}
# Beyond these a number is a slip of the pen (common practice, no source).
_MOST: dict[Measure, float] = {"amount_kg": 1000.0, "plants": 10000.0, "hours": 24.0}
_UNITS: dict[Measure, str] = {"amount_kg": "kg", "plants": "plants", "hours": "hours"}


def measure_of(did: str) -> Measure | None:
    """Tell what is measured of something that was done.

    Parameters
    ----------
    did : str
        One of the kinds of `LogEntry`, such as ``picked``.

    Returns
    -------
    {"amount_kg", "plants", "hours"} or None
        A weight, a number of plants, hours, or nothing.

    Raises
    ------
    InputProblem
        When the log has no such kind.

    Notes
    -----
    Common practice, no source.

    Examples
    --------
    >>> measure_of("picked"), measure_of("watered")
    ('amount_kg', None)
    """
    if did not in KINDS:
        raise InputProblem("log.kind", value=did, known=", ".join(KINDS))
    return _MEASURES.get(did)


def new_entry(
    earlier: Sequence[LogEntry],
    *,
    day: date,
    did: str,
    today: date,
    planting: str | None = None,
    crop: str | None = None,
    amount_kg: float | None = None,
    plants: float | None = None,
    hours: float | None = None,
    text: str = "",
) -> LogEntry:
    """Make a new line of the log; nothing is saved here.

    Parameters
    ----------
    earlier : sequence of LogEntry
        What stands in the log.
    day : date
        When it was done; not after today.
    did : str
        What was done, one of the kinds of `LogEntry`.
    today : date
        Which day it is.
    planting, crop : str, optional
        Id of the planting, and of its crop; what was sown, set out, picked or given needs one of them.
    amount_kg : float, optional
        What was picked or given away, kg.
    plants : float, optional
        How many were sown or set out, a whole number.
    hours : float, optional
        Hours of work.
    text : str
        A short note.

    Returns
    -------
    LogEntry
        The line, with an id of its own.

    Raises
    ------
    InputProblem
        When the day is still to come, a number cannot be or belongs to something else, the plant is missing, or the
        same line stands in the log already.

    Notes
    -----
    Common practice, no source: at most 1,000 kg, 10,000 plants and 24 hours in one line.

    Examples
    --------
    >>> new_entry([], day=date(2027, 6, 1), did="picked", today=date(2027, 6, 2), crop="pea", amount_kg=0.5).id
    'e1'
    """
    measure = measure_of(did)
    if day > today:
        raise InputProblem("log.future", day=day, today=today)
    if did in OF_A_PLANT and planting is None and crop is None:
        raise InputProblem("log.which", did=Said(f"log.did_{did}"))
    given: dict[Measure, float | None] = {"amount_kg": amount_kg, "plants": plants, "hours": hours}
    for name, value in given.items():
        if value is not None:
            _check(name, value, did, fits=name == measure)
    entry = LogEntry(
        id=_free_id(earlier),
        day=day,
        did=cast(Did, did),
        planting=planting,
        crop=crop,
        amount_kg=amount_kg,
        plants=None if plants is None else int(plants),
        hours=hours,
        text=text.strip()[:200],
    )
    if any(_same(entry, other) for other in earlier):
        raise InputProblem("log.twice", day=day, did=Said(f"log.did_{did}"))
    return entry


def _check(name: Measure, value: float, did: str, *, fits: bool) -> None:
    if not fits:
        raise InputProblem("log.measure", did=Said(f"log.did_{did}"), value=value)
    most, unit = _MOST[name], _UNITS[name]
    if not 0 < value <= most:
        raise InputProblem("log.amount", value=Quantity(value, unit), most=Quantity(most, unit))
    if name == "plants" and value != int(value):
        raise InputProblem("log.whole", value=value)


def _free_id(earlier: Sequence[LogEntry]) -> str:
    numbers = [int(found[1]) for entry in earlier if (found := re.fullmatch(r"e(\d{1,9})", entry.id or ""))]
    return f"e{max(numbers, default=0) + 1}"


def _same(entry: LogEntry, other: LogEntry) -> bool:
    return entry.model_copy(update={"id": None}) == other.model_copy(update={"id": None})


def lines_of(
    entries: Sequence[LogEntry], first: date, last: date, today: date, notes: Notes | None = None
) -> list[LogEntry]:
    """Give the lines of one season in the order of their days; lines of days to come are left out.

    Parameters
    ----------
    entries : sequence of LogEntry
        The whole log.
    first, last : date
        First and last day of the season.
    today : date
        Which day it is.
    notes : Notes, optional
        Where it is said how many lines were left out.

    Returns
    -------
    list of LogEntry
        The lines.

    Notes
    -----
    No source is needed.

    Examples
    --------
    >>> log = [LogEntry(day=date(2027, 6, 9)), LogEntry(day=date(2027, 6, 1))]
    >>> [line.day.day for line in lines_of(log, date(2027, 1, 1), date(2027, 12, 31), date(2027, 6, 5))]
    [1]
    """
    ahead = sum(entry.day > today for entry in entries)
    if ahead and notes is not None:
        notes.say("log.ahead", n=ahead, today=today)
    return sorted((entry for entry in entries if first <= entry.day <= min(last, today)), key=lambda line: line.day)
