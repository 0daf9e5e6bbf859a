"""What grew in a bed, typed in plain words: the plant families of it."""

from __future__ import annotations

import re
from collections.abc import Mapping

from gardenlib.problems import InputProblem

_ENDINGS = ("", "s", "es")


def families_grown(text: str, known: Mapping[str, str]) -> tuple[str, ...]:
    """Find the plant families of the crops that somebody typed.

    Parameters
    ----------
    text : str
        Crops or families, with commas between; may be empty.
    known : mapping of str to str
        Family by name: names of crops as they are read, and of families.

    Returns
    -------
    tuple of str
        Each family once.

    Raises
    ------
    InputProblem
        When a word fits no crop, or crops of more than one family.

    Notes
    -----
    No source is needed: names are compared, whole names before parts, with or without the ending of the plural.

    Examples
    --------
    >>> families_grown("beans and Kale", {"bush bean": "Fabaceae", "kale": "Brassicaceae"})
    ('Fabaceae', 'Brassicaceae')
    >>> families_grown("bean and pea family", {"bean and pea family": "Fabaceae"})
    ('Fabaceae',)
    """
    names = {name.casefold(): family for name, family in known.items()}
    parts = [part.strip().casefold() for part in re.split("[,;]", text)]
    typed = [
        word.strip()
        for part in parts
        for word in ([part] if part in names else re.split(r" (?:and|y) ", part))
        if word.strip()
    ]
    return tuple(dict.fromkeys(_family(word, names) for word in typed))


def _family(word: str, names: Mapping[str, str]) -> str:
    ways = {word.removesuffix(ending) for ending in _ENDINGS}
    whole = {family for name, family in names.items() if name in ways}
    part = {family for name, family in names.items() if ways & set(name.split())}
    found = whole or part
    if len(found) != 1:
        raise InputProblem("rotation.grown_two" if found else "rotation.grown", value=word)
    return found.pop()
