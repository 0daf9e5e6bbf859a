"""Page 04: the dates that panels show are those of the library, for every kind of place."""

import importlib.util

import pytest

from gardenlib import panels
from gardenlib.carried import carried
from gardenlib.panels.sowing import seasons
from gardenlib.sowing import sowing_dates


@pytest.fixture(scope="session")
def other_sites(tmp_path_factory):
    """Make the six other invented classes with the demo's own script."""
    spec = importlib.util.spec_from_file_location("make_demo", carried("data_demo") / "make_demo.py")
    script = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(script)
    folder = tmp_path_factory.mktemp("sites")
    script.other_sites(folder)
    return folder


def test_list_shows_what_the_library_computes(open_session):
    """Each row of the list is the library's answer for that crop at the chosen risk."""
    session = open_session()
    panel = panels.my_list.panel(session)
    panel.controls["springs"].value = 3
    answer = sowing_dates(
        "tomato",
        session.freezes,
        year=2027,
        risk=0.3,
        warmth=session.place.warmth,
        garden_opens=session.opens,
        garden_closes=session.closes,
    )
    row = panel.view.table.set_index("Crop").loc["tomato"]
    first, last = (session.voice.date(day, "MMMd") for day in answer.set_out)
    assert row["Set out or sow"] == f"{first} to {last}"


def test_more_risk_is_told_in_days(open_session):
    """Accepting five bad springs in ten instead of one is told in days sooner."""
    panel = panels.my_list.panel(open_session())
    panel.controls["springs"].value = 5
    assert "days sooner than at 1 in 10" in panel.view.finding


def test_harvest_is_told_in_weeks(open_session):
    """No book knows the day of picking, so the harvest stands as weeks."""
    panel = panels.sowing.panel(open_session())
    harvest = panel.view.table.set_index("What to do").loc["harvest"]
    assert all(text.startswith("week of ") for text in harvest)


def test_what_matters_stands_beside_the_dates(open_session):
    """An assumption that changes what one does is on the page, not only in the working."""
    panel = panels.sowing.panel(open_session())
    assert "quick kinds of cabbage" in panel.notes.value


@pytest.mark.parametrize(
    ("place", "first"),
    [("never_freezes", "cool"), ("cold_short_season", "spring"), ("southern_hemisphere", "spring")],
)
def test_heat_sets_the_seasons_where_it_never_freezes(open_session, other_sites, place, first):
    """Where it never freezes the cool half of the year comes first, elsewhere spring does."""
    assert seasons(open_session(folder=other_sites / place))[0] == first


def test_season_too_short_says_by_how_much(open_session, other_sites):
    """In a cold place the tomato's row says by how many days the season is too short."""
    session = open_session(folder=other_sites / "cold_short_season")
    panel = panels.sowing.panel(session)
    panel.controls["crop"].value = "tomato"
    assert "too short here by" in panel.view.finding
