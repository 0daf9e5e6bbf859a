"""A new class folder, with a mark wherever the class writes its own.

Its columns and settings are those the reader knows, so that the two cannot part.
"""

from __future__ import annotations

import csv
import io
import textwrap
from collections.abc import Iterator, Mapping
from pathlib import Path

from gardenlib.class_folder.files import COLUMNS
from gardenlib.class_folder.settings import FILE, KNOWN
from gardenlib.class_folder.sheet import FILL_IN
from gardenlib.problems import InputProblem
from gardenlib.words import Voice

_LISTS = ("sessions", "contacts")  # parts that may stand there more than once
# The pages of each plan's meetings, in their order; a title for each stands in the words files.
PLANS: Mapping[str, tuple[str, ...]] = {
    "saturday": ("04_sowing_calendar",),
    "spring": (
        *("01_site_and_zone", "02_soil", "03_beds"),
        *("04_sowing_calendar", "05_pests", "07_season_plan"),
    ),
    "fall": ("04_sowing_calendar", "06_harvest_and_storage", "02_soil", "07_season_plan"),
    "monthly": (
        *("00_start_here", "01_site_and_zone", "04_sowing_calendar", "02_soil", "03_beds", "05_pests"),
        *("06_harvest_and_storage", "04_sowing_calendar", "06_harvest_and_storage", "07_season_plan"),
    ),
}
# What a setting begins with; all others begin with the mark.
_BEGIN = {
    "languages": '["en"]',
    "invented": "false",
    "crops": f'["{FILL_IN}"]',
    "class_bed": '"class-bed"',
    "region": '""',
    "workdays": "[]",
    "lime_from_texture": "false",
    "show_scores": "false",
    "translation_read_by": '""',
    "sessions.page": '"01_site_and_zone"',
}
_BED = dict.fromkeys(("length_ft", "width_ft", "sun_hours", "water", "kind", "wheelchair_path"), FILL_IN)
_ROWS: Mapping[str, list[dict[str, str]]] = {
    "sites.csv": [
        {
            **dict.fromkeys(("site", "latitude", "last_freeze_50", "first_freeze_50", "dates_from"), FILL_IN),
            "threshold_f": "32",
        }
    ],
    "plots.csv": [{"plot": "class-bed", **_BED}, {"plot": "plot-1", **_BED}],
    "learners.csv": [{"id": "L01", "display_name": FILL_IN, "language": "en", "plot": "plot-1"}],
    "crops.csv": [dict.fromkeys(("crop", "name", "family", "hardiness", "method", "source"), FILL_IN)],
    "normals_monthly.csv": [
        {**dict.fromkeys(COLUMNS["normals_monthly.csv"], FILL_IN), "month": str(month)} for month in range(1, 13)
    ],
    "words_local.csv": [dict.fromkeys(COLUMNS["words_local.csv"], FILL_IN)],
}


def new_class(path: str | Path, *, plan: str | None = None) -> Path:
    """Make an empty class folder.

    Parameters
    ----------
    path : str or Path
        Where to make it: a new folder, or one that holds nothing. Folders above it are made too.
    plan : {"saturday", "spring", "fall", "monthly"}, optional
        Which meetings to write into it; a single one to copy where it is not given.

    Returns
    -------
    Path
        The folder, with all its files. What the class must write itself says FILL-IN.

    Raises
    ------
    InputProblem
        When something lies there already, the folder cannot be made, or there is no such plan.
    """
    home = Path(path)
    if plan is not None and plan not in PLANS:
        raise InputProblem("day.plan", value=plan, known=", ".join(PLANS))
    try:
        if home.exists() and not (home.is_dir() and next(home.iterdir(), None) is None):
            raise InputProblem("class.holds_files", folder=str(home))
        (home / "stations").mkdir(parents=True)
        for name, text in _texts(plan).items():
            with (home / name).open("x", encoding="utf-8", newline="") as file:
                file.write(text)
    except OSError as error:
        raise InputProblem("class.new_unwritable", folder=str(home), why=error.strerror or str(error)) from None
    return home


def _texts(plan: str | None) -> dict[str, str]:
    say = Voice().say
    stations = [say(f"class.new.stations.{line}") for line in ("about", "normals", "named", "look")]
    return {
        FILE: "\n".join(_settings(plan)) + "\n",
        **{name: _table(columns, _ROWS[name]) for name, columns in COLUMNS.items()},
        "stations/README.txt": "\n".join(stations) + "\n",
    }


def _settings(plan: str | None) -> Iterator[str]:
    for key in ("about", "days", "dates"):
        yield from _comment(key)
    for part, fields in KNOWN.items():
        if part == "sessions" and plan is not None:
            yield from _meetings(plan)
            continue
        if part:
            yield ""
            yield from _comment(f"{part}.about")
            yield f"[[{part}]]" if part in _LISTS else f"[{part}]"
        for field in fields:
            name = f"{part}.{field}" if part else field
            if name in KNOWN:
                continue
            if not part:
                yield ""
            yield from _comment(name)
            yield f"{field} = " + _BEGIN.get(name, f'"{FILL_IN}"')


def _meetings(plan: str) -> Iterator[str]:
    """Write the meetings of a plan; the class fills in their dates."""
    say = Voice().say
    yield ""
    yield from _comment("sessions.about")
    for number, page in enumerate(PLANS[plan], start=1):
        title = say(f"day.plan.{plan}_{number}")
        yield from ("[[sessions]]", f'date = "{FILL_IN}"', f'title = "{title}"', f'page = "{page}"', "")


def _comment(key: str) -> Iterator[str]:
    return ("# " + line for line in textwrap.wrap(Voice().say(f"class.new.{key}"), 98))


def _table(columns: list[str], rows: list[dict[str, str]]) -> str:
    text = io.StringIO()
    writer = csv.DictWriter(text, columns, lineterminator="\n")
    writer.writeheader()
    writer.writerows(rows)
    return text.getvalue()
