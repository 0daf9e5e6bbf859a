"""Another place in the class folder: what depends on the place changes on every page, and nothing else does."""

import importlib.util
import shutil
from datetime import date, datetime
from pathlib import Path

import pytest

from gardenlib.carried import carried
from gardenlib.classroom import pack
from gardenlib.homework import PackRecord
from gardenlib.panels import Session, my_list, place, start
from gardenlib.panels.beds import settled as beds
from gardenlib.panels.harvest import settled as harvest
from gardenlib.panels.pests import settled as pests
from gardenlib.panels.season import settled as season
from gardenlib.panels.soil import settled as soil
from gardenlib.plot import new, update

PAGES = {
    "start": start,
    "place": place,
    "soil": soil,
    "beds": beds,
    "list": my_list,
    "pests": pests,
    "harvest": harvest,
    "season": season,
}
ANYWHERE = ("start", "soil", "beds", "harvest")  # what we eat, the soil, plants on lines, what a table needs
STATION = "invented_pellowby_daily.csv"
TYPED = "Apr 29,Oct 8,May 13,,Sep 25,,32,invented county leaflet"
SOUTHERN = {"Mar 15": "Aug 15", "Nov 20": "May 20", "Apr 20": "Sep 20", "Oct 20": "Apr 20"}
TODAY = date(2027, 2, 15)


@pytest.fixture(scope="module")
def others(tmp_path_factory):
    """Make the invented stations of other climates: latitude and daily record by name."""
    spec = importlib.util.spec_from_file_location("make_demo_to_swap", carried("data_demo") / "make_demo.py")
    script = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(script)
    homes = script.other_sites(tmp_path_factory.mktemp("others"))
    return {name: (script.OTHERS[name][0].latitude, home / "stations" / "daily.csv") for name, home in homes.items()}


@pytest.fixture(scope="module")
def plot_file(tmp_path_factory):
    """Keep a plot whose soil is known: clay loam, pH 6.2."""
    path = tmp_path_factory.mktemp("plot") / "my_plot.json"
    made = new(path)
    update(path, "soil", {"texture": "clay loam", "water_ph": 6.2, "ph_method": "water"}, seen_revision=made.revision)
    return path


@pytest.fixture(scope="module")
def results(plot_file):
    """Give each page's results for a class folder."""

    def of(home):
        session = Session("test", plot_file, home, TODAY)
        assert not any(note.key == "page.class_unusable" for note in session.notes())
        return {name: page.results(session) for name, page in PAGES.items()}

    return of


@pytest.fixture(scope="module")
def before(results):
    """Read the untouched demo class, before anything is swapped."""
    return results(carried("data_demo"))


def _change(path, pairs):
    text = path.read_text("utf-8")
    for old, made in pairs.items():
        assert old in text, old
        text = text.replace(old, made)
    path.write_text(text, "utf-8")


def _day(words):
    """Read a day as the pages write it, in 2027."""
    return datetime.strptime(f"{words} 2027", "%b %d %Y").date()  # noqa: DTZ007 - a day has no zone


def _same(one, two):
    return {name for name in PAGES if one[name] == two[name]}


def test_a_copy_gives_what_the_class_gives(demo, results, before):
    """A class folder is its files: a copy elsewhere gives the same results on every page."""
    assert results(demo) == before


def test_typed_dates_reach_every_page_that_depends_on_them(demo, results):
    """Other typed dates, where no station is named, change place, calendar and plan; the days are those typed."""
    _change(demo / "sites.csv", {STATION: ""})
    here = results(demo)
    _change(demo / "sites.csv", {"Apr 29,Oct 8,May 13,,Sep 25": "Jun 1,Sep 10,Jun 12,,Aug 30"})
    there = results(demo)
    assert [value for _, value in there["place"]] == ["Pellowby Hollow", "Jun 1", "Jun 12", "Sep 10"]
    # Pests follow warmth, which typed dates do not tell.
    assert _same(here, there) == {*ANYWHERE, "pests"}
    for (crop, out), (_, out_there) in zip(here["list"], there["list"], strict=True):
        assert _day(out_there.split(" to ")[0]) > _day(out.split(" to ")[0]), crop
    # A tender crop waits for the day after which a freeze comes in 1 spring of 10.
    tomato = dict(there["list"])["tomato: set out or sow"]
    assert _day(tomato.split(" to ")[0]) >= date(2027, 6, 12)


