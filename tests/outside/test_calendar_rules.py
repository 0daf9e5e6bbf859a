"""The calendar file against RFC 5545 (Internet Calendaring and Scheduling, September 2009), section by section.

The standard's text was read in quotations, not whole; rules marked "from memory" were checked only with the library
icalendar, which reads the file in ``tests/season/test_calendar_file.py``.
"""

import re
from dataclasses import replace
from datetime import date

from gardenlib.plot import Planting, Plot
from gardenlib.season import Task, calendar_events, season_tasks
from gardenlib.site import FreezeDates
from gardenlib.words import Said, Voice

DAY = date(2027, 2, 15)
HERE = FreezeDates.typed((4, 15), (10, 15), source="made up", latitude=42.0)
PLAN = season_tasks(Plot(plantings=(Planting(id="p", crop="tomato"),)), HERE, year=2027, latitude=42.0)


def _made(plan=PLAN, **how):
    return calendar_events(plan, plot_id="x", day=DAY, **how)


def _of(task, words="Sow"):
    return _made(replace(PLAN, tasks=(task,)), voice=Voice(local={"task.workday": words}))


def _task(first, last):
    return Task("p/workday", first, last, "workday", None, None, Said("task.workday"))


def _unfolded(made):
    return re.sub(rb"\r\n[ \t]", b"", made).decode("utf-8").split("\r\n")


def test_lines_end_with_cr_and_lf():
    """Section 3.1 (from memory): each content line ends with CRLF, and neither stands alone."""
    made = _made()
    assert made.endswith(b"END:VCALENDAR\r\n")
    assert made.count(b"\r") == made.count(b"\n") == made.count(b"\r\n")


def test_lines_are_folded_at_75_octets():
    """Section 3.1: lines should not be longer than 75 octets, without the break; a fold is CRLF and one space."""
    made = _of(_task(DAY, DAY), "x" * 200)
    lines = made.split(b"\r\n")
    assert max(map(len, lines)) == 75
    folded = [line for line in lines if line.startswith(b" ")]
    assert len(folded) == 2  # 208 octets: 75, then 74 of its own and a space, then the rest
    assert "SUMMARY:" + "x" * 200 in _unfolded(made)


def test_the_last_day_of_a_span_is_not_its_end():
    """Section 3.6.1, example of the standard: 28 June to 8 July 2007, both counted, ends on 20070709."""
    lines = _unfolded(_of(_task(date(2007, 6, 28), date(2007, 7, 8))))
    assert "DTSTART;VALUE=DATE:20070628" in lines
    assert "DTEND;VALUE=DATE:20070709" in lines


def test_an_end_is_later_than_its_start():
    """Section 3.8.2.2 (from memory): DTEND is later than DTSTART, also for one day."""
    lines = _unfolded(_of(_task(date(2027, 12, 31), date(2027, 12, 31))))
    assert "DTEND;VALUE=DATE:20280101" in lines


def test_the_wrapper_has_what_is_needed_once():
    """Sections 3.4, 3.6 and 3.7 (from memory): VCALENDAR with VERSION 2.0 and PRODID, each once."""
    lines = _unfolded(_made())
    assert lines[0] == "BEGIN:VCALENDAR"
    assert lines[-2:] == ["END:VCALENDAR", ""]
    assert lines.count("VERSION:2.0") == 1
    assert lines.count("CALSCALE:GREGORIAN") == 1
    assert sum(line.startswith("PRODID:") for line in lines) == 1


def test_each_event_has_an_id_and_a_stamp_once():
    """Sections 3.6.1, 3.8.4.7 and 3.8.7.2: UID and DTSTAMP in each event, the stamp as a UTC date and time."""
    lines = _unfolded(_made())
    begun = lines.count("BEGIN:VEVENT")
    uids = [line for line in lines if line.startswith("UID:")]
    assert begun == lines.count("END:VEVENT") == len(PLAN.tasks) == len(set(uids)) == len(uids)
    stamps = [line for line in lines if line.startswith("DTSTAMP:")]
    assert len(stamps) == begun
    assert all(re.fullmatch(r"DTSTAMP:\d{8}T\d{6}Z", stamp) for stamp in stamps)


def test_marks_in_a_text_are_escaped():
    """Section 3.3.11: backslash, semicolon, comma and new line are escaped; colon and quotation mark are not."""
    assert r'SUMMARY:a\\b\;c\,d\ne:f"g' in _unfolded(_of(_task(DAY, DAY), 'a\\b;c,d\ne:f"g'))


def test_a_day_is_not_blocked():
    """Section 3.8.2.7: a transparent event leaves the day free."""
    lines = _unfolded(_made())
    assert lines.count("TRANSP:TRANSPARENT") == len(PLAN.tasks)


def test_what_comes_again_ends_with_a_date():
    """Section 3.3.10 (from memory): UNTIL has the same kind of value as DTSTART, here a date."""
    rules = [line for line in _unfolded(_made()) if line.startswith("RRULE:")]
    assert rules
    assert all(re.fullmatch(r"RRULE:FREQ=WEEKLY;UNTIL=\d{8};BYDAY=[A-Z]{2},[A-Z]{2}", rule) for rule in rules)
