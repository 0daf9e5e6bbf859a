"""Rotation: which year, which verdict, and words that cannot be used."""

import pytest

from gardenlib import beds
from gardenlib.problems import InputProblem

NAMES = {
    "cabbage": "Brassicaceae",
    "bush bean": "Fabaceae",
    "tomato": "Solanaceae",
    "potato": "Solanaceae",
    "sweet potato": "Convolvulaceae",
    "sweet corn": "Poaceae",
    "pea": "Fabaceae",
}


def test_the_latest_year_counts():
    """A family that grew twice is counted from the later year."""
    found = beds.rotation_of("Fabaceae", [[], ["Fabaceae"], [], ["Fabaceae"]], year=2027)
    assert (found.last_year, found.years_without) == (2025, 1)


@pytest.mark.parametrize(
    ("past", "verdict"),
    [
        ([["Fabaceae"]], "wait"),
        ([[], [], ["Fabaceae"]], "differ"),
        ([[], [], [], ["Fabaceae"]], "free"),
        ([], "not_known"),
        ([[]], "not_known"),
        ([[], [], []], "free"),
    ],
)
def test_what_the_sources_say_together(past, verdict):
    """Two to three years without: one year waits, two is within the range, three is free; no record, no answer."""
    assert beds.rotation_of("fabaceae ", past, year=2027).verdict == verdict


def test_a_disease_decides_alone():
    """Four clear years free the cabbage family, but not where clubroot was seen."""
    past = [[], [], [], [], ["Brassicaceae"]]
    assert beds.rotation_of("Brassicaceae", past, year=2027).verdict == "free"
    assert beds.rotation_of("Brassicaceae", past, year=2027, disease="clubroot").verdict == "wait"
    assert beds.rotation_of("Brassicaceae", past, year=2027, disease="fusarium_yellows").verdict == "not_known"


def test_a_record_shorter_than_the_disease_tells_nothing():
    """Four known years without the family say nothing about seven."""
    assert beds.rotation_of("Brassicaceae", [[]] * 4, year=2027, disease="clubroot").verdict == "not_known"


def test_figures_from_memory_are_marked():
    """Onions have a line from memory: it is said to be unchecked."""
    found = beds.rotation_of("Amaryllidaceae", [["Amaryllidaceae"]], year=2027)
    assert "unchecked" in " ".join(str(said) for said in found.assumptions)


def test_it_says_what_rotation_cannot_do():
    """Each answer says that the next bed does not stop what flies."""
    found = beds.rotation_of("Poaceae", [], year=2027)
    assert any("fly" in str(said) for said in found.assumptions)


@pytest.mark.parametrize(
    "how", [{"year": 3}, {"year": 2027.5}, {"year": "2027"}, {"year": True}, {"year": float("nan")}]
)
def test_years_that_cannot_be_used(how):
    """A year is a whole number of our time."""
    with pytest.raises(InputProblem, match="year"):
        beds.rotation_of("Poaceae", [], **how)


def test_unknown_families_and_diseases():
    """Both name the known ones."""
    with pytest.raises(InputProblem, match="Brassicaceae"):
        beds.rotation_of("cabbages", [], year=2027)
    with pytest.raises(InputProblem, match="clubroot"):
        beds.rotation_of("Brassicaceae", [], year=2027, disease="scab")


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("", ()),
        ("Cabbage", ("Brassicaceae",)),
        ("beans, tomatoes", ("Fabaceae", "Solanaceae")),
        ("potatoes; sweet potatoes", ("Solanaceae", "Convolvulaceae")),
        ("peas and beans", ("Fabaceae",)),
    ],
)
def test_plain_words_become_families(text, found):
    """One or many, capitals, commas: the family is found once."""
    assert beds.families_grown(text, NAMES) == found


@pytest.mark.parametrize("text", ["sweet", "stones", "<b>", "6,2"])
def test_words_that_fit_nothing_or_too_much(text):
    """A word of two families, or of none, is named."""
    with pytest.raises(InputProblem):
        beds.families_grown(text, NAMES)


def test_trials_say_nothing_beyond_what_was_tried():
    """Closer or wider than the trials there is no weight; without a trial it says so."""
    assert beds.closeness_of("cabbage_main", 0.2).head is None
    assert beds.closeness_of("cabbage_main", 0.8).head is None
    assert not beds.closeness_of("leek", 0.1).tried
    for spacing in (0, float("nan"), 18, "1"):
        with pytest.raises(InputProblem):
            beds.closeness_of("leek", spacing)
