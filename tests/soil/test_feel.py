"""The key by feel, question by question."""

from itertools import pairwise

import pytest

from gardenlib import InputProblem, soil, tables
from gardenlib.soil.texture import CLASSES


def test_key_asks_one_question_after_the_other():
    """The key asks for ball, ribbon and feel in turn and says what is left; after the last it asks no more."""
    assert soil.texture_by_feel().asks == "ball"
    assert soil.texture_by_feel("yes").asks == "ribbon"
    assert soil.texture_by_feel("yes", "short").asks == "feel"
    walked = soil.texture_by_feel("yes", "short", "smooth")
    assert (walked.asks, walked.classes, walked.groups) == (None, ("silt loam",), ("middle",))


@pytest.mark.parametrize(
    ("answers", "texture"), [(("no", "long", "smooth"), "sand"), (("yes", "none", "smooth"), "loamy sand")]
)
def test_answers_not_reached_are_left_aside(answers, texture):
    """Without a ball, or without a ribbon, later answers do not count."""
    assert soil.texture_by_feel(*answers).texture == texture


def test_what_is_left_shrinks():
    """Each answer leaves fewer classes, and those among the ones before."""
    steps = [soil.texture_by_feel(*("yes", "long", "gritty")[:n]).classes for n in range(4)]
    assert [len(left) for left in steps] == [11, 10, 3, 1]
    assert all(set(after) < set(before) for before, after in pairwise(steps))


def test_key_ends_at_every_class_but_silt():
    """The diagram does not part silt from silt loam; all its ends are classes of the manual."""
    assert set(CLASSES) - set(tables.table("feel_key")["texture"]) == {"silt"}


@pytest.mark.parametrize(
    ("answers", "near"),
    [
        (("no",), {"loamy sand"}),
        (("yes", "none"), {"sand", "sandy loam"}),
        (("yes", "middle", "neither"), {"loam", "clay", "sandy clay loam", "silty clay loam"}),
        (("yes", "long", "smooth"), {"clay", "silty clay loam"}),
    ],
)
def test_neighbours_are_one_answer_away(answers, near):
    """The neighbours are the classes that one answer would give if it were the next one in its list."""
    assert set(soil.texture_by_feel(*answers).neighbours) == near


def test_ribbon_lengths_are_marked_unchecked():
    """A walk that used a ribbon's length says so and cites the copy; the table says memory throughout."""
    assert soil.texture_by_feel("yes", "short", "smooth").unchecked
    assert not soil.texture_by_feel("yes", "none").unchecked
    assert not soil.texture_by_feel("no").unchecked
    assert "colorado_feel_copy" in soil.texture_by_feel("yes", "long").sources
    assert set(tables.table("ribbon_lengths")["status"]) == {"memory"}
    assert tables.source("colorado_feel_copy").status == "memory"


@pytest.mark.parametrize("answers", [("maybe",), ("yes", "2"), ("yes", "short", "silky"), ("", None), (True,)])
def test_an_answer_that_is_none(answers):
    """Another answer is refused with those to choose from."""
    with pytest.raises(InputProblem, match="Choose one of"):
        soil.texture_by_feel(*answers)
