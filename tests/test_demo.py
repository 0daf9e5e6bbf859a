"""The demo class: invented, made by its script, and like the climate it is meant to show."""

import filecmp
import importlib.util
import json
import re
from pathlib import Path

import pytest

import gardenlib
from gardenlib import class_folder, site
from gardenlib.carried import carried
from gardenlib.units import f_to_c

DEMO = carried("data_demo")
MADE = [
    "class_plot.json",
    "normals_monthly.csv",
    "stations/invented_pellowby_daily.csv",
    "stations/invented_plot_thermometer.csv",
]
LATITUDE = 40.1


@pytest.fixture(scope="module")
def make_demo():
    """Load the script."""
    spec = importlib.util.spec_from_file_location("make_demo_to_try", DEMO / "make_demo.py")
    script = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(script)
    return script


@pytest.fixture(scope="module")
def station():
    """Read the demo's station file."""
    return site.read_station(DEMO / MADE[2], latitude=LATITUDE)


@pytest.fixture(scope="module")
def others(make_demo, tmp_path_factory):
    """Write the six other classes."""
    return make_demo.other_sites(tmp_path_factory.mktemp("others"))


def test_the_script_makes_the_committed_files_again(make_demo, tmp_path):
    """The script gives the committed files byte for byte; after a change of it, run it once."""
    make_demo.make_demo(tmp_path)
    same, different, missing = filecmp.cmpfiles(DEMO, tmp_path, MADE, shallow=False)
    assert (sorted(same), different, missing) == (MADE, [], [])


def test_the_record_is_small_and_forty_years_long(station):
    """The record fits in 700 kB and covers 1986 to 2025."""
    assert (DEMO / MADE[2]).stat().st_size < 700_000
    assert (station.first_year, station.last_year, station.unit) == (1986, 2025, "F")


def test_gaps_and_the_flagged_value_are_found(station):
    """The flagged low and the missing lows that the script lays are dropped and counted, and the gaps are told."""
    assert station.dropped["flagged"] == 1
    assert station.dropped["missing"] == 8
    assert any("141 days" in str(note) for note in station.notes)


def test_the_climate_is_as_aimed_at(station):
    """Last freeze about April 25, first about October 12, zone 5b or 6a, summers too hot for cool crops.

    The aims are this project's own, for a teaching example; 75 F is the highest monthly mean for lettuce
    and the cabbage family in Maynard and Hochmuth (1997), table of growth temperatures.
    """
    freezes = site.FreezeDates.from_station(station, latitude=LATITUDE)
    last, first = (freezes.date(half, 32, 0.5, year=2027) for half in ("spring", "fall"))
    assert abs((last - last.replace(month=4, day=25)).days) <= 5
    assert abs((first - first.replace(month=10, day=12)).days) <= 5
    assert site.zone_from_station(station, latitude=LATITUDE).zone in {"5b", "6a"}
    assert site.Warmth.from_station(station, LATITUDE).mean_30_c.max() > f_to_c(75.0)


def test_the_thermometer_at_the_plot_gives_the_night_offset(station):
    """The 28 nights at the plot give the 3 F that the class typed, within 1 F."""
    log = site.read_station(DEMO / MADE[3], latitude=LATITUDE)
    found = site.night_offset(log.daily, station)
    assert found.nights == 28
    assert found.offset_c * 1.8 == pytest.approx(-3, abs=1)


def test_the_demo_plot_has_a_guess_for_every_question():
    """Every guess that a page asks for is in the demo plot, and no other."""
    pages = (Path(gardenlib.__file__).parent / "panels").rglob("*.py")
    asked = {name for page in pages for name in re.findall(r'"(\d\d\.\w+\.guess)"', page.read_text("utf-8"))}
    plot = json.loads((DEMO / "class_plot.json").read_text("utf-8"))
    assert asked
    assert set(plot["guesses"]) == asked


def test_the_demo_plot_is_the_household_that_pages_show():
    """Two people, five crops, and a planting for each."""
    plot = class_folder.read(DEMO).class_plot
    crops = ["cabbage_main", "lettuce_leaf", "pea", "tomato", "bean_bush"]
    assert plot.household.people == 2
    assert [eaten.crop for eaten in plot.household.eat] == crops
    assert [planting.crop for planting in plot.plantings] == crops


def test_contacts_are_invented():
    """Mail goes to example.org (RFC 2606) and phone numbers are of the 555-01xx kind kept for fiction."""
    for contact in class_folder.read(DEMO).contacts:
        assert contact.mail.endswith("@example.org")
        assert re.fullmatch(r"555-01\d\d", contact.phone)


def test_everything_says_that_it_is_invented(others):
    """The readme, the settings, the station's id and the file names say that they are invented."""
    assert "invented" in (DEMO / "README.md").read_text("utf-8").splitlines()[2]
    assert class_folder.read(DEMO).invented
    for path in (DEMO / "stations").iterdir():
        assert path.name.startswith("invented_")
    for home in others.values():
        assert class_folder.read(home).invented


@pytest.mark.parametrize(
    ("name", "limit", "state"),
    [
        ("cold_short_season", ("spring", 32), "dates"),
        ("mild_coast", ("spring", 32), "dates"),
        ("warm_desert", ("spring", 32), "dates"),
        ("southern_hemisphere", ("spring", 32), "dates"),
        ("never_freezes", ("spring", 36), "never"),
        ("never_freezes", ("fall", 32), "never"),
        ("mountain", ("spring", 36), "every_month"),
        ("mountain", ("spring", 32), "dates"),
    ],
)
def test_the_other_climates_are_what_their_names_say(make_demo, others, name, limit, state):
    """Each of the six other climates shows the case it is for."""
    latitude = make_demo.OTHERS[name][0].latitude
    station = site.read_station(others[name] / "stations" / "daily.csv", latitude=latitude)
    assert site.FreezeDates.from_station(station, latitude=latitude).state(*limit) == state


def test_the_other_climates_differ_as_they_should(make_demo, others):
    """The cold place has the latest last freeze, the southern one has it after August, the desert is hot."""
    last, warmest = {}, {}
    for name, home in others.items():
        latitude = make_demo.OTHERS[name][0].latitude
        station = site.read_station(home / "stations" / "daily.csv", latitude=latitude)
        if name != "never_freezes":
            freezes = site.FreezeDates.from_station(station, latitude=latitude)
            last[name] = freezes.date("spring", 32, 0.5, year=2027)
        warmest[name] = site.Warmth.from_station(station, latitude).mean_30_c.max()
    north = {name: day for name, day in last.items() if name != "southern_hemisphere"}
    assert {max(north, key=north.get), sorted(north, key=north.get)[-2]} == {"cold_short_season", "mountain"}
    assert 8 <= last["southern_hemisphere"].month <= 10
    assert max(warmest, key=warmest.get) == "warm_desert"
