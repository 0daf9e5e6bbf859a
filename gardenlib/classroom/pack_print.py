"""From a class folder to a stack of paper: a sheet for each learner, the key apart, and what marking needs."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date
from hashlib import blake2b
from importlib.metadata import version
from itertools import islice
from pathlib import Path

from gardenlib import class_folder
from gardenlib.class_folder import ClassFolder, Learner, Meeting
from gardenlib.classroom.pack_folder import RECORD, whole_folder
from gardenlib.classroom.pack_key import KeyedSheet, key_data, self_check_data
from gardenlib.classroom.pack_names import file_name, printed_names
from gardenlib.classroom.pack_questions import LADDERS, Choice, proved
from gardenlib.classroom.pack_sheet import PrintedSheet, worksheet_data
from gardenlib.homework import PackRecord, Question, SheetRecord, ground_for, sheet_record, write_templates
from gardenlib.homework.ground import SheetKind
from gardenlib.problems import InputProblem
from gardenlib.sheets import sheet_pdf
from gardenlib.sheets.printing import Paper, let_go
from gardenlib.words import Said, Voice, languages

__all__ = ["Pack", "pack"]

IN_ONE_FILE = 60
SIDES = 2
CHOICES = 3  # skills that are tried before a sheet gets fewer questions


@dataclass(frozen=True)
class Pack:
    """What was printed: the folder, how many sheets, and what is good to know."""

    folder: Path
    sheets: int
    told: tuple[Said, ...]


@dataclass(frozen=True)
class _Sheet:
    """A sheet before it is printed; two readers have a voice and questions each."""

    readers: tuple[Learner, ...]
    voices: tuple[Voice, ...]
    record: SheetRecord
    questions: tuple[Sequence[Question], ...]


@dataclass(frozen=True)
class _Job:
    klass: ClassFolder
    meeting: Meeting
    kind: SheetKind
    large: bool
    paper: Paper | None

    @property
    def title(self) -> str:
        return self.meeting.title or Voice(language=self.klass.languages[0]).say("pack.title")


def pack(
    class_dir: str | Path,
    out: str | Path | None = None,
    *,
    today: date,
    session: int | None = None,
    kind: SheetKind = "class",
    large: bool = False,
    paper: Paper | None = None,
    progress: Callable[[int, int], None] | None = None,
) -> Pack:
    """Print the homework of a session.

    Parameters
    ----------
    class_dir : str or Path
        The class folder.
    out : str or Path, optional
        The folder to print into; where not given, one in the class folder, named by date and kind.
    today : date
        The day on which it is printed.
    session : int, optional
        Number of the session, counted from 1; where not given the next one, else the last.
    kind : {"class", "plot", "pair"}
        The same sheet for all, each learner's own plot, or one sheet for two.
    large : bool
        Large print, with fewer questions where four are longer than a sheet.
    paper : {"us-letter", "a4"}, optional
        Paper size; by the class's units where it is not given.
    progress : callable, optional
        Told how many sheets are done and how many there are.

    Returns
    -------
    Pack
        The folder and what is good to know.

    Raises
    ------
    InputProblem
        When the class folder cannot be read, no question can be set, a key does not pass its own marking, or the folder
        cannot be written. Then nothing is written.
    """
    klass = class_folder.read(class_dir)
    job = _Job(klass, meeting_of(klass, session, today), kind, large, paper)
    target = Path(out) if out is not None else klass.folder / "packs" / f"{job.meeting.date.isoformat()}-{kind}"
    sheets = _sheets(job)
    names, told = printed_names(klass.learners.values())
    if any(len(sheet.questions[0]) < len(LADDERS[0]) for sheet in sheets):
        told.append(Said("pack.fewer"))
    # The same record stands once, however many learners hold that sheet.
    records = tuple({sheet.record.code: sheet.record for sheet in sheets}.values())
    with whole_folder(target) as (folder, kept):
        for part in ("learners", "print", "key"):
            (folder / part).mkdir()
        for number, sheet in enumerate(sheets, start=1):
            own_id = "-".join(reader.id for reader in sheet.readers)
            (folder / "learners" / file_name(number, own_id)).write_bytes(_pdf(job, [sheet], names))
            if progress is not None:
                progress(number, len(sheets))
        for number, some in enumerate(_stacks(sheets), start=1):
            (folder / "print" / f"sheets_{number}.pdf").write_bytes(_pdf(job, some, names))
            let_go()
        _write_keys(job, sheets, names, folder / "key")
        record = PackRecord(
            library=version("gardenlib"),
            class_title=klass.title,
            made_on=today,
            session=f"{job.meeting.date.isoformat()} {job.title}",
            show_scores=klass.show_scores,
            invented=klass.invented,
            sheets=records,
        )
        record.save(folder / RECORD)
        write_templates(folder / "key", record, holders=_holders(job, sheets))
    told += [Said("pack.kept", {"folder": str(path)}) for path in kept]
    return Pack(target, len(sheets), tuple(told))


def _holders(job: _Job, sheets: Sequence[_Sheet]) -> dict[str, list[str]]:
    """Tell which learners hold the sheet of a class."""
    held: dict[str, list[str]] = {}
    if job.kind == "class":
        for sheet in sheets:
            held.setdefault(sheet.record.code, []).extend(reader.id for reader in sheet.readers)
    return held


def meeting_of(klass: ClassFolder, session: int | None, today: date) -> Meeting:
    """Give a meeting by its number, or the next one, or the last."""
    meetings = klass.sessions
    if session is None and meetings:
        return next((one for one in meetings if one.date >= today), meetings[-1])
    if session is None or not 1 <= session <= len(meetings):
        raise InputProblem("pack.session", value=session or 1, n=len(meetings))
    return meetings[session - 1]


def _code(job: _Job, whose: str) -> str:
    """Make a sheet's code: six digits in pairs, the same whenever the same sheet is printed."""
    told = "|".join((job.klass.title, job.meeting.date.isoformat(), job.kind, whose))
    number = int.from_bytes(blake2b(told.encode("utf-8", "surrogatepass"), digest_size=8).digest(), "big") % 1_000_000
    return "-".join(re.findall("..", f"{number:06d}"))


