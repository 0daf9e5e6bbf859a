"""Where to look again: what each part of a page is called there."""

from __future__ import annotations

from gardenlib.words import Said

PARTS = {
    "01.place": "place.title",
    "01.risk": "risk.title",
    "01.warmth": "warmth.title",
    "01.zone": "zone.title",
    "02.compost": "compost.title",
    "02.feeding": "feeding.title",
    "02.jar": "jar.title",
    "02.lime": "practice.part_lime",
    "03.count": "practice.part_count",
    "03.hose": "water.hose_title",
    "03.lines": "practice.part_lines",
    "03.pots": "pots.title",
    "03.water": "water.title",
    "04.crop": "practice.part_crop",
    "04.even": "even.title",
    "04.fall": "fall.title",
    "04.seeds": "seeds.title",
    "05.before": "before.title",
    "05.disease": "disease.title",
    "05.look": "scouting.title",
    "05.when": "pests.title",
    "06.keep": "practice.part_keep",
    "06.much": "much.title",
    "06.twoplaces": "twoplaces.title",
    "07.log": "log.title",
    "07.replay": "practice.part_replay",
}


def where(look: str) -> Said:
    """Name the page and the part that a slip sends to; the page alone where a later workbook has no such part."""
    page = look.partition(".")[0]
    if look not in PARTS:
        return Said("review.where_page", {"page": page})
    return Said("review.where", {"page": page, "part": Said(PARTS[look])})
