"""The day: 90 minutes, the class's own numbers, children kept from harm, and papers whole or not at all."""

import csv
import re
import shutil
import subprocess
import tomllib
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from gardenlib import InputProblem, class_check, class_folder
from gardenlib.class_folder import Contact, Meeting, new_class
from gardenlib.class_folder.new import PLANS
from gardenlib.classroom import day_papers
from gardenlib.classroom.day_lessons import LESSONS, lesson_of
from gardenlib.classroom.day_sheets import PAPERS, jobs, safety_talk
from gardenlib.classroom.lesson_paper import lesson_paper
from gardenlib.sheets import sheet_pdf
from gardenlib.words import Voice, texts

ROOT = Path(__file__).resolve().parents[2]
DAY = date(2027, 2, 20)
PAGES = sorted(path.stem for path in (ROOT / "notebooks").glob("0*.ipynb"))
# What no child does, for the substances and tools that can hurt: common practice, no source.
HARMFUL = r"\b(lime|dust|spray|sulphur|pesticide|lopper|saw|axe|ladder|knife|blade|power|lead|manure|boil)\w*"


@pytest.fixture(scope="module")
def demo():
    """Read the demo class."""
    return class_folder.read(ROOT / "data_demo")


def _meeting(page, title=""):
    return Meeting(DAY, title, page)


def _text(pdf):
    done = subprocess.run(["pdftotext", "-layout", "-", "-"], input=pdf, check=True, capture_output=True)
    return done.stdout.decode()


def _plain(pdf):
    return " ".join(_text(pdf).split())


def _talk(klass, page="02_soil"):
    lesson = lesson_of(klass, _meeting(page))
    return _text(sheet_pdf("day_safety", safety_talk(klass, _meeting(page), lesson), voice=lesson.voice))


# ---- the lessons ---------------------------------------------------------------------------


def test_every_page_has_a_lesson():
    """The pages 00 to 07 that lie in the workbook each have a lesson, and no other page has."""
    assert len(PAGES) == 8
    assert sorted(LESSONS) == PAGES


@pytest.mark.parametrize("page", PAGES)
def test_a_meeting_lasts_90_minutes(demo, page):
    """The five parts add up to the 90 minutes that are asked for, and each begins where the last one ended."""
    lesson = lesson_of(demo, _meeting(page))
    sheet = PAPERS["1_run_sheet"][1](demo, _meeting(page), lesson)
    minutes = [int(row["minutes"].split()[0]) for row in sheet["rows"]]
    starts = [int(row["from"].split()[1]) for row in sheet["rows"]]
    assert (len(minutes), sum(minutes)) == (5, 90)
    assert starts == [sum(minutes[:place]) for place in range(5)]


def test_a_meeting_without_a_lesson_is_one_sentence(demo, tmp_path):
    """A page that there is not is refused with the day and the pages that there are; nothing is written."""
    with pytest.raises(InputProblem, match=r"meeting of February 20 has 09_bees as its page.*05_pests"):
        day_papers(demo, _meeting("09_bees"), tmp_path / "out")
    assert not (tmp_path / "out").exists()


def test_every_sentence_of_the_day_is_printed(demo, monkeypatch):
    """All sentences of the day's words files are spoken on some paper of a lesson; none is left over."""
    spoken, say = set(), Voice.say

    def listening(voice, key, /, **values):
        spoken.add(key if isinstance(key, str) else key.key)
        return say(voice, key, **values)

    monkeypatch.setattr(Voice, "say", listening)
    nobody = replace(demo, learners={}, contacts=())
    for page in PAGES:
        meeting = _meeting(page)
        for klass in (demo, nobody):
            for _, words in PAPERS.values():
                words(klass, meeting, lesson_of(klass, meeting))
        lesson_paper(demo, meeting, lesson_of(demo, meeting))
    keys = {re.sub(r"\.(one|other)$", "", key) for key in texts("en") if key.startswith("day.")}
    assert {key for key in keys - spoken if not key.startswith("day.plan.")} == set()


# ---- safety --------------------------------------------------------------------------------


def test_the_class_s_numbers_stand_on_the_safety_talk(demo):
    """Each phone number of class.toml stands on the talk, beside its name."""
    told = tomllib.loads((ROOT / "data_demo" / "class.toml").read_text("utf-8"))["contacts"]
    lines = _talk(demo).splitlines()
    assert len(told) == 2
    for contact in told:
        assert any(contact["name"] in line and contact["phone"] in line for line in lines), contact


