"""Lime: what is refused, what is none, what grows with what, and the doses."""

import math
from datetime import date

import pytest

from gardenlib import soil
from gardenlib.problems import InputProblem
from gardenlib.soil.lime_limits import largest_dose_kg_m2

GIVEN = {
    "lab_rate": {"lab_rate": 0.4},
    "sikora_osu": {"buffer_ph": 6.2},
    "smp_isu": {"buffer_ph": 6.2},
    "mehlich_ncda": {"buffer_ph": 6.1},
    "mehlich_psu": {"acidity_meq_100g": 5.0},
    "texture_usda": {"texture": "loam"},
}
METHODS = sorted(GIVEN)
CLASSES = [
    *("sand", "loamy sand", "sandy loam", "loam", "silt loam", "silt", "sandy clay loam", "clay loam"),
    *("silty clay loam", "sandy clay", "silty clay", "clay"),
]


def _rate(method, **how):
    return soil.lime_rate(method, **{"water_ph": 5.5, "target_ph": 6.5, **GIVEN[method], **how})


@pytest.mark.parametrize("method", METHODS)
@pytest.mark.parametrize("ph", [6.5, 6.6, 7.4])
def test_none_at_or_above_the_target(method, ph):
    """A soil at its target or above it asks for no lime, by any method, and no dose is planned."""
    rate = _rate(method, water_ph=ph)
    assert (rate.low_kg_m2, rate.high_kg_m2) == (0, 0)
    bed = soil.lime_for_bed(rate, 3.0, plant_on=date(2027, 9, 1))
    assert (bed.low_kg, bed.high_kg, bed.applications, bed.retest_on) == (0, 0, (), None)


@pytest.mark.parametrize("method", METHODS)
def test_every_answer_shows_its_working(method):
    """Each method gives a low and a high end, not below none, with steps and sources."""
    rate = _rate(method)
    assert 0 < rate.low_kg_m2 <= rate.high_kg_m2
    assert rate.steps
    assert rate.sources
    assert rate.checked == (method != "texture_usda")


@pytest.mark.parametrize("method", METHODS)
@pytest.mark.parametrize("name", ["water_ph", "target_ph"])
@pytest.mark.parametrize("value", [0, -1, 70, 14, math.nan, math.inf, "6,2", "6.2", None, True])
def test_hostile_ph_is_refused(method, name, value):
    """A pH that is none is refused in one sentence, by every method."""
    with pytest.raises(InputProblem) as told:
        _rate(method, **{name: value})
    assert "\n" not in str(told.value)


def test_a_lost_point_is_asked_about():
    """A pH of 62 is asked about as 6.2."""
    with pytest.raises(InputProblem, match=r"mean 6\.2"):
        _rate("smp_isu", water_ph=62)


@pytest.mark.parametrize("depth", [-0.15, 0, 0.01, 6, 15, math.nan, "0,15"])
def test_hostile_depth_is_refused(depth):
    """A depth below none, or in inches or centimetres, is refused."""
    with pytest.raises(InputProblem, match="depth_m"):
        _rate("sikora_osu", depth_m=depth)


@pytest.mark.parametrize("method", ["sikora_osu", "smp_isu", "mehlich_ncda"])
@pytest.mark.parametrize("buffer", [8.3, 9, 63, -6, math.nan, "6,2"])
def test_hostile_buffer_is_refused(method, buffer):
    """A buffer pH above 8, below none or not a number is refused."""
    with pytest.raises(InputProblem):
        _rate(method, buffer_ph=buffer)


@pytest.mark.parametrize(
    ("method", "missing"),
    [
        ("lab_rate", {"lab_rate": None}),
        ("sikora_osu", {"buffer_ph": None}),
        ("smp_isu", {"buffer_ph": None}),
        ("mehlich_ncda", {"buffer_ph": None}),
        ("mehlich_psu", {"acidity_meq_100g": None, "buffer_ph": 6.2}),
        ("texture_usda", {"texture": None}),
    ],
)
def test_what_a_method_needs_is_named(method, missing):
    """Without its reading a method is refused; no other reading takes its place."""
    with pytest.raises(InputProblem):
        _rate(method, **missing)


@pytest.mark.parametrize("way", ["kcl", "other", "cacl2"])
def test_another_ph_is_never_taken_for_that_in_water(way):
    """A pH in potassium chloride or by another way is refused as pH in water."""
    with pytest.raises(InputProblem, match="another way"):
        _rate("smp_isu", ph_method=way)


@pytest.mark.parametrize(
    ("method", "target"),
    [
        ("sikora_osu", 5.5),
        ("smp_isu", 5.9),
        ("smp_isu", 7.0),
        ("mehlich_ncda", 6.8),
        ("mehlich_psu", 6.0),
        ("texture_usda", 6.6),
    ],
)
def test_a_target_that_a_method_does_not_reach_is_refused(method, target):
    """Nothing is carried on past a published target."""
    with pytest.raises(InputProblem):
        _rate(method, water_ph=5.0, target_ph=target)


