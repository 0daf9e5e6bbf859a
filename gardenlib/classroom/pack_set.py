"""From a class to its sheets: who reads each, its code, and the questions that fit on it."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from hashlib import blake2b
from itertools import islice

from gardenlib.class_folder import ClassFolder, Learner, Meeting
from gardenlib.classroom.pack_questions import LADDERS, Choice, proved
from gardenlib.classroom.pack_sheet import Asked, PrintedSheet, asked_words, worksheet_data
from gardenlib.homework import Ground, Question, SheetRecord, ground_for, sheet_record
from gardenlib.homework.ground import Places, SheetKind
from gardenlib.problems import InputProblem
from gardenlib.sheets import sheet_pdf
from gardenlib.sheets.printing import Paper
from gardenlib.words import Voice, languages

__all__ = ["Job", "Setter", "Sheet", "groups_of", "languages_of", "printed", "sides"]

SIDES = 2
CHOICES = 3  # skills that are tried before a sheet gets fewer questions


@dataclass(frozen=True)
class Job:
    """What is to be printed."""

    klass: ClassFolder
    meeting: Meeting
    kind: SheetKind
    large: bool
    paper: Paper | None

    @property
    def title(self) -> str:
        """The head of each sheet."""
        return self.meeting.title or Voice(language=self.klass.languages[0]).say("pack.title")


@dataclass(frozen=True)
class Sheet:
    """A sheet that was set; two readers have a voice and questions each."""

    readers: tuple[Learner, ...]
    voices: tuple[Voice, ...]
    record: SheetRecord
    questions: tuple[Sequence[Question], ...]
    asked: Asked


def groups_of(job: Job) -> list[tuple[Learner, ...]]:
    """Tell who reads each sheet, in the order of the list; a class without learners has one sheet."""
    learners = list(job.klass.learners.values())
    if not learners and job.kind != "class":
        raise InputProblem("pack.no_learners")
    if job.kind == "pair":
        return [tuple(learners[place : place + 2]) for place in range(0, len(learners), 2)]
    return [(one,) for one in learners] or [()]


def languages_of(job: Job, readers: Sequence[Learner]) -> tuple[str, ...]:
    """Tell the languages of a sheet: one, or that of each reader of a pair."""
    asked = [reader.language for reader in readers] or [""]
    if job.kind == "pair" and len(asked) < 2:
        asked += asked
    own = _own_language(job.klass)
    return tuple(language if language in languages() else own for language in asked)


def _own_language(klass: ClassFolder) -> str:
    return next((language for language in klass.languages if language in languages()), "en")


class Setter:
    """Sets one sheet after another; what several sheets share is worked out once.

    Parameters
    ----------
    job : Job
        What is to be printed.
    names : mapping of str to str
        The learners' names as they are printed, by id.
    """

    def __init__(self, job: Job, names: Mapping[str, str]) -> None:
        self._job, self._names = job, names
        self._places = Places()
        self._shared: dict[tuple[str, ...], Sheet] = {}
        self._codes: set[str] = set()

    def sheet(self, readers: tuple[Learner, ...]) -> tuple[Sheet, bytes]:
        """Set the sheet of its readers, and print it for them."""
        spoken = languages_of(self._job, readers)
        voices = tuple(map(self._voice, spoken))
        if self._job.kind != "class":
            whose = "+".join(reader.id for reader in readers)
            name = " + ".join(filter(None, (self._names[one.id] for one in readers)))
            return self._fitting(readers, voices, whose, self._code("|".join(one.id for one in readers)), name)
        if spoken not in self._shared:
            # What holds with the longest name holds with each.
            longest = max(self._names.values(), key=len, default="")
            self._shared[spoken], _ = self._fitting((), voices, "", self._code("|".join(spoken)), longest)
        sheet = replace(self._shared[spoken], readers=readers)
        return sheet, printed(self._job, [sheet], self._names)

    def _voice(self, language: str) -> Voice:
        klass = self._job.klass
        own = language == _own_language(klass)
        return Voice(language=language, units=klass.units, local=klass.words_local if own else {})

    def _code(self, whose: str) -> str:
        """Make a code that no other sheet of the pack has; the same sheet has the same one whenever it is printed."""
        told = "|".join((self._job.klass.title, self._job.meeting.date.isoformat(), self._job.kind, whose))
        code, turn = _six_digits(told), 0
        while code in self._codes:
            turn += 1
            code = _six_digits(f"{told}|{turn}")
        self._codes.add(code)
        return code

    def _fitting(
        self, readers: tuple[Learner, ...], voices: tuple[Voice, ...], whose: str, code: str, name: str
    ) -> tuple[Sheet, bytes]:
        """Choose the questions that fit on one sheet, and see that their key holds."""
        page = self._job.meeting.page
        grounds = [self._ground(readers, voice, code) for voice in voices]
        # Two readers of one language read the same words: these stand once.
        spoken = voices[: len({voice.language for voice in voices})]
        choice, set_any = Choice(page, grounds[0]), False
        for ladder in LADDERS:
            most = None if ladder == LADDERS[-1] else CHOICES
            for asked in islice(choice.sheets(ladder), most):
                set_any = True
                others = (asked if one.voice == grounds[0].voice else choice.again(asked, one) for one in grounds[1:])
                questions = (asked, *others)
                words = asked_words(questions[: len(spoken)], spoken)
                sheet = Sheet(readers, voices, sheet_record(asked, grounds[0], learner=whose), questions, words)
                pdf = _pdf(self._job, [sheet], [name], trial=True)
                if sides(pdf) <= SIDES:
                    proved(sheet.record)
                    return sheet, pdf
        raise InputProblem("pack.too_long" if set_any else "pack.no_questions", page=page)

    def _ground(self, readers: Sequence[Learner], voice: Voice, code: str) -> Ground:
        return ground_for(
            self._job.klass,
            learner=readers[0] if readers else None,
            kind=self._job.kind,
            code=code,
            year=self._job.meeting.date.year,
            voice=voice,
            places=self._places,
        )


def _six_digits(told: str) -> str:
    """Make six digits in pairs of a text."""
    number = int.from_bytes(blake2b(told.encode("utf-8", "surrogatepass"), digest_size=8).digest(), "big") % 1_000_000
    return "-".join(re.findall("..", f"{number:06d}"))


def sides(pdf: bytes) -> int:
    """Count the pages of a file of ours."""
    return len(re.findall(rb"/Type/Page\b(?!s)", pdf))


def printed(job: Job, sheets: Sequence[Sheet], names: Mapping[str, str]) -> bytes:
    """Print sheets of the same languages, each with its readers' names."""
    return _pdf(job, sheets, [" + ".join(filter(None, (names[one.id] for one in sheet.readers))) for sheet in sheets])


def _pdf(job: Job, sheets: Sequence[Sheet], named: Sequence[str], *, trial: bool = False) -> bytes:
    heads = [
        PrintedSheet(sheet.record.code, name, sheet.record.code) for sheet, name in zip(sheets, named, strict=True)
    ]
    asked, voice = {sheet.record.code: sheet.asked for sheet in sheets}, sheets[0].voices[0]
    data = worksheet_data(asked, heads, voice, title=job.title, together=job.kind == "pair", trial=trial)
    template = "pair_sheet" if sheets[0].asked.twice else "worksheet"
    return sheet_pdf(template, data, voice=voice, paper=job.paper, large=job.large, invented=job.klass.invented)
