"""Page 02, a fold: how much of a bag's lime counts, by its sieves."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import ipywidgets as w
import pandas as pd

from gardenlib import charts
from gardenlib.panels import controls as c
from gardenlib.panels.check import Check, Reply
from gardenlib.panels.guess import Guess
from gardenlib.panels.more import more
from gardenlib.panels.panel import Spec, note
from gardenlib.problems import InputProblem
from gardenlib.soil import LimeQuality, lime_quality, lime_sieves
from gardenlib.words import Said
from gardenlib.working import Answer

if TYPE_CHECKING:
    from gardenlib.panels.session import Session

SCHEMES = ("iowa_ecce", "new_york_env", "kentucky_rnv")
USUAL_CCE = 90
# A pure lime like sand, all of it between 20 and 60 mesh, and one like flour.
LIKE_SAND, LIKE_FLOUR = {20: 1.0, 60: 0.0, 100: 0.0}, {20: 1.0, 60: 1.0, 100: 1.0}
# CCE, percents passing 10 and 50 mesh; what counts, the passing lime taken as lying between, and the CCE forgotten.
CASE = (90, 95, 40, 61, 79, 68)


def fold(session: Session) -> w.Widget:
    """Offer to read a bag of lime."""
    return more(session, Said("bag.title"), 5, _SPEC, _CHECK)


def _controls(session: Session) -> dict[str, w.Widget]:
    say = session.voice.say
    return {
        "scheme": c.choice(say("bag.scheme"), [(say(f"bag.scheme_{name}"), name) for name in SCHEMES], SCHEMES[0]),
        "cce": c.whole_number(say("bag.cce"), 1, 200, USUAL_CCE),
        "passing": c.line(say("bag.passing"), "", say("bag.passing_hint", example="100 90 55")),
    }


def _passing(values: Mapping[str, Any]) -> dict[int, float]:
    """Read the percents that were typed, one for each sieve."""
    sieves, typed = lime_sieves(values["scheme"]), str(values["passing"]).split()
    try:
        shares = [float(part) / 100 for part in typed]
    except ValueError:
        shares = []
    if len(shares) != len(sieves):
        named = ", ".join(map(str, sieves))
        raise InputProblem("bag.typed", value=str(values["passing"])[:40], n=len(sieves), sieves=named)
    return dict(zip(sieves, shares, strict=True))


def _found(session: Session, values: Mapping[str, Any]) -> LimeQuality | None:
    if not str(values["passing"]).strip():
        return None
    return lime_quality(values["scheme"], values["cce"] / 100, _passing(values))


def view(session: Session, values: Mapping[str, Any]) -> charts.View:
    """Show what counts, sieve by sieve."""
    say, found = session.voice.say, _found(session, values)
    if found is None:
        return note(say("bag.empty", sieves=", ".join(map(str, lime_sieves(values["scheme"])))))
    key = "bag.finding_metric" if session.voice.units == "metric" else "bag.finding"
    scheme = say(f"bag.scheme_{values['scheme']}")
    finding = say(key, n=_of_100(found.effective_fraction), scheme=scheme)
    rows = [(say("bag.mesh", n=mesh), _of_100(share)) for mesh, share in _passing(values).items()]
    rows += [
        (say("bag.row_fine"), _of_100(found.fineness_fraction)),
        (say("bag.row_effective"), _of_100(found.effective_fraction)),
    ]
    table = pd.DataFrame(rows, columns=[say("bag.column_sieve"), say("bag.column_passes")])
    return charts.View(finding, table, None, say("bag.alt", words=finding))


def _of_100(share: float) -> int:
    return round(100 * share)


def _working(session: Session, values: Mapping[str, Any]) -> Answer:
    return _found(session, values) or Answer(assumptions=(Said("bag.mesh_means"),))


def _notes(session: Session, values: Mapping[str, Any]) -> list[Said]:
    found = _found(session, values)
    return [Said("bag.mesh_means"), *(() if found is None else found.assumptions)]


def _truth(session: Session) -> Said:
    coarse, fine = (lime_quality("new_york_env", 1.0, passing) for passing in (LIKE_SAND, LIKE_FLOUR))
    said = {"coarse": _of_100(coarse.effective_fraction), "fine": _of_100(fine.effective_fraction)}
    return Said("bag.truth", said)


_SPEC = Spec(
    "02.bag",
    Said("bag.title"),
    _controls,
    view,
    guess=Guess(
        "02.bag.guess",
        lambda session: Said("bag.question"),
        lambda session: [
            ("all", Said("bag.option_all")),
            ("half", Said("bag.option_half")),
            ("none", Said("bag.option_none")),
        ],
        _truth,
    ),
    caution=Said("bag.caution"),
    working=_working,
    notes=_notes,
)

# ---- the check -------------------------------------------------------------------------------------


def _question(session: Session) -> Said:
    cce, above, below, *_ = CASE
    return Said("bag.check1_question", {"cce": cce, "above": above, "below": below})


def _replies(session: Session) -> list[Reply]:
    _, above, _, right, between, forgotten = CASE
    return [
        Reply("right", Said("bag.check1_option", {"n": right}), True, Said("bag.check1_right_reply")),
        Reply(
            "between",
            Said("bag.check1_option", {"n": between}),
            False,
            Said("bag.check1_between_reply", {"above": above}),
        ),
        Reply("cce", Said("bag.check1_option", {"n": forgotten}), False, Said("bag.check1_cce_reply")),
    ]


_CHECK = Check("02.bag.check1", _question, _replies)
