"""The instructor's view of a served class: who sees it, what it tells, and how it opens a page."""

import csv
import re
from html import unescape
from urllib.parse import urlencode

import pytest
from serving_harness import PAGE, Phone, served, wait_until

from gardenlib import plot
from gardenlib.words import texts

NEXT = "03_beds"
GUESS, MARK = "00.cold.guess", "00-cold-guess"
ENGLISH = texts("en")
CHANGES = ("/class/open", "/class/hands", "/class/leave")


@pytest.fixture(scope="module")
def klass(tmp_path_factory):
    """Serve a class of its own, whose pages are opened here."""
    with served(tmp_path_factory.mktemp("class")) as running:
        yield running


def _key(klass):
    return re.search(r"/class\?key=([\w-]+)", (klass.home / "server.log").read_text("utf-8"))[1]


@pytest.fixture(scope="module")
def view(klass):
    """Give the instructor's browser, let in by the address from the terminal."""
    browser = Phone(klass, "127.0.0.41")
    answer = browser.get(f"/class?key={_key(klass)}")
    assert answer.status == 303
    assert answer.headers["Location"] == "/class"
    assert {"HttpOnly", "SameSite=Strict"} <= set(answer.headers["Set-Cookie"].split("; "))
    browser.cookie = answer.headers["Set-Cookie"].split(";")[0]
    return browser


@pytest.fixture(scope="module")
def phones(klass):
    """Give four phones that came in, two of them with the page open."""
    four = [Phone(klass, f"127.0.0.{50 + number}") for number in range(4)]
    for number, phone in enumerate(four):
        phone.join(klass.codes[number])
    four[0].open()
    four[1].open()
    return four


def _seen(view, page=PAGE):
    """Give the view once the page's questions have been read."""

    def read():
        answer = view.get(f"/class/page/{page}")
        assert answer.status == 200
        return "" if ENGLISH["serving.class.waits"] in answer.text else answer.text

    return wait_until(read, 60)


def _rows(text, mark=MARK):
    """Read the table of a question: its answers with their two counts."""
    table = text.split(f'id="{mark}-rows"')[1].split("</table>")[0].split("<tbody>")[1]
    rows = [re.findall(r"<t[hd][^>]*>([^<]*)", row) for row in table.split("<tr>")[1:]]
    return {unescape(words): (phones, hands) for words, phones, hands in rows}


def _post(view, path, **fields):
    return view.ask("POST", path, urlencode(fields, doseq=True))


def _guess(klass, number, value):
    path = klass.plot(number)
    opened = plot.read(path) if path.exists() else plot.new(path)
    plot.update(path, "guesses", {GUESS: value}, seen_revision=opened.revision)


def test_view_is_for_the_instructor_alone(klass):
    """Strangers, learners, and a learner's cookie under the other name find nothing there."""
    stranger, learner = Phone(klass), Phone(klass, "127.0.0.42")
    learner.join(klass.codes[0])
    renamed = Phone(klass)
    renamed.cookie = learner.cookie.replace("garden_plot", "garden_class")
    for phone in (stranger, learner, renamed):
        assert phone.get("/class").status == 404
        assert phone.get(f"/class/page/{PAGE}").status == 404
        assert [_post(phone, path, page=NEXT).status for path in CHANGES] == [404, 404, 404]


def test_another_key_is_refused_and_slowed(klass):
    """Keys that do not fit are refused, and after a few tries even the right one must wait."""
    phone = Phone(klass, "127.0.0.43")
    assert [phone.get(f"/class?key={key}").status for key in ("", "x", "%00", "%C3%A9", _key(klass)[:-1])] == [403] * 5
    held = phone.get(f"/class?key={_key(klass)}")
    assert held.status == 429
    assert int(held.headers["Retry-After"]) >= 1
    assert Phone(klass, "127.0.0.44").get(f"/class?key={_key(klass)}").status == 303


