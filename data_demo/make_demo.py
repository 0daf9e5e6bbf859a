"""Make the invented weather of the demo class, and of other climates for trying the pages.

Everything that comes out of here is invented: no station, town or person of these names is
meant.  The same seeds give the same files, byte for byte::

    python data_demo/make_demo.py                  # the demo class's own files, in place
    python data_demo/make_demo.py --other FOLDER   # six classes in other climates

The weather of a day is a yearly wave, a slow warming and an anomaly that partly stays from one
day to the next (a first-order autoregression); wet days come in spells and have a smaller
difference between night and day.
"""

from __future__ import annotations

import argparse
import csv
import json
from collections.abc import Mapping, Sequence
from datetime import date
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import NamedTuple

import numpy as np
import pandas as pd

HERE = Path(__file__).resolve().parent
STATION = "stations/invented_pellowby_daily.csv"
NIGHTS = "stations/invented_plot_thermometer.csv"
STAYS = 0.72  # share of a day's anomaly that is left on the next day
WET_AFTER_WET = 0.5
_LOW_AND_HIGH = ("TMAX", "TMAX_ATTRIBUTES", "TMIN", "TMIN_ATTRIBUTES")


class Climate(NamedTuple):
    """An invented climate; pairs are (in the coldest month, in the warmest month).

    Parameters
    ----------
    latitude : float
        Degrees, north positive; the warmest time is mid-July in the north, mid-January in the south.
    mean_c, swing_c : float
        Mean of the year and half the difference between warmest and coldest time, degrees Celsius.
    anomaly_c, range_c : tuple of float
        Standard deviation of a day's mean, and difference between a dry day's high and low, degrees Celsius.
    wet_share, wet_day_mm : tuple of float
        Share of days with rain, and the mean rain of such a day, mm.
    warming_c_per_decade : float
        Degrees Celsius.
    """

    latitude: float
    mean_c: float
    swing_c: float
    anomaly_c: tuple[float, float]
    range_c: tuple[float, float]
    wet_share: tuple[float, float] = (0.25, 0.3)
    wet_day_mm: tuple[float, float] = (5.0, 9.0)
    warming_c_per_decade: float = 0.2


def station_record(climate: Climate, *, seed: int, first_year: int = 1986, last_year: int = 2025) -> pd.DataFrame:
    """Invent a daily record.

    Parameters
    ----------
    climate : Climate
        What the weather is like.
    seed : int
        The same seed gives the same record.
    first_year, last_year : int
        Years covered, both whole.

    Returns
    -------
    DataFrame
        Index date; columns tmin_c, tmax_c (degrees Celsius, not rounded) and rain_mm.
    """
    dice = np.random.Generator(np.random.PCG64(seed))
    days = pd.date_range(date(first_year, 1, 1), date(last_year, 12, 31), name="date")
    day = days.day_of_year.to_numpy()
    warm_day = 199 if climate.latitude >= 0 else 16
    wave = np.cos(2 * np.pi * (day - warm_day) / 365.25)

    def by_season(pair: tuple[float, float]) -> np.ndarray:
        cold, warm = pair
        return cold + (warm - cold) * (1 + wave) / 2

    anomaly = _lasting(dice.standard_normal(len(days))) * by_season(climate.anomaly_c)
    wet = _spells(dice.random(len(days)), by_season(climate.wet_share))
    rain_mm = np.where(wet, dice.standard_exponential(len(days)) * by_season(climate.wet_day_mm) + 0.3, 0.0)
    clear_nights = 1.6 * (1 - wave**2)  # spring and fall have the widest days
    spread = (
        (by_season(climate.range_c) + clear_nights)
        * np.where(wet, 0.7, 1.08)
        * (1 + 0.18 * dice.standard_normal(len(days)))
    )
    years_on = (days - days[0]).days.to_numpy() / 365.25
    middle = climate.mean_c + climate.swing_c * wave + anomaly + climate.warming_c_per_decade * years_on / 10
    half = np.maximum(spread, 1.5) / 2
    return pd.DataFrame({"tmin_c": middle - half, "tmax_c": middle + half, "rain_mm": rain_mm}, index=days)


def _lasting(shocks: np.ndarray) -> np.ndarray:
    out, state, fresh = np.empty(len(shocks)), 0.0, np.sqrt(1 - STAYS**2)
    for place, shock in enumerate(shocks):
        state = STAYS * state + fresh * shock
        out[place] = state
    return out


