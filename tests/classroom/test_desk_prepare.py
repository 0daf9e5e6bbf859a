"""The instructor's page before a class: what it says of the folder, what it prints, and what it never loses."""

import re
import shutil
import subprocess
from datetime import date
from html import unescape
from pathlib import Path

import pytest

from gardenlib.carried import carried
from gardenlib.class_check import report
from gardenlib.class_folder import beside, new_class
from gardenlib.classroom import Desk, prepare
from gardenlib.classroom.ready import typed_folder
from gardenlib.homework import PackRecord
from gardenlib.words import Voice

TODAY = date(2027, 2, 22)  # between the demo's two meetings


pytestmark = pytest.mark.usefixtures("shown")


@pytest.fixture
def klass(tmp_path):
    """Copy the demo class, with its typed dates alone: a station's record takes longer to read."""
    folder = Path(shutil.copytree(carried("data_demo"), tmp_path / "class"))
    _change(folder / "sites.csv", "invented_pellowby_daily.csv", "")
    return folder


@pytest.fixture
def pages(tmp_path):
    """Make a folder of instructor's pages, as it is laid out."""
    (tmp_path / "work" / "instructor" / ".workbook").mkdir(parents=True)
    return tmp_path / "work" / "instructor"


def _opened(pages, klass, language=None, today=TODAY):
    return prepare(Desk("prepare_a_class", pages, klass, today, language))


