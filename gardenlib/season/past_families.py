"""What grew this season becomes the bed's past, for next year's rotation."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from gardenlib.plot.model import LogEntry
from gardenlib.season.log import lines_of
from gardenlib.sowing.windows import paths_of
from gardenlib.tables import Crop
from gardenlib.working import Answer, Notes

Families = tuple[str, ...]
MOST_YEARS = 10


@dataclass(frozen=True, kw_only=True)
class GrownFamilies(Answer):
    """What grew where.

    Parameters
    ----------
    by_bed : mapping of str to tuple of str
        Plant families by bed id, each once, in the order in which they were planted.
    no_bed : tuple of str
        Crop ids of which nobody has said in which bed they grew.
    """

    by_bed: Mapping[str, Families]
    no_bed: tuple[str, ...]


def families_by_bed(
    entries: Sequence[LogEntry],
    *,
    beds: Sequence[str],
    bed_of: Mapping[str, str | None],
    crops: Mapping[str, Crop],
    first: date,
    last: date,
    today: date,
) -> GrownFamilies:
    """Find the plant families that grew in each bed, from the log of one season.

    Parameters
    ----------
    entries : sequence of LogEntry
        The whole log.
    beds : sequence of str
        Ids of the beds.  Where there is only one, everything grew there.
    bed_of : mapping of str to str or None
        Bed id by planting id.
    crops : mapping of str to Crop
        The crops that the log names, by id; others are left out.
    first, last : date
        First and last day of the season.
    today : date
        Which day it is; lines of days to come are left out.

    Returns
    -------
    GrownFamilies
        Families by bed, with what was left out.

    Notes
    -----
    Common practice, no source: a crop grew in the bed when it was set out, picked, or sown in place; seed sown indoors
    alone does not count.

    Examples
    --------
    >>> from gardenlib.tables import crop
    >>> log = [LogEntry(day=date(2027, 4, 9), did="sown", crop="pea")]
    >>> when = {"first": date(2027, 1, 1), "last": date(2027, 12, 31), "today": date(2027, 8, 1)}
    >>> families_by_bed(log, beds=["bed-1"], bed_of={}, crops={"pea": crop("pea")}, **when).by_bed
    {'bed-1': ('Fabaceae',)}
    """
    notes = Notes()
    grown: dict[str, dict[str, None]] = {}
    no_bed: dict[str, None] = {}
    for line in lines_of(entries, first, last, today, notes):
        crop = crops.get(line.crop or "")
        if crop is None or not _in_the_bed(line, crop):
            continue
        bed = bed_of.get(line.planting or "") or (beds[0] if len(beds) == 1 else None)
        if bed in beds:
            grown.setdefault(str(bed), {})[crop.family] = None
        else:
            no_bed[crop.id] = None
    by_bed = {bed: tuple(families) for bed, families in grown.items()}
    return GrownFamilies(by_bed=by_bed, no_bed=tuple(no_bed), **notes.parts())


def _in_the_bed(line: LogEntry, crop: Crop) -> bool:
    sown_in_place = any(path.name == "direct_sow" for path in paths_of(crop))
    return line.did in ("set_out", "picked") or (line.did == "sown" and sown_in_place)


def years_with(past: Sequence[Families], grown: Families, *, again: bool) -> tuple[Families, ...]:
    """Put a season's families before a bed's earlier years.

    Parameters
    ----------
    past : sequence of tuple of str
        Families by year, the latest first.
    grown : tuple of str
        What grew this season.
    again : bool
        Whether this season stands there already: then its families are joined and no year moves.

    Returns
    -------
    tuple of tuple of str
        The years, the latest first; at most ten, as many as a plot file holds.

    Notes
    -----
    No source is needed.

    Examples
    --------
    >>> years_with([("Fabaceae",)], ("Solanaceae",), again=False)
    (('Solanaceae',), ('Fabaceae',))
    >>> years_with([("Solanaceae",), ("Fabaceae",)], ("Apiaceae",), again=True)
    (('Solanaceae', 'Apiaceae'), ('Fabaceae',))
    """
    years = [tuple(year) for year in past]
    if again and years:
        return (tuple(dict.fromkeys([*years[0], *grown])), *years[1:])
    return tuple([tuple(grown), *years][:MOST_YEARS])
