"""The plan of a season: what to do in which week."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from typing import TYPE_CHECKING, Any

from gardenlib.pests import attacks, forecast, pest_names
from gardenlib.problems import InputProblem
from gardenlib.season.garden_tasks import lime_tasks, water_tasks, workday_tasks
from gardenlib.season.planting_tasks import Stand, growing_days, moved, planting_tasks, plants_to_raise
from gardenlib.season.task import Gathered, OpenDays
from gardenlib.season.task_answer import SeasonTasks
from gardenlib.site.freeze import six_months_on
from gardenlib.sowing import sowing_dates
from gardenlib.tables import Crop, crop
from gardenlib.words import Said
from gardenlib.working import Value

if TYPE_CHECKING:
    from gardenlib.plot import Planting, Plot
    from gardenlib.site import FreezeDates, LaidOut, Warmth
    from gardenlib.soil import LimeForBed
    from gardenlib.sowing import SowingDates


def season_tasks(
    plot: Plot,
    freezes: FreezeDates,
    *,
    year: int,
    latitude: float,
    warmth: Warmth | None = None,
    daily: LaidOut | None = None,
    crops: Mapping[str, Crop] | None = None,
    region: str | None = None,
    garden_opens: date | None = None,
    garden_closes: date | None = None,
    water_on: date | None = None,
    water_off: date | None = None,
    workdays: Sequence[date] = (),
    lime: LimeForBed | None = None,
) -> SeasonTasks:
    """List what to do in a season for the plantings of a plot.

    Parameters
    ----------
    plot : Plot
        The plot file; its plantings and beds count.
    freezes : FreezeDates
        Freeze dates of the place.
    year : int
        Calendar year of the season's spring.
    latitude : float
        Degrees, north positive.
    warmth : Warmth, optional
        Typical year of the place; without it heat sets no limit, and no pest has a day.
    daily : LaidOut, optional
        The station's record, from `site.lay_out`; without it the plants are looked at from planting on.
    crops : mapping of str to Crop, optional
        Crops that the class added.
    region : str, optional
        Key of the source whose planting weeks count, one of `sowing.regions()`.
    garden_opens, garden_closes : date, optional
        First and last day on which the garden is open.
    water_on, water_off : date, optional
        Days on which the tap is opened and shut.
    workdays : sequence of date
        The garden's workdays.
    lime : LimeForBed, optional
        Doses of lime, from `soil.lime_for_bed`.

    Returns
    -------
    SeasonTasks
        The tasks, what is not possible, and what was assumed.

    Raises
    ------
    InputProblem
        When the plot has no plantings, or the garden closes before it opens.

    Notes
    -----
    Source: each task's own: `sowing.sowing_dates`, `pests.forecast`, `pests.cover_dates`, `soil.side_dress`,
    `harvest.storage_life`. All days after planting count from the first day of the planting's window. Looking twice
    a week and checking for water twice a week are common practice, no source.

    Examples
    --------
    >>> from gardenlib.plot import Planting, Plot
    >>> from gardenlib.site import FreezeDates
    >>> here = FreezeDates.typed((4, 15), (10, 15), source="class list", latitude=40.0)
    >>> plot = Plot(plantings=[Planting(id="p1", crop="cauliflower")])
    >>> found = season_tasks(plot, here, year=2027, latitude=40.0)  # a week, moved to where 32 F is past
    >>> [(task.first.isoformat(), task.last.isoformat()) for task in found.tasks if task.kind == "set_out"]
    [('2027-04-15', '2027-04-22')]
    """
    if not plot.plantings:
        raise InputProblem("plan.no_plantings")
    if garden_opens is not None and garden_closes is not None and garden_closes <= garden_opens:
        raise InputProblem("sowing.garden_dates", opens=garden_opens, closes=garden_closes)
    known, days, gathered = crops or {}, OpenDays(garden_opens, garden_closes), Gathered()
    season = _season(year, latitude)
    beds = {bed.id: bed for bed in plot.beds}
    place: dict[str, Any] = {
        "warmth": warmth,
        "garden_opens": garden_opens,
        "garden_closes": garden_closes,
        "region": region,
    }
    grown: list[tuple[Planting, Crop, SowingDates]] = []
    for planting in plot.plantings:
        try:
            plant = known.get(planting.crop) or crop(planting.crop)
            how: dict[str, Any] = {"season": planting.season, "risk": planting.risk, "started": planting.started}
            grown.append((planting, plant, sowing_dates(plant, freezes, year=year, **how, **place)))
        except InputProblem as problem:
            gathered.not_possible.append(problem.said)
    plants = [plant for _, plant, _ in grown]
    early = _early_days(plants, daily, warmth, year=year, latitude=latitude)
    stands = []
    for planting, plant, dates in grown:
        bed, days_moved = beds.get(planting.bed or ""), moved(dates, planting.moved_weeks)
        stand = Stand(planting, plant, bed, days_moved, early, garden_closes or season[1])
        if stand.window is None:
            gathered.not_possible.append(_why_not(plant, dates))
            continue
        given: dict[str, Value] = {"crop": str(plant.name), "from": stand.window[0], "to": stand.window[1]}
        gathered.notes.step("plan.window", "as page 04 works it out", given, stand.window[0], "common_practice")
        gathered.notes.cite(*dates.sources)
        if planting.moved_weeks:
            n, which = abs(planting.moved_weeks), "later" if planting.moved_weeks > 0 else "earlier"
            gathered.notes.say(f"plan.moved_{which}", "common_practice", crop=plant.name, n=n)
        gathered.keep(planting_tasks(stand, gathered.notes), days)
        stands.append(stand)
    gathered.keep(water_tasks(growing_days(stands), water_on, water_off), days)
    gathered.keep(workday_tasks(workdays, season), days)
    doses, closed = lime_tasks(lime, days)
    gathered.tasks.extend(doses)
    gathered.not_possible.extend(closed)
    _tell(gathered, has_pest_days=bool(early), lime=lime)
    return SeasonTasks(
        year=year,
        tasks=tuple(sorted(gathered.tasks, key=lambda task: task.order)),
        not_possible=tuple(gathered.not_possible),
        plants=plants_to_raise(stands),
        **gathered.notes.parts(),
    )


def _season(year: int, latitude: float) -> tuple[date, date]:
    """Give the growing year from midwinter to midwinter."""
    if six_months_on(latitude):
        return date(year, 7, 1), date(year + 1, 6, 30)
    return date(year, 1, 1), date(year, 12, 31)


def _early_days(
    plants: Sequence[Crop], daily: LaidOut | None, warmth: Warmth | None, *, year: int, latitude: float
) -> dict[str, date]:
    """Give for each pest of the plot the day by which it had come in 1 past season of 10."""
    if daily is None or warmth is None:
        return {}
    found: dict[str, date] = {}
    for pest in pest_names():
        if any(attacks(pest, plant) for plant in plants):
            try:
                first = forecast(pest, daily, year, latitude=latitude, typical=warmth).first
            except InputProblem:  # too few whole seasons: none of the pests has a day, and the plan says so
                return {}
            if first is not None and first.early is not None:
                found[pest] = first.early
    return found


def _why_not(plant: Crop, dates: SowingDates) -> Said:
    if dates.reason is not None:
        return Said("plan.not_possible", {"crop": plant.name, "why": dates.reason})
    return Said("calendar.finding_none_plain", {"crop": plant.name})


def _tell(gathered: Gathered, *, has_pest_days: bool, lime: LimeForBed | None) -> None:
    say = gathered.notes.say
    say("plan.from_first_day", "common_practice")
    say("plan.twice_a_week", "common_practice")
    say("plan.picked_on", "common_practice")
    say("plan.pest_days" if has_pest_days else "plan.no_pest_days", "common_practice")
    if lime is not None:
        gathered.notes.cite(*lime.sources)
