"""The plan of the learner's season, made from what stands in the plot file."""

from __future__ import annotations

from typing import TYPE_CHECKING
from weakref import WeakKeyDictionary

from gardenlib.panels.beds import lines, to_get
from gardenlib.panels.season.replay_here import plantings_here
from gardenlib.panels.soil import lime
from gardenlib.panels.soil.lime_bed import bed_controls, lime_here, state_of
from gardenlib.problems import InputProblem
from gardenlib.season import SeasonTasks, season_tasks
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.panels.session import Session
    from gardenlib.plot import Plot
    from gardenlib.sheets import PrintedBed
    from gardenlib.soil import LimeForBed

# A plan stays as long as the plot does: every save makes a new one.
_KEPT: WeakKeyDictionary[Session, tuple[Plot, SeasonTasks, tuple[Said, ...]]] = WeakKeyDictionary()


def plan_here(session: Session) -> SeasonTasks:
    """Make the plan for the learner's plantings, or for those that stand in."""
    return _made(session)[1]


def told_here(session: Session) -> tuple[Said, ...]:
    """Say whose plantings they are, and why there is no lime where it was asked for."""
    return _made(session)[2]


def _made(session: Session) -> tuple[Plot, SeasonTasks, tuple[Said, ...]]:
    kept = _KEPT.get(session)
    if kept is not None and kept[0] is session.plot:
        return kept
    plantings, whose = plantings_here(session)
    beds = session.plot.beds or (session.klass.class_plot.beds if whose is not None else ())
    doses, why_none = _lime(session)
    klass, place = session.klass, session.place
    found = season_tasks(
        session.plot.model_copy(update={"plantings": plantings, "beds": beds}),
        session.freezes,
        year=session.year,
        latitude=session.latitude,
        warmth=place.warmth,
        daily=session.laid_out,
        crops=klass.crops,
        region=klass.region,
        garden_opens=session.opens,
        garden_closes=session.closes,
        water_on=klass.water_on and session.day_in_season(klass.water_on),
        water_off=klass.water_off and session.day_in_season(klass.water_off),
        workdays=klass.workdays,
        lime=doses,
    )
    made = session.plot, found, tuple(said for said in (whose, why_none) if said is not None)
    _KEPT[session] = made
    return made


def _lime(session: Session) -> tuple[LimeForBed | None, Said | None]:
    """Work out the lime where the learner has chosen bag, bed and planting on page 02."""
    chosen = session.kept(lime.SPEC.id)
    if not chosen or state_of(session) not in {"sheet", "texture"}:
        return None, None
    values = {**{name: control.value for name, control in bed_controls(session).items()}, **chosen}
    try:
        return lime_here(session, values), None
    except InputProblem as problem:
        return None, problem.said


def bed_printed(session: Session) -> PrintedBed | None:
    """Take the bed in lines and what to get for it as page 03 shows them; None where no bed was measured."""
    from gardenlib.sheets import PrintedBed

    say = session.voice.say
    try:
        drawn = lines.view(session, {"which": "closest", **session.kept(lines.ID)})
        got = to_get.view(session, {"depth": 0, **session.kept("03.to_get")})
    except InputProblem:
        return None
    if drawn.table is None or got.table is None:
        return None
    return PrintedBed(
        drawn.chart,
        drawn.alt,
        drawn.table.columns[1],
        [(at, standing) for _, at, standing in drawn.table.itertuples(index=False)],
        [say("plan.get_row", thing=thing, much=much) for thing, much in got.table.itertuples(index=False)],
    )
