"""A second way to the most plants in a small bed: all lines of all mixtures, counted out one by one."""

from functools import cache
from itertools import product


def most_plants(length, width, wanted):
    """Give (crops with a place, plants) for crops as (plants, spacing), spacings even, lines not moved.

    Each plant takes its spacing along the line; a line takes its widest spacing across the bed.
    """
    spacings = tuple(spacing for _, spacing in wanted)
    start = tuple(plants for plants, _ in wanted)

    @cache
    def mixtures(left):
        ways = product(*(range(plants + 1) for plants in left))
        return [way for way in ways if any(way) and sum(n * s for n, s in zip(way, spacings, strict=True)) <= length]

    @cache
    def best(room, left):
        found = (sum(a < b for a, b in zip(left, start, strict=True)), sum(start) - sum(left))
        for way in mixtures(left):
            high = max(s for n, s in zip(way, spacings, strict=True) if n)
            if high <= room:
                found = max(found, best(room - high, tuple(a - n for a, n in zip(left, way, strict=True))))
        return found

    return best(width, start)
