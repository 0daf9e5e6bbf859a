"""Reading and saving plot files so that nothing saved is lost."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from pydantic import ValidationError
from pydantic_core import PydanticSerializationError, from_json, to_jsonable_python

from gardenlib.plot.disk import LARGEST_BYTES, backup, beside, bytes_of, free_name, locked, put, put_save
from gardenlib.plot.model import BY_ENTRY, HISTORY_KEPT, SECTIONS, VERSION, Plot
from gardenlib.problems import InputProblem
from gardenlib.words import Said

_MEND = {
    "less_than_equal": ("plot.mend.at_most", "le"),
    "less_than": ("plot.mend.below", "lt"),
    "greater_than_equal": ("plot.mend.at_least", "ge"),
    "greater_than": ("plot.mend.above", "gt"),
    "string_too_long": ("plot.mend.shorter", "max_length"),
    "too_long": ("plot.mend.fewer", "max_length"),
    "id_twice": ("plot.mend.once", ""),
}


def empty() -> Plot:
    """Make a plot in which nothing is filled in, without a file.

    Returns
    -------
    Plot
        The empty plot, revision 0.

    Examples
    --------
    >>> empty().household.eat
    ()
    """
    return Plot()


def new(path: str | Path) -> Plot:
    """Make an empty plot file.

    Parameters
    ----------
    path : str or Path
        Where; a folder that is missing is made.

    Returns
    -------
    Plot
        The empty plot as it was written.

    Raises
    ------
    InputProblem
        When there is a file already, or the folder cannot be written.
    """
    path = Path(path)
    with locked(path):
        if path.exists():
            raise InputProblem("plot.exists", file=path.name)
        plot = empty()
        _save(path, plot)
    return plot


def read(path: str | Path) -> Plot:
    """Read a plot file; a damaged one is set aside and the last good copy is used.

    Parameters
    ----------
    path : str or Path
        The plot file.

    Returns
    -------
    Plot
        What the file holds; `notes` says when something had to be mended, and `read_only` when a
        later version of the workbook wrote it.

    Raises
    ------
    InputProblem
        When there is no file, or it is damaged and the folder cannot be written.
    """
    path = Path(path)
    try:
        return _parse(bytes_of(path))
    except ValueError as problem:
        if isinstance(problem, InputProblem):
            raise
    with locked(path):
        return _read_or_recover(path)


def update(path: str | Path, section: str, value: Any, *, seen_revision: int) -> Plot:
    """Save one section of a plot file; what other pages saved meanwhile stays.

    Parameters
    ----------
    path : str or Path
        The plot file.
    section : str
        site, soil, beds, plantings, household, log, answers or guesses.
    value : object
        The new section.  For answers and guesses: the entries to save by the id of their question;
        entries that are not named stay as they are.
    seen_revision : int
        Revision of the plot that the page showed.  Where the same section (or entry) was saved after
        it, the earlier value is kept in ``history``, which holds the newest 30.

    Returns
    -------
    Plot
        The whole plot as it stands after the save.

    Raises
    ------
    InputProblem
        When the value cannot be kept in the section, there is no file, another program holds it, a
        later version wrote it, or the folder cannot be written.  The file is then as it was.
    """
    path = Path(path)
    if section not in SECTIONS:
        raise InputProblem("plot.section", section=section, sections=", ".join(SECTIONS))
    with locked(path):
        before = _read_or_recover(path)
        if before.read_only:
            raise InputProblem("plot.newer", file=path.name, version=before.version, known=VERSION)
        after = _changed(path, before, section, value, seen_revision)
        _save(path, after)
    after._notes = before.notes
    return after


def start_over(path: str | Path) -> Path:
    """Begin with an empty plot; the file as it was is kept beside it.

    Parameters
    ----------
    path : str or Path
        The plot file.

    Returns
    -------
    Path
        The copy, such as ``my_plot.kept-1.json``.

    Raises
    ------
    InputProblem
        When there is no file or the folder cannot be written.
    """
    path = Path(path)
    with locked(path):
        old = bytes_of(path)
        copy = free_name(path, "kept")
        put(copy, old)
        revision = _read_or_recover(path).revision + 1
        _save(path, Plot(revision=revision, section_revisions=dict.fromkeys(SECTIONS, revision)))
    return copy


# ---- one section ---------------------------------------------------------------------------


def _changed(path: Path, before: Plot, section: str, value: Any, seen_revision: int) -> Plot:
    tree = before.model_dump(mode="json")
    revision = before.revision + 1
    given = _plain(path, section, value)
    if section in BY_ENTRY and not isinstance(given, dict):
        raise InputProblem("plot.entries", section=section)
    changes = given.items() if section in BY_ENTRY else [(None, given)]
    for entry, wanted in changes:
        name = section if entry is None else f"{section}/{entry}"
        saved = tree["section_revisions"].get(name, tree["section_revisions"].get(section, 0))
        old = tree[section] if entry is None else tree[section].get(entry)
        unseen = saved > seen_revision or (saved > 0 and seen_revision > before.revision)
        if unseen and old is not None and old != wanted:
            tree["history"].append({"section": section, "entry": entry, "revision": saved, "value": old})
        if entry is None:
            tree[section] = wanted
        else:
            tree[section][entry] = wanted
        tree["section_revisions"][name] = revision
    tree["history"] = tree["history"][-HISTORY_KEPT:]
    tree["revision"] = revision
    try:
        return Plot.model_validate(tree)
    except ValidationError as refusal:
        raise _explained(path, refusal) from None


def _plain(path: Path, section: str, value: Any) -> Any:
    try:
        return json.loads(json.dumps(to_jsonable_python(value), allow_nan=False, ensure_ascii=False).encode().decode())
    except (PydanticSerializationError, TypeError, ValueError):
        mend = Said("plot.mend.kind")
        raise InputProblem("plot.value", file=path.name, part=section, value=_short(value), mend=mend) from None


def _explained(path: Path, refusal: ValidationError) -> InputProblem:
    error = refusal.errors()[0]
    key, limit = _MEND.get(error["type"], ("plot.mend.kind", ""))
    mend = Said(key, {"limit": error.get("ctx", {}).get(limit)})
    part = ", ".join(str(place + 1) if isinstance(place, int) else place for place in error["loc"])
    return InputProblem("plot.value", file=path.name, part=part, value=_short(error["input"]), mend=mend)


def _short(value: Any) -> str:
    text = str(value)
    return text if len(text) <= 60 else f"{text[:57]}..."


# ---- the file ------------------------------------------------------------------------------


def _parse(data: bytes) -> Plot:
    try:
        return Plot.model_validate_json(data)
    except ValidationError as refusal:
        tree = from_json(data)
        if not (isinstance(tree, dict) and isinstance(tree.get("version"), int) and tree["version"] > VERSION):
            raise
        unknown_form = {error["loc"][0] for error in refusal.errors() if error["loc"]}
        return Plot.model_validate({name: part for name, part in tree.items() if name not in unknown_form})


def _read_or_recover(path: Path) -> Plot:
    data = bytes_of(path)
    try:
        return _parse(data)
    except ValueError:
        aside = free_name(path, "damaged")
    put(aside, data)
    for copy in (beside(path, "last"), backup(path)):
        try:
            plot = _parse(copy.read_bytes())
        except (OSError, ValueError):
            continue
        note = Said("plot.recovered", {"file": path.name, "aside": aside.name})
        break
    else:
        plot = empty()
        note = Said("plot.not_recovered", {"file": path.name, "aside": aside.name})
    put(path, _written(plot))
    plot._notes = (note,)
    return plot


def _save(path: Path, plot: Plot) -> None:
    data = _written(plot)
    if len(data) > LARGEST_BYTES:
        raise InputProblem("plot.too_large", file=path.name)
    put_save(path, data)


def _written(plot: Plot) -> bytes:
    return plot.model_dump_json(indent=1).encode() + b"\n"
