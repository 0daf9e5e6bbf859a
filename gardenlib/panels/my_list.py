"""Page 04, the second panel: all of the learner's crops on one season, and what risk costs."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts
from gardenlib.panels import controls as c
from gardenlib.panels.check import Check, CheckBox, Reply
from gardenlib.panels.guess import Guess
from gardenlib.panels.panel import Panel, Spec
from gardenlib.panels.sowing import asked, dates_for, season_chart, seasons, window
from gardenlib.sowing import RiskCosts, SowingDates, risk_costs, week_of
from gardenlib.sowing.limits import TENDER
from gardenlib.words import Said, Voice

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

STAND_IN = "tomato"


def panel(session: Session) -> Panel:
    """Show every crop's dates and what another risk would change."""
    return Panel(session, SPEC).show()


def check(session: Session) -> CheckBox:
    """Ask which crop waits for the safe date."""
    return CheckBox(session, _CHECK).show()


def results(session: Session) -> list[tuple[str, str]]:
    """List when each crop goes into the bed."""
    return [
        (session.voice.say("calendar.result_out", crop=session.crop_name(crop_id)), _window_words(dates, session.voice))
        for crop_id, dates in _plans(session, session.kept(SPEC.id).get("springs", 1)).items()
    ]


def _tender_crop(session: Session) -> str:
    """Give the first tender crop of the learner's, or tomato."""
    return next((i for i in session.crop_ids if session.crop(i).hardiness in TENDER), STAND_IN)


def _plans(session: Session, springs: int) -> dict[str, SowingDates]:
    """Plan each crop in spring or, where that has no room or heat alone sets the seasons, in the cool half."""
    plans = {}
    for crop_id in session.crop_ids:
        risk = springs / 10 if session.crop(crop_id).hardiness in TENDER else None
        first, *others = seasons(session)
        plans[crop_id] = dates_for(session, crop_id, season=first, risk=risk)
        if window(plans[crop_id]) is None:
            tried = (dates_for(session, crop_id, season=season, risk=risk) for season in others)
            plans[crop_id] = next((dates for dates in tried if window(dates) is not None), plans[crop_id])
    return plans


def _controls(session: Session) -> dict[str, w.Widget]:
    return {"springs": c.whole_number(session.voice.say("calendar.list_springs"), 1, 5, 1)}


def view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Draw all crops on one season."""
    say, voice = session.voice.say, session.voice
    plans = _plans(session, values["springs"])
    rows = [
        {
            say("calendar.column_crop"): session.crop_name(crop_id),
            say("calendar.column_indoors"): _span_words(dates.sow_indoors, voice),
            say("calendar.column_out"): _window_words(dates, voice),
            say("calendar.column_harvest"): _harvest_words(dates, voice),
        }
        for crop_id, dates in plans.items()
    ]
    chart = season_chart(session, {session.crop_name(crop_id): dates for crop_id, dates in plans.items()})
    alt = say("calendar.list_alt", n=len(plans))
    return charts.View(_finding(session, values["springs"]), pd.DataFrame(rows), charts.svg(chart), alt)


def _finding(session: Session, springs: int) -> str:
    say, crop_id = session.voice.say, _tender_crop(session)
    out = window(dates_for(session, crop_id, risk=springs / 10))
    if out is None or crop_id not in session.crop_ids:
        return say("calendar.list_finding_plain", n=len(session.crop_ids))
    gain = _days_sooner(session, springs)
    name, day = session.crop_name(crop_id), session.voice.date(out[0], "MMMd")
    if not gain:
        return say("calendar.list_finding", n=springs, crop=name, day=day)
    return say("calendar.list_finding_gain", n=springs, crop=name, day=day, gain=gain)


def _days_sooner(session: Session, springs: int) -> int | None:
    table = _costs(session, springs).table.set_index("bad_springs_in_ten")
    later = table["days_later"].get(springs)
    return None if later is None or pd.isna(later) else -int(later)


def _costs(session: Session, springs: int) -> RiskCosts:
    return risk_costs(
        session.crop(_tender_crop(session)),
        session.freezes,
        year=session.year,
        risks=(springs / 10,),
        **asked(session),
    )


def _span_words(span: Any, voice: Voice) -> str:
    if span is None:
        return voice.say("calendar.nothing")
    return voice.say("calendar.span", start=voice.date(span[0], "MMMd"), end=voice.date(span[1], "MMMd"))


def _harvest_words(dates: SowingDates, voice: Voice) -> str:
    if dates.harvest is None:
        return voice.say("calendar.nothing")
    start, end = (voice.date(week_of(day), "MMMd") for day in dates.harvest)
    return voice.say("calendar.weeks", start=start, end=end)


def _window_words(dates: SowingDates, voice: Voice) -> str:
    out = window(dates)
    if out is None and dates.short_by_days:
        return voice.say("calendar.too_short", n=dates.short_by_days)
    return _span_words(out, voice)


# ---- the guess --------------------------------------------------------------------------------


def _truth(session: Session) -> Said:
    days = _days_sooner(session, 5)
    return Said("calendar.list_truth_unknown") if days is None else Said("calendar.list_truth", {"n": days})


SPEC = Spec(
    "04.list",
    Said("calendar.list_title"),
    _controls,
    view,
    guess=Guess(
        "04.list.guess",
        lambda session: Said("calendar.list_question"),
        lambda session: [(str(n), Said("calendar.list_option", {"n": n})) for n in (3, 14, 40)],
        _truth,
    ),
    working=lambda session, values: _costs(session, values["springs"]),
)

_CHECK = Check(
    "04.risk.check",
    lambda session: Said("calendar.risk_check_question"),
    lambda session: [
        Reply("never", Said("calendar.risk_check_never"), False, Said("calendar.risk_check_never_reply")),
        Reply("rare", Said("calendar.risk_check_rare"), False, Said("calendar.risk_check_rare_reply")),
        Reply("half", Said("calendar.risk_check_half"), True, Said("calendar.risk_check_half_reply")),
    ],
)
