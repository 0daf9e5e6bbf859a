"""Page 05, the fold on what it is: the key, its buttons, and the cases."""

import pytest

from gardenlib import panels, tables
from gardenlib.panels.check import CheckBox
from gardenlib.panels.guess import GuessBox
from gardenlib.panels.pests import what_cases
from gardenlib.panels.pests.what import KeyPanel
from gardenlib.pests import what_is_it
from gardenlib.words import texts

OWN = {"05.what.guess": "legs"}
TO_WORM = ("animal", "chewed", "worm", "leaf", "green", "four", "velvety")


def _open(open_session, guesses=OWN):
    session = open_session(guesses=guesses)
    fold = panels.pests.what.fold(session)
    fold.opener.value = True
    key, cases = fold._body.children[0].children
    assert isinstance(key, KeyPanel)
    return session, key, cases


def _walk(key, answers):
    for answer in answers:
        key.controls["answer"].value = answer
        _buttons(key)["Next"].click()


def _buttons(key):
    return {child.description: child for child in key.children if hasattr(child, "click")}


def test_the_guess_comes_first_and_the_table_answers(open_session):
    """Before the guess nothing is asked; after it the legs are told from the table, two against four (UC IPM)."""
    _, key, _ = _open(open_session, guesses={})
    assert key.view is None
    *_, guess = key.children
    guess.answers.index = 0
    guess.children[2].click()
    told = next(part for part in key.children if isinstance(part, GuessBox)).children[1].value
    assert "2 pairs of soft legs" in told
    assert "4 pairs" in told
    assert key.view.finding == "What did you find?"


def test_each_answer_asks_the_next_question(open_session):
    """One question stands in sight at a time, with a drawing for its signs; the end has a name and a first step."""
    _, key, _ = _open(open_session)
    for n, answer in enumerate(TO_WORM):
        assert key.view.chart.count("<svg ") >= 2
        assert len(key.controls) + len(_buttons(key)) <= 3
        assert ("Start again" in _buttons(key)) == bool(n)
        _walk(key, [answer])
    assert key.view.finding == "Imported cabbageworm: a pest. Pick off each one you see."
    assert key.controls == {}
    assert "1 to 1.3 in" in key.view.chart
    assert "UC IPM" in key.view.table["is"].iloc[-1]
    assert "First pick, wash off or cover" in key.notes.value
    assert "unchecked" not in key.notes.value


def test_back_and_start_again(open_session):
    """One step back takes the last answer away; start again takes all."""
    _, key, _ = _open(open_session)
    _walk(key, ("eggs", "other", "few"))
    assert key.view.finding == "How big are they?"
    _walk(key, ["back"])
    assert key.view.finding == "How many sit together?"
    _walk(key, ["few", "tiny"])
    assert "Next" not in _buttons(key)
    _buttons(key)["One step back"].click()
    assert key.view.finding == "How big are they?"
    _buttons(key)["Start again"].click()
    assert key.view.finding == "What did you find?"
    assert "Start again" not in _buttons(key)


def test_nothing_moves_before_next(open_session):
    """A choice alone asks nothing new, so that arrow keys can pass over it; next without a choice asks for one."""
    _, key, _ = _open(open_session)
    _buttons(key)["Next"].click()
    assert "Choose" in key.message.value
    key.controls["answer"].value = "eggs"
    assert key.message.value == ""
    assert key.view.finding == "What did you find?"


def test_the_walk_is_there_when_the_page_is_opened_again(open_session):
    """The answers are kept in the plot file; answers that the key does not hold are left out."""
    session, key, _ = _open(open_session)
    _walk(key, ("eggs", "stalk"))
    again = KeyPanel(session, key.spec)
    assert again.view.finding == "Eggs of a lacewing: a helper. Leave this alone."
    for old in (["eggs", "no_such_sign"], 7, None, "eggs", [["eggs"]]):
        session.keep("05.what", {"answers": old})
        assert KeyPanel(session, key.spec).view.finding == "What did you find?"


