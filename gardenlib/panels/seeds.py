"""Page 04, the fold on how many seeds to raise."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts
from gardenlib.charts.tried import tried_sowings
from gardenlib.panels import controls as c
from gardenlib.panels.check import Check, CheckBox, Reply
from gardenlib.panels.guess import Guess
from gardenlib.panels.more import more
from gardenlib.panels.panel import Panel, Spec
from gardenlib.sowing import SeedPlan, has_seed, has_standard, seed_plan, shortfall, simple_sowing
from gardenlib.units import Quantity
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

ID = "04.seeds"
PLANTS = 20
ASKED = 12
"""Plants that the checks ask for; not the number with which the panel starts, whose answer stands there."""
SURE = ((5, 10), (8, 10), (9, 10), (19, 20))
USUAL = 0.9
GUESSED = (20, 0.75, 27)


def fold(session: Session) -> w.Widget:
    """Offer how many seeds to raise, in how many cells and trays."""
    return more(session, Said("seeds.title"), 7, _inside)


def _inside(session: Session) -> w.Widget:
    trays = Panel(session, _TRAYS)
    session.watch(on_saved=trays.redraw)
    return w.VBox([Panel(session, _SPEC), CheckBox(session, _AVERAGE), trays, CheckBox(session, _SURER)])


# ---- how many seeds -------------------------------------------------------------------------------


def _crops(session: Session) -> list[str]:
    """List the learner's crops that are grown from seed, then the others; all crops where none is."""
    ids = session.crops_own_first
    return [crop_id for crop_id in ids if has_seed(session.crop(crop_id))]


def _controls(session: Session) -> dict[str, w.Widget]:
    say, ids = session.voice.say, _crops(session)
    ways = [(say("seeds.way_standard"), "standard")]
    ways += [(say("seeds.way_packet", n=n), f"packet {n}") for n in range(95, 45, -5)]
    ways += [(say("seeds.way_towel", n=n), f"towel {n}") for n in range(10, 1, -1)]
    return {
        "crop": c.choice(say("seeds.crop"), [(session.crop_name(i), i) for i in ids], ids[0]),
        "plants": c.whole_number(say("seeds.plants"), 1, 500, PLANTS),
        "germination": c.choice(say("seeds.germination"), ways, "standard"),
    }


def _plan(session: Session, values: Mapping[str, Any], **how: Any) -> SeedPlan:
    way, _, number = values["germination"].partition(" ")
    if way == "packet":
        how["germination_fraction"] = int(number) / 100
    if way == "towel":
        how["towel_test"] = (int(number), 10)
    return seed_plan(session.crop(values["crop"]), values["plants"], **how)


