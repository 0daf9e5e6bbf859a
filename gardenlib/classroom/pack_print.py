"""From a class folder to a stack of paper: a sheet for each learner, the key apart, and what marking needs."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from gardenlib import __version__, class_folder
from gardenlib.class_folder import ClassFolder, Learner, Meeting
from gardenlib.classroom.pack_folder import PACKS, pack_name, whole_folder
from gardenlib.classroom.pack_key import KeyedSheet, key_data, self_check_data
from gardenlib.classroom.pack_names import file_name, printed_names
from gardenlib.classroom.pack_questions import LADDERS
from gardenlib.classroom.pack_set import Job, Setter, Sheet, groups_of, languages_of, printed
from gardenlib.homework import PackRecord, SheetRecord, write_templates
from gardenlib.homework.ground import SheetKind
from gardenlib.homework.record import RECORD
from gardenlib.problems import InputProblem
from gardenlib.sheets import sheet_pdf
from gardenlib.sheets.printing import Paper
from gardenlib.words import Said

IN_ONE_FILE = 60


@dataclass(frozen=True)
class Pack:
    """What was printed: the folder, how many sheets, and what is good to know."""

    folder: Path
    sheets: int
    told: tuple[Said, ...]


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
    job = Job(klass, meeting_of(klass, session, today), kind, large, paper)
    target = Path(out) if out is not None else klass.folder / PACKS / pack_name(job.meeting, kind)
    stacks = _stacks(job)
    many = sum(map(len, stacks))
    names, told = printed_names(klass.learners.values())
    setter, records, held = Setter(job, names), dict[str, SheetRecord](), dict[str, list[str]]()
    with whole_folder(target) as (folder, kept):
        for part in ("learners", "print", "key"):
            (folder / part).mkdir()
        done = 0
        for place, stack in enumerate(stacks, start=1):
            sheets = []
            for number, readers in stack:
                sheet, pdf = setter.sheet(readers)
                sheets.append(sheet)
                own_id = "-".join(reader.id for reader in readers)
                (folder / "learners" / file_name(number, own_id)).write_bytes(pdf)
                held.setdefault(sheet.record.code, []).extend(reader.id for reader in readers)
                done += 1
                if progress is not None:
                    progress(done, many)
            (folder / "print" / f"sheets_{place}.pdf").write_bytes(printed(job, sheets, names))
            # The same sheet stands once on the key, however many learners hold it.
            fresh = {sheet.record.code: sheet for sheet in sheets if sheet.record.code not in records}
            _write_keys(job, list(fresh.values()), names, folder / "key", place)
            records |= {code: sheet.record for code, sheet in fresh.items()}
        shared = held if kind == "class" else {}
        record = PackRecord(
            library=__version__,
            class_title=klass.title,
            made_on=today,
            session=f"{job.meeting.date.isoformat()} {job.title}",
            show_scores=klass.show_scores,
            invented=klass.invented,
            sheets=tuple(
                one.model_copy(update={"holders": tuple(shared.get(code, ()))}) for code, one in records.items()
            ),
        )
        record.save(folder / RECORD)
        write_templates(folder / "key", record, holders=shared)
    if any(len(sheet.questions) < len(LADDERS[0]) for sheet in records.values()):
        told.append(Said("pack.fewer"))
    told += [Said("pack.kept", {"folder": str(path)}) for path in kept]
    return Pack(target, many, tuple(told))


def meeting_of(klass: ClassFolder, session: int | None, today: date) -> Meeting:
    """Give a meeting by its number, or the next one, or the last."""
    meetings = klass.sessions
    if session is None and meetings:
        return next((one for one in meetings if one.date >= today), meetings[-1])
    if session is None or not 1 <= session <= len(meetings):
        raise InputProblem("pack.session", value=session or 1, n=len(meetings))
    return meetings[session - 1]


def _stacks(job: Job) -> list[list[tuple[int, tuple[Learner, ...]]]]:
    """Part the sheets, by number and readers, into files, each of the same languages."""
    spoken: dict[tuple[str, ...], list[tuple[int, tuple[Learner, ...]]]] = {}
    for number, readers in enumerate(groups_of(job), start=1):
        spoken.setdefault(languages_of(job, readers), []).append((number, readers))
    return [some[place : place + IN_ONE_FILE] for some in spoken.values() for place in range(0, len(some), IN_ONE_FILE)]


def _write_keys(job: Job, sheets: Sequence[Sheet], names: Mapping[str, str], folder: Path, place: int) -> None:
    if not sheets:
        return
    voice = sheets[0].voices[0]
    keyed = [_keyed(sheet, names, whose=job.kind != "class") for sheet in sheets]
    for name, data in (
        ("key", key_data(keyed, voice, title=job.title)),
        ("self_check", self_check_data(keyed, voice, title=job.title)),
    ):
        pdf = sheet_pdf(name, data, voice=voice, paper=job.paper, large=job.large, invented=job.klass.invented)
        (folder / f"{name}_{place}.pdf").write_bytes(pdf)


def _keyed(sheet: Sheet, names: Mapping[str, str], *, whose: bool) -> KeyedSheet:
    """Give a sheet as the key needs it; a sheet that is the same for all is nobody's."""
    readers = sheet.readers if whose else ()
    return KeyedSheet(
        sheet.record.code,
        " + ".join(names[one.id] or one.id for one in readers),
        " + ".join(names[one.id] for one in readers),
        sheet.questions[0],
    )
