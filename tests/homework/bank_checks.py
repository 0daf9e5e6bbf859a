"""What holds for every skill, over many crops, codes and both systems of units."""

import re
from datetime import date
from functools import cache
from pathlib import Path

from by_hand import holds, step_by_hand
from demo_ground import ground

from gardenlib import tables
from gardenlib.homework.formula import _NAMES, words_key
from gardenlib.problems import InputProblem
from gardenlib.words import texts

ROOT = Path(__file__).resolve().parents[2]
LOOKED_UP = ("as printed", "full dots among the last seasons")
CODES = ("A1B2", "K7M4", "Z9Q3")


def tasks(skill, codes=CODES, units=("us", "metric")):
    """Set the skill's task on grounds of one crop each, where the crop fits it."""
    found = []
    for system in units:
        for crop in tables.crops().index:
            for code in codes:
                here = ground(code, units=system, crops=[crop])
                try:
                    found.append((here, skill.make(here)))
                except InputProblem:
                    break
    assert found, skill.id
    return found


@cache
def panel_ids():
    """List the ids of the panels, as they stand in their modules."""
    files = (ROOT / "gardenlib" / "panels").rglob("*.py")
    return {found for file in files for found in re.findall(r'"(0\d\.[a-z_]+)"', file.read_text("utf-8"))}


def check_pencil(skill):
    """Each result that is arithmetic follows from what is printed before it."""
    for here, task in tasks(skill):
        before = []
        for step in task.steps:
            if step.expression in LOOKED_UP:
                before.append(None)
                continue
            found = step_by_hand(step, here.voice, date(here.year, 7, 1), before)
            before.append(found)
            assert holds(found, step, here.voice, task.places), (skill.id, step, found)


def check_shape(skill):
    """Each task has 2 to 6 steps, slips of the same kind as the results, and sentences that can be spoken."""
    assert skill.look in panel_ids()
    for here, task in tasks(skill, CODES[:1]):
        say = here.voice.say
        assert 2 <= len(task.steps) <= 6
        assert 2 <= len(task.slips) <= 6
        assert say(skill.title)
        assert say(task.ask).endswith(("?", "."))
        assert not re.search(r"[{}]|  ", say(task.ask))
        for step in task.steps:
            assert f"step.{step.key}" in texts("en")
            assert all(words_key(name) in texts("en") for name in (*step.inputs, *_NAMES.findall(step.expression)))
            assert step.source == "common_practice" or tables.source(step.source).citation
        for slip in task.slips:
            right = task.steps[slip.step].result
            assert type(slip.value) is type(right), (skill.id, slip)
            assert getattr(slip.value, "unit", "") == getattr(right, "unit", ""), (skill.id, slip)
            assert here.voice.value(slip.value) != here.voice.value(right)
            assert slip.look in panel_ids()
            assert say(slip.reply)
        assert bool(task.drawing) == bool(task.alt)


def check_asked(skill, *, known=()):
    """Find every number that the steps take in in the question or an earlier result; `known` are those left out."""
    for here, task in tasks(skill, CODES[:1]):
        ask = here.voice.say(task.ask)
        told = {here.voice.value(step.result) for step in task.steps}
        for step in task.steps:
            for name, value in step.inputs.items():
                text = here.voice.value(value)
                number = re.match(r"-?([\d.,]+)", text)
                wanted = number[1] if number else text
                assert wanted in ask or text in told or name in known, (skill.id, name, text, ask)
