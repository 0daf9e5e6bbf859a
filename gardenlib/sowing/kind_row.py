"""One kind beside others: its days, space and dates, and how many days the season leaves it."""

from __future__ import annotations

from datetime import date
from typing import Any, Literal

from gardenlib.sowing.dates import SowingDates
from gardenlib.sowing.windows import SET_OUT, paths_of
from gardenlib.tables import Crop
from gardenlib.tables.loader import rows
from gardenlib.units import MM_PER_INCH, Range
from gardenlib.words import Said
from gardenlib.working import Notes


def kind_row(
    plant: Crop, dates: SowingDates, today: date | None, garden_closes: date | None, notes: Notes
) -> tuple[Any, ...]:
    """Gather one kind's row, in the order of the columns of `Kinds`."""
    as_plants = SET_OUT in paths_of(plant) and not (dates.set_out is None and dates.direct_sow)
    own = plant.days_from_transplant if as_plants else plant.days_from_seed
    days = own or plant.days_basis_not_stated
    counted = None if days is None else ("not_stated" if own is None else ("plants" if as_plants else "seed"))
    planted = dates.set_out or dates.direct_sow
    room, ends_by = _season_room(dates, planted, garden_closes, notes)
    passed = planted is not None and today is not None and planted[1] < today
    quick = next((said for said in dates.assumptions if said.key == "sowing.quick_kind"), None)
    reason = dates.reason or quick
    if planted and passed:
        reason = Said("kinds.passed", {"crop": plant.name, "day": planted[1]})
    space = next((row for row in rows("spacing") if row["crop"] == plant.id), None)
    if space is not None:
        notes.cite(*space["source"].split("|"))
    low_m, high_m = (space and space[f"bed_{end}_in"] * MM_PER_INCH / 1000 for end in ("low", "high"))
    return (
        plant.id,
        days and days.typical.low,
        days and days.typical.high,
        counted,
        days is not None and days.status == "memory",
        low_m,
        high_m,
        space is not None and space["status"] == "memory",
        plant.harvest_wk and plant.harvest_wk.typical.high,
        keeping(plant, notes),
        None if planted is None else ("set_out" if dates.set_out else "direct_sow"),
        *(planted or (None, None)),
        *(dates.harvest or (None, None)),
        room,
        ends_by,
        planted is not None and not passed,
        reason,
    )


def keeping(plant: Crop, notes: Notes | None = None) -> Range | None:
    """Give how long a kind stays good near freezing, None where no source tells."""
    row = next((row for row in rows("keeping") if row["crop"] == plant.id), None)
    if row is None:
        return None
    if notes is not None:
        notes.cite(*row["source"].split("|"))
    return Range(row["low"], row["high"], row["unit"])


def _season_room(
    dates: SowingDates, planted: tuple[date, date] | None, garden_closes: date | None, notes: Notes
) -> tuple[int | None, Literal["heat", "freeze", "closing"] | None]:
    """Count the days from the first day to plant to what ends the season; None where that is not known."""
    counts = [step for step in dates.steps if step.key == "sowing.last_useful"]
    if not counts or (planted is None and dates.reason and dates.reason.key == "sowing.short_of_opening"):
        return None, None
    step = counts[-1 if dates.set_out is None and dates.direct_sow else 0]
    end, last = step.inputs["season_end"], step.result
    assert isinstance(end, date) and isinstance(last, date)  # noqa: S101, PT018 - how the step is made
    opens = planted[0] if planted else date.fromordinal(last.toordinal() + (dates.short_by_days or 0))
    room = (end - opens).days
    notes.step("kinds.room", "season_end - opens", {"season_end": end, "opens": opens}, room, "common_practice")
    return room, "heat" if end == dates.heat_date else "closing" if end == garden_closes else "freeze"
