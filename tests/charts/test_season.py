"""The learner's own season and the sowings on it."""

import re
from datetime import date, timedelta

import numpy as np
import pandas as pd
import pytest

from gardenlib.charts import Mark, day_length, freeze_season, sowings, svg, theme, warmth
from gardenlib.charts.quick_altair import alt
from gardenlib.words import Voice

NORTH = (date(2027, 1, 1), date(2027, 12, 31))
SOUTH = (date(2027, 7, 1), date(2028, 6, 30))
EVENTS = ["sow_indoors", "harden_off", "set_out", "direct_sow", "harvest"]


def curves(season):
    """Make a risk that falls by a tenth each five days from day 80, and rises so from day 270."""
    spring = pd.DataFrame({"half": "spring", "day": pd.date_range(season[0], periods=200)})
    fall = pd.DataFrame({"half": "fall", "day": pd.date_range(season[0] + timedelta(days=200), season[1])})
    spring["risk"] = np.clip(1 - (np.arange(200) - 80) / 50, 0, 1)
    fall["risk"] = np.clip((np.arange(len(fall)) - 70) / 50, 0, 1)
    return pd.concat([spring, fall])


def texts(picture):
    """Read the words of a picture."""
    return re.findall(r">([^<>]+)</text>", picture)


def dots(picture):
    """Read where its dots are."""
    groups = re.findall(r"<g[^>]*mark-symbol[^>]*>(.*?)</g>", picture)
    return [(float(x), float(y)) for x, y in re.findall(r"translate\(([\d.]+),([\d.]+)\)", "".join(groups))]


def drawn(chart):
    """Draw a chart, having checked it against its grammar."""
    alt.LayerChart.from_dict(chart.to_dict(), validate=True)
    return svg(chart)


@pytest.mark.parametrize("season", [NORTH, SOUTH], ids=["north", "south"])
def test_dates_are_read_off_the_curve_at_the_chosen_risk(season):
    """A date at 1 in 10 stands on the curve, on the rule at 1 of 10, with its name and date."""
    last = season[0] + timedelta(days=125)  # 1 - 45 / 50
    first = season[0] + timedelta(days=275)  # 5 / 50
    marks = [Mark(last, "last freeze"), Mark(first, "first freeze")]
    picture = drawn(freeze_season(curves(season), season=season, voice=Voice(), risk=0.1, marks=marks))
    (_, high), (_, low) = dots(picture)
    rules = re.findall(r'<line transform="translate\(20,([\d.]+)\)" x2="([\d.]+)"', picture)
    across = [float(y) for y, wide in rules if float(wide) > 200]
    foot, top = max(across), min(across)
    assert high == low == pytest.approx(foot - (foot - top) / 10, abs=0.6)
    assert {"0", "1", "5", "10"} <= set(texts(picture))
    for mark in marks:
        assert f"{mark.label} {Voice().date(mark.day, 'MMMd')}" in texts(picture)


def test_the_south_runs_over_the_turn_of_the_year():
    """In the south the months run from winter to winter, with January inside."""
    names = [t for t in texts(drawn(freeze_season(curves(SOUTH), season=SOUTH, voice=Voice()))) if len(t) == 3]
    order = [name for name in names if name in {"Sep", "Nov", "Jan", "Mar", "Oct", "Dec", "Feb"}]
    months = [["Sep", "Oct", "Nov", "Dec", "Jan", "Feb", "Mar"].index(name) for name in order]
    assert months == sorted(months)
    assert {"Sep", "Oct"} & set(order)
    assert {"Jan", "Feb"} & set(order)


def test_one_half_alone_says_only_what_it_knows():
    """With springs alone there is one curve and no word about falls."""
    data = curves(NORTH)
    picture = drawn(freeze_season(data[data["half"] == "spring"], season=NORTH, voice=Voice()))
    assert any("Springs" in text for text in texts(picture))
    assert not any("Falls" in text for text in texts(picture))
    assert len(re.findall(rf'<path[^>]*stroke="{theme.COLD}"', picture)) == 1


def test_published_risks_go_on_as_a_dashed_line():
    """Where the source stops at 9 in 10, the line goes on dashed: the risk is at least that."""
    data = curves(NORTH)
    data = data[data["risk"].between(0.1, 0.9)]
    picture = drawn(freeze_season(data, season=NORTH, voice=Voice()))
    assert picture.count('stroke-dasharray="3,4"') == 2


def test_typed_dates_invent_no_spread():
    """With one date a half there is no curve, no count out of ten, and the reason is written in."""
    marks = [Mark(date(2027, 4, 22), "last freeze"), Mark(date(2027, 10, 12), "first freeze")]
    picture = drawn(freeze_season(None, season=NORTH, voice=Voice(), marks=marks, note="The middle dates only."))
    assert theme.COLD not in picture
    assert "10" not in texts(picture)
    assert "The middle dates only." in texts(picture)
    assert len(dots(picture)) == 2


def test_a_place_without_freezes_shows_a_year_and_says_so():
    """Curves that are nought all year draw no curve; the note is what is read."""
    data = curves(NORTH).assign(risk=0.0)
    picture = drawn(freeze_season(data, season=NORTH, voice=Voice(), note="No freeze in this record."))
    assert theme.COLD not in picture
    assert "No freeze in this record." in texts(picture)


