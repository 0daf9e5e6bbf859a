"""Small line drawings side by side, two in a row, each with its words below."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape
from textwrap import wrap

from gardenlib.charts import theme
from gardenlib.charts.hand_drawn import sketch

TILE_PX = (140, 112)
"""Width and height of a small drawing, in its own units."""
LINE_PX = 15.0
IN_A_ROW = 2


def tiles(parts: Sequence[tuple[str, str]]) -> str:
    """Draw small sketches with their words; one alone is drawn twice as wide.

    Parameters
    ----------
    parts : sequence of (str, str)
        Names of sketches, and what to write below each.

    Returns
    -------
    str
        One ``<svg>`` element, `theme.CHART_PX` units wide.

    Examples
    --------
    >>> 'viewBox="0 0 280 ' in tiles([("pest_egg_dome", "a dome"), ("pest_egg_tall", "tall")])
    True
    """
    across = IN_A_ROW if len(parts) > 1 else 1
    wide = theme.CHART_PX / across
    high = TILE_PX[1] * wide / TILE_PX[0]
    drawn, top = [], 0.0
    for first in range(0, len(parts), across):
        row = parts[first : first + across]
        lines = [wrap(words, int((wide - 8) / theme.text_px("n"))) for _, words in row]
        for place, (name, _) in enumerate(row):
            left, own = place * wide, lines[place]
            box = f'<svg x="{left:g}" y="{top:g}" width="{wide:g}" height="{high:g}" '
            drawn.append(sketch(name).replace("<svg ", box, 1))
            drawn += [_line(left + wide / 2, top + high + LINE_PX * (n + 0.8), line) for n, line in enumerate(own)]
        top += high + LINE_PX * max(map(len, lines)) + 8
    head = f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {theme.CHART_PX} {top:g}"'
    letters = f'font-family="{theme.FONT_STACK}" font-size="{theme.LETTER_PX}" fill="{theme.INK}"'
    return f'{head} {letters} text-anchor="middle">{"".join(drawn)}</svg>'


def _line(across: float, down: float, words: str) -> str:
    return f'<text x="{across:g}" y="{down:g}">{escape(words)}</text>'
