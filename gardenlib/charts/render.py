"""From a chart to the text of its picture."""

from __future__ import annotations

import re
from datetime import date
from typing import Any
from uuid import uuid4

from gardenlib.charts import theme

VEGALITE = "6.4"
"""The newest grammar that the drawing library carries; charts use nothing newer."""

_ID = re.compile(r'(\bid="|url\(#|href="#)([^")]+)')
_ROLES = re.compile(r' (?:role|aria-[a-z]+)="[^"]*"')


def day(when: date) -> str:
    """Write a date so that a chart draws it on that day in every time zone.

    A date without a time is read as midnight in Greenwich and drawn one day
    early west of it; with a time and no zone it is local everywhere.

    Parameters
    ----------
    when : date
        A date, or a timestamp whose time of day is left out.

    Returns
    -------
    str
        The date and midnight, without a zone.

    Examples
    --------
    >>> day(date(2027, 3, 1))
    '2027-03-01T00:00:00'
    """
    return f"{when:%Y-%m-%d}T00:00:00"


def svg(chart: Any) -> str:
    """Draw a chart as the text of an SVG that grows with the page.

    Parameters
    ----------
    chart : altair chart
        A chart of this room, or any other.

    Returns
    -------
    str
        One ``<svg>`` element.  Its ids are its own, so that many may stand on one page.

    Examples
    --------
    >>> from gardenlib.charts.drawing import Drawing
    >>> drawing = Drawing(date(2027, 1, 1), date(2027, 12, 31))
    >>> drawing.dot((date(2027, 3, 1), 20), "#222222")
    >>> picture = svg(drawing.chart(40))
    >>> picture[:5], 'viewBox="0 0 280 40"' in picture
    ('<svg ', True)
    """
    import vl_convert

    text = vl_convert.vegalite_to_svg(chart.to_dict(validate=False), vl_version=VEGALITE)
    text = re.sub(r'(<svg [^>]*?) width="[\d.]+" height="[\d.]+"', r"\1", text, count=1)
    text = _ROLES.sub("", text)  # one picture with one text of its own, not a hundred parts
    # A letter's rim is painted before the letter: words stay readable where a line runs behind them.
    text = text.replace("<text ", '<text paint-order="stroke" stroke-linejoin="round" ')
    # The face is named last: charts place their words themselves, and to look up a face costs more than to draw.
    text = text.replace('font-family="sans-serif"', f'font-family="{theme.FONT_STACK}"')
    return _ID.sub(rf"\g<1>g{uuid4().hex[:8]}-\g<2>", text)