@pytest.mark.parametrize("method", METHODS)
def test_club_root_target_needs_a_finding(method):
    """A target of 7.2 without a diagnosed case is refused, by every method."""
    with pytest.raises(InputProblem, match="club root"):
        _rate(method, target_ph=7.2)


def test_club_root_target_with_a_sheet():
    """With club root found, only the table that reaches 7.2 and the lab's own rate answer."""
    rate = _rate("sikora_osu", target_ph=7.2, clubroot_diagnosed=True)
    assert rate.high_kg_m2 > _rate("sikora_osu").high_kg_m2
    assert _rate("lab_rate", target_ph=7.2, clubroot_diagnosed=True).high_kg_m2 == 0.4
    for method in ("smp_isu", "mehlich_ncda", "mehlich_psu", "texture_usda"):
        with pytest.raises(InputProblem):
            _rate(method, target_ph=7.2, clubroot_diagnosed=True)


def test_the_lab_s_own_rate_comes_first():
    """A printed rate is chosen before any buffer, and no method works over it."""
    assert soil.lime_method("sikora", 0.3) == "lab_rate"
    assert soil.lime_method("none") is None
    with pytest.raises(InputProblem, match="own"):
        _rate("sikora_osu", lab_rate=0.3)


def test_lab_rate_counts_its_lime():
    """A lab that counts in lime of 90 % asks for a tenth less pure lime."""
    assert _rate("lab_rate", lab_cce_fraction=0.9).high_kg_m2 == pytest.approx(0.36)


@pytest.mark.parametrize("rate", [-0.1, 50, math.nan, "0,4"])
def test_hostile_lab_rate_is_refused(rate):
    """Fifty pounds typed as kilograms, and less than none, are refused."""
    with pytest.raises(InputProblem):
        _rate("lab_rate", lab_rate=rate)


@pytest.mark.parametrize("method", ["sikora_osu", "smp_isu", "mehlich_ncda", "mehlich_psu", "texture_usda"])
def test_twice_the_depth_takes_twice_the_lime(method):
    """A rate grows in a straight line with the depth, and 0.15 m counts as 6 inches."""
    once, twice = (_rate(method, depth_m=depth).high_kg_m2 for depth in (0.15, 0.3))
    assert twice == pytest.approx(2 * once)
    assert _rate(method, depth_m=0.1524).high_kg_m2 == once


@pytest.mark.parametrize("method", ["sikora_osu", "smp_isu", "mehlich_ncda"])
def test_a_lower_buffer_never_asks_for_less(method):
    """More acidity held back asks for more lime; the rate is never below none."""
    buffers = [5.8 + n / 20 for n in range(17)]
    rates = [_rate(method, buffer_ph=buffer).high_kg_m2 for buffer in buffers]
    assert min(rates) >= 0
    assert rates == sorted(rates, reverse=True)


def test_above_the_oregon_table():
    """Above the last printed buffer value the answer runs from none to the last row."""
    rate = _rate("sikora_osu", buffer_ph=7.2)
    assert rate.low_kg_m2 == 0
    assert rate.high_kg_m2 == pytest.approx(_rate("sikora_osu", buffer_ph=6.9).high_kg_m2)


@pytest.mark.parametrize("texture", CLASSES)
def test_every_texture_has_a_range(texture):
    """Each of the twelve classes has a warm and a cool end."""
    rate = _rate("texture_usda", texture=texture)
    assert 0 < rate.low_kg_m2 < rate.high_kg_m2


def test_texture_starts_where_the_table_starts():
    """Loam below 4.5 has no row; sand has one."""
    with pytest.raises(InputProblem, match="starts"):
        _rate("texture_usda", water_ph=4.2)
    assert _rate("texture_usda", water_ph=4.2, texture="sand").high_kg_m2 > 0


# ---- one bed, one bag ---------------------------------------------------------------------------------


@pytest.mark.parametrize("area", [0, -3, math.nan, 1e9, "3,5"])
def test_hostile_area_is_refused(area):
    """A bed without an area is refused."""
    with pytest.raises(InputProblem, match="area_m2"):
        soil.lime_for_bed(_rate("smp_isu"), area)


@pytest.mark.parametrize("cce", [1.36, 1.79, 1.2])
def test_caustic_lime_is_refused(cce):
    """136 % is hydrated lime and 179 % quicklime (Penn State's list): refused by name."""
    with pytest.raises(InputProblem, match="hydrated"):
        soil.lime_for_bed(_rate("smp_isu"), 3.0, cce_fraction=cce)


@pytest.mark.parametrize(("name", "value"), [("cce_fraction", 90), ("effectiveness_fraction", 63)])
def test_a_percent_is_asked_about(name, value):
    """90 for a fraction is asked about as 0.9."""
    with pytest.raises(InputProblem, match="Did you mean"):
        soil.lime_for_bed(_rate("smp_isu"), 3.0, **{name: value})


