"""A reader with a pencil: a ground to ask on, and the printed working done again from what is printed."""

import ast
import math
import operator
import re
from dataclasses import dataclass, field
from datetime import date

import demo_ground

from gardenlib.homework.ground import Ground
from gardenlib.homework.results import asked
from gardenlib.plot import Bed
from gardenlib.units import Quantity, Range, in_system
from gardenlib.words import Voice

WORK = {ast.Add: operator.add, ast.Sub: operator.sub, ast.Mult: operator.mul, ast.Div: operator.truediv}
CODES = [f"demo-{number}" for number in range(60)]


@dataclass(frozen=True, kw_only=True)
class Fixed(Ground):
    """A ground on which some draws are fixed, as a published example needs."""

    fixed: dict = field(default_factory=dict)

    def draw(self, name, values):
        """Give the fixed value, else draw."""
        return self.fixed[name] if name in self.fixed else super().draw(name, values)


def ground(code="demo", *, units="us", bed=None, place=None, crops=None, **fixed):
    """Make a ground of the demo class; names of fixed draws have _ in place of a point."""
    made = demo_ground.ground(code, units=units, place=place, crops=crops)
    length_m, width_m = bed or (3.6576, 1.2192)
    facts = {name: getattr(made, name) for name in made.__dataclass_fields__}
    facts["bed"] = Bed(id="bed-1", length_m=length_m, width_m=width_m)
    return Fixed(**facts, fixed={key.replace("_", ".", 1): value for key, value in fixed.items()})


def read(value, units):
    """Read a value as the number that the reader sees, in the reader's unit."""
    if isinstance(value, date):
        return value.toordinal()
    return in_system(value.value, value.unit, units)[0] if isinstance(value, Quantity) else value


def printed(value, units):
    """Read a value back from what is printed: days of a calendar, else the number alone."""
    if isinstance(value, date):
        return value.toordinal()
    return float(re.match(r"-?[\d.,]+", Voice(units=units).value(value))[0].replace(",", ""))


def accepted(found, step, task, units):
    """Tell whether a number reckoned by hand is taken for the step's result."""
    kept = date.fromordinal(round(found)) if isinstance(step.result, date) else found
    return asked(step.result, Voice(units=units), task.places).span.holds(kept)


def reckon(step, units):
    """Work a step's printed expression out from its printed inputs; None where it is no arithmetic."""
    parts = [part.strip() for part in step.expression.split(",")]
    try:
        tree = ast.parse(parts[0], mode="eval").body
        found = _value(tree, {name: printed(value, units) for name, value in step.inputs.items()})
    except (SyntaxError, KeyError, TypeError, ValueError):
        return None
    for part in parts[1:]:
        match part.split():
            case ["rounded"]:
                found = math.floor(found + 0.5)
            case ["rounded", "down"]:
                found = math.floor(found + 1e-6)
            case ["rounded", "up"]:
                found = math.ceil(found - 1e-6)
            case ["+", number]:
                found += int(number)
            case ["at", "least", number]:
                found = max(found, float(number))
            case _:
                return None
    return found


def _value(node, names):
    if isinstance(node, ast.BinOp):
        return WORK[type(node.op)](_value(node.left, names), _value(node.right, names))
    return names[node.id] if isinstance(node, ast.Name) else ast.literal_eval(node)


def strays(task, *told):
    """List what a step needs and neither the question nor an earlier result gives; `told` are inputs told in words."""
    known = {_plain(value) for value in task.ask.values.values()} | {_plain(n) for n in _of_ranges(task)}
    lost = []
    for step in task.steps:
        lost += [
            (step.key, name) for name, value in step.inputs.items() if name not in told and _plain(value) not in known
        ]
        known.add(_plain(step.result))
    return lost


def _of_ranges(task):
    """Give the ends of the question's ranges, and the numbers of a bag's label."""
    spans = [value for value in task.ask.values.values() if isinstance(value, Range)]
    ends = [Quantity(end, span.unit) for span in spans for end in (span.low, span.high)]
    return ends + [float(part) for part in str(task.ask.values.get("label", "0")).split("-")]


def _plain(value):
    """Compare lengths in metres and percents as numbers, however they are written."""
    if isinstance(value, Quantity) and value.unit != "percent":
        factor, unit = {"cm": (0.01, "m"), "mm": (0.001, "m")}.get(value.unit, (1, value.unit))
        return (round(value.value * factor, 6), unit)
    value = value.value if isinstance(value, Quantity) else value
    return round(float(value), 6) if isinstance(value, int | float) else str(value)


def holds(skill, units, *given, from_elsewhere=False):
    """See that each printed expression gives what is accepted, and needs only what is printed before or is given."""
    bed = (3.6576, 1.2192) if units == "us" else (3.6, 1.2)
    for code in CODES[:8]:
        task = skill.make(ground(code, units=units, bed=bed))
        assert 2 <= len(task.steps) <= 6
        done = [(step, reckon(step, units)) for step in task.steps]
        assert any(found is not None for _, found in done)
        for step, found in done:
            assert found is None or accepted(found, step, task, units), (code, step, found)
        assert 2 <= len(task.slips) <= 5
        assert from_elsewhere or strays(task, *given) == []
