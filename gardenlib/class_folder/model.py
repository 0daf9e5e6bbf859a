"""What a class folder holds, as values: temperatures in degrees Celsius, lengths in metres."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Literal

from gardenlib.tables import Crop
from gardenlib.units import System
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.plot import Plot

CLASS_PLOT = "class_plot.json"
MonthDay = tuple[int, int]


@dataclass(frozen=True, kw_only=True)
class SiteRow:
    """One site of ``sites.csv``; the night offset is the plot minus the station."""

    name: str
    latitude: float
    row: int
    longitude: float | None = None
    elevation_m: float | None = None
    last_freeze_50: MonthDay | None = None
    first_freeze_50: MonthDay | None = None
    last_freeze_10: MonthDay | None = None
    last_freeze_90: MonthDay | None = None
    first_freeze_10: MonthDay | None = None
    first_freeze_90: MonthDay | None = None
    threshold_f: float = 32.0
    dates_from: str = ""
    years_covered: str = ""
    night_offset_c: float = 0.0
    night_offset_reason: str = ""
    station_file: Path | None = None
    station_unit: Literal["F", "C", "tenths-C"] | None = None
    normals_file: Path | None = None

    @property
    def typed_dates(self) -> Mapping[str, MonthDay]:
        """The freeze dates that were typed, by column."""
        columns = [f"{which}_freeze_{risk}" for which in ("last", "first") for risk in (50, 10, 90)]
        return {name: getattr(self, name) for name in columns if getattr(self, name) is not None}


@dataclass(frozen=True, kw_only=True)
class PlotRow:
    """One plot of ``plots.csv``; `families` are those of the last four years, the latest first."""

    id: str
    site: str
    length_m: float | None = None
    width_m: float | None = None
    sun_hours: float | None = None
    water: str = ""
    kind: str = ""
    reach_m: float | None = None
    wheelchair_path: bool = False
    families: tuple[tuple[str, ...], ...] = ()
    known_disease: str = ""


@dataclass(frozen=True)
class Learner:
    """One learner; `plot` is the class bed where the row names none."""

    id: str
    name: str
    language: str
    plot: str


@dataclass(frozen=True)
class MonthRow:
    """Normal highs and lows of one month, degrees Celsius."""

    month: int
    mean_high_c: float
    mean_low_c: float
    source: str


@dataclass(frozen=True)
class Meeting:
    """One meeting of the class and the page it works on."""

    date: date
    title: str
    page: str


@dataclass(frozen=True)
class Contact:
    """Whom to ask."""

    name: str
    role: str
    mail: str
    phone: str


@dataclass(frozen=True)
class Lead:
    """What the class says about lead in soil, on whose authority and of which date."""

    line: str
    authority: str
    date: str


@dataclass(frozen=True, kw_only=True)
class ClassFolder:
    """A class folder, read."""

    folder: Path
    title: str
    languages: tuple[str, ...]
    units: System
    invented: bool = False
    class_bed: str = ""
    crop_ids: tuple[str, ...] = ()
    region: str | None = None
    garden_opens: MonthDay | None = None
    garden_closes: MonthDay | None = None
    water_on: MonthDay | None = None
    water_off: MonthDay | None = None
    workdays: tuple[date, ...] = ()
    sessions: tuple[Meeting, ...] = ()
    spray_rule: str = ""
    contacts: tuple[Contact, ...] = ()
    class_word: str = ""
    lab_name: str = ""
    lab_form: str = ""
    lead: Lead | None = None
    lime_from_texture: bool = False
    show_scores: bool = False
    translation_read_by: str = ""
    sites: Mapping[str, SiteRow] = field(default_factory=dict)
    plots: Mapping[str, PlotRow] = field(default_factory=dict)
    learners: Mapping[str, Learner] = field(default_factory=dict)
    crops: Mapping[str, Crop] = field(default_factory=dict)
    monthly: Mapping[str, tuple[MonthRow, ...]] = field(default_factory=dict)
    words_local: Mapping[str, str] = field(default_factory=dict)
    notes: tuple[Said, ...] = ()

    @cached_property
    def class_plot(self) -> Plot:
        """The class bed's plot, which stands in for what a learner has not filled in."""
        from gardenlib import plot

        path = self.folder / CLASS_PLOT
        if path.exists():
            return plot.read(path)
        eaten = tuple(plot.Eaten(crop=crop) for crop in self.crop_ids)
        return plot.Plot(household=plot.Household(people=2, eat=eaten))
