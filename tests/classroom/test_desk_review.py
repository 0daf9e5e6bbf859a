"""The page after homework: packs, a count in two minutes, replies, and a class view without names."""

import csv
import re
import shutil
import subprocess
from datetime import date
from html.parser import HTMLParser
from pathlib import Path

import pytest

from gardenlib.classroom import Desk, pack, review
from gardenlib.classroom.desk_review import Review
from gardenlib.cli import main
from gardenlib.homework import PackRecord, tally_from_csv
from gardenlib.words import Voice

DEMO = Path(__file__).resolve().parents[2] / "data_demo"
TODAY = date(2027, 3, 7)
HOSTILE = (
    "<script>alert(1)</script>",
    "=cmd()|' /C calc'!A0",
    "<img src=x onerror=alert(1)>",
    "\u202e\u05e9\u05dc\u05d5\u05dd 🥕 \x1b[2J",
)
CAN_ACT = {"script", "img", "iframe", "object", "embed", "link", "form", "a", "base", "meta"}


@pytest.fixture(scope="module")
def printed(tmp_path_factory):
    """Print the class sheet of the demo class once, and lay a copy beside it that was printed a day before."""
    klass = Path(shutil.copytree(DEMO, tmp_path_factory.mktemp("printed") / "class"))
    made = pack(klass, today=date(2027, 2, 2), session=2).folder
    earlier = Path(shutil.copytree(made, made.with_name("earlier"))) / "key" / "record.json"
    earlier.write_text(earlier.read_text("utf-8").replace("2027-02-02", "2027-02-01"), "utf-8")
    return klass


@pytest.fixture
def klass(printed, tmp_path):
    """Give a class folder of one's own, with its two packs."""
    return Path(shutil.copytree(printed, tmp_path / "class"))


@pytest.fixture
def folder(klass):
    """Give the pack with the class sheet."""
    return klass / "packs" / "2027-03-06-class"


def _open(klass, language=None):
    return Review(Desk("review_homework", klass.parent, klass, TODAY, language))


def _blanks(folder):
    return PackRecord.read(folder / "key" / "record.json").sheets[0].blanks()


def _type(folder, *learners):
    """Type answers off the paper: for each learner the answers in the order of the sheet."""
    (folder / "handed_in").mkdir(exist_ok=True)
    code, blanks = PackRecord.read(folder / "key" / "record.json").sheets[0].code, _blanks(folder)
    with (folder / "handed_in" / "answers.csv").open("w", encoding="utf-8", newline="") as file:
        table = csv.writer(file)
        table.writerow(["learner", "sheet_code", "blank_id", "answer"])
        for learner, answers in learners:
            table.writerows([learner, code, blank, text] for blank, text in zip(blanks, answers, strict=True))


def _right(folder):
    return [blank.shown for blank in _blanks(folder).values()]


def _words(html):
    return re.sub(r"<[^>]+>", " ", html)


def _pdf(path):
    return subprocess.run(["pdftotext", "-layout", path, "-"], check=True, capture_output=True).stdout.decode()


# ---- the pack --------------------------------------------------------------------------------


def test_packs_stand_last_first_and_a_damaged_one_is_one_sentence(klass, folder):
    """The pack printed last is open; one that cannot be read is listed, and says so when it is chosen."""
    page = _open(klass)
    assert page.open.folder == folder
    assert [path.name for _, path in page.packs.options] == ["2027-03-06-class", "earlier"]
    (folder / "key" / "record.json").write_text("{", "utf-8")
    page.list_packs()
    assert page.open is None
    assert "is damaged" in page.state.value
    page.mark_all()
    assert "No pack is open" in page.reply.value
    page.packs.value = klass / "packs" / "earlier"
    assert page.open.folder.name == "earlier"


