"""Page 05, a fold: a big plot or a farm, where not every plant is looked at."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts, tables
from gardenlib.charts.lines import stop_lines
from gardenlib.charts.tried import tried_sowings
from gardenlib.panels import controls as c
from gardenlib.panels.check import CheckBox
from gardenlib.panels.guess import Guess
from gardenlib.panels.more import more
from gardenlib.panels.panel import Panel, Spec
from gardenlib.panels.pests.big_check import CHECK
from gardenlib.pests import chance_to_act, plants_to_see_one, scouting_decision, sequential_plan, walks
from gardenlib.pests.scouting import Decision
from gardenlib.pests.sequential import hits_at_limit
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

PEST, LIMIT, GUESSED = "imported_cabbageworm", 0.10, (0.05, 10)
WALKS, ROWS, MOST, FIELD = 100, (10, 25, 50, 100), 60, 10_000
STAGES = ("young", "growing", "heading")
CROPS = ("cabbage_main", "broccoli", "cauliflower")


def fold(session: Session) -> w.Widget:
    """Offer walks that mislead, a plan to stop by, and published limits."""
    return more(session, Said("big.title"), 10, _inside)


def _inside(session: Session) -> w.Widget:
    limits = Panel(session, _LIMITS)
    session.watch(on_saved=limits.redraw)
    return w.VBox([Panel(session, _WALK), Panel(session, _PLAN), limits, CheckBox(session, CHECK)])


# ---- walks -----------------------------------------------------------------------------------------


def _walk_controls(session: Session) -> dict[str, w.Widget]:
    say = session.voice.say
    return {
        "true": c.choice(say("big.true"), [(str(n), n) for n in (2, 5, 8, 10, 15, 20, 30)], 5),
        "looked": c.choice(say("big.looked"), [(str(n), n) for n in ROWS], 10),
    }


def _misled(true: float, looked_at: int) -> float:
    """Give the share of walks that tell the wrong side of the limit."""
    acts = chance_to_act(true, looked_at, LIMIT)
    return acts if true < LIMIT else 1 - acts


def walk_view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Show a hundred walks as dots, and how often walks of each length mislead."""
    say, true, looked_at = session.voice.say, values["true"] / 100, values["looked"]
    side = "under" if true < LIMIT else "over"
    said = {"hit": values["true"], "limit": round(100 * LIMIT), "n": looked_at}
    finding = say(f"big.walk_finding_{side}", x=10 * _misled(true, looked_at), **said)
    found = [int(hits) for hits in walks(true, looked_at, trials=WALKS)]
    sides = {name: say(f"big.{name}") for name in ("short", "enough", "axis")}
    drawn = tried_sowings(found, hits_at_limit(looked_at, LIMIT), **sides)
    rows = [(str(n), session.voice.number(10 * _misled(true, n))) for n in ROWS]
    table = pd.DataFrame(rows, columns=[say("big.column_looked"), say("big.column_misled")])
    return charts.View(finding, table, charts.svg(drawn), say("big.walk_alt", n=looked_at))


_WALK = Spec(
    "05.big",
    Said("big.title"),
    _walk_controls,
    walk_view,
    guess=Guess(
        "05.big.guess",
        lambda session: Said("big.question"),
        lambda session: [
            ("1", Said("big.option_seldom")),
            ("4", Said("big.option_some")),
            ("8", Said("big.option_most")),
        ],
        lambda session: Said("big.truth", {"n": 10 * chance_to_act(*GUESSED, LIMIT)}),
    ),
    notes=lambda session, values: [
        Said("big.to_see_one", {"hit": values["true"], "n": plants_to_see_one(values["true"] / 100)})
    ],
)


# ---- the plan --------------------------------------------------------------------------------------


def _plan_controls(session: Session) -> dict[str, w.Widget]:
    say = session.voice.say
    return {
        "looked": c.whole_number(say("big.plan_looked"), 1, MOST, 10),
        "hit": c.whole_number(say("big.plan_hit"), 0, MOST, 0),
    }


def plan_view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Draw the two lines and where the learner's count stands."""
    say, plan, count = session.voice.say, sequential_plan(), (values["looked"], values["hit"])
    finding = say(f"big.plan_{plan.verdict(*count)}", looked=count[0], hit=count[1])
    words = (say("big.plan_line_over"), say("big.plan_line_under"), say("big.plan_axis"), say("big.plan_axis_up"))
    drawn = stop_lines(plan.slope, (plan.apart_low, plan.apart_high), count, most=MOST, words=words)
    rows = [
        {
            say("big.column_looked"): str(n),
            say("big.plan_stop_under"): _stop(row.under_at_most, say("big.plan_none")),
            say("big.plan_stop_over"): _stop(row.over_at_least, say("big.plan_none")),
        }
        for n, row in zip(range(10, MOST + 1, 10), plan.limits(MOST).iloc[9::10].itertuples(), strict=True)
    ]
    return charts.View(finding, pd.DataFrame(rows), charts.svg(drawn), say("big.plan_alt"))


def _stop(hits: Any, nothing: str) -> str:
    return nothing if pd.isna(hits) else str(int(hits))


_PLAN = Spec(
    "05.plan",
    Said("big.plan_title"),
    _plan_controls,
    plan_view,
    working=lambda session, values: sequential_plan(),
    notes=lambda session, values: [Said("big.plan_undecided", {"most": MOST})],
    intro=Said("big.plan_title"),
)


# ---- published limits ------------------------------------------------------------------------------


def _limit_controls(session: Session) -> dict[str, w.Widget]:
    say = session.voice.say
    return {
        "crop": c.choice(say("big.crop"), [(session.crop_name(i), i) for i in CROPS], CROPS[0]),
        "stage": c.choice(say("big.stage"), [(say(f"big.stage_{stage}"), stage) for stage in STAGES], "growing"),
    }


def _decision(session: Session, values: Mapping[str, Any]) -> Decision:
    """Set the count of the plan above beside the published limits."""
    count = {"looked": 10, "hit": 0, **session.kept("05.plan")}
    return scouting_decision(PEST, values["crop"], values["stage"], count["looked"], count["hit"], FIELD)


def limit_view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Show each program's limit for the stage beside the count."""
    say, found = session.voice.say, _decision(session, values)
    count = {"looked": 10, "hit": 0, **session.kept("05.plan")}
    reached = {True: say("big.reached_yes"), False: say("big.reached_no"), None: say("big.reached_open")}
    rows = [
        {
            say("big.column_program"): tables.source(one.source).citation.split(",")[0],
            say("big.column_limit"): session.voice.number(one.plants_hit_pct),
            say("big.column_reached"): reached[one.reached],
        }
        for one in found.programmes
    ]
    finding = say(f"big.limits_{found.advice}", looked=count["looked"], hit=count["hit"])
    return charts.View(finding, pd.DataFrame(rows), None, finding)


def _limit_notes(session: Session, values: Mapping[str, Any]) -> list[Said]:
    share = _decision(session, values).hit_pct
    number = session.voice.number
    return [Said("big.limits_open", {"low": number(share.low, 0), "high": number(share.high, 0)})]


_LIMITS = Spec(
    "05.limits",
    Said("big.limits_title"),
    _limit_controls,
    limit_view,
    working=_decision,
    notes=_limit_notes,
    intro=Said("big.limits_title"),
    caution=Said("big.caution"),
)
