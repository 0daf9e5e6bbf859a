"""Importing without a grammar of web addresses that nothing here uses."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager

_NAME = "rfc3987_syntax"


@contextmanager
def no_web_grammar() -> Iterator[None]:
    """Import what brings jsonschema in a third of the time.

    Altair checks its specs with jsonschema, and servers the names of their events.  Where
    jupyter-events has brought the extras of jsonschema, that import builds a grammar of
    internationalised web addresses, which takes seconds.  jsonschema leaves the check out when the
    module cannot be imported, so it is hidden meanwhile and given back after.  A test fails once
    the grammar is no longer built, and this module can go then.
    """
    hide = "jsonschema" not in sys.modules and _NAME not in sys.modules
    if hide:
        sys.modules[_NAME] = None  # type: ignore[assignment]
    try:
        yield
    finally:
        if hide:
            del sys.modules[_NAME]
