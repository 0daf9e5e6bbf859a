"""Page 06: how long it stays good, what to eat first, and why it wilts."""

import pytest

from gardenlib import panels
from gardenlib.panels.harvest import keep
from gardenlib.panels.harvest.store_controls import storable
from gardenlib.panels.panel import Panel

OWN = {"06.keep.guess": "weeks", "06.eatfirst.guess": "soonest", "06.air.guess": "third"}


def _session(open_session, units="us", **how):
    session = open_session(guesses=how.pop("guesses", OWN), **how)
    session.save_fields("household", units=units)
    return session


def _inside(session, which):
    fold = getattr(panels.harvest, which).fold(session)
    fold.opener.value = True
    return fold._body.children[0].children


def test_the_guess_comes_first_and_the_caution_before_it(open_session):
    """Nothing is shown before a guess; that it is not about safety stands at the head."""
    panel = panels.harvest.keep.panel(_session(open_session, guesses={}))
    assert panel.view is None
    assert "not how long it stays safe" in panel.children[0].value
    assert "throw it out" in panel.children[0].value
    panel.children[1].answers.index = 0
    panel.children[1].children[2].click()
    assert panel.view.chart


@pytest.mark.parametrize("units", ["us", "metric"])
def test_a_cabbage_in_the_fridge(open_session, units):
    """Western Australia prints 2 to 6 weeks at 4 C; all sources that reach so far stand in the table."""
    panel = panels.harvest.keep.panel(_session(open_session, units))
    panel.controls["crop"].value = "cabbage_main"
    assert "2 to 6 weeks" in panel.view.finding
    assert list(panel.view.table.iloc[:, 2])[-1] == "7 to 14 days"
    marks = ("32 °F", "40 °F") if units == "us" else ("0 °C", "4 °C")
    assert all(mark in panel.view.chart for mark in marks)


def test_the_place_decides(open_session):
    """At 32 F it is 4 to 16 weeks; at 29 F it freezes and no life is told; at 68 F one week is left."""
    panel = panels.harvest.keep.panel(_session(open_session))
    panel.controls["crop"].value = "cabbage_main"
    panel.controls["temp_us"].value = 32
    assert "4 to 16 weeks" in panel.view.finding
    panel.controls["temp_us"].value = 29
    assert "32 to 68 °F only" in panel.view.finding
    assert "freezes at 30.4 °F" in panel.notes.value
    panel.controls["temp_us"].value = 68
    assert "7 days" in panel.view.finding


def test_chill_gas_and_air_stand_beside_it(open_session):
    """Cold hurts a cucumber at 40 F; onions want dry air; an unchecked figure is called so; tomatoes give off gas."""
    panel = panels.harvest.keep.panel(_session(open_session))
    panel.controls["crop"].value = "cucumber"
    panel.controls["temp_us"].value = 42
    assert "cold hurts it below 50 °F" in panel.notes.value
    assert "unchecked" in panel.notes.value
    panel.controls["crop"].value = "onion_sets"
    assert "dry air" in panel.notes.value
    panel.controls["crop"].value = "tomato"
    assert "give off a gas" in panel.notes.value
    assert panel.view.chart is None
    panel.controls["temp_us"].value = 52
    assert "full-grown green ones" in panel.view.finding


def test_a_source_that_is_silent(open_session):
    """A source without a figure for the crop says who has one, by names that can be read."""
    panel = panels.harvest.keep.panel(_session(open_session))
    panel.controls["crop"].value = "kale"
    panel.controls["source"].value = "davis_carrot"
    assert "prints nothing for kale" in panel.view.finding
    assert "New England guide" in panel.view.finding
    assert "_" not in panel.view.finding


def test_every_crop_and_source_can_be_shown(open_session):
    """No choice of crop, source and thermometer breaks the panel."""
    session = _session(open_session)
    controls = keep._controls(session)
    for crop in storable(session):
        for _, source in controls["source"].options:
            for temp in (-10, 32, 52, 110):
                values = {"crop": crop, "temp_us": temp, "source": source}
                shown = keep.view(session, values) if temp == 52 else None
                assert shown is None or shown.finding
                assert keep._working(session, values).assumptions
                keep._notes(session, values)


