"""A class on phones: the pages served from one laptop, without internet.

`serve_class` is what the command calls; `visitor` is what a served page asks in its kernel.
"""

from typing import TYPE_CHECKING

from gardenlib.lazy import attach

if TYPE_CHECKING:
    from gardenlib.serving.command import serve_class
    from gardenlib.serving.whose import visitor

PORT, PLACES = 8700, 30

__all__ = ["serve_class", "visitor"]

_HOME = {"serve_class": "command", "visitor": "whose"}
__getattr__, __dir__ = attach(__name__, _HOME)
