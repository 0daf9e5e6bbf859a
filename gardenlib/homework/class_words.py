"""What the view of a class says in words: its finding, its lines, and what to say at the next meeting."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING, Any

from gardenlib.homework.looks import where
from gardenlib.words import Said

if TYPE_CHECKING:
    import pandas as pd

NOT_ASTRAY = ("holds", "nothing")
IN_WORDS = 2  # foreseen mistakes that are worth a word before the whole class; common practice, no source


def astray(view: pd.DataFrame) -> pd.DataFrame:
    """Keep the rows of what to look at again, the most frequent first."""
    rows = view[~view["reason"].isin(NOT_ASTRAY)]
    return rows.sort_values("n", ascending=False, kind="stable")


def finding(view: pd.DataFrame) -> Said:
    """Say what most had to look at again."""
    if not len(view):
        return Said("review.nothing_read")
    most = astray(view)
    if not len(most):
        return Said("review.none_astray")
    first = most.iloc[0]
    return Said(
        "review.finding", {**_named(first), "said": first["reply"], "n": int(first["n"]), "of": int(first["of"])}
    )


def lines(view: pd.DataFrame) -> list[Said]:
    """Say each row of the view."""
    return [
        Said("review.line", {**_named(row), "said": row["reply"], "n": int(row["n"]), "of": int(row["of"])})
        for _, row in view.iterrows()
    ]


def next_meeting(view: pd.DataFrame) -> list[Said]:
    """Say what to show again at the next meeting: the most frequent foreseen mistakes, and where they are shown."""
    times: Counter[tuple[str, str]] = Counter()
    words: dict[tuple[str, str], pd.Series[Any]] = {}
    for _, row in astray(view).iterrows():
        if row["reason"] not in ("other", "ask"):
            slip = row["question"].rpartition(".")[0], row["reason"]
            times[slip] += int(row["n"])
            words.setdefault(slip, row)
    said = []
    for slip, n in times.most_common(IN_WORDS):
        row = words[slip]
        values = {"title": row["title"], "said": row["reply"], "where": where(row["look"]), "n": n}
        said.append(Said("review.show_again", values))
    return said


def _named(row: pd.Series[Any]) -> dict[str, str]:
    return {"question": row["question"], "title": row["title"]}
