"""Altair, imported the quick way."""

from gardenlib.quick import no_web_grammar

with no_web_grammar():
    import altair as alt

__all__ = ["alt"]
