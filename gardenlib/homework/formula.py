"""A formula in the reader's language: the names of what goes in, and what is done with the outcome."""

from __future__ import annotations

import re

from gardenlib.words import Voice

# What stands in a formula as it is; longer ones first.
_PHRASES = (
    *("full dots among the last seasons", "class whose rule fits all three", "zone holding the mean"),
    *("on = day it goes out", "lowest to highest", "as printed", "latest of"),
    *("rounded down", "rounded up", "rounded", "end by end", "at least 0"),
)
_NAMES = re.compile("|".join((*map(re.escape, _PHRASES), r"[A-Za-z_]\w*")))


def named(formula: str, voice: Voice) -> str:
    """Write a formula, or one name of it, in the reader's words; a name without words is printed as it is."""
    return _NAMES.sub(lambda found: _words(found[0], voice), with_signs(formula))


def with_signs(formula: str) -> str:
    """Write the signs of a formula as they are taught."""
    return formula.replace(" * ", " × ")


def words_key(name: str) -> str:
    """Give the key of a name's words."""
    plain = re.sub(r"\W+", "_", name)
    return f"formula.{plain}"


def _words(name: str, voice: Voice) -> str:
    return voice.say(words_key(name)) if voice.has(words_key(name)) else name.replace("_", " ")
