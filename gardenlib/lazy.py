"""Rooms that load a module only when one of its names is first used (PEP 562)."""

from __future__ import annotations

import ast
from collections.abc import Callable, Mapping
from importlib import import_module
from pathlib import Path
from typing import Any


def homes_in(file: str) -> dict[str, str]:
    """Read which module of a room holds each public name, from the imports that stand there for the type checker.

    Parameters
    ----------
    file : str
        The room's own ``__file__``.

    Returns
    -------
    dict of str to str
        Each name and its module, as `attach` takes them.

    Examples
    --------
    >>> from gardenlib import tables
    >>> homes_in(tables.__file__)["table"]
    'loader'
    """
    tree = ast.parse(Path(file).read_text("utf-8"))
    guarded = [node for part in tree.body if isinstance(part, ast.If) for node in part.body]
    imports = [node for node in guarded if isinstance(node, ast.ImportFrom)]
    return {alias.name: str(node.module).rpartition(".")[2] for node in imports for alias in node.names}


def attach(package: str, homes: Mapping[str, str]) -> tuple[Callable[[str], Any], Callable[[], list[str]]]:
    """Make ``__getattr__`` and ``__dir__`` of a package from the homes of its public names.

    Parameters
    ----------
    package : str
        The package's own ``__name__``.
    homes : mapping of str to str
        Each public name and the module that holds it; an empty home means that the name is a module itself.

    Returns
    -------
    tuple of (callable, callable)
        The two functions.

    Examples
    --------
    >>> find, names = attach("gardenlib", {"f_to_c": "units", "units": ""})
    >>> find("f_to_c")(212.0), names()
    (100.0, ['f_to_c', 'units'])
    """

    def find(name: str) -> Any:
        if name not in homes:
            raise AttributeError(f"module {package!r} has no attribute {name!r}")
        module = import_module(f"{package}.{homes[name] or name}")
        return getattr(module, name) if homes[name] else module

    def names() -> list[str]:
        return sorted(homes)

    return find, names
