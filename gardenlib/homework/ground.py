"""What a sheet's numbers come from: the class bed, one learner's plot, or one plot for two."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from hashlib import blake2b
from pathlib import Path
from typing import Literal, TypeVar

from gardenlib import tables
from gardenlib.class_folder import ClassFolder, Learner, PlotRow
from gardenlib.class_folder.model import CLASS_PLOT
from gardenlib.learner_place import place_of
from gardenlib.plot import Bed, Plot, Site
from gardenlib.problems import InputProblem
from gardenlib.site import Place
from gardenlib.tables import Crop
from gardenlib.words import Voice, languages

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


class Places:
    """What is known of the places of one class: gathered once each, for all sheets of a pack."""

    def __init__(self) -> None:
        self._known: dict[tuple[str, str, Path], Place] = {}

    def find(self, klass: ClassFolder, name: str, site: Site, folder: Path) -> Place:
        """Give what is known of a place."""
        key = name, site.model_dump_json(), folder
        if key not in self._known:
            self._known[key] = place_of(klass, name, site, folder)
        return self._known[key]


def ground_for(
    klass: ClassFolder,
    *,
    learner: Learner | None = None,
    plot: Plot | None = None,
    kind: SheetKind = "class",
    code: str,
    year: int,
    voice: Voice | None = None,
    folder: Path | None = None,
    places: Places | None = None,
) -> Ground:
    """Gather what a sheet's numbers come from.

    Parameters
    ----------
    klass : ClassFolder
        The class.
    learner : Learner, optional
        Whose sheet it is.
    plot : Plot, optional
        The learner's plot file, read; a class sheet leaves it aside.
    kind : {"class", "plot", "pair"}
        Whose numbers: the class bed's, the learner's own, or one plot's for two.
    code : str
        Code of the sheet.
    year : int
        The calendar year of the spring that is planned.
    voice : Voice, optional
        How the reader is spoken to; by the plot, the learner and the class where it is not given.
    folder : Path, optional
        The learner's folder, in which own station files lie.
    places : Places, optional
        What was gathered for other sheets of the class.

    Returns
    -------
    Ground
        With the plot's first measured bed, else the learner's row of ``plots.csv``, else the class bed.

    Raises
    ------
    InputProblem
        When no bed was measured, no crop is known, or a file of the place cannot be used.
    """
    own = None if kind == "class" else plot
    row = klass.plots.get(learner.plot) if learner is not None and kind != "class" else None
    class_row = klass.plots.get(klass.class_bed)
    bed = _bed(own, row, class_row)
    eaten = [] if own is None else [item.crop for item in own.household.eat if item.crop]
    crops = tuple(_crop(klass, crop_id) for crop_id in dict.fromkeys(eaten)) or class_crops(klass)
    if bed is None or not crops or not klass.sites:
        raise InputProblem("homework.no_bed" if bed is None else "homework.no_crops")
    site = own.site if own is not None else Site() if row is not None else klass.class_plot.site
    named = (site.name, *(place.site for place in (row, class_row) if place is not None), next(iter(klass.sites)))
    return Ground(
        code=code,
        kind=kind,
        voice=voice or _voice(klass, learner, plot),
        year=year,
        place=(places or Places()).find(
            klass, next(name for name in named if name and name in klass.sites), site, folder or klass.folder
        ),
        klass=klass,
        plot=own or klass.class_plot,
        bed=bed,
        crops=crops,
    )


def class_crops(klass: ClassFolder) -> tuple[Crop, ...]:
    """Give the crops of the class bed, else those that the class's settings name."""
    grown = [item.crop for item in klass.class_plot.household.eat if item.crop]
    file = CLASS_PLOT if (klass.folder / CLASS_PLOT).exists() else "class.toml"
    try:
        return tuple(_crop(klass, crop_id) for crop_id in dict.fromkeys(grown or klass.crop_ids))
    except InputProblem as problem:
        raise InputProblem("homework.class_crop", file=file, problem=problem.said) from None


def _crop(klass: ClassFolder, crop_id: str) -> Crop:
    return klass.crops.get(crop_id) or tables.crop(crop_id)


def _bed(plot: Plot | None, *rows: PlotRow | None) -> Bed | None:
    """Find the first bed whose length and width are known."""
    for bed in () if plot is None else plot.beds:
        if bed.length_m is not None and bed.width_m is not None:
            return bed
    for row in rows:
        if row is not None and row.length_m is not None and row.width_m is not None:
            return Bed.model_validate(
                {
                    "id": row.id,
                    "length_m": row.length_m,
                    "width_m": row.width_m,
                    "kind": row.kind,
                    "families": row.families,
                    "known_disease": row.known_disease[:80],
                }
            )
    return None


def _voice(klass: ClassFolder, learner: Learner | None, plot: Plot | None) -> Voice:
    household = None if plot is None else plot.household
    wanted = (household and household.language, learner and learner.language, *klass.languages, "en")
    return Voice(
        language=next(language for language in wanted if language in languages()),
        units=(household and household.units) or klass.units,
        local=klass.words_local,
    )
