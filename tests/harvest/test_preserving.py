"""Amounts to preserve: refusals, what must hold, and that no figure of a process stands in words or tables."""

import re
import tomllib
from importlib.resources import files

import pytest

from gardenlib import InputProblem, tables
from gardenlib.harvest import crops_to_preserve, freezer_to_fill, high_place, jars_to_fill
from gardenlib.words import Voice

WAYS = ("jar", "crock", "freezer")
WORDS = files("gardenlib.words") / "en" / "harvest_preserve.toml"
# A digit in our words would be a figure; so would one of these units or measures with a count, also spelled out.
COUNT = r"(?:\d[\d./]*|\{\w+\}|one|two|three|four|five|six|seven|eight|nine|ten|half|quarter)"
PROCESS = rf"{COUNT}(?: to {COUNT})?[ -]*(?:minutes?|hours?|degrees?|°|psi|pounds? of (?:salt|pressure)|tablespoons?"
PROCESS += r"|teaspoons?|cups?|tbsp|tsp|percent|%|grams?)"


def _flat(tree):
    for value in tree.values():
        yield from _flat(value) if isinstance(value, dict) else (value,)


def test_no_figure_of_a_process_stands_in_the_words():
    """No canning, blanching or salt figure stands in our words: no digits, no count of minutes, cups or degrees."""
    said = list(_flat(tomllib.loads(WORDS.read_text("utf-8"))))
    assert said
    # "1" opens the count of jars, "0" the weight; "100" is the whole in "61 of 100 parts". All else would be a figure.
    allowed = {"from 1 to", "above 0,", "of 100 parts"}
    for text in said:
        rest = text
        for words in allowed:
            rest = rest.replace(words, "")
        assert not re.search(r"\d", rest), text
        assert not re.search(PROCESS, rest, re.IGNORECASE), text


@pytest.mark.parametrize(
    "figure",
    [
        "boil three minutes",
        "use 3 tbsp",
        "add two cups of salt",
        "at {x} degrees",
        "2.5 % salt",
        "half cup",
        "ten pounds of pressure",
    ],
)
def test_the_search_finds_such_figures(figure):
    """The search above is not blind: made-up sentences with a figure are found."""
    assert re.search(PROCESS, figure, re.IGNORECASE)


@pytest.mark.parametrize("name", ["preserve_yields", "freezer_crops"])
def test_no_figure_of_a_process_stands_in_the_tables(name):
    """The tables hold pounds and quarts alone: no column and no cell tells of salt, blanching, minutes or pressure."""
    found = tables.table(name)
    assert set(found) <= {
        *("printed_as", "crops", "crop", "way", "lb", "quarts_low", "quarts_high", "measure"),
        *("source", "where", "status"),
    }
    cells = " ".join(str(cell) for cell in found.drop(columns="source").to_numpy().ravel())
    assert not re.search(r"salt|blanch|minute|pressure|degree|tbsp|hour|\bcup", cells, re.IGNORECASE)


def test_the_words_send_to_who_has_the_recipe():
    """The caution names the national center and the extension office, and forbids cutting the salt."""
    caution = Voice().say("preserve.caution")
    for words in ("National Center for Home Food Preservation", "extension office", "Never cut the salt"):
        assert words in caution


def test_no_cabbage_in_jars():
    """Nobody has a tested way to can cabbage, so there is no amount for it."""
    assert not {crop for crop in crops_to_preserve("jar") if crop.startswith("cabbage")}
    with pytest.raises(InputProblem, match="Never go by guess"):
        jars_to_fill("cabbage_main", 7)


@pytest.mark.parametrize("way", WAYS)
def test_every_offered_crop_has_an_answer(way):
    """Each crop that is offered is one of ours, and gives an amount above 0 in order."""
    for crop in crops_to_preserve(way):
        assert crop in tables.crops().index
        found = freezer_to_fill(crop, 5.0) if way == "freezer" else jars_to_fill(crop, 5, way=way)
        assert 0 < found.to_get.low <= found.to_get.high
        assert found.work_days.low <= found.work_days.high
        assert found.sources


def test_twice_the_jars_need_twice_the_crop():
    """Amount and bushels grow with the jars."""
    one, two = jars_to_fill("tomato", 10), jars_to_fill("tomato", 20)
    assert two.to_get.high == pytest.approx(2 * one.to_get.high)
    assert two.bushels.low == pytest.approx(2 * one.bushels.low)


@pytest.mark.parametrize("jars", [0, -3, 1.5, float("nan"), 10**9, "6,2", None, True])
def test_bad_counts_get_a_sentence(jars):
    """A count that cannot be is refused in one sentence that names it."""
    with pytest.raises(InputProblem, match="count of jars"):
        jars_to_fill("tomato", jars)


@pytest.mark.parametrize("weight", [0, -3.0, float("nan"), float("inf"), "6,2", None, 1e9])
def test_bad_weights_get_a_sentence(weight):
    """A weight that cannot be is refused in one sentence that names it."""
    with pytest.raises(InputProblem, match="weight for the freezer"):
        freezer_to_fill("broccoli", weight)


def test_unknown_ways_and_crops_get_a_sentence():
    """A way that is none, and a crop without a guide, are refused."""
    with pytest.raises(InputProblem, match="smoke"):
        crops_to_preserve("smoke")
    with pytest.raises(InputProblem, match="guide"):
        freezer_to_fill("lettuce_leaf", 5.0)


def test_a_guide_from_memory_is_told():
    """That guides name kale is from memory, and that is said."""
    said = " ".join(Voice().say(words) for words in freezer_to_fill("kale", 5.0).assumptions)
    assert "unchecked" in said


def test_five_thousand_feet_is_the_line():
    """1524 m are 5,000 ft (NIST SP 811: 0.3048 m a foot): at the line not yet, above it yes."""
    assert high_place(1524.0) is False
    assert high_place(1524.1) is True
