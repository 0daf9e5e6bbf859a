"""What a sheet's numbers come from: the class bed, one learner's plot, or one plot for two."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from hashlib import blake2b
from typing import Literal, TypeVar

from gardenlib.class_folder import ClassFolder
from gardenlib.plot import Bed, Plot
from gardenlib.site import Place
from gardenlib.tables import Crop
from gardenlib.words import Voice

SheetKind = Literal["class", "plot", "pair"]
Drawn = TypeVar("Drawn")


@dataclass(frozen=True, kw_only=True)
class Ground:
    """What a sheet's numbers come from.

    Parameters
    ----------
    code : str
        Code of the sheet; the same code draws the same numbers.
    kind : {"class", "plot", "pair"}
        Whose plot it is.
    voice : Voice
        How the reader is spoken to.
    year : int
        The calendar year of the spring that is planned.
    place : Place
        What is known of the place; ``place.freezes`` and ``place.station`` may be None.
    klass : ClassFolder
        The class.
    plot : Plot
        The plot: the learner's, or the class's where there is none.
    bed : Bed
        The bed, with its length and width.
    crops : tuple of Crop
        What is grown, the reader's own first, never empty.
    """

    code: str
    kind: SheetKind
    voice: Voice
    year: int
    place: Place
    klass: ClassFolder
    plot: Plot
    bed: Bed
    crops: tuple[Crop, ...]

    def draw(self, name: str, values: Sequence[Drawn]) -> Drawn:
        """Draw one value; the same sheet code and name draw the same one on every machine."""
        mark = blake2b(f"{self.code}|{name}".encode(), digest_size=8).digest()
        return values[int.from_bytes(mark, "big") % len(values)]
