"""What a question is made of: a skill, the task it sets on a ground, and the mistakes that are foreseen."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from gardenlib.homework.ground import Ground
from gardenlib.words import Said
from gardenlib.working import Answer, Step, Value


@dataclass(frozen=True)
class Slip:
    """A foreseen mistake: what comes out when it is made, what is said to it, and where to look again.

    Parameters
    ----------
    id : str
        Its name, such as ``path_forgotten``; it counts in the class view.
    value : value
        What comes out, of the same kind and unit as the result of the step.
    reply : Said
        One sentence that names the mistake.
    look : str
        The panel of a page where it is shown, such as ``03.count``.
    step : int
        Which of the task's steps it is about, counted from 0; the last one unless given.
    """

    id: str
    value: Value
    reply: Said
    look: str
    step: int = -1


@dataclass(frozen=True, kw_only=True)
class Task:
    """A question with its numbers.

    Parameters
    ----------
    ask : Said
        The question, with every number that is needed to answer it.
    answer : Answer
        The library's answer; assumptions and sources are printed from it.
    steps : tuple of Step
        The steps of that answer which are asked, two at least; the last one's result is what the question asks for.
    slips : tuple of Slip
        The foreseen mistakes.
    places : int
        Decimals in which a result that is not whole is asked.
    caution : Said or None
        Stands before the question and its numbers.
    drawing : callable or None
        Makes a scale drawing as SVG text.
    alt : Said or None
        The drawing in words.
    """

    ask: Said
    answer: Answer
    steps: tuple[Step, ...]
    slips: tuple[Slip, ...]
    places: int = 1
    caution: Said | None = None
    drawing: Callable[[], str] | None = None
    alt: Said | None = None


@dataclass(frozen=True)
class Skill:
    """One thing to be able to do.

    Parameters
    ----------
    id : str
        Stable name, its page first, such as ``03.fit``.
    page : str
        The page that teaches it.
    title : Said
        What one can do.
    look : str
        The panel that shows it.
    make : callable
        Sets the task on a ground; raises `InputProblem` where the ground does not have what it needs.
    """

    id: str
    page: str
    title: Said
    look: str
    make: Callable[[Ground], Task]
