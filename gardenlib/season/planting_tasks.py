"""The tasks of one planting, from the seed tray to the basket."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import Any

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
from gardenlib.working import COMMON_PRACTICE, Notes, Value

STORE_TEMP_C = 4.0
"""A cool store of which many sources print how long a crop keeps."""
NAMED_PESTS = 3
WORTH_A_COVER = ("insects", "no_flower", "alone")
EVENTS = ("sow_indoors", "harden_off", "set_out", "direct_sow", "harvest")


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

    def task(self, kind: str, days: tuple[date, date], said: Said, *beside: Said | None) -> Task:
        """Make a task of this planting, with its caution and what goes with it."""
        return Task(f"{self.planting.id}/{kind}", *days, kind, self.crop, self.planting.id, said, *beside)


def moved(dates: SowingDates, weeks: int) -> SowingDates:
    """Move all days of a planting by the weeks that the learner chose."""
    by = timedelta(weeks=weeks)
    spans = {name: getattr(dates, name) for name in EVENTS}
    later: dict[str, Any] = {name: (span[0] + by, span[1] + by) for name, span in spans.items() if span is not None}
    return replace(dates, **later)


def growing_days(stands: Sequence[Stand]) -> tuple[date, date] | None:
    """Give the first day on which anything stands in the beds, and the last; None where nothing does."""
    spans = [(stand.window[0], stand.ends) for stand in stands if stand.window is not None]
    return (min(first for first, _ in spans), max(last for _, last in spans)) if spans else None


def plants_to_raise(stands: Sequence[Stand]) -> dict[str, int]:
    """Add up by crop the plants that are sown indoors, where their number was saved."""
    found: dict[str, int] = {}
    for stand in stands:
        if stand.dates.sow_indoors is not None and stand.planting.plants is not None:
            found[stand.crop.id] = found.get(stand.crop.id, 0) + stand.planting.plants
    return found


def planting_tasks(stand: Stand, notes: Notes) -> Iterator[Task]:
    """Give the tasks of a planting that has a window, in the order of the season."""
    dates, window = stand.dates, stand.window
    if window is None:
        return
    named = {"crop": stand.crop.name}
    if dates.sow_indoors is not None:
        yield stand.task("sow_indoors", dates.sow_indoors, Said("task.sow_indoors", named))
    if dates.harden_off is not None:
        yield stand.task("harden_off", dates.harden_off, Said("task.harden_off", named))
    if dates.set_out is not None:
        yield stand.task("set_out", window, Said("task.set_out", named))
    else:
        yield stand.task("direct_sow", window, Said("task.direct_sow", named))
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
    last = found.on if stand.window is None else stand.window[1]
    words = "task.cover_on" if found.off == "harvest" else "task.cover_flower"
    yield stand.task("cover_on", (found.on, last), Said(words, {"crop": stand.crop.name}))
    if found.until is not None:
        said = Said("task.cover_off", {"crop": stand.crop.name})
        yield stand.task("cover_off", (found.until, found.until), said)


def _look(stand: Stand, out: date, notes: Notes) -> Iterator[Task]:
    """Look from the first early day of any pest of this crop, or from planting where none has a day."""
    due = sorted((max(day, out), pest) for pest, day in stand.early.items() if attacks(pest, stand.crop))
    due = [(day, pest) for day, pest in due if day <= stand.ends][:NAMED_PESTS]
    said = Said("task.look", {"crop": stand.crop.name})
    if not due:
        yield stand.task("look", (out, stand.ends), said)
        return
    first, pest = due[0]
    given: dict[str, Value] = {"out": out, "early": stand.early[pest]}
    notes.step("plan.look", "later of out and early", given, first, COMMON_PRACTICE)
    yield stand.task("look", (first, stand.ends), said, None, Said("plan.pests", {"pests": _pests(due)}))


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
        given: dict[str, Value] = {"out": out, "harvest": stand.dates.harvest[0]}
        notes.step("plan.middle", "(out + harvest) / 2", given, middle, COMMON_PRACTICE)
        notes.say("plan.fed_in_middle", *found.sources, crop=stand.crop.name)
        span = middle, middle + timedelta(days=6)
    else:
        return
    notes.cite(*found.sources)
    yield stand.task("feed", span, Said("task.feed", {"crop": stand.crop.name}), Said("task.feed_caution"))


def _harvest(stand: Stand, days: tuple[date, date], notes: Notes) -> Task:
    """Say when picking begins and, where a source prints it, how long the crop keeps."""
    said = Said("task.harvest", {"crop": stand.crop.name})
    try:
        life = storage_life(stand.crop, STORE_TEMP_C)
    except InputProblem:
        notes.say("plan.no_keeping", crop=stand.crop.name)
        return stand.task("harvest", days, said)
    notes.cite(*life.sources)
    whole = Range(round(life.days.low), round(life.days.high), "days")
    kept = Said("task.keeps", {"temp": Quantity(STORE_TEMP_C, "degC"), "days": whole})
    return stand.task("harvest", days, said, Said("task.keep_caution"), kept)
