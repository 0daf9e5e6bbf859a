"""The plot log: a new line, planned against real, own days beside the book's, weights, and the bed's past."""

from datetime import date

import pytest

from gardenlib import InputProblem
from gardenlib.plot import LogEntry, Plot
from gardenlib.season import (
    PlannedDays,
    families_by_bed,
    lines_of,
    measure_of,
    new_entry,
    picked_and_given,
    planned_and_real,
    typed_day,
    typed_number,
    years_with,
)
from gardenlib.tables import crop, crop_from_packet

TODAY = date(2027, 8, 20)
SEASON = {"first": date(2027, 1, 1), "last": date(2027, 12, 31), "today": TODAY}
# An invented packet: 60 to 70 days from setting out, 85 to 95 from seed.
PACKET = crop_from_packet(
    {
        "crop": "squash_invented",
        "name": "invented squash",
        "family": "Cucurbitaceae",
        "hardiness": "tender",
        "method": "either",
        "transplant_wk_low": "2",
        "transplant_wk_high": "4",
        "direct_sow_wk_low": "1",
        "direct_sow_wk_high": "3",
        "days_from_transplant_low": "60",
        "days_from_transplant_high": "70",
        "days_from_seed_low": "85",
        "days_from_seed_high": "95",
        "source": "an invented packet",
    }
)


def _day(month, day):
    return date(2027, month, day)


def _line(month, day, did, **more):
    return LogEntry(day=_day(month, day), did=did, **{"crop": PACKET.id, **more})


def _plan(how="set_out", planting="p1"):
    return PlannedDays(planting=planting, crop=PACKET, how=how, days=(_day(5, 10), _day(5, 20)))


def _row(log, plan=None):
    return planned_and_real(log, [plan or _plan()], **SEASON).rows[0]


# ---- a new line ------------------------------------------------------------------------------------


def test_a_line_of_the_future_is_refused_with_both_days():
    """A day after today is refused, and the sentence names both days; today itself is kept."""
    with pytest.raises(InputProblem, match="August 21 is after today, August 20"):
        new_entry([], day=date(2027, 8, 21), did="watered", today=TODAY)
    assert new_entry([], day=TODAY, did="watered", today=TODAY).day == TODAY


def test_lines_of_the_future_are_left_out_and_said():
    """Lines that are in the log with a day to come count nowhere; every answer says how many."""
    log = [_line(5, 20, "set_out"), _line(9, 9, "picked", amount_kg=2.0), _line(10, 1, "given", amount_kg=1.0)]
    real, weights = planned_and_real(log, [_plan()], **SEASON), picked_and_given(log, **SEASON)
    assert real.rows[0].picked_from is None
    assert (weights.picked_kg, weights.given_kg) == (0.0, 0.0)
    for answer in (real, weights):
        assert [str(said) for said in answer.assumptions] == [
            "2 lines have a day after August 20. They are left out until then. Look at their dates."
        ]
    assert [line.day for line in lines_of(log, SEASON["first"], SEASON["last"], TODAY)] == [_day(5, 20)]


@pytest.mark.parametrize("weight", [-0.9, 0.0, float("nan"), float("inf"), 1e9])
def test_a_weight_that_cannot_be_is_one_sentence(weight):
    """Negative, nothing, not a number and huge weights are refused; the sentence says what can be."""
    with pytest.raises(InputProblem, match=r"cannot be\. Write more than 0 and at most 2,204\.6 lb"):
        new_entry([], day=TODAY, did="picked", today=TODAY, crop="pea", amount_kg=weight)


@pytest.mark.parametrize(
    ("did", "more", "words"),
    [
        ("picked", {}, "Say which plant"),
        ("watered", {"hours": 2.0}, "does not go with"),
        ("picked", {"crop": "pea", "plants": 4}, "does not go with"),
        ("set_out", {"crop": "pea", "plants": 2.5}, "whole number"),
        ("worked", {"hours": 25.0}, "cannot be"),
        ("danced", {}, "The log has no"),
    ],
)
def test_what_does_not_go_together_is_one_sentence(did, more, words):
    """A missing plant, a number of the wrong kind, half a plant and a long day each have a sentence."""
    with pytest.raises(InputProblem, match=words) as refused:
        new_entry([], day=TODAY, did=did, today=TODAY, **more)
    assert "\n" not in str(refused.value)


def test_the_same_line_twice_is_refused():
    """A second press saves nothing; a line that differs in one thing is kept, with an id of its own."""
    asked = {"day": TODAY, "did": "picked", "today": TODAY, "crop": "pea"}
    first = new_entry([], amount_kg=0.5, **asked)
    with pytest.raises(InputProblem, match="in the log already"):
        new_entry([first], amount_kg=0.5, **asked)
    second = new_entry([first], amount_kg=0.6, **asked)
    assert (first.id, second.id) == ("e1", "e2")