def test_each_slip_has_its_reply(open_session):
    """The months of the book, the weeks of the fridge: each gets its own sentence; what holds stands in no panel.

    By hand from the Western Australian figures of 14 to 42 days at 4 °C and 7 days at 20 °C, falling by equal shares:
    at 60 °F, 15.6 °C, 14 x 0.5^0.722 = 8.5 and 42 x (1/6)^0.722 = 11.5 days, in whole days outward.
    """
    box = panels.harvest.keep.check(_session(open_session))
    replies = {reply.value: reply for reply in box._replies.values()}
    assert [value for value, reply in replies.items() if reply.holds] == ["right"]
    assert len({reply.reply.key for reply in replies.values()}) == 3
    assert [label for label, value in box.answers.options if value == "right"] == ["for 8 to 12 days"]
    assert [label for label, value in box.answers.options if value == "book"] == ["for 3 to 6 months"]


def test_a_list_of_one_s_own(open_session):
    """The example gives way to the learner's lots, a slip changes nothing, and the list can be emptied."""
    session = _session(open_session)
    order, add, empty, *_ = _inside(session, "eat_first")
    assert "example" in order.notes.value
    assert "Eat the kale first" in order.view.finding
    add.fields["crop"].value = "cabbage_main"
    add.fields["amount_us"].value = 10
    add.submit()
    assert order.notes.value == ""
    assert "Eat the cabbage first" in order.view.finding
    assert "goes bad" in order.view.finding
    order.controls["rate_us"].value = 10
    assert "all of it is eaten in time" in order.view.finding
    add.fields["crop"].value = "tomato"
    add.submit()
    assert "50 to 55 °F" in add.reply.value
    add.fields["crop"].value = "kale"
    add.fields["amount_us"].value = 0
    add.submit()
    assert "0" in add.reply.value
    assert len(order.view.table) == 1
    empty.submit()
    assert "Eat the kale first" in order.view.finding


@pytest.mark.parametrize("units", ["us", "metric"])
def test_days_in_another_place_count(open_session, units):
    """Western Australia 2017: cabbage keeps a week at 20 C, so 7 days there use up all, none leave 4 to 16 weeks."""
    session = _session(open_session, units)
    session.keep("06.keep", {f"temp_{units}": {"us": 32.0, "metric": 0.0}[units]})
    places = _inside(session, "eat_first")[-1]
    assert "not how long it stays safe" in places.children[1].value
    places.controls["crop"].value = "cabbage_main"
    places.controls[f"temp_{units}"].value = {"us": 68, "metric": 20}[units]
    for days, says in ((0, "stays good for 4 to 16 weeks more"), (7, "is up"), (8, "when in doubt throw it out")):
        places.controls["days"].value = days
        assert says in places.view.finding
    places.controls["days"].value = 3
    # By hand: 4/7 of 28 to 112 days are 16 to 64 days.
    assert "2 to 9 weeks more" in places.view.finding
    assert "the shares add up (common practice, no source)" in places.notes.value
    assert "Western Australia 2017" in places.notes.value
    session.keep("06.keep", {f"temp_{units}": 4.0 if units == "metric" else 39.2})
    # By hand: 4/7 of 14 to 42 days are 8 to 24 days.
    assert "1 to 3 weeks more" in places.view.finding
    places.controls[f"temp_{units}"].value = {"us": 104, "metric": 40}[units]
    assert {"us": "not at 104 °F", "metric": "not at 40 °C"}[units] in places.message.value
    offered = [value for _, value in places.controls["crop"].options]
    assert "kale" in offered
    assert "collards" not in offered  # one source, one temperature


def test_the_air_of_a_cellar(open_session):
    """At 39 F (3.9 C) and 90 the deficit is 81 Pa; at 60 the trial does not reach and the page says so."""
    air, _, breath = (part for part in _inside(_session(open_session), "air"))
    assert "81 Pa" in air.view.finding
    assert "would read 31" in air.notes.value
    air.controls["humidity"].value = 60
    assert "No trial tells" in air.view.finding
    assert "The cabbage trial ran" in air.notes.value
    assert isinstance(breath, Panel)
    assert "10 to 11 mL" in list(breath.view.table.iloc[0])
