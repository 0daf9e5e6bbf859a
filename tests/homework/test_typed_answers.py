"""What people write on paper: read where it has one meaning, asked back where it has two or none, never guessed."""

from datetime import date

import pytest
from babel.dates import format_date
from hypothesis import given, settings
from hypothesis import strategies as st

from gardenlib import class_folder
from gardenlib.carried import carried
from gardenlib.homework import Blank, BlankSlip, ground_for, mark, read_typed, set_question
from gardenlib.words import Voice

KLASS = class_folder.read(carried("data_demo"))
LANGUAGES = ("en", "es")
SPAN = Blank(id="x.2", kind="range", unit="in", low=19.5, high=20.5, upper_low=39.5, upper_high=40.5)
DAY = Blank(id="x.3", kind="date", first=date(2027, 4, 5), last=date(2027, 4, 5))
WORDS = Blank(
    id="x.4", kind="words", accepted=("5a",), slips=(BlankSlip(id="s", reply="", look="", accepted=("sandy loam",)),)
)


def _number(unit=""):
    return Blank(id="x.1", kind="number", unit=unit, low=6.5, high=6.7)


def _read(text, blank, language="en"):
    return read_typed(text, blank, language=language, year=2027)


def _asked(text, blank, language="en"):
    """Give the key of what is asked back."""
    typed = _read(text, blank, language)
    assert typed.state == "ask", (text, typed)
    assert mark(blank, typed).reply.startswith("You wrote ")
    return typed.say.key.removeprefix("homework.ask.")


# Text, unit of the blank, and the number that a reader means; a foot is 12 inches, a pound 16 ounces (NIST Handbook
# 44, appendix C), 1 lb is 0.453 592 37 kg, 1 gal 3.785 412 L, 1 ft 0.3048 m (NIST SP 811, 2008, appendix B.8).
ONE_MEANING = [
    *(("1/2", "", 0.5), ("1 1/2", "", 1.5), ("1-1/2", "", 1.5), ("1½", "", 1.5), ("½", "", 0.5), ("3 ½", "", 3.5)),
    *(("about 3", "", 3), ("~3", "", 3), ("ca. 3", "", 3), ("nearly 3", "", 3), ("3 or so", "", 3), ("3?", "", 3)),
    *(("unos 3", "", 3), ("casi 3", "", 3), ("3 más o menos", "", 3), ("= 3", "", 3), ("3.", "", 3), ("3!", "", 3)),
    *(("2,5", "", 2.5), (",5", "", 0.5), ("1.250,5", "", 1250.5), ("1,250.5", "", 1250.5), ("1 250", "", 1250)),
    *(("\u22123", "", -3), ("minus 3", "", -3), ("menos 3", "", -3), ("+3", "", 3), ("\u0663", "", 3), ("３", "", 3)),
    *(
        ("\u202b3\u202c", "", 3),
        ("\ufeff3\u00a0", "", 3),
    ),
    *(("12 1/2 min", "minutes", 12.5), ("12.5 minutes", "minutes", 12.5)),
    *(("12,5 minutos", "minutes", 12.5), ("12 mins", "minutes", 12), ("12 min 30 s", "minutes", 12.5)),
    *(("750 s", "minutes", 12.5), ("1 h 5 min", "minutes", 65), ("3 lbs", "lb", 3), ("3 libras", "lb", 3)),
    *(("3 lb 4 oz", "lb", 3.25), ("3 pounds and 4 ounces", "lb", 3.25), ("3 libras 4 onzas", "lb", 3.25)),
    *(("48 oz", "lb", 3), ("3 kg", "lb", 6.613868), ("3 kilos", "lb", 6.613868), ("500 grs", "kg", 0.5)),
    *(("5'6\"", "ft", 5.5), ("5’ 6”", "ft", 5.5), ("5'6''", "ft", 5.5), ("5 ft 6 in", "ft", 5.5), ("66 in", "ft", 5.5)),
    *(("5 ft. 6 in.", "ft", 5.5), ("5 pies 6 pulgadas", "ft", 5.5), ("2 yds", "ft", 6), ("1,5 m", "ft", 4.92126)),
    *(("40 sq ft", "sq_ft", 40), ("40 ft²", "sq_ft", 40), ("40 ft^2", "sq_ft", 40), ("40 sqft", "sq_ft", 40)),
    *(("40 square feet", "sq_ft", 40), ("40 pies cuadrados", "sq_ft", 40), ("3.7 m2", "m2", 3.7)),
    *(("3.7 sq m", "m2", 3.7), ("3.7 square metres", "m2", 3.7), ("3,7 metros cuadrados", "m2", 3.7)),
    *(("5 gal", "gal", 5), ("5 galones", "gal", 5), ("20 qt", "gal", 5), ("20 L", "gal", 5.283441)),
    *(("20 litros", "gal", 5.283441), ("75%", "percent", 75), ("75 per cent", "percent", 75), ("75", "percent", 75)),
    *(("75 por ciento", "percent", 75), ("0.5 %", "percent", 0.5), ("39 ºF", "degF", 39), ("4 deg C", "degF", 39.2)),
    *(("4 grados", "degC", 4), ("21 degree days", "degF_days", 21), ("21 grados día", "degF_days", 21)),
    *(("2 weeks", "days", 14), ("14 días", "weeks", 2), ("-2", "weeks", -2), ("16 plantas", "plants", 16)),
    *(("30 lb/1,000 sq ft", "lb_100_sq_ft", 3), ("3 lbs per 100 ft2", "lb_1000_sq_ft", 30), ("50 g/m2", "g_m2", 50)),
]


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize(("text", "unit", "value"), ONE_MEANING)
def test_what_has_one_meaning_is_read(text, unit, value, language):
    """Fractions, commas, words for about and units in both languages are read on either sheet."""
    assert _read(text, _number(unit), language).value == pytest.approx(value, rel=1e-6)