def test_an_old_log_still_reads():
    """A log of before, with a day, a text and a night's low alone, is read and counts nowhere."""
    plot = Plot.model_validate({"log": [{"day": "2027-04-09", "text": "cold", "tmin_c": -2.0}]})
    assert plot.log[0].tmin_c == -2.0
    assert picked_and_given(plot.log, **SEASON).table.empty
    assert planned_and_real(plot.log, [_plan()], **SEASON).rows[0].went_in is None


@pytest.mark.parametrize(
    ("typed", "words"),
    [("6,2", "with a point: 6.2"), ("six", "Write a number"), ("1e3", "Write a number"), ("nan", "Write a number")],
)
def test_a_number_that_is_none_is_one_sentence(typed, words):
    """A comma is never read as a point or as thousands."""
    with pytest.raises(InputProblem, match=words):
        typed_number(typed, what="how much")


@pytest.mark.parametrize("typed", ["Apr 25", "25 Apr", "2027-04-25", "4/25/2027", "April 25, 2027", "25 Apr 2027"])
def test_days_are_read_as_people_write_them(typed):
    """The same day in six ways; the year is that which is typed, else the one given."""
    assert typed_day(typed, what="the day", year=2027) == date(2027, 4, 25)


@pytest.mark.parametrize("typed", ["6,2", "4/5", "Feb 29", "2027-13-01", "soon", "9" * 50])
def test_a_day_that_is_none_is_one_sentence(typed):
    """No day, two days and a leap day in a common year are refused."""
    with pytest.raises(InputProblem):
        typed_day(typed, what="the day", year=2027)


def test_a_year_is_asked_for_where_none_can_be_known():
    """Without a year given, a day alone is refused and the mend shows one."""
    with pytest.raises(InputProblem, match="Write the year with it"):
        typed_day("Apr 25", what="the day")


def test_each_kind_has_its_measure():
    """Weights go with picking and giving, numbers with planting, hours with work, nothing with the rest."""
    kinds = ("sown", "set_out", "picked", "given", "worked", "watered", "covered", "looked", "other")
    measures = ["plants", "plants", "amount_kg", "amount_kg", "hours", None, None, None, None]
    assert [measure_of(kind) for kind in kinds] == measures


# ---- planned and real ------------------------------------------------------------------------------


@pytest.mark.parametrize(("day", "off"), [(_day(5, 7), -3), (_day(5, 10), 0), (_day(5, 20), 0), (_day(5, 24), 4)])
def test_days_off_count_from_the_nearer_end(day, off):
    """Before the window counts from its first day, after it from its last, inside it is as planned (calendar)."""
    assert _row([LogEntry(day=day, did="set_out", planting="p1")]).days_off == off


@pytest.mark.parametrize(
    ("picked", "own", "against"),
    [(_day(7, 18), 59, "sooner"), (_day(7, 19), 60, "within"), (_day(7, 29), 70, "within"), (_day(7, 30), 71, "later")],
)
def test_own_days_stand_beside_the_packet(picked, own, against):
    """From May 20 the calendar gives 59 to 71 days; the packet's range is 60 to 70, both ends included."""
    row = _row([_line(5, 20, "set_out"), LogEntry(day=picked, did="picked", planting="p1")])
    assert (row.own_days, row.against_book) == (own, against)
    assert (row.book_days.low, row.book_days.high) == (60, 70)


def test_days_from_seed_are_never_set_beside_days_from_plants():
    """Sown in place, the packet's 85 to 95 days from seed count, not its 60 to 70 from plants."""
    row = _row([_line(5, 20, "sown"), _line(8, 18, "picked")], _plan("direct_sow"))
    assert (row.own_days, row.book_days.low, row.book_days.high) == (90, 85, 95)
    assert row.against_book == "within"


def test_seed_sown_indoors_is_not_in_the_bed():
    """For a planting that is to be set out, sowing alone counts for nothing; setting out does."""
    assert _row([_line(4, 1, "sown")]).went_in is None
    assert _row([_line(4, 1, "sown"), _line(5, 20, "set_out")]).went_in == _day(5, 20)


def test_the_first_picking_counts_once():
    """Later pickings, and lines out of order, change nothing."""
    log = [_line(8, 9, "picked"), _line(7, 22, "picked"), _line(5, 20, "set_out"), _line(6, 3, "set_out")]
    assert _row(log).own_days == 63


def test_picked_before_it_was_planted_is_said():
    """Two days in the wrong order give no days and one sentence."""
    found = planned_and_real([_line(5, 20, "set_out"), _line(5, 2, "picked")], [_plan()], **SEASON)
    assert found.rows[0].own_days is None
    assert "picked before it was planted" in str(found.assumptions[0])


def test_a_crop_in_two_places_is_left_out_and_said():
    """A line with the crop alone cannot be told apart between two plantings of it; one with the planting can."""
    plans = [_plan(planting="p1"), _plan(planting="p2")]
    log = [_line(5, 20, "set_out"), _line(5, 22, "set_out", planting="p2")]
    found = planned_and_real(log, plans, **SEASON)
    assert [row.went_in for row in found.rows] == [None, _day(5, 22)]
    assert "more than one place" in str(found.assumptions[0])


