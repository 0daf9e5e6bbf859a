"""Units as they are typed, in English and the reader's language, and how they are converted."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache

from gardenlib.homework.plain import plain
from gardenlib.units import KG_PER_POUND, LITRES_PER_GALLON, M_PER_FOOT, MM_PER_INCH
from gardenlib.words import texts

_FOOT2 = M_PER_FOOT**2
# Unit name: what it measures, its size in the unit of that kind, and what is added (NIST SP 811, appendix B).
_SIZES: Mapping[str, tuple[str, float, float]] = {
    "mm": ("length", 0.001, 0.0),
    "cm": ("length", 0.01, 0.0),
    "m": ("length", 1.0, 0.0),
    "in": ("length", MM_PER_INCH / 1000, 0.0),
    "ft": ("length", M_PER_FOOT, 0.0),
    "yd": ("length", 3 * M_PER_FOOT, 0.0),
    "g": ("mass", 0.001, 0.0),
    "kg": ("mass", 1.0, 0.0),
    "lb": ("mass", KG_PER_POUND, 0.0),
    "oz": ("mass", KG_PER_POUND / 16, 0.0),
    "m2": ("area", 1.0, 0.0),
    "sq_ft": ("area", _FOOT2, 0.0),
    "m3": ("volume", 1.0, 0.0),
    "cu_ft": ("volume", M_PER_FOOT**3, 0.0),
    "cu_yd": ("volume", 27 * M_PER_FOOT**3, 0.0),
    "litres": ("volume", 0.001, 0.0),
    "gal": ("volume", LITRES_PER_GALLON / 1000, 0.0),
    "quarts": ("volume", LITRES_PER_GALLON / 4000, 0.0),
    "cups": ("volume", LITRES_PER_GALLON / 16000, 0.0),
    "kg_m2": ("mass on area", 1.0, 0.0),
    "g_m2": ("mass on area", 0.001, 0.0),
    "lb_100_sq_ft": ("mass on area", KG_PER_POUND / (100 * _FOOT2), 0.0),
    "lb_1000_sq_ft": ("mass on area", KG_PER_POUND / (1000 * _FOOT2), 0.0),
    "degC": ("temperature", 1.0, 0.0),
    "degF": ("temperature", 1 / 1.8, -32.0),
    "degC_difference": ("difference", 1.0, 0.0),
    "degF_difference": ("difference", 1 / 1.8, 0.0),
    "seconds": ("time", 1 / 3600, 0.0),
    "minutes": ("time", 1 / 60, 0.0),
    "hours": ("time", 1.0, 0.0),
    "days": ("time", 24.0, 0.0),
    "weeks": ("time", 168.0, 0.0),
}
_IN_CLDR = {
    "mm": "length-millimeter",
    "cm": "length-centimeter",
    "m": "length-meter",
    "in": "length-inch",
    "ft": "length-foot",
    "yd": "length-yard",
    "g": "mass-gram",
    "kg": "mass-kilogram",
    "lb": "mass-pound",
    "oz": "mass-ounce",
    "m2": "area-square-meter",
    "sq_ft": "area-square-foot",
    "m3": "volume-cubic-meter",
    "cu_ft": "volume-cubic-foot",
    "cu_yd": "volume-cubic-yard",
    "litres": "volume-liter",
    "gal": "volume-gallon",
    "quarts": "volume-quart",
    "cups": "volume-cup",
    "degC": "temperature-celsius",
    "degF": "temperature-fahrenheit",
    "seconds": "duration-second",
    "minutes": "duration-minute",
    "hours": "duration-hour",
    "days": "duration-day",
    "weeks": "duration-week",
    "months": "duration-month",
    "years": "duration-year",
    "percent": "concentr-percent",
}
# What people write beside what the CLDR and our own pages do.
_BESIDE = {
    name: unit
    for unit, names in {
        "ft": ("'",),
        "in": ('"',),
        "cm": ("cms",),
        "m": ("mt", "mts"),
        "yd": ("yds",),
        "sq_ft": ("sf", "sqft"),
        "m2": ("sq m",),
        "lb": ("lbs",),
        "oz": ("ounces",),
        "g": ("gr", "grs", "gms"),
        "kg": ("kgs", "kilo", "kilos"),
        "litres": ("lt", "lts"),
        "gal": ("gals",),
        "seconds": ("secs",),
        "minutes": ("mins",),
        "hours": ("hrs",),
        "degF": ("f",),
        "degC": ("c", "celsius", "centigrade", "centigrados"),
        "percent": ("pct", "per cent", "por ciento"),
        "seeds": ("seed", "semilla"),
    }.items()
    for name in names
}
_DEGREES = {"degF": ("degF_difference", "degF_days"), "degC": ("degC_difference", "degC_days")}
_ANY_DEGREES = frozenset(("°", "degrees", "deg", "grados"))
_ANY_DEGREE_DAYS = frozenset(("degree days", "degree-days", "dd", "gdd", "grados dia", "grados-dia"))
_RATES = {
    ("lb", "100", "sq_ft"): "lb_100_sq_ft",
    ("lb", "1000", "sq_ft"): "lb_1000_sq_ft",
    ("kg", "", "m2"): "kg_m2",
    ("g", "", "m2"): "g_m2",
}


@cache
def _names(language: str) -> Mapping[str, str]:
    """Give the unit that each typed name means: as the Unicode CLDR writes it, and as our own pages do."""
    from babel.units import format_unit

    found: dict[str, str] = {}
    for lang in dict.fromkeys((language, "en", "es")):
        for key, text in texts(lang).items():
            if key.startswith("unit.") and "{x}" in text:
                found.setdefault(_bare(text.replace("{x}", "")), key.split(".")[1])
        for unit, cldr in _IN_CLDR.items():
            for length in ("long", "short", "narrow"):
                for number in (1, 2):
                    written = plain(str(format_unit(number, cldr, length=length, locale=lang)))
                    found.setdefault(_bare(written.lstrip("012. ")), unit)
    return {**found, **{name: unit for name, unit in _BESIDE.items() if name not in found or len(name) == 1}}


def _bare(name: str) -> str:
    """Write a name of a unit one way: without points, with the American spelling, ``sq`` and ``ft``."""
    bare = re.sub(r"[\s.]+", " ", plain(name).replace("º", "°").replace("^", "").replace("''", '"'))
    bare = re.sub(r"(met|lit)re", r"\1er", re.sub(r"\bfeet\b|\bfoot\b", "ft", bare))
    return re.sub(r"\b(?:deg|degrees|grados) (?!da?y|dia)", "", bare.replace("square ", "sq ")).strip(" .")


def unit_typed(name: str, wanted: str, language: str) -> str | None:
    """Find the unit that a typed name means where `wanted` is asked; None when it is not known."""
    names, bare = _names(language), _bare(name)
    degrees, _, ending = wanted.partition("_")
    if degrees in _DEGREES and bare in (_ANY_DEGREE_DAYS if ending == "days" else _ANY_DEGREES):
        return wanted
    found = names.get(bare) or names.get(bare.replace("°", "° ").replace("  ", " "))
    if found is None and (per := re.fullmatch(r"(.+?) ?(?:/|per|por|cada) ?([\d,]*) ?(.+)", bare)):
        number = "" if per[2] == "1" else per[2].replace(",", "")
        return _RATES.get((names.get(per[1], ""), number, names.get(per[3], "")))
    if found is not None and degrees in _DEGREES:
        same = next((stem for stem, others in _DEGREES.items() if found == stem or found in others), None)
        return f"{same}_{ending}" if same and ending else same
    return found


def converted(value: float, unit: str, wanted: str) -> float | None:
    """Convert a number; None where the two units do not measure the same."""
    if unit == wanted:
        return value
    if {unit, wanted} == {"degC_days", "degF_days"}:
        return value * 1.8 if wanted == "degF_days" else value / 1.8
    if unit not in _SIZES or wanted not in _SIZES or _SIZES[unit][0] != _SIZES[wanted][0]:
        return None
    (_, size, added), (_, size_there, added_there) = _SIZES[unit], _SIZES[wanted]
    return (value + added) * size / size_there - added_there
