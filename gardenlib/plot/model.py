"""What a plot file holds.

Every part keeps fields that it does not know, so that a file written by a later
version passes through unharmed.  Temperatures are in degrees Celsius, lengths in metres.
"""

from __future__ import annotations

from datetime import date
from typing import Annotated, Any, Literal

from pydantic import (
    AfterValidator,
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Field,
    JsonValue,
    PlainSerializer,
    PrivateAttr,
    StringConstraints,
)
from pydantic_core import PydanticCustomError

from gardenlib.words import Said

VERSION = 1
HISTORY_KEPT = 30
SECTIONS = ("site", "soil", "beds", "plantings", "household", "log", "answers", "guesses")
BY_ENTRY = ("answers", "guesses")
_MOST = 500

Word = Annotated[str, StringConstraints(max_length=80)]
Text = Annotated[str, StringConstraints(max_length=2000)]
Id = Annotated[str, StringConstraints(min_length=1, max_length=80)]
TempC = Annotated[float, Field(ge=-90, le=60)]
LengthM = Annotated[float, Field(gt=0, le=1000)]
Percent = Annotated[float, Field(ge=0, le=100)]
Level = Literal["", "low", "medium", "high", "very_high"]
Did = Literal["sown", "set_out", "covered", "watered", "picked", "given", "looked", "worked", "other"]


def _to_month_day(value: Any) -> Any:
    if isinstance(value, str):
        month, _, day = value.partition("-")
        return (int(month), int(day))
    return value


def _in_calendar(value: tuple[int, int]) -> tuple[int, int]:
    date(2001, *value)
    return value


MonthDay = Annotated[
    tuple[int, int],
    BeforeValidator(_to_month_day),
    AfterValidator(_in_calendar),
    PlainSerializer(lambda value: f"{value[0]:02d}-{value[1]:02d}", return_type=str),
]


def _ids_once(parts: tuple[Any, ...]) -> tuple[Any, ...]:
    ids = [part.id for part in parts]
    if len(ids) != len(set(ids)):
        raise PydanticCustomError("id_twice", "an id stands twice")
    return parts


class _Part(BaseModel):
    model_config = ConfigDict(extra="allow", frozen=True, allow_inf_nan=False)


class Site(_Part):
    """Where the plot is: a site of the class, or the learner's own file or dates."""

    name: Word | None = None
    way: Literal["class", "typed", "file"] = "class"
    latitude: Annotated[float, Field(ge=-90, le=90)] | None = None
    longitude: Annotated[float, Field(ge=-180, le=180)] | None = None
    elevation_m: Annotated[float, Field(ge=-500, le=9000)] | None = None
    station_file: Text | None = None
    station_unit: Literal["F", "C", "tenths-C"] | None = None
    normals_file: Text | None = None
    last_freeze_50: MonthDay | None = None
    first_freeze_50: MonthDay | None = None
    last_freeze_10: MonthDay | None = None
    last_freeze_90: MonthDay | None = None
    first_freeze_10: MonthDay | None = None
    first_freeze_90: MonthDay | None = None
    threshold_f: Annotated[float, Field(ge=0, le=50)] = 32.0
    dates_from: Text | None = None
    night_offset_c: Annotated[float, Field(ge=-15, le=15)] | None = None
    night_offset_reason: Text | None = None
    sun_hours: Annotated[float, Field(ge=0, le=24)] | None = None
    low_spot: Literal["", "yes", "no"] = ""
    wind_from: Word = ""
    tap_steps: Annotated[int, Field(ge=0, le=5000)] | None = None
    notes: Text = ""


class Soil(_Part):
    """What is known of the soil: from the hand, the jar and the laboratory's sheet."""

    sheet: Literal["", "none", "in_hand"] = ""
    texture: Word = ""
    texture_from: Literal["", "feel", "jar", "lab"] = ""
    sand_pct: Percent | None = None
    silt_pct: Percent | None = None
    clay_pct: Percent | None = None
    sampled: date | None = None
    ph_method: Literal["water", "kcl", "other"] = "water"
    water_ph: Annotated[float, Field(ge=2, le=12)] | None = None
    buffer: Literal["", "sikora", "smp", "mehlich_nc", "mehlich_pa", "other", "none"] = ""
    buffer_ph: Annotated[float, Field(ge=3, le=8)] | None = None
    acidity_meq_100g: Annotated[float, Field(ge=0, le=100)] | None = None
    lab_lime_kg_m2: Annotated[float, Field(ge=0, le=10)] | None = None
    phosphorus: Level = ""
    potassium: Level = ""
    magnesium: Level = ""
    fizz: Literal["", "yes", "no"] = ""
    notes: Text = ""