def _sheets(job: _Job) -> list[_Sheet]:
    learners = list(job.klass.learners.values())
    if not learners and job.kind != "class":
        raise InputProblem("pack.no_learners")
    groups: list[tuple[Learner, ...]] = [(one,) for one in learners] or [()]
    if job.kind == "pair":
        groups = [tuple(learners[place : place + 2]) for place in range(0, len(learners), 2)]
    made: dict[tuple[str, ...], _Sheet] = {}
    taken: set[str] = set()
    sheets = []
    for readers in groups:
        voices = _voices(job, readers)
        same = tuple(voice.language for voice in voices) if job.kind == "class" else tuple(one.id for one in readers)
        if same not in made:
            made[same] = _set(job, readers, voices, _free_code(job, "|".join(same), taken))
        first = made[same]
        sheets.append(_Sheet(readers, voices, first.record, first.questions))
    return sheets


def _free_code(job: _Job, whose: str, taken: set[str]) -> str:
    """Give a code that no other sheet of the pack has."""
    code, turn = _code(job, whose), 0
    while code in taken:
        turn += 1
        code = _code(job, f"{whose}|{turn}")
    taken.add(code)
    return code


def _voices(job: _Job, readers: Sequence[Learner]) -> tuple[Voice, ...]:
    klass = job.klass
    asked = [reader.language for reader in readers] or [""]
    if job.kind == "pair" and len(asked) < 2:
        asked += asked
    own = next((language for language in klass.languages if language in languages()), "en")
    spoken = [language if language in languages() else own for language in asked]
    return tuple(
        Voice(language=one, units=klass.units, local=klass.words_local if one == own else {}) for one in spoken
    )


def _set(job: _Job, readers: Sequence[Learner], voices: tuple[Voice, ...], code: str) -> _Sheet:
    """Choose the questions that fit on one sheet, and see that their key holds."""
    page, year = job.meeting.page, job.meeting.date.year
    learner = readers[0] if readers and job.kind != "class" else None
    grounds = [
        ground_for(job.klass, learner=learner, kind=job.kind, code=code, year=year, voice=voice) for voice in voices
    ]
    whose = "" if job.kind == "class" else "+".join(reader.id for reader in readers)
    choice, set_any = Choice(page, grounds[0]), False
    for ladder in LADDERS:
        for asked in islice(choice.sheets(ladder), CHOICES):
            set_any = True
            questions = (asked, *(choice.again(asked, ground) for ground in grounds[1:]))
            sheet = _Sheet(tuple(readers), voices, sheet_record(asked, grounds[0], learner=whose), questions)
            if _sides(_pdf(job, [sheet], {})) <= SIDES:
                proved(sheet.record)
                return sheet
    raise InputProblem("pack.too_long" if set_any else "pack.no_questions", page=page)


def _sides(pdf: bytes) -> int:
    return len(re.findall(rb"/Type/Page\b(?!s)", pdf))


def _stacks(sheets: Sequence[_Sheet]) -> list[Sequence[_Sheet]]:
    """Part the sheets into files, each of one voice."""
    by_voice: dict[tuple[str, ...], list[_Sheet]] = {}
    for sheet in sheets:
        by_voice.setdefault(tuple(voice.language for voice in sheet.voices), []).append(sheet)
    return [
        some[place : place + IN_ONE_FILE] for some in by_voice.values() for place in range(0, len(some), IN_ONE_FILE)
    ]


def _pdf(job: _Job, sheets: Sequence[_Sheet], names: dict[str, str]) -> bytes:
    voices = sheets[0].voices
    printed = []
    for sheet in sheets:
        name = " + ".join(filter(None, (names.get(one.id, "") for one in sheet.readers)))
        printed.append(PrintedSheet(sheet.record.code, name, sheet.record.code))
    questions = {sheet.record.code: sheet.questions for sheet in sheets}
    data = worksheet_data(questions, printed, voices, title=job.title)
    template = "pair_sheet" if job.kind == "pair" else "worksheet"
    return sheet_pdf(template, data, voice=voices[0], paper=job.paper, large=job.large, invented=job.klass.invented)


def _write_keys(job: _Job, sheets: Sequence[_Sheet], names: dict[str, str], folder: Path) -> None:
    once = list({sheet.record.code: sheet for sheet in sheets}.values())
    for number, some in enumerate(_stacks(once), start=1):
        voice = some[0].voices[0]
        keyed = [
            KeyedSheet(
                sheet.record.code,
                "" if job.kind == "class" else " + ".join(names[one.id] or one.id for one in sheet.readers),
                "" if job.kind == "class" else " + ".join(names[one.id] for one in sheet.readers),
                sheet.questions[0],
            )
            for sheet in some
        ]
        for name, template, data in (
            ("key", "key", key_data(keyed, voice, title=job.title)),
            ("self_check", "self_check", self_check_data(keyed, voice, title=job.title)),
        ):
            pdf = sheet_pdf(template, data, voice=voice, paper=job.paper, large=job.large, invented=job.klass.invented)
            (folder / f"{name}_{number}.pdf").write_bytes(pdf)
        let_go()
