"""Reading a class folder whole: at the first problem, or with all of them."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from gardenlib.class_folder import files
from gardenlib.class_folder.model import ClassFolder
from gardenlib.class_folder.settings import read_settings
from gardenlib.class_folder.sheet import Findings
from gardenlib.problems import InputProblem
from gardenlib.words import languages

POINTER = Path(".workbook") / "class_folder.txt"
BESIDE = ("class", "demo_class")


def read(folder: str | Path) -> ClassFolder:
    """Read a class folder.

    Parameters
    ----------
    folder : str or Path
        The folder with ``class.toml``, ``sites.csv`` and the rest.

    Returns
    -------
    ClassFolder
        Its values; fields that say FILL-IN are empty.

    Raises
    ------
    InputProblem
        At the first thing that cannot be read; it names file, row, value and mend.
    """
    found, findings = survey(folder)
    if findings.problems:
        raise findings.problems[0]
    return found


def survey(folder: str | Path) -> tuple[ClassFolder, Findings]:
    """Read a class folder and gather everything that stands in the way.

    Parameters
    ----------
    folder : str or Path
        The class folder.

    Returns
    -------
    tuple of (ClassFolder, Findings)
        What could be read, and what was found while reading.
    """
    folder, findings = Path(folder), Findings()
    if not folder.is_dir():
        findings.problems.append(InputProblem("class.no_folder", folder=str(folder)))
        return ClassFolder(folder=folder, title="", languages=("en",), units="us"), findings
    settings = read_settings(folder, findings)
    sites = files.read_sites(folder, findings)
    speaks = next((language for language in settings["languages"] if language in languages()), "en")
    if not sites and not findings.problems:
        findings.problems.append(InputProblem("class.no_site", file="sites.csv"))
    parts: dict[str, Any] = {
        "sites": sites,
        "plots": files.read_plots(folder, findings, next(iter(sites), "")),
        "learners": files.read_learners(folder, findings, settings["class_bed"]),
        "crops": files.read_crops(folder, findings),
        "monthly": files.read_monthly(folder, findings),
        "words_local": files.read_words(folder, findings, speaks),
    }
    return ClassFolder(folder=folder, notes=tuple(findings.notes), **settings, **parts), findings


def beside(folder: str | Path) -> Path | None:
    """Find the class folder that belongs to a working folder.

    Parameters
    ----------
    folder : str or Path
        The folder with the learner's pages.

    Returns
    -------
    Path or None
        The one that was named when the pages were opened, else the folder ``class`` or
        ``demo_class`` beside the pages, else None.
    """
    folder = Path(folder)
    if (folder / POINTER).is_file():
        return Path((folder / POINTER).read_text("utf-8").strip())
    return next((folder / name for name in BESIDE if (folder / name).is_dir()), None)
