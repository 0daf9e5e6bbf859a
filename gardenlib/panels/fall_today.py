"""Page 04, the fold on fall crops: what can still be sown today, and the two checks."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date, timedelta
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts
from gardenlib.panels import controls as c
from gardenlib.panels.check import Check, Reply
from gardenlib.panels.panel import Spec
from gardenlib.sowing import StillPossible, days_of_weeks, next_fall, still_possible
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

FREEZE_F, AVERAGE, EARLY = 32, 0.5, 0.1


def coming_freeze(session: Session, risk: float = AVERAGE) -> date | None:
    """Give the first freeze of the fall that comes next, at a risk."""
    year = next_fall(session.freezes, session.today)
    found: date | None = session.freezes.date("fall", FREEZE_F, risk, year=year)
    return found


def _still_controls(session: Session) -> dict[str, w.Widget]:
    say = session.voice.say
    which = [(say("fall.still_mine"), "mine"), (say("fall.still_all"), "all")]
    return {"crops": c.choice(say("fall.still_crops"), which, "mine")}


def _still(session: Session, values: Mapping[str, Any]) -> StillPossible:
    ids = session.crop_ids if values["crops"] == "mine" else session.all_crop_ids
    year = next_fall(session.freezes, session.today)
    knows = session.freezes.knows("spring", FREEZE_F, AVERAGE)
    spring = session.freezes.date("spring", FREEZE_F, AVERAGE, year=year) if knows else None
    plants = [session.crop(i) for i in ids]
    return still_possible(plants, coming_freeze(session), session.today, last_spring=spring)


def _rows(found: StillPossible) -> Iterator[Any]:
    return found.table.itertuples()


def _still_view(session: Session, values: Mapping[str, Any]) -> charts.View:
    say, voice = session.voice.say, session.voice
    found = _still(session, values)
    alt = say("fall.still_alt")
    if found.table.empty:
        return charts.View(say("fall.still_none"), None, None, alt)
    rows = [
        {
            say("fall.column_crop"): session.crop_name(row.crop),
            say("fall.column_start"): say(f"fall.started_{row.started}"),
            say("fall.column_safe"): voice.date(row.safe, "MMMd"),
            say("fall.column_latest"): voice.date(row.latest, "MMMd"),
            say("fall.column_state"): say(f"fall.state_{row.state}"),
        }
        for row in _rows(found)
        if row.state != "over"
    ]
    finding = say("fall.still_finding", today=voice.date(session.today, "MMMd"), safe=found.n_safe, n=found.n_crops)
    if found.n_gamble:
        finding = f"{finding} {say('fall.still_gamble', n=found.n_gamble)}"
    return charts.View(finding, pd.DataFrame(rows) if rows else None, None, alt)


def _still_notes(session: Session, values: Mapping[str, Any]) -> list[Said]:
    left = [session.crop_name(crop) for crop, _ in _still(session, values).left_out]
    told = [Said("fall.still_how_late")]
    return [*told, Said("fall.still_left_out", {"crops": ", ".join(left)})] if left else told


STILL = Spec(
    "04.fall.still", Said("fall.still_title"), _still_controls, _still_view, working=_still, notes=_still_notes
)


# ---- the checks ----------------------------------------------------------------------------------


def _days_case(session: Session) -> tuple[int, int]:
    """Take days from setting out and weeks indoors from the learner's first crop that has both."""
    for crop_id in [*session.crop_ids, "broccoli"]:
        plant = session.crop(crop_id)
        if plant.days_from_transplant is not None and plant.weeks_indoor is not None:
            return round(plant.days_from_transplant.typical.high), round(plant.weeks_indoor.typical.low)
    return 70, 5


def _days_question(session: Session) -> Said:
    days, weeks = _days_case(session)
    return Said("fall.check1_question", {"days": days, "weeks": weeks})


def _days_replies(session: Session) -> list[Reply]:
    days, weeks = _days_case(session)
    cases = [
        ("as_seed", days, Said("fall.check1_as_seed")),
        ("weeks", days + weeks, Said("fall.check1_weeks", {"weeks": weeks})),
        ("right", days + days_of_weeks(weeks), Said("fall.check1_right")),
    ]
    return [Reply(key, Said("fall.days_words", {"n": n}), key == "right", reply) for key, n, reply in cases]


EXAMPLE_DAYS, SLOWER = 56, 14


def _back_case(session: Session) -> date:
    found = coming_freeze(session)
    assert found is not None  # noqa: S101  (next_fall refuses a place without a first freeze)
    return found


def _back_replies(session: Session) -> list[Reply]:
    freeze = _back_case(session)
    cases = [
        (freeze - timedelta(EXAMPLE_DAYS), "slower", Said("fall.check2_slower", {"slower": SLOWER})),
        (freeze - timedelta(EXAMPLE_DAYS + SLOWER), "right", Said("fall.check2_right")),
        (freeze + timedelta(EXAMPLE_DAYS + SLOWER), "forward", Said("fall.check2_forward")),
    ]
    return [Reply(key, Said("fall.day", {"day": day}), key == "right", reply) for day, key, reply in cases]


CHECK_DAYS = Check("04.fall.check1", _days_question, _days_replies)
CHECK_BACK = Check(
    "04.fall.check2",
    lambda session: Said("fall.check2_question", {"freeze": _back_case(session), "n": EXAMPLE_DAYS, "slower": SLOWER}),
    _back_replies,
)
