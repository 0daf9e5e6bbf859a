"""The papers of one meeting: what the instructor and the helpers carry, and the session without any screen."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from gardenlib.class_folder import ClassFolder, Meeting
from gardenlib.classroom.day_lessons import lesson_of
from gardenlib.classroom.day_sheets import PAPERS
from gardenlib.classroom.lesson_paper import lesson_paper
from gardenlib.classroom.pack_folder import whole_folder
from gardenlib.sheets import sheet_pdf
from gardenlib.sheets.printing import Paper

LESSON_FILE = "8_lesson_paper"


def day_papers(
    klass: ClassFolder, meeting: Meeting, out: str | Path, *, large: bool = False, paper: Paper | None = None
) -> list[Path]:
    """Print everything for one meeting of a class.

    Parameters
    ----------
    klass : ClassFolder
        The class.
    meeting : Meeting
        One of its meetings; its page chooses the lesson.
    out : str or Path
        Folder for the papers of all meetings; this meeting gets a folder of its own in it, named by day and page.
    large : bool
        Large print.
    paper : {"us-letter", "a4"}, optional
        Paper size; by the class's units where it is not given.

    Returns
    -------
    list of Path
        Run sheet, bring list, station cards, safety talk, rain plan, plan without power, jobs, and the lesson on
        paper, in this order.

    Raises
    ------
    InputProblem
        When the meeting names no page of the workbook, a name has a letter that cannot be printed, or the folder
        cannot be written or holds other files.  Then nothing is written; papers printed earlier are kept beside.
    """
    lesson = lesson_of(klass, meeting)
    how: dict[str, Any] = {"voice": lesson.voice, "large": large, "paper": paper, "invented": klass.invented}
    made = {
        name: sheet_pdf(template, words(klass, meeting, lesson), **how) for name, (template, words) in PAPERS.items()
    }
    made[LESSON_FILE] = sheet_pdf("day_lesson", lesson_paper(klass, meeting, lesson), **how)
    folder = Path(out) / f"day_{meeting.date.isoformat()}_{meeting.page}"
    names = [f"{name}.pdf" for name in made]
    with whole_folder(folder, sign=Path(names[0])) as (building, _):
        for name, pdf in zip(names, made.values(), strict=True):
            (building / name).write_bytes(pdf)
    return [folder / name for name in names]
