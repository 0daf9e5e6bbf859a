"""A whole session as paper: guesses, findings, charts and working for the class's own place."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING, Any

from gardenlib.class_folder import ClassFolder, Meeting
from gardenlib.classroom.day_lessons import Lesson
from gardenlib.classroom.lesson_paper_sights import Sight, sights
from gardenlib.homework.formula import with_signs
from gardenlib.problems import InputProblem
from gardenlib.words import Voice
from gardenlib.working import COMMON_PRACTICE, Answer, cited

if TYPE_CHECKING:
    import pandas as pd

    from gardenlib.panels import Session

Data = dict[str, Any]


def lesson_paper(klass: ClassFolder, meeting: Meeting, lesson: Lesson) -> Data:
    """Gather the words and pictures of a lesson for the template ``day_lesson``.

    Parameters
    ----------
    klass : ClassFolder
        The class; its bed and crops stand in for those of a learner.
    meeting : Meeting
        The meeting; its date is the day of which the paper speaks.
    lesson : Lesson
        The lesson.

    Returns
    -------
    dict
        Data for `sheet_pdf`.
    """
    from gardenlib.panels import Session

    say, sources = lesson.voice.say, dict[str, int]()
    with TemporaryDirectory() as folder:
        session = Session(meeting.page, Path(folder) / "no_plot.json", klass.folder, meeting.date)
        parts = [_part(session, sight, sources) for sight in sights(lesson.name)]
    return {
        "title": say("day.lesson.title", title=lesson.title),
        "date": lesson.voice.date(meeting.date, "yMMMMEEEEd"),
        "goal": say("day.run.goal", goal=lesson.own_words("goal")),
        "place": say("day.lesson.place", title=klass.title, place=session.site_name),
        "guess_title": say("day.lesson.guess"),
        "guess_about": say("day.lesson.guess_about"),
        "guesses": [part["guess"] for part in parts if part["guess"]],
        "parts": parts,
        "working": say("page.working"),
        "own_title": say("day.lesson.own"),
        "own": lesson.all("own"),
        "points_title": say("day.lesson.sources"),
        "sources": [f"{number}. {cited(key, lesson.voice)}" for key, number in sources.items()],
    }


def _part(session: Session, sight: Sight, sources: dict[str, int]) -> Data:
    """Give one panel as it is printed; what is missing is said in the place of the finding."""
    say, spec = session.voice.say, sight.spec
    part: Data = {
        "title": say(spec.title) if sight.heads else None,
        "caution": say(spec.caution) if spec.caution else None,
        "guess": None,
        "truth": None,
        "finding": "",
        "chart": None,
        "chart_alt": "",
        "head": [],
        "rows": [],
        "ask": "",
        "choices": [],
        "notes": [],
        "steps": [],
    }
    try:
        controls = spec.controls(session)
        values = {**{name: control.value for name, control in controls.items()}, **sight.values}
        view = (sight.view or spec.view)(session, values)
        part |= {"finding": view.finding, "chart": view.chart, "chart_alt": view.alt, **_table(view.table)}
        if sight.asks:
            asked = controls[sight.asks]
            part |= {"ask": asked.description, "choices": [words for words, _ in asked.options]}
        if spec.notes is not None:
            part["notes"] = [say(said) for said in spec.notes(session, values) if said.key not in sight.left_out]
        if spec.working is not None and sight.works:
            part["steps"] = _steps(spec.working(session, values), session.voice, sources)
        if spec.guess is not None and sight.heads:
            options = [say(words) for _, words in spec.guess.options(session)]
            part["guess"] = {"question": say(spec.guess.question(session)), "options": options}
            part["truth"] = say("day.lesson.truth", truth=spec.guess.truth(session))
    except InputProblem as problem:
        part["finding"] = problem.in_voice(session.voice)
    return part


def _table(table: pd.DataFrame | None) -> Mapping[str, list[Any]]:
    if table is None:
        return {}
    rows = [[str(cell) for cell in row] for row in table.itertuples(index=False)]
    return {"head": [str(name) for name in table], "rows": rows}


def _steps(answer: Answer, voice: Voice, sources: dict[str, int]) -> Sequence[Data]:
    """Write each step: what is done, the formula with its result, what went in and who says so."""
    printed = []
    for step in answer.steps:
        if step.source != COMMON_PRACTICE:
            sources.setdefault(step.source, len(sources) + 1)
        printed.append(
            {
                "what": voice.say(f"step.{step.key}"),
                "expression": with_signs(step.expression).replace("_", " "),
                "result": "" if step.result is None else voice.value(step.result),
                "given": step.given(voice),
                "source": voice.say("page.common_practice")
                if step.source == COMMON_PRACTICE
                else voice.say("page.source_n", number=sources[step.source]),
            }
        )
    return printed
