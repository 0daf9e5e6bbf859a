"""One table without names for the coordinator, from a folder of plot files."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from pathlib import Path

from gardenlib.season.class_files import heads_by_day, plots_in
from gardenlib.season.class_table import ClassCounts
from gardenlib.season.log import lines_of
from gardenlib.units import in_system
from gardenlib.words import Said, Voice

QUESTIONS = ("q1", "q2", "q3")
MOMENTS = ("before", "after")
ANSWERS = ("yes", "partly", "no")
FEWEST = 3


def class_counts(
    folder: str | Path,
    *,
    first: date,
    last: date,
    sessions: Sequence[date] = (),
    attendance: str | Path | None = None,
    voice: Voice | None = None,
) -> ClassCounts:
    """Count heads, hours, pounds and answers over a folder of plot files.

    Parameters
    ----------
    folder : str or Path
        Folder of plot files; nothing in it is changed.
    first, last : date
        First and last day that count.
    sessions : sequence of date
        Days of the class's meetings.
    attendance : str or Path, optional
        Table with the columns date and heads.
    voice : Voice, optional
        Language and units of the table.

    Returns
    -------
    ClassCounts
        The rows, with the files that were skipped.

    Raises
    ------
    InputProblem
        When there is no such folder, it holds too many files, or the table of heads cannot be read.

    Notes
    -----
    Common practice, no source: a count of fewer than 3 people, none included, is not told; neither is a weight or a
    number of hours that fewer than 3 plots gave, since it may be known whose it is.  There are totals only, so that
    nothing can be found by taking away.

    Examples
    --------
    >>> import tempfile
    >>> class_counts(tempfile.mkdtemp(), first=date(2027, 1, 1), last=date(2027, 12, 31)).cells[0]
    ('plot files counted', '', 'fewer than 3', 'plots')
    """
    say = (voice or Voice()).say
    heads = heads_by_day(Path(attendance)) if attendance is not None else {}
    plots, left_out = plots_in(Path(folder))
    unreadable = sum(said.key == "coord.unreadable" for said in left_out)
    rows = [
        (say("coord.files"), "", _count(len(plots), voice), say("coord.unit_plots")),
        (say("coord.files_unreadable"), "", str(unreadable), say("coord.unit_files")),
    ]
    for day in sorted({*sessions, *heads}):
        if first <= day <= last:
            number = _count(heads[day], voice) if day in heads else say("coord.unwritten")
            rows.append((say("coord.heads"), day.isoformat(), number, say("coord.unit_people")))
    if ahead := sum(line.day > last for plot in plots for line in plot.log):
        left_out.append(Said("coord.ahead", {"n": ahead, "day": last}))
    lines = [(place, line) for place, plot in enumerate(plots) for line in lines_of(plot.log, first, last, last)]
    sums = [
        ("hours", [(place, line.hours) for place, line in lines if line.did == "worked"], "hours"),
        ("picked", [(place, line.amount_kg) for place, line in lines if line.did == "picked"], "kg"),
        ("given", [(place, line.amount_kg) for place, line in lines if line.did == "given"], "kg"),
    ]
    for what, values, unit in sums:
        rows.append((say(f"coord.{what}"), "", *_sum(values, unit, voice)))
    for question in QUESTIONS:
        for moment in MOMENTS:
            given = [_choice(plot.answers.get(f"07.{moment}.{question}")) for plot in plots]
            for answer in ANSWERS:
                which = say("coord.which", moment=Said(f"coord.{moment}"), answer=Said(f"coord.{answer}"))
                number = _count(given.count(answer), voice)
                rows.append((say(f"coord.{question}"), which, number, say("coord.unit_people")))
    return ClassCounts(cells=tuple(rows), left_out=tuple(left_out))


# ---- what may be told ------------------------------------------------------------------------------


def _count(number: int, voice: Voice | None) -> str:
    return str(number) if number >= FEWEST else (voice or Voice()).say("coord.small", n=FEWEST)


def _sum(values: Sequence[tuple[int, float | None]], unit: str, voice: Voice | None) -> tuple[str, str]:
    """Sum over the plots; where too few gave it, say only that."""
    say = (voice or Voice()).say
    known = [(place, value) for place, value in values if value is not None]
    total, shown = in_system(sum(value for _, value in known), unit, (voice or Voice()).units)
    if len({place for place, _ in known}) < FEWEST:
        return say("coord.small_plots", n=FEWEST), say(f"coord.unit_{shown}")
    return f"{total:.1f}", say(f"coord.unit_{shown}")


def _choice(entry: object) -> object:
    return entry.get("choice") if isinstance(entry, dict) else None
