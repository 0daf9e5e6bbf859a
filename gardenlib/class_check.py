"""Checking a class folder before class: everything that must be mended, named at once."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from pathlib import Path
from typing import TYPE_CHECKING, Literal

from gardenlib import class_folder, site, tables
from gardenlib.carried import carried
from gardenlib.class_folder import ClassFolder, SiteRow
from gardenlib.class_folder.model import CLASS_PLOT, MonthDay
from gardenlib.problems import InputProblem
from gardenlib.words import Said, languages

if TYPE_CHECKING:
    from gardenlib.site import FreezeDates

MOST_DAYS_APART = 10
_SOME_YEAR = 2001  # days are compared in a year without 29 February
_HALVES: tuple[tuple[Literal["spring", "fall"], str], ...] = (
    ("spring", "last_freeze_50"),
    ("fall", "first_freeze_50"),
)


@dataclass(frozen=True)
class Report:
    """What a check found.

    Parameters
    ----------
    title : str
        The class.
    mend : tuple of Said
        What must be mended before class.
    notes : tuple of Said
        What is good to know.
    """

    title: str
    mend: tuple[Said, ...]
    notes: tuple[Said, ...]

    @property
    def lines(self) -> tuple[Said, ...]:
        """What to print: the list of what must be mended, or that the class is ready."""
        if not self.mend:
            return (Said("check.ready", {"title": self.title}),)
        return (Said("check.to_mend", {"n": len(self.mend)}), *self.mend)


def check(folder: str | Path) -> list[Said]:
    """Name everything in a class folder that must be mended before class.

    Parameters
    ----------
    folder : str or Path
        The class folder.

    Returns
    -------
    list of Said
        One sentence each, with file, row, value and mend; empty when the class is ready.
    """
    return list(report(folder).mend)


def report(folder: str | Path) -> Report:
    """Check a class folder, its station files and its typed dates.

    Parameters
    ----------
    folder : str or Path
        The class folder.

    Returns
    -------
    Report
        What must be mended and what is good to know.

    Notes
    -----
    A station file whose middle freeze date lies more than 10 days from the typed one is named with both
    dates; the limit is common practice, no source.
    """
    klass, findings = class_folder.survey(folder)
    mend = [problem.said for problem in findings.problems] + findings.unset
    if klass.sites:
        mend += [*_names(klass), *_meetings(klass), *_crops(klass), *_season(klass), *_workdays(klass)]
        for row in klass.sites.values():
            mend += [*_freezes(row)]
    notes = (*findings.notes, *_shut_then(klass), *_nobody_to_call(klass), *_no_use_in_plots(klass))
    return Report(klass.title, tuple(mend), notes)


# ---- names that point somewhere ------------------------------------------------------------


def _names(klass: ClassFolder) -> Iterator[Said]:
    for language in klass.languages:
        if language not in languages():
            yield _unknown("class.toml", "languages", language, languages())
    if klass.region:
        try:
            tables.source(klass.region)
        except InputProblem as problem:
            yield _at("class.toml: region", problem)
    bed_needed = any(learner.plot == klass.class_bed for learner in klass.learners.values())
    if (klass.class_bed or (bed_needed and klass.title)) and klass.class_bed not in klass.plots:
        yield _unknown("class.toml", "class_bed", klass.class_bed or "-", klass.plots)
    for plot in klass.plots.values():
        if plot.site not in klass.sites:
            yield _unknown("plots.csv", plot.id, plot.site, klass.sites)
    for site_name in klass.monthly:
        if site_name not in klass.sites:
            yield _unknown("normals_monthly.csv", "site", site_name, klass.sites)
    for learner in klass.learners.values():
        if learner.plot != klass.class_bed and learner.plot not in klass.plots:
            yield _unknown("learners.csv", learner.id, learner.plot, klass.plots)
        if learner.language and learner.language not in klass.languages:
            key = "check.language" if learner.language in languages() else "check.unknown"
            yield _unknown("learners.csv", learner.id, learner.language, klass.languages, key)


def _meetings(klass: ClassFolder) -> Iterator[Said]:
    pages = sorted(path.stem for path in carried("notebooks").glob("*.ipynb"))
    for meeting in klass.sessions:
        if meeting.page and meeting.page not in pages:
            yield _unknown("class.toml", "sessions.page", meeting.page, pages)


def _unknown(file: str, where: str, value: str, known: object, key: str = "check.unknown") -> Said:
    names = ", ".join(list(known)[:12])  # type: ignore[call-overload]
    return Said(key, {"file": file, "where": where, "value": value, "known": names or "-"})


def _at(where: str, problem: InputProblem) -> Said:
    return Said("check.at", {"where": where, "problem": problem.said})


def _crops(klass: ClassFolder) -> Iterator[Said]:
    listed = [("class.toml", crop) for crop in klass.crop_ids]
    try:
        stand_in = klass.class_plot
    except InputProblem as problem:
        yield problem.said
    else:
        yield from stand_in.notes
        if (klass.folder / CLASS_PLOT).exists():  # else the settings stand in, which are told already
            listed += [(CLASS_PLOT, eaten.crop) for eaten in stand_in.household.eat]
            listed += [(CLASS_PLOT, planting.crop) for planting in stand_in.plantings]
    for file, crop in dict.fromkeys(listed):
        if crop not in klass.crops:
            try:
                tables.crop(crop)
            except InputProblem as problem:
                yield Said("problem.homework.class_crop", {"file": file, "problem": problem.said})


def _season(klass: ClassFolder) -> Iterator[Said]:
    """Name a garden that closes before it opens, in the growing year of a site."""
    opens, closes = klass.garden_opens, klass.garden_closes
    if not (opens and closes):
        return
    for row in klass.sites.values():
        # A growing year runs from midwinter to midwinter, as in a session of the pages.
        first_month = 7 if row.latitude < 0 else 1
        opened, closed = (((month - first_month) % 12, day) for month, day in (opens, closes))
        if closed <= opened:
            start, end = date(_SOME_YEAR, first_month, 1), date(_SOME_YEAR, first_month, 1) - timedelta(days=1)
            days = {"first": date(_SOME_YEAR, *opens), "last": date(_SOME_YEAR, *closes), "start": start, "end": end}
            yield Said("check.closes_first", {"file": "class.toml", "site": row.name, **days})


def _workdays(klass: ClassFolder) -> Iterator[Said]:
    for day in klass.workdays:
        if open_days := _shut_on(klass, (day.month, day.day)):
            yield Said("check.garden_shut", {"file": "class.toml", "day": day, **open_days})


def _shut_then(klass: ClassFolder) -> Iterator[Said]:
    """Tell what falls in the months without a garden and yet may be meant so: a class may meet indoors."""
    for meeting in klass.sessions:
        if open_days := _shut_on(klass, (meeting.date.month, meeting.date.day)):
            yield Said("check.meets_shut", {"file": "class.toml", "day": meeting.date, **open_days})
    if klass.water_on and (open_days := _shut_on(klass, klass.water_on)):
        day = date(_SOME_YEAR, *klass.water_on)
        yield Said("check.water_shut", {"file": "class.toml", "day": day, **open_days})


def _nobody_to_call(klass: ClassFolder) -> Iterator[Said]:
    """Tell a class whose contacts have no phone: it can be taught, but a garden needs somebody to call."""
    if klass.title and not any(contact.phone for contact in klass.contacts):
        yield Said("check.no_phone", {"file": "class.toml"})


def _no_use_in_plots(klass: ClassFolder) -> Iterator[Said]:
    """Tell what stands in a plot's row and is no use: the pages look for whole family names, and for one disease."""
    from gardenlib.beds import families
    from gardenlib.panels.bed_of import CLUBROOT

    known = {family.casefold() for family in families()}
    for plot in klass.plots.values():
        for family in dict.fromkeys(name for year in plot.families for name in year):
            if family.casefold() not in known:
                yield _unknown("plots.csv", plot.id, family[:60], families(), "check.family")
        if plot.known_disease.strip().casefold() not in {"", CLUBROOT}:
            yield _unknown("plots.csv", plot.id, plot.known_disease[:60], [CLUBROOT], "check.disease")