def test_a_class_without_contacts_gets_lines_to_fill_in(demo):
    """Without a contact, the emergency number and the person in charge are lines to write on."""
    said = _talk(replace(demo, contacts=()))
    assert "Emergency number here" in said
    assert "Who leads the class" in said
    assert "555" not in said


def test_an_emergency_number_of_the_class_takes_the_place_of_its_line(demo):
    """A contact whose role is emergency comes first, and its line to fill in is gone."""
    urgent = Contact("Ambulance (invented)", "Emergency", "", "555-0199")
    said = _talk(replace(demo, contacts=(*demo.contacts, urgent)))
    assert "Emergency number here" not in said
    assert said.index("555-0199") < said.index("555-0101")


@pytest.mark.parametrize("page", PAGES)
def test_no_child_gets_a_job_that_can_hurt(demo, page):
    """In no lesson does a job of a child name lime, dust, spray, lead, a lopper, a blade or the like."""
    told = jobs(demo, _meeting(page), lesson_of(demo, _meeting(page)))
    children = [*told["today"], *(may for _, may in told["ages"])]
    assert len(children) >= 6
    assert [job for job in children if re.search(HARMFUL, job, re.IGNORECASE)] == []


def test_what_adults_only_do_stands_before_the_children_s_jobs(demo):
    """On paper, lime, sprays and loppers are kept for adults before a child's first job is named."""
    told = jobs(demo, _meeting("02_soil"), lesson_of(demo, _meeting("02_soil")))
    said = _plain(sheet_pdf("day_jobs", told))
    adults = [said.index(word) for word in ("lime", "sprays", "loppers")]
    assert max(adults) < said.index("Children, with an adult") < said.index(told["today"][0][:20])


@pytest.mark.parametrize("large", [False, True])
def test_the_caution_on_lime_stands_before_its_amounts(demo, large):
    """On the lesson paper the caution comes before any finding, table or step on lime."""
    lesson = lesson_of(demo, _meeting("02_soil"))
    data = lesson_paper(demo, _meeting("02_soil"), lesson)
    said = _plain(sheet_pdf("day_lesson", data, voice=lesson.voice, large=large))
    caution = said.index("Lime dust hurts eyes and lungs")
    for amount in ("needs little lime", "times the least", "target pH"):
        assert caution < said.index(amount), amount


# ---- the lesson on paper -------------------------------------------------------------------


@pytest.mark.parametrize("page", PAGES)
def test_a_lesson_on_paper_has_findings_and_no_screen(demo, page):
    """Each lesson prints guesses, findings and a picture or table, and speaks of nothing that only a screen has."""
    data = lesson_paper(demo, _meeting(page), lesson_of(demo, _meeting(page)))
    assert data["guesses"]
    assert all(part["finding"] for part in data["parts"])
    assert any(part["chart"] or part["rows"] for part in data["parts"])
    said = " ".join(
        [*(part["finding"] for part in data["parts"]), *(n for part in data["parts"] for n in part["notes"])]
    )
    assert re.findall(r"\b(?:next fold|the fold|button|slider|click|screen)\b", said) == []
    assert [step["expression"] for part in data["parts"] for step in part["steps"] if "*" in step["expression"]] == []


def test_a_lesson_on_paper_is_of_the_class_s_own_place(tmp_path):
    """Other freeze dates in sites.csv are other findings on paper."""
    home = Path(shutil.copytree(ROOT / "data_demo", tmp_path / "class"))
    sites = home / "sites.csv"
    head, row = sites.read_text("utf-8").splitlines()[:2]
    cells = dict(zip(head.split(","), next(csv.reader([row])), strict=True))
    found = []
    for day in ("May 8", "May 11"):
        typed = cells | {"last_freeze_50": day, "station_file": "", "station_unit": "", "normals_file": ""}
        with sites.open("w", encoding="utf-8", newline="") as file:
            csv.writer(file).writerows([head.split(","), typed.values()])
        klass = class_folder.read(home)
        data = lesson_paper(klass, _meeting("01_site_and_zone"), lesson_of(klass, _meeting("01_site_and_zone")))
        found.append(data["parts"][0]["finding"])
    assert ["May 8" in found[0], "May 11" in found[0]] == [True, False]
    assert ["May 8" in found[1], "May 11" in found[1]] == [False, True]


# ---- titles and contacts that try something ------------------------------------------------


