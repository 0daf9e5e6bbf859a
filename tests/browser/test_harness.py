"""The harness itself: the gate holds, and what `charts.show` leaves behind in a saved page."""

import json
from itertools import count

import nbformat
import pytest
from browser_harness import WIDE, gated_page, open_notebook, run_all, save, screenshot, stored
from playwright.sync_api import expect

from gardenlib.charts import page_css, theme

_number = count()

PANEL = """
import pandas as pd, ipywidgets as widgets
from datetime import date
from gardenlib import charts
from gardenlib.charts.drawing import Drawing
def view(plot):
    drawing = Drawing(date(2027, 1, 1), date(2027, 12, 31))
    drawing.at_left(20, f"picture of {plot}")
    drawing.dot((date(2027, 5, 6), 20), "#222222")
    table = pd.DataFrame({"plot": [plot], "day": ["May 6"]})
    return charts.View(f"The last freeze of {plot}.", table, charts.svg(drawing.chart(40)), f"alt of {plot}")
live = widgets.HTML(charts.html(view("Elm plot")))
shown = charts.show(live, view("Elm plot"))
"""
SWITCH = """
live.value = charts.html(view("Oak plot"))
shown.update(view("Oak plot"))
"""


@pytest.fixture
def write(folder):
    """Give a way to write a page of the given cells into the served folder; it gives the page's name."""

    def make(*cells):
        book = nbformat.v4.new_notebook(cells=[nbformat.v4.new_code_cell(cell.strip()) for cell in cells])
        book.metadata.kernelspec = {"name": "python3", "display_name": "Python 3", "language": "python"}
        name = f"harness_{next(_number)}.ipynb"
        nbformat.write(book, folder / name)
        return name

    return make


# True once a picture stands on the page, drawn, with a size.
DRAWN = """() => [...document.querySelectorAll('.jp-OutputArea img')]
  .some(image => image.complete && image.naturalWidth > 0 && image.getBoundingClientRect().width >= 280)"""


def test_gate_fails_a_page_that_asks_the_internet(chrome, lab, write):
    """A chart drawn the usual way asks for its scripts on the internet; the gate refuses and names it."""
    name = write("import altair as alt\nalt.Chart(alt.Data(values=[{'x': 1}])).mark_point().encode(x='x:Q')")
    with gated_page(chrome, WIDE) as page:
        open_notebook(page, lab, name)
        run_all(page)
        page.wait_for_timeout(500)
        assert any("//cdn." in address for address in page.outside)


def test_errors_of_cells_are_told(page, lab, write):
    """A cell that fails is given by `run_all` by name and words."""
    open_notebook(page, lab, write("1 + 1", "raise ValueError('look again')"))
    assert run_all(page) == ["ValueError: look again"]


def test_live_page_shows_the_widget_once(page, lab, write):
    """While a page runs there is one finding and one picture, those of the widget, in our typeface."""
    open_notebook(page, lab, write(PANEL))
    assert run_all(page) == []
    expect(page.locator(".gl-finding:visible")).to_have_count(1)
    expect(page.locator(".widget-html .gl-finding")).to_have_text("The last freeze of Elm plot.")
    expect(page.locator("svg text:visible", has_text="picture of Elm plot")).to_have_count(1)
    assert page.locator(".widget-html svg[role=img]").get_attribute("aria-label") == "alt of Elm plot"


def test_saved_copy_that_is_trusted_shows_finding_picture_and_numbers(page, lab, write, folder):
    """Opened again on the same machine without running, the page shows all but the controls, and no error."""
    name = write(PANEL)
    open_notebook(page, lab, name)
    assert run_all(page) == []
    save(page)
    again = f"again_{name}"
    (folder / again).write_bytes((folder / name).read_bytes())
    open_notebook(page, lab, again)
    expect(page.locator(".gl-finding:visible")).to_have_text("The last freeze of Elm plot.")
    page.wait_for_function(DRAWN)
    page.locator(".gl-figure summary").click()
    expect(page.locator("td", has_text="May 6")).to_be_visible()
    gone = page.get_by_text("Error displaying widget")
    expect(gone).to_have_count(1, timeout=30_000)
    expect(gone).to_be_hidden()
    screenshot(page, "saved_trusted")