@pytest.mark.parametrize(
    ("text", "words", "language"),
    [
        *(("4 bags", "bags", "en"), ("4 Bag", "bags", "en"), ("about 4 cans", "cans", "en"), ("4 days", "days", "en")),
        *(("4 bolsas", "bolsas", "es"), ("4 días", "días", "es"), ("4 siembra", "siembras", "es")),
    ],
)
def test_what_is_counted_may_be_named(text, words, language):
    """The word behind the boxes, one or many, may be written with the number, and no other word."""
    blank = Blank(id="x.5", kind="number", unit_words=words, low=4, high=4)
    assert _read(text, blank, language).value == 4
    assert _asked("4 plants", blank) == "alone"


def test_thousands_are_read_by_the_sheet_s_language():
    """1,250 is a thousand and more in English; in Spanish comma or point may also be the mark of decimals."""
    assert _read("1,250", _number()).value == 1250
    assert _read("1.250", _number()).value == 1.25
    assert {_asked(text, _number(), "es") for text in ("1,250", "1.250")} == {"thousands"}


@pytest.mark.parametrize(
    ("text", "unit", "asks"),
    [
        *(("3-4", "", "one_number"), ("3 to 4", "", "one_number"), ("3 or 4", "", "one_number")),
        *(("3, 4", "", "one_number"), ("4 x 10", "sq_ft", "one_number"), ("3 lb 4", "lb", "one_number")),
        *(("12:30", "minutes", "one_number"), ("3 ± 1", "", "one_number"), ("1'250", "", "one_number")),
        *(("three", "", "number"), ("a dozen", "", "number"), ("at least 3", "", "number"), ("<3", "", "number")),
        *(("none", "", "number"), ("3+", "", "number"), ("12,34,56", "", "number"), ("1/0", "", "number")),
        *(("1 5/2", "", "number"), ("=cmd()", "", "number"), ("<script>1</script>", "", "number")),
        *(
            ("3 days", "", "alone"),
            ("3 plants", "", "alone"),
            ("5%", "", "alone"),
            ("5²", "", "alone"),
            ("3x", "", "alone"),
        ),
        *(("3 zorks", "lb", "unit"), ("3 ft", "lb", "unit"), ("40 ft", "sq_ft", "unit"), ("12 m", "minutes", "unit")),
        *(("3 lb", "lb_1000_sq_ft", "unit"), ("2 weeks before", "weeks", "unit"), ("3 lb 40 oz", "lb", "one_number")),
        *(("0.75", "percent", "percent"), ("3/4", "percent", "percent"), (".5", "percent", "percent")),
    ],
)
def test_what_has_two_meanings_or_none_is_asked_back(text, unit, asks):
    """Two numbers, words, strange units and shares of one are asked back with a sentence of their own."""
    assert _asked(text, _number(unit)) == asks


