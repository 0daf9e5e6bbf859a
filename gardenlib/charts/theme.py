"""One look for charts and pages: the typeface, the hues and the page's style sheet.

The typeface is Cabin (SIL Open Font License 1.1, see ``fonts/OFL.txt``).  The
two files hold its regular and bold faces cut down to Latin letters.

Each hue means one thing through the whole course.  Beyond the hues there is
only ink on paper: outline, dashes, pattern and words carry every meaning too.
"""

from __future__ import annotations

from base64 import b64encode
from functools import cache
from pathlib import Path

FONT_FOLDER = Path(__file__).parent / "fonts"
FONT_FILES = {400: "Cabin-Regular.ttf", 700: "Cabin-Bold.ttf"}
FONT_NAME = "Cabin"
FONT_STACK = f"{FONT_NAME}, sans-serif"

COLD = "#0072B2"
"""Frost and what it limits."""
GROWING = "#009E73"
"""Plants in the ground."""
HEAT = "#D55E00"
"""Heat and what it limits."""
INK = "#222222"
"""What the learner chose, and all words."""
PAPER = "#FFFFFF"
FAINT = "#D9D9D9"
"""Ticks behind the picture; nothing depends on seeing them."""

CHART_PX = 280
CHART_MAX_PX = 480
PAGE_PX = 680
LETTER_PX = 12

# How wide each letter from space to tilde is set, in hundredths of the letter size, from the two files' own tables.
# fmt: off
_REGULAR = (
    23, 25, 33, 71, 59, 90, 62, 18, 32, 32, 43, 45, 22, 43, 21, 33, 70, 33, 53, 55, 58, 55, 57, 51, 61, 57, 21, 22,
    42, 45, 42, 47, 73, 62, 60, 62, 73, 56, 53, 68, 71, 26, 26, 57, 51, 82, 71, 77, 58, 77, 61, 59, 54, 73, 61, 95,
    60, 57, 55, 33, 31, 33, 52, 57, 47, 48, 56, 46, 56, 52, 34, 50, 55, 22, 22, 45, 24, 88, 56, 55, 56, 56, 32, 42,
    34, 53, 50, 73, 48, 51, 48, 31, 23, 31, 47,
)
_BOLD = (
    23, 25, 36, 71, 58, 92, 63, 19, 33, 33, 44, 45, 24, 42, 23, 36, 71, 37, 53, 54, 63, 54, 57, 51, 61, 57, 23, 23,
    42, 45, 42, 47, 73, 63, 63, 61, 72, 57, 53, 67, 73, 29, 29, 63, 50, 84, 71, 76, 60, 76, 63, 58, 56, 72, 62, 97,
    63, 61, 55, 34, 34, 34, 52, 56, 48, 50, 58, 46, 58, 52, 34, 51, 56, 24, 24, 49, 27, 87, 56, 57, 58, 58, 33, 43,
    35, 56, 50, 73, 50, 54, 48, 34, 23, 34, 47,
)
# fmt: on
_OTHER = 58  # letters with accents, near enough


def text_px(text: str, *, bold: bool = False) -> float:
    """Tell how wide a text is drawn, in pixels of a chart at its own size.

    Parameters
    ----------
    text : str
        One line of text.
    bold : bool
        Whether it is drawn bold.

    Returns
    -------
    float
        Width in pixels, without kerning.

    Examples
    --------
    >>> 85 < text_px("last freeze May 3") < 95
    True
    """
    face = _BOLD if bold else _REGULAR
    places = (ord(letter) - 32 for letter in text)
    return sum(face[place] if place < len(face) else _OTHER for place in places) * LETTER_PX / 100


@cache
def page_css() -> str:
    """Give the style sheet of a page, as one element to put at the page's top.

    Returns
    -------
    str
        A ``<style>`` element; it carries the typeface, so it asks the network for nothing.

    Examples
    --------
    >>> page_css().startswith("<style>")
    True
    """
    faces = "".join(
        f'@font-face{{font-family:"{FONT_NAME}";font-weight:{weight};font-display:swap;'
        f"src:url(data:font/ttf;base64,{b64encode((FONT_FOLDER / name).read_bytes()).decode()}) format('truetype')}}"
        for weight, name in FONT_FILES.items()
    )
    rules = (Path(__file__).parent / "page.css").read_text("utf-8")
    facts = {
        "$INK": INK,
        "$PAPER": PAPER,
        "$COLD": COLD,
        "$GROWING": GROWING,
        "$HEAT": HEAT,
        "$FAINT": FAINT,
        "$FONT": f'"{FONT_NAME}",sans-serif',
        "$PAGE": f"{PAGE_PX}px",
        "$CHART_MAX": f"{CHART_MAX_PX}px",
        "$CHART": f"{CHART_PX}px",
    }
    for name, fact in facts.items():
        rules = rules.replace(name, fact)
    return f"<style>{faces}{rules}</style>"
