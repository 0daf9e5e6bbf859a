"""The search for lines: which crops get lines of their own, how many, and in which order across the bed."""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations, islice, permutations

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


def best_lines(wanted: Sequence[Wanted], ground: Ground, seed: int) -> Found:
    """Search the lines: first each crop some place, then most plants, then tall ones in the back, then reach."""
    chance = random.Random(seed)  # noqa: S311  (a search, nothing secret)
    order = sorted(wanted, key=lambda crop: (not crop.tall, -crop.spacing, crop.crop))
    best = _tried(Counter(), order, wanted, ground)
    for counts in _counts(order, ground, chance):
        best = max(best, _tried(counts, order, wanted, ground), key=lambda found: found.score)
    counts = Counter(line.crop for line in best.lines if not line.kept)
    for other in _orders(order, ground, chance):
        best = max(best, _tried(counts, other, wanted, ground), key=lambda found: found.score)
    return best


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


def _tried(counts: Counter[Wanted], order: Sequence[Wanted], wanted: Sequence[Wanted], ground: Ground) -> Found:
    across = [crop for crop in order for _ in range(counts[crop])]
    if ground.shaded > 0:
        across.reverse()
    best: Found | None = None
    for stagger in (False, True):
        lines = set_out(across, ground.kept, ground.width, stagger)
        for small_first in (False, True) if lines is not None else ():
            full, left = fill(lines or (), wanted, ground.length, together=not ground.shaded, small_first=small_first)
            found = Found(tuple(full), tuple(left.items()), _score(full, left, wanted, ground))
            best = found if best is None or found.score > best.score else best
    return best or Found((), tuple((crop.crop, crop.count) for crop in wanted), (0, 0, -1, -1, -1))


def _score(lines: Sequence[Line], left: Mapping[str, int], wanted: Sequence[Wanted], ground: Ground) -> Score:
    some = sum(left[crop.crop] < crop.count for crop in wanted)
    placed = sum(crop.count - left[crop.crop] for crop in wanted)
    far = sum(plants for line in lines if not ground.in_reach(line.at) for crop, plants in line.parts if crop.daily)
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
