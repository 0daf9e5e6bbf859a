"""Nets, collars and diseases against the figures that their sources print."""

import pytest

from gardenlib import tables
from gardenlib.beds import rotation_of
from gardenlib.pests import disease_in_bed, leaf_wetness, mesh_keeps_out, spores_left, years_until
from gardenlib.pests.nets import figure

# Largest hole in mm: Bethke and Paine (1991), Journal of Entomological Science 26(1):169, abstract, and Rutgers FS640,
# table 1 (40, 52, 78 and 132 mesh).
HOLES = {"leafminer": 0.64, "whitefly": 0.462, "aphid": 0.341, "thrips": 0.192}


def _kept(hole_mm):
    return {kept.pest: kept for kept in mesh_keeps_out(hole_mm).pests}


@pytest.mark.parametrize("pest", HOLES)
def test_holes_are_the_printed_ones(pest):
    """A hole of the printed size keeps the pest out (or one source says so); one a hundredth wider does not."""
    found = _kept(HOLES[pest])[pest]
    assert found.checked
    assert found.largest_hole_mm.high == HOLES[pest]
    assert found.keeps_out is not False
    assert _kept(HOLES[pest] + 0.01)[pest].keeps_out is False


def test_leafminer_has_two_sources():
    """Ontario (2000), table 1, prints 608 micron where Rutgers prints 0.64 mm: between them sources differ."""
    assert _kept(0.608)["leafminer"].keeps_out is True
    assert _kept(0.62)["leafminer"].keeps_out is None


def test_a_net_of_four_tenths():
    """At 0.4 mm whitefly and leafminer stay out and aphids do not (set beside Bethke and Paine 1991)."""
    found = _kept(0.4)
    assert [found[pest].keeps_out for pest in ("aphid", "whitefly", "leafminer")] == [False, True, True]


def test_sizes_from_memory_are_marked():
    """Sizes that were read nowhere are never marked as checked (their only source is a memory)."""
    known = set(HOLES)
    assert {pest for pest, kept in _kept(1.0).items() if kept.checked} == known
    assert all(kept.sources == ("memory_mesh",) for pest, kept in _kept(1.0).items() if pest not in known)


def test_edges_collars_and_hands():
    """Edges 5 cm deep (RHS); collar 0.5 in below, 1 in above (Beltrami County); picking every 2-3 days (UW MBCN)."""
    assert figure("edges", "buried").low == 50
    assert figure("cutworm", "in_soil").low == pytest.approx(0.5 * 25.4, abs=1)
    assert figure("cutworm", "above_soil").low == pytest.approx(1 * 25.4, abs=1)
    assert (figure("caterpillars", "every").low, figure("caterpillars", "every").high) == (2, 3)


# Percent, from the abstracts (Neave; Wright 1984) and from Conservation Evidence no. 4185 (Speese and Sterrett 1998).
TRIALS = {"fine_net": 72, "coarse_net": 38, "beetle_1982": 95.8, "beetle_1983": 69.5, "potato_yield": 47}


def test_trials_are_the_printed_ones():
    """Effects of nets and rotation are those of the abstracts; 22.52 against 15.34 t/ha are the potato's 47 %."""
    found = tables.table("control_trials").set_index("trial")["low"]
    assert {trial: found[trial] for trial in TRIALS} == TRIALS
    assert found["potato_yield"] == pytest.approx(100 * (22.52 / 15.34 - 1), abs=0.5)


def test_spores_after_seven_years():
    """A half-life of 3 to 6 years (Pacific Northwest handbook) leaves 0.1984 to 0.4454 after 7, worked out by hand."""
    assert [float(left) for left in spores_left(7, [3, 6])] == pytest.approx([0.1984, 0.4454], abs=0.0005)
    found = disease_in_bed("clubroot", [[]] * 7 + [["Brassicaceae"]], year=2027).spores_left_pct
    assert (found.low, found.high) == pytest.approx((19.84, 44.54), abs=0.05)


def test_years_to_one_in_a_hundred():
    """With the same half-lives one spore in a hundred is left after 19.93 to 39.86 years, worked out by hand."""
    assert [float(years) for years in years_until(0.01, [3, 6])] == pytest.approx([19.93, 39.86], abs=0.02)


def test_black_rot_likes_it_warm():
    """80 to 86 F (Pacific Northwest handbook; University of Florida) are 26.7 to 30.0 C."""
    row = disease_in_bed("black_rot", [], year=2027).facts.set_index("property").loc["warm"]
    assert (row["low"], row["high"]) == pytest.approx((26.7, 30.0), abs=0.05)
    assert row["unit"] == "degC"


def test_first_year_after_black_rot():
    """Cabbage in 2023 and two whole years without: from 2026 (North Carolina; Connecticut's low end is two as well)."""
    table = rotation_of("Brassicaceae", [[], [], ["Brassicaceae"]], year=2026, disease="black_rot").table
    assert table.set_index("what").loc["black_rot", "from_low"] == 2026


# Years without the family: (least, most) of North Carolina (2 at least) and Pacific Pests and Pathogens 131 (3-4) for
# black rot; Oregon's slides (5-7) and Connecticut (7) for clubroot; North Carolina (2) and Connecticut (3-4) for
# blackleg.
YEARS = {"black_rot": (2, 4), "clubroot": (5, 7), "blackleg": (2, 4)}


@pytest.mark.parametrize("disease", YEARS)
def test_years_span_all_sources(disease):
    """The years asked for run from the least to the most of all sources, and each source is named."""
    found = disease_in_bed(disease, [], year=2027)
    assert (found.asked_years.low, found.asked_years.high) == YEARS[disease]
    assert len(found.asked_by) >= 2


@pytest.mark.parametrize(("hours", "enough"), [(8, False), (9, False), (9.5, True), (11, True)])
def test_nine_hours_of_wet_leaves(hours, enough):
    """Alternaria gets in after MORE than 9 hours of wet leaves (University of Connecticut)."""
    assert leaf_wetness(hours).long_enough is enough


# Degrees and years as printed: Western Australia, Pacific Northwest handbooks, Connecticut, Michigan, Oregon.
PRINTED = {
    ("clubroot", "warm"): (20, 25, "C"),
    ("clubroot", "half_life"): (3, 6, "years"),
    ("clubroot", "soil_life_least"): (10, 10, "years"),
    ("clubroot", "soil_life_most"): (18, 18, "years"),
    ("alternaria", "warm_gray"): (64, 75, "F"),
    ("alternaria", "warm_dark"): (68, 86, "F"),
    ("alternaria", "spore_hours"): (20, 20, "hours"),
    ("alternaria", "debris"): (23, 23, "weeks"),
    ("downy_mildew", "warm"): (50, 60, "F"),
    ("black_rot", "fast_from"): (77, 77, "F"),
    ("black_rot", "shows_within"): (40, 40, "days"),
    ("black_rot", "debris"): (2, 2, "years"),
}


@pytest.mark.parametrize("which", PRINTED)
def test_disease_figures_are_the_printed_ones(which):
    """Each figure of a disease is the one of the source named in its row."""
    row = tables.table("diseases").set_index(["disease", "property"]).loc[[which]].iloc[0]
    assert (row["low"], row["high"], row["unit"]) == PRINTED[which]
    assert row["status"] == "published"
