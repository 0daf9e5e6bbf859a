"""The bed that a page reckons with."""

import pytest

from gardenlib.panels.bed_of import bed_in_use


def test_class_bed_stands_in_and_says_so(open_session):
    """Without a bed of their own learners reckon with the class bed."""
    session = open_session()
    row = session.klass.plots[session.klass.class_bed]
    bed = bed_in_use(session)
    assert bed.is_class_bed
    assert "class" in bed.name
    assert bed.area_m2 == pytest.approx(row.length_m * row.width_m)


def test_first_measured_bed_is_taken(open_session):
    """A bed without a width is passed over for the next one."""
    session = open_session()
    first = {"id": "a", "name": "Long", "length_m": 3}
    session.save("beds", [first, {"id": "b", "length_m": 2.4, "width_m": 1.2}])
    bed = bed_in_use(session)
    assert (bed.name, bed.is_class_bed) == (session.voice.say("fit.your_bed"), False)
    assert bed.area_m2 == pytest.approx(2.88)
