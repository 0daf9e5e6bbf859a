"""How long kinds keep near 32 F, against the published tables; how long they stay good, not how long they are safe."""

import pytest

from gardenlib.tables import table

# UC Davis, Produce Facts: Cabbage (Round and Chinese types): early 3 to 6 weeks, late up to 6 months, Chinese 2 to 6
# months.  Storage Guidelines for Vegetables (after UC Davis): early 3 to 6 weeks, late 5 to 6 months.
# New England Vegetable Management Guide, Table 16: collards and kale 1 to 2 weeks, crisphead lettuce 2 to 3 weeks,
# leaf and bibb 1 week, dry onion 1 to 8 months.
PUBLISHED = {
    "cabbage_early": (3, 6, "weeks"),
    "cabbage_storage": (5, 6, "months"),
    "chinese_cabbage": (2, 6, "months"),
    "kale": (1, 2, "weeks"),
    "collards": (1, 2, "weeks"),
    "lettuce_head": (2, 3, "weeks"),
    "lettuce_leaf": (1, 1, "weeks"),
    "onion_sets": (1, 8, "months"),
    "onion_transplants": (1, 8, "months"),
}


@pytest.mark.parametrize("crop", PUBLISHED)
def test_keeping_is_as_published(crop):
    """Each figure is the printed one, at 32 F."""
    row = table("keeping").set_index("crop").loc[crop]
    assert (row["low"], row["high"], row["unit"], row["temp_f"]) == (*PUBLISHED[crop], 32)


def test_nothing_is_kept_that_no_source_tells():
    """Kinds without a published figure have no row."""
    assert set(table("keeping")["crop"]) == set(PUBLISHED)