def test_a_share_that_is_foreseen_gets_its_own_reply():
    """A part of one in place of a percent is not asked back where the sheet has a reply to it."""
    slip = BlankSlip(id="as_part", reply="", look="", low=0.74, high=0.76)
    blank = Blank(id="x.1", kind="number", unit="percent", low=74, high=76, slips=(slip,))
    assert mark(blank, _read("0.75", blank)).slip == "as_part"
    assert _asked("0.5", blank) == "percent"


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize(
    "text",
    [
        *(
            "20-40",
            "20 to 40",
            "20 to 40 in",
            "entre 20 y 40",
            "20–40",
            "between 20 and 40",
            "from 20 to 40",
            "20 a 40",
        ),
        *("20 hasta 40", "20 through 40", "40-20", '20"-40"', "about 20 to 40", "50.8 cm to 40 in", "20 in - 40 in"),
        *("minus 20 to minus 40", "-20 - -40"),
    ],
)
def test_ranges_are_read(text, language):
    """A range is read in each of its forms; 1 in is 2.54 cm (NIST SP 811, 2008, appendix B.8)."""
    wanted = (-40, -20) if "us 20" in text or "- -" in text else (20, 40)
    assert _read(text, SPAN, language).value == pytest.approx(wanted)


@pytest.mark.parametrize("text", ["20 or 40", "20 and 40", "20, 40", "20 40", "20/40", "3-1/2", "20 … 40"])
def test_two_numbers_that_may_be_no_range_are_asked_back(text):
    """20/40 may be a half, and 3-1/2 three and a half: both ends are asked for."""
    assert _asked(text, SPAN) == "range"


APRIL_15 = [
    *("15 April", "Apr 15", "Apr. 15", "April 15th", "April the 15th", "the 15th of April", "4/15", "15/4", "4-15"),
    *("15.4.", "2027-04-15", "4/15/27", "15/04/2027", "27-04-15", "15 de abril", "el 15 de abril", "15-abr", "15abr"),
    *("15 abr 27", "jueves 15 de abril del 2027", "Thursday, April 15", "about April 15", "April 15?", "on Apr 15"),
]


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("text", APRIL_15)
def test_april_15_is_read_as_people_write_it(text, language):
    """The day is read where it can be one day only, in either language on either sheet."""
    assert _read(text, DAY, language).value == date(2027, 4, 15)


@pytest.mark.parametrize(
    ("text", "day"),
    [
        *(("primero de abril", (4, 1)), ("1º de abril", (4, 1)), ("1ro de abril", (4, 1)), ("April first", (4, 1))),
        *(("15 de setiembre", (9, 15)), ("Sept 15", (9, 15)), ("mar 5", (3, 5)), ("5/5", (5, 5)), ("mayo 5", (5, 5))),
    ],
)
def test_other_days_are_read(text, day):
    """The first of a month in words, a September without its p, and March where it may be a Tuesday."""
    assert _read(text, DAY).value == date(2027, *day)


