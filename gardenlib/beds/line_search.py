"""The search for lines: which crops get lines of their own, how many, and in which order across the bed."""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import accumulate, chain, combinations, count, islice, permutations

from gardenlib.beds.line_order import Line, Wanted, fill, half, mean, set_out

TRIES = 400
"""Beds tried for the number of lines; more find nothing in the small cases that can be counted out."""
ORDERS = 60

Score = tuple[int, int, int, int, int]


@dataclass(frozen=True)
class Ground:
    """The bed in whole units, the lines that are kept, which edge is shaded, and what the arm reaches.

    `shaded` is -1 where the shaded edge is the one that lines are measured from, 1 for the other, 0 for neither.
    """

    length: int
    width: int
    kept: tuple[Line, ...]
    shaded: int
    reach: int
    both: bool

    def in_reach(self, at: int) -> bool:
        """Tell whether a line lies within reach."""
        return at <= self.reach or (self.both and self.width - at <= self.reach)


@dataclass(frozen=True)
class Found:
    """A bed that was tried: its lines, what is left of each crop, and how good it is; more is better."""

    lines: tuple[Line, ...]
    left: tuple[tuple[str, int], ...]
    score: Score

    @property
    def far(self) -> int:
        """Daily plants that lie out of reach."""
        return -self.score[3]


def best_lines(wanted: Sequence[Wanted], ground: Ground, seed: int) -> Found:
    """Search the lines: first each crop some place, then most plants, then tall ones in the back, then reach."""
    chance = random.Random(seed)  # noqa: S311  (a search, nothing secret)
    order = sorted(wanted, key=lambda crop: (not crop.tall, -crop.spacing, crop.crop))
    best = _better(None, _tried((), wanted, ground))
    for counts in _counts(order, ground, chance):
        best = _better(best, _tried(_grouped(order, counts), wanted, ground))
    counts = Counter(line.crop for line in best.lines if not line.kept)
    for other in _orders(order, ground, chance):
        best = _better(best, _tried(_grouped(other, counts), wanted, ground))
    if not best.far:
        return best
    # Only now, and only with what holds as many plants: so reach never costs a plant.
    best = _outward(best, ground)
    grouped = (_grouped(other, counts) for other in _orders(order, ground, chance))
    for across in chain(_daily_outside(_grouped(order, counts), ground), grouped):
        best = _better(best, [_outward(found, ground) for found in _tried(across, wanted, ground)])
    return best


def _better(best: Found | None, tried: Iterable[Found]) -> Found:
    return max(tried if best is None else chain([best], tried), key=lambda found: found.score)


def _grouped(order: Sequence[Wanted], counts: Mapping[Wanted, int]) -> list[Wanted]:
    return [crop for crop in order for _ in range(counts[crop])]


