"""Everything to print for one meeting, and a list of what it is and for whom."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from gardenlib import class_folder
from gardenlib.classroom.day import day_papers
from gardenlib.classroom.pack_folder import pack_name, packs_home
from gardenlib.classroom.pack_print import meeting_of, pack
from gardenlib.classroom.pack_set import sides
from gardenlib.homework.ground import SheetKind, class_crops
from gardenlib.problems import InputProblem
from gardenlib.sheets.printing import Paper
from gardenlib.words import Said

Progress = Callable[[Said, int, int], None]
# The files of a pack by how their names begin, what each is and for whom, in the order in which they are told.
_PACK: Mapping[str, tuple[str, str]] = {
    "print/sheets_": ("sheets", "learners"),
    "key/key_": ("key", "you_alone"),
    "key/self_check_": ("self_check", "next_time"),
    "key/answers": ("answers", "you_alone"),
    "key/tally": ("tally", "you_alone"),
    "key/record": ("record", "you_alone"),
}
_DAY: Mapping[str, tuple[str, str]] = {
    "1_run_sheet": ("run_sheet", "you"),
    "2_bring_list": ("bring_list", "you"),
    "3_station_cards": ("station_cards", "stations"),
    "4_safety_talk": ("safety_talk", "you"),
    "5_rain_plan": ("rain_plan", "you"),
    "6_without_power": ("without_power", "you"),
    "7_jobs": ("jobs", "everyone"),
    "8_lesson_paper": ("lesson_paper", "no_screen"),
}


@dataclass(frozen=True)
class Printed:
    """One file: its name in the folder, what it is, for whom, and its printed pages; a table has none."""

    name: str
    what: Said
    whom: Said
    pages: int


@dataclass(frozen=True)
class Stack:
    """What was written: how many sheets, which files lie where, what is good to know, what could not be printed."""

    folder: Path
    sheets: int
    homework: tuple[Printed, ...]
    day_folder: Path | None
    day: tuple[Printed, ...]
    told: tuple[Said, ...]
    problems: tuple[Said, ...]

    @property
    def pages(self) -> int:
        """Pages that come out of the printer when each file is printed once."""
        return sum(file.pages for file in (*self.homework, *self.day))


def print_stack(
    class_dir: Path,
    home: Path,
    *,
    today: date,
    session: int,
    progress: Progress,
    kind: SheetKind = "class",
    large: bool = False,
    paper: Paper | None = None,
    sheets: bool = True,
    day: bool = True,
) -> Stack:
    """Print the sheets of a meeting, its papers of the day, or both.

    Parameters
    ----------
    class_dir : Path
        The class folder.
    home : Path
        Where to write when the class is the one inside the program.
    today : date
        The day on which it is printed.
    session : int
        Number of the meeting, counted from 1.
    progress : callable
        Told what is being done, how many steps are done and how many there are.
    kind, large, paper
        As for `pack`.
    sheets, day : bool
        Whether to print the sheets with their key, and the papers of the day.

    Returns
    -------
    Stack
        What lies where. When one part cannot be printed, the other is, and the problem is among the results.

    Raises
    ------
    InputProblem
        When nothing was printed.
    """
    klass = class_folder.read(class_dir)
    if not class_crops(klass):
        raise InputProblem("prepare.no_crops")
    meeting = meeting_of(klass, session, today)
    folder = packs_home(class_dir, home)
    steps = _Steps(progress, int(sheets) + int(day))
    count, told, problems, papers = 0, tuple[Said, ...](), list[InputProblem](), list[Path]()
    if sheets:
        steps.begin(Said("prepare.setting"))
        out = folder / pack_name(meeting, kind)
        try:
            made = pack(
                class_dir, out, today=today, session=session, kind=kind, large=large, paper=paper, progress=steps.sheet
            )
        except InputProblem as problem:
            problems.append(problem)
        else:
            folder, count, told = made.folder, made.sheets, made.told
    if day:
        steps.begin(Said("prepare.day_now"))
        try:
            papers = day_papers(klass, meeting, folder, large=large, paper=paper)
        except InputProblem as problem:
            problems.append(problem)
    if not (count or papers):
        raise problems[0] if problems else InputProblem("prepare.nothing_chosen")
    steps.end()
    return Stack(
        folder=folder,
        sheets=count,
        homework=tuple(_listed(folder, _PACK, "file")) if count else (),
        day_folder=papers[0].parent if papers else None,
        day=tuple(_listed(papers[0].parent, _DAY, "day")) if papers else (),
        told=told,
        problems=tuple(problem.said for problem in problems),
    )


class _Steps:
    """Counts what is done: each sheet, the stack with its key, the papers of the day."""

    def __init__(self, progress: Progress, parts: int) -> None:
        self._progress, self._done, self._of, self._parts = progress, 0, parts, parts

    def begin(self, what: Said) -> None:
        self._progress(what, self._done, self._of)

    def sheet(self, done: int, many: int) -> None:
        self._done, self._of = done, many + self._parts
        self.begin(Said("pack.progress", {"done": done, "n": many}))

    def end(self) -> None:
        self._done = self._of
        self.begin(Said("prepare.done"))


def _listed(folder: Path, known: Mapping[str, tuple[str, str]], part: str) -> Iterator[Printed]:
    there = {path.relative_to(folder).as_posix(): path for path in sorted(folder.rglob("*"))}
    for begins, (what, whom) in known.items():
        for name, path in there.items():
            if name.startswith(begins):
                pages = sides(path.read_bytes()) if path.suffix == ".pdf" else 0
                yield Printed(name, Said(f"prepare.{part}_{what}"), Said(f"prepare.for_{whom}"), pages)