def test_a_pack_elsewhere_is_opened_by_its_folder(klass, folder, tmp_path):
    """A folder that is typed or pasted in quotes is opened; one that is no pack is one sentence."""
    other = Path(shutil.move(folder, tmp_path / "on a stick"))
    page = _open(klass)
    page.path.value = f'"{other}"'
    assert page.open.folder == other
    page.path.value = "nowhere"
    assert "no record.json" in page.state.value
    assert page.open is None


def test_a_class_without_packs_says_what_to_do(tmp_path):
    """Each button answers with the same sentence."""
    page = _open(Path(shutil.copytree(DEMO, tmp_path / "class")))
    page.mark_all()
    page.lay_out()
    assert all("print one first" in part.value for part in (page.state, page.reply, page.laid))
    assert [step for step in ("choose", "count", "mark", "results") if getattr(page, step)() is not None] == []


def test_the_table_for_answers_is_laid_out_once(klass, folder):
    """The empty table is the one of the key; one that lies there stays as it is."""
    page = _open(klass)
    assert "none so far" in page.handed.value
    page.lay_out()
    target = folder / "handed_in" / "answers.csv"
    assert target.read_bytes() == (folder / "key" / "answers.csv").read_bytes()
    assert "answers.csv is there" in page.handed.value
    target.write_text("mine", "utf-8")
    page.lay_out()
    assert target.read_text("utf-8") == "mine"
    assert "left as it is" in page.laid.value


# ---- the count -------------------------------------------------------------------------------


def _count(page, **counts):
    """Type counts at the last question."""
    question = list(page.tally.fields)[-1][0]
    for reason, n in counts.items():
        page.tally.fields[question, reason].value = n
    return question


def test_a_count_is_kept_and_comes_back(klass, folder):
    """4 right and 6 that forgot a loss are 10 at that question, in the file, on the reopened page and in the view."""
    page = _open(klass)
    question = _count(page, holds=4, no_loss=6)
    assert "10 answers counted" in page.tally.sums[question].value
    page.tally.write()
    assert "10 answers" in page.tally.reply.value
    assert "Counted by hand: 10" in page.handed.value
    rows, told = tally_from_csv(folder / "handed_in" / "tally.csv", page.open.record)
    assert {(row.question, row.reason): row.n for row in rows} == {(question, "holds"): 4, (question, "no_loss"): 6}
    assert told == []
    again = _open(klass)
    assert again.tally.fields[question, "no_loss"].value == 6
    again.mark_all()
    view = again.marked.view
    assert list(view["n"]) == [6, 4]
    assert set(view["of"]) == {10}
    assert "6 of 10: You forgot the seedlings" in _words(again.seen.value)
    assert not list((folder / "handed_in").glob("*before*"))


def test_a_whole_pack_is_counted_within_two_minutes(klass):
    """Thirty sheets take one stroke a second: Tab to each field, the digits, and one press to keep (our own limit)."""
    page = _open(klass)
    parts = list(page.tally.children)
    fields = [part for part in parts[: parts.index(page.tally.keep)] if hasattr(part, "max")]
    assert fields == list(page.tally.fields.values())
    questions = len({question for question, _ in page.tally.fields})
    digits = questions * len("14" + "6" + "4" + "3" + "3")  # thirty sheets at each question, in five fields
    assert len(fields) - 1 + digits + len(["Tab", "Enter"]) <= 120
    assert all((field.min, field.value) == (0, 0) for field in fields)


def test_nothing_counted_before_is_lost(klass, folder):
    """Rows that cannot be used, and a file that changed meanwhile, are kept beside the new one."""
    page = _open(klass)
    question = _count(page, holds=2)
    page.tally.write()
    path = folder / "handed_in" / "tally.csv"
    meanwhile = path.read_text("utf-8-sig").replace("holds,2", "holds,9") + "99.other.4,x,holds,3\n"
    path.write_text(meanwhile, "utf-8")
    _count(page, no_loss=1)
    page.tally.write()
    assert (folder / "handed_in" / "tally.before-1.csv").read_text("utf-8") == meanwhile
    assert "tally.before-1.csv" in page.tally.reply.value
    rows, _ = tally_from_csv(path, page.open.record)
    assert {(row.question, row.reason): row.n for row in rows} == {(question, "holds"): 2, (question, "no_loss"): 1}
    page.tally.write()
    assert len(list((folder / "handed_in").iterdir())) == 2