class Bed(_Part):
    """One bed; `families` are those of the last four years, the latest first, `bearing_deg` that of its long edge."""

    id: Id
    name: Word = ""
    length_m: LengthM | None = None
    width_m: LengthM | None = None
    depth_m: LengthM | None = None
    kind: Literal["", "ground", "raised", "container"] = ""
    bearing_deg: Annotated[float, Field(ge=0, lt=360)] | None = None
    reach: Literal["", "both", "one", "seated", "child"] = ""
    families: Annotated[tuple[Annotated[tuple[Word, ...], Field(max_length=20)], ...], Field(max_length=10)] = ()
    known_disease: Word = ""


class Planting(_Part):
    """One crop in one season; `moved_weeks` is how much later than planned, `watered` whether somebody waters it."""

    id: Id
    crop: Id
    bed: Id | None = None
    season: Literal["spring", "fall", "cool"] = "spring"
    risk: Annotated[float, Field(gt=0, lt=1)] | None = None
    started: Literal["own", "bought"] = "own"
    plants: Annotated[int, Field(ge=1, le=10000)] | None = None
    moved_weeks: Annotated[int, Field(ge=-8, le=8)] = 0
    cover: Literal["", "row_cover", "tunnel"] = ""
    watered: bool = True


class Eaten(_Part):
    """A crop of what we eat and how often."""

    crop: Id
    times_a_week: Annotated[float, Field(ge=0, le=50)] = 1.0


class Household(_Part):
    """Who eats, what, and how this learner reads."""

    people: Annotated[int, Field(ge=1, le=50)] | None = None
    eat: Annotated[tuple[Eaten, ...], Field(max_length=60)] = ()
    units: Literal["us", "metric"] | None = None
    language: Annotated[str, StringConstraints(min_length=2, max_length=12)] | None = None


class LogEntry(_Part):
    """What was done, seen or measured on one day; a night's lowest temperature at the plot has `tmin_c`."""

    day: date
    text: Text = ""
    tmin_c: TempC | None = None
    id: Id | None = None
    did: Did | None = None
    planting: Id | None = None
    crop: Id | None = None
    amount_kg: Annotated[float, Field(gt=0, le=1000)] | None = None
    plants: Annotated[int, Field(ge=1, le=10000)] | None = None
    hours: Annotated[float, Field(gt=0, le=24)] | None = None


class Replaced(_Part):
    """An earlier value that a page replaced without having seen it."""

    section: Word
    entry: Text | None = None
    revision: int
    value: JsonValue


_Entries = Annotated[dict[Annotated[str, StringConstraints(max_length=200)], JsonValue], Field(max_length=2000)]


class Plot(_Part):
    """A plot file, read; it is changed only by `update`.

    Parameters
    ----------
    version : int
        Version of the file's form.
    revision : int
        Goes up by one with every save.
    site, soil, beds, plantings, household, log, answers, guesses
        The sections; `answers` and `guesses` are kept by the id of the question.
    section_revisions : dict of str to int
        The revision in which a section, or an entry such as ``guesses/zone``, was last saved.
    history : tuple of Replaced
        The newest 30 values that were replaced unseen.
    """

    version: Annotated[int, Field(ge=1)] = VERSION
    revision: Annotated[int, Field(ge=0)] = 0
    site: Site = Site()
    soil: Soil = Soil()
    beds: Annotated[tuple[Bed, ...], Field(max_length=_MOST), AfterValidator(_ids_once)] = ()
    plantings: Annotated[tuple[Planting, ...], Field(max_length=_MOST), AfterValidator(_ids_once)] = ()
    household: Household = Household()
    log: Annotated[tuple[LogEntry, ...], Field(max_length=20 * _MOST)] = ()
    answers: _Entries = {}
    guesses: _Entries = {}
    section_revisions: dict[str, int] = {}
    history: tuple[Replaced, ...] = ()
    _notes: tuple[Said, ...] = PrivateAttr(default=())

    @property
    def notes(self) -> tuple[Said, ...]:
        """What the learner should be told about how the file was read."""
        return self._notes

    @property
    def read_only(self) -> bool:
        """Tell whether a newer version wrote the file, so that this one must not save it."""
        return self.version > VERSION
