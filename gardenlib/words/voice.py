"""Sentences by key, with dates, numbers and units as the language and class write them."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from functools import cache
from importlib.resources import files
from types import MappingProxyType
from typing import Any

from gardenlib.units import Quantity, Range, System, in_system


@dataclass(frozen=True)
class Said:
    """A sentence that will be spoken later: its key and what it names."""

    key: str
    values: Mapping[str, Any] = field(default_factory=dict)

    def __str__(self) -> str:
        return Voice().say(self)


@cache
def languages() -> tuple[str, ...]:
    """List the languages that have a folder of words, English first."""
    names = sorted(f.name for f in files(__package__).iterdir() if f.is_dir() and not f.name.startswith("_"))
    return tuple(sorted(names, key=lambda name: name != "en"))


@cache
def texts(language: str) -> Mapping[str, str]:
    """Read a language's files, one a room, as one flat table of key and text; no key stands in two files."""
    found: dict[str, str] = {}
    for file in files(__package__).joinpath(language).iterdir():
        if file.name.endswith(".toml"):
            own = dict(_flat(tomllib.loads(file.read_text("utf-8"))))
            if twice := found.keys() & own.keys():
                raise ValueError(f"{language}/{file.name} repeats {', '.join(sorted(twice))}")
            found |= own
    return MappingProxyType(found)


def _flat(tree: Mapping[str, Any], stem: str = "") -> Any:
    for name, value in tree.items():
        if isinstance(value, dict):
            yield from _flat(value, f"{stem}{name}.")
        else:
            yield stem + name, value


@dataclass(frozen=True)
class Voice:
    """How one class is spoken to: language, unit system and its own words.

    Parameters
    ----------
    language : str
        A language of `languages()`.
    units : {"us", "metric"}
        Which units are read.
    local : mapping of str to str
        A class's own sentences by key, used in place of ours.

    Examples
    --------
    >>> Voice().quantity(Quantity(0.0, "degC"))
    '32 °F'
    >>> Voice(units="metric").date(date(2027, 4, 5))
    'April 5'
    """

    language: str = "en"
    units: System = "us"
    local: Mapping[str, str] = field(default_factory=dict)

    def say(self, what: str | Said, **values: Any) -> str:
        """Speak the sentence with this key; a value named ``n`` chooses one or many."""
        key, values = (what.key, {**what.values, **values}) if isinstance(what, Said) else (what, values)
        text = self._text(key, values.get("n"))
        spoken = text.format(**{name: self.value(value) for name, value in values.items()})
        # A crop's name is written small; at the head of a sentence it is written large.
        opens = text.startswith("{crop}") and spoken.endswith((".", "?", "!"))
        return spoken[:1].upper() + spoken[1:] if opens else spoken

    def has(self, key: str) -> bool:
        """Tell whether there is a sentence with this key."""
        return any(key in table for table in self._tables)

    @property
    def _tables(self) -> tuple[Mapping[str, str], ...]:
        """The class's own sentences, then the language's, then English for a part that is not translated."""
        own = texts(self.language)
        return (self.local, own) if self.language == "en" else (self.local, own, texts("en"))

    def _text(self, key: str, count: Any) -> str:
        for table in self._tables:
            if key in table:
                return table[key]
            if other := table.get(f"{key}.other"):
                form = self._locale.plural_form(count) if isinstance(count, int | float) else "other"
                return table.get(f"{key}.{form}", other)
        raise KeyError(key)

    @property
    def _locale(self) -> Any:
        from babel import Locale

        return Locale.parse(_WRITTEN_AS.get(self.language, self.language))

    def value(self, value: Any) -> str:
        """Write one value as a reader expects it."""
        if isinstance(value, Said):
            return self.say(value)
        if isinstance(value, Quantity):
            return self.quantity(value)
        if isinstance(value, Range):
            return self.range(value)
        if isinstance(value, date):
            return self.date(value)
        if isinstance(value, float):
            return self.number(value)
        return str(value)

    def number(self, value: float, places: int = 1, *, thousands: bool = True) -> str:
        """Write a number with at most `places` decimals, its thousands set apart unless it is to be typed again."""
        from babel.numbers import format_decimal

        if abs(value) <= 0.5 * 10.0**-places:
            value = 0.0  # and never -0
        pattern = ("#,##0" if thousands else "0") + ("." + "#" * places if places else "")
        return str(format_decimal(value, pattern, locale=self._locale))

    def quantity(self, quantity: Quantity, places: int | None = None) -> str:
        """Write a quantity in the class's units."""
        value, unit = in_system(quantity.value, quantity.unit, self.units)
        decimals = _PLACES.get(unit, 1) if places is None else places
        return self.say(f"unit.{unit}", x=self.number(value, decimals), n=_counted(value, decimals))

    def range(self, span: Range, places: int | None = None) -> str:
        """Write a range in the class's units, once when both ends read the same."""
        low, unit = in_system(span.low, span.unit, self.units)
        high, _ = in_system(span.high, span.unit, self.units)
        decimals = _PLACES.get(unit, 1) if places is None else places
        first, last = self.number(low, decimals), self.number(high, decimals)
        both = first if first == last else self.say("unit.between", low=first, high=last)
        return self.say(f"unit.{unit}", x=both, n=_counted(high, decimals))

    def month(self, day: date) -> str:
        """Write the name of a date's month."""
        from babel.dates import format_date

        return str(format_date(day, "LLLL", locale=self._locale))

    def days(self, first: date, last: date) -> str:
        """Write the first and last day of a span, as short as the language does; one day where they are the same."""
        from babel.dates import format_interval

        if first == last:
            return self.date(first, "MMMd")
        return str(format_interval(first, last, "MMMd", locale=self._locale)).replace("\u2009", "")

    def date(self, day: date, form: str = "MMMMd") -> str:
        """Write a date with its month in letters; `form` is a Unicode date skeleton."""
        from babel.dates import format_skeleton

        return str(format_skeleton(form, day, locale=self._locale))


def _counted(value: float, places: int) -> float:
    """Give the number as it is written, whole where it is written whole: it chooses between one and many."""
    shown = round(float(value), places)
    return int(shown) if shown.is_integer() else shown


# Spanish as it is written in the Americas: a point before the decimals (Unicode CLDR, es_419).
_WRITTEN_AS = {"es": "es_419"}
_PLACES = {"degF": 0, "degC": 1, "degF_days": 0, "degC_days": 0, "days": 0, "hours": 1, "kg_m2": 3, "m3": 2}
