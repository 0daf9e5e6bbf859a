"""The few controls that pages use, each with its label, large enough for a thumb."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from html import escape
from typing import Any

import ipywidgets as w

# An empty tooltip, since without one a mouse over the label is told "null".
_LABEL: dict[str, Any] = {"style": {"description_width": "initial"}, "tooltip": ""}


def text(words: str, kind: str = "p") -> w.HTML:
    """Show words as they are, never as HTML.

    Parameters
    ----------
    words : str
        What to show; paragraphs are parted by an empty line.
    kind : str
        A class name of the page's style sheet: ``p``, ``note``, ``caution``, ``again``, ``good``, ``head``.

    Returns
    -------
    ipywidgets.HTML
        The words, escaped.

    Examples
    --------
    >>> text("2 < 3").value
    '<div class="gl-p"><p>2 &lt; 3</p></div>'
    """
    return w.HTML(html(words, kind))


def html(words: str, kind: str = "p") -> str:
    """Write words as escaped HTML paragraphs of one kind."""
    role = ' role="status"' if kind in {"again", "good", "saved"} else ""
    inner = "".join(f"<p>{escape(part)}</p>" for part in words.split("\n\n") if part)
    return f'<div class="gl-{kind}"{role}>{inner}</div>' if inner else ""


def choice(label: str, options: Sequence[tuple[str, Any]], value: Any = None) -> w.Dropdown:
    """Offer a list to choose one from."""
    return w.Dropdown(options=list(options), value=value, description=label, **_LABEL)


def one_of(label: str, options: Sequence[tuple[str, Any]], value: Any = None) -> w.RadioButtons:
    """Offer a few answers to choose one from, all in sight."""
    return w.RadioButtons(options=list(options), value=value, description=label, **_LABEL)


def whole_number(label: str, low: int, high: int, value: int) -> w.BoundedIntText:
    """Ask for a whole number."""
    return w.BoundedIntText(value=value, min=low, max=high, description=label, **_LABEL)


def number(label: str, low: float, high: float, value: float, step: float = 0.5) -> w.BoundedFloatText:
    """Ask for a number."""
    return w.BoundedFloatText(value=value, min=low, max=high, step=step, description=label, **_LABEL)


def line(label: str, value: str = "", hint: str = "") -> w.Text:
    """Ask for a few words, or a date typed as words."""
    return w.Text(value=value, placeholder=hint, description=label, **_LABEL, continuous_update=False)


def button(label: str, action: Callable[[], None]) -> w.Button:
    """Make a button that does one thing."""
    made = w.Button(description=label)
    made.on_click(lambda _: action())
    return made


def put_back(control: w.Widget | None, value: Any) -> None:
    """Give a control its earlier value if it can still hold it."""
    if control is None:
        return
    options = getattr(control, "options", None)
    if options is not None and value not in [option[1] if isinstance(option, tuple) else option for option in options]:
        return
    control.value = value


class Fold(w.VBox):  # type: ignore[misc]
    """A closed part of a page, built when it is first opened."""

    def __init__(self, label: str, build: Callable[[], w.Widget]) -> None:
        self._build = build
        self.opener = w.ToggleButton(value=False, description=f"+ {label}", tooltip="")
        self._label = label
        self._body = w.VBox([])
        self.opener.observe(self._toggle, "value")
        super().__init__([self.opener, self._body])
        self.add_class("gl-fold")

    def _toggle(self, change: dict[str, Any]) -> None:
        if change["new"] and not self._body.children:
            self._body.children = [self._build()]
        self._body.layout.display = None if change["new"] else "none"
        self.opener.description = f"{'−' if change['new'] else '+'} {self._label}"

    @property
    def is_open(self) -> bool:
        """Tell whether the fold stands open."""
        return bool(self.opener.value)
