"""Days as people write them, in English and in Spanish."""

from datetime import date

import pytest
from babel.dates import format_skeleton

from gardenlib.class_folder import month_day


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("form", ["MMMd", "MMMMd", "yMMMMd"])
def test_a_day_is_read_as_the_language_writes_it(language, form):
    """What Unicode CLDR writes in English or Spanish (by babel) is read back, each month of the year."""
    for month in range(1, 13):
        day = date(2027, month, 25)
        assert month_day(format_skeleton(form, day, locale=language), what="the day") == (month, 25)
