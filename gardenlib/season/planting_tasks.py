"""The tasks of one planting, from the seed tray to the basket."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from gardenlib.harvest import storage_life
from gardenlib.pests import attacks, cover_dates
from gardenlib.pests.covers import ground_of
from gardenlib.pests.models import pest_name
from gardenlib.plot import Bed, Planting
from gardenlib.problems import InputProblem
from gardenlib.season.task import Task
from gardenlib.soil import side_dress
from gardenlib.sowing import SowingDates
from gardenlib.tables import Crop
from gardenlib.tables.loader import rows
from gardenlib.units import Quantity, Range
from gardenlib.words import Said
from gardenlib.working import Notes

STORE_TEMP_C = 4.0
"""A cool store of which many sources print how long a crop keeps."""
NAMED_PESTS = 3
WORTH_A_COVER = ("insects", "no_flower", "alone")
_PRACTICE = "common_practice"


@dataclass(frozen=True)
class Stand:
    """One planting with what its tasks are counted from."""

    planting: Planting
    crop: Crop
    bed: Bed | None
    dates: SowingDates
    early: Mapping[str, date]
    until: date

    @property
    def window(self) -> tuple[date, date] | None:
        """The days on which it goes into the bed."""
        return self.dates.set_out or self.dates.direct_sow

    @property
    def ends(self) -> date:
        """Last day on which it is looked after: the last first picking, else the season's end."""
        return self.until if self.dates.harvest is None else self.dates.harvest[1]

    def task(self, kind: str, days: tuple[date, date], caution: Said | None = None, **values: object) -> Task:
        """Make a task of this planting."""
        said = Said(f"task.{kind}", {"crop": self.crop.name, **values})
        key = f"{self.planting.id}/{kind.removesuffix('_any').removesuffix('_keeps')}"
        return Task(key, *days, key.rpartition("/")[2], self.crop, self.planting.id, said, caution)


def planting_tasks(stand: Stand, notes: Notes) -> Iterator[Task]:
    """Give the tasks of a planting that has a window, in the order of the season."""
    dates, window = stand.dates, stand.window
    if window is None:
        return
    for kind in ("sow_indoors", "harden_off"):
        days = getattr(dates, kind)
        if days is not None:
            yield stand.task(kind, days)
    yield stand.task("direct_sow" if dates.set_out is None else "set_out", window)
    yield from _cover(stand, window[0], notes)
    yield from _look(stand, window[0], notes)
    yield from _feed(stand, window[0], notes)
    if dates.harvest is not None:
        yield _harvest(stand, dates.harvest, notes)


def _own_pests(crop: Crop) -> list[str]:
    """List the pests of this crop or its family, without those of all seedlings."""
    own = [str(row["pest"]) for row in rows("pests") if row["families"] or row["crops"]]
    return [pest for pest in own if attacks(pest, crop)]


def _cover(stand: Stand, out: date, notes: Notes) -> Iterator[Task]:
    if not _own_pests(stand.crop):
        return
    ground = ground_of(stand.crop.family, () if stand.bed is None else stand.bed.families)
    harvest = stand.dates.harvest
    found = cover_dates(stand.crop, out, ground=ground, first_harvest=harvest and harvest[0])
    if found.why not in WORTH_A_COVER:
        return
    if found.on is None:
        notes.say(f"before.{found.advice}", "montreal_nets", crop=stand.crop.name)
        return
    notes.cite(*found.sources)
    yield stand.task("cover_on", (found.on, stand.window[1] if stand.window else found.on))
    if found.until is not None:
        yield stand.task("cover_off", (found.until, found.until))
    elif found.off == "first_flower":
        notes.say("plan.cover_flower", *found.sources, crop=stand.crop.name)


def _look(stand: Stand, out: date, notes: Notes) -> Iterator[Task]:
    """Look from the first early day of any pest of this crop, or from planting where none has a day."""
    due = sorted((max(day, out), pest) for pest, day in stand.early.items() if attacks(pest, stand.crop))
    due = [(day, pest) for day, pest in due if day <= stand.ends][:NAMED_PESTS]
    if not due:
        yield stand.task("look_any", (out, stand.ends))
        return
    first, pest = due[0]
    given = {"out": out, "early": stand.early[pest]}
    notes.step("plan.look", "later of out and early", given, first, _PRACTICE)
    yield stand.task("look", (first, stand.ends), pests=_pests(due))


def _pests(due: Sequence[tuple[date, str]]) -> Said:
    (day, pest), *others = due
    named = {"pest": pest_name(pest), "day": day}
    return Said("plan.pest_and", {**named, "others": _pests(others)}) if others else Said("plan.pest", named)


def _feed(stand: Stand, out: date, notes: Notes) -> Iterator[Task]:
    found = side_dress(stand.crop.id, 1.0, planted_on=out)
    if found.feeds != "heavy":
        return
    days = [time.days for time in found.times if time.days is not None]
    if days:
        notes.steps.extend(step for step in found.steps if step.key == "feeding.count_on" and step not in notes.steps)
        span = min(first for first, _ in days), max(last for _, last in days)
    elif stand.dates.harvest is not None:
        middle = out + (stand.dates.harvest[0] - out) / 2
        notes.step("plan.middle", "(out + harvest) / 2", {"out": out, "harvest": stand.dates.harvest[0]}, middle, _PRACTICE)
        notes.say("plan.fed_in_middle", *found.sources, crop=stand.crop.name)
        span = middle, middle + timedelta(days=6)
    else:
        return
    notes.cite(*found.sources)
    yield stand.task("feed", span, Said("feeding.label_first"))


def _harvest(stand: Stand, days: tuple[date, date], notes: Notes) -> Task:
    """Say when picking begins and, where a source prints it, how long the crop keeps."""
    try:
        life = storage_life(stand.crop, STORE_TEMP_C)
    except InputProblem:
        notes.say("plan.no_keeping", crop=stand.crop.name)
        return stand.task("harvest", days)
    notes.cite(*life.sources)
    whole = Range(round(life.days.low), round(life.days.high), "days")
    kept = {"temp": Quantity(STORE_TEMP_C, "degC"), "days": whole}
    return stand.task("harvest_keeps", days, Said("task.keep_caution"), **kept)
