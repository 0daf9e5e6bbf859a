"""The plot file: nothing that was saved is lost, and what cannot be kept is refused in one sentence."""

import json
import os
import subprocess
import sys
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gardenlib import InputProblem, plot
from gardenlib.plot.model import HISTORY_KEPT


@pytest.fixture
def path(tmp_path):
    """Make a plot file with three saves in it."""
    file = tmp_path / "my_plot.json"
    plot.new(file)
    plot.update(file, "household", {"people": 2, "eat": [{"crop": "pea", "times_a_week": 2}]}, seen_revision=0)
    plot.update(file, "site", {"name": "Valley", "last_freeze_50": "04-25"}, seen_revision=1)
    plot.update(file, "guesses", {"zone": "6a"}, seen_revision=2)
    return file


def _shown(made):
    return made.model_dump(mode="json")


def test_what_was_saved_is_read_again(path):
    """A saved plot reads back as it was saved, dates as month and day."""
    made = plot.read(path)
    assert (made.revision, made.household.people, made.site.last_freeze_50) == (3, 2, (4, 25))
    assert [item.crop for item in made.household.eat] == ["pea"]
    assert made.guesses == {"zone": "6a"}
    assert made.notes == ()


def test_the_file_is_plain_json_with_the_named_sections(path):
    """The file is readable JSON and has the sections that the workbook promises."""
    tree = json.loads(path.read_text("utf-8"))
    named = {"version", "revision", "site", "soil", "beds", "plantings", "household", "log", "answers", "guesses"}
    assert named <= set(tree)
    assert path.read_text("utf-8").count("\n") > 20


def test_the_save_before_the_last_is_kept_beside(path):
    """The previous save lies beside the file with the ending .bak."""
    before = path.read_bytes()
    plot.update(path, "soil", {"notes": "clay"}, seen_revision=3)
    assert path.with_name("my_plot.json.bak").read_bytes() == before


def test_a_file_cut_anywhere_loses_nothing(path):
    """Cut at every tenth byte, the file is set aside as it is and the last save is opened whole."""
    whole, saved = path.read_bytes(), _shown(plot.read(path))
    cuts = range(0, len(whole) - 1, 10)
    for number, cut in enumerate(cuts, start=1):
        path.write_bytes(whole[:cut])
        opened = plot.read(path)
        assert _shown(opened) == saved, cut
        aside = path.with_name(f"my_plot.damaged-{number}.json")
        assert aside.read_bytes() == whole[:cut]
        assert aside.name in str(opened.notes[0])
    assert len(cuts) > 50
    assert path.read_bytes() == whole


def test_an_update_of_a_damaged_file_keeps_the_other_sections(path):
    """A save into a damaged file starts from the last good copy."""
    path.write_bytes(path.read_bytes()[:40])
    after = plot.update(path, "soil", {"notes": "clay"}, seen_revision=3)
    assert (after.household.people, after.soil.notes) == (2, "clay")
    assert after.notes


def test_with_no_second_copy_the_save_before_is_opened(path):
    """Where the hidden copy is gone too, the .bak file is opened."""
    path.with_name(".my_plot.json.last").unlink()
    path.write_text("{")
    assert plot.read(path).household.people == 2
    assert plot.read(path).guesses == {}


def test_with_no_good_copy_an_empty_plot_is_opened_and_said(tmp_path):
    """A file that is no plot at all is set aside and an empty plot takes its place."""
    path = tmp_path / "my_plot.json"
    path.write_bytes(b"\x89PNG\r\n\x1a\n\x00\x00")
    opened = plot.read(path)
    assert _shown(opened) == _shown(plot.empty())
    assert "my_plot.damaged-1.json" in str(opened.notes[0])
    assert (tmp_path / "my_plot.damaged-1.json").read_bytes().startswith(b"\x89PNG")


_SAVER = """
import sys
from gardenlib import plot
path, section, who = sys.argv[1:]
seen = plot.read(path).revision
for number in range(50):
    plot.update(path, section, {"notes": f"{who}{number}"}, seen_revision=seen)
    plot.update(path, "guesses", {f"{who}{number}": number}, seen_revision=seen)
"""


def _save_at_once(path, *jobs):
    running = [subprocess.Popen([sys.executable, "-c", _SAVER, str(path), *job]) for job in jobs]
    assert [process.wait(timeout=120) for process in running] == [0] * len(jobs)


def test_two_pages_saving_at_once_lose_nothing(path):
    """Two processes that save two sections and their guesses 50 times each keep every save."""
    _save_at_once(path, ("soil", "a"), ("site", "b"))
    made = plot.read(path)
    assert made.revision == 3 + 200
    assert (made.soil.notes, made.site.notes) == ("a49", "b49")
    assert set(made.guesses) == {"zone", *(f"{who}{n}" for who in "ab" for n in range(50))}


