"""Counting guesses and hands without a server."""

import json

import pytest

from gardenlib.problems import InputProblem
from gardenlib.serving.ask_counts import Hands, PlotGuesses, counted
from gardenlib.serving.ask_questions import Question
from gardenlib.serving.folders import Folders

ASKED = Question("01.q", "title", "", "words", [("a", "one"), ("b", "two")], "so")


def _numbers(found):
    return [(row.phones, row.hands, row.phones_pct, row.hands_pct) for row in found.rows]


def test_guesses_are_told_from_three_on():
    """Two guesses are counted and not told, three are; the hands are told either way."""
    few = counted(ASKED, [{"01.q": "a"}, {"01.q": "b"}, {}], {"a": 1})
    assert (few.guessed, few.told) == (2, False)
    assert _numbers(few) == [(None, 1, 0, 100), (None, 0, 0, 0)]
    enough = counted(ASKED, [{"01.q": "a"}, {"01.q": "a"}, {"01.q": "b"}, {"01.q": "a"}], {"a": 1, "b": 3})
    assert _numbers(enough) == [(3, 1, 75, 25), (1, 3, 25, 75)]


@pytest.mark.parametrize("odd", ["<script>", 7, ["a"], {"a": 1}, True])
def test_an_odd_answer_is_counted_and_not_repeated(odd):
    """An answer that the question does not have counts among the others; its words are nowhere."""
    found = counted(ASKED, [{"01.q": odd}, {"01.q": "a"}, {"01.q": "b"}], {})
    assert (found.guessed, found.others) == (3, 1)
    assert str(odd) not in [row.words for row in found.rows]


def test_changed_plots_are_read_again_and_damaged_ones_are_passed_over(tmp_path):
    """A later guess is seen; a file that is missing, damaged or of another form is left out and left as it is."""
    folders = Folders(tmp_path)
    guesses = PlotGuesses(folders, ["plot_01", "plot_02", "plot_03", "plot_04"])
    for number, text in enumerate(['{"guesses": {"01.q": "a"}}', "{", '["guesses"]'], start=1):
        folders.plot(f"plot_0{number}").parent.mkdir(parents=True)
        folders.plot(f"plot_0{number}").write_text(text, "utf-8")
    assert guesses.read() == [{"01.q": "a"}]
    folders.plot("plot_01").write_text('{"guesses": {"01.q": "b", "01.r": 1}}', "utf-8")
    assert guesses.read() == [{"01.q": "b", "01.r": 1}]
    assert folders.plot("plot_02").read_text("utf-8") == "{"


def test_hands_survive_a_restart(tmp_path):
    """What was typed stands in a file whole, and typing again replaces it."""
    Hands(Folders(tmp_path)).put(ASKED, ["4", " 5 "])
    assert Hands(Folders(tmp_path)).of("01.q") == {"a": 4, "b": 5}
    Hands(Folders(tmp_path)).put(ASKED, ["", "6"])
    assert json.loads((tmp_path / "hands.json").read_text("utf-8")) == {"01.q": {"a": 0, "b": 6}}


@pytest.mark.parametrize("typed", ["-1", "501", "1.5", "two", "1e3"])
def test_what_is_no_count_keeps_nothing(tmp_path, typed):
    """One such field, and the counts stay as they were."""
    hands = Hands(Folders(tmp_path))
    hands.put(ASKED, ["1", "2"])
    with pytest.raises(InputProblem) as told:
        hands.put(ASKED, ["3", typed])
    assert told.value.values["answer"] == "two"
    assert hands.of("01.q") == {"a": 1, "b": 2}


@pytest.mark.parametrize("text", ["{", "[]", '{"q": 1}', '{"q": {"a": "1"}}', '{"q": {"a": 501}}'])
def test_a_damaged_file_of_hands_is_named(tmp_path, text):
    """The class is not opened on counts that cannot be read."""
    (tmp_path / "hands.json").write_text(text, "utf-8")
    with pytest.raises(InputProblem) as told:
        Hands(Folders(tmp_path))
    assert told.value.key == "problem.serving.kept"
