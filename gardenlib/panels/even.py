"""Page 04, a fold: sowings spaced by warmth, so that the harvests are evenly spaced."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts, class_folder
from gardenlib.panels import controls as c
from gardenlib.panels.check import Check, Reply
from gardenlib.panels.guess import Guess
from gardenlib.panels.more import more
from gardenlib.panels.panel import Spec, note
from gardenlib.panels.places import season_curves
from gardenlib.panels.sowing import FREEZE_F, dates_for
from gardenlib.problems import InputProblem
from gardenlib.site import FreezeDates, degree_days
from gardenlib.sowing import EvenHarvest, RemainingGap, crops_with_base, even_harvest, remaining_gap, week_of
from gardenlib.sowing.past_heat import base_of
from gardenlib.units import Quantity, c_to_f, f_to_c
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

HARVESTS = 4
EVERY_DAYS = 21
DAYS_APART = 14
WARM_DAY_C = f_to_c(60.0)
FREEZING_C = 0.0


def fold(session: Session) -> w.Widget:
    """Offer to space sowings so that the harvests are evenly spaced."""
    return more(session, Said("even.title"), 8, _SPEC, _EQUAL, _BASE)


def _crop_ids(session: Session) -> list[str]:
    """List the learner's crops that have a base temperature, else all that have one."""
    known = crops_with_base()
    return [crop_id for crop_id in session.crop_ids if crop_id in known] or list(known)


def _usual_first(session: Session, crop_id: str) -> date:
    """Give the first day of the crop's window; where it has none, of the garden's or the growing year."""
    dates = dates_for(session, crop_id)
    window = dates.direct_sow or dates.set_out
    return window[0] if window else session.opens or session.season[0]


def _controls(session: Session) -> dict[str, w.Widget]:
    say, ids = session.voice.say, _crop_ids(session)
    first = session.voice.date(_usual_first(session, ids[0]), "MMMd")
    return {
        "crop": c.choice(say("even.crop"), [(session.crop_name(i), i) for i in ids], ids[0]),
        "first": c.line(say("even.first"), first, say("even.first_hint")),
        "every_days": c.whole_number(say("even.every"), 3, 60, EVERY_DAYS),
    }


def _typed(session: Session, text: str) -> date:
    """Put a typed day of the year into the season that is planned."""
    month, day = class_folder.month_day(text, what=Said("even.first_what"))
    start, end = session.season
    return next(found for year in (start.year, end.year) if start <= (found := date(year, month, day)) <= end)


def _climate(session: Session) -> dict[str, Any]:
    """Hand over what the session has worked out of the station already."""
    own = next((dates for dates in session.place.at_station if dates.kind == "station"), None)
    return {"latitude": session.latitude, "warmth": session.place.warmth, "freezes": own}


def _answer(session: Session, values: Mapping[str, Any]) -> EvenHarvest:
    if session.place.station is None:
        raise InputProblem("place.needs_daily")
    return even_harvest(
        session.crop(values["crop"]),
        session.place.station,
        _typed(session, values["first"]),
        HARVESTS,
        values["every_days"],
        garden_opens=session.opens,
        garden_closes=session.closes,
        **_climate(session),
    )