def _spells(chances: np.ndarray, share: np.ndarray) -> np.ndarray:
    after_dry = share * (1 - WET_AFTER_WET) / (1 - share)
    out, wet = np.empty(len(chances), dtype=bool), False
    for place, chance in enumerate(chances):
        wet = bool(chance < (WET_AFTER_WET if wet else after_dry[place]))
        out[place] = wet
    return out


def as_read_in_fahrenheit(record: pd.DataFrame) -> pd.DataFrame:
    """Write a record as whole degrees Fahrenheit and hundredths of an inch, the way observers do."""
    return pd.DataFrame(
        {
            "PRCP": [f"{inches:.2f}" for inches in record["rain_mm"] / 25.4],
            "TMAX": [f"{temp:.0f}" for temp in np.floor(record["tmax_c"] * 1.8 + 32.5)],
            "TMIN": [f"{temp:.0f}" for temp in np.floor(record["tmin_c"] * 1.8 + 32.5)],
        },
        index=record.index,
    )


def as_read_in_celsius(record: pd.DataFrame) -> pd.DataFrame:
    """Write a record in tenths of a degree Celsius and of a millimetre."""
    named = {"PRCP": "rain_mm", "TMAX": "tmax_c", "TMIN": "tmin_c"}
    return pd.DataFrame(
        {name: [f"{value + 0.0:.1f}" for value in record[column].round(1)] for name, column in named.items()},
        index=record.index,
    )


def write_daily_summaries(
    path: Path,
    cells: pd.DataFrame,
    *,
    station: str,
    name: str,
    left_out: Sequence[tuple[str, str]] = (),
    no_low: Sequence[str] = (),
    flagged: Mapping[str, str] | None = None,
) -> None:
    """Write a record in the layout of the daily summaries that weather services hand out.

    Parameters
    ----------
    path : Path
        Where.
    cells : DataFrame
        Text by date: columns PRCP, TMAX, TMIN.
    station, name : str
        Station id and name.
    left_out : sequence of (str, str)
        First and last day of gaps without any row.
    no_low : sequence of str
        Days whose low is empty.
    flagged : mapping of str to str
        Lows that the quality check refused, by day; they carry the flag G in the attributes.
    """
    flagged = flagged or {}
    path.parent.mkdir(parents=True, exist_ok=True)
    keep = np.ones(len(cells), dtype=bool)
    for first, last in left_out:
        keep &= ~((cells.index >= first) & (cells.index <= last))
    with path.open("w", encoding="ascii", newline="") as file:
        out = csv.writer(file, lineterminator="\n")
        out.writerow(["STATION", "NAME", "DATE", "PRCP", "PRCP_ATTRIBUTES", *_LOW_AND_HIGH])
        for when, (rain, high, low) in zip(cells.index[keep], cells[keep].to_numpy(), strict=True):
            day = f"{when:%Y-%m-%d}"
            written, flag = (flagged[day], ",G,") if day in flagged else ("" if day in no_low else low, "")
            out.writerow([station, name, day, rain, "", high, "", written, flag])


# ---- the demo class --------------------------------------------------------------------------

PELLOWBY = Climate(
    latitude=40.1,
    mean_c=9.7,
    swing_c=15.0,
    anomaly_c=(6.0, 3.1),
    range_c=(10.5, 12.5),
    wet_share=(0.2, 0.32),
    wet_day_mm=(3.5, 10.0),
)
GAPS = [
    ("1993-07-26", "1993-10-20"),
    ("2003-04-02", "2003-04-19"),
    ("2011-11-28", "2011-12-04"),
    ("2016-02-01", "2016-02-29"),
]
NO_LOW = [
    "1989-05-03",
    "1991-09-29",
    "1997-04-21",
    "1997-04-22",
    "2001-10-05",
    "2008-05-01",
    "2014-04-28",
    "2020-10-11",
]
FLAGGED = {"1998-07-14": "-4"}
NIGHT_OFFSET_C = -3 / 1.8


def make_demo(folder: Path) -> None:
    """Write the demo class's station file, thermometer log, monthly normals and plot.

    Parameters
    ----------
    folder : Path
        The demo class folder.
    """
    cells = as_read_in_fahrenheit(station_record(PELLOWBY, seed=19860101))
    write_daily_summaries(
        folder / STATION, cells, station="ZZINVENTED1", name="PELLOWBY", left_out=GAPS, no_low=NO_LOW, flagged=FLAGGED
    )
    _write_normals(folder / "normals_monthly.csv", cells)
    _write_nights(folder / NIGHTS, cells)
    _write_plot(folder / "class_plot.json")


