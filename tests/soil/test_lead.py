"""Lead: history first; a number only with the word total; no verdict of our own."""

import dataclasses

import pytest

from gardenlib.problems import InputProblem
from gardenlib.soil import lead_history, lead_number, lead_questions, lead_reading
from gardenlib.words import Voice

VOICE = Voice()


def _words(call):
    with pytest.raises(InputProblem) as caught:
        call()
    return caught.value.in_voice(VOICE)


def test_six_questions_three_a_view():
    """Six questions, three about what stands nearby and three about the ground."""
    assert len(lead_questions()) == 6
    assert lead_questions("house") + lead_questions("ground") == lead_questions()
    assert len(lead_questions("house")) == 3


@pytest.mark.parametrize("question", ["paint", "road", "industry", "orchard", "fill", "burnt"])
@pytest.mark.parametrize("answer", ["yes", "unknown"])
def test_one_reason_is_enough(question, answer):
    """One yes, or one that nobody knows, asks for a test."""
    answers = {**dict.fromkeys(lead_questions(), "no"), question: answer}
    assert lead_history(answers).ask_for_test


def test_no_reason_and_open_questions():
    """Six times no gives no reason; a question left out stays open."""
    nothing = lead_history(dict.fromkeys(lead_questions(), "no"))
    assert not nothing.ask_for_test
    assert nothing.asks == ()
    assert lead_history({"paint": None}).asks == lead_questions()


def test_an_answer_holds_no_tier():
    """What a reading gives is the number, two lines of others, whom to ask, and habits: no class or verdict."""
    names = {field.name for field in dataclasses.fields(lead_reading(1, is_total=True))}
    kept = {"steps", "assumptions", "sources"}
    assert names - kept == {
        *("total", "screening", "screening_dated", "reached"),
        *("line", "authority", "dated", "next_step", "habits"),
    }


@pytest.mark.parametrize("total", [None, 0, 30, 199.9, 200, 5000, 1_000_000])
def test_habits_are_the_same_for_every_number(total):
    """Whatever the number, everybody washes, covers, and keeps shoes and children in mind."""
    reading = lead_reading(total, is_total=True)
    assert [said.key for said in reading.habits] == [
        f"lead.habit.{name}" for name in ("wash", "cover", "hands", "shoes", "children", "peel")
    ]
    assert "lead.no_standard" in [said.key for said in reading.assumptions]


@pytest.mark.parametrize(("total", "reached"), [(None, None), (199.9, False), (200, True), (201, True)])
def test_beside_the_screening_figure(total, reached):
    """At the figure counts as reached: the stricter reading."""
    assert lead_reading(total, is_total=True).reached is reached


def test_the_authority_s_words_pass_through():
    """The class's line is given as it is, with authority and date."""
    reading = lead_reading(None, is_total=False, line="Ask us.", authority="A health office", dated="2024-10-01")
    assert (reading.line, reading.authority, reading.dated) == ("Ask us.", "A health office", "2024-10-01")


def test_a_number_without_the_word_total_is_refused():
    """A nutrient test's number is never set beside a figure for the total."""
    assert "total lead" in _words(lambda: lead_reading(8, is_total=False))


@pytest.mark.parametrize("value", [float("nan"), float("inf"), -1, -0.01, 1_000_001, 1e30, True, "120", "6,2"])
def test_hostile_numbers(value):
    """What is no amount gets one sentence that names it."""
    words = _words(lambda: lead_reading(value, is_total=True))
    assert words.startswith("Lead is ")
    assert "{" not in words


@pytest.mark.parametrize(
    ("typed", "value"),
    [("120", 120), (" 120 ppm ", 120), ("120 mg/kg", 120), ("120MG/KG", 120), ("0", 0), ("12.5ppm", 12.5), ("", None)],
)
def test_ppm_and_mg_per_kg_are_one_number(typed, value):
    """One part per million by mass is one milligram in a kilogram (NIST SP 811, 7.10.3)."""
    assert lead_number(typed) == value


@pytest.mark.parametrize("typed", ["6,2", "1,200", "abc", "<5", "12 %", "12 lb", "1 2"])
def test_hostile_text(typed):
    """A comma may part thousands or tenths, so it is not guessed; other text is no number."""
    assert typed.split(" ")[0] in _words(lambda: lead_number(typed))


@pytest.mark.parametrize("typed", ["-5", "nan", "1e12", "inf"])
def test_text_that_is_a_number_but_no_amount(typed):
    """Below nothing, above all of the soil and no number at all are refused when they are read."""
    assert "Lead is" in _words(lambda: lead_reading(lead_number(typed), is_total=True))


def test_hostile_history():
    """An unknown question or answer is named."""
    assert "paint" in _words(lambda: lead_history({"ghosts": "yes"}))
    assert "maybe" in _words(lambda: lead_history({"paint": "maybe"}))
