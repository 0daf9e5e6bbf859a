"""Page 07, the plot log: a season's plant families go into the past of the beds."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from gardenlib.panels.bed_of import family_name
from gardenlib.panels.form import Form
from gardenlib.panels.season.log_lines import crop_named, renew, year_back
from gardenlib.problems import InputProblem
from gardenlib.season import GrownFamilies, families_by_bed, years_with
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

ID = "07.families"


def families_form(session: Session) -> Form:
    """Offer to put the families of the season before the one that is planned into the beds' past."""
    about = Said("log.families_about", {"year": str(session.year - 1)})
    return Form(session, about, lambda _: {}, _put, Said("log.families_button"))


def _grown(session: Session) -> GrownFamilies:
    first, last = session.season
    named = {line.crop for line in session.plot.log if line.crop}
    return families_by_bed(
        session.plot.log,
        beds=[bed.id for bed in session.plot.beds],
        bed_of={planting.id: planting.bed for planting in session.plot.plantings},
        crops={crop_id: session.crop(crop_id) for crop_id in session.all_crop_ids if crop_id in named},
        first=year_back(first),
        last=year_back(last),
        today=session.today,
    )


def _put(session: Session, values: Mapping[str, Any]) -> Said:
    """Keep each bed's years as they were, then put the season before them; pressed again, only add to it."""
    renew(session)
    if not session.plot.beds:
        raise InputProblem("log.no_bed")
    year, grown = session.year - 1, _grown(session)
    if not grown.by_bed:
        raise InputProblem("log.nothing_grew", year=str(year))
    kept = session.kept(ID)
    before: dict[str, Any] = dict(kept.get("beds", {})) if kept.get("year") == year else {}
    beds, moved, told = [], False, []
    for bed in session.plot.beds:
        past, tree = [list(families) for families in bed.families], bed.model_dump(mode="json")
        if bed.id in grown.by_bed:
            # A bed whose years are still as they were kept has not been changed: the save was cut off.
            again = bed.id in before and before[bed.id] != past
            before.setdefault(bed.id, past)
            moved = moved or not again
            tree["families"] = years_with(bed.families, grown.by_bed[bed.id], again=again)
            told.append(_bed_words(session, bed.name or bed.id, tree["families"][0]))
        beds.append(tree)
    session.keep(ID, {"year": year, "beds": before})
    session.save("beds", beds)
    return _reply(session, grown, "; ".join(told), year, moved=moved)


def _bed_words(session: Session, name: str, families: tuple[str, ...]) -> str:
    words = ", ".join(family_name(session, family) for family in families)
    return session.voice.say("log.families_bed", bed=name, families=words)


def _reply(session: Session, grown: GrownFamilies, beds: str, year: int, *, moved: bool) -> Said:
    said = Said("log.families_saved" if moved else "log.families_joined", {"year": str(year), "beds": beds})
    if grown.no_bed:
        crops = ", ".join(crop_named(session, crop_id) for crop_id in grown.no_bed)
        said = Said("log.families_no_bed", {"said": said, "crops": crops})
    bare = [bed.name or bed.id for bed in session.plot.beds if bed.id not in grown.by_bed]
    return Said("log.families_bare", {"said": said, "beds": ", ".join(bare)}) if bare else said