def _write_normals(path: Path, cells: pd.DataFrame) -> None:
    values = cells.loc["1991":"2020", ["TMAX", "TMIN"]].astype(float)
    months = values.groupby(values.index.month).mean()
    with path.open("w", encoding="ascii", newline="") as file:
        out = csv.writer(file, lineterminator="\n")
        out.writerow(["site", "month", "mean_high", "mean_low", "unit", "source"])
        for month, (high, low) in months.iterrows():
            source = "invented: means of the invented record of 1991 to 2020"
            out.writerow(["Pellowby Hollow", month, f"{high:.1f}", f"{low:.1f}", "F", source])


def _write_nights(path: Path, cells: pd.DataFrame) -> None:
    spring = cells.loc["2025-04-05":"2025-05-02", ["TMIN", "TMAX"]].astype(float)
    dice = np.random.Generator(np.random.PCG64(20250405))
    lows = spring["TMIN"] + np.floor(-3 + 1.6 * dice.standard_normal(len(spring)) + 0.5)
    highs = spring["TMAX"] + np.floor(1.2 * dice.standard_normal(len(spring)) + 0.5)
    with path.open("w", encoding="ascii", newline="") as file:
        out = csv.writer(file, lineterminator="\n")
        out.writerow(["date", "tmin_f", "tmax_f"])
        for day, low, high in zip(spring.index, lows, highs, strict=True):
            out.writerow([f"{day:%Y-%m-%d}", f"{low:.0f}", f"{high:.0f}"])


EATEN = {"cabbage_main": 2, "lettuce_leaf": 4, "pea": 2, "tomato": 5, "bean_bush": 3}
PLANTS = {"cabbage_main": 5, "lettuce_leaf": 12, "pea": 20, "tomato": 3, "bean_bush": 14}
FAMILIES = (("Fabaceae",), ("Solanaceae",), ("Brassicaceae",), ("Cucurbitaceae", "Asteraceae"))
SHEET = {
    "sheet": "in_hand",
    "texture": "sandy loam",
    "texture_from": "jar",
    "sand_pct": 58,
    "silt_pct": 30,
    "clay_pct": 12,
    "sampled": "2026-10-17",
    "water_ph": 5.8,
    "buffer": "smp",
    "buffer_ph": 6.5,
    "phosphorus": "high",
    "potassium": "medium",
    "magnesium": "medium",
    "notes": "Invented.",
}
GUESSES = {
    "00.cold.guess": "some",
    "01.place.guess": "5",
    "01.risk.guess": "5",
    "04.crop.guess": "near",
    "04.list.guess": "14",
    "04.even.guess": "7",
    "04.seeds.guess": "always",
    "04.warm.guess": "12",
    "04.kinds.guess": "all",
    "04.cold.guess": "few",
    "04.fall.guess": "some",
    "02.bag.guess": "all",
    "02.compost.guess": "all",
    "02.feeding.guess": "ten",
    "02.feel.guess": "coarse",
    "02.gifts.guess": "days",
    "02.jar.guess": "hour",
    "02.lime.guess": "much",
    "02.mixes.guess": "half",
    "02.sample.guess": "four",
    "02.sheet.guess": "buffer",
    "03.closer.guess": "same",
    "03.count.guess": "fifteen",
    "03.lines.guess": "more",
    "03.pots.guess": "same",
    "03.rotation.guess": "30",
    "03.water.guess": "week",
    "05.when.guess": "near",
    "05.look.guess": "75",
    "05.big.guess": "1",
    "05.before.guess": "all",
    "05.disease.guess": "none",
    "05.what.guess": "color",
    "06.air.guess": "same",
    "06.eatfirst.guess": "biggest",
    "06.keep.guess": "months",
    "06.much.guess": "each",
    "06.preserve.guess": "20.0",
    "06.ready.guess": "10",
    "07.log.guess": "sooner",
    "07.plan.guess": "half",
    "07.replay.guess": "most",
}


