"""Counting a pile of sheets by hand: a field for each reason at each question."""

from __future__ import annotations

from collections.abc import Callable
from itertools import groupby
from typing import Any

import ipywidgets as w

from gardenlib.classroom.desk import Desk
from gardenlib.classroom.desk_review_packs import OpenPack
from gardenlib.homework.reasons import foreseen
from gardenlib.homework.tally import MOST, Counts, keep_tally
from gardenlib.panels import controls as c
from gardenlib.panels.replies import answer
from gardenlib.words import Said

# The field stands before its words, in one row.
STYLE = """<style>
.gl-count.widget-inline-hbox {
  flex-flow: row-reverse nowrap; justify-content: flex-end; align-items: center; gap: 12px; margin: 0 0 6px;
}
.gl-count.widget-inline-hbox > .widget-label { flex: 1 1 0; min-width: 0; }
.jupyter-widgets.gl-count input[type="number"] { flex: none; width: 84px; }
</style>"""


class TallyBox(w.VBox):  # type: ignore[misc]
    """All questions of a pack, the sum at each, and one button that keeps the count.

    Parameters
    ----------
    desk : Desk
        What the page knows.
    pack : OpenPack
        The pack whose sheets are counted.
    on_kept : callable
        Called when the count was written.
    """

    def __init__(self, desk: Desk, pack: OpenPack, on_kept: Callable[[], None]) -> None:
        say = desk.voice.say
        self.pack = pack
        self._desk, self._on_kept, self._seen = desk, on_kept, pack.counts
        self.fields: dict[tuple[str, str], w.BoundedIntText] = {}
        self.sums: dict[str, w.HTML] = {}
        self.reply = w.HTML()
        parts: list[w.Widget] = [w.HTML(STYLE), c.text(say("review.count_about"))]
        reasons = foreseen(pack.record, voice=desk.voice).values()
        for question, found in groupby(reasons, key=lambda one: one.question):
            some = list(found)
            head = {"number": some[0].number, "title": some[0].title, "question": question}
            self.sums[question] = w.HTML()
            parts.append(c.text(say("review.count_head", **head), "head"))
            parts += [self._field(one.question, one.reason, one.reply) for one in some]
            parts.append(self.sums[question])
        self.keep = c.button(say("review.keep"), self.write)
        super().__init__([*parts, self.keep, self.reply])
        self._add_up()

    def _field(self, question: str, reason: str, words: str) -> w.BoundedIntText:
        field = c.whole_number(words, 0, MOST, self._seen.get((question, reason), 0))
        field.add_class("gl-count")
        field.observe(self._add_up, "value")
        self.fields[question, reason] = field
        return field

    @property
    def counts(self) -> Counts:
        """The counts as they are typed."""
        return {key: field.value for key, field in self.fields.items()}

    def _add_up(self, _: Any = None) -> None:
        for question, line in self.sums.items():
            counted = sum(field.value for key, field in self.fields.items() if key[0] == question)
            line.value = c.html(self._desk.voice.say("review.counted", n=counted), "saved")

    @property
    def is_unsaved(self) -> bool:
        """Tell whether something was typed since the count was read or kept."""
        return any(n != self._seen.get(key, 0) for key, n in self.counts.items())

    def write(self) -> None:
        """Write the count into the pack's folder, and say where."""
        answer(self._desk, self.reply, "review.keep", self.save)

    def save(self) -> Said:
        """Write the count into the pack's folder."""
        pack, counts = self.pack, dict(self.counts)
        kept = keep_tally(pack.tally, pack.record, counts, seen=self._seen)
        self._seen = counts
        self._on_kept()
        values = {"n": sum(counts.values()), "file": str(pack.tally)}
        return Said("review.kept", values) if kept is None else Said("review.kept_both", {**values, "kept": kept.name})
