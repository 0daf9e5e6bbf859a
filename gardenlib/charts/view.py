"""A picture with its finding and numbers, and the one place that shows it."""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Mapping
from dataclasses import dataclass
from html import escape
from typing import TYPE_CHECKING, Any

from gardenlib.charts import theme
from gardenlib.words import Voice

if TYPE_CHECKING:
    import pandas as pd


@dataclass(frozen=True)
class View:
    """What one panel has to say.

    Parameters
    ----------
    finding : str
        The sentence that the picture shows; it is the figure's title.
    table : DataFrame or None
        The numbers behind it, few rows, columns named and values written as people read them.
    chart : str or None
        An SVG made by `svg`.
    alt : str
        The picture in words, for people who do not see it.
    """

    finding: str
    table: pd.DataFrame | None
    chart: str | None
    alt: str


def html(view: View, voice: Voice | None = None) -> str:
    """Write a view as HTML; every word in it is escaped.

    Parameters
    ----------
    view : View
        What to write.
    voice : Voice, optional
        Language of the few words that the figure adds.

    Returns
    -------
    str
        One ``<figure>`` element.

    Examples
    --------
    >>> print(html(View("Beans < peas", None, None, "")))
    <figure class="gl-figure"><figcaption class="gl-finding">Beans &lt; peas</figcaption></figure>
    """
    picture = view.chart and view.chart.replace("<svg ", f'<svg role="img" aria-label="{escape(view.alt)}" ', 1)
    return _figure(view, picture, voice)


def _figure(view: View, picture: str | None, voice: Voice | None) -> str:
    parts = [f'<figcaption class="gl-finding">{escape(view.finding)}</figcaption>']
    if picture:
        parts.append(f'<div class="gl-chart">{picture}</div>')
    if view.table is not None and len(view.table):
        summary = escape((voice or Voice()).say("charts.numbers"))
        numbers = f'<div class="gl-scroll">{_table(view.table)}</div>'
        parts.append(f"<details><summary>{summary}</summary>{numbers}</details>" if picture else numbers)
    return f'<figure class="gl-figure">{"".join(parts)}</figure>'


def words(view: View) -> str:
    """Write a view as plain text: the finding and the small table.

    Parameters
    ----------
    view : View
        What to write.

    Returns
    -------
    str
        The finding and, below it, the numbers.

    Examples
    --------
    >>> print(words(View("Beans come last.", None, None, "")))
    Beans come last.
    """
    if view.table is None or not len(view.table):
        return view.finding
    return f"{view.finding}\n\n{view.table.to_string(index=False)}"


class Shown:
    """What `show` has put on the page, and the way to change what a saved copy keeps of it."""

    def __init__(self, voice: Voice | None) -> None:
        self._voice = voice
        self._handle: Any = None

    def update(self, view: View) -> None:
        """Store another view in the saved copy, in place of the first."""
        stored = _stored(view, self._voice)
        if self._handle is None:
            from IPython.display import display

            self._handle = display(stored, raw=True, display_id=True)
        else:
            self._handle.update(stored, raw=True)


def show(widget: Any, view: View, voice: Voice | None = None) -> Shown:
    """Show a live widget and store its view in words and picture for saved copies.

    Two things are shown one after the other: the widget, and below it the view as it is stored in the page's
    file.  The second is hidden while the widget is live.  It is what is left when the file is opened without
    running: finding, picture and table where the copy is trusted, finding and table where it is not.

    Parameters
    ----------
    widget : ipywidgets widget
        The live panel.
    view : View
        What the panel shows at first.
    voice : Voice, optional
        Language of the few words that the figure adds.

    Returns
    -------
    Shown
        Its ``update(view)`` replaces what is stored; a page calls it when another plot is loaded.
    """
    from IPython.display import display

    live = {"version_major": 2, "version_minor": 0, "model_id": widget.model_id}
    display({"application/vnd.jupyter.widget-view+json": live, "text/plain": ""}, raw=True)
    shown = Shown(voice)
    shown.update(view)
    return shown


# The stored view stays away while a live widget stands before it; the message that a widget is gone stays away too.
# A copy that has not run lacks the page's style sheet, so the little that it needs goes with it.
_AWAY = (
    f"<style>.gl-stored figure{{margin:0}}.gl-stored figcaption{{font-weight:700}}"
    f".gl-stored img{{display:block;width:100%;max-width:{theme.CHART_MAX_PX}px}}"
    ".jp-OutputArea-child:has(.jp-OutputArea-output .jupyter-widgets)+.jp-OutputArea-child:has(.gl-stored),"
    ".jp-OutputArea-child:has(>.jp-OutputArea-output.jupyter-widgets){display:none}</style>"
)


def _stored(view: View, voice: Voice | None) -> Mapping[str, str]:
    """Write a view for the page's file: the picture as an image, which keeps its alt text where images are refused."""
    picture = None
    if view.chart:
        data = b64encode(view.chart.encode()).decode()
        picture = f'<img width="{theme.CHART_MAX_PX}" alt="{escape(view.alt)}" src="data:image/svg+xml;base64,{data}">'
    return {
        "text/html": f'<div class="gl-stored">{_figure(view, picture, voice)}</div>{_AWAY}',
        "text/plain": words(view),
    }


def _table(table: pd.DataFrame) -> str:
    from pandas.api.types import is_numeric_dtype

    kind = [' class="gl-number"' if is_numeric_dtype(table[name]) else "" for name in table]
    head = "".join(f'<th scope="col"{k}>{escape(str(name))}</th>' for name, k in zip(table, kind, strict=True))
    rows = (
        "".join(f"<td{k}>{escape(str(value))}</td>" for value, k in zip(row, kind, strict=True))
        for row in table.itertuples(index=False)
    )
    return f"<table><thead><tr>{head}</tr></thead><tbody>{''.join(f'<tr>{row}</tr>' for row in rows)}</tbody></table>"
