"""From a chart to the text of its picture."""

from __future__ import annotations

import re
from datetime import date
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from gardenlib.charts import theme

if TYPE_CHECKING:
    from gardenlib.charts.paper import Drawn, Form

VEGALITE = "6.4"
"""The newest grammar that the drawing library carries; charts use nothing newer."""

_MIDDLE_PX = round(0.3 * theme.LETTER_PX)  # from the middle of a line of words down to where its letters stand
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


def svg(chart: Drawn) -> str:
    """Draw a chart as the text of an SVG that grows with the page.

    Parameters
    ----------
    chart : Drawn
        A chart of this room.

    Returns
    -------
    str
        One ``<svg>`` element.  It holds no ids, so that many may stand on one page.

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

    marks = _marks(chart.form)
    data = [{**one, "values": chart.rows[one["name"]]} if "source" not in one else one for one in marks["data"]]
    text = vl_convert.vega_to_svg({**marks, "height": chart.height, "data": data})
    text = re.sub(r'(<svg [^>]*?) width="[\d.]+" height="[\d.]+"', r"\1", text, count=1)
    text = _ROLES.sub("", text)  # one picture with one text of its own, not a hundred parts
    # A letter's rim is painted before the letter: words stay readable where a line runs behind them.
    text = text.replace("<text ", '<text paint-order="stroke" stroke-linejoin="round" ')
    look = f'font-family="{theme.FONT_STACK}" font-size="{theme.LETTER_PX}px"'
    return text.replace('font-family="sans-serif" font-size="0px"', look)


@lru_cache(maxsize=64)
def _marks(form: Form) -> dict[str, Any]:
    """Work a form out, once, down to the marks of the drawing program.

    The words get no size and the shipped face only when they are drawn: charts place their words themselves, and to
    measure them takes the drawing program three times as long as all the rest.
    """
    import vl_convert

    marks: dict[str, Any] = vl_convert.vegalite_to_vega(form.plain, vl_version=VEGALITE)
    for mark in marks["marks"]:
        if mark["type"] == "text":
            mark["encode"]["update"] |= {"fontSize": {"value": 0}, "dy": {"value": _MIDDLE_PX}}
    return marks
