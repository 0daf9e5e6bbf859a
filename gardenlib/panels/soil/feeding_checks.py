"""Inside the fold on feeding: the two slips that are made with a bag's label and with a rate."""

from __future__ import annotations

from typing import TYPE_CHECKING

from gardenlib.panels.check import Check, Reply
from gardenlib.soil import fertilizer_for_bed, label_numbers
from gardenlib.units import KG_PER_POUND, M_PER_FOOT, Quantity
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

LABEL = "10-10-10"
WEIGHT = {"us": KG_PER_POUND, "metric": 1.0}
"""One pound or one kilogram, so that the numbers stay round in the class's units."""
BED_M2 = {"us": 100 * M_PER_FOOT**2, "metric": 10.0}
NEED, RATE, TIMES = 2, 2.5, 10
SPREAD_M2 = 1000
"""Some bed on which a weight of nitrogen is spread; its size does not change the bag."""


def round_kg(session: Session, number: float) -> Quantity:
    """Give a round number of the class's pounds or kilograms."""
    return Quantity(number * WEIGHT[session.voice.units], "kg")


# ---- the numbers on the label are parts of a hundred -----------------------------------------------


def bag_of(need: Quantity) -> Quantity:
    """Give the weight of the bag that holds this much nitrogen."""
    bed = fertilizer_for_bed(need.value / SPREAD_M2, 0, 0, SPREAD_M2, label_pct=label_numbers(LABEL))
    return Quantity(bed.product_kg, "kg")


def _percent_question(session: Session) -> Said:
    return Said("feeding.check1_question", {"need": round_kg(session, NEED), "label": LABEL})


def _percent_replies(session: Session) -> list[Reply]:
    label, need = label_numbers(LABEL), round_kg(session, NEED)
    n = {"n": round(label[0])}
    right = {"amount": bag_of(need)}
    return [
        Reply("need", Said("feeding.amount", {"amount": need}), False, Said("feeding.check1_percent_reply", n)),
        Reply(
            "pounds",
            Said("feeding.amount", {"amount": round_kg(session, label[0])}),
            False,
            Said("feeding.check1_pounds_reply", n),
        ),
        Reply("right", Said("feeding.amount", right), True, Said("feeding.check1_right_reply")),
    ]


PERCENT = Check("02.feeding.check1", _percent_question, _percent_replies)


# ---- a rate for ten times the bed ------------------------------------------------------------------


def _areas(session: Session) -> dict[str, Quantity]:
    bed = BED_M2[session.voice.units]
    return {"wide": Quantity(TIMES * bed, "m2"), "area": Quantity(bed, "m2")}


def _thousand_replies(session: Session) -> list[Reply]:
    wide = {"wide": _areas(session)["wide"]}
    amounts = {"right": RATE / TIMES, "whole": RATE, "more": RATE * TIMES}
    words = {
        name: Said("feeding.amount", {"amount": session.voice.quantity(round_kg(session, amount), 2)})
        for name, amount in amounts.items()
    }
    return [
        Reply("whole", words["whole"], False, Said("feeding.check2_whole_reply")),
        Reply("right", words["right"], True, Said("feeding.check2_right_reply", wide)),
        Reply("more", words["more"], False, Said("feeding.check2_more_reply")),
    ]


THOUSAND = Check(
    "02.feeding.check2",
    lambda session: Said("feeding.check2_question", {"rate": round_kg(session, RATE), **_areas(session)}),
    _thousand_replies,
)
