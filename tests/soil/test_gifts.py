"""Gifts: what the answers come to, hostile input, and what the words must never say."""

import re

import pytest

from gardenlib.problems import InputProblem
from gardenlib.soil import GIFTS, gift_check, gift_questions, pot_check
from gardenlib.tables.loader import rows
from gardenlib.words import Voice, texts

VOICE = Voice()


def _all(gift, answer):
    return dict.fromkeys(gift_questions(gift), answer)


@pytest.mark.parametrize("gift", GIFTS)
def test_every_gift_has_two_questions_with_three_answers(gift):
    """A view holds three controls at most, so a gift has two questions; each answer has a row."""
    questions = gift_questions(gift)
    assert len(questions) == 2
    found = {(row["question"], row["answer"]) for row in rows("gifts") if row["gift"] == gift}
    assert found == {(question, answer) for question in questions for answer in ("yes", "no", "unknown")}


@pytest.mark.parametrize("gift", GIFTS)
@pytest.mark.parametrize("answer", ["yes", "no", "unknown"])
def test_every_advice_can_be_said(gift, answer):
    """Reasons and what to do have words for all answers, and the sources are known."""
    advice = gift_check(gift, _all(gift, answer))
    assert advice.verdict in {"take", "test", "refuse"}
    assert len(advice.because) == 2
    assert all(VOICE.say(said) for said in (*advice.because, *advice.to_do, *advice.assumptions))
    assert {row["key"] for row in rows("sources")} >= set(advice.sources)


@pytest.mark.parametrize("gift", ["compost", "manure", "hay"])
def test_what_nobody_knows_about_weed_killer_goes_to_the_pots(gift):
    """An unknown history is neither taken nor refused: the pots tell."""
    other = gift_questions(gift)[1]
    advice = gift_check(gift, {"weed_killer": "unknown", other: "no"})
    assert advice.verdict == "test"
    assert advice.pot_check


def test_the_strictest_answer_counts():
    """One answer is enough to refuse, though another is open; one mild answer is not enough to take."""
    assert gift_check("boards", {"treated": "yes"}).verdict == "refuse"
    half = gift_check("boards", {"treated": "no", "spilled": None})
    assert half.verdict is None
    assert half.asks == ("spilled",)
    assert half.to_do == ()
    assert gift_check("hay", {"weed_killer": "unknown", "moldy": "yes"}).verdict == "refuse"


def test_seedlings_are_never_just_taken():
    """Some signs come late, so even seedlings without a sign are kept apart first."""
    verdicts = {row["verdict"] for row in rows("gifts") if row["gift"] == "seedlings" and row["question"] == "sick"}
    assert verdicts == {"test", "refuse"}
    assert gift_check("seedlings", _all("seedlings", "no")).verdict == "test"


def test_refused_manure_has_no_days():
    """How long to wait is said of manure that is used, not of manure that is refused."""
    assert len(gift_check("manure", _all("manure", "no")).to_do) == 3
    assert len(gift_check("manure", _all("manure", "yes")).to_do) == 1


@pytest.mark.parametrize(
    ("clean", "gift", "verdict"),
    [
        ("flat", "flat", "take"),
        ("flat", "curled", "refuse"),
        ("flat", "none", "again"),
        ("curled", "curled", "again"),
        ("curled", "flat", "again"),
        ("none", "none", "again"),
        ("none", "curled", "again"),
    ],
)
def test_pots_are_read_against_the_clean_ones(clean, gift, verdict):
    """Only flat leaves in the clean pots let the others tell anything (a control, as in any trial)."""
    pots = pot_check(clean, gift)
    assert pots.verdict == verdict
    assert VOICE.say(pots.meaning)


@pytest.mark.parametrize(
    "call",
    [
        lambda: gift_questions("car"),
        lambda: gift_check("car", {}),
        lambda: gift_check("hay", {"pets": "no"}),
        lambda: gift_check("hay", {"moldy": "maybe"}),
        lambda: gift_check("hay", {"moldy": 6.2}),
        lambda: pot_check("flat", "green"),
        lambda: pot_check(float("nan"), "flat"),
    ],
)
def test_unknown_words_are_refused_in_one_sentence(call):
    """What is not known is named, with what can be chosen."""
    with pytest.raises(InputProblem) as caught:
        call()
    words = caught.value.in_voice(VOICE)
    assert "{" not in words
    assert len(words) < 200


def test_nothing_is_called_safe():
    """No sentence on gifts or lead has the word safe or one made of it: it would be read as a verdict."""
    areas = ("gifts.", "lead.", "problem.gifts.", "problem.lead.", "step.gifts.", "step.lead.")
    ours = {key: text for key, text in texts("en").items() if key.startswith(areas)}
    assert len(ours) > 150
    assert [key for key, text in ours.items() if re.search(r"safe|harmless|clean soil", text, re.IGNORECASE)] == []


def test_no_figure_from_memory_is_in_the_tables():
    """What was only remembered (other lead lines, tiers for gardens) stands in none of the four tables."""
    names = ("gifts", "gift_figures", "lead_history", "lead_screening")
    assert {row["status"] for name in names for row in rows(name)} == {"published", "common_practice"}
    words = " ".join(text for key, text in texts("en").items() if key.startswith(("lead.", "gifts.")))
    assert re.findall(r"\b(63|80|100|400|600|1200)\b", words) == []
