"""The working of an answer as a numbered list, what was assumed, and its sources."""

from __future__ import annotations

from html import escape

from gardenlib.homework.formula import with_signs
from gardenlib.words import Voice
from gardenlib.working import COMMON_PRACTICE, Answer, Step, cited


def steps_html(answer: Answer, voice: Voice) -> str:
    """Write an answer's steps, assumptions and sources as HTML.

    Parameters
    ----------
    answer : Answer
        Any answer of the library.
    voice : Voice
        How the class is spoken to.

    Returns
    -------
    str
        Escaped HTML.
    """
    numbers: dict[str, int] = {}
    for step in answer.steps:
        if step.source != COMMON_PRACTICE:
            numbers.setdefault(step.source, len(numbers) + 1)
    steps = "".join(f"<li>{_step(step, numbers, voice)}</li>" for step in answer.steps)
    assumed = dict.fromkeys(voice.say(said) for said in answer.assumptions)
    books = [f"{number}. {cited(key, voice)}" for key, number in numbers.items()]
    parts = [f"<ol>{steps}</ol>", _listed("page.assumed", list(assumed), voice), _listed("page.sources", books, voice)]
    return f'<div class="gl-working">{"".join(parts)}</div>'


def _step(step: Step, numbers: dict[str, int], voice: Voice) -> str:
    """Write what is done, the formula with its names, what went in and what came out."""
    result = "" if step.result is None else f" = <b>{escape(voice.value(step.result))}</b>"
    source = (
        voice.say("page.common_practice")
        if step.source == COMMON_PRACTICE
        else voice.say("page.source_n", number=numbers[step.source])
    )
    formula = with_signs(step.expression).replace("_", " ")
    lines = [escape(voice.say(f"step.{step.key}")), f"<code>{escape(formula)}</code>{result}"]
    lines.append(f"<small>{escape('; '.join(part for part in (step.given(voice), source) if part))}</small>")
    return "<br>".join(lines)


def _listed(title: str, entries: list[str], voice: Voice) -> str:
    if not entries:
        return ""
    return f"<p>{escape(voice.say(title))}</p><ul>{''.join(f'<li>{escape(entry)}</li>' for entry in entries)}</ul>"
