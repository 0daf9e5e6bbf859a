"""The key against the publications: each walk is typed from what its source prints."""

import pytest

from gardenlib import tables
from gardenlib.pests import what_is_it

WORM = ("animal", "chewed", "worm")
ON_LEAF = (*WORM, "leaf")
EGG = ("eggs", "other")

PRINTED = [
    # UC IPM, Cole Crops, Cabbage looper: two pairs of prolegs, arches its back to crawl; up to 1.5 inches (38 mm).
    ((*ON_LEAF, "green", "two"), "cabbage_looper", "pest", "ucipm_cabbage_looper"),
    # UC IPM, Cole Crops, Imported cabbageworm: green, velvety, slow; prolegs on segments 3 to 6.
    ((*ON_LEAF, "green", "four", "velvety"), "imported_cabbageworm", "pest", "ucipm_imported_cabbageworm"),
    # UC IPM, Cole Crops, Diamondback moth: tapered at both ends; wriggles when disturbed or drops on a silken thread.
    ((*ON_LEAF, "green", "four", "tapered"), "diamondback_moth", "pest", "ucipm_diamondback"),
    # University of Delaware, Weekly Crop Update: bluish gray with black bands across; eggs in masses.
    ((*ON_LEAF, "bands"), "cross_striped", "pest", "delaware_wcu"),
    ((*EGG, "many", "flat"), "cross_striped_eggs", "pest", "delaware_wcu"),
    # University of Illinois, Bulletin of Pest Management: cuts stems at the soil line.
    ((*WORM, "soil"), "black_cutworm", "pest", "illinois_black_cutworm"),
    # UC IPM: eggs of the looper dome-shaped with ridges, of the cabbageworm with a pointed tip and ridged, both single;
    # of the diamondback tiny and roundish.
    ((*EGG, "few", "ridged", "dome"), "cabbage_looper_eggs", "pest", "ucipm_cabbage_looper"),
    ((*EGG, "few", "ridged", "tall"), "imported_cabbageworm_eggs", "pest", "ucipm_imported_cabbageworm"),
    ((*EGG, "few", "tiny"), "diamondback_eggs", "pest", "ucipm_diamondback"),
    # UC IPM: young diamondback larvae leave a window of upper skin; cabbageworms large ragged holes.
    (("animal", "chewed", "nobody", "window"), "window_holes", "pest", "ucipm_diamondback"),
    (("animal", "chewed", "nobody", "ragged"), "ragged_holes", "pest", "ucipm_imported_cabbageworm"),
    # UC IPM, Pests and their damage: maggots small, legless, white, on roots; aphids greenish gray with a waxy coating.
    (("animal", "sucked", "roots"), "cabbage_maggot", "pest", "ucipm_cole_damage"),
    (("animal", "sucked", "leaves", "colony", "alone"), "cabbage_aphid", "pest", "ucipm_cole_damage"),
    # University of Maryland Extension: parasitized aphids become swollen, tan, papery mummies.
    (("animal", "sucked", "leaves", "colony", "mummies"), "aphid_mummies", "helper", "maryland_aphid_wasps"),
    # Berry 2000, Oregon State University: syrphid larvae slug-like, pointed in front, eat aphids; about 12 mm.
    (("animal", "sucked", "leaves", "colony", "slug"), "hover_fly", "helper", "oregon_hover_fly"),
    # Texas A&M: lady beetle larvae gray with orange marks; yellow oval eggs in clusters near aphids.
    (("animal", "visitor", "six_legs"), "lady_beetle_larva", "helper", "texas_lady_beetle"),
    ((*EGG, "many", "upright"), "lady_beetle_eggs", "helper", "texas_lady_beetle"),
    # University of Wisconsin, Midwest Biological Control News: the yellow cocoons are often mistaken for eggs.
    ((*EGG, "many", "silk"), "wasp_cocoons", "helper", "wisconsin_cotesia"),
    # Cornell, Biological Control: yellow silken cocoons attached to the host larva or to leaves.
    ((*ON_LEAF, "cocoons"), "wasp_cocoons", "helper", "cornell_cotesia"),
    # Mancke 2023: lacewing eggs on stalks.
    (("eggs", "stalk"), "lacewing_eggs", "helper", "mancke_lacewing"),
]


@pytest.mark.parametrize(("answers", "name", "kind", "source"), PRINTED, ids=[row[1] for row in PRINTED])
def test_the_printed_signs_lead_to_the_printed_name(answers, name, kind, source):
    """The signs that a source prints for an animal lead to that animal, as pest or helper, and the source is named."""
    match = what_is_it(answers).match
    assert (match.name, match.kind) == (name, kind)
    assert source in match.sources


# UC IPM, Cole Crops: lengths to 25-32, 38 and 8 mm, mid-body prolegs 4 and 2 pairs. UC IPM damage page: maggots less
# than 0.4 inch (10 mm). Berry 2000: hover fly larvae about 12 mm.
FIGURES = {
    ("imported_cabbageworm", "longest_mm"): (25, 32),
    ("cabbage_looper", "longest_mm"): (38, 38),
    ("diamondback_moth", "longest_mm"): (8, 8),
    ("imported_cabbageworm", "mid_leg_pairs"): (4, 4),
    ("cabbage_looper", "mid_leg_pairs"): (2, 2),
    ("cabbage_maggot", "longest_mm"): (10, 10),
    ("hover_fly", "longest_mm"): (12, 12),
}


def test_published_figures_are_the_printed_ones():
    """Every published figure of the table is typed here from its source, and no other."""
    rows = tables.table("id_features").query("status == 'published'")
    found = {(row.animal, row.feature): (row.low, row.high) for row in rows.itertuples()}
    assert found == FIGURES


def test_what_no_source_prints_is_not_called_published():
    """Flea beetle and harlequin bug are from memory; spiders and how lady beetle eggs stand are common practice."""
    basis = {
        ("animal", "chewed", "jumper"): "memory",
        ("animal", "chewed", "nobody", "shot"): "memory",
        ("animal", "sucked", "leaves", "shield"): "memory",
        ("eggs", "barrels"): "memory",
        ("animal", "visitor", "eight_legs"): "common_practice",
        (*EGG, "many", "upright"): "common_practice",
    }
    assert {answers: what_is_it(answers).basis for answers in basis} == basis
