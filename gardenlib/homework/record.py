"""What a pack keeps of each sheet it printed; marking reads this and draws nothing again."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from pathlib import Path
from typing import Annotated

from pydantic import BaseModel, ConfigDict, Field, ValidationError

from gardenlib.homework.blank import Blank
from gardenlib.homework.ground import Ground, SheetKind
from gardenlib.homework.question import Question
from gardenlib.plot.disk import bytes_of, put
from gardenlib.problems import InputProblem
from gardenlib.units import System
from gardenlib.words import Voice, languages

FORM = 1
RECORD, HANDED_IN = Path("key") / "record.json", "handed_in"
"""Where a pack's folder holds its record and the work of the class."""


class _Kept(BaseModel):
    model_config = ConfigDict(frozen=True, allow_inf_nan=False)


class QuestionRecord(_Kept):
    """One question of a sheet."""

    id: str
    skill: str
    page: str
    title: str
    ask: str
    blanks: tuple[Blank, ...]


class SheetRecord(_Kept):
    """One sheet; `learner` is the id, empty for a sheet that is the same for all: `holders` are those who got it."""

    code: str
    kind: SheetKind
    learner: str = ""
    holders: tuple[str, ...] = ()
    language: str
    units: System
    year: int
    questions: tuple[QuestionRecord, ...]

    @property
    def voice(self) -> Voice:
        """How the reader of the sheet is spoken to."""
        return Voice(language=self.language if self.language in languages() else "en", units=self.units)

    def numbered(self) -> list[tuple[int, QuestionRecord]]:
        """Give the questions with the numbers that they have on the sheet."""
        return list(enumerate(self.questions, start=1))

    def blanks(self) -> dict[str, Blank]:
        """Give every blank of the sheet by its id."""
        return {blank.id: blank for question in self.questions for blank in question.blanks}


class PackRecord(_Kept):
    """All sheets of a pack, beside its key.

    Parameters
    ----------
    form : int
        Version of the file's form.
    library : str
        Version of the library that printed the pack.
    class_title, session : str
        Which class, and which of its meetings.
    made_on : date
        When it was printed.
    show_scores : bool
        Whether the class wants to see how many answers hold.
    invented : bool
        Whether class and numbers are invented.
    sheets : tuple of SheetRecord
        What was printed.
    """

    form: Annotated[int, Field(ge=1)] = FORM
    library: str
    class_title: str
    made_on: date
    session: str = ""
    show_scores: bool = False
    invented: bool = False
    sheets: tuple[SheetRecord, ...]

    def save(self, path: str | Path) -> None:
        """Write the record, whole or not at all."""
        put(Path(path), self.model_dump_json(indent=1).encode() + b"\n")

    @classmethod
    def read(cls, path: str | Path) -> PackRecord:
        """Read a record, or say why it cannot be read."""
        path = Path(path)
        if not path.is_file():
            raise InputProblem("homework.no_record", file=path.name, folder=str(path.parent))
        try:
            record = cls.model_validate_json(bytes_of(path))
        except ValidationError:
            raise InputProblem("homework.record_damaged", file=path.name, folder=str(path.parent)) from None
        if record.form > FORM:
            raise InputProblem("homework.record_newer", file=path.name, form=record.form, known=FORM)
        return record


def sheet_record(questions: Iterable[Question], ground: Ground, *, learner: str = "") -> SheetRecord:
    """Make the record of a sheet from its questions."""
    kept = tuple(
        QuestionRecord(
            id=question.id,
            skill=question.skill.id,
            page=question.skill.page,
            title=ground.voice.say(question.skill.title),
            ask=question.ask,
            blanks=question.blanks,
        )
        for question in questions
    )
    return SheetRecord(
        code=ground.code,
        kind=ground.kind,
        learner=learner,
        language=ground.voice.language,
        units=ground.voice.units,
        year=ground.year,
        questions=kept,
    )
