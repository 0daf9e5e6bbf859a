"""From the result of a step to a blank with its foreseen mistakes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date

from gardenlib.homework.blank import Blank, BlankSlip, Span
from gardenlib.homework.days_typed import nearest
from gardenlib.homework.results import Asked, asked, figure, is_whole, numbers_of, span_of, unit_words
from gardenlib.homework.skill import Skill, Task
from gardenlib.units import Quantity, Range, in_system
from gardenlib.words import Said, Voice

_FEWEST_BOXES = 2
_BELOW_ZERO = frozenset({"degC", "degF"})
# What a number without a unit counts, by its step.
COUNTED = {
    "fit.all_rows": "counted.plants",
    "fit.rows": "counted.rows",
    "homework_harvest.weeks": "counted.weeks",
    "homework_pests.left": "counted.plants",
    "homework_season.last": "counted.springs",
    "homework_season.worked": "counted.springs",
    "homework_site.before": "counted.days",
    "homework_sowing.count": "counted.sowings",
    "mixes.bags": "counted.bags",
    "seeds.average": "counted.seeds",
    "water.cans": "counted.cans",
}


def blank_of(question_id: str, place: int, skill: Skill, task: Task, voice: Voice) -> Blank:
    """Make the blank for a step, counted from 0; a mistake that gives the right answer here is left out."""
    result, counts = task.steps[place].result, COUNTED.get(task.steps[place].key)
    ask = asked(result, voice, task.places)
    foreseen = [*_own(place, task, ask, voice)]
    numbers: tuple[float, ...] = ()
    if isinstance(result, int | float | Quantity | Range):
        numbers = numbers_of(result, voice)[1]
        foreseen += [*_other_unit(result, ask, skill, voice), *_part_of_range(numbers, ask, skill, voice)]
    slips = tuple(_told_apart(ask.span, foreseen))
    boxed = [*numbers, *(slip.high for slip in slips if slip.high is not None)] if numbers else []
    return Blank(
        **ask.span.model_dump(),
        id=f"{question_id}.{place + 1}",
        kind=ask.kind,
        unit=ask.unit,
        unit_words=voice.say(counts) if counts and not ask.unit else unit_words(ask.unit, voice),
        digits_before=max(_FEWEST_BOXES, *(len(str(int(abs(number)))) for number in boxed)) if boxed else 0,
        digits_behind=0 if all(map(is_whole, numbers)) else ask.places,
        # By the kind of answer alone, so that the box tells nothing.
        signed=ask.unit in _BELOW_ZERO,
        look=skill.look,
        slips=slips,
    )


def _own(place: int, task: Task, ask: Asked, voice: Voice) -> Iterator[BlankSlip]:
    """Give the task's own foreseen mistakes at this step."""
    for slip in task.slips:
        if slip.step % len(task.steps) == place and slip.value is not None:
            value = slip.value
            if isinstance(value, date) and ask.span.first is not None:
                # South of the equator it may lie in another year; it is written, and read, without one.
                value = nearest(value.month, value.day, ask.span.first) or value
            yield _slip(asked(value, voice, ask.places).span, slip.id, slip.reply, slip.look, voice)


def _other_unit(result: float | Quantity | Range, ask: Asked, skill: Skill, voice: Voice) -> Iterator[BlankSlip]:
    """Give the figure of the other system of units under the name of this one."""
    if not isinstance(result, Quantity | Range):
        return
    ends = (result.value,) if isinstance(result, Quantity) else (result.low, result.high)
    there = [in_system(end, result.unit, "metric" if voice.units == "us" else "us") for end in ends]
    unit = there[0][1]
    if unit == ask.unit:
        return
    numbers = [number for number, _ in there]
    span = span_of(numbers, unit, ask.places, figure(numbers, voice, ask.places))
    words = {"typed": unit_words(unit, voice), "unit": unit_words(ask.unit, voice)}
    yield _slip(span, "wrong_unit", Said("homework.slip.wrong_unit", words), skill.look, voice)


def _part_of_range(numbers: tuple[float, ...], ask: Asked, skill: Skill, voice: Voice) -> Iterator[BlankSlip]:
    """Give one number of a range in place of both."""
    if ask.kind != "range":
        return
    low, high = numbers
    one_end, middle = Said("homework.slip.one_end"), Said("homework.slip.middle")
    for name, number, reply in (
        ("low_end_only", low, one_end),
        ("high_end_only", high, one_end),
        ("middle_of_range", (low + high) / 2, middle),
    ):
        span = span_of([number], ask.unit, ask.places, figure([number], voice, ask.places))
        yield _slip(span, name, reply, skill.look, voice)


def _slip(span: Span, name: str, reply: Said, look: str, voice: Voice) -> BlankSlip:
    return BlankSlip(**span.model_dump(), id=name, reply=voice.say(reply), look=look)


def _told_apart(right: Span, slips: Iterable[BlankSlip]) -> Iterator[BlankSlip]:
    """Give the mistakes whose value is neither accepted nor that of an earlier one, nor written like one of these."""
    taken: list[Span] = [right]
    for slip in slips:
        if not any(span.holds(slip.middle) or span.shown == slip.shown for span in taken):
            taken.append(slip)
            yield slip
