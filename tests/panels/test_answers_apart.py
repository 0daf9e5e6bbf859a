"""Pages 01 to 06: what a check asks is not already told by the panel above it."""

import pytest

from gardenlib import panels
from gardenlib.panels.panel import Panel
from gardenlib.panels.seeds import fold as seeds_fold

GUESSES = {"01.risk.guess": "5", "03.count.guess": "same", "04.crop.guess": "before", "06.keep.guess": "weeks"}


@pytest.mark.parametrize(
    ("panel", "check", "table_too"),
    [
        # The date of 2 in 10 is to be found in the folded numbers, so only the finding must not tell it.
        (panels.risk.panel, panels.risk.check, False),
        (panels.beds.count.panel, panels.beds.count.check, True),
        (panels.sowing.panel, panels.sowing.check, True),
        (panels.harvest.keep.panel, panels.harvest.keep.check, True),
    ],
)
def test_the_panel_does_not_tell_the_answer(open_session, panel, check, table_too):
    """Neither the finding nor, where it is no task to read it, the table holds the answer of the check below."""
    session = open_session(guesses=GUESSES)
    view = panel(session).view
    told = view.finding + (view.table.to_string() if table_too else "")
    replies = check(session)._replies.values()
    [answer] = [session.voice.say(reply.words) for reply in replies if reply.holds]
    short = answer.removeprefix("for ").removesuffix(" plants").replace("March", "Mar").replace("April", "Apr")
    assert short not in told


def test_the_seeds_of_the_check_are_not_those_of_the_panel(open_session):
    """The check on surer sowing asks for other plants than the panel starts with."""
    fold = seeds_fold(open_session(guesses={"04.seeds.guess": "most"}))
    fold.opener.value = True
    inside = fold._body.children[0].children
    first = next(part for part in inside if isinstance(part, Panel))
    surer = next(part for part in inside if getattr(part, "_check", None) and part._check.id == "04.seeds.check2")
    [answer] = [reply.words.values["n"] for reply in surer._replies.values() if reply.holds]
    assert f"sow {answer} seeds" not in first.view.finding
