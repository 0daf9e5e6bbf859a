"""What was planned beside what was done, and this garden's own days beside the book's."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Literal

from gardenlib.plot.model import LogEntry
from gardenlib.season.log import lines_of
from gardenlib.sowing.limits import as_crop
from gardenlib.sowing.windows import Days, PathName, paths_of
from gardenlib.tables import Crop
from gardenlib.units import Quantity, Range
from gardenlib.working import Answer, Notes


@dataclass(frozen=True, kw_only=True)
class PlannedDays:
    """One planting as it was planned: its id, its crop, as plants or as seed, and the first and last day for that."""

    planting: str
    crop: str | Crop
    how: PathName
    days: Days | None = None


@dataclass(frozen=True, kw_only=True)
class RealDays:
    """One planting: planned and real.

    Parameters
    ----------
    planting, crop : str
        Ids.
    how : {"set_out", "direct_sow"}
        As plants or as seed.
    planned : tuple of (date, date) or None
        First and last planned day.
    went_in : date or None
        The day on which it went into the bed.
    days_off : int or None
        Days before the first planned day (negative) or after the last one; 0 between them.
    picked_from : date or None
        First picking.
    own_days : int or None
        Days from going into the bed to the first picking.
    book_days : Range or None
        The same days as the books print them.
    unchecked : bool
        Whether the book's days are from memory.
    against_book : {"sooner", "within", "later"} or None
        How the own days stand to the book's.
    """

    planting: str
    crop: str
    how: PathName
    planned: Days | None
    went_in: date | None
    days_off: int | None
    picked_from: date | None
    own_days: int | None
    book_days: Range | None
    unchecked: bool
    against_book: Literal["sooner", "within", "later"] | None


@dataclass(frozen=True, kw_only=True)
class PlannedAndReal(Answer):
    """What was planned and what was done: one row a planting, in the order given."""

    rows: tuple[RealDays, ...]


def planned_and_real(
    entries: Sequence[LogEntry], planned: Sequence[PlannedDays], *, first: date, last: date, today: date
) -> PlannedAndReal:
    """Set each planting's real days beside the planned ones and the book's.

    Parameters
    ----------
    entries : sequence of LogEntry
        The whole log.
    planned : sequence of PlannedDays
        The plantings with their planned days.
    first, last : date
        First and last day of the season.
    today : date
        Which day it is; lines of days to come are left out.

    Returns
    -------
    PlannedAndReal
        The rows, with the working.

    Raises
    ------
    InputProblem
        When there is no such crop.

    Notes
    -----
    Source: the days by the keys in ``tables.table("crop_timing_by_source")``.  Days from plants are never compared
    with days from seed.  A line that names a crop and no planting belongs to the one planting of that crop.

    Examples
    --------
    >>> log = [LogEntry(day=date(2027, 5, 20), did="set_out", crop="tomato"),
    ...        LogEntry(day=date(2027, 7, 30), did="picked", crop="tomato")]
    >>> plan = PlannedDays(planting="p1", crop="tomato", how="set_out", days=(date(2027, 5, 10), date(2027, 5, 17)))
    >>> seen = {"first": date(2027, 1, 1), "last": date(2027, 12, 31), "today": date(2027, 8, 1)}
    >>> row = planned_and_real(log, [plan], **seen).rows[0]
    >>> row.days_off, row.own_days
    (3, 71)
    """
    notes = Notes()
    lines = lines_of(entries, first, last, today, notes)
    crops = {plan.planting: as_crop(plan.crop) for plan in planned}
    count = Counter(crop.id for crop in crops.values())
    only = {crop.id: planting for planting, crop in crops.items() if count[crop.id] == 1}
    own: dict[str, list[LogEntry]] = {planting: [] for planting in crops}
    unclear = 0
    for line in lines:
        planting = line.planting if line.planting in crops else only.get(line.crop or "")
        if planting is not None:
            own[planting].append(line)
        elif count[line.crop or ""] > 1:
            unclear += 1
    if unclear:
        notes.say("log.unclear", n=unclear)
    rows = tuple(_row(plan, crops[plan.planting], own[plan.planting], notes) for plan in planned)
    return PlannedAndReal(rows=rows, **notes.parts())


def _row(plan: PlannedDays, crop: Crop, lines: Sequence[LogEntry], notes: Notes) -> RealDays:
    firsts: dict[str | None, date] = {}
    for line in lines:
        firsts.setdefault(line.did, line.day)
    # Seed sown indoors is not in the bed yet.
    how: PathName = "set_out" if "set_out" in firsts else plan.how
    went_in = firsts.get("set_out" if how == "set_out" else "sown")
    picked = firsts.get("picked")
    if went_in is not None and picked is not None and picked < went_in:
        notes.say("log.picked_first", crop=crop.name)
    own = (picked - went_in).days if went_in and picked and picked >= went_in else None
    book, unchecked = _book(crop, how, notes) if own is not None else (None, False)
    if went_in is not None and picked is not None and own is not None:
        given = {"planted": went_in, "picked": picked}
        notes.step("log.own_days", "picked - planted", given, Quantity(own, "days"), "common_practice")
    return RealDays(
        planting=plan.planting,
        crop=crop.id,
        how=how,
        planned=plan.days,
        went_in=went_in,
        days_off=None if went_in is None or plan.days is None or how != plan.how else _off(went_in, plan.days),
        picked_from=picked,
        own_days=own,
        book_days=book,
        unchecked=unchecked,
        against_book=None if own is None or book is None else _against(own, book),
    )


def _off(day: date, planned: Days) -> int:
    if day < planned[0]:
        return (day - planned[0]).days
    return max((day - planned[1]).days, 0)


def _against(own: int, book: Range) -> Literal["sooner", "within", "later"]:
    return "sooner" if own < book.low else "later" if own > book.high else "within"


def _book(crop: Crop, how: PathName, notes: Notes) -> tuple[Range | None, bool]:
    """Look up the days that count from this start; days of the other start are never taken."""
    path = next((path for path in paths_of(crop) if path.name == how), None)
    days = None if path is None else path.days(crop)
    if days is None and crop.days_basis_not_stated is not None:
        days = crop.days_basis_not_stated
        notes.say("sowing.days_basis_not_stated", crop=crop.name)
    if days is None:
        notes.say("log.no_book", crop=crop.name)
        return None, False
    if days.status == "memory":
        notes.say("sowing.days_unchecked", crop=crop.name)
    source = days.sources[0] if days.sources else "common_practice"
    notes.step("log.book_days", "days to first picking", {"crop": str(crop.name)}, days.typical, source)
    notes.cite(*days.sources)
    return days.typical, days.status == "memory"
