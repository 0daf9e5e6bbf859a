"""What the review of a pack shows: the class as chart and table, and the files that were written."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pandas as pd

from gardenlib import charts
from gardenlib.homework.class_words import astray, finding, lines

if TYPE_CHECKING:
    from gardenlib.charts.class_bars import Look, ReasonBar
    from gardenlib.homework.replies import Marked
    from gardenlib.words import Voice

MOST_QUESTIONS = 6
_LOOKS: dict[str, Look] = {"holds": "outline", "nothing": "dashed"}


def class_figure(view: pd.DataFrame, voice: Voice) -> charts.View:
    """Draw the class view, with its table; no names stand in it."""
    from gardenlib.charts.class_bars import class_bars

    say, title = voice.say, voice.say(finding(view))
    if not len(view):
        return charts.View(title, None, None, title)
    drawn = view[view["question"].isin(_most(view))]
    groups = [
        (say("review.asked", question=rows["question"].iloc[0], title=rows["title"].iloc[0]), _bars(rows))
        for _, rows in drawn.groupby("question", sort=False)
    ]
    part = drawn["question"].nunique() < view["question"].nunique()
    axis = say("review.axis_part", n=len(groups)) if part else say("review.axis")
    alt = say("review.alt", lines=" ".join(map(say, lines(drawn))))
    return charts.View(title, _table(view, voice), charts.svg(class_bars(groups, axis=axis)), alt)


def _most(view: pd.DataFrame) -> list[str]:
    """Name the questions with most to look at again, as many as a chart holds."""
    again = astray(view).groupby("question")["n"].sum().sort_values(ascending=False, kind="stable")
    return list(dict.fromkeys([*again.index, *view["question"]]))[:MOST_QUESTIONS]


def _bars(rows: pd.DataFrame) -> list[ReasonBar]:
    from gardenlib.charts.class_bars import ReasonBar

    return [
        ReasonBar(reply, int(n), _LOOKS.get(reason, "filled"))
        for reason, reply, n in zip(rows["reason"], rows["reply"], rows["n"], strict=True)
    ]


def _table(view: pd.DataFrame, voice: Voice) -> pd.DataFrame:
    say = voice.say
    rows = [
        (
            say("review.asked", question=row["question"], title=row["title"]),
            row["reply"],
            say("review.n_of", n=int(row["n"]), of=int(row["of"])),
        )
        for _, row in view.iterrows()
    ]
    return pd.DataFrame(rows, columns=[say(f"review.column_{name}") for name in ("question", "reason", "n")])


def files_table(found: Marked, voice: Voice) -> charts.View:
    """List the files that were written, what to print first."""
    say = voice.say
    kinds = (
        ("stack", found.stacks),
        ("view", ("class_view.csv",) if len(found.view) else ()),
        ("one", found.replies),
    )
    rows = [(name, say(f"review.file_{kind}")) for kind, names in kinds for name in names]
    columns = [say("review.column_file"), say("review.column_what")]
    return charts.View(say("review.files_in", folder=str(found.folder)), pd.DataFrame(rows, columns=columns), None, "")
