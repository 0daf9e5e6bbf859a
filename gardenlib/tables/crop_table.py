"""The crops: one frozen record a crop, with every range and where it comes from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from functools import cache
from types import MappingProxyType
from typing import TYPE_CHECKING, Any

from gardenlib.problems import InputProblem
from gardenlib.tables.loader import rows
from gardenlib.tables.schemas.crops import TIMING_FIELDS
from gardenlib.units import Range, f_to_c
from gardenlib.words import Said

if TYPE_CHECKING:
    import pandas as pd

EMERGENCE_AT_F = 50


@dataclass(frozen=True)
class Published:
    """A published range, over all sources and as the typical source prints it.

    Parameters
    ----------
    full, typical : Range
        Lowest to highest over the sources; median of their lowest to median of their highest.
    status : {"published", "memory", "common_practice"}
        ``memory`` is shown to learners as "unchecked".
    sources : tuple of str
        Keys of the table of sources.
    """

    full: Range
    typical: Range
    status: str
    sources: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class Crop:
    """What is known of one crop.

    Parameters
    ----------
    id : str
        Its short name in files.
    name : Said or str
        Its name for reading; a class's own crop carries its name as it was typed.
    family, botanical_name : str
        Plant family; the botanical name may be empty for a class's own crop.
    hardiness : {"hardy", "half-hardy", "tender", "very tender"}
        Its season class.
    method : {"transplant", "direct", "either", "sets", "slips", "pieces", "cloves"}
        How it is usually planted.
    status : {"published", "memory"}
        Whether the season class was read in a source.
    sources : tuple of str
        Sources of the season class.
    other_hardiness : str
        Season classes that other sources give, empty when all agree.
    cold_row : str
        The row of the cold limits that is used for it.
    weeks_indoor, harvest_wk : Published or None
        Weeks from sowing indoors to setting out; weeks that one planting is picked.
    transplant_wk, direct_sow_wk : Published or None
        Weeks from the last freeze (32 F, in half of all springs) to setting out or sowing; before is negative.
    fall_wk : Published or None
        Weeks from the first freeze of fall (32 F, in half of all falls) to planting; before is negative.
    days_from_transplant, days_from_seed, days_basis_not_stated : Published or None
        Days to the first harvest, by what they are counted from.
    growth_min_mean_c, growth_max_mean_c : float or None
        Lowest and highest monthly mean air temperature for growth, degrees Celsius.
    growth_status, growth_sources
        Status and sources of the two.
    emergence_days : int or None
        Days from sowing to emergence in soil at 50 F.
    emergence_sources : tuple of str
        Sources of these days.
    citation : str
        Where a class's own figures come from, in its words.
    """

    id: str
    name: Said | str
    family: str
    hardiness: str
    method: str
    status: str
    sources: tuple[str, ...]
    cold_row: str
    botanical_name: str = ""
    other_hardiness: str = ""
    weeks_indoor: Published | None = None
    transplant_wk: Published | None = None
    direct_sow_wk: Published | None = None
    days_from_transplant: Published | None = None
    days_from_seed: Published | None = None
    days_basis_not_stated: Published | None = None
    harvest_wk: Published | None = None
    fall_wk: Published | None = None
    growth_min_mean_c: float | None = None
    growth_max_mean_c: float | None = None
    growth_status: str = "published"
    growth_sources: tuple[str, ...] = ()
    emergence_days: int | None = None
    emergence_sources: tuple[str, ...] = ()
    citation: str = ""


def crops() -> pd.DataFrame:
    """List the crops of the table.

    Returns
    -------
    DataFrame
        One row a crop, index its id: botanical name, family, hardiness, usual method, sources, status.

    Examples
    --------
    >>> len(crops())
    39
    """
    import pandas as pd

    return pd.DataFrame([dict(row) for row in rows("crops")]).set_index("crop")


def crop(crop_id: str) -> Crop:
    """Give what is known of one crop.

    Parameters
    ----------
    crop_id : str
        A crop id, such as ``broccoli``.

    Returns
    -------
    Crop
        Its record.

    Raises
    ------
    InputProblem
        When there is no such crop; it names the three nearest ids.

    Notes
    -----
    Source: the keys in each `Published` of the record, listed by ``table("sources")``.

    Examples
    --------
    >>> crop("cauliflower").transplant_wk.typical
    Range(low=-3.0, high=-2.0, unit='weeks')
    """
    known = _all()
    if crop_id in known:
        return known[crop_id]
    near = get_close_matches(str(crop_id).strip().lower().replace(" ", "_"), known, n=3, cutoff=0.0)
    raise InputProblem("tables.no_crop", value=crop_id, near=", ".join(near))


@cache
def _all() -> Mapping[str, Crop]:
    timing: dict[str, dict[str, Published]] = {row["crop"]: {} for row in rows("crops")}
    for row in rows("crop_timing"):
        timing[row["crop"]][row["field"]] = Published(
            full=Range(row["low"], row["high"], row["unit"]),
            typical=Range(row["typical_low"], row["typical_high"], row["unit"]),
            status=row["status"],
            sources=tuple(row["source"].split("|")),
        )
    heat = {row["crop"]: row for row in rows("heat_limits")}
    emergence = {
        row["crop"]: row
        for row in rows("emergence_by_temp")
        if row["soil_temp_f"] == EMERGENCE_AT_F and row["state"] == "days"
    }
    return MappingProxyType(
        {row["crop"]: _one(row, timing, heat.get(row["crop"]), emergence.get(row["crop"])) for row in rows("crops")}
    )


def _one(
    row: Mapping[str, Any],
    timing: Mapping[str, Mapping[str, Published]],
    heat: Mapping[str, Any] | None,
    emergence: Mapping[str, Any] | None,
) -> Crop:
    crop_id = row["crop"]
    spans: dict[str, Any] = {field: timing[crop_id].get(field) for field in TIMING_FIELDS}
    return Crop(
        id=crop_id,
        name=Said(f"crop.{crop_id}"),
        family=row["family"],
        botanical_name=row["botanical_name"],
        hardiness=row["hardiness"],
        other_hardiness=row["other_hardiness"] or "",
        method=row["method"],
        status=row["status"],
        sources=tuple(row["source"].split("|")),
        cold_row=row["cold_row"] or row["hardiness"],
        growth_min_mean_c=f_to_c(heat["min_mean_f"]) if heat else None,
        growth_max_mean_c=f_to_c(heat["max_mean_f"]) if heat else None,
        growth_status=heat["status"] if heat else "published",
        growth_sources=tuple(heat["source"].split("|")) if heat else (),
        emergence_days=int(emergence["days"]) if emergence else None,
        emergence_sources=tuple(emergence["source"].split("|")) if emergence else (),
        **spans,
    )