def test_a_weaker_bag_takes_more():
    """A bag of 63 % effective lime takes 1/0.63 as much (Iowa's example bag has 63 %)."""
    rate = _rate("smp_isu")
    whole, weak = (soil.lime_for_bed(rate, 1.0, cce_fraction=1.0, effectiveness_fraction=e) for e in (1.0, 0.63))
    assert weak.high_kg == pytest.approx(whole.high_kg / 0.63)


@pytest.mark.parametrize("method", METHODS)
@pytest.mark.parametrize("worked_in", [True, False])
@pytest.mark.parametrize("cce", [0.5, 0.9, 1.09])
def test_no_dose_is_above_the_printed_limit(method, worked_in, cce):
    """However much a soil asks for, no single dose passes the published limit, and the doses add up."""
    how = {"buffer_ph": 5.8} if method in {"sikora_osu", "smp_isu"} else {}
    how |= {"acidity_meq_100g": 20.0} if method == "mehlich_psu" else {}
    rate = _rate(method, water_ph=4.6, **how)
    bed = soil.lime_for_bed(rate, 4.0, cce_fraction=cce, worked_in=worked_in)
    most = largest_dose_kg_m2(worked_in=worked_in and rate.checked) * 4.0
    assert all(0 <= dose.low_kg <= dose.high_kg <= most + 1e-9 for dose in bed.applications)
    if rate.checked:
        assert sum(dose.high_kg for dose in bed.applications) == pytest.approx(bed.high_kg)
    else:
        assert len(bed.applications) == 1


def test_dates_of_the_doses():
    """The first dose comes six months before planting, the next six months later, a new sample nine after the last."""
    rate = _rate("lab_rate", lab_rate=0.8)
    bed = soil.lime_for_bed(rate, 3.0, plant_on=date(2027, 9, 1))
    assert [dose.on for dose in bed.applications] == [date(2027, 3, 1), date(2027, 9, 1)]
    assert bed.retest_on == date(2028, 6, 1)
    assert bed.in_time


def test_too_late_for_this_planting():
    """Less than three months before planting the answer says that it is late; a planting in the past is refused."""
    rate = _rate("lab_rate")
    bed = soil.lime_for_bed(rate, 3.0, plant_on=date(2027, 4, 15), not_before=date(2027, 2, 15))
    assert bed.applications[0].on == date(2027, 2, 15)
    assert bed.in_time is False
    assert any(said.key == "lime.late" for said in bed.assumptions)
    with pytest.raises(InputProblem, match="later day"):
        soil.lime_for_bed(rate, 3.0, plant_on=date(2027, 1, 1), not_before=date(2027, 2, 15))


# ---- without a sheet ----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("ph", "need"), [(4.0, "much"), (5.9, "much"), (6.0, "little"), (6.4, "little"), (6.5, "none"), (8.0, "none")]
)
def test_none_little_or_much(ph, need):
    """By the pH alone: none at the target, little up to half a pH below it (common practice, no source)."""
    assert soil.lime_need(ph).need == need


def test_alkaline_from_the_highest_target():
    """From 7.3, the highest target found (Smith and Koike: 7.2 to 7.3), the question turns round."""
    assert [soil.lime_need(ph).alkaline for ph in (7.2, 7.3)] == [False, True]


def test_spread_by_hand():
    """Acidity 4.6, pH 5.5 to 6.5: North Carolina 4.18 t at 90 %, Penn State's table 70 lb at 7 inches: 2.9 times."""
    spread = soil.lime_spread(water_ph=5.5, target_ph=6.5, buffer_ph=6.2, acidity_meq_100g=4.6)
    by_hand = (4.6 * 1.0 / 1.1 * 0.9 * 2000 / 43.56) / (70 * 6 / 7)
    assert spread.factor == pytest.approx(by_hand)
    assert next(rate.times_least for rate in spread.rates if rate.reading == "buffer") == 1
    # Iowa 4,977 lb; Oregon 2.8 + (3.7 - 2.8) / 4 = 3.025 t = 6,050 lb.
    assert max(rate.times_least for rate in spread.rates if rate.reading == "buffer") == pytest.approx(
        6050 / 4977, rel=1e-3
    )


def test_spread_needs_two_methods():
    """With no reading, or no lime asked for, there is nothing to set side by side."""
    with pytest.raises(InputProblem):
        soil.lime_spread(water_ph=5.5, target_ph=6.5)
    with pytest.raises(InputProblem):
        soil.lime_spread(water_ph=6.6, target_ph=6.5, buffer_ph=6.9)


@pytest.mark.parametrize(
    ("magnesium", "kind"),
    [("", None), ("low", "dolomitic"), ("medium", "dolomitic"), ("high", "calcitic"), ("very_high", "calcitic")],
)
def test_kind_of_lime(magnesium, kind):
    """University of Connecticut: dolomitic lime unless magnesium stands above its best level; none without a result."""
    assert soil.lime_kind(magnesium) == kind