@pytest.mark.parametrize(
    "title",
    [
        "\u05d2\u05d9\u05e0\u05d4 \u05d9\u05e8\u05e7",
        "\u062d\u062f\u064a\u0642\u0629",
        '#panic("x") *bold* $x$ @ref <tag>',
        "\"quotes\" 'and' \\n",
        "=cmd()|' /C calc'!A0",
        "../../etc",
        "W" * 400,
    ],
)
def test_odd_titles_and_contacts_are_printed_as_they_are(demo, tmp_path, title):
    """Markup, quotes, formulas, paths, long words and right-to-left script are letters on all eight papers."""
    klass = replace(demo, title=title, contacts=(Contact(title, title, "", "555-0177"),), spray_rule=title)
    made = day_papers(klass, _meeting("02_soil", title), tmp_path / "out", paper="a4", large=True)
    assert len(made) == 8
    assert {path.parent for path in made} == {tmp_path / "out" / "day_2027-02-20_02_soil"}
    start = re.sub(r"\W", "", title)[:6]
    for path in (made[0], made[3], made[7]):
        assert start in re.sub(r"\W", "", _text(path.read_bytes()))
    assert "555-0177" in _text(made[3].read_bytes())


def test_letters_that_cannot_be_printed_are_one_sentence(demo, tmp_path):
    """A letter that the typeface lacks, such as an emoji, is named; nothing is written."""
    with pytest.raises(InputProblem, match="A printed page cannot show \N{SEEDLING}"):
        day_papers(demo, _meeting("02_soil", "Beans \N{SEEDLING}"), tmp_path / "out")
    assert not (tmp_path / "out").exists()


# ---- whole or not at all -------------------------------------------------------------------


def test_papers_are_written_whole_or_not_at_all(demo, tmp_path, monkeypatch):
    """A disk that fills up at the fourth paper leaves the papers that lay there before, and nothing half made."""
    out, meeting = tmp_path / "out", _meeting("03_beds")
    before = {path.name: path.read_bytes() for path in day_papers(demo, meeting, out)}
    write, written = Path.write_bytes, []

    def full(path, data):
        written.append(path)
        if len(written) == 4:
            raise OSError(28, "No space left on device")
        return write(path, data)

    monkeypatch.setattr(Path, "write_bytes", full)
    with pytest.raises(InputProblem, match="No space left"):
        day_papers(demo, meeting, out, large=True)
    assert [path.name for path in out.iterdir()] == ["day_2027-02-20_03_beds"]
    assert {path.name: path.read_bytes() for path in (out / "day_2027-02-20_03_beds").iterdir()} == before


def test_papers_printed_earlier_are_kept_and_other_files_left_alone(demo, tmp_path):
    """Printing again keeps the earlier papers beside; a folder with anything else in it is not touched."""
    meeting = _meeting("03_beds")
    first = day_papers(demo, meeting, tmp_path)[0].read_bytes()
    day_papers(demo, meeting, tmp_path, large=True)
    assert (tmp_path / "day_2027-02-20_03_beds.before-1" / "1_run_sheet.pdf").read_bytes() == first
    other = tmp_path / "day_2027-02-20_02_soil" / "notes.txt"
    other.parent.mkdir()
    other.write_text("mine")
    with pytest.raises(InputProblem, match="holds other files, so nothing was printed"):
        day_papers(demo, _meeting("02_soil"), tmp_path)
    assert [path.name for path in other.parent.iterdir()] == ["notes.txt"]


# ---- plans ---------------------------------------------------------------------------------


@pytest.mark.parametrize(("plan", "meetings"), [("saturday", 1), ("spring", 6), ("fall", 4), ("monthly", 10)])
def test_a_plan_is_written_and_its_dates_are_named_until_filled_in(tmp_path, plan, meetings):
    """A plan has as many meetings as asked for, each with title and lesson; check names each date that is unset."""
    home = new_class(tmp_path / "ours", plan=plan)
    written = tomllib.loads((home / "class.toml").read_text("utf-8"))["sessions"]
    assert len(written) == meetings
    assert all(one["title"] and one["page"] in LESSONS for one in written)
    said = [str(line) for line in class_check.check(home)]
    assert sum("sessions" in line and "date still says FILL-IN" in line for line in said) == meetings


def test_all_plans_are_tried_and_another_is_refused(tmp_path):
    """There are four plans; a name that is none of them makes no folder."""
    assert sorted(PLANS) == ["fall", "monthly", "saturday", "spring"]
    with pytest.raises(InputProblem, match="no plan winter"):
        new_class(tmp_path / "ours", plan="winter")
    assert not (tmp_path / "ours").exists()
