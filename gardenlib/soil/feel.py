"""Texture by feel: a key of three questions, from a ball of moist soil to a class."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Literal

from gardenlib.problems import InputProblem
from gardenlib.tables.loader import rows
from gardenlib.units import MM_PER_INCH, Quantity, Range
from gardenlib.working import Answer, Notes, Value

QUESTIONS = ("ball", "ribbon", "feel")
ANSWERS = {
    "ball": ("yes", "no"),
    "ribbon": ("none", "short", "middle", "long"),
    "feel": ("gritty", "neither", "smooth"),
}
GROUPS = ("coarse", "middle", "fine")
STEPS = {"ball": "feel.ball", "ribbon": "feel.ribbon", "feel": "feel.feel"}
_KEY = "thien_1979"


@dataclass(frozen=True, kw_only=True)
class FelTexture(Answer):
    """Where a walk through the key stands.

    Parameters
    ----------
    asks : {"ball", "ribbon", "feel"} or None
        The next question; None at the end.
    classes : tuple of str
        The classes that are left, USDA names.
    groups : tuple of str
        The groups that are left: ``coarse``, ``middle``, ``fine``.
    texture : str or None
        The class at the end.
    neighbours : tuple of str
        At the end, the classes that the next answer to one question would have given.
    unchecked : bool
        Whether a length of the ribbon was used; the lengths could not be checked.
    """

    asks: Literal["ball", "ribbon", "feel"] | None
    classes: tuple[str, ...]
    groups: tuple[str, ...]
    texture: str | None
    neighbours: tuple[str, ...]
    unchecked: bool


def texture_by_feel(ball: str | None = None, ribbon: str | None = None, feel: str | None = None) -> FelTexture:
    """Walk the key as far as its questions are answered.

    Parameters
    ----------
    ball : {"yes", "no"}, optional
        Whether moist soil that is squeezed stays a ball.
    ribbon : {"none", "short", "middle", "long"}, optional
        How long a ribbon it makes before it breaks: under 1 inch, 1 to 2 inches, above 2 inches.
    feel : {"gritty", "neither", "smooth"}, optional
        How a very wet pinch feels in the palm.

    Returns
    -------
    FelTexture
        The next question, or the class at the end.

    Raises
    ------
    InputProblem
        When an answer is none of those that the question has.

    Notes
    -----
    Source: Thien 1979 (order of the questions and classes), Land judging handbook (groups). The lengths of the ribbon
    are from a copy that could not be checked; other prints of the diagram have 2 and 3 inches. An answer to a
    question that is not reached is left aside.

    Examples
    --------
    >>> texture_by_feel("yes").asks
    'ribbon'
    >>> texture_by_feel("yes", "middle", "neither").texture
    'clay loam'
    """
    left, asks = list(rows("feel_key")), None
    notes = Notes()
    for question, answer in zip(QUESTIONS, (ball, ribbon, feel), strict=True):
        if answer is not None and answer not in ANSWERS[question]:
            raise InputProblem("feel.answer", question=question, value=answer, known=", ".join(ANSWERS[question]))
        if len(left) == 1:
            break
        if answer is None:
            asks = question
            break
        left = [row for row in left if row[question] == answer]
        inputs: dict[str, Value] = {"answer": answer}
        if question == "ribbon" and answer != "none":
            inputs["length"] = ribbon_length(answer)
        notes.step(STEPS[question], f"{question} = answer", inputs, ", ".join(row["texture"] for row in left), _KEY)
    notes.cite("landjudging_texture")
    unchecked = asks != "ribbon" and ball == "yes" and ribbon not in {None, "none"}
    if unchecked:
        notes.say("feel.unchecked_lengths", "colorado_feel_copy")
    texture = left[0]["texture"] if asks is None else None
    if texture is not None:
        notes.say("feel.a_hand")
    return FelTexture(
        asks=asks,  # type: ignore[arg-type]
        classes=tuple(row["texture"] for row in left),
        groups=tuple(group for group in GROUPS if group in {row["group"] for row in left}),
        texture=texture,
        neighbours=() if texture is None else _one_step_away(left[0]),
        unchecked=unchecked,
        **notes.parts(),
    )


def ribbon_length(ribbon: str) -> Range | Quantity:
    """Give how long a ribbon is that goes by a name.

    Parameters
    ----------
    ribbon : {"short", "middle", "long"}
        Its name in the key.

    Returns
    -------
    Range or Quantity
        Lowest and highest length, or for the long ribbon the lowest, centimetres.

    Notes
    -----
    Source: a copy of Colorado State University's ribbon test, unchecked.

    Examples
    --------
    >>> ribbon_length("middle")
    Range(low=2.54, high=5.08, unit='cm')
    """
    low, high = next((row["low_in"], row["high_in"]) for row in rows("ribbon_lengths") if row["ribbon"] == ribbon)
    low_cm = low * MM_PER_INCH / 10
    return Quantity(low_cm, "cm") if high is None else Range(low_cm, high * MM_PER_INCH / 10, "cm")


def _one_step_away(row: Mapping[str, Any]) -> tuple[str, ...]:
    """List the classes that one answer would give if it were the next one: a hand tells them apart badly."""
    here = _place(row)
    apart = {
        other["texture"]: sum(abs(a - b) for a, b in zip(here, _place(other), strict=True))
        for other in rows("feel_key")
    }
    return tuple(name for name, steps in apart.items() if steps == 1)


def _place(row: Mapping[str, Any]) -> tuple[int, int]:
    """Place a class by its ribbon and its feel; sand, which makes no ball, comes before those that do."""
    ribbon = -1 if row["ribbon"] is None else ANSWERS["ribbon"].index(row["ribbon"])
    return ribbon, ANSWERS["feel"].index(row["feel"] or "gritty")
