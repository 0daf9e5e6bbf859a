"""The learner's working folder: pages, a class and a plot file in one place.

The folder keeps its own notes in ``.workbook``: what was laid out and in what form, the class
that was named, and JupyterLab's settings.
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from pathlib import Path

from gardenlib import class_folder, plot
from gardenlib.carried import INSTRUCTOR
from gardenlib.class_folder.reader import POINTER
from gardenlib.problems import InputProblem
from gardenlib.words import Said
from gardenlib.working_folder.keys import free_keys
from gardenlib.working_folder.lay_out import (
    DEMO_CLASS,
    NOTES,
    demo_files,
    file_mark,
    instructor_pages,
    lay_out,
    page_mark,
    pages,
)
from gardenlib.working_folder.translated import translated_pages

PLOT_FILE = "my_plot.json"
LAB_SETTINGS = Path(NOTES) / "lab_settings"
USER_SETTINGS = Path(NOTES) / "user_settings"
_OVERRIDES = {
    "@jupyterlab/apputils-extension:notification": {"fetchNews": "false", "checkForUpdates": False},
    "@jupyterlab/application-extension:shell": {"startMode": "single"},
}


@dataclass(frozen=True)
class Prepared:
    """A working folder that is ready to open.

    Parameters
    ----------
    folder : Path
        The folder.
    told : tuple of Said
        What the learner should know about how it was laid out.
    """

    folder: Path
    told: tuple[Said, ...]


def prepare(folder: str | Path, *, class_path: str | Path | None = None, instructor: bool = False) -> Prepared:
    """Lay out pages, class and plot file; nothing that a learner has changed is written over.

    Parameters
    ----------
    folder : str or Path
        The working folder; it is made when it is missing.
    class_path : str or Path, optional
        The class folder to work with.  Without it the one that was named before is kept, and where none
        ever was the invented demo class is put beside the pages.
    instructor : bool
        Whether to lay out the instructor's pages too, in a folder of their own.  They take a class folder that
        is not ready yet, since they name what to mend; the learners' pages then keep the class that they have.

    Returns
    -------
    Prepared
        The folder, and a sentence for each page that was kept because it was changed.

    Raises
    ------
    InputProblem
        When the folder cannot be written or the class folder cannot be read.
    """
    folder = Path(folder).expanduser().absolute()
    try:
        (folder / NOTES).mkdir(parents=True, exist_ok=True)
        told = lay_out(folder, pages(), page_mark)
        if class_path is not None:
            told += _choose(folder, Path(class_path).expanduser().absolute(), instructor=instructor)
        chosen = class_folder.beside(folder)
        if chosen is None or chosen == folder / DEMO_CLASS:
            told += lay_out(folder, demo_files(), file_mark)
        chosen = class_folder.beside(folder) or folder / DEMO_CLASS
        klass = class_folder.survey(chosen)[0] if instructor else class_folder.read(chosen)
        for language in klass.languages:
            told += lay_out(folder, translated_pages(language), page_mark)
        if instructor:
            told += _for_instructor(folder, chosen, named=class_path is not None)
        if not (folder / PLOT_FILE).exists():
            plot.new(folder / PLOT_FILE)
        (folder / LAB_SETTINGS).mkdir(exist_ok=True)
        (folder / LAB_SETTINGS / "overrides.json").write_text(json.dumps(_OVERRIDES, indent=1), "utf-8")
        free_keys(folder / USER_SETTINGS)
    except OSError as refusal:
        raise InputProblem("open.unwritable", folder=str(folder), why=refusal.strerror or "") from None
    return Prepared(folder, tuple(told))


def _choose(folder: Path, class_path: Path, *, instructor: bool) -> list[Said]:
    """Remember the class that was named; one that cannot be read is remembered for the instructor's pages alone."""
    told = []
    try:
        class_folder.read(class_path)
    except InputProblem:
        if not instructor:
            raise
        told.append(Said("open.class_not_ready", {"folder": str(class_path)}))
    else:
        _point(folder, class_path)
    if instructor or (folder / INSTRUCTOR).is_dir():
        _point(folder / INSTRUCTOR, class_path)
    return told


def _for_instructor(folder: Path, chosen: Path, *, named: bool) -> list[Said]:
    """Lay out the instructor's pages, for the class that was named, or they had before, or else the learners'."""
    told = lay_out(folder, instructor_pages(), page_mark)
    own = class_folder.beside(folder / INSTRUCTOR)
    if own is None or not (named or own.is_dir()):
        own = chosen
        _point(folder / INSTRUCTOR, own)
    for language in class_folder.survey(own)[0].languages:
        told += lay_out(folder, translated_pages(language, INSTRUCTOR), page_mark)
    return told


def _point(folder: Path, class_path: Path) -> None:
    pointer = folder / POINTER
    pointer.parent.mkdir(parents=True, exist_ok=True)
    pointer.write_text(f"{class_path}\n", "utf-8")
