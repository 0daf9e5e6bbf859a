"""Marking a pack's folder: a reply page for each learner and the view of the class."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from gardenlib.homework.answers_typed import answers_from_csv
from gardenlib.homework.class_words import finding, lines, next_meeting
from gardenlib.homework.handed_in import HandedIn, answers_from_plots
from gardenlib.homework.marking import MarkedSheet, class_view
from gardenlib.homework.record import HANDED_IN, RECORD, PackRecord
from gardenlib.homework.reply_page import reply_pdf
from gardenlib.homework.tally import Tallied, as_csv, make_folder, tally_from_csv
from gardenlib.plot.disk import put
from gardenlib.problems import InputProblem
from gardenlib.sheets.printing import let_go
from gardenlib.words import Said, Voice

if TYPE_CHECKING:
    import pandas as pd

IN_ONE_FILE = 60


@dataclass(frozen=True)
class Marked:
    """What came of marking a pack.

    Parameters
    ----------
    sheets : int
        How many sheets were marked.
    view : DataFrame
        The class view.
    told : tuple of Said
        What could not be used, and what else is good to know.
    folder : Path
        Where the replies lie.
    replies, stacks : tuple of str
        Names of the files there: one for each learner, and all of them to print at once.
    """

    sheets: int
    view: pd.DataFrame
    told: tuple[Said, ...]
    folder: Path
    replies: tuple[str, ...]
    stacks: tuple[str, ...]

    @property
    def done(self) -> Said:
        """Say what was marked and where the replies lie."""
        if not len(self.view):
            return Said("review.none_marked")
        if not self.sheets:
            return Said("review.counted_only", {"folder": str(self.folder)})
        return Said("review.done", {"n": self.sheets, "folder": str(self.folder)})

    @property
    def lines(self) -> list[Said]:
        """Say all of it, line by line."""
        good_to_know = [Said("check.good_to_know", {"note": note}) for note in self.told]
        said = [finding(self.view), *lines(self.view), *next_meeting(self.view)]
        return [self.done, *said, *good_to_know]


def mark_pack(
    folder: str | Path, *, voice: Voice | None = None, progress: Callable[[int, int], None] | None = None
) -> Marked:
    """Mark what was handed in for a pack and write replies and class view into its folder ``marked``.

    Parameters
    ----------
    folder : str or Path
        The pack's folder, with ``key/record.json`` and ``handed_in``.
    voice : Voice, optional
        How the instructor is spoken to; each reply is in the language of its sheet.
    progress : callable, optional
        Told how many replies are written and how many there are.

    Returns
    -------
    Marked
        What was found.

    Raises
    ------
    InputProblem
        When there is no record, nothing was handed in, or the folder cannot be written.
    """
    folder = Path(folder)
    pack = PackRecord.read(folder / RECORD)
    put_in = folder / HANDED_IN
    found, tally = HandedIn(), list[Tallied]()
    if put_in.is_dir():
        found.add(answers_from_plots(put_in, pack))
        if (put_in / "answers.csv").exists():
            found.add(answers_from_csv(put_in / "answers.csv", pack))
        if (put_in / "tally.csv").exists():
            tally, told = tally_from_csv(put_in / "tally.csv", pack, voice=voice)
            found.told += told
    marked = list(found.marked(pack))
    if marked and tally:
        found.told.append(Said("review.twice"))
    if not (marked or tally or found.told):
        raise InputProblem("homework.nothing_handed_in", folder=str(put_in))
    out = folder / "marked"
    make_folder(out)
    view = class_view(marked, tally, pack=pack, voice=voice)
    if len(view):  # else what was marked before stays
        put(out / "class_view.csv", as_csv(list(view.columns), view.itertuples(index=False, name=None)))
    told, names, stacks = list(found.told), list[str](), list[str]()
    for number, sheet in enumerate(marked, start=1):
        names += _written(out, _file_name(sheet, names), [sheet], pack, told)
        if progress is not None:
            progress(number, len(marked))
    for number, some in enumerate(_stacks(marked), start=1):
        stacks += _written(out, f"replies_{number}.pdf", some, pack, told)
        let_go()
    return Marked(len(marked), view, tuple(map(_harmless, told)), out, tuple(names), tuple(stacks))


def _written(
    folder: Path, name: str, sheets: Sequence[MarkedSheet], pack: PackRecord, told: list[Said]
) -> Iterator[str]:
    """Write replies and give the file's name; where they cannot be written, that is told and the others go on."""
    try:
        put(folder / name, reply_pdf(sheets, pack))
    except InputProblem as problem:
        told.append(problem.said)
    else:
        yield name


def _stacks(marked: Sequence[MarkedSheet]) -> Iterator[Sequence[MarkedSheet]]:
    """Part the sheets into files to print at once, each of one voice."""
    by_voice: dict[tuple[str, str], list[MarkedSheet]] = {}
    for sheet in marked:
        by_voice.setdefault((sheet.sheet.language, sheet.sheet.units), []).append(sheet)
    for some in by_voice.values():
        for place in range(0, len(some), IN_ONE_FILE):
            yield some[place : place + IN_ONE_FILE]


def _file_name(sheet: MarkedSheet, taken: Sequence[str]) -> str:
    parts = (re.sub(r"[^A-Za-z0-9_-]+", "_", part).strip("_") for part in (sheet.learner or "class", sheet.code))
    stem = f"reply_{'_'.join(parts)}"[:80]
    known = {name.casefold() for name in taken}
    number, name = 1, f"{stem}.pdf"
    while name.casefold() in known:
        number += 1
        name = f"{stem}_{number}.pdf"
    return name


def _harmless(said: Said) -> Said:
    """Leave out signs that no screen shows, such as those that steer a terminal or turn the direction of writing."""
    return Said(said.key, {name: _shown(value) for name, value in said.values.items()})


def _shown(value: Any) -> Any:
    if isinstance(value, Said):
        return _harmless(value)
    if isinstance(value, str):
        return "".join(sign for sign in value if unicodedata.category(sign)[0] != "C")
    return value