def test_sections_saved_apart_are_no_conflict(path):
    """A page that saves another section, or another guess, from an older view puts nothing in history."""
    plot.update(path, "soil", {"notes": "clay"}, seen_revision=2)
    plot.update(path, "site", {"name": "Hill"}, seen_revision=3)
    plot.update(path, "guesses", {"last_freeze": "may"}, seen_revision=0)
    assert plot.read(path).history == ()


def test_a_section_changed_meanwhile_keeps_the_earlier_value(path):
    """A save over a value that the page had not seen wins, and the earlier value is in history."""
    after = plot.update(path, "site", {"name": "Hill"}, seen_revision=1)
    assert after.site.name == "Hill"
    assert [(h.section, h.revision, h.value["name"]) for h in after.history] == [("site", 2, "Valley")]


def test_a_guess_changed_meanwhile_keeps_the_earlier_value(path):
    """The same holds for one guess, by its question."""
    after = plot.update(path, "guesses", {"zone": "5b"}, seen_revision=1)
    assert [(h.entry, h.value) for h in after.history] == [("zone", "6a")]


def test_history_keeps_the_newest(path):
    """History is bounded and drops the oldest first."""
    for number in range(HISTORY_KEPT + 5):
        plot.update(path, "soil", {"notes": str(number)}, seen_revision=0)
    kept = [h.value["notes"] for h in plot.read(path).history]
    assert kept == [str(n) for n in range(4, 4 + HISTORY_KEPT)]


@pytest.mark.parametrize("failing", [1, 2, 3])
def test_a_crash_before_the_replace_loses_nothing(path, monkeypatch, failing):
    """Power that fails between writing and replacing leaves the last save as it was."""
    whole, calls, real = path.read_bytes(), [], os.replace

    def stops(source, target):
        calls.append(target)
        if len(calls) == failing:
            raise KeyboardInterrupt
        real(source, target)

    monkeypatch.setattr(os, "replace", stops)
    with pytest.raises(KeyboardInterrupt):
        plot.update(path, "soil", {"notes": "clay"}, seen_revision=3)
    monkeypatch.undo()
    assert path.read_bytes() == whole
    assert plot.update(path, "soil", {"notes": "clay"}, seen_revision=3).revision == 4


def test_a_folder_that_cannot_be_written_is_one_sentence(path, monkeypatch):
    """Where the disk refuses, one sentence says so and the file is as it was."""
    whole = path.read_bytes()

    def refuses(*_):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(os, "replace", refuses)
    with pytest.raises(InputProblem, match=r"cannot be saved in .* Nothing was lost"):
        plot.update(path, "soil", {"notes": "clay"}, seen_revision=3)
    assert path.read_bytes() == whole


def test_a_folder_below_a_file_is_one_sentence(tmp_path):
    """A folder that cannot exist is named in one sentence."""
    (tmp_path / "file").write_text("")
    with pytest.raises(InputProblem, match="cannot be saved in"):
        plot.new(tmp_path / "file" / "my_plot.json")


def test_new_never_writes_over_a_plot(path):
    """A plot file that is there is not made anew."""
    whole = path.read_bytes()
    with pytest.raises(InputProblem, match="already"):
        plot.new(path)
    assert path.read_bytes() == whole


def test_a_missing_file_is_named(tmp_path):
    """Reading a plot that is not there names file and folder and makes nothing."""
    with pytest.raises(InputProblem, match=r"no plot file my_plot\.json"):
        plot.read(tmp_path / "my_plot.json")
    assert list(tmp_path.iterdir()) == []


def test_start_over_keeps_a_copy_and_what_stale_pages_save_is_not_lost(path):
    """Starting over keeps the old file; a page still open saves its own section only."""
    whole = path.read_bytes()
    copy = plot.start_over(path)
    assert copy.name == "my_plot.kept-1.json"
    assert copy.read_bytes() == whole
    assert plot.read(path).household.people is None
    assert plot.start_over(path).name == "my_plot.kept-2.json"
    after = plot.update(path, "site", {"name": "Hill"}, seen_revision=3)
    assert after.revision > 3
    assert after.household.people is None


def test_unknown_fields_survive(path):
    """Fields of a later workbook pass through a save, at the top and inside."""
    tree = json.loads(path.read_text())
    tree["bees"] = {"hives": [1, 2]}
    tree["site"]["fence"] = "deer"
    tree["household"]["eat"][0]["how"] = "raw"
    path.write_text(json.dumps(tree))
    plot.update(path, "soil", {"notes": "clay"}, seen_revision=3)
    after = json.loads(path.read_text())
    assert after["bees"] == {"hives": [1, 2]}
    assert after["site"]["fence"] == "deer"
    assert after["household"]["eat"][0]["how"] == "raw"


def test_a_later_version_is_read_and_not_saved(path):
    """A later workbook's file opens read-only, also where a section has an unknown form."""
    tree = json.loads(path.read_text())
    tree["version"], tree["beds"] = 2, {"north": {"rows": 3}}
    path.write_text(json.dumps(tree))
    whole = path.read_bytes()
    made = plot.read(path)
    assert made.read_only
    assert (made.household.people, made.beds) == (2, ())
    with pytest.raises(InputProblem, match="later workbook"):
        plot.update(path, "soil", {"notes": "clay"}, seen_revision=3)
    assert path.read_bytes() == whole


