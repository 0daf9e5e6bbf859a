"""The pages and the demo class that travel with the library."""

from __future__ import annotations

from pathlib import Path

INSTRUCTOR = "instructor"
"""The folder of the instructor's pages, among the pages that travel and in a working folder."""
_HERE = Path(__file__).parent


def carried(name: str) -> Path:
    """Find a folder that travels with the library: in an installed wheel inside it, in a clone beside it.

    Parameters
    ----------
    name : {"notebooks", "data_demo"}
        Which folder.

    Returns
    -------
    Path
        The folder.

    Examples
    --------
    >>> carried("notebooks").name
    'notebooks'
    """
    inside = _HERE / "_carried" / name
    return inside if inside.is_dir() else _HERE.parent / name
