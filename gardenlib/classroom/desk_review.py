"""The instructor's page after homework came back: choose the pack, count or collect, mark, see the class."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import ipywidgets as w

from gardenlib import charts
from gardenlib.classroom.desk import Desk, Steps, settled_table
from gardenlib.classroom.desk_review_packs import OpenPack, lay_out_answers, open_pack, packs_of
from gardenlib.classroom.desk_review_tally import TallyBox
from gardenlib.classroom.desk_review_view import class_figure, files_table
from gardenlib.classroom.ready import typed_folder
from gardenlib.homework.class_words import finding, next_meeting
from gardenlib.homework.replies import Marked, mark_pack
from gardenlib.panels import controls as c
from gardenlib.panels.panel import note
from gardenlib.panels.replies import answer
from gardenlib.problems import InputProblem
from gardenlib.words import Said


class Review(Steps):
    """The steps of the page after homework; each of four methods puts one of them on the page.

    Parameters
    ----------
    desk : Desk
        What the page knows.
    """

    def __init__(self, desk: Desk) -> None:
        say = desk.voice.say
        super().__init__(desk)
        self.open: OpenPack | None = None
        self.tally: TallyBox | None = None
        self.marked: Marked | None = None
        self.packs = c.choice(say("review.packs"), [])
        self.path = c.line(say("review.path"))
        self.state, self.handed, self.laid = w.HTML(), w.HTML(), w.HTML()
        self.counting = w.VBox([])
        self.go = c.button(say("review.mark"), self.mark_all)
        self.bar, self.reply = w.IntProgress(min=0, layout=w.Layout(width="100%", display="none")), w.HTML()
        self.seen, self.told = w.HTML(), w.HTML()
        self.files = w.HTML()
        self.more = c.Fold(say("review.files"), lambda: self.files)
        self.more.layout.display = "none"
        self.packs.observe(self._chosen, "value")
        self.path.observe(lambda _: self.look_at_typed(), "value")
        self.list_packs()

    # ---- the steps on the page -----------------------------------------------------------------

    def choose(self) -> None:
        """Show the packs, what was handed in, and the ways to hand in."""
        say = self.desk.voice.say
        other = c.Fold(say("review.other"), lambda: self.path)
        ways = [c.text("\n\n".join(say(f"review.way_{way}") for way in ("files", "answers", "tally")))]
        lay = c.button(say("review.lay_out"), self.lay_out)
        again = c.button(say("review.look"), self.list_packs)
        self._show("choose", [self.packs, other, again, self.state, self.handed, *ways, lay, self.laid])

    def count(self) -> None:
        """Show the fields to count by hand."""
        self._show("count", [self.counting])

    def mark(self) -> None:
        """Show the button that marks, and what came of it."""
        self._show("mark", [self.go, self.bar, self.reply, self.seen, self.told, self.more])

    def _view(self, step: str) -> charts.View:
        say, marked = self.desk.voice.say, self.marked
        if step == "mark" and marked is not None:
            return class_figure(marked.view, self.desk.voice)
        pack = say("review.no_pack") if self.open is None else self.open.folder.name
        counted = "0" if self.open is None else str(sum(self.open.counts.values()))
        found = say("review.not_marked") if marked is None else say(finding(marked.view))
        if step != "results":
            return note({"choose": pack, "count": say("review.count_about"), "mark": found}[step])
        sheets = "0" if marked is None else str(marked.sheets)
        rows = [("pack_open", pack), ("sheets", sheets), ("tallied", counted), ("found", found)]
        named = [(say(f"review.{what}"), value) for what, value in rows]
        return settled_table(say("review.results"), named, self.desk.voice)

    # ---- the pack ------------------------------------------------------------------------------

    def list_packs(self) -> None:
        """List the packs of the class anew; the one that was chosen stays chosen."""
        before, say = self.packs.value, self.desk.voice.say
        self.packs.unobserve(self._chosen, "value")
        self.packs.options = [(say(called), folder) for called, folder in packs_of(self.desk)]
        folders = [folder for _, folder in self.packs.options]
        self.packs.value = before if before in folders else next(iter(folders), None)
        self.packs.observe(self._chosen, "value")
        self.look(self.packs.value)

    def _chosen(self, _: Any) -> None:
        self.look(self.packs.value)

    def look_at_typed(self) -> None:
        """Open the pack whose folder was typed."""
        if self.path.value.strip():
            self.look(typed_folder(self.path.value, self.desk.folder))

    def look(self, folder: Path | None) -> None:
        """Open a pack: say what was handed in, and lay out the fields to count."""
        before = self.tally
        self.open = self.tally = self.marked = None
        self.counting.children = [c.text(self.desk.voice.say("problem.review.no_pack"))]
        for part in (self.handed, self.laid, self.reply, self.seen, self.told):
            part.value = ""
        self.more.layout.display = "none"
        answer(self.desk, self.state, "review.look", lambda: self._look(folder, before))
        self._store()

    def _look(self, folder: Path | None, before: TallyBox | None) -> Said:
        if folder is None:
            raise InputProblem("review.no_pack")
        self.open = open_pack(folder, self.desk.voice)
        is_typed = before is not None and before.pack.folder == folder and before.is_unsaved
        self.tally = before if is_typed else TallyBox(self.desk, self.open, self._handed_in)
        self.counting.children = [self.tally]
        self._say_handed_in()
        return Said("review.open", {"folder": str(folder)})

    def _handed_in(self) -> None:
        """Look again at what was handed in, once something was written there."""
        self.open = open_pack(self._opened().folder, self.desk.voice)
        self._say_handed_in()
        self._store()

    def _say_handed_in(self) -> None:
        self.handed.value = c.html("\n\n".join(map(self.desk.voice.say, self._opened().state)))

    def _opened(self) -> OpenPack:
        if self.open is None:
            raise InputProblem("review.no_pack")
        return self.open

    def lay_out(self) -> None:
        """Put the table for typed answers into the pack's folder."""
        answer(self.desk, self.laid, "review.lay_out", self._laid_out)

    def _laid_out(self) -> Said:
        said = lay_out_answers(self._opened())
        self._handed_in()
        return said

    # ---- marking -------------------------------------------------------------------------------

    def mark_all(self) -> None:
        """Mark what was handed in, and show what came of it."""
        self.go.disabled, self.reply.value, self.seen.value, self.told.value = True, "", "", ""
        self.more.layout.display, self.marked = "none", None
        self.bar.value, self.bar.layout.display = 0, None
        answer(self.desk, self.reply, "review.mark", self._mark_all)
        self.go.disabled, self.bar.layout.display = False, "none"
        self._store()

    def _mark_all(self) -> Said:
        voice = self.desk.voice
        if self.tally is not None and self.tally.is_unsaved:
            self.tally.save()
        found = mark_pack(self._opened().folder, voice=voice, progress=self._progress)
        self.marked = found
        self._handed_in()
        say_next = next_meeting(found.view)
        parts = [charts.html(class_figure(found.view, voice), voice)]
        if say_next:
            parts += [c.html(voice.say("review.next"), "head"), c.html("\n\n".join(map(voice.say, say_next)))]
        self.seen.value = "".join(parts)
        self.told.value = c.html("\n\n".join(voice.say("check.good_to_know", note=one) for one in found.told), "note")
        self.files.value = charts.html(files_table(found, voice), voice)
        self.more.layout.display = None
        return found.done

    def _progress(self, done: int, many: int) -> None:
        self.bar.max, self.bar.value = many, done


def review(desk: Desk) -> Review:
    """Make ready the steps of the page after homework came back.

    Parameters
    ----------
    desk : Desk
        What the page knows.

    Returns
    -------
    Review
        Its methods ``choose``, ``count``, ``mark`` and ``results`` put the steps on the page.
    """
    return Review(desk)
