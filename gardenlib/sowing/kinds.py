"""Which kind: early, main, storage and small kinds side by side, by what this season allows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING, Any, Literal

from gardenlib import tables
from gardenlib.problems import InputProblem
from gardenlib.sowing.dates import sowing_dates
from gardenlib.sowing.kind_row import keeping, kind_row
from gardenlib.sowing.limits import as_crop
from gardenlib.sowing.packet_days import tell_packet, with_packet
from gardenlib.tables import Crop
from gardenlib.tables.loader import rows
from gardenlib.working import Answer, Notes

if TYPE_CHECKING:
    import pandas as pd

    from gardenlib.site import FreezeDates

MOST_KINDS = 6
COLUMNS = (
    *("crop", "days_low", "days_high", "counted_from", "unchecked", "spacing_low_m", "spacing_high_m"),
    *("spacing_unchecked", "pick_weeks", "keeps", "event", "opens", "closes", "harvest_first", "harvest_last"),
    *("room_days", "ends_by", "fits", "reason"),
)


@dataclass(frozen=True, kw_only=True)
class Kinds(Answer):
    """Several kinds of one vegetable side by side.

    Parameters
    ----------
    table : DataFrame
        One row a kind: ``crop`` (id), ``days_low`` and ``days_high`` to the first harvest, ``counted_from``
        (``plants``, ``seed``, ``not_stated``, or None without days), ``unchecked``, ``spacing_low_m`` and
        ``spacing_high_m`` (each way in a bed; missing where unknown), ``spacing_unchecked``, ``pick_weeks``,
        ``keeps`` (a Range in weeks or months at 32 F, None where no source tells),
        ``event`` (``set_out`` or ``direct_sow``), ``opens``, ``closes`` (of that event), ``harvest_first``,
        ``harvest_last``, ``room_days`` (first day to plant to the end of the season), ``ends_by`` (``heat``,
        ``freeze``, ``closing`` or None), ``fits``, and ``reason`` (why not, or that only quick kinds fit; else None).
    """

    table: pd.DataFrame


def kinds_of(crop: str | Crop) -> tuple[str, ...]:
    """List the kinds of one vegetable, the asked one first, at most six.

    Parameters
    ----------
    crop : str or Crop
        A crop id or a crop.

    Returns
    -------
    tuple of str
        Ids of the same family that share the first part of the id; where there is no other, crops of the family.

    Raises
    ------
    InputProblem
        When there is no such crop.

    Notes
    -----
    Families: see the table of crops; the choice is our own.

    Examples
    --------
    >>> kinds_of("cabbage_main")
    ('cabbage_main', 'cabbage_early', 'cabbage_storage', 'cabbage_mini')
    """
    plant = as_crop(crop)
    family = [row["crop"] for row in rows("crops") if row["family"] == plant.family]
    stem = plant.id.split("_")[0]
    same = [crop_id for crop_id in family if crop_id.split("_")[0] == stem and crop_id != plant.id]
    others = same or [crop_id for crop_id in family if crop_id != plant.id]
    return (plant.id, *others)[:MOST_KINDS]


def compare_kinds(
    crops: Sequence[str | Crop],
    freezes: FreezeDates,
    *,
    year: int,
    packet_days: float | str | None = None,
    packet_from: Literal["plants", "seed"] = "plants",
    today: date | None = None,
    **asked: Any,
) -> Kinds:
    """Compare kinds of one family by days, space, harvest and what this season allows.

    Parameters
    ----------
    crops : sequence of (str or Crop)
        At most six crops of one family.
    freezes : FreezeDates
        Freeze dates of the place.
    year : int
        Year of the season's spring.
    packet_days : float or str, optional
        Days that the packet of the FIRST of the crops prints; they take the place of its published range.
    packet_from : {"plants", "seed"}
        From where the packet counts.
    today : date, optional
        A kind whose last day to plant lies before it no longer fits.
    **asked : object
        The other choices of `sowing_dates`.

    Returns
    -------
    Kinds
        One row a kind, in the order of `crops`.

    Raises
    ------
    InputProblem
        When there is no crop, one too many, one stands twice, or they are of several families; as `sowing_dates` and
        `with_packet`.

    Notes
    -----
    Sources: days and weeks of picking, see the table of crops; spacing each way in a bed, University of Arizona and
    Colorado State University Extension.  Days from plants and days from seed are never taken for one another.

    Examples
    --------
    >>> from gardenlib.site import FreezeDates
    >>> here = FreezeDates.typed((4, 15), (10, 15), source="class list", latitude=40.0)
    >>> found = compare_kinds(["cabbage_early", "cabbage_main"], here, year=2027).table
    >>> found["counted_from"].tolist()
    ['plants', 'plants']
    """
    import pandas as pd

    plants = [as_crop(crop) for crop in crops]
    _check(plants)
    notes = Notes()
    if any(keeping(plant) for plant in plants):
        notes.say("kinds.keeping")
    if packet_days is not None:
        plants[0] = with_packet(plants[0], packet_days, packet_from)
        tell_packet(notes, plants[0], packet_from)
    found = [sowing_dates(plant, freezes, year=year, **asked) for plant in plants]
    closes = asked.get("garden_closes")
    pairs = zip(plants, found, strict=True)
    table = pd.DataFrame([kind_row(plant, dates, today, closes, notes) for plant, dates in pairs], columns=COLUMNS)
    for name in ("opens", "closes", "harvest_first", "harvest_last"):
        table[name] = pd.to_datetime(table[name])
    for name in ("days_low", "days_high", "spacing_low_m", "spacing_high_m", "pick_weeks", "room_days"):
        table[name] = table[name].astype("Float64")
    for dates in found:
        notes.cite(*dates.sources)
        for said in dates.assumptions:
            notes.say(said.key, **said.values)
    return Kinds(table=table, **notes.parts())


def _check(plants: Sequence[Crop]) -> None:
    if not 1 <= len(plants) <= MOST_KINDS:
        raise InputProblem("kinds.count", n=len(plants), high=MOST_KINDS)
    ids = [plant.id for plant in plants]
    if twice := [crop_id for crop_id in ids if ids.count(crop_id) > 1]:
        raise InputProblem("kinds.twice", crop=tables.crop(twice[0]).name)
    if odd := [plant for plant in plants if plant.family != plants[0].family]:
        raise InputProblem("kinds.family", crop=odd[0].name, first=plants[0].name)