def _most_lines(crop: Wanted, ground: Ground) -> int:
    in_line = (ground.length - 2 * half(crop.spacing) - crop.spacing // 2) // crop.spacing + 1
    if ground.length < 2 * half(crop.spacing):
        return 0
    return min(-(-crop.count // max(in_line, 1)), ground.width // max(crop.spacing * 4 // 5, 1) + 1)


def _counts(order: Sequence[Wanted], ground: Ground, chance: random.Random) -> Iterator[Counter[Wanted]]:
    """Give numbers of lines for each crop to try: all of them in a small bed, else neighbours of chance ones."""
    most = {crop: _most_lines(crop, ground) for crop in order}
    possible = 1
    for number in most.values():
        possible *= number + 1
    if possible <= TRIES:
        found: list[Counter[Wanted]] = [Counter()]
        for crop, number in most.items():
            found = [counts + Counter({crop: lines}) for counts in found for lines in range(number + 1)]
        yield from found
        return
    for _ in range(TRIES):
        yield _chance_counts(order, most, ground, chance)


def _chance_counts(
    order: Sequence[Wanted], most: dict[Wanted, int], ground: Ground, chance: random.Random
) -> Counter[Wanted]:
    """Open lines by chance until the bed is full; narrow spacings come up more often, as they hold more plants."""
    counts: Counter[Wanted] = Counter()
    # What moved lines save is not known yet: so the bed may look a little wider than it is.
    width = ground.width * chance.uniform(0.95, 1.16) - sum(line.crop.spacing for line in ground.kept)
    narrow = chance.choice((0.0, 1.0, 2.0))
    while True:
        able = [crop for crop in order if counts[crop] < most[crop] and crop.spacing <= width]
        if not able:
            return counts
        crop = chance.choices(able, [crop.spacing**-narrow for crop in able])[0]
        counts[crop] += 1
        width -= crop.spacing


def _orders(order: Sequence[Wanted], ground: Ground, chance: random.Random) -> Iterator[Sequence[Wanted]]:
    """Give orders across the bed to try, tall crops first; with kept lines any order, as that may fit better."""
    tall, short = ([crop for crop in order if crop.tall == wish] for wish in (True, False))
    if len(order) <= 4:
        yield from islice(permutations(order), ORDERS)
        return
    for number in range(ORDERS):
        chance.shuffle(tall)
        chance.shuffle(short)
        mixed = [*tall, *short]
        if ground.kept and number % 3 == 2:
            chance.shuffle(mixed)
        yield mixed


def _daily_outside(lines: Sequence[Wanted], ground: Ground) -> Iterator[list[Wanted]]:
    """Give orders in which daily lines lie outermost, shared out between both edges; tall crops still come first."""
    daily = sum(crop.daily for crop in lines)
    shares = sorted(range(daily + 1), key=lambda first: abs(2 * first - daily))
    for first in shares[:ORDERS] if ground.both else (0, daily):
        number = count()
        places = [(0 if next(number) < first else 2) if crop.daily else 1 for crop in lines]
        ranked = sorted(zip(places, lines, strict=True), key=lambda line: (not line[1].tall, line[0]))
        yield [crop for _, crop in ranked]


def _tried(across: Sequence[Wanted], wanted: Sequence[Wanted], ground: Ground) -> Iterator[Found]:
    """Give the beds that lines in this order can make."""
    for stagger in (False, True):
        lines = set_out(across[::-1] if ground.shaded > 0 else across, ground.kept, ground.width, stagger)
        for small_first in (False, True) if lines is not None else ():
            full, left = fill(lines or (), wanted, ground.length, together=not ground.shaded, small_first=small_first)
            yield Found(tuple(full), tuple(left.items()), _score(full, left, wanted, ground))


def _outward(found: Found, ground: Ground) -> Found:
    """Move the last lines out to the far edge, as few as bring most daily plants within reach; kept ones stay."""
    lines = found.lines
    free = ground.width - half(lines[-1].crop.spacing) - lines[-1].at if lines else 0
    if free <= 0 or not ground.both or not found.far:
        return found
    moved = [replace(line, at=line.at + free) for line in lines]
    near = list(accumulate((_far(line, ground) for line in lines), initial=0))
    beyond = list(accumulate((_far(line, ground) for line in reversed(moved)), initial=0))[::-1]
    able = range(max((place + 1 for place, line in enumerate(lines) if line.kept), default=0), len(lines) + 1)
    first = min(reversed(able), key=lambda place: near[place] + beyond[place])
    some, placed, against, _, number = found.score
    score = (some, placed, against, -near[first] - beyond[first], number)
    return Found((*lines[:first], *moved[first:]), found.left, score)


def _far(line: Line, ground: Ground) -> int:
    """Count the daily plants of a line that lie out of reach."""
    return 0 if ground.in_reach(line.at) else sum(plants for crop, plants in line.parts if crop.daily)


def _score(lines: Sequence[Line], left: Mapping[str, int], wanted: Sequence[Wanted], ground: Ground) -> Score:
    some = sum(left[crop.crop] < crop.count for crop in wanted)
    placed = sum(crop.count - left[crop.crop] for crop in wanted)
    far = sum(_far(line, ground) for line in lines)
    return some, placed, -len(shading(lines, ground)), -far, -len(lines)


def shading(lines: Sequence[Line], ground: Ground) -> list[tuple[Line, Line]]:
    """List the pairs of lines of which the first, a tall one, takes sun from the second, a short one."""
    if not ground.shaded:
        return []
    pairs = combinations(sorted(lines, key=lambda line: -ground.shaded * line.at), 2)
    return [(sunward, behind) for behind, sunward in pairs if sunward.crop.tall and not behind.crop.tall]


def crowded(kept: Sequence[Line]) -> tuple[Line, Line] | None:
    """Find two kept lines that lie too close together."""
    pairs = combinations(kept, 2)
    close = (pair for pair in pairs if abs(pair[0].at - pair[1].at) < mean(*(line.crop.spacing for line in pair)))
    return next(close, None)
