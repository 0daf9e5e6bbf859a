"""Altair, imported without a grammar of web addresses that no chart uses.

Altair checks its specs with jsonschema.  Where jupyter-events has brought the
extras of jsonschema, that import builds a grammar of internationalised web
addresses (``rfc3987_syntax``), which takes about two thirds of the whole time.
jsonschema leaves the check out when the module cannot be imported, so it is
hidden while Altair is imported and given back after.  A test fails once the
grammar is no longer built, and this module can go then.
"""

import sys

_NAME = "rfc3987_syntax"
_hide = "altair" not in sys.modules and _NAME not in sys.modules
if _hide:
    sys.modules[_NAME] = None  # type: ignore[assignment]
try:
    import altair as alt
finally:
    if _hide:
        del sys.modules[_NAME]

__all__ = ["alt"]
