"""What fits in a bed: counts against whole numbers, places against plain distances."""

import math

import numpy as np
import pytest

from gardenlib import beds
from gardenlib.beds.fits import in_line, offset_lines, total
from gardenlib.problems import InputProblem

INCH, FOOT = 0.0254, 0.3048
PATTERNS = [("square", None), ("offset", None), ("rows", 0.5)]


def _all_beds():
    feet = np.arange(1, 41)
    return np.meshgrid(feet, feet, np.arange(1, 49), indexing="ij")


def test_squares_in_whole_inches_are_whole_number_division():
    """Every whole-foot bed to 40 ft by every spacing of 1 to 48 in: the count is that of whole numbers (geometry)."""
    length, width, inches = _all_beds()
    spacing = inches * INCH
    found = in_line(length * FOOT - spacing, spacing) * in_line(width * FOOT - spacing, spacing)
    assert (found == (12 * length // inches) * (12 * width // inches)).all()


def test_offset_in_whole_inches_is_counted_without_floats():
    """The same beds offset: lines and places agree with whole numbers; 3 k^2 s^2 <= 4 free^2 counts the lines."""
    length, width, inches = _all_beds()
    lines, odd, even = offset_lines((length * 12 - inches) * INCH, (width * 12 - inches) * INCH, inches * INCH)
    free = 12 * width - inches
    room = free >= 0
    steps = lines - 1
    assert (lines[~room] == 0).all()
    assert (3 * steps**2 * inches**2 <= 4 * free**2)[room].all()
    assert (3 * (steps + 1) ** 2 * inches**2 > 4 * free**2)[room].all()
    assert (odd == 12 * length // inches).all()
    assert (even == np.maximum((24 * length - 3 * inches) // (2 * inches) + 1, 0)).all()
    whole = np.array([total(*map(int, part)) for part in zip(lines[3, 7], odd[3, 7], even[3, 7], strict=True)])
    assert (total(lines, odd, even)[3, 7] == whole).all()


@pytest.mark.parametrize(("pattern", "row_m"), PATTERNS)
@pytest.mark.parametrize("margin_m", [None, 0.0, 0.1])
def test_no_two_plants_are_too_close_and_all_are_inside(pattern, row_m, margin_m):
    """In small beds every pair of plants has its distance and every plant its margin; the count is that of places."""
    for length in (0.3, 0.9144, 1.2192, 2.5):
        for width in (0.3, 0.61, 1.2192):
            for spacing in (0.1, 0.1524, 0.3, 0.4572):
                how = {"pattern": pattern, "margin_m": margin_m, "row_spacing_m": row_m}
                places = beds.positions(length, width, spacing, **how)
                assert len(places) == beds.plants_that_fit(length, width, spacing, **how)
                points = list(places.itertuples(index=False))
                near = [math.dist(a, b) for i, a in enumerate(points) for b in points[:i]]
                assert min(near, default=spacing) >= spacing - 1e-6
                margin = spacing / 2 if margin_m is None else margin_m
                for side, at in ((length, places.x_m), (width, places.y_m)):
                    assert at.between(margin - 1e-6, side - margin + 1e-6).all()


def test_one_more_line_would_not_fit():
    """Squares fill the bed: along either edge less than a spacing is left free."""
    places = beds.positions(2.5, 1.2, 0.31, pattern="square")
    for side, at in ((2.5, places.x_m), (1.2, places.y_m)):
        assert side - at.max() - 0.155 < 0.31


def test_the_better_of_two_ways_is_taken():
    """Turning a bed round changes nothing for offset lines: both ways are tried (computed: 4 by 8 ft, 18 in, 12)."""
    assert beds.plants_that_fit(8 * FOOT, 4 * FOOT, 18 * INCH) == 12
    assert beds.plants_that_fit(4 * FOOT, 8 * FOOT, 18 * INCH) == 12
    assert beds.bed_count(8 * FOOT, 4 * FOOT, 18 * INCH).lines_along_width


def test_a_bed_smaller_than_one_plant_holds_none():
    """A plant without half its distance on each side does not fit; with no margin one does."""
    assert beds.plants_that_fit(0.3, 0.3, 0.45) == 0
    assert beds.plants_that_fit(0.3, 0.3, 0.45, margin_m=0) == 1
    assert beds.positions(0.3, 0.3, 0.45).empty
    found = beds.bed_count(0.3, 0.3, 0.45)
    assert (found.plants, found.lines, found.room_m2) == (0, 0, None)


def test_ten_thousand_plants():
    """A bed of 10 by 10 m at 10 cm holds 10,000 in squares, each at its own place."""
    places = beds.positions(10, 10, 0.1, pattern="square")
    assert len(places.drop_duplicates()) == 10_000


@pytest.mark.parametrize(
    ("length", "width", "spacing"),
    [
        (0, 1, 0.3),
        (400, 1, 0.3),
        (-2, 1, 0.3),
        (math.nan, 1, 0.3),
        (2, math.inf, 0.3),
        ("6,2", 1, 0.3),
        (2, True, 0.3),
        (2, None, 0.3),
        (2, 1, 0),
        (2, 1, math.nan),
        (2, 1, 18),
    ],
)
def test_lengths_that_cannot_be_used_are_one_sentence(length, width, spacing):
    """Nothing, too long, below zero, not a number, text: refused with the name and the value."""
    with pytest.raises(InputProblem, match="meters"):
        beds.plants_that_fit(length, width, spacing)


def test_row_spacing_belongs_to_rows():
    """Rows need a distance from row to row, other patterns refuse one; an unknown pattern names the known ones."""
    with pytest.raises(InputProblem, match="row to row"):
        beds.plants_that_fit(2, 1, 0.3, pattern="rows")
    with pytest.raises(InputProblem, match="row to row"):
        beds.plants_that_fit(2, 1, 0.3, pattern="square", row_spacing_m=0.5)
    with pytest.raises(InputProblem, match="square"):
        beds.plants_that_fit(2, 1, 0.3, pattern="round")


def test_too_many_places_are_refused():
    """Counting has no end, placing one by one has."""
    assert beds.plants_that_fit(100, 100, 0.01, pattern="square") == 100_000_000
    with pytest.raises(InputProblem, match="too many"):
        beds.positions(100, 100, 0.01)


@pytest.mark.parametrize("pattern", ["square", "offset", "rows"])
def test_the_working_ends_in_the_count(pattern):
    """The last step of the working is the count that is shown."""
    row = 0.6 if pattern == "rows" else None
    found = beds.bed_count(3.6576, 1.2192, 0.3, pattern=pattern, row_spacing_m=row)
    assert (
        found.steps[-1].result
        == found.plants
        == beds.plants_that_fit(3.6576, 1.2192, 0.3, pattern=pattern, row_spacing_m=row)
    )


def test_every_crop_has_distances_in_order():
    """Each crop of the tables has its three ranges, and closest is not above widest."""
    from gardenlib import tables

    for crop in tables.crops().index:
        found = beds.crop_spacing(crop)
        for pattern in ("square", "rows"):
            near, _ = found.pick("closest", pattern)
            wide, _ = found.pick("widest", pattern)
            assert 0.02 < near <= found.pick("middle", pattern)[0] <= wide < 2
            assert found.sources_for(pattern)


def test_the_two_tables_of_bed_distances_agree():
    """The range each way in a bed is the same on the page of the kinds and on that of the beds."""
    from gardenlib import tables

    for row in tables.table("spacing").itertuples():
        found = beds.crop_spacing(row.crop)
        assert (found.bed.low / 2.54, found.bed.high / 2.54) == pytest.approx((row.bed_low_in, row.bed_high_in))
        assert ("bed" in found.unchecked) == (row.status == "memory")


def test_numbers_of_numpy_are_numbers():
    """A bed as wide as it is long, given as numpy's floats, is counted like any other."""
    side = np.float64(1.2)
    assert beds.plants_that_fit(side, side, np.float64(0.3)) == beds.plants_that_fit(1.2, 1.2, 0.3)
