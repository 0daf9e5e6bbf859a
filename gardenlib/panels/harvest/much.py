"""Page 06, the first panel: how much to plant, and in which weeks it feeds the table."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import ipywidgets as w

from gardenlib import charts
from gardenlib.charts.supply import SupplyWeek, SupplyWords, supply_weeks
from gardenlib.harvest import HouseholdPlants, plants_for_household
from gardenlib.panels import controls as c
from gardenlib.panels.check import Check, CheckBox
from gardenlib.panels.guess import Guess
from gardenlib.panels.harvest.much_checks import question, replies
from gardenlib.panels.harvest.own_supply import OwnSupply, own_supply
from gardenlib.panels.panel import Panel, Spec
from gardenlib.units import Quantity
from gardenlib.words import Said
from gardenlib.working import Answer

if TYPE_CHECKING:
    import pandas as pd

    from gardenlib.panels.session import Session

ID = "06.much"
ASKED, ASKED_WEEKS, ASKED_SERVINGS = "cabbage_main", 10, 2
START_WEEKS, MOST_WEEKS = 8, 40
START_SERVINGS, MOST_SERVINGS = 2.0, 21.0
# What must be read beside the number; the rest stands in the working.
BESIDE = {"much.first_garden", "much.unchecked", "much.one_figure", "much.pea", "much.loose_cup"}


def panel(session: Session) -> Panel:
    """Ask how many plants feed the table, and show the weeks with too little and too much."""
    return Panel(session, SPEC).show()


def check(session: Session) -> CheckBox:
    """Ask how much row is surely enough."""
    return CheckBox(session, _CHECK).show()


def crop_control(session: Session) -> w.Dropdown:
    """Offer the crops of what we eat, then the others."""
    ids = session.crops_own_first
    return c.choice(session.voice.say("much.crop"), [(session.crop_name(i), i) for i in ids], ids[0])


def servings_of(session: Session, crop_id: str) -> float:
    """Read how often a week a crop is eaten; each time counts as one serving for each person."""
    eaten = session.plot.household.eat or session.klass.class_plot.household.eat
    return next((item.times_a_week for item in eaten if item.crop == crop_id), 0.0) or START_SERVINGS


def household(session: Session, values: Mapping[str, Any]) -> HouseholdPlants:
    """Ask for the plants that feed the learner's table."""
    return plants_for_household(session.crop(values["crop"]), session.people, values["weeks"], values["servings"])


def _controls(session: Session) -> dict[str, w.Widget]:
    say, crop = session.voice.say, crop_control(session)
    servings = servings_of(session, crop.value)
    return {
        "crop": crop,
        "servings": c.number(say("much.servings"), 0.5, MOST_SERVINGS, min(servings, MOST_SERVINGS)),
        "weeks": c.whole_number(say("much.weeks"), 1, MOST_WEEKS, START_WEEKS),
    }


def view(session: Session, values: Mapping[str, Any], too_much: str = "much.too_much_now") -> charts.View:
    """Say how many plants, and draw what comes in against what is eaten."""
    say, found = session.voice.say, household(session, values)
    supply = own_supply(session, found, values, 0)
    said = {"crop": session.crop_name(values["crop"]), "plants": found.plants, "people": session.people}
    finding = say("much.finding", n=values["weeks"], **said)
    return with_supply(session, finding, supply, too_much)


def with_supply(session: Session, finding: str, supply: OwnSupply, too_much: str = "much.too_much") -> charts.View:
    """Add the weeks of the supply to a finding, and draw them."""
    say, voice, found = session.voice.say, session.voice, supply.found
    if found is None:
        return charts.View(f"{finding} {say(supply.without)}", None, None, finding)
    parts = [finding, say(supply.planted)]
    parts.append(say("much.too_little", n=found.gap_weeks) if found.gap_weeks else say("much.enough"))
    if found.too_much_weeks:
        parts.append(say(too_much, n=found.too_much_weeks))
    table = found.table
    rows = table[list(SupplyWeek._fields)].to_dict("records")
    weeks = [SupplyWeek(**{str(name): value for name, value in row.items()}) for row in rows]
    names = SupplyWords(*(say(f"much.draw_{part}") for part in SupplyWords._fields))
    drawn = supply_weeks(weeks, words=names, voice=voice)
    alt = say("much.alt", n=found.gap_weeks, much=found.too_much_weeks)
    return charts.View(" ".join(parts), _written(table, session), charts.svg(drawn), alt)


def _written(table: pd.DataFrame, session: Session) -> pd.DataFrame:
    """Write the weeks in which something happens as people read them."""
    say, voice = session.voice.say, session.voice
    busy = table[(table["high"] > 0) | (table["need"] > 0)]
    out = busy[["low", "high", "need", "gap", "too_much"]].map(voice.number)
    out.insert(0, "week", [voice.date(day, "MMMd") for day in busy["week"]])
    return out.rename(columns={name: say(f"much.column_{name}") for name in out.columns})


def _notes(session: Session, values: Mapping[str, Any]) -> list[Said]:
    found = household(session, values)
    supply = own_supply(session, found, values, 0)
    told = [Said("much.which_end")] + [said for said in found.assumptions if said.key in BESIDE]
    return [*told, *supply.notes]


def _working(session: Session, values: Mapping[str, Any]) -> Answer:
    found = household(session, values)
    supply = own_supply(session, found, values, 0)
    more = supply.found or Answer()
    return Answer(
        steps=found.steps + more.steps,
        assumptions=(*found.assumptions, Said("much.no_store"), *more.assumptions, *supply.taken),
        sources=found.sources + more.sources,
    )


def _asked(session: Session) -> HouseholdPlants:
    return plants_for_household(ASKED, session.people, ASKED_WEEKS, ASKED_SERVINGS)


def _question(session: Session) -> Said:
    said = {"crop": session.crop_name(ASKED), "servings": ASKED_SERVINGS, "weeks": ASKED_WEEKS}
    return Said("much.question", {**said, "n": session.people})


SPEC = Spec(
    ID,
    Said("much.title"),
    _controls,
    view,
    guess=Guess(
        "06.much.guess",
        _question,
        lambda session: [
            ("each", Said("much.option_each", {"n": session.people})),
            ("range", Said("much.option_range", {"plants": _asked(session).plants})),
            ("serving", Said("much.option_serving", {"plants": Quantity(_asked(session).need_servings, "plants")})),
        ],
        lambda session: Said("much.truth", {"plants": _asked(session).plants, "one": _asked(session).one_plant}),
    ),
    working=_working,
    notes=_notes,
)

_CHECK = Check("06.much.check1", question, replies)