def _write_plot(path: Path) -> None:
    from gardenlib import plot

    with TemporaryDirectory() as scratch:
        file = Path(scratch) / "plot.json"
        made = plot.new(file)
        sections = {
            "household": {
                "people": 2,
                "eat": [{"crop": crop, "times_a_week": times} for crop, times in EATEN.items()],
                "units": "us",
                "language": "en",
            },
            "site": {
                "name": "Pellowby Hollow",
                "sun_hours": 8,
                "notes": "Invented. Low ground by the brook; the tap is at the gate.",
            },
            "soil": SHEET,
            "beds": [
                {
                    "id": f"bed-{n}",
                    "name": f"{side} bed",
                    "length_m": 3.6576,
                    "width_m": 1.2192,
                    "depth_m": 0.3048,
                    "kind": "raised",
                    "bearing_deg": 90,
                    "reach": "both",
                    "families": FAMILIES,
                }
                for n, side in enumerate(("North", "South"), start=1)
            ],
            "plantings": [
                {
                    "id": f"planting-{n}",
                    "crop": crop,
                    "bed": "bed-2" if crop == "pea" else "bed-1",
                    "season": "spring",
                    "plants": PLANTS[crop],
                }
                for n, crop in enumerate(EATEN, start=1)
            ],
            "log": [{"day": "2026-04-19", "text": "Invented. White frost on the low end of the bed at seven."}],
            "answers": {"02.feel": {"controls": {"ball": "yes", "ribbon": "short", "feel": "gritty"}}},
            "guesses": GUESSES,
        }
        for section, value in sections.items():
            made = plot.update(file, section, value, seen_revision=made.revision)
        path.write_bytes(file.read_bytes())


# ---- six other climates ----------------------------------------------------------------------

OTHERS: Mapping[str, tuple[Climate, str]] = {
    "cold_short_season": (
        Climate(latitude=62.0, mean_c=-0.5, swing_c=17.5, anomaly_c=(7.5, 3.0), range_c=(9.0, 11.0)),
        "us",
    ),
    "mild_coast": (
        Climate(
            latitude=44.6, mean_c=10.8, swing_c=4.8, anomaly_c=(3.0, 1.7), range_c=(6.5, 8.5), wet_share=(0.6, 0.15)
        ),
        "us",
    ),
    "warm_desert": (
        Climate(
            latitude=33.2, mean_c=21.6, swing_c=10.2, anomaly_c=(3.6, 2.2), range_c=(15.0, 14.0), wet_share=(0.1, 0.08)
        ),
        "us",
    ),
    "southern_hemisphere": (
        Climate(latitude=-37.2, mean_c=13.4, swing_c=6.2, anomaly_c=(2.6, 3.6), range_c=(9.5, 12.5)),
        "metric",
    ),
    "never_freezes": (Climate(latitude=21.3, mean_c=25.0, swing_c=2.6, anomaly_c=(1.2, 0.9), range_c=(7.0, 7.0)), "us"),
    "mountain": (Climate(latitude=39.4, mean_c=4.4, swing_c=9.6, anomaly_c=(5.0, 2.4), range_c=(13.0, 14.0)), "us"),
}


def other_sites(folder: Path) -> dict[str, Path]:
    """Write six classes in other climates, each with its own invented station.

    Parameters
    ----------
    folder : Path
        Where their class folders go.

    Returns
    -------
    dict of str to Path
        The class folders by climate.
    """
    made = {}
    for seed, (name, (climate, units)) in enumerate(OTHERS.items(), start=7001):
        home = made[name] = folder / name
        title = name.replace("_", " ")
        record = station_record(climate, seed=seed, first_year=1996)
        cells = as_read_in_fahrenheit(record) if units == "us" else as_read_in_celsius(record)
        write_daily_summaries(home / "stations" / "daily.csv", cells, station=f"ZZINVENT{seed}"[:11], name="INVENTED")
        (home / "class.toml").write_text(
            f'title = "Invented class, {title}"\nlanguages = ["en"]\nunits = "{units}"\ninvented = true\n'
            f"crops = {json.dumps(list(EATEN))}\n",
            "utf-8",
        )
        (home / "sites.csv").write_text(
            f"site,latitude,station_file\nInvented {title},{climate.latitude},daily.csv\n", "utf-8"
        )
    return made


if __name__ == "__main__":
    options = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    options.add_argument("--other", type=Path, metavar="FOLDER", help="write six classes in other climates there")
    where = options.parse_args().other
    if where is None:
        make_demo(HERE)
    else:
        other_sites(where)
