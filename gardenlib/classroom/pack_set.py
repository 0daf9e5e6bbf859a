"""From a class to its sheets: who reads each, its code, and the questions that fit on it."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import islice

from gardenlib.class_folder import ClassFolder, Learner, Meeting
from gardenlib.classroom.pack_codes import Codes
from gardenlib.classroom.pack_questions import LADDERS, Choice, proved
from gardenlib.classroom.pack_sheet import Asked, PrintedSheet, asked_words, worksheet_data
from gardenlib.homework import Ground, Question, SheetRecord, ground_for, sheet_record
from gardenlib.homework.ground import Places, SheetKind
from gardenlib.problems import InputProblem
from gardenlib.sheets import sheet_pdf
from gardenlib.sheets.printing import Paper
from gardenlib.words import Voice, languages

SIDES = 2
CHOICES = 3  # skills that are tried before a sheet gets fewer questions
_Made = tuple[list[Question], Ground]
"""Questions, and the ground on which they were set in one language."""


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
        self._codes = Codes(job.klass.title, job.meeting.date.isoformat(), job.kind)

    def sheet(self, readers: tuple[Learner, ...]) -> tuple[Sheet, bytes]:
        """Set the sheet of its readers, and print it for them."""
        spoken = languages_of(self._job, readers)
        if self._job.kind == "class":
            if not self._shared:
                self._share()
            sheet = replace(self._shared[spoken], readers=readers)
            return sheet, printed(self._job, [sheet], self._names)
        voices = tuple(map(self._voice, spoken))
        # Two readers of one language read the same words: these stand once.
        each = voices[: len({voice.language for voice in voices})]
        whose = "+".join(reader.id for reader in readers)
        name = " + ".join(filter(None, (self._names[one.id] for one in readers)))

        def together(made: Sequence[_Made]) -> list[Sheet]:
            questions = tuple(asked for asked, _ in made)
            words = asked_words(questions[: len(each)], each)
            return [Sheet(readers, voices, sheet_record(*made[0], learner=whose), questions, words)]

        code = self._codes.of("|".join(one.id for one in readers))
        sheets, pdfs = self._fitting(readers, voices, code, name, together)
        return sheets[0], pdfs[0]

    def _share(self) -> None:
        """Set the sheet of the whole class: the same questions in each of its languages, the class's own first."""
        every = dict.fromkeys(languages_of(self._job, readers) for readers in groups_of(self._job))
        spoken = sorted(every, key=lambda one: one[0] != _own_language(self._job.klass))
        codes = [self._codes.of("|".join(one)) for one in spoken]

        def apart(made: Sequence[_Made]) -> list[Sheet]:
            return [
                Sheet(
                    (),
                    (ground.voice,),
                    sheet_record(asked, replace(ground, code=code)),
                    (asked,),
                    asked_words([asked], [ground.voice]),
                )
                for code, (asked, ground) in zip(codes, made, strict=True)
            ]

        # What holds with the longest name holds with each.
        longest = max(self._names.values(), key=len, default="")
        sheets, _ = self._fitting((), [self._voice(one[0]) for one in spoken], codes[0], longest, apart)
        self._shared = dict(zip(spoken, sheets, strict=True))

    def _voice(self, language: str) -> Voice:
        klass = self._job.klass
        own = language == _own_language(klass)
        return Voice(language=language, units=klass.units, local=klass.words_local if own else {})

    def _fitting(
        self,
        readers: tuple[Learner, ...],
        voices: Sequence[Voice],
        code: str,
        name: str,
        sheets_of: Callable[[Sequence[_Made]], list[Sheet]],
    ) -> tuple[list[Sheet], list[bytes]]:
        """Choose the questions that fit on one sheet in each of its languages, and see that their key holds."""
        page = self._job.meeting.page
        grounds = [self._ground(readers, voice, code) for voice in voices]
        choice, set_any = Choice(page, grounds[0]), False
        for ladder in LADDERS:
            most = None if ladder == LADDERS[-1] else CHOICES
            for asked in islice(choice.sheets(ladder), most):
                set_any = True
                others = [asked if one.voice == grounds[0].voice else choice.again(asked, one) for one in grounds[1:]]
                sheets = sheets_of(list(zip([asked, *others], grounds, strict=True)))
                pdfs = [_pdf(self._job, [sheet], [name], trial=True) for sheet in sheets]
                if all(sides(pdf) <= SIDES for pdf in pdfs):
                    for sheet in sheets:
                        proved(sheet.record)
                    return sheets, pdfs
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