def test_a_count_that_was_not_kept_yet_is_not_lost(klass, folder):
    """Looking again leaves the fields as they were typed, and marking keeps them first."""
    page = _open(klass)
    question = _count(page, holds=2)
    page.list_packs()
    assert page.tally.fields[question, "holds"].value == 2
    assert not (folder / "handed_in").exists()
    page.mark_all()
    assert list(page.marked.view["n"]) == [2]
    rows, _ = tally_from_csv(folder / "handed_in" / "tally.csv", page.open.record)
    assert [row.n for row in rows] == [2]


def test_a_count_that_cannot_be_written_leaves_the_old_one(klass, folder, monkeypatch):
    """The sentence names the file; what stood there stands there still, and what was typed is still in the fields."""
    page = _open(klass)
    question = _count(page, holds=2)
    page.tally.write()
    before = (folder / "handed_in" / "tally.csv").read_bytes()

    def full(*_):
        raise OSError(28, "No space left on device")

    _count(page, holds=5)
    monkeypatch.setattr("os.replace", full)
    page.tally.write()
    assert "tally.csv" in page.tally.reply.value
    assert "gl-again" in page.tally.reply.value
    assert (folder / "handed_in" / "tally.csv").read_bytes() == before
    assert page.tally.fields[question, "holds"].value == 5


# ---- marking ---------------------------------------------------------------------------------


def _slip(blank, slip_id):
    return next(slip.shown for slip in blank.slips if slip.id == slip_id)


def test_the_class_is_shown_without_names_and_what_to_say_next(klass, folder):
    """Chart, table and finding count reasons; no learner, no score; the slip made most stands first for next time."""
    right, last = _right(folder), list(_blanks(folder).values())[-1]
    forgot = [*right[:-1], _slip(last, "no_loss")]
    _type(folder, ("Quillon", right), ("Wrenna", forgot), ("Tamsin", forgot), ("Odelle", [*right[:-1], ""]))
    page = _open(klass)
    page.mark_all()
    shown, words = page.seen.value, _words(page.seen.value)
    assert "4 sheets were marked" in page.reply.value
    assert f"2 of 4: {next(slip.reply for slip in last.slips if slip.id == 'no_loss')}" in words
    assert "The answer is empty." in words
    assert 'role="img" aria-label="Bars of answers' in shown
    assert re.search(r"For the next meeting.*2 times: You forgot the seedlings.*Look again at page 04", words, re.S)
    for name in ("Quillon", "Wrenna", "Tamsin", "Odelle", "score", "%"):
        assert name not in words
    files = _words(page.files.value)
    assert all(path.name in files for path in (folder / "marked").iterdir())
    assert len(list((folder / "marked").glob("reply_*.pdf"))) == 4


@pytest.mark.parametrize("wanted", [False, True])
def test_scores_only_where_the_class_asked(klass, folder, wanted):
    """With `show_scores` the learner's reply counts what holds; without it no reply and no view does."""
    record = folder / "key" / "record.json"
    record.write_text(
        record.read_text("utf-8").replace('"show_scores": false', f'"show_scores": {str(wanted).lower()}')
    )
    right = _right(folder)
    _type(folder, ("L01", right), ("L02", [*right[:-1], ""]))
    page = _open(klass)
    page.mark_all()
    texts = [_pdf(path) for path in sorted((folder / "marked").glob("reply_L0*.pdf"))]
    assert [f"{holds} of 4 answers hold" in text for holds, text in zip((4, 3), texts, strict=True)] == [wanted] * 2
    assert "answers hold" not in _words(page.seen.value)


