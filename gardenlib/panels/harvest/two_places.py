"""Page 06, in the fold on what to eat first: what days in another place leave for the learner's own."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import ipywidgets as w

from gardenlib import charts
from gardenlib.harvest import days_left, readable_days, storage_life
from gardenlib.harvest.keeping_rows import series_of
from gardenlib.panels import controls as c
from gardenlib.panels.harvest.keep import here_c
from gardenlib.panels.harvest.store_controls import TYPED, storable, temp_c
from gardenlib.panels.panel import Spec, note
from gardenlib.units import Quantity, Range
from gardenlib.words import Said
from gardenlib.working import Answer

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

ID = "06.twoplaces"
WARM = {"us": 65, "metric": 18}
START_DAYS, MOST_DAYS = 2, 365


def _controls(session: Session) -> dict[str, w.Widget]:
    say, units = session.voice.say, session.voice.units
    low, high, _ = TYPED[units]
    # A source that prints one temperature alone knows no other place.
    spans = {crop_id: series_of(crop_id)[0].temp_c for crop_id in storable(session)}
    ids = [crop_id for crop_id, span in spans.items() if span.low < span.high]
    return {
        "crop": c.choice(say("twoplaces.crop"), [(session.crop_name(i), i) for i in ids], ids[0]),
        f"temp_{units}": c.number(say(f"twoplaces.temp_{units}"), low, high, WARM[units], 1),
        "days": c.whole_number(say("twoplaces.days"), 0, MOST_DAYS, START_DAYS),
    }


def _left(session: Session, values: Mapping[str, Any]) -> Range:
    return days_left(session.crop(values["crop"]), here_c(session), [(temp_c(values), values["days"])])


def view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Say how long the crop stays good in the learner's place after the days in the other."""
    voice, left = session.voice, _left(session, values)
    how = "gone" if left.high == 0 else "some" if left.low == 0 else "left"
    said = {
        "crop": session.crop_name(values["crop"]),
        "days": Quantity(values["days"], "days"),
        "temp": voice.quantity(Quantity(temp_c(values), "degC")),
        "here": Quantity(here_c(session), "degC"),
        "span": voice.range(readable_days(left), 0),
        "longest": voice.range(readable_days(Range(left.high, left.high, "days")), 0),
    }
    return note(voice.say(f"twoplaces.finding_{how}", **said))


def _working(session: Session, values: Mapping[str, Any]) -> Answer:
    """Show what the one source prints for both places."""
    crop = session.crop(values["crop"])
    here = storage_life(crop, here_c(session))
    there = storage_life(crop, temp_c(values), form=here.form, source=here.source)
    said = (Said("twoplaces.shares"), *there.assumptions, *here.assumptions)
    return Answer(steps=there.steps + here.steps, assumptions=said, sources=here.sources)


def _notes(session: Session, values: Mapping[str, Any]) -> list[Said]:
    source = storage_life(session.crop(values["crop"]), here_c(session)).source
    return [Said("twoplaces.shares"), Said("twoplaces.one_source", {"source": Said(f"keep.source_{source}")})]


TWO_PLACES = Spec(
    ID,
    Said("twoplaces.title"),
    _controls,
    view,
    working=_working,
    notes=_notes,
    intro=Said("twoplaces.title"),
    caution=Said("keep.caution"),
)