def view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Show the seeds to sow by how sure one wants to be."""
    say = session.voice.say
    plan, name = _plan(session, values, confidence=USUAL), session.crop_name(values["crop"])
    said = {"n": plan.plants, "crop": name, "seeds": plan.seeds}
    finding = say("seeds.finding", **said)
    if plan.seeds_between is not None:
        finding = say("seeds.finding_towel", span=plan.seeds_between, **said)
    average = simple_sowing(plan.plants, plan.stand_fraction)
    tried = shortfall(plan.plants, plan.stand_fraction, average, trials=100)
    dots = tried_sowings(
        tried.came_up,
        plan.plants,
        short=say("seeds.dots_short"),
        enough=say("seeds.dots_enough"),
        axis=say("seeds.dots_axis"),
    )
    alt = say("seeds.alt", sown=average, short=tried.short, wanted=plan.plants, crop=name)
    rows = [(say("seeds.row_average", x=10 * (1 - tried.short_fraction)), str(average), "")]
    for n, of in SURE:
        sure = _plan(session, values, confidence=n / of)
        rows.append((say("seeds.row_sure", n=n, of=of), str(sure.seeds), _weight(session, sure)))
    names = [say("seeds.column_sure"), say("seeds.column_seeds"), say("seeds.column_weight")]
    finding = f"{finding} {say(plan.germination_from)}"
    return charts.View(finding, pd.DataFrame(rows, columns=names), charts.svg(dots), alt)


def _weight(session: Session, plan: SeedPlan) -> str:
    if plan.weight_g is None:
        return session.voice.say("seeds.no_weight_short")
    return session.voice.quantity(Quantity(plan.weight_g, "g"), places=2)


def _truth(session: Session) -> Said:
    plants, germination, sown = GUESSED
    return Said("seeds.truth", {"n": shortfall(plants, germination, sown).short})


_SPEC = Spec(
    ID,
    Said("seeds.title"),
    _controls,
    view,
    guess=Guess(
        "04.seeds.guess",
        lambda session: Said("seeds.question"),
        lambda session: [
            ("always", Said("seeds.option_always")),
            ("most", Said("seeds.option_most")),
            ("seldom", Said("seeds.option_seldom")),
        ],
        _truth,
    ),
    working=lambda session, values: _plan(session, values, confidence=USUAL),
)


# ---- cells and trays -------------------------------------------------------------------------------


def _tray_controls(session: Session) -> dict[str, w.Widget]:
    say = session.voice.say
    return {
        "per_cell": c.choice(say("seeds.per_cell"), [(str(n), n) for n in (1, 2)], 1),
        "per_tray": c.whole_number(say("seeds.per_tray"), 4, 300, 50),
        "losses": c.whole_number(say("seeds.losses"), 0, 8, 0),
    }


def _tray_plan(session: Session, values: Mapping[str, Any]) -> SeedPlan:
    """Plan the cells for what was last chosen in the panel above."""
    wanted = {"crop": _crops(session)[0], "plants": PLANTS, "germination": "standard", **session.kept(ID)}
    return _plan(
        session,
        wanted,
        confidence=USUAL,
        seeds_per_cell=values["per_cell"],
        cells_per_tray=values["per_tray"],
        field_loss_fraction=values["losses"] / 10 if values["losses"] else None,
    )


def _tray_view(session: Session, values: Mapping[str, Any]) -> charts.View:
    say, plan = session.voice.say, _tray_plan(session, values)
    name = session.crop_name(plan.crop)
    finding = say("seeds.trays_finding", n=plan.plants, crop=name, seeds=plan.seeds, cells=plan.cells, trays=plan.trays)
    rows = [
        (say("seeds.trays_row_seeds"), str(plan.seeds)),
        (say("seeds.trays_row_cells"), str(plan.cells)),
        (say("seeds.trays_row_empty"), session.voice.number(plan.empty_fraction * 100, 0)),
        (say("seeds.trays_row_trays"), str(plan.trays)),
    ]
    table = pd.DataFrame(rows, columns=[say("seeds.trays_column"), say("seeds.trays_number")])
    return charts.View(finding, table, None, say("seeds.trays_alt", crop=name))


_TRAYS = Spec("04.trays", Said("seeds.trays_title"), _tray_controls, _tray_view, working=_tray_plan)


# ---- the checks ------------------------------------------------------------------------------------


def _case(session: Session) -> tuple[str, SeedPlan, int, str]:
    """Take the learner's first crop with a germination standard: name, plan, percent and fraction."""
    crop_id = next(i for i in _crops(session) if has_standard(session.crop(i)))
    plan = seed_plan(session.crop(crop_id), ASKED, confidence=USUAL)
    pct = round(plan.germination_fraction * 100)
    return session.crop_name(crop_id), plan, pct, session.voice.number(plan.germination_fraction, 2)


def _average_question(session: Session) -> Said:
    name, _, pct, _ = _case(session)
    return Said("seeds.check1_question", {"n": ASKED, "crop": name, "pct": pct})


def _average_replies(session: Session) -> list[Reply]:
    _, plan, pct, fraction = _case(session)
    number, said = session.voice.number, {"n": ASKED, "pct": pct, "fraction": fraction}
    few, less = number(ASKED / pct, 2), number(ASKED * plan.germination_fraction, 0)
    right = Said("seeds.check1_right", {**said, "seeds": simple_sowing(ASKED, plan.germination_fraction)})
    return [
        Reply(
            "percent",
            Said("seeds.check1_percent", {**said, "few": few}),
            False,
            Said("seeds.check1_percent_reply", said),
        ),
        Reply("right", right, True, Said("seeds.check1_right_reply")),
        Reply(
            "times", Said("seeds.check1_times", {**said, "less": less}), False, Said("seeds.check1_times_reply", said)
        ),
    ]


_AVERAGE = Check("04.seeds.check1", _average_question, _average_replies)


def _surer_question(session: Session) -> Said:
    name, _, pct, _ = _case(session)
    return Said("seeds.check2_question", {"n": ASKED, "crop": name, "pct": pct})


def _surer_replies(session: Session) -> list[Reply]:
    _, plan, _, _ = _case(session)
    average = simple_sowing(ASKED, plan.germination_fraction)
    return [
        Reply("plants", Said("seeds.check2_seeds", {"n": ASKED}), False, Said("seeds.check2_plants_reply")),
        Reply("average", Said("seeds.check2_seeds", {"n": average}), False, Said("seeds.check2_average_reply")),
        Reply("right", Said("seeds.check2_seeds", {"n": plan.seeds}), True, Said("seeds.check2_right_reply")),
    ]


_SURER = Check("04.seeds.check2", _surer_question, _surer_replies)
