"""Plant families, and the diseases of each for which years of rotation are published."""

from __future__ import annotations

from gardenlib.problems import InputProblem
from gardenlib.tables.loader import rows


def families() -> list[str]:
    """List the plant families of the crop table.

    Returns
    -------
    list of str
        Their botanical names.

    Notes
    -----
    Source: the rows of the table ``crops``.

    Examples
    --------
    >>> "Brassicaceae" in families()
    True
    """
    return sorted({row["family"] for row in rows("crops")})


def diseases(family: str) -> list[str]:
    """List the diseases of a family for which years are published.

    Parameters
    ----------
    family : str
        A family of the crop table.

    Returns
    -------
    list of str
        Short names, as `rotation_of` takes them.

    Raises
    ------
    InputProblem
        When there is no such family.

    Notes
    -----
    Source: University of Connecticut, rotation periods, rows of the table ``rotation``.

    Examples
    --------
    >>> diseases("Brassicaceae")[0]
    'clubroot'
    """
    own = checked_family(family)
    return [row["what"] for row in rows("rotation") if row["family"] == own and row["kind"] == "disease"]


def plain(name: str) -> str:
    """Write a name so that blanks and capitals do not matter."""
    return name.strip().casefold()


def checked_family(family: str) -> str:
    """Find the family as the tables write it, or refuse it."""
    found = {plain(known): known for known in families()}.get(plain(str(family)))
    if found is None:
        raise InputProblem("rotation.family", value=str(family), known=", ".join(families()))
    return found
