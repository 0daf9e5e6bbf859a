"""Diseases: verdicts, wet leaves, input that cannot be used, and what must not stand in learners' words."""

import math
import re

import numpy as np
import pytest

from gardenlib.pests import disease_in_bed, disease_names, leaf_wetness, spores_left, years_until
from gardenlib.pests.disease import history
from gardenlib.problems import InputProblem
from gardenlib.tables.schemas import SCHEMAS
from gardenlib.words import languages, texts


@pytest.mark.parametrize(
    ("years_ago", "verdict"), [(1, "wait"), (5, "wait"), (6, "differ"), (7, "differ"), (8, "free"), (30, "free")]
)
def test_clubroot_by_years(years_ago, verdict):
    """Five to seven years without: four wait, five and six differ, seven are enough for all sources."""
    found = disease_in_bed("clubroot", history(years_ago), year=2027)
    assert (found.verdict, found.years_without, found.last_year) == (verdict, years_ago - 1, 2027 - years_ago)


@pytest.mark.parametrize(("known", "verdict"), [(0, "not_known"), (4, "not_known"), (7, "free")])
def test_without_the_family_only_enough_years_tell(known, verdict):
    """Where the family is not on record, fewer years than are asked for tell nothing."""
    found = disease_in_bed("clubroot", [["Fabaceae"]] * known, year=2027)
    assert (found.verdict, found.last_year, found.years_without) == (verdict, None, known)
    assert ("disease.spores_at_most" in [said.key for said in found.assumptions]) is bool(known)
    assert (found.spores_left_pct is not None) is bool(known)


def test_a_disease_without_years_takes_the_family_s():
    """For downy mildew no years are printed; the family's stand in, and that is said."""
    found = disease_in_bed("downy_mildew", history(1), year=2027)
    assert (found.asked_years, found.verdict) == (None, "wait")
    assert "disease.no_years" in [said.key for said in found.assumptions]


def test_only_clubroot_has_spores():
    """Spores are counted for clubroot alone, and none are gone in the year after."""
    left = {name: disease_in_bed(name, history(1), year=2027).spores_left_pct for name in disease_names()}
    assert (left.pop("clubroot").low, set(left.values())) == (100, {None})


def test_spores_and_years_undo_each_other():
    """The years until a share is left bring that share back (a round trip, no source)."""
    for share in (1.0, 0.5, 0.1, 0.001):
        years = years_until(share, np.array([3.0, 6.0]))
        assert [float(spores_left(y, h)) for y, h in zip(years, (3, 6), strict=True)] == pytest.approx([share, share])


def test_evening_adds_and_morning_does_not():
    """Evening sprinkling lengthens the stretch; the same water in the morning, or at the roots, does not."""
    hours = {way: leaf_wetness(8, sprinkled=way, hours_before_dew=3).wet_hours for way in ("no", "evening", "morning")}
    assert hours == {"no": 8, "evening": 11, "morning": 8}


@pytest.mark.parametrize("hours", [math.nan, -1, 25, "8", None, math.inf])
def test_hours_that_cannot_be_are_refused(hours):
    """Hours outside 0 to 24, or no number, get one sentence."""
    with pytest.raises(InputProblem, match="0 to 24"):
        leaf_wetness(hours)
    with pytest.raises(InputProblem, match="0 to 24"):
        leaf_wetness(8, sprinkled="evening", hours_before_dew=hours)


@pytest.mark.parametrize(("years", "half_life"), [(-1, 3), (math.nan, 3), (7, 0), (7, -3), ("6,2", 3), (7, math.inf)])
def test_spores_that_cannot_be_counted(years, half_life):
    """Negative years, no half-life and text are refused in one sentence."""
    with pytest.raises(InputProblem, match="half-life"):
        spores_left(years, half_life)


def test_shares_and_names_that_cannot_be():
    """A share above 1 asks what was meant, none at all is refused; so are unknown diseases and ways of watering."""
    with pytest.raises(InputProblem, match=r"Did you mean 0\.05"):
        years_until(5, 3)
    with pytest.raises(InputProblem, match="never reached"):
        years_until(0, 3)
    with pytest.raises(InputProblem, match="gout"):
        disease_in_bed("gout", [], year=2027)
    with pytest.raises(InputProblem, match="noon"):
        leaf_wetness(8, sprinkled="noon")


# Temperatures of the published table that instructors have, in F and C, and minutes of any number.
HEATS = re.compile(r"(?<![\d.,])(?:(?:118|122|125) ?° ?F|(?:47[.,]8|50(?:[.,]0)?|51[.,]7|52) ?° ?C)")
MINUTES = re.compile(r"\d[- ]?min", re.IGNORECASE)
SEED = re.compile(r"\bseeds?\b|\bsoak", re.IGNORECASE)
HOT_WATER = re.compile(r"\b(?:hot|warm)[- ]water", re.IGNORECASE)


def _gives_away(text):
    """Tell whether a text holds a heat of the table, minutes for seed, or any number or gap beside hot water."""
    about_seed = SEED.search(text) and (MINUTES.search(text) or "{minutes}" in text)
    return bool(HEATS.search(text) or about_seed or (HOT_WATER.search(text) and re.search(r"[\d{]", text)))


@pytest.mark.parametrize("language", languages())
def test_no_hot_water_figures_in_words(language):
    """No file of words holds minutes or temperatures of the hot-water table, though learners read that it exists."""
    said = texts(language)
    assert {key: text for key, text in said.items() if _gives_away(text)} == {}
    assert language != "en" or HOT_WATER.search(said["disease.seed"])


def test_the_search_finds_hot_water_figures():
    """The search above finds each way of writing one, and leaves other numbers alone."""
    told = (
        "at 122 °F",
        "in water of 50.0°C",
        "50 °C does it",
        "51,7 °C",
        "Keep seed in it for 25 minutes",
        "a 20-minute soak",
    )
    assert all(_gives_away(text) for text in (*told, "Hot water of {heat} frees the seed", "seed: {minutes} in all"))
    kept = ("1220 °F", "50 plants", "about 10 minutes", "Sow 122 seeds", "Hot water frees seed.", "150 °C", "50 °F")
    assert not any(_gives_away(text) for text in kept)


def test_no_table_of_the_library_holds_hot_water():
    """The table is on the instructor's page alone: no table of the library is about it."""
    assert [name for name in SCHEMAS if "hot" in name] == []
