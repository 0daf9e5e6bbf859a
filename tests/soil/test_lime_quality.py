"""How fine a bag's lime is: published examples of three ways, and what is refused."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gardenlib import InputProblem, tables
from gardenlib.panels.soil import bag
from gardenlib.soil import lime_quality, lime_sieves

IOWA = {4: 1.00, 8: 0.90, 60: 0.55}
SCHEMES = ("iowa_ecce", "new_york_env", "kentucky_rnv")


def test_iowa_s_printed_example():
    """Iowa PM 1688 (2002), as Laboski quotes it: 100, 90 and 55 % pass 4, 8 and 60 mesh: total fineness 70."""
    assert lime_quality("iowa_ecce", 0.92, IOWA).fineness_fraction == pytest.approx(0.70, abs=1e-12)


def test_iowa_s_printed_ecce():
    """The same page: fineness 70, CCE 92, moisture 2 % give 1,260 lb ECCE in a ton of 2,000, printed rounded, 63 %."""
    found = lime_quality("iowa_ecce", 0.92, IOWA, moisture_fraction=0.02)
    # Printed to ten pounds: 0.70 x 0.92 x 0.98 x 2000 is 1,262.
    assert found.effective_fraction * 2000 == pytest.approx(1260, abs=5)
    assert round(100 * found.effective_fraction) == 63


def test_new_york_s_factors():
    """Cornell objective 41: 20 to 60 mesh 0.40, 60 to 100 0.80, finer 1.00; with 95, 65, 50 and CCE 90: 74 and 66.6."""
    found = lime_quality("new_york_env", 0.90, {20: 0.95, 60: 0.65, 100: 0.50})
    # 30 x 0.40 + 15 x 0.80 + 50 x 1.00 by hand from the printed factors.
    assert 100 * found.fineness_fraction == pytest.approx(74.0, abs=1e-9)
    assert 100 * found.effective_fraction == pytest.approx(66.6, abs=1e-9)


def test_kentucky_s_factors():
    """Mississippi P3762 and Kentucky AGR-106: RNV = CCE (0.5 (p10 - p50) + p50) / 100; with 95, 40, CCE 90: 60.75."""
    found = lime_quality("kentucky_rnv", 0.90, {10: 0.95, 50: 0.40})
    assert 100 * found.effective_fraction == pytest.approx(60.75, abs=1e-9)


def test_the_check_s_numbers_are_the_answer_s():
    """Right, without taking the finer part off, and without the CCE; the last two are worked out by hand."""
    cce, above, below, right, between, forgotten = bag.CASE
    found = lime_quality("kentucky_rnv", cce / 100, {10: above / 100, 50: below / 100})
    assert round(100 * found.effective_fraction) == right
    assert round((0.5 * above + below) * cce / 100) == between
    # 67.5, and a half rounds up on the page.
    assert int(0.5 * (above - below) + below + 0.5) == forgotten


@pytest.mark.parametrize("scheme", SCHEMES)
def test_all_through_the_finest_counts_whole(scheme):
    """Pure dry lime that passes every sieve counts whole; lime that passes none counts nothing (closed form)."""
    meshes = lime_sieves(scheme)
    assert lime_quality(scheme, 1.0, dict.fromkeys(meshes, 1.0)).effective_fraction == pytest.approx(1.0)
    assert lime_quality(scheme, 1.0, dict.fromkeys(meshes, 0.0)).effective_fraction == 0


@given(st.sampled_from(SCHEMES), st.lists(st.floats(0, 1), min_size=3, max_size=3), st.floats(0.5, 1.1))
def test_finer_never_counts_less(scheme, shares, cce):
    """What passes more of each sieve counts at least as much, and nothing counts more than the CCE."""
    meshes = lime_sieves(scheme)
    falling = sorted(shares, reverse=True)[: len(meshes)]
    coarse = lime_quality(scheme, cce, dict(zip(meshes, falling, strict=True)))
    fine = lime_quality(scheme, cce, dict.fromkeys(meshes, falling[0]))
    assert coarse.effective_fraction <= fine.effective_fraction + 1e-12
    assert fine.effective_fraction <= cce + 1e-12


def test_only_iowa_takes_the_water_off():
    """Moisture lowers Iowa's figure and no other, and a bag taken as dry is told."""
    wet = lime_quality("kentucky_rnv", 0.9, {10: 0.95, 50: 0.4}, moisture_fraction=0.1)
    assert wet.effective_fraction == lime_quality("kentucky_rnv", 0.9, {10: 0.95, 50: 0.4}).effective_fraction
    assert "bag.dry" in {said.key for said in lime_quality("iowa_ecce", 0.9, IOWA).assumptions}


def test_what_lies_between_is_noticed():
    """Between-sieve percents that rise with the mesh are refused with what to type instead."""
    with pytest.raises(InputProblem, match="not what lies between"):
        lime_quality("new_york_env", 0.9, {20: 0.10, 60: 0.25, 100: 0.65})


@pytest.mark.parametrize(
    ("how", "words"),
    [
        ({"scheme": "texas"}, "texas"),
        ({"cce_fraction": 1.35}, "hydrated"),
        ({"cce_fraction": 90}, "0.9"),
        ({"cce_fraction": float("nan")}, "not a number"),
        ({"passing": {10: 0.95}}, "10, 50 mesh"),
        ({"passing": {10: 95, 50: 40}}, "0.95"),
        ({"passing": {10: "6,2", 50: 0.4}}, "6,2"),
        ({"passing": {10: 0.95, 50: -0.1}}, "-0.1"),
        ({"moisture_fraction": 0.9}, "0.9"),
    ],
)
def test_bad_input_gets_a_sentence(how, words):
    """Each slip is named with its value or its mend."""
    given_ = {"scheme": "kentucky_rnv", "cce_fraction": 0.9, "passing": {10: 0.95, 50: 0.4}, **how}
    moisture = given_.pop("moisture_fraction", 0.0)
    with pytest.raises(InputProblem, match=words):
        lime_quality(*given_.values(), moisture_fraction=moisture)


def test_every_row_is_published():
    """Only ways that were read in a publication are in the table."""
    assert set(tables.table("lime_sieves")["status"]) == {"published"}