@pytest.mark.parametrize(
    ("text", "asks"),
    [
        *(("4/5", "two_days"), ("5-4", "two_days"), ("04-05-27", "two_days"), ("mid April", "day"), ("April", "day")),
        *(("a mediados de abril", "day"), ("late April", "day"), ("week 3", "day"), ("semana 3", "day")),
        *(("by April 15", "day"), ("April 15 or 16", "day"), ("Apr 15-20", "day"), ("martes 5", "day"), ("15", "day")),
        *(("April 31", "day"), ("Feb 29", "day"), ("February 29, 2027", "day"), ("46127", "day"), ("Arpil 15", "day")),
        *(("15 April 15", "day"), ("today", "day")),
    ],
)
def test_days_with_two_meanings_or_none_are_asked_back(text, asks):
    """Part of a month, a week, two days, a day that the year has not, and a spreadsheet's own number."""
    assert _asked(text, DAY) == asks


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("form", ["long", "medium", "full"])
def test_dates_read_as_the_cldr_writes_them(language, form):
    """A date in the Unicode CLDR's own forms reads back as that date (babel)."""
    for day in (date(2027, 4, 5), date(2027, 9, 30), date(2028, 2, 29)):
        assert _read(format_date(day, form, locale=language), DAY, language).value == day


@pytest.mark.parametrize("text", ["", " ", "-", "?", "n.a.", "don't know", "I don’t know", "no sé", "en blanco"])
def test_nothing_is_its_own_state(text):
    """An empty answer is neither right nor astray."""
    assert mark(_number("lb"), _read(text, _number("lb"))).state == "nothing"


@pytest.mark.parametrize(
    ("text", "read"),
    [
        *(("5A", "5a"), ("Zone 5a", "5a"), ("zona 5 a.", "5a"), ("it is 5a", "5a"), ("Sandy-Loam", "sandy loam")),
        *(("loam", "loam"), ("5", "5"), ("5a or 5b", "5a or 5b")),
    ],
)
def test_words_are_read_past_small_words_and_signs(text, read):
    """A zone or a soil class is known with another sign or a small word before it, and nothing else is."""
    assert _read(text, WORDS).value == read


def test_a_soil_class_is_asked_and_read_in_spanish():
    """A Spanish sheet asks for the class by its Spanish name, takes it, and takes the English one beside it."""
    ground = ground_for(KLASS, code="A7", year=2027, voice=Voice(language="es"))
    (blank,) = set_question("02.jar.4", ground).blanks
    assert blank.shown == "franco arcilloso"
    for text in ("Franco arcilloso", "el franco-arcilloso", "clay loam"):
        assert mark(blank, _read(text, blank, "es")).state == "holds"
    assert mark(blank, _read("franco arenoso", blank, "es")).state == "look_again"


@pytest.mark.parametrize("text", ["2.7 minutes", "2.7 min", "162 s", "2 min 42 s", "2,7 minutos"])
def test_the_hose_runs_for_minutes(text):
    """The hose of sheet A7: 20 gallons at 7.5 gallons a minute are 2.67 minutes, with or without the word."""
    question = set_question("03.hose.4", ground_for(KLASS, code="A7", year=2027))
    assert "20 gal of water" in question.ask
    assert "5 gal in 40 seconds" in question.ask
    assert mark(question.blanks[0], _read(text, question.blanks[0])).state == "holds"


@given(
    st.text(max_size=60) | st.text("0123456789 ,./-'\"ftlbaprmenosto?", max_size=20),
    st.sampled_from([_number(), _number("ft"), _number("percent"), SPAN, DAY, WORDS]),
    st.sampled_from(LANGUAGES),
)
@settings(max_examples=250, deadline=None)
def test_reading_never_raises(text, blank, language):
    """Any text is a value, nothing, or asked back."""
    assert _read(text, blank, language).state in {"value", "nothing", "ask"}