def test_saved_copy_that_is_not_trusted_shows_the_words(page, lab, write, folder):
    """Opened on another machine, where nothing of it may run, the page still shows finding and numbers."""
    name = write(PANEL)
    open_notebook(page, lab, name)
    assert run_all(page) == []
    save(page)
    book = json.loads((folder / name).read_text("utf-8"))
    book["cells"][0]["source"] = ["# came from elsewhere"]
    for output in book["cells"][0]["outputs"]:
        output["metadata"] = {"came": "from elsewhere"}
    (folder / f"sent_{name}").write_text(json.dumps(book), "utf-8")
    open_notebook(page, lab, f"sent_{name}")
    assert not page.evaluate("window.jupyterapp.shell.currentWidget.content.widgets[0].model.trusted")
    expect(page.locator(".jp-OutputArea :text('The last freeze of Elm plot.'):visible")).to_have_count(1)
    page.locator(".jp-OutputArea summary").click()
    expect(page.locator("td", has_text="May 6")).to_be_visible()
    page.wait_for_function(DRAWN)
    screenshot(page, "saved_untrusted")


def test_another_plot_leaves_nothing_of_the_first(page, lab, write, folder):
    """After another plot is loaded neither the running page nor its saved copy holds a word of the first."""
    name = write(PANEL, SWITCH)
    open_notebook(page, lab, name)
    assert run_all(page) == []
    expect(page.locator(".gl-finding:visible")).to_have_text("The last freeze of Oak plot.")
    assert not any("Elm plot" in area.inner_html() for area in page.locator(".jp-OutputArea").all())
    save(page)
    kept = stored(folder, name)
    assert "picture of Oak plot" in kept
    assert "Elm plot" not in kept


CONTROLS = """
import ipywidgets as w
from gardenlib.charts import page_css
long = "A label that is long enough to need two lines on a phone that is held upright"
radio = w.RadioButtons(options=["one", "two", long], description=long)
w.VBox([w.HTML(page_css()), w.Button(description="Look again"), w.Dropdown(options=["a", "b"], description=long),
        w.Text(description=long), w.IntSlider(description=long), w.BoundedIntText(description=long),
        w.Checkbox(description=long), radio])
"""


def test_controls_on_a_phone_are_large_and_whole(phone, lab, write):
    """At 360 px every control is at least 44 px high, nothing sticks out and no label is cut."""
    open_notebook(phone, lab, write(CONTROLS))
    assert run_all(phone) == []
    phone.wait_for_selector(".widget-radio-box")
    screenshot(phone, "controls_phone")
    targets = (
        ".jupyter-button, select, .widget-text input, .widget-radio-box label, .widget-checkbox .widget-label-basic"
    )
    small = phone.evaluate(
        f"""() => [...document.querySelectorAll('.jp-OutputArea :is({targets})')]
        .map(e => [e.className + e.tagName, e.getBoundingClientRect().height]).filter(([, high]) => high < 44)"""
    )
    assert small == []
    outside = phone.evaluate(
        """() => [...document.querySelectorAll('.jp-OutputArea :is(.jupyter-widgets, input, label)')]
        .filter(e =>
          e.getBoundingClientRect().right > 360.5 || e.tagName === 'LABEL' && e.scrollWidth > e.clientWidth + 1)
        .map(e => e.outerHTML.slice(0, 120))"""
    )
    assert outside == []


def test_letters_are_as_wide_as_the_charts_reckon(page):
    """The browser sets words in the shipped typeface as wide as `text_px` says, but for kerning (3 in 100)."""
    page.set_content(page_css() + "<p style='font-family:Cabin'>a<b>b</b></p>")
    for bold in (False, True):
        for words in ("last freeze May 10", "Springs out of 10 with", "GARDEN opens: Wm & ij (3/4)", "harden off"):
            wide = page.evaluate(
                """async ([words, font]) => { await document.fonts.load(font, words);
                const c = document.createElement('canvas').getContext('2d'); c.font = font;
                return c.measureText(words).width; }""",
                [words, f"{'bold' if bold else 'normal'} {theme.LETTER_PX}px Cabin"],
            )
            assert theme.text_px(words, bold=bold) == pytest.approx(wide, rel=0.035)
