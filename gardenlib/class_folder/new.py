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


def new_class(path: str | Path) -> Path:
    """Make an empty class folder.

    Parameters
    ----------
    path : str or Path
        Where to make it: a new folder, or one that holds nothing. Folders above it are made too.

    Returns
    -------
    Path
        The folder, with all its files. What the class must write itself says FILL-IN.

    Raises
    ------
    InputProblem
        When something lies there already, or the folder cannot be made.
    """
    home = Path(path)
    try:
        if home.exists() and not (home.is_dir() and next(home.iterdir(), None) is None):
            raise InputProblem("class.holds_files", folder=str(home))
        (home / "stations").mkdir(parents=True)
        for name, text in _texts().items():
            with (home / name).open("x", encoding="utf-8", newline="") as file:
                file.write(text)
    except OSError as error:
        raise InputProblem("class.new_unwritable", folder=str(home), why=error.strerror or str(error)) from None
    return home


def _texts() -> dict[str, str]:
    say = Voice().say
    stations = [say(f"class.new.stations.{line}") for line in ("about", "normals", "named", "look")]
    return {
        FILE: "\n".join(_settings()) + "\n",
        **{name: _table(columns, _ROWS[name]) for name, columns in COLUMNS.items()},
        "stations/README.txt": "\n".join(stations) + "\n",
    }


def _settings() -> Iterator[str]:
    for key in ("about", "days", "dates"):
        yield from _comment(key)
    for part, fields in KNOWN.items():
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


def _comment(key: str) -> Iterator[str]:
    return ("# " + line for line in textwrap.wrap(Voice().say(f"class.new.{key}"), 98))


def _table(columns: list[str], rows: list[dict[str, str]]) -> str:
    text = io.StringIO()
    writer = csv.DictWriter(text, columns, lineterminator="\n")
    writer.writeheader()
    writer.writerows(rows)
    return text.getvalue()
