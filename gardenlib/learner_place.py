"""From the class folder and the plot file to what is known of the learner's place."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from gardenlib import site
from gardenlib.class_folder import ClassFolder, SiteRow
from gardenlib.site import FreezeDates, Place, Station

if TYPE_CHECKING:
    from gardenlib.plot import Site

_DATES = ("last_freeze_50", "first_freeze_50", "last_freeze_10", "last_freeze_90", "first_freeze_10", "first_freeze_90")


def place_of(klass: ClassFolder, site_name: str, own: Site, folder: Path) -> Place:
    """Gather what is known of a learner's place from the class's row and the learner's own choice.

    Parameters
    ----------
    klass : ClassFolder
        The class.
    site_name : str
        A site of the class.
    own : plot.Site
        What the learner has chosen, typed and measured.
    folder : Path
        The learner's folder, in which own station files lie.

    Returns
    -------
    Place
        With the dates that the learner chose first among its sources.

    Raises
    ------
    InputProblem
        When a file cannot be used.
    """
    row = klass.sites[site_name]
    station = station_of(row, own, folder)
    typed = (
        _typed(own, row.latitude, own.dates_from) if own.way == "typed" else _typed(row, row.latitude, row.dates_from)
    )
    monthly = klass.monthly.get(site_name, ())
    has_own_offset = own.night_offset_c is not None
    return site.place(
        site_name,
        row.latitude,
        station=station,
        normals=row.normals_file,
        typed=typed,
        prefer="typed" if own.way == "typed" else None,
        monthly=[(month.month, month.mean_high_c, month.mean_low_c) for month in monthly] or None,
        monthly_source=monthly[0].source if monthly else "",
        night_offset_c=(own.night_offset_c or 0.0) if has_own_offset else row.night_offset_c,
        night_offset_reason=(own.night_offset_reason or "") if has_own_offset else row.night_offset_reason,
    )


def station_of(row: SiteRow, own: Site, folder: Path) -> Station | None:
    """Read the learner's own station file where it was chosen, else the class's."""
    if own.way == "file" and own.station_file:
        return _station(str(folder / own.station_file), own.station_unit, row.latitude)
    if row.station_file is None:
        return None
    return _station(str(row.station_file), row.station_unit, row.latitude)


def _station(path: str, unit: str | None, latitude: float) -> Station:
    file = Path(path)
    changed = file.stat().st_mtime_ns if file.exists() else 0
    return _read(path, unit, latitude, changed)


@lru_cache(maxsize=4)
def _read(path: str, unit: Any, latitude: float, changed: int) -> Station:
    return site.read_station(path, unit=unit, latitude=latitude)


def _typed(dates: Site | SiteRow, latitude: float, source: str | None) -> FreezeDates | None:
    last, first, *tenths = (getattr(dates, name) for name in _DATES)
    if not (last or first):
        return None
    return FreezeDates.typed(
        last,
        first,
        source=source or "",
        latitude=latitude,
        threshold_f=round(dates.threshold_f),
        last_spring_10=tenths[0],
        last_spring_90=tenths[1],
        first_fall_10=tenths[2],
        first_fall_90=tenths[3],
    )
