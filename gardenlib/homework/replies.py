"""Marking a pack's folder: a reply page for each learner and the view of the class."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from gardenlib.homework.handed_in import HandedIn, answers_from_csv, answers_from_plots
from gardenlib.homework.marking import MarkedSheet, class_view
from gardenlib.homework.record import PackRecord
from gardenlib.homework.tally import Tallied, as_csv, tally_from_csv
from gardenlib.plot.disk import put
from gardenlib.problems import InputProblem
from gardenlib.sheets import sheet_pdf
from gardenlib.words import Said

if TYPE_CHECKING:
    import pandas as pd

__all__ = ["Marked", "mark_pack"]

_BESIDE_LATIN = frozenset("°½¼¾²³×·«»¿¡ºª–—‘’“”…")


@dataclass(frozen=True)
class Marked:
    """What came of marking a pack: how many sheets, the class view, what to know, and where it was written."""

    sheets: int
    view: pd.DataFrame
    told: tuple[Said, ...]
    folder: Path


def mark_pack(folder: str | Path) -> Marked:
    """Mark what was handed in for a pack and write replies and class view into its folder ``marked``.

    Parameters
    ----------
    folder : str or Path
        The pack's folder, with ``key/record.json`` and ``handed_in``.

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
    pack = PackRecord.read(folder / "key" / "record.json")
    put_in = folder / "handed_in"
    found, tally = HandedIn(), list[Tallied]()
    if put_in.is_dir():
        found.add(answers_from_plots(put_in, pack))
        if (put_in / "answers.csv").exists():
            found.add(answers_from_csv(put_in / "answers.csv", pack))
        if (put_in / "tally.csv").exists():
            tally, told = tally_from_csv(put_in / "tally.csv", pack)
            found.told += told
    marked = list(found.marked(pack))
    if not (marked or tally or found.told):
        raise InputProblem("homework.nothing_handed_in", folder=str(put_in))
    out = folder / "marked"
    try:
        out.mkdir(exist_ok=True)
    except OSError:
        raise InputProblem("plot.unwritable", file=out.name, folder=str(folder)) from None
    view = class_view(marked, tally)
    put(out / "class_view.csv", as_csv(list(view.columns), view.itertuples(index=False, name=None)))
    names: set[str] = set()
    for sheet in marked:
        try:
            put(out / _file_name(sheet, names), _reply_pdf(sheet, pack))
        except InputProblem as problem:
            found.told.append(Said(problem.key, problem.values))
    return Marked(len(marked), view, tuple(found.told), out)


def _file_name(sheet: MarkedSheet, taken: set[str]) -> str:
    parts = (re.sub(r"[^A-Za-z0-9_-]+", "_", part).strip("_") for part in (sheet.learner or "class", sheet.code))
    stem = f"reply_{'_'.join(parts)}"[:80]
    number, name = 1, stem
    while name.casefold() in taken:
        number += 1
        name = f"{stem}_{number}"
    taken.add(name.casefold())
    return f"{name}.pdf"


def _reply_pdf(sheet: MarkedSheet, pack: PackRecord) -> bytes:
    voice = sheet.sheet.voice
    say = voice.say
    again = [say("homework.reply.line", title=title, reply=reply, look=look) for title, reply, look in sheet.again]
    states = [mark.state for mark in sheet.marks.values()]
    empty, holds = states.count("nothing"), states.count("holds")
    lines = [*again, *([say("homework.reply.empty", n=empty)] if empty else [])]
    data = {
        "title": _printable(_title(sheet)),
        "intro": say("homework.reply.intro") if lines else say("homework.reply.all_hold"),
        "steps": [_printable(line) for line in lines],
    }
    if pack.show_scores:
        data["after"] = say("homework.reply.score", holds=holds, all=len(states))
    return sheet_pdf("steps_and_table", data, voice=voice, invented=pack.invented)


def _title(sheet: MarkedSheet) -> str:
    say = sheet.sheet.voice.say
    if not sheet.learner:
        return say("homework.reply.title_class", code=sheet.code)
    return say("homework.reply.title", learner=sheet.learner, code=sheet.code)


def _printable(text: str) -> str:
    """Put a question mark for a letter that the page's typeface does not have."""
    return "".join(sign if sign in _BESIDE_LATIN or _is_latin(sign) else "?" for sign in text)


def _is_latin(sign: str) -> bool:
    if sign.isascii():
        return sign.isprintable()
    return sign < "\u2000" and sign.isalpha() and unicodedata.name(sign, "").startswith("LATIN")