@pytest.mark.parametrize(
    ("section", "value", "says"),
    [
        ("site", {"latitude": 95}, "site, latitude in my_plot.json cannot be 95. It can be 90 at most."),
        ("site", {"last_freeze_50": "13-04"}, "site, last_freeze_50 in my_plot.json cannot be 13-04"),
        ("beds", [{"id": "a"}, {"id": "a"}], "Use each id once"),
        ("beds", [{"id": "a", "length_m": 0}], "beds, 1, length_m in my_plot.json cannot be 0. It must be above 0"),
        ("household", {"people": float("nan")}, "household in my_plot.json cannot be"),
        ("household", {"people": 2.5}, "household, people in my_plot.json cannot be 2.5"),
        ("site", {"name": "x" * 81}, "Use 80 letters or fewer"),
        ("plantings", [{"id": str(n), "crop": "pea"} for n in range(501)], "Keep 500 or fewer"),
        ("guesses", {"q": "\ud800"}, "guesses in my_plot.json cannot be"),
        ("guesses", ["q"], "by the name of each question"),
        ("weather", {}, "A plot file has no part weather"),
    ],
)
def test_what_cannot_be_kept_is_refused_in_one_sentence(path, section, value, says):
    """A value that a section cannot hold is named with its mend, and the file is as it was."""
    whole = path.read_bytes()
    with pytest.raises(InputProblem) as refusal:
        plot.update(path, section, value, seen_revision=3)
    assert says in str(refusal.value)
    assert path.read_bytes() == whole


def test_a_file_grown_too_large_is_refused(path):
    """A save that would make the file larger than 5 MB is refused and nothing is written."""
    whole = path.read_bytes()
    with pytest.raises(InputProblem, match="5 MB"):
        plot.update(path, "answers", {"essay": "x" * 5_000_001}, seen_revision=3)
    assert path.read_bytes() == whole


_words = st.text(max_size=40)
_json = st.recursive(
    st.none()
    | st.booleans()
    | st.integers(-(2**53), 2**53)
    | st.floats(allow_nan=False, allow_infinity=False)
    | _words,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(_words, inner, max_size=4),
    max_leaves=12,
)
_plots = st.builds(
    plot.Plot,
    site=st.builds(
        plot.Site,
        name=_words,
        latitude=st.none() | st.floats(-90, 90),
        last_freeze_50=st.none() | st.dates(date(2001, 1, 1), date(2001, 12, 31)).map(lambda d: (d.month, d.day)),
    ),
    beds=st.lists(st.builds(plot.Bed, id=st.text(min_size=1, max_size=8)), max_size=3, unique_by=lambda bed: bed.id),
    log=st.lists(st.builds(plot.LogEntry, day=st.dates(), tmin_c=st.none() | st.floats(-90, 60)), max_size=3),
    answers=st.dictionaries(_words, _json, max_size=4),
)


@settings(max_examples=60, deadline=None)
@given(made=_plots)
def test_any_plot_survives_the_file(made, tmp_path_factory):
    """What is written and read again is equal, for plots of any content."""
    path = tmp_path_factory.mktemp("plots") / "my_plot.json"
    plot.new(path)
    for section in ("site", "beds", "log", "answers"):
        plot.update(path, section, getattr(made, section), seen_revision=0)
    again = plot.read(path)
    for section in ("site", "beds", "log", "answers"):
        assert getattr(again, section) == getattr(made, section)


def test_pydantic_is_loaded_only_with_the_plot():
    """Importing the library or naming the plot room loads no pydantic."""
    code = "import sys, gardenlib, gardenlib.plot; assert 'pydantic' not in sys.modules; gardenlib.plot.empty"
    subprocess.run([sys.executable, "-c", code], check=True, cwd=Path(__file__).parent)


def test_a_file_held_by_another_program_is_one_sentence(path, monkeypatch):
    """Where another program holds the file too long, one sentence asks to wait, and nothing is written."""
    from filelock import FileLock

    from gardenlib.plot import disk

    monkeypatch.setattr(disk, "_LOCK_SECONDS", 0.05)
    whole = path.read_bytes()
    with FileLock(disk.beside(path, "lock")), pytest.raises(InputProblem, match="Another program is using"):
        plot.update(path, "soil", {"notes": "clay"}, seen_revision=3)
    assert path.read_bytes() == whole


@pytest.mark.parametrize("text", ["null", "[]", '"plot"', '{"version": "old"}', '{"beds": 3}', "[" * 3000])
def test_json_that_is_no_plot_is_set_aside(path, text):
    """A file that is JSON but no plot is set aside like a damaged one."""
    path.write_text(text)
    assert plot.read(path).household.people == 2
    assert path.with_name("my_plot.damaged-1.json").read_text() == text
