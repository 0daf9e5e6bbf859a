"""What another risk costs: days earlier or later, told in springs out of ten."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING, Any

from gardenlib.sowing.dates import SowingDates, sowing_dates
from gardenlib.sowing.limits import as_crop, cold_row, default_risk, freeze_limit
from gardenlib.sowing.windows import DIRECT, paths_of
from gardenlib.tables import Crop
from gardenlib.working import Answer, Notes

if TYPE_CHECKING:
    import pandas as pd

    from gardenlib.site import FreezeDates

RISKS = (0.1, 0.2, 0.3, 0.4, 0.5)


@dataclass(frozen=True, kw_only=True)
class RiskCosts(Answer):
    """What each risk costs or wins for one crop.

    Parameters
    ----------
    crop : str
        Crop id.
    default : float
        The risk that the crop is planned at unless somebody chooses another.
    table : DataFrame
        One row a risk: ``risk`` (0 to 1), ``bad_springs_in_ten``, ``opens`` (first day to set out, or to sow where it
        is not set out; NaT when there is no window), ``days_later`` than at the default risk (negative: earlier;
        missing when one of the two has no window).
    """

    crop: str
    default: float
    table: pd.DataFrame


def risk_costs(
    crop: str | Crop, freezes: FreezeDates, *, year: int, risks: Sequence[float] = RISKS, **asked: Any
) -> RiskCosts:
    """Compare the first day to plant at several risks.

    Parameters
    ----------
    crop : str or Crop
        A crop id or a crop.
    freezes : FreezeDates
        Freeze dates of the place.
    year : int
        Year of the season's spring.
    risks : sequence of float
        The risks to compare; those that the freeze dates do not know for this crop are left out.
    **asked : object
        The other choices of `sowing_dates`.

    Returns
    -------
    RiskCosts
        The table, lowest risk first.

    Raises
    ------
    InputProblem
        As `sowing_dates`.

    Notes
    -----
    The dates are those of `sowing_dates`; source of the default risks: common practice.

    Examples
    --------
    >>> from gardenlib.site import FreezeDates
    >>> here = FreezeDates.typed((4, 15), (10, 15), source="class list", latitude=40.0,
    ...     last_spring_10=(4, 29), last_spring_90=(4, 1))
    >>> risk_costs("broccoli", here, year=2027, risks=(0.1, 0.5)).table["days_later"].tolist()
    [14, 0]
    """
    import pandas as pd

    plant = as_crop(crop)
    usual = default_risk(plant)
    base = sowing_dates(plant, freezes, year=year, risk=usual, **asked)
    start = _opens(base)
    notes = Notes()
    rows = []
    for risk in sorted({*risks, usual}):
        if not _known(plant, freezes, risk, year, asked.get("hardened", True)):
            notes.say("sowing.risks_unknown", crop=plant.name)
            continue
        opens = start if risk == usual else _opens(sowing_dates(plant, freezes, year=year, risk=risk, **asked))
        late = None if opens is None or start is None else (opens - start).days
        rows.append((risk, risk * 10, opens, late))
    table = pd.DataFrame(rows, columns=["risk", "bad_springs_in_ten", "opens", "days_later"])
    table["opens"] = pd.to_datetime(table["opens"])
    table["days_later"] = table["days_later"].astype("Int64")
    return RiskCosts(
        crop=plant.id,
        default=usual,
        table=table,
        steps=base.steps,
        assumptions=(*notes.assumptions, *base.assumptions),
        sources=base.sources,
    )


def _opens(found: SowingDates) -> date | None:
    window = found.set_out or found.direct_sow
    return window[0] if window else None


def _known(plant: Crop, freezes: FreezeDates, risk: float, year: int, hardened: bool) -> bool:
    outdoors = paths_of(plant)[:1] == (DIRECT,)
    row = cold_row(plant, hardened=hardened or outdoors)
    return freeze_limit(freezes, "spring", row.temp_f, risk, year=year).state in ("date", "rare")
