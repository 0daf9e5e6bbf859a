"""Day length on page 01: on whatever day the page is opened."""

from datetime import date

import pytest

from gardenlib import panels


@pytest.mark.parametrize("today", [date(2026, 11, 27), date(2026, 12, 31), date(2027, 2, 15)])
def test_day_length_is_drawn_whenever_the_page_is_opened(open_session, today):
    """The curve is that of the year of the day asked for, also in the fall, when the next spring is planned already."""
    fold = panels.climate.day_length(open_session(today=today))
    fold.opener.value = True
    (panel,) = fold.children[1].children
    for weeks in (0, 52):
        panel.controls["weeks"].value = weeks
        assert panel.message.value == ""
        assert "<svg" in panel.picture.value
