"""What a lesson is made of: its page, its 90 minutes, and its sentences in the words files."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import count, takewhile
from typing import Any

from gardenlib.class_folder import ClassFolder, Meeting
from gardenlib.problems import InputProblem
from gardenlib.words import Voice

MINUTES = 90
PARTS = ("arrive", "show", "hands", "work", "close")
# One lesson a page: the minutes of its five parts, in the order of `PARTS`.
LESSONS: Mapping[str, tuple[str, tuple[int, ...]]] = {
    "00_start_here": ("start", (15, 15, 25, 25, 10)),
    "01_site_and_zone": ("site", (15, 15, 25, 25, 10)),
    "02_soil": ("soil", (10, 15, 35, 20, 10)),
    "03_beds": ("beds", (10, 15, 35, 20, 10)),
    "04_sowing_calendar": ("sowing", (10, 15, 30, 25, 10)),
    "05_pests": ("pests", (10, 15, 35, 20, 10)),
    "06_harvest_and_storage": ("harvest", (10, 15, 30, 25, 10)),
    "07_season_plan": ("season", (15, 15, 20, 30, 10)),
}


@dataclass(frozen=True)
class Lesson:
    """The lesson of one meeting, as it is said to the class.

    Parameters
    ----------
    name : str
        The lesson's part of the words files, below ``day.``.
    minutes : tuple of int
        Minutes of its five parts.
    title : str
        The meeting's own title, or the lesson's where it has none.
    voice : Voice
        Language, units and words of the class.
    """

    name: str
    minutes: tuple[int, ...]
    title: str
    voice: Voice

    def own_words(self, key: str) -> str:
        """Say one sentence of the lesson."""
        return self.voice.say(f"day.{self.name}.{key}")

    def all(self, stem: str) -> list[str]:
        """Say all sentences whose keys are a stem and a number from 1."""
        return numbered(self.voice, f"{self.name}.{stem}")

    def parts(self) -> list[tuple[str, int]]:
        """Give the five parts with their minutes."""
        return list(zip(PARTS, self.minutes, strict=True))

    def cards(self) -> list[dict[str, Any]]:
        """Give what stands on the card of each station."""
        numbers = takewhile(lambda n: self.voice.has(f"day.{self.name}.card_{n}.title"), count(1))
        return [
            {part: self.own_words(f"card_{n}.{part}") for part in ("title", "do", "notice", "say", "slip", "reply")}
            for n in numbers
        ]


def numbered(voice: Voice, stem: str) -> list[str]:
    """Say all sentences below ``day.`` whose keys are a stem and a number from 1."""
    numbers = takewhile(lambda n: voice.has(f"day.{stem}_{n}"), count(1))
    return [voice.say(f"day.{stem}_{n}") for n in numbers]


def class_voice(klass: ClassFolder) -> Voice:
    """Speak to the class as a whole: its first language, its units, its own words."""
    return Voice(language=klass.languages[0], units=klass.units, local=klass.words_local)


def lesson_of(klass: ClassFolder, meeting: Meeting) -> Lesson:
    """Find the lesson of a meeting by the page it works on.

    Raises
    ------
    InputProblem
        When the meeting names no page, or one that there is not.
    """
    if meeting.page not in LESSONS:
        raise InputProblem("day.page", day=meeting.date, value=meeting.page or "-", known=", ".join(LESSONS))
    name, minutes = LESSONS[meeting.page]
    voice = class_voice(klass)
    return Lesson(name, minutes, meeting.title or voice.say(f"day.{name}.title"), voice)
