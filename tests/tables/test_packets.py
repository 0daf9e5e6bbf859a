"""A class's own crop from the seed packet."""

import pytest

from gardenlib import InputProblem
from gardenlib.tables import crop_from_packet
from gardenlib.units import Range

OKRA = {
    "crop": "okra",
    "name": "okra",
    "family": "Malvaceae",
    "hardiness": "very tender",
    "method": "direct",
    "direct_sow_wk_low": "2",
    "direct_sow_wk_high": "4",
    "days_from_seed_low": "55",
    "days_from_seed_high": "",
    "growth_max_mean_f": "95",
    "source": "packet of 2027",
}


def test_a_packet_becomes_a_crop():
    """The packet's figures become ranges; a single figure is both ends; the class's words name the source."""
    crop = crop_from_packet(OKRA)
    assert crop.direct_sow_wk.typical == Range(2, 4, "weeks")
    assert crop.days_from_seed.full == Range(55, 55, "days")
    assert crop.growth_max_mean_c == pytest.approx(35.0)
    assert (crop.name, crop.citation, crop.weeks_indoor) == ("okra", "packet of 2027", None)


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"hardiness": "tough"}, ["row 7", "hardiness", "tough", "half-hardy"]),
        ({"method": "cuttings"}, ["row 7", "cuttings", "transplant"]),
        ({"direct_sow_wk_low": "two"}, ["row 7", "direct_sow_wk_low", "two", "number"]),
        ({"direct_sow_wk_low": "5"}, ["row 7", "5", "4", "direct_sow_wk_high"]),
        ({"days_from_seed_low": "7000"}, ["row 7", "days_from_seed_low", "7,000", "365"]),
        ({"direct_sow_wk_high": "400"}, ["row 7", "direct_sow_wk_high", "400", "60"]),
        ({"source": ""}, ["row 7", "source", "empty"]),
        ({"crop": "tomato"}, ["row 7", "tomato", "another short name"]),
        ({"crop": "Okra 2"}, ["row 7", "Okra 2", "small letters"]),
        ({"colour": "green"}, ["colour", "known"]),
    ],
)
def test_a_bad_packet_row_is_named(change, said):
    """A row that cannot be used is refused with file, row, value and mend."""
    with pytest.raises(InputProblem) as problem:
        crop_from_packet({**OKRA, **change}, file="crops.csv", line=7)
    assert all(part in str(problem.value) for part in ["crops.csv", *said])