def test_typed_dates_beside_a_station_leave_the_plan_to_the_station(demo, results, before):
    """With a station file for the place, the pages count from its record; typed dates stand beside it."""
    _change(demo / "sites.csv", {"Apr 29,Oct 8,May 13,,Sep 25": "May 6,Oct 3,May 15,,Sep 20"})
    assert results(demo) == before


@pytest.mark.parametrize(
    "case",
    [
        ("cold_short_season", True),
        ("mountain", True),
        ("mild_coast", False),
        ("warm_desert", False),
        ("never_freezes", None),
        ("southern_hemisphere", None),
    ],
)
def test_another_station_reaches_every_page_that_depends_on_it(demo, results, before, others, case):
    """A station of another climate changes place, calendar, pests and plan, and in the way that climate would."""
    climate, later = case
    latitude, record = others[climate]
    shutil.copy(record, demo / "stations" / STATION)
    _change(demo / "sites.csv", {TYPED: ",,,,,,32,", "40.10": str(latitude)})
    if latitude < 0:
        _change(demo / "class.toml", SOUTHERN)
    there = results(demo)
    assert _same(before, there) == set(ANYWHERE)
    last, last_there = (dict(found["place"])["Last freeze, 5 in 10 springs"] for found in (before, there))
    if later is not None:
        assert (_day(last_there) > _day(last)) == later
    elif latitude < 0:
        assert 7 <= _day(last_there).month <= 11  # spring south of the equator
    else:
        assert last_there == "no freeze"


def test_the_soil_of_the_plot_file_is_told_at_every_place(before):
    """What stays the same is not empty: the texture and the pH of the plot, and plants on their lines."""
    soil_here = dict(before["soil"])
    assert "clay loam" in soil_here["soil texture"]
    assert "6.2" in soil_here["soil pH"]
    assert "plants on" in dict(before["beds"])["set out"]


def test_the_untouched_class_gives_what_it_gave_before(results, before, demo, others):
    """Reading another place in between leaves nothing behind: the demo class gives what it gave at first."""
    _, record = others["mountain"]
    shutil.copy(record, demo / "stations" / STATION)
    assert results(demo) != before
    assert results(carried("data_demo")) == before
    # The same folder again, its file set back: read anew, not remembered.
    shutil.copy(carried("data_demo") / "stations" / STATION, demo / "stations" / STATION)
    assert results(demo) == before


def _papers(home, out):
    """Print the homework of the first meeting, about place and freezes; give every file's bytes by its name."""
    made = pack(home, out, today=TODAY, session=1)
    return {str(path.relative_to(made.folder)): path.read_bytes() for path in made.folder.rglob("*") if path.is_file()}


def test_another_place_reaches_every_sheet_and_key_and_no_other_class(tmp_path, others):
    """Another station file, or other typed dates, change sheets and key; a class beside prints what it did."""
    ours, beside = (Path(shutil.copytree(carried("data_demo"), tmp_path / name)) for name in ("ours", "beside"))
    for home in (ours, beside):
        _change(
            home / "class.toml",
            {"Pellowby Hollow community garden (invented), vegetables for beginners": "Garden 27 (invented)"},
        )
        (home / "learners.csv").write_text("id,display_name,language,plot\nL1,Juniper,en,\nL2,Sorrel,es,\n", "utf-8")
    theirs, first = _papers(beside, tmp_path / "b0"), _papers(ours, tmp_path / "a0")
    assert first == theirs  # two copies of one class

    shutil.copy(others["mountain"][1], ours / "stations" / STATION)
    mountain = _papers(ours, tmp_path / "a1")
    _change(ours / "sites.csv", {STATION: ""})
    typed = _papers(ours, tmp_path / "a2")
    _change(ours / "sites.csv", {"Apr 29,Oct 8,May 13,,Sep 25": "Jun 1,Sep 10,Jun 12,,Aug 30"})
    later = _papers(ours, tmp_path / "a3")

    # By its title this class draws questions that rest on the freezes; a jar or a packet of seeds is the same anywhere.
    sheets_set = PackRecord.read(tmp_path / "a0" / "key" / "record.json").sheets
    assert {question.skill for sheet in sheets_set for question in sheet.questions} <= {"01.risk", "01.season"}
    sheets = {name for name in first if name.startswith(("learners/", "print/", "key/key_", "key/self_check_"))}
    assert len(sheets) == 8
    for before, after in ((first, mountain), (mountain, typed), (typed, later)):
        assert {name for name in sheets if before[name] == after[name]} == set()
        assert before["key/record.json"] != after["key/record.json"]
    assert _papers(beside, tmp_path / "b1") == theirs