def test_few_years_are_drawn_one_ring_a_season():
    """Eight springs are eight rings, none on another."""
    days = [date(2027, 4, 20)] * 3 + [date(2027, 4, 21), date(2027, 4, 28)] + [date(2027, 5, 2)] * 3
    few = pd.DataFrame({"half": "spring", "day": pd.to_datetime(days)})
    rings = dots(drawn(freeze_season(None, season=NORTH, voice=Voice(), dots=few)))
    assert len(rings) == 8
    assert all(abs(a - x) + abs(b - y) >= 7 for i, (a, b) in enumerate(rings) for x, y in rings[:i])


def test_labels_stay_inside_the_picture_and_apart():
    """Five dates in a short mountain season: no label leaves the picture, none lies on another."""
    marks = [
        Mark(date(2027, 6, 22), "last freeze"),
        Mark(date(2027, 6, 15), "at the station", "station"),
        Mark(date(2027, 8, 20), "first freeze"),
    ]
    opens, closes = date(2027, 5, 15), date(2027, 9, 30)
    season = freeze_season(curves(NORTH), season=NORTH, voice=Voice(), marks=marks, opens=opens, closes=closes)
    boxes = []
    for x, y, text in re.findall(r'translate\(([\d.-]+),([\d.-]+)\)"[^>]*>([a-z][^<]*\d)</text>', drawn(season)):
        wide = theme.text_px(text, bold="freeze" in text)
        boxes.append((float(x), float(x) + wide, float(y)))
        assert float(x) >= -0.5
        assert float(x) + wide <= theme.CHART_PX + 0.5
    assert len(boxes) == 5
    for i, (left, right, y) in enumerate(boxes):
        for low, high, other in boxes[:i]:
            assert abs(y - other) >= 12 or right <= low or high <= left


def lines(*rows):
    """Make a table of events."""
    return pd.DataFrame(rows, columns=["label", "event", "start", "end"])


def one_line(event):
    """Draw one planting with one event."""
    start, end = date(2027, 5, 1), date(2027, 5, 29)
    return drawn(sowings(None, lines(("Kale", event, start, end)), season=NORTH, voice=Voice()))


@pytest.mark.parametrize("event", EVENTS)
def test_every_event_is_named_at_its_line(event):
    """The crop stands above its line and the event's name below it."""
    found = texts(one_line(event))
    assert "Kale" in found
    assert Voice().say(f"charts.event.{event}") in found


def test_events_are_told_apart_without_colour():
    """With all hues turned to ink no two events look alike."""
    looks = set()
    for event in EVENTS:
        grey = re.sub(r"#(?!FFFFFF)[0-9A-F]{6}", "#000000", one_line(event))
        grey = re.sub(r"<text.*?</text>", "", re.sub(r"g[0-9a-f]{8}-", "", grey))
        looks.add(grey)
    assert len(looks) == len(EVENTS)


def test_a_single_day_can_be_seen():
    """An event of one day is still drawn with a width."""
    day = date(2027, 5, 1)
    picture = drawn(sowings(None, lines(("Kale", "set_out", day, day)), season=NORTH, voice=Voice()))
    widths = [float(x) for x in re.findall(r'x2="([\d.]+)"[^>]*stroke-width="9"', picture)]
    assert widths
    assert min(widths) > 1


def test_plantings_keep_their_order_and_their_lines():
    """Rows of one label share a line; labels stand in the order given, also one from outside with markup."""
    rows = lines(
        ("Peas <b>", "direct_sow", date(2027, 4, 1), date(2027, 4, 20)),
        ("Tomato", "set_out", date(2027, 5, 10), date(2027, 6, 1)),
        ("Peas <b>", "harvest", date(2027, 6, 1), date(2027, 6, 30)),
    )
    picture = drawn(sowings(curves(NORTH), rows, season=NORTH, voice=Voice(), risk=0.1))
    names = [text for text in texts(picture) if text.startswith(("Peas", "Tomato"))]
    assert names == ["Peas &lt;b&gt;", "Tomato"]


def test_warmth_is_read_in_the_units_of_the_class():
    """The same year has 68 on its axis for 20 degrees Celsius in US units: ticks reach 80, not 30."""
    year = pd.DataFrame({"day": pd.date_range("2027-01-01", "2027-12-31"), "mean_c": np.linspace(0, 25, 365)})
    us = texts(drawn(warmth(year, voice=Voice())))
    metric = texts(drawn(warmth(year, voice=Voice(units="metric"))))
    assert "80" in us
    assert "80" not in metric
    assert "25" in metric
    assert any("°F" in text for text in us)
    assert any("°C" in text for text in metric)


def test_limits_are_named_at_the_line():
    """A limit's name is written and its line dashed, so that it is no curve."""
    year = pd.DataFrame({"day": pd.date_range("2027-01-01", "2027-12-31"), "hours": np.linspace(9, 15, 365)})
    marks = [(date(2027, 3, 1), "ten hours")]
    picture = drawn(day_length(year, voice=Voice(), limits=[(14, "long days for onions", "growing")], marks=marks))
    assert "long days for onions" in texts(picture)
    assert "ten hours Mar 1" in texts(picture)
    assert 'stroke-dasharray="6,4"' in picture
