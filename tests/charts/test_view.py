"""A view as HTML, as words, and as it is shown."""

from base64 import b64decode
from html.parser import HTMLParser
from types import SimpleNamespace

import pandas as pd
import pytest

from gardenlib.charts import View, html, show, words
from gardenlib.words import Voice

NASTY = '<img src=x onerror="alert(1)"> & \'"'
TABLE = pd.DataFrame({"date": ["May 6", NASTY], "springs": [1, 10]})
PICTURE = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><g id="clip1"/></svg>'


class Reader(HTMLParser):
    """Collect tags, attributes and words."""

    def __init__(self, text):
        super().__init__()
        self.tags, self.words = [], []
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        """Keep a tag."""
        self.tags.append((tag, dict(attrs)))

    def handle_data(self, data):
        """Keep words."""
        self.words.append(data)

    def named(self, tag):
        """Give the attributes of each tag of this name."""
        return [attrs for name, attrs in self.tags if name == tag]


def test_every_word_is_escaped():
    """Finding, alt text, column names and cells that look like markup are read back as the letters they are."""
    table = TABLE.rename(columns={"date": NASTY + "1"})
    page = Reader(html(View(NASTY, table, PICTURE, NASTY)))
    assert page.named("img") == []
    assert page.words.count(NASTY) == 2
    assert NASTY + "1" in page.words
    assert page.named("svg")[0]["aria-label"] == NASTY


def test_figure_has_finding_picture_and_numbers():
    """The finding comes first, the picture is one image with its words, the numbers are a real table in a fold."""
    page = Reader(html(View("The last freeze is by May 6.", TABLE, PICTURE, "A curve falls."), Voice()))
    assert [tag for tag, _ in page.tags][:2] == ["figure", "figcaption"]
    assert page.named("svg")[0]["role"] == "img"
    assert [attrs["scope"] for attrs in page.named("th")] == ["col", "col"]
    assert len(page.named("td")) == 4
    assert "open" not in page.named("details")[0]
    assert Voice().say("charts.numbers") in page.words


def test_figure_without_picture_or_numbers_is_its_finding():
    """Nothing is drawn for what there is not, an empty table included."""
    page = Reader(html(View("No dates yet.", TABLE.iloc[:0], None, "")))
    assert [tag for tag, _ in page.tags] == ["figure", "figcaption"]


def test_words_hold_finding_and_every_number():
    """The plain text has the finding first and then each cell of the table."""
    lines = words(View("The last freeze is by May 6.", TABLE, PICTURE, "")).splitlines()
    assert lines[0] == "The last freeze is by May 6."
    assert lines[-2].split() == ["May", "6", "1"]


@pytest.fixture
def shown(monkeypatch):
    """Record what is displayed and updated, in turn."""
    record = []

    class Handle:
        def update(self, data, **_):
            record.append(("update", data))

    def display(data, *, raw, display_id=False):
        record.append(("display", data))
        assert raw
        return Handle() if display_id else None

    monkeypatch.setattr("IPython.display.display", display)
    return record


def test_show_gives_the_widget_and_a_stored_copy(shown):
    """The live widget is shown first, then finding, picture and numbers as HTML and as plain text."""
    view = View("First.", TABLE, PICTURE, "alt")
    show(SimpleNamespace(model_id="abc"), view)
    (_, live), (_, stored) = shown
    assert live["application/vnd.jupyter.widget-view+json"]["model_id"] == "abc"
    assert stored["text/plain"] == words(view)
    image = Reader(stored["text/html"]).named("img")[0]
    assert image["alt"] == "alt"
    kind, data = image["src"].split("base64,")
    assert kind == "data:image/svg+xml;"
    assert b64decode(data).decode() == PICTURE


def test_update_replaces_what_is_stored_and_leaves_the_widget(shown):
    """After another plot is loaded the stored copy holds the second view and no word of the first."""
    stored = show(SimpleNamespace(model_id="abc"), View("First.", None, None, ""))
    stored.update(View("Second.", None, None, ""))
    kind, data = shown[-1]
    assert kind == "update"
    assert data["text/plain"] == "Second."
    assert "First." not in data["text/html"]
    assert len(shown) == 3
