"""The one way to a printed page: a template, data and paper become a PDF."""

from __future__ import annotations

import atexit
import json
import re
from collections.abc import Mapping
from contextlib import ExitStack
from functools import cache
from importlib.resources import as_file, files
from typing import TYPE_CHECKING, Any, Literal

from gardenlib import __version__
from gardenlib.problems import InputProblem
from gardenlib.words import Voice

if TYPE_CHECKING:
    import typst

Paper = Literal["us-letter", "a4"]
_KEPT_BY_TYPST = 10
PAPERS: tuple[Paper, ...] = ("us-letter", "a4")
TEMPLATES = (
    *("day_bring", "day_cards", "day_jobs", "day_lesson", "day_run", "day_safety"),
    *("join_sheet", "key", "log", "pair_sheet", "reply", "season_plan", "self_check", "soil_sample", "steps_and_table"),
    "worksheet",
)


def sheet_pdf(
    template: str,
    data: Mapping[str, Any],
    *,
    voice: Voice | None = None,
    paper: Paper | None = None,
    large: bool = False,
    invented: bool = False,
) -> bytes:
    """Print one page.

    Parameters
    ----------
    template : str
        Name of a template of ours: ``join_sheet``, ``log``, ``season_plan``, ``soil_sample`` or ``steps_and_table``.
    data : mapping
        What stands on the page, as words and lists of words, already in the reader's language; ``title`` is always
        needed.  A picture is the text of an SVG, ``picture``, with ``picture_alt`` beside it.  Nothing in it is
        read as a command.
    voice : Voice, optional
        Language and units of the reader; English and US units where it is not given.
    paper : {"us-letter", "a4"}, optional
        Paper size; by the reader's units where it is not given.
    large : bool
        Large print: 18 pt in place of 14 pt.
    invented : bool
        Whether the foot says that the class and its numbers are invented.

    Returns
    -------
    bytes
        A tagged PDF with title and language; the same input gives the same bytes.

    Raises
    ------
    InputProblem
        When there is no such template or paper, or a letter that the page's typeface does not have.

    Notes
    -----
    Source: common practice, no source, for the two print sizes. The file keeps to PDF/UA-1 (ISO 14289-1).

    Examples
    --------
    >>> pdf = sheet_pdf("steps_and_table", {"title": "Wash the pots", "steps": ["Fill a tub.", "Scrub."]})
    >>> pdf[:5]
    b'%PDF-'
    """
    pdf: bytes = _typeset(template, data, voice or Voice(), paper, large=large, invented=invented, pdf_standards="ua-1")
    return pdf


def _typeset(
    template: str,
    data: Mapping[str, Any],
    voice: Voice,
    paper: Paper | None,
    *,
    large: bool,
    invented: bool,
    **form: Any,
) -> Any:
    import typst

    size = paper or ("us-letter" if voice.units == "us" else "a4")
    for what, known in ((template, TEMPLATES), (size, PAPERS)):
        if what not in known:
            raise InputProblem("sheets.choice", value=what, known=", ".join(known))
    words = {
        "bar_cm": voice.say("sheets.bar_cm"),
        "bar_in": voice.say("sheets.bar_in"),
        "check_size": voice.say("sheets.check_size"),
        "version": voice.say("sheets.version", version=__version__),
    }
    if invented:
        words["invented"] = voice.say("sheets.invented")
    inputs = {
        "data": json.dumps({**data, "words": words}, ensure_ascii=False),
        "large": "yes" if large else "no",
        "paper": size,
        "language": voice.language,
    }
    with as_file(files(__package__) / "templates") as folder:
        try:
            return typst.compile(
                str(folder / f"{template}.typ"),
                root=str(folder),
                font_paths=typefaces(),
                ignore_system_fonts=True,
                sys_inputs=inputs,
                **form,
            )
        except typst.TypstError as error:
            lacking = re.search(r'the text `"(.+?)"` could not be displayed', str(error))
            if lacking is None:
                raise
            raise InputProblem("sheets.letter", letter=lacking[1]) from None


@cache
def typefaces() -> typst.Fonts:
    """Look the typefaces up once for all pages."""
    import typst

    held = ExitStack()
    atexit.register(held.close)
    folder = held.enter_context(as_file(files("gardenlib.charts") / "fonts"))
    return typst.Fonts(include_system_fonts=False, font_paths=[str(folder)])


def let_go() -> None:
    """Let the typesetter forget a long document: it keeps what it has laid out for ten more, which adds up."""
    import typst

    for _ in range(_KEPT_BY_TYPST + 1):
        typst.compile(b"-", format="pdf", font_paths=typefaces())