def _shut_on(klass: ClassFolder, at: MonthDay) -> dict[str, date]:
    """Give the first and last day of the open garden when it is shut on this day of the year, else nothing."""
    opens, closes = klass.garden_opens, klass.garden_closes
    if not (opens and closes):
        return {}
    open_then = opens <= at <= closes if opens <= closes else at >= opens or at <= closes
    return {} if open_then else {"first": date(_SOME_YEAR, *opens), "last": date(_SOME_YEAR, *closes)}


# ---- freeze dates --------------------------------------------------------------------------


def _freezes(row: SiteRow) -> Iterator[Said]:
    where = f"sites.csv, row {row.row}"
    if row.typed_dates and not row.dates_from:
        yield Said("check.no_source", {"where": where})
    if not (row.typed_dates or row.station_file or row.normals_file):
        yield Said("check.no_dates", {"where": where, "site": row.name})
    if row.typed_dates:
        try:
            _typed(row)
        except InputProblem as problem:
            yield _at(where, problem)
    for file in (row.station_file, row.normals_file):
        if file is not None:
            try:
                yield from _apart(row, where, file.name, _from_file(row, file))
            except InputProblem as problem:
                yield _at(where, problem)


def _typed(row: SiteRow) -> None:
    site.FreezeDates.typed(
        row.last_freeze_50,
        row.first_freeze_50,
        source=row.dates_from or "?",
        latitude=row.latitude,
        threshold_f=round(row.threshold_f),
        last_spring_10=row.last_freeze_10,
        last_spring_90=row.last_freeze_90,
        first_fall_10=row.first_freeze_10,
        first_fall_90=row.first_freeze_90,
    )


def _from_file(row: SiteRow, file: Path) -> FreezeDates:
    if file == row.normals_file:
        return site.FreezeDates.from_normals(file, latitude=row.latitude)
    unit = row.station_unit
    station = site.read_station(file, unit=unit, latitude=row.latitude)
    return site.FreezeDates.from_station(station, latitude=row.latitude)


def _apart(row: SiteRow, where: str, file: str, found: FreezeDates) -> Iterator[Said]:
    threshold_f = round(row.threshold_f)
    for half, column in _HALVES:
        typed = row.typed_dates.get(column)
        if typed is None or not found.knows(half, threshold_f, 0.5):
            continue
        day = found.date(half, threshold_f, 0.5, year=_SOME_YEAR)
        if day is None:
            yield Said("check.never", {"where": where, "column": column, "file": file})
            continue
        here, there = date(_SOME_YEAR, *typed), day.replace(year=_SOME_YEAR)
        days = min(gap := abs((here - there).days), 365 - gap)
        if days > MOST_DAYS_APART:
            yield Said(
                "check.apart",
                {"where": where, "column": column, "typed": here, "file": file, "found": there, "days": days},
            )
