"""From a chart to its picture: days, ids, size and the quick import."""

import os
import re
import subprocess
import sys
from datetime import date, datetime

import pytest
import vl_convert

from gardenlib.charts import day, svg
from gardenlib.charts.drawing import Drawing, lanes
from gardenlib.charts.paper import Paper
from gardenlib.charts.render import VEGALITE

ZONES = ["America/Los_Angeles", "UTC", "Pacific/Auckland"]

MARK_DAYS = [date(2027, 1, 1), date(2027, 3, 14), date(2027, 4, 22), date(2027, 10, 3), date(2027, 12, 31)]

DRAW = """
from datetime import date
from gardenlib.charts import svg
from gardenlib.charts.drawing import Drawing
from gardenlib.words import Voice
drawing = Drawing(date(2027, 1, 1), date(2027, 12, 31), left=10, right=10)
for day in {days}:
    drawing.dot((date.fromisoformat(day), 20), "#0072B2")
drawing.months(40, Voice())
print(svg(drawing.chart(60)))
"""


@pytest.mark.parametrize("zone", ZONES)
def test_days_are_drawn_where_they_are_in_every_time_zone(zone):
    """A day's place is its share of the days passed, west and east of Greenwich and on days the clocks change."""
    code = DRAW.format(days=[d.isoformat() for d in MARK_DAYS])
    run = subprocess.run(
        [sys.executable, "-c", code], env={**os.environ, "TZ": zone}, capture_output=True, text=True, check=True
    )
    points = re.search(r"<g[^>]*mark-symbol[^>]*>(.*?)</g>", run.stdout).group(1)
    drawn = [float(x) for x in re.findall(r"translate\(([\d.]+),", points)]
    # One day is 260 px / 364 days = 0.7 px; an hour of summer time 0.03 px.
    expected = [10 + 260 * (d - MARK_DAYS[0]).days / 364 for d in MARK_DAYS]
    assert drawn == pytest.approx(expected, abs=0.1)
    assert re.findall(r">([A-Z][a-z]{2})</text>", run.stdout)[:2] == ["Jan", "Mar"]


def test_a_bare_date_would_be_drawn_a_day_early_in_the_west():
    """The reason for `day`: without a time, a chart in California draws the first of March on the last of February."""
    code = (
        "import vl_convert; from gardenlib.charts.quick_altair import alt;"
        "data = alt.Data(values=[{'d': when} for when in ('2027-03-01', '2027-03-01T00:00:00')]);"
        "chart = alt.Chart(data).mark_text().encode(x='d:T', text=alt.Text('d:T', format='%d-%m'));"
        f"print(vl_convert.vegalite_to_svg(chart.to_dict(), vl_version='{VEGALITE}'))"
    )
    env = {**os.environ, "TZ": "America/Los_Angeles"}
    run = subprocess.run([sys.executable, "-c", code], env=env, capture_output=True, text=True, check=True)
    assert re.findall(r">(\d\d-\d\d)</text>", run.stdout) == ["28-02", "01-03"]


def test_day_takes_dates_and_timestamps():
    """A date and a timestamp of the same day are written alike."""
    assert day(date(2027, 3, 1)) == day(datetime(2027, 3, 1, 17, 5)) == "2027-03-01T00:00:00"  # noqa: DTZ001


def every_kind(sheet, left, right):
    """Put one of each kind of mark on a sheet."""
    sheet.area([(left, 30), (right, 20)], 40, "#0072B2")
    sheet.shape([(left, 50), (right, 50), (right, 70)], "#009E73", fill="#009E73")
    sheet.line([(left, 80), (right, 90), (left, 95)], "#222222", dash=[4, 2])
    sheet.rule((left, 100), (right, 101), "#D55E00", width=3)
    sheet.dot((right, 110), "#222222", filled=False)
    for height, align in enumerate(("left", "center", "right")):
        sheet.text((right, 120 + 15 * height), "Pérez & co <b>", align=align, bold=align == "left", dx=-3.4)
    return sheet.chart(170)


@pytest.mark.parametrize(
    "chart",
    [
        every_kind(Paper(), 20.0, 200.0),
        every_kind(Drawing(date(2027, 1, 1), date(2027, 12, 31), left=9), date(2027, 2, 3), date(2027, 11, 5)),
    ],
    ids=["pixels", "days"],
)
def test_a_picture_is_the_one_that_the_whole_chart_gives(chart):
    """The drawing program's own picture of the whole chart (vl-convert) has the same marks and words, each in place."""
    whole = vl_convert.vegalite_to_svg(chart.to_dict(), vl_version=VEGALITE)
    parts = re.compile(
        r'(?:d|x2|y2|transform|text-anchor|font-size|font-weight|fill|stroke[a-z-]*|opacity)="[^"]*"|>[^<]+<'
    )
    own = [part for part in parts.findall(svg(chart)) if part not in {'stroke-linejoin="round"'}]
    assert own == [part for part in parts.findall(whole) if part not in {'stroke-linejoin="round"'}]
    assert len(own) > 60


def test_a_picture_holds_no_id():
    """Many pictures stand on one page: an id in two of them would be read as one."""
    text = svg(every_kind(Paper(), 20.0, 200.0))
    assert " id=" not in text
    assert "url(" not in text


def test_picture_fills_the_width_it_is_given():
    """A picture has a view box and no width of its own."""
    drawing = Drawing(date(2027, 1, 1), date(2027, 12, 31))
    drawing.at_left(10, "words")
    head = svg(drawing.chart(100)).split(">")[0]
    assert 'viewBox="0 0 280 100"' in head
    assert " width=" not in head


def test_words_of_a_picture_are_set_in_the_shipped_typeface():
    """Every word names the shipped face first."""
    drawing = Drawing(date(2027, 1, 1), date(2027, 12, 31))
    drawing.at_left(10, "words", bold=True)
    text = svg(drawing.chart(20))
    assert re.findall(r'font-family="([^"]+)"', text) == ["Cabin, sans-serif"]


def test_words_from_outside_are_escaped_in_the_picture():
    """A label that looks like markup is drawn as the letters it is."""
    drawing = Drawing(date(2027, 1, 1), date(2027, 12, 31))
    drawing.at_left(10, "<script>alert(1)</script> & co")
    text = svg(drawing.chart(20))
    assert "<script" not in text
    assert "&lt;script&gt;alert(1)&lt;/script&gt; &amp; co" in text


def test_words_that_would_touch_get_lanes_of_their_own():
    """No two stretches in one lane lie closer than the gap."""
    wanted = [(0, 50), (40, 60), (55, 80), (70, 75), (90, 100), (0, 100)]
    rows = lanes(wanted, gap=5)
    for i, (low, high) in enumerate(wanted):
        for j, (left, right) in enumerate(wanted[:i]):
            assert rows[i] != rows[j] or left - high >= 5 or low - right >= 5
    assert max(rows) < len(wanted) - 1


def run(code):
    """Run Python code in a process of its own and give what it prints."""
    return subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout.strip()


def test_the_room_loads_nothing_heavy():
    """Importing the room loads no Altair, pandas or widgets."""
    heavy = {"altair", "pandas", "ipywidgets", "babel", "vl_convert"}
    code = f"import sys, gardenlib.charts; print(*{heavy} & {{*sys.modules}})"
    assert run(code) == ""