def view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Draw each sowing and its harvest on the season."""
    say = session.voice.say
    if session.place.station is None:
        return note(say("place.needs_daily"))
    found = _answer(session, values)
    if found.even is False and found.reason is not None:
        return note(say(found.reason))
    finding = _finding(session, found, values)
    lines = [
        {"label": say("even.line", n=n), "event": event, "start": start, "end": end}
        for n, row in enumerate(found.table.to_dict("records"), 1)
        for event, start, end in ((found.event, row["sow"], row["sow"]), ("harvest", row["early"], row["late"]))
    ]
    chart = charts.sowings(
        _curves(session), pd.DataFrame(lines), season=session.season, voice=session.voice, note=say("risk.no_curve")
    )
    alt = say("even.alt", n=len(found.table), finding=finding)
    return charts.View(finding, _table(session, found, values), charts.svg(chart), alt)


def _curves(session: Session) -> pd.DataFrame | None:
    freezes: FreezeDates | None = session.place.freezes
    return None if freezes is None else season_curves(freezes, FREEZE_F, session.year)


def _finding(session: Session, found: EvenHarvest, values: Mapping[str, Any]) -> str:
    say, every = session.voice.say, Quantity(values["every_days"], "days")
    key = "even.finding_set_out" if found.event == "set_out" else "even.finding_sow"
    finding = say(key, crop=session.crop_name(values["crop"]), every=every)
    if found.equal_gaps is not None:
        finding = say("even.finding_equal", finding=finding, every=every, gaps=found.equal_gaps)
    told = [*found.late, *([] if found.reason is None else [found.reason])]
    return " ".join([finding, *(say(words) for words in told)])


def _table(session: Session, found: EvenHarvest, values: Mapping[str, Any]) -> pd.DataFrame:
    say, voice = session.voice.say, session.voice
    done = say("even.column_set_out") if found.event == "set_out" else say("even.column_sow")
    spread = say("even.column_span") if found.even is None else say("even.column_spread")

    def week(day: date | None) -> str:
        return say("even.nothing") if day is None else say("even.week_of", day=voice.date(week_of(day), "MMMd"))

    rows = [
        {
            done: voice.date(row["sow"], "MMMd"),
            say("even.column_harvest"): week(row["harvest"]),
            spread: say("even.span", start=voice.date(row["early"], "MMMd"), end=voice.date(row["late"], "MMMd")),
            say("even.column_equal", every=Quantity(values["every_days"], "days")): week(row["equal_harvest"]),
        }
        for row in found.table.to_dict("records")
    ]
    return pd.DataFrame(rows)


# ---- the guess and the checks -----------------------------------------------------------------


def _gap(session: Session) -> RemainingGap:
    if session.place.station is None:
        raise InputProblem("place.needs_daily")
    crop_id = _crop_ids(session)[0]
    first = _usual_first(session, crop_id)
    return remaining_gap(session.crop(crop_id), session.place.station, first, DAYS_APART, **_climate(session))


def _crop(session: Session) -> str:
    return session.crop_name(_crop_ids(session)[0])


def _guess_question(session: Session) -> Said:
    return Said("even.question", {"crop": _crop(session)})


def _guess_options(session: Session) -> list[tuple[str, Said]]:
    return [(str(n), Said("even.option", {"n": n})) for n in (14, 7, 2)]


def _guess_truth(session: Session) -> Said:
    if session.place.station is None:
        return Said("even.truth_unknown")
    return Said("even.truth", {"gap": Quantity(_gap(session).middle_days, "days")})


def _equal_question(session: Session) -> Said:
    first = _usual_first(session, _crop_ids(session)[0])
    return Said("even.check1_question", {"crop": _crop(session), "first": first})


def _equal_replies(session: Session) -> list[Reply]:
    found = _gap(session)
    gap = {"gap": Quantity(found.middle_days, "days")}
    cases = [
        ("closer", Said("even.check1_closer"), Said("even.check1_closer_reply", gap)),
        ("same", Said("even.check1_same"), Said("even.check1_same_reply", gap)),
        ("further", Said("even.check1_further"), Said("even.check1_further_reply", gap)),
    ]
    holds = Said("even.check1_holds", gap)
    return [
        Reply(key, words, key == found.change, holds if key == found.change else reply) for key, words, reply in cases
    ]


def _base_question(session: Session) -> Said:
    base = base_of(session.crop(_crop_ids(session)[0]))
    values = {"base": Quantity(base.lower_c, "degC"), "temp": Quantity(WARM_DAY_C, "degC")}
    return Said("even.check2_question", {"crop": _crop(session), **values})


def _base_replies(session: Session) -> list[Reply]:
    """Offer the warmth of one day above the base, above its Fahrenheit number taken as Celsius, and above freezing."""
    base_c = base_of(session.crop(_crop_ids(session)[0])).lower_c
    cases = [
        ("unit", c_to_f(base_c), Said("even.check2_unit")),
        ("right", base_c, Said("even.check2_right")),
        ("freezing", FREEZING_C, Said("even.check2_freezing")),
    ]
    return [
        Reply(key, Said("even.check2_option", {"warmth": _warmth(lower_c)}), key == "right", reply)
        for key, lower_c, reply in cases
    ]


def _warmth(lower_c: float) -> Quantity:
    return Quantity(float(degree_days(WARM_DAY_C, WARM_DAY_C, lower_c)), "degC_days")


_SPEC = Spec(
    "04.even",
    Said("even.title"),
    _controls,
    view,
    guess=Guess("04.even.guess", _guess_question, _guess_options, _guess_truth),
    working=_answer,
)
_EQUAL = Check("04.even.check1", _equal_question, _equal_replies)
_BASE = Check("04.even.check2", _base_question, _base_replies)