def test_page_and_command_say_the_same(klass, folder, capsys):
    """Every line of the command stands on the page, in the same words."""
    right = _right(folder)
    _type(folder, ("L01", right), ("L02", ["?", "zebra", *right[2:]]), ("L03", ["1"] * len(right)))
    (folder / "handed_in" / "half.json").write_text("{", "utf-8")
    page = _open(klass)
    page.mark_all()
    assert main(["mark", str(folder)]) == 0
    printed = capsys.readouterr().out.splitlines()
    assert printed == [Voice().say(line) for line in page.marked.lines]
    words = " ".join(_words(" ".join((page.reply.value, page.seen.value, page.told.value))).split())
    assert printed[0] in words
    assert printed[1] in words
    for reply, n in page.marked.view[["reply", "n"]].itertuples(index=False):
        assert re.search(rf"{re.escape(reply)} +{n} of 3", words.replace("\u00a0", " "))
    told = [line.removeprefix("Good to know: ") for line in printed if line.startswith("Good to know")]
    assert len(told) == 1
    assert told[0] in words


class _Parts(HTMLParser):
    """Collect tags with their attributes, and the words between them."""

    def __init__(self):
        super().__init__()
        self.tags, self.words = [], []

    def handle_starttag(self, tag, attrs):
        self.tags.append((tag, dict(attrs)))

    def handle_data(self, data):
        self.words.append(data)


def _html_of(widget):
    yield getattr(widget, "value", "") if type(widget).__name__ == "HTML" else ""
    for child in getattr(widget, "children", ()):
        yield from _html_of(child)


def test_what_was_handed_in_is_harmless_on_the_page(klass, folder):
    """Markup, formulas, emoji, turned letters and signs for a terminal stay words, or are left out."""
    right = _right(folder)
    _type(folder, *((text, [text, *right[1:]]) for text in HOSTILE), ("L01", right))
    (folder / "handed_in" / "<b onclick=x>\u202e.json").write_text("{", "utf-8")
    with (folder / "handed_in" / "answers.csv").open("a", encoding="utf-8") as file:
        file.write("L01,<script>alert(2)</script>\x1b[2J,x,1\n")
    page = _open(klass)
    page.mark_all()
    assert "5 sheets were marked" in page.reply.value
    values = [page.reply, page.seen, page.told, page.files, page.settled, page.handed]
    found = "".join([*(part.value for part in values), *_html_of(page.counting)])
    parts = _Parts()
    parts.feed(found)
    assert {tag for tag, _ in parts.tags} & CAN_ACT == set()
    assert [name for _, attrs in parts.tags for name in attrs if name.startswith("on")] == []
    assert "<script>alert(2)</script>" in "".join(parts.words)
    assert "\u202e" not in found
    assert "\x1b" not in found
    names = sorted(path.name for path in (folder / "marked").iterdir())
    assert all(re.fullmatch(r"[A-Za-z0-9_.-]+", name) for name in names)
    assert "<script>alert(1)</script>" in _pdf(folder / "marked" / "replies_1.pdf").replace("\u200b", "")
    with (folder / "marked" / "class_view.csv").open(encoding="utf-8-sig") as file:
        assert not [cell for row in csv.reader(file) for cell in row if cell.startswith(("=", "+", "@"))]


def test_an_instructor_reads_spanish(klass, folder):
    """With Spanish the page speaks Spanish; the foreseen mistakes stand as the sheets say them."""
    right = _right(folder)
    _type(folder, ("L01", right), ("L02", [*right[:-1], ""]))
    page = _open(klass, "es")
    page.mark_all()
    assert "Se revisaron 2 hojas" in page.reply.value
    assert "La respuesta está vacía." in _words(page.seen.value)
    assert "Respuestas tecleadas del papel" in page.handed.value


def test_review_gives_the_steps_of_the_page(klass):
    """What the page calls is the review with its four steps."""
    page = review(Desk("review_homework", klass.parent, klass, TODAY))
    assert isinstance(page, Review)
    page.choose()
    page.results()
    assert "not marked yet" in _words(page.settled.value)
