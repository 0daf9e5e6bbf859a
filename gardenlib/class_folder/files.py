"""The class's tables: sites, plots, learners, crops, normals by month, words."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from string import Formatter
from typing import TypeVar

from gardenlib.class_folder.days import month_number
from gardenlib.class_folder.model import Learner, MonthRow, PlotRow, SiteRow
from gardenlib.class_folder.sheet import Findings, Row, is_fill_in, number, read_rows
from gardenlib.problems import InputProblem
from gardenlib.tables import Crop, crop_from_packet
from gardenlib.tables.packet import COLUMNS as CROP_COLUMNS
from gardenlib.units import M_PER_FOOT, f_to_c
from gardenlib.words import Said, texts

_FREEZES = [f"{which}_freeze_{risk}" for which in ("last", "first") for risk in (50, 10, 90)]
_FAMILIES = ["families_1_year_ago", "families_2_years_ago", "families_3_years_ago", "families_4_years_ago"]
_SITE = [
    *("site", "latitude", "longitude", "elevation_m", "threshold_f", "dates_from", "years_covered", *_FREEZES),
    *("night_offset_c", "night_offset_f", "night_offset_reason", "station_file", "station_unit", "normals_file"),
]
_PLOT = [
    *("plot", "site", "length_m", "length_ft", "width_m", "width_ft", "sun_hours", "water", "kind"),
    *("reach_m", "reach_ft", "wheelchair_path", "known_disease", *_FAMILIES),
]
_LEARNER = ["id", "display_name", "language", "plot"]
_MONTH = ["site", "month", "mean_high", "mean_low", "unit", "source"]
_WORDS = ["key", "text"]
COLUMNS = {
    "sites.csv": _SITE,
    "plots.csv": _PLOT,
    "learners.csv": _LEARNER,
    "crops.csv": list(CROP_COLUMNS),
    "normals_monthly.csv": _MONTH,
    "words_local.csv": _WORDS,
}

T = TypeVar("T")


def _once(rows: Iterator[Row], column: str, make: Callable[[Row, str], T | None]) -> dict[str, T]:
    made: dict[str, T] = {}
    seen: dict[str, int] = {}
    for row in rows:
        name = row.text(column, needed=True)
        if name in seen:
            row.findings.problems.append(
                InputProblem("class.twice", where=row.where(column), value=name, first=seen[name])
            )
        elif name:
            seen[name] = row.number
            if (one := make(row, name)) is not None:
                made[name] = one
        else:  # a row without its name is not read, but what it still lacks is told
            for other, text in row.cells.items():
                if other != column and is_fill_in(text):
                    row.findings.fill_in(row.where(other), needed=True)
    return made


def _own(rows: Iterator[Row], column: str) -> Iterator[Row]:
    """Leave out the example rows of a table that a class need not fill, and name them all at once."""
    examples: list[Row] = []
    for row in rows:
        if is_fill_in(row.cells.get(column, "")):
            examples.append(row)
        else:
            yield row
    if examples:
        numbers = ", ".join(str(row.number) for row in examples[:12])
        examples[0].findings.problems.append(
            InputProblem("class.fill_in_rows", file=examples[0].file, n=len(examples), rows=numbers)
        )


# ---- sites ---------------------------------------------------------------------------------


def read_sites(folder: Path, findings: Findings) -> dict[str, SiteRow]:
    """Read ``sites.csv``."""
    rows = read_rows(folder / "sites.csv", ["site", "latitude"], _SITE, findings)
    return _once(rows, "site", lambda row, name: _site(folder, row, name))


def _site(folder: Path, row: Row, name: str) -> SiteRow | None:
    latitude = row.number_in("latitude", -90, 90, needed=True)
    longitude = row.number_in("longitude", -180, 180)
    threshold_f = row.number_in("threshold_f", 0, 50)
    if any(value is not None and round(value, 2) != value for value in (latitude, longitude)):
        row.findings.notes.append(Said("class.rounded", {"file": row.file, "row": row.number}))
    site = {
        "name": name,
        "row": row.number,
        "longitude": None if longitude is None else round(longitude, 2),
        "elevation_m": row.number_in("elevation_m", -500, 9000),
        **{column: row.month_day(column) for column in _FREEZES},
        "threshold_f": 32.0 if threshold_f is None else threshold_f,
        **{column: row.text(column) for column in ("dates_from", "years_covered", "night_offset_reason")},
        "night_offset_c": _night_offset_c(row),
        "station_file": _file(folder, row, "station_file"),
        "station_unit": row.choice("station_unit", ("F", "C", "tenths-C")) or None,
        "normals_file": _file(folder, row, "normals_file"),
    }
    return None if latitude is None else SiteRow(latitude=round(latitude, 2), **site)  # type: ignore[arg-type]


def _night_offset_c(row: Row) -> float:
    in_c, in_f = row.number_in("night_offset_c", -15, 15), row.number_in("night_offset_f", -27, 27)
    if in_c is not None and in_f is not None:
        row.refuse("night_offset_f", Said("class.mend.one_unit", {"one": "night_offset_c", "other": "night_offset_f"}))
    offset_c = in_c if in_c is not None else (in_f or 0.0) / 1.8
    if offset_c and not row.text("night_offset_reason"):
        row.findings.problems.append(InputProblem("class.no_reason", where=row.where("night_offset_reason")))
    return offset_c


def _file(folder: Path, row: Row, column: str) -> Path | None:
    name = row.text(column).replace("\\", "/")
    if not name:
        return None
    top = folder.resolve()
    for path in (folder / "stations" / name, folder / name):
        try:
            if path.is_file() and path.resolve().is_relative_to(top):
                return path
        except OSError:  # a name longer than any file's
            break
    row.findings.problems.append(InputProblem("class.no_file", where=row.where(column), value=name[:60]))
    return None


# ---- plots and learners --------------------------------------------------------------------


def read_plots(folder: Path, findings: Findings, first_site: str) -> dict[str, PlotRow]:
    """Read ``plots.csv``; a plot that names no site lies at the first one."""
    if not (folder / "plots.csv").exists():
        return {}
    return _once(
        read_rows(folder / "plots.csv", ["plot"], _PLOT, findings),
        "plot",
        lambda row, name: _plot(row, name, first_site),
    )


def _plot(row: Row, name: str, first_site: str) -> PlotRow:
    return PlotRow(
        id=name,
        site=row.text("site") or first_site,
        length_m=_length_m(row, "length"),
        width_m=_length_m(row, "width"),
        sun_hours=row.number_in("sun_hours", 0, 24),
        water=row.text("water"),
        kind=row.choice("kind", ("raised", "ground")),
        reach_m=_length_m(row, "reach"),
        wheelchair_path=row.yes("wheelchair_path"),
        families=tuple(
            tuple(family for part in re.split(r"[,;/+&]", row.text(column)) if (family := part.strip()))
            for column in _FAMILIES
        ),
        known_disease=row.text("known_disease"),
    )


def _length_m(row: Row, what: str) -> float | None:
    in_m, in_ft = row.number_in(f"{what}_m", 0.05, 300), row.number_in(f"{what}_ft", 0.2, 1000)
    if in_m is not None and in_ft is not None:
        row.refuse(f"{what}_ft", Said("class.mend.one_unit", {"one": f"{what}_m", "other": f"{what}_ft"}))
    return in_ft * M_PER_FOOT if in_m is None and in_ft is not None else in_m


def read_learners(folder: Path, findings: Findings, class_bed: str) -> dict[str, Learner]:
    """Read ``learners.csv``; a learner without a plot uses the class bed."""
    path = folder / "learners.csv"
    if not path.exists():
        return {}
    return _once(
        read_rows(path, ["id", "display_name"], _LEARNER, findings),
        "id",
        lambda row, name: Learner(
            name, row.text("display_name", needed=True), row.text("language"), row.text("plot") or class_bed
        ),
    )


# ---- crops, normals, words -----------------------------------------------------------------


def read_crops(folder: Path, findings: Findings) -> dict[str, Crop]:
    """Read ``crops.csv``: the crops that the class adds."""
    path = folder / "crops.csv"
    if not path.exists():
        return {}
    needed = [name for name, column in CROP_COLUMNS.items() if column.needed]
    return _once(_own(read_rows(path, needed, list(CROP_COLUMNS), findings), "crop"), "crop", _crop)


def _crop(row: Row, name: str) -> Crop | None:
    if unset := [column for column, value in row.cells.items() if is_fill_in(value)]:
        for column in unset:
            row.findings.fill_in(row.where(column), needed=True)
        return None
    cells = {column: _plain(row, column, text) for column, text in row.cells.items() if column in CROP_COLUMNS}
    return row.findings.attempt(lambda: crop_from_packet(cells, file=row.file, line=row.number))


def _plain(row: Row, column: str, text: str) -> str:
    value = number(text, decimal_comma=row.decimal_comma) if CROP_COLUMNS[column].kind == "number" else None
    return text if value is None else repr(value)


def read_monthly(folder: Path, findings: Findings) -> dict[str, tuple[MonthRow, ...]]:
    """Read ``normals_monthly.csv``: twelve normal highs and lows of a site."""
    path = folder / "normals_monthly.csv"
    if not path.exists():
        return {}
    found: dict[str, dict[int, MonthRow]] = {}
    for row in _own(read_rows(path, _MONTH, _MONTH, findings), "site"):
        site, unit = row.text("site", needed=True), row.choice("unit", ("F", "C"), needed=True)
        month = month_number(row.text("month", needed=True))
        bounds = (-90.0, 60.0) if unit == "C" else (-130.0, 140.0)
        high, low = (row.number_in(column, *bounds, needed=True) for column in ("mean_high", "mean_low"))
        source = row.text("source", needed=True)
        if month is None:
            row.refuse("month", Said("class.mend.month"))
        elif month in found.setdefault(site, {}):
            row.refuse("month", Said("class.mend.once"))
        elif high is not None and low is not None and unit:
            if low > high:
                row.refuse("mean_low", Said("class.mend.low_above_high", {"high": high}))
            in_c = (high, low) if unit == "C" else (f_to_c(high), f_to_c(low))
            found[site][month] = MonthRow(month, *in_c, source)
    for site, months in found.items():
        if missing := [str(month) for month in range(1, 13) if month not in months]:
            findings.problems.append(
                InputProblem("class.months_missing", file=path.name, site=site, months=", ".join(missing))
            )
    return {site: tuple(months[month] for month in sorted(months)) for site, months in found.items()}


def read_words(folder: Path, findings: Findings, language: str) -> Mapping[str, str]:
    """Read ``words_local.csv``: the class's own sentences by key."""
    path = folder / "words_local.csv"
    if not path.exists():
        return {}
    known, own = texts(language), {}
    for row in _own(read_rows(path, _WORDS, _WORDS, findings), "key"):
        key, text = row.text("key", needed=True), row.text("text", needed=True)
        if key and key not in known:
            row.refuse("key", Said("class.mend.words_key"))
        elif key and text:
            allowed = _names(known[key]) or set()
            names = _names(text)
            if names is None or not names <= allowed:
                row.refuse("text", Said("class.mend.words_names", {"names": ", ".join(sorted(allowed)) or "-"}))
            else:
                own[key] = text
    return own


def _names(text: str) -> set[str] | None:
    try:
        return {name for _, name, _, _ in Formatter().parse(text) if name is not None}
    except ValueError:
        return None
