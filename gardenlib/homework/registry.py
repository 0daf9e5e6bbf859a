"""Which skills and questions there are."""

from __future__ import annotations

from gardenlib.homework.bank import SKILLS
from gardenlib.homework.skill import Skill
from gardenlib.problems import InputProblem

EXAMPLE, LAST_BLANK, TWO_BLANK, ALONE = RUNGS = (1, 2, 3, 4)


def skills() -> tuple[Skill, ...]:
    """List the skills in the order of the pages."""
    return SKILLS


def skill(skill_id: str) -> Skill:
    """Find a skill by its id, or say which there are."""
    for known in SKILLS:
        if known.id == skill_id:
            return known
    raise InputProblem("homework.no_skill", value=skill_id, known=", ".join(known.id for known in SKILLS))


def question_ids(page: str | None = None) -> list[str]:
    """List the ids of all questions, or those of one page, such as ``03_beds``."""
    return [f"{known.id}.{rung}" for known in SKILLS if page in {None, known.page} for rung in RUNGS]
