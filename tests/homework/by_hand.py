"""A reader with a pencil: each step from what is printed, by the printed expression alone.

Nothing here is taken from the library but how a value is printed: the printed inputs are read back as numbers,
and Python's own parser works out the expression.
"""

import ast
import math
import operator
import re
from datetime import date, timedelta

MONTHS = (
    "January February March April May June July August September October November December".split()  # noqa: SIM905
)
OPERATORS = {ast.Add: operator.add, ast.Sub: operator.sub, ast.Mult: operator.mul, ast.Div: operator.truediv}
DAYS_IN = {"day": 1, "days": 1, "week": 1, "weeks": 1}
NUMBER = r"-?[\d,]+(?:\.\d+)?"


def read_printed(text, near):
    """Read what is printed: a day near a year's date, a range as its two ends, or a number; percent as a part."""
    day = re.fullmatch(r"([A-Z][a-z]+) (\d+)", text)
    if day and day[1] in MONTHS:
        month = MONTHS.index(day[1]) + 1
        return min((date(year, month, int(day[2])) for year in (near.year, near.year - 1)), key=lambda d: abs(d - near))
    found = re.match(rf"({NUMBER})(?: to ({NUMBER}))?", text)
    ends = [float(end.replace(",", "")) for end in found.groups() if end]
    if "%" in text:
        ends = [end / 100 for end in ends]
    return ends[0] if len(ends) == 1 else tuple(ends)


def step_by_hand(step, voice, near, before=()):
    """Work a step out from its printed inputs; `before` are the results of the steps before it."""
    given = {name: read_printed(voice.value(value), near) for name, value in step.inputs.items()}
    formula, _, how = step.expression.partition(",")
    how = how.strip()
    if formula.startswith("latest of "):
        return max(day for day in given.values() if isinstance(day, date))
    if formula == "on = day it goes out":
        return given["goes_out"]
    if formula == "lowest to highest":
        ends = [end for one in before for end in (one if isinstance(one, tuple) else (one,))]
        return min(ends), max(ends)
    tree = ast.parse(formula, mode="eval").body
    if how == "end by end":
        low, high = (
            {name: value[end] if isinstance(value, tuple) else value for name, value in given.items()}
            for end in (0, -1)
        )
        return _worked(tree, low), _worked(tree, high)
    found = _worked(tree, given)
    if how in {"rounded up", "rounded down"}:
        turn = math.ceil if how == "rounded up" else math.floor
        return tuple(turn(end) for end in found) if isinstance(found, tuple) else turn(found)
    assert not how, how
    return found


def _worked(node, given):
    if isinstance(node, ast.Constant):
        return node.value
    if isinstance(node, ast.Name):
        return given[node.id]
    return _apply(OPERATORS[type(node.op)], _worked(node.left, given), _worked(node.right, given))


def _apply(how, left, right):
    """Add, take away, multiply or divide: days count in whole days, and of ranges all ends are tried."""
    if isinstance(left, date) and isinstance(right, date):
        return (left - right).days
    if isinstance(left, date):
        return how(left, timedelta(days=math.floor(right + 0.5)))
    if isinstance(left, tuple) or isinstance(right, tuple):
        lefts, rights = (value if isinstance(value, tuple) else (value,) for value in (left, right))
        ends = [how(one, other) for one in lefts for other in rights]
        return min(ends), max(ends)
    return how(left, right)


def holds(found, step, voice, places):
    """Tell whether what came out by hand is accepted for the step's result."""
    from gardenlib.homework.results import asked

    unit = getattr(step.result, "unit", "")
    if unit == "percent":
        found = tuple(100 * end for end in found) if isinstance(found, tuple) else 100 * found
    span = asked(step.result, voice, places).span
    if isinstance(found, tuple) and span.upper_low is None:
        assert found[0] == found[1] or math.isclose(*found)
        found = found[0]
    return span.holds(found if isinstance(found, tuple | date) else float(found))
