"""Our own line drawings: one SVG file each, without words; labels are put in by the caller."""

from __future__ import annotations

import re
from functools import cache
from html import escape
from importlib.resources import files

from gardenlib.charts import theme

_SLOT = re.compile(r"\{(\w+)\}")


def sketch(name: str, **labels: str) -> str:
    """Give one of our drawings as the text of an SVG that grows with the page.

    Parameters
    ----------
    name : str
        Name of a file in ``sketches``, without its ending.
    **labels : str
        The words for the places that the drawing keeps for them, in the reader's language; they are escaped.

    Returns
    -------
    str
        One ``<svg>`` element, `theme.CHART_PX` units wide.

    Raises
    ------
    KeyError
        When a place is left without words.

    Examples
    --------
    >>> sketch("soil_ball").startswith("<svg ")
    True
    """
    hues = {"ink": theme.INK, "paper": theme.PAPER, "faint": theme.FAINT, "font": theme.FONT_STACK}
    hues |= {"cold": theme.COLD, "growing": theme.GROWING, "heat": theme.HEAT}
    words = {**{key: escape(text) for key, text in labels.items()}, **hues}
    return _SLOT.sub(lambda found: words[found[1]], _drawn(name))


@cache
def _drawn(name: str) -> str:
    return (files(__package__) / "sketches" / f"{name}.svg").read_text("utf-8").strip()
