"""The table for the coordinator, as rows and as a file for a spreadsheet."""

from __future__ import annotations

import csv
import io
from dataclasses import dataclass

from gardenlib.words import Said, Voice
from gardenlib.working import Answer

_FORMULA = ("=", "+", "-", "@", "\t", "\r")
_COLUMNS = ("what", "which", "number", "unit")


@dataclass(frozen=True, kw_only=True)
class ClassCounts(Answer):
    """What the coordinator gets, and what the instructor should know of it.

    Parameters
    ----------
    cells : tuple of (str, str, str, str)
        Rows of the table: what, which, number, unit; no names, no free text, no place.
    left_out : tuple of Said
        Files that were skipped, by name and with the reason.  They are for the instructor and not in the table.
    """

    cells: tuple[tuple[str, str, str, str], ...]
    left_out: tuple[Said, ...]

    def csv(self, voice: Voice | None = None) -> str:
        """Write the table for a spreadsheet.

        Parameters
        ----------
        voice : Voice, optional
            Language of the column names.

        Returns
        -------
        str
            The CSV text (RFC 4180); a cell that could be read as a formula begins with an apostrophe.
        """
        say = (voice or Voice()).say
        written = io.StringIO()
        writer = csv.writer(written)
        writer.writerow([_harmless(say(f"coord.column_{name}")) for name in _COLUMNS])
        writer.writerows([_harmless(cell) for cell in row] for row in self.cells)
        return written.getvalue()


def _harmless(cell: str) -> str:
    return f"'{cell}" if cell.startswith(_FORMULA) else cell