def test_view_opens_no_page_of_a_learner(view, phones):
    """Whoever has the instructor's cookie alone stands before the door like everybody else."""
    assert view.get(f"/page/{PAGE}").headers["Location"] == "/"
    assert ENGLISH["serving.plot_code"] in view.get("/").text
    assert view.get(f"/api/kernels/{phones[0].kernel}").status == 404
    assert phones[0].get(f"/api/kernels/{phones[0].kernel}").status == 200


@pytest.mark.parametrize("origin", ["http://elsewhere.example", "null", ""])
def test_other_sites_change_nothing(klass, view, origin):
    """A form on another site's page opens no page and types no hands."""
    for path in CHANGES:
        assert view.ask("POST", path, urlencode({"page": NEXT}), Origin=origin).status == 403
    assert not (klass.work / "opened.json").exists()
    assert not (klass.work / "hands.json").exists()


def test_view_counts_learners_and_guesses_and_names_nobody(klass, view, phones):
    """It counts who is in and who guessed what, from three guesses on; no name, plot or code stands in it."""
    _guess(klass, 1, "some")
    _guess(klass, 2, "none")
    few = _seen(view)
    assert ENGLISH["serving.class.on_page.other"].format(n=2) in few
    assert ENGLISH["serving.class.there.other"].format(n=2) in few
    assert int(re.search(r'id="came"[^>]*>(\d+)', few)[1]) >= 4
    assert ENGLISH["serving.class.too_few"] in few
    assert {phones for phones, _ in _rows(few).values()} == {"–"}
    _guess(klass, 3, "some")
    _guess(klass, 4, "<script>alert(1)</script>")
    text = _seen(view)
    assert _rows(text) == {
        ENGLISH["start.cold_none"]: ("1", "0"),
        ENGLISH["start.cold_some"]: ("2", "0"),
        ENGLISH["start.cold_most"]: ("0", "0"),
        ENGLISH["serving.class.others"]: ("1", "–"),
    }
    assert "alert(1)" not in text
    with (klass.folder / "learners.csv").open(encoding="utf-8") as file:
        names = [row["display_name"] for row in csv.DictReader(file)]
    assert len(names) >= 4
    codes = [code for pairs in klass.codes for code in (pairs, pairs.replace(" ", ""))]
    assert [
        secret for secret in (*names, *codes, "plot_0", *(phone.kernel for phone in phones[:2])) if secret in text
    ] == []


def test_hands_are_typed_and_stay(klass, view):
    """Hands stand beside the guesses; what is no count is told in one sentence and changes nothing."""
    _seen(view)
    kept = _post(view, "/class/hands", page=PAGE, question=MARK, hands=["3", "", "12"])
    assert kept.status == 303
    assert [hands for _, hands in _rows(_seen(view)).values()][:3] == ["3", "0", "12"]
    refused = _post(view, "/class/hands", page=PAGE, question=MARK, hands=["3", "<b>", "1"])
    assert refused.status == 400
    assert "&lt;b&gt;" in refused.text
    assert [hands for _, hands in _rows(_seen(view)).values()][:3] == ["3", "0", "12"]
    for fields in ({"question": MARK, "hands": ["1"]}, {"question": "none", "hands": ["1", "1", "1"]}):
        assert _post(view, "/class/hands", page=PAGE, **fields).status == 400


def test_page_is_opened_for_all_once_it_is_ready(klass, view):
    """A learner's list shows the next page only when its kernel waits, and then at its head."""
    phone = Phone(klass, "127.0.0.46")
    phone.join(klass.codes[5])
    assert _post(view, "/class/open", page=NEXT).status == 303
    text, shown = view.get(f"/class/page/{PAGE}").text, phone.get("/").text
    assert ENGLISH["serving.class.filling"].format(done=0, n=1) in text
    assert f"/page/{NEXT}" not in shown
    assert phone.get(f"/page/{NEXT}").status == 404
    wait_until(lambda: f"/page/{NEXT}" in phone.get("/").text, 90)
    shown = phone.get("/").text
    assert shown.index(f"/page/{NEXT}") < shown.index(f"/page/{PAGE}")
    phone.open(NEXT)
    assert phone.get(f"/api/kernels/{phone.kernel}").status == 200
    assert _post(view, "/class/open", page="../codes").status == 400