def test_none_of_these_asks_the_extension_office(open_session):
    """Where no sign fits, a photo and the extension office come first; at the first question there is no such way."""
    _, key, _ = _open(open_session)
    assert "none" not in [value for _, value in key.controls["answer"].options]
    _walk(key, ("animal", "none"))
    assert "extension office" in key.view.finding
    assert "Wear gloves" in key.notes.value
    assert key.view.chart is None


@pytest.mark.parametrize(
    ("answers", "said"),
    [
        (("animal", "chewed", "jumper"), "from memory"),
        (("animal", "visitor", "eight_legs"), "common practice, no source"),
        (("eggs", "other", "many", "upright"), "potato, bean or squash"),
    ],
)
def test_what_is_unchecked_says_so(open_session, answers, said):
    """A sign from memory or common practice is shown as unchecked."""
    _, key, _ = _open(open_session)
    _walk(key, answers)
    assert "unchecked" in key.notes.value.lower()
    assert said in key.notes.value


def test_every_question_and_match_has_its_words(open_session):
    """Every walk can be shown: no question, sign, name, meaning or first step lacks words."""
    session, key, _ = _open(open_session)

    def follow(answers):
        view = key.spec.view(session, {"answers": answers})
        assert view.finding
        assert view.alt
        [session.voice.say(said) for said in key.spec.notes(session, {"answers": answers})]
        for sign in what_is_it(answers).signs:
            follow((*answers, sign.name))

    follow(())


def _case_boxes(cases):
    return [box for box in cases.children if isinstance(box, CheckBox)]


def test_there_are_cases_with_drawings(open_session):
    """At least six cases, each with its drawing before the question, two sentences or more, and three answers."""
    session, _, cases = _open(open_session)
    boxes = _case_boxes(cases)
    assert len(boxes) >= 6
    for n, box in enumerate(boxes, start=1):
        drawn = cases.children[cases.children.index(box) - 1].value
        assert "<svg " in drawn
        assert f"Case {n}" in drawn
        assert session.voice.say(f"ident.case.{n}_text").count(".") >= 2
        assert len(box.answers.options) == 3


def test_each_answer_of_a_case_gets_its_own_reply(open_session):
    """One answer of each case holds; the others are told to look again, each with its own words."""
    session, _, cases = _open(open_session)
    for n, (box, (_, holds)) in enumerate(zip(_case_boxes(cases), what_cases.CASES, strict=True), start=1):
        replies = set()
        for value in ("a", "b", "c"):
            box.answers.value = value
            box.children[2].click()
            assert ("Look again" in box.reply.value) == (value != holds)
            assert session.answer(f"05.what.check{n}") == value
            replies.add(box.reply.value)
        assert len(replies) == 3


# What each drawing is, from the sources named in tests/outside/test_identify_sources.py; the last is outside the key.
TRUE_KINDS = ("helper", "helper", "pest", "helper", "pest", "pest", "helper", "unknown")
SAYS = ("leave", "leave", "looper", "leave", "rub it off", "lift it out", "leave", "extension office")


def test_the_answer_that_holds_fits_the_kind():
    """The right answer leaves a helper alone, acts on a pest, and asks about the unknown."""
    words, kinds = texts("en"), tables.table("id_results").set_index("picture")["kind"]
    assert tuple(kinds.get(picture, "unknown") for picture, _ in what_cases.CASES) == TRUE_KINDS
    for n, ((_, holds), says) in enumerate(zip(what_cases.CASES, SAYS, strict=True), start=1):
        assert says in words[f"ident.case.{n}_{holds}"]
        assert (says == "leave") == (TRUE_KINDS[n - 1] == "helper")


def test_no_word_of_a_score():
    """No sentence here says wrong, score or a brand of spray."""
    own = [text.lower() for key, text in texts("en").items() if key.startswith("ident.")]
    assert not [text for text in own if "wrong" in text or "score" in text]