def test_last_year_is_another_season():
    """A picking of last year is not this year's."""
    assert _row([LogEntry(day=date(2026, 7, 1), did="picked", planting="p1"), _line(5, 20, "set_out")]).own_days is None


def test_figures_from_memory_are_called_unchecked():
    """Where the book's days rest on memory the row and an assumption say so."""
    from gardenlib.sowing.windows import paths_of
    from gardenlib.tables import crops

    every = [crop(name) for name in crops().index]
    pairs = [(one, path) for one in every for path in paths_of(one) if path.days(one) is not None]
    one, path = next(pair for pair in pairs if pair[1].days(pair[0]).status == "memory")
    did = "set_out" if path.name == "set_out" else "sown"
    log = [LogEntry(day=_day(4, 1), did=did, crop=one.id), LogEntry(day=_day(7, 1), did="picked", crop=one.id)]
    found = planned_and_real(log, [PlannedDays(planting="x", crop=one, how=path.name)], **SEASON)
    assert found.rows[0].unchecked
    assert any(said.key == "sowing.days_unchecked" for said in found.assumptions)


# ---- weights ---------------------------------------------------------------------------------------


def test_weeks_begin_on_monday():
    """July 25, 2027 is a Sunday and July 26 a Monday (ISO 8601 weeks, by Python's own calendar)."""
    log = [_line(7, 25, "picked", amount_kg=1.0), _line(7, 26, "picked", amount_kg=2.0)]
    weeks = picked_and_given(log, **SEASON).by("week")
    assert [day.isocalendar()[1:] for day in weeks.index] == [(29, 1), (30, 1)]
    assert list(weeks["picked_kg"]) == [1.0, 2.0]


def test_sums_by_crop_and_what_has_no_weight():
    """Pickings and gifts are summed apart by crop; a line without a weight is counted and said."""
    log = [
        _line(7, 25, "picked", amount_kg=1.5),
        _line(8, 1, "picked", amount_kg=0.5),
        _line(8, 1, "given", amount_kg=0.5),
        _line(8, 2, "picked", crop="pea"),
        _line(8, 3, "given", crop="pea", amount_kg=0.2),
    ]
    found = picked_and_given(log, **SEASON)
    assert found.by("crop").loc[PACKET.id].tolist() == [2.0, 0.5]
    assert found.more_given == ("pea",)
    assert "no weight" in str(found.assumptions[0])


def test_an_empty_log_gives_nothing():
    """No lines: no rows and no weight, without an error."""
    found = picked_and_given([], **SEASON)
    assert (len(found.table), found.picked_kg, found.given_kg, found.more_given) == (0, 0.0, 0.0, ())


# ---- the bed's past --------------------------------------------------------------------------------

CROPS = {name: crop(name) for name in ("pea", "tomato")} | {PACKET.id: PACKET}


def test_families_come_from_what_really_grew():
    """Pea family Fabaceae, tomato Solanaceae (USDA PLANTS); tomato sown indoors and never set out did not grow."""
    log = [_line(4, 1, "sown", crop="tomato"), _line(4, 2, "sown", crop="pea")]
    where = {"beds": ["a"], "bed_of": {}, "crops": CROPS}
    assert families_by_bed(log, **where, **SEASON).by_bed == {"a": ("Fabaceae",)}
    log.append(_line(5, 20, "set_out", crop="tomato"))
    assert families_by_bed(log, **where, **SEASON).by_bed == {"a": ("Fabaceae", "Solanaceae")}


def test_a_crop_without_a_bed_is_named():
    """With two beds, a line that names no planting goes into neither and its crop is told."""
    log = [_line(4, 2, "sown", crop="pea", planting="p1"), _line(5, 20, "set_out")]
    found = families_by_bed(log, beds=["a", "b"], bed_of={"p1": "b"}, crops=CROPS, **SEASON)
    assert found.by_bed == {"b": ("Fabaceae",)}
    assert found.no_bed == (PACKET.id,)


def test_a_crop_that_is_gone_is_left_out():
    """A crop that the class took out of its list stops nothing."""
    log = [_line(4, 2, "picked", crop="gone")]
    assert families_by_bed(log, beds=["a"], bed_of={}, crops=CROPS, **SEASON).by_bed == {}


def test_earlier_years_move_down_and_none_is_lost():
    """A season stands before the earlier years; put in again it is joined and nothing moves; ten years are kept."""
    past = [(f"y{n}",) for n in range(9)]
    moved = years_with(past, ("new",), again=False)
    assert moved == (("new",), *past)
    assert years_with(moved, ("new", "more"), again=True) == (("new", "more"), *past)
    assert len(years_with(moved, ("next",), again=False)) == 10
