"""Opening and closing a page when something is wrong: one sentence, never a trace."""

import json
import shutil

import pytest

from gardenlib import panels, plot
from gardenlib.carried import carried


@pytest.fixture
def class_copy(tmp_path):
    """Give a copy of the demo class that a test may spoil."""
    return shutil.copytree(carried("data_demo"), tmp_path / "class")


def opened(tmp_path, class_folder=None):
    """Open a page on a fixed day."""
    return panels.open_page("test", plot_file=tmp_path / "p.json", class_folder=class_folder, today="2027-02-15")


def all_words(shown) -> str:
    """Gather what was displayed, in words."""
    return " ".join(bundle.get("text/plain", "") for bundle in shown)


def test_broken_class_folder_is_named_and_the_demo_stands_in(tmp_path, class_copy):
    """A class folder with a bad date opens the page on the invented class and says where the date stands."""
    sites = class_copy / "sites.csv"
    sites.write_text(sites.read_text("utf-8").replace("Apr 29", "Apr 31"), "utf-8")
    session = opened(tmp_path, class_copy)
    told = " ".join(session.voice.say(note) for note in session.notes())
    assert "sites.csv" in told
    assert "Apr 31" in told
    assert session.klass.invented


def test_place_without_dates_says_so_in_every_part(tmp_path, class_copy, shown):
    """Where nobody has given freeze dates, panels, checks and results each say so in one sentence."""
    sites = class_copy / "sites.csv"
    head = sites.read_text("utf-8").splitlines()[0].split(",")
    row = dict.fromkeys(head, "") | {"site": "Nowhere", "latitude": "40", "longitude": "-40"}
    sites.write_text(",".join(head) + "\n" + ",".join(row[name] for name in head) + "\n", "utf-8")
    (class_copy / "normals_monthly.csv").unlink()
    session = opened(tmp_path, class_copy)
    for question in ("01.place.guess", "01.risk.guess", "04.crop.guess", "04.list.guess"):
        session.keep_guess(question, "5")
    for show in (panels.risk.panel, panels.risk.check, panels.sowing.panel, panels.my_list.panel, panels.place.panel):
        show(session)
    panels.results(session, panels.place.results)
    assert all_words(shown).count("Nobody has given freeze dates for Nowhere") >= 3


def test_plot_of_a_newer_version_is_never_saved_over(tmp_path, open_session):
    """A plot file written by a later version opens, and every try to save says why it is not saved."""
    session = open_session(guesses={})
    plot.new(session.path)
    kept = json.loads(session.path.read_text("utf-8")) | {"version": 99}
    session.path.write_text(json.dumps(kept), "utf-8")
    session.load(session.path)
    panel = panels.risk.panel(session)
    panel.children[0].answers.value = "5"
    panel.children[0].children[2].click()
    assert panel.children[0].note.value != ""
    assert json.loads(session.path.read_text("utf-8"))["version"] == 99
    assert session.guess("01.risk.guess") is None
