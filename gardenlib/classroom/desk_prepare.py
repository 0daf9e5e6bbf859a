"""The instructor's page before a class: check the folder, choose the meeting, print."""

from __future__ import annotations

import ipywidgets as w

from gardenlib import charts, class_folder
from gardenlib.class_folder.new import PLANS
from gardenlib.classroom.desk import Desk, Steps
from gardenlib.classroom.desk_prepare_view import counted, files_html, meetings, refuse, state, table, written
from gardenlib.classroom.ready import Looked, look, new_place, remember, typed_folder
from gardenlib.classroom.stack import Stack, print_stack
from gardenlib.panels import controls as c
from gardenlib.panels.panel import note
from gardenlib.panels.replies import answer
from gardenlib.words import Said

KINDS = ("class", "plot", "pair")
PAPERS = (("as_class", ""), ("letter", "us-letter"), ("a4", "a4"))


class Prepare(Steps):
    """The steps of the page before a class; each of four methods puts one of them on the page.

    Parameters
    ----------
    desk : Desk
        What the page knows.
    """

    def __init__(self, desk: Desk) -> None:
        say = desk.voice.say
        super().__init__(desk)
        self.looked: Looked | None = None
        self.stack: Stack | None = None
        self.path = c.line(say("prepare.folder"), str(desk.class_path))
        self.state, self.stops, self.can_wait, self.notes = w.HTML(), w.HTML(), w.HTML(), w.HTML()
        self.later = c.Fold(say("prepare.can_wait"), lambda: self.can_wait)
        self.new_path = c.line(say("prepare.new_folder"), str(new_place(desk.folder, desk.class_path)))
        plans = [(say(f"prepare.plan_{plan}", n=len(pages)), plan) for plan, pages in PLANS.items()]
        self.plan, self.made = c.choice(say("prepare.plan"), plans, plans[0][1]), w.HTML()
        self.meeting, self.no_meeting = c.choice(say("prepare.meeting"), []), w.HTML()
        self.kind = c.one_of(say("prepare.kind"), [(say(f"prepare.kind_{kind}"), kind) for kind in KINDS], KINDS[0])
        letters = [(say("sheets.normal"), False), (say("sheets.large"), True)]
        self.large = c.one_of(say("sheets.size"), letters, False)
        self.paper = c.choice(
            say("prepare.paper"), [(say(f"prepare.paper_{name}"), value) for name, value in PAPERS], ""
        )
        self.sheets = w.Checkbox(value=True, description=say("prepare.sheets"), indent=False)
        self.day = w.Checkbox(value=True, description=say("prepare.day"), indent=False)
        self.go = c.button(say("prepare.write"), self.write)
        self.bar, self.doing = w.IntProgress(min=0, layout=w.Layout(width="100%", display="none")), w.HTML()
        self.reply, self.files = w.HTML(), w.HTML()
        self.path.observe(lambda _: self.look(), "value")
        self.meeting.observe(lambda _: self._store(), "value")
        self.look()

    # ---- the steps on the page -----------------------------------------------------------------

    def folder(self) -> None:
        """Show the class folder, what was found in it, and the way to a new one."""
        say = self.desk.voice.say
        make = [self.new_path, self.plan, c.button(say("prepare.make"), self.make), self.made]
        new = c.Fold(say("prepare.new"), lambda: w.VBox([c.text(say("prepare.new_about")), *make]))
        again = c.button(say("prepare.look"), self.look)
        self._show("folder", [self.path, again, self.state, self.stops, self.later, self.notes, new])

    def choose(self) -> None:
        """Show the meetings, how to print, and which papers."""
        which = [self.sheets, self.day]
        self._show("choose", [self.no_meeting, self.meeting, self.kind, self.large, self.paper, *which])

    def print(self) -> None:
        """Show the button that writes, its progress, and what was written."""
        self._show("print", [self.go, self.bar, self.doing, self.reply, self.files])

    def _view(self, step: str) -> charts.View:
        voice, looked = self.desk.voice, self.looked
        settled = {
            "folder": voice.say("prepare.no_class") if looked is None else voice.say(state(looked)),
            "choose": self.meeting.label or voice.say("prepare.no_meeting"),
            "learners": str(len(looked.klass.learners)) if looked else "0",
            "print": voice.say(counted(self.stack)),
        }
        return table(settled, voice) if step == "results" else note(settled[step])

    # ---- the class folder ----------------------------------------------------------------------

    def look(self) -> None:
        """Check the class folder, say what was found, and offer its meetings."""
        self.looked = None
        self.stops.value = self.can_wait.value = self.notes.value = ""
        self.later.layout.display = "none"
        answer(self.desk, self.state, "prepare.look", self._look)
        self._say_state()
        self._store()

    def _say_state(self) -> None:
        if self.looked is not None:
            words = self.desk.voice.say(state(self.looked))
            self.state.value = c.html(words, "again" if self.looked.stops else "good")

    def _look(self) -> Said:
        folder, say = typed_folder(self.path.value, self.desk.folder), self.desk.voice.say
        before, self.meeting.options = self.meeting.label, []
        looked = look(folder, self.desk.today)
        self.no_meeting.value = "" if looked.klass.sessions else c.html(say("prepare.no_meeting"), "again")
        self.meeting.layout.display = None if looked.klass.sessions else "none"
        self.meeting.options = meetings(looked, self.desk.voice)
        labels = [label for label, _ in self.meeting.options]
        self.meeting.value = labels.index(before) + 1 if before in labels else looked.next_session
        self.looked = looked
        for part, found in ((self.stops, looked.stops), (self.can_wait, looked.can_wait)):
            part.value = c.html("\n\n".join(map(say, found)))
        self.notes.value = c.html("\n\n".join(say("check.good_to_know", note=found) for found in looked.notes), "note")
        self.later.layout.display = None if looked.can_wait else "none"
        remember(self.desk.folder, folder)
        return state(looked)

    def make(self) -> None:
        """Make a new class folder and take it for this page."""
        answer(self.desk, self.made, "prepare.make", self._make)

    def _make(self) -> Said:
        folder = class_folder.new_class(typed_folder(self.new_path.value, self.desk.folder), plan=self.plan.value)
        self.path.value = str(folder)
        return Said("prepare.made", {"folder": str(folder)})

    # ---- printing ------------------------------------------------------------------------------

    def write(self) -> None:
        """Print what was chosen, and say what lies where."""
        self.go.disabled, self.files.value, self.reply.value = True, "", ""
        self.bar.value, self.bar.layout.display = 0, None
        answer(self.desk, self.reply, "prepare.write", self._write)
        self.go.disabled, self.bar.layout.display, self.doing.value = False, "none", ""
        self._store()

    def _write(self) -> Said:
        chosen = self.meeting.label
        self._look()  # what was mended meanwhile counts
        self._say_state()
        looked = self.looked
        assert looked is not None  # noqa: S101  (set by the line above, or it has raised)
        refuse(looked, chosen, self.meeting.label)
        self.stack = print_stack(
            looked.klass.folder,
            self.desk.folder,
            today=self.desk.today,
            session=self.meeting.value,
            kind=self.kind.value,
            large=self.large.value,
            paper=self.paper.value or None,
            sheets=self.sheets.value,
            day=self.day.value,
            progress=self._progress,
        )
        self.files.value = files_html(self.stack, self.desk.voice)
        return written(self.stack)

    def _progress(self, what: Said, done: int, many: int) -> None:
        self.bar.max, self.bar.value = many, done
        self.doing.value = c.html(self.desk.voice.say(what), "saved")


def prepare(desk: Desk) -> Prepare:
    """Make ready the steps of the page before a class.

    Parameters
    ----------
    desk : Desk
        What the page knows.

    Returns
    -------
    Prepare
        Its methods ``folder``, ``choose``, ``print`` and ``results`` put the steps on the page.
    """
    return Prepare(desk)