def _files(folder):
    return {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def _text(part):
    """Read what a part shows, as a reader sees it."""
    return re.sub(r"<[^>]+>", "\n", part.value)


def _change(path, before, after):
    text = path.read_text("utf-8")
    assert before in text
    path.write_text(text.replace(before, after), "utf-8")


def _filled(folder):
    """Fill in what a new class must have to print, as an instructor does with an editor and a spreadsheet."""
    settings = folder / "class.toml"
    _change(settings, '\ntitle = "FILL-IN"', '\ntitle = "Elm Street (invented)"')
    _change(settings, 'units = "FILL-IN"', 'units = "us"')
    _change(settings, 'crops = ["FILL-IN"]', 'crops = ["pea", "tomato"]')
    _change(settings, 'date = "FILL-IN"\ntitle', "date = 2027-03-06\ntitle")
    columns = (folder / "sites.csv").read_text("utf-8").splitlines()[0]
    cells = {
        "site": "Elm",
        "latitude": "44",
        "last_freeze_50": "May 9",
        "first_freeze_50": "Oct 1",
        "dates_from": "leaflet",
    }
    row = ",".join(cells.get(column, "") for column in columns.split(","))
    (folder / "sites.csv").write_text(f"{columns}\n{row}\n", "utf-8")
    (folder / "plots.csv").write_text("plot,length_ft,width_ft\nclass-bed,12,4\n", "utf-8")
    (folder / "learners.csv").write_text("id,display_name\nL01,Ash (invented)\n", "utf-8")
    for name in ("crops.csv", "normals_monthly.csv", "words_local.csv"):
        text = (folder / name).read_text("utf-8")
        (folder / name).write_text(text.splitlines()[0] + "\n", "utf-8")


# ---- the class folder ----------------------------------------------------------------------


def test_a_ready_class_is_said_to_be_ready_and_its_next_meeting_is_chosen(pages, klass):
    """The title stands in the sentence, notes stand apart, and the first meeting that is not past is chosen."""
    page = _opened(pages, klass)
    assert "is ready for class" in _text(page.state)
    assert (page.stops.value, page.later.layout.display) == ("", "none")
    assert _text(page.notes).count("Good to know") == len(report(klass).notes) == 3
    assert page.meeting.label == "Sat, Mar 6, 2027: When to sow"
    assert [label.partition(": ")[2] for label, _ in page.meeting.options] == [
        "Our place and its freezes",
        "When to sow",
    ]


def test_looking_writes_nothing(pages, klass):
    """Opening the page and looking again change no file of the class."""
    before = _files(klass)
    _opened(pages, klass).look()
    assert _files(klass) == before


def test_every_finding_is_told_once(pages, tmp_path):
    """A new class: each finding of the check is shown, what stops printing first, what can wait in its fold."""
    folder = new_class(tmp_path / "new", plan="fall")
    page = _opened(pages, folder)
    told = _text(page.stops) + _text(page.can_wait)
    found = [Voice().say(said) for said in report(folder).mend]
    assert len(found) > 40
    assert all(told.count(sentence) == found.count(sentence) for sentence in found)
    assert "title still says FILL-IN" in _text(page.stops)
    for lacking in ("no meeting with a date", "names no crop", "length and width"):
        assert lacking in _text(page.stops)
    assert "spray_rule still says FILL-IN" in _text(page.can_wait)
    assert page.later.layout.display is None
    assert 'class="gl-again"' in page.state.value


def test_what_is_not_needed_to_print_does_not_stop(pages, klass):
    """With one open setting the class can be printed for, and the sentence says so."""
    _change(klass / "class.toml", 'class_word = "brook-2027"', 'class_word = "FILL-IN"')
    page = _opened(pages, klass)
    assert "You can print for Pellowby" in _text(page.state)
    assert page.stops.value == ""


@pytest.mark.parametrize(
    ("change", "told"),
    [
        (("class.toml", "[[sessions]]", "[[contacts]]"), "no meeting with a date"),
        (("plots.csv", "class-bed", "other-bed"), "length and width"),
    ],
)
def test_what_the_sheets_lack_is_told_before_printing(pages, klass, change, told):
    """Without a meeting or a measured bed the page says at once that it cannot print, and what to write where."""
    file, before, after = change
    _change(klass / file, before, after)
    page = _opened(pages, klass)
    assert told in _text(page.stops)
    assert "Not ready" in _text(page.state)


def test_a_folder_that_is_missing_is_one_sentence(pages, klass, tmp_path):
    """A folder that does not exist is named, escaped, and offers no meeting; nothing is printed."""
    page = _opened(pages, klass)
    page.path.value = str(tmp_path / "<script>alert(1)</script>")
    assert "&lt;script&gt;" in page.stops.value
    assert "<script" not in page.stops.value + page.state.value
    assert page.meeting.options == ()
    assert page.meeting.layout.display == "none"
    page.write()
    assert "Nothing was printed" in _text(page.reply)
    assert "<script" not in page.reply.value


def test_a_folder_that_may_not_be_read_is_one_sentence(pages, klass, monkeypatch):
    """Where the system refuses to show a folder, the sentence says why, and the log stays empty."""

    def refuse(_):
        raise PermissionError(13, "Permission denied")

    page = _opened(pages, klass)
    monkeypatch.setattr("gardenlib.class_folder.survey", refuse)
    page.look()
    assert "cannot be looked into (Permission denied)" in _text(page.state)
    assert not list(pages.glob("*.log"))


def test_words_of_the_class_are_never_html(pages, klass):
    """A title with a script in it is shown as it is written, in every part of the page."""
    hostile = "<script>alert(1)</script><img src=x onerror=alert(2)>"
    _change(klass / "class.toml", "Pellowby Hollow community garden (invented)", hostile)
    _change(klass / "class.toml", "When to sow", hostile)
    page = _opened(pages, klass)
    page.results()
    assert hostile in page.meeting.label
    for part in (page.state, page.settled, page.stops, page.notes):
        assert "<script" not in part.value
        assert "<img" not in part.value
    assert "&lt;script&gt;" in page.state.value
    assert "&lt;script&gt;" in page.settled.value


def test_names_of_folders_are_read_as_people_paste_them(tmp_path):
    """Quotes around a name fall away, and a short name is taken from the folder of the page."""
    assert typed_folder(f' "{tmp_path}" ', Path("/elsewhere")) == tmp_path
    assert typed_folder("class", tmp_path) == tmp_path / "class"
    assert typed_folder("~/class", tmp_path) == Path.home() / "class"


# ---- a new class folder --------------------------------------------------------------------


def test_a_new_class_is_made_filled_in_and_printed(pages, klass):
    """The button makes a folder with the plan's meeting and takes it; filled in, it prints."""
    page = _opened(pages, klass)
    page.plan.value = "saturday"
    page.make()
    folder = pages.parent / "my_class"
    assert page.path.value == str(folder)
    assert "class.toml first" in _text(page.made)
    assert beside(pages) == folder
    _filled(folder)
    page.look()
    assert page.stops.value == ""
    assert page.meeting.label.startswith("Sat, Mar 6, 2027: ")
    page.day.value = False
    page.write()
    assert "One sheet for learners is written" in _text(page.reply)
    assert (folder / "packs" / "2027-03-06-class" / "print" / "sheets_1.pdf").is_file()


def test_a_folder_that_holds_files_is_left_alone(pages, klass):
    """Making a class where files lie is refused in one sentence, and the page keeps its class."""
    page = _opened(pages, klass)
    before = _files(klass)
    page.new_path.value = str(klass)
    page.make()
    assert 'class="gl-again"' in page.made.value
    assert _files(klass) == before
    assert page.path.value == str(klass)


def test_a_class_that_is_not_there_yet_is_offered_to_be_made(pages, tmp_path):
    """Opened with a folder that does not exist, the page offers to make that one."""
    page = _opened(pages, tmp_path / "to_come")
    assert page.new_path.value == str(tmp_path / "to_come")
    page.make()
    assert (tmp_path / "to_come" / "class.toml").is_file()


# ---- printing ------------------------------------------------------------------------------


def _pages_of(path):
    """Count the pages of a PDF with another program (poppler)."""
    said = subprocess.run(["pdfinfo", path], check=True, capture_output=True, text=True).stdout
    return int(re.search(r"Pages: +(\d+)", said)[1])


def test_one_button_prints_all_and_names_each_file(pages, klass):
    """Sheets, key and papers of the day are written; each file is named, the key as not for learners; pages add up."""
    page = _opened(pages, klass)
    steps = []
    page.bar.observe(lambda change: steps.append((change["new"], page.bar.max)), "value")
    page.write()
    folder = klass / "packs" / "2027-03-06-class"
    assert str(folder) in _text(page.reply)
    assert PackRecord.read(folder / "key" / "record.json").sheets
    told = unescape(_text(page.files))
    assert "It is not for the learners' folder" in told
    there = {path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()}
    named = {one.name for one in page.stack.homework} | {
        f"{page.stack.day_folder.name}/{one.name}" for one in page.stack.day
    }
    assert there - named == {path for path in there if path.startswith("learners/")}
    assert named <= there
    assert all(one.name in told for one in (*page.stack.homework, *page.stack.day))
    for one in page.stack.homework:
        whom = Voice().say(one.whom)
        assert (whom == "learners") == one.name.startswith("print/")
    printed = [path for path in folder.rglob("*.pdf") if path.parent.name != "learners"]
    assert f"make {sum(map(_pages_of, printed))} pages" in _text(page.reply)
    assert [done for done, _ in steps] == sorted(done for done, _ in steps)
    assert steps[-1][0] == steps[-1][1]
    assert (page.go.disabled, page.bar.layout.display) == (False, "none")


def test_printing_again_keeps_what_was_printed(pages, klass):
    """The earlier stack, and work that was handed in there, lies beside the new one, and a line says where."""
    page = _opened(pages, klass)
    page.day.value = False
    page.write()
    work = klass / "packs" / "2027-03-06-class" / "handed_in"
    work.mkdir()
    (work / "answers.csv").write_text("kept", "utf-8")
    page.write()
    earlier = klass / "packs" / "2027-03-06-class.before-1"
    assert (earlier / "handed_in" / "answers.csv").read_text("utf-8") == "kept"
    assert str(earlier) in _text(page.files)


def test_what_cannot_be_printed_does_not_hold_up_the_rest(pages, klass):
    """A meeting whose page has no homework still gets its papers of the day, and one sentence says what is missing."""
    _change(klass / "class.toml", 'page = "04_sowing_calendar"', 'page = "00_start_here"')
    page = _opened(pages, klass)
    page.write()
    assert "There is no homework for the page 00_start_here" in _text(page.files)
    assert "The papers of the day are written" in _text(page.reply)
    assert len(list((klass / "packs").glob("day_2027-03-06_00_start_here/*.pdf"))) == len(page.stack.day) == 8


def test_nothing_chosen_and_no_crops_are_one_sentence_each(pages, klass):
    """Without a tick, or without any crop, nothing is written and the sentence says what to do."""
    page = _opened(pages, klass)
    page.sheets.value = page.day.value = False
    page.write()
    assert "Tick the sheets" in _text(page.reply)
    (klass / "class_plot.json").unlink()
    text = (klass / "class.toml").read_text("utf-8")
    (klass / "class.toml").write_text(re.sub(r"(?m)^crops = .*$", 'crops = ["FILL-IN"]', text), "utf-8")
    page.day.value = True
    page.write()
    assert "The class names no crop yet" in _text(page.reply)
    assert not (klass / "packs").exists()
    assert not list(pages.glob("*.log"))


def test_a_meeting_that_was_changed_meanwhile_is_asked_about(pages, klass):
    """When the chosen meeting is no longer in the folder, nothing is printed until the button is pressed again."""
    page = _opened(pages, klass)
    _change(klass / "class.toml", "2027-03-06", "2027-03-13")
    page.write()
    assert "The meetings have changed" in _text(page.reply)
    assert "Mar 13" in _text(page.reply)
    assert not (klass / "packs").exists()


def test_the_program_itself_is_never_written_into(pages):
    """With the invented class inside the program, the papers lie beside the page."""
    home = carried("data_demo")
    before = set(home.rglob("*"))
    page = _opened(pages, home)
    page.day.value = False
    page.write()
    assert set(home.rglob("*")) == before
    assert (pages / "packs" / "2027-03-06-class" / "print" / "sheets_1.pdf").is_file()


def test_an_unforeseen_fault_is_logged_and_the_button_comes_back(pages, klass, monkeypatch):
    """When the program breaks, one plain sentence is shown, the trace lies in a log, and one can try again."""

    def broken(*_, **__):
        raise RuntimeError("broken on purpose")

    page = _opened(pages, klass)
    monkeypatch.setattr("gardenlib.classroom.desk_prepare.print_stack", broken)
    page.write()
    assert "Something broke" in _text(page.reply)
    assert "broken on purpose" in next(pages.glob("*.log")).read_text("utf-8")
    assert page.go.disabled is False


# ---- what a saved copy keeps, and Spanish ---------------------------------------------------


def test_a_saved_copy_keeps_the_last_words(pages, klass, shown):
    """What is stored for a copy that is not run follows the folder that is chosen."""
    page = _opened(pages, klass)
    for step in (page.folder, page.choose, page.print, page.results):
        step()
    shown.clear()
    _change(klass / "class.toml", 'class_word = "brook-2027"', 'class_word = "FILL-IN"')
    page.look()
    assert any("You can print for" in bundle["text/plain"] for bundle in shown)
    assert all("text/plain" in bundle for bundle in shown)


def test_the_page_speaks_spanish(pages, klass):
    """In Spanish every label and sentence of the page is Spanish; only the class's own words stay."""
    page, english = _opened(pages, klass, "es"), _opened(pages, klass)
    for name in ("path", "new_path", "plan", "meeting", "kind", "paper", "sheets", "day", "go"):
        own, other = getattr(page, name).description, getattr(english, name).description
        assert own
        assert own != other or own == "Plan"
    assert "está lista" in _text(page.state)
