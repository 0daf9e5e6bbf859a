"""A question as it stands on a page, a sheet and the key: a skill's task at one rung of its staircase."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from functools import cached_property

from gardenlib.homework.blank import Blank
from gardenlib.homework.blanks import blank_of
from gardenlib.homework.formula import named
from gardenlib.homework.ground import Ground, class_crops
from gardenlib.homework.registry import ALONE, EXAMPLE, LAST_BLANK, RUNGS, TWO_BLANK, question_ids, skill
from gardenlib.homework.results import asked, written
from gardenlib.homework.skill import Skill, Task
from gardenlib.problems import InputProblem
from gardenlib.units import Quantity, Range
from gardenlib.words import Voice
from gardenlib.working import Step, Value, cited


@dataclass(frozen=True, kw_only=True)
class Line:
    """One step as it is printed.

    Parameters
    ----------
    label : str
        What is done.
    expression : str
        The formula with its names.
    given : str
        What goes in; a number that is itself asked is named by its step.
    result : str
        What comes out: for the key and the full example, never for a learner where `blank` is given.
    blank : Blank or None
        What is asked here.
    """

    label: str
    expression: str
    given: str
    result: str
    blank: Blank | None = None

    @property
    def how(self) -> str:
        """The formula and what goes in, in one line."""
        return "; ".join(part for part in (self.expression, self.given) if part)


@dataclass(frozen=True, kw_only=True)
class Question:
    """A question with its numbers, spoken.

    Parameters
    ----------
    id : str
        The skill's id and the rung, such as ``03.fit.3``.
    skill : Skill
        What is practised.
    rung : int
        1 full example, 2 last result asked, 3 last two asked, 4 alone.
    ask : str
        The question.
    caution : str or None
        Stands before the question.
    lines : tuple of Line
        The steps that a learner sees; none on rung 4.
    working : tuple of Line
        All steps with their results, for the key.
    sources, assumptions : tuple of str
        Where the figures come from, and what was taken for granted.
    draw : callable or None
        Makes the scale drawing.
    alt : str or None
        The drawing in words.
    blanks : tuple of Blank
        What is asked; none on rung 1.
    """

    id: str
    skill: Skill
    rung: int
    ask: str
    caution: str | None
    lines: tuple[Line, ...]
    working: tuple[Line, ...]
    sources: tuple[str, ...]
    assumptions: tuple[str, ...]
    alt: str | None
    blanks: tuple[Blank, ...]
    draw: Callable[[], str] | None = field(default=None, compare=False)

    @cached_property
    def drawing(self) -> str | None:
        """The scale drawing as SVG text, made when it is first looked at."""
        return None if self.draw is None else self.draw()


def set_question(question_id: str, ground: Ground) -> Question:
    """Set a question on a ground.

    Parameters
    ----------
    question_id : str
        Such as ``03.fit.3``.
    ground : Ground
        What the numbers come from; the same ground gives the same question.

    Returns
    -------
    Question
        Spoken in the ground's voice.

    Raises
    ------
    InputProblem
        When there is no such question, or the ground has not what it needs: neither with the reader's own crops nor
        with those of the class.
    """
    skill_id, _, rung_text = question_id.rpartition(".")
    if rung_text not in map(str, RUNGS):
        raise InputProblem("homework.no_question", value=question_id, known=", ".join(question_ids()))
    chosen, rung = skill(skill_id), int(rung_text)
    return _spoken(question_id, chosen, rung, _task(chosen, ground), ground.voice)


def _task(chosen: Skill, ground: Ground) -> Task:
    try:
        return chosen.make(ground)
    except InputProblem:
        own = {crop.id for crop in ground.crops}
        more = tuple(crop for crop in class_crops(ground.klass) if crop.id not in own)
        if not more:
            raise
        return chosen.make(replace(ground, crops=(*ground.crops, *more)))


def _spoken(question_id: str, chosen: Skill, rung: int, task: Task, voice: Voice) -> Question:
    asked_steps = _asked_steps(task, rung)
    blanks = {place: blank_of(question_id, place, chosen, task, voice) for place in asked_steps}
    working = tuple(_line(task, place, voice) for place in range(len(task.steps)))
    lines = tuple(_seen(line, task, place, blanks, voice) for place, line in enumerate(working))
    return Question(
        id=question_id,
        skill=chosen,
        rung=rung,
        ask=voice.say(task.ask),
        caution=None if task.caution is None else voice.say(task.caution),
        lines=() if rung == ALONE else lines,
        working=working,
        sources=tuple(dict.fromkeys(cited(key, voice) for key in task.answer.sources)),
        assumptions=tuple(dict.fromkeys(voice.say(said) for said in task.answer.assumptions)),
        draw=task.drawing,
        alt=None if task.alt is None else voice.say(task.alt),
        blanks=tuple(blanks.values()),
    )


def _asked_steps(task: Task, rung: int) -> tuple[int, ...]:
    """Give the places of the steps whose results are asked, counted from 0."""
    with_result = [place for place, step in enumerate(task.steps) if step.result is not None]
    many = {EXAMPLE: 0, LAST_BLANK: 1, TWO_BLANK: 2, ALONE: 1}[rung]
    return tuple(with_result[len(with_result) - many :])


def _line(task: Task, place: int, voice: Voice) -> Line:
    step = task.steps[place]
    return Line(
        label=voice.say(f"step.{step.key}"),
        expression=named(step.expression, voice),
        given=_given(step, {}, voice),
        result=_result(step.result, task.places, voice),
    )


def _seen(line: Line, task: Task, place: int, blanks: dict[int, Blank], voice: Voice) -> Line:
    """Give a line as a learner sees it."""
    hidden = {earlier: task.steps[earlier].result for earlier in blanks if earlier < place}
    given = _given(task.steps[place], hidden, voice) if hidden else line.given
    return replace(line, given=given, blank=blanks.get(place))


def _result(value: Value, places: int, voice: Voice) -> str:
    return "" if value is None else written(value, voice, asked(value, voice, places).places)


def _given(step: Step, hidden: dict[int, Value], voice: Voice) -> str:
    """Write what goes in; what an earlier blank asks for is named by the number of its step."""
    parts = []
    for name, value in step.inputs.items():
        asked_at = next((place for place, result in hidden.items() if _tells(value, result, voice)), None)
        told = voice.value(value) if asked_at is None else voice.say("homework.from_step", number=asked_at + 1)
        parts.append(f"{named(name, voice)}: {told}")
    return "; ".join(parts)


def _tells(value: Value, result: Value, voice: Voice) -> bool:
    """Tell whether a value that goes in would give away a result that is asked, or an end of it."""
    ends: list[Value] = [result]
    if isinstance(result, Range):
        ends += [Quantity(end, result.unit) for end in (result.low, result.high)]
    return any(value == end or voice.value(value) == voice.value(end) for end in ends)
