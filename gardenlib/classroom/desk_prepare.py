"""The instructor's page before a class: check the folder, choose the meeting, print."""

from __future__ import annotations

from pathlib import Path

import ipywidgets as w

from gardenlib import charts, class_check, class_folder
from gardenlib.carried import carried
from gardenlib.classroom.day import day_papers
from gardenlib.classroom.pack_print import pack
from gardenlib.panels import Session
from gardenlib.panels import controls as c
from gardenlib.panels.panel import note
from gardenlib.panels.replies import answer
from gardenlib.words import Said


class PrepareBox(w.VBox):  # type: ignore[misc]
    """The class folder, what the check finds there, and one button that prints."""

    def __init__(self, session: Session) -> None:
        say = session.voice.say
        self._session = session
        self.folder = c.line(say("desk.folder"), str(session.klass.folder))
        self.found, self.reply = w.HTML(), w.HTML()
        self.meeting = c.choice(say("desk.meeting"), [])
        self.kind = c.one_of(say("desk.kind"), [(say(f"desk.kind_{x}"), x) for x in ("class", "plot", "pair")], "class")
        self.large = c.one_of(say("desk.print"), [(say("desk.normal"), False), (say("desk.large"), True)], False)
        sizes = [(say("desk.by_class"), None), (say("desk.letter"), "us-letter"), (say("desk.a4"), "a4")]
        self.paper = c.choice(say("desk.paper"), sizes)
        super().__init__(
            [
                self.folder,
                c.button(say("desk.check"), self.check),
                self.found,
                self.meeting,
                self.kind,
                self.large,
                self.paper,
                c.button(say("desk.write"), self.write),
                self.reply,
            ]
        )
        self.check()

    def check(self) -> None:
        """Say what the check finds and offer the meetings of the folder."""
        answer(self._session, self.found, "desk.check", self._checked)

    def _checked(self) -> Said:
        say, folder = self._session.voice.say, self.folder.value.strip()
        self.meeting.options = []
        found = class_check.report(folder)
        lines = "\n\n".join(say(line) for line in (*found.lines, *found.notes))
        meetings = enumerate(class_folder.read(folder).sessions, start=1)
        self.meeting.options = [(f"{self._session.voice.date(m.date)} {m.title}", number) for number, m in meetings]
        self.meeting.value = 1 if self.meeting.options else None
        return Said("desk.found", {"lines": lines})

    def write(self) -> None:
        """Print the pack and the papers of the day."""
        answer(self._session, self.reply, "desk.write", self._written)

    def _written(self) -> Said:
        klass = class_folder.read(self.folder.value.strip())
        if self.meeting.value is None:
            return Said("desk.no_meeting")
        # The invented class lies within the program: its papers go beside the page.
        home = self._session.path.parent if klass.folder == carried("data_demo") else klass.folder
        number, how = self.meeting.value, {"large": self.large.value, "paper": self.paper.value}
        meeting = klass.sessions[number - 1]
        target = home / "packs" / f"{meeting.date.isoformat()}-{self.kind.value}"
        made = pack(klass.folder, target, today=self._session.today, session=number, kind=self.kind.value, **how)
        papers = day_papers(klass, meeting, home / "packs", **how)
        return Said("desk.written", {"n": made.sheets, "pack": str(made.folder), "day": str(Path(papers[0]).parent)})


def prepare(session: Session) -> PrepareBox:
    """Put what prepares a class on the page.

    Parameters
    ----------
    session : Session
        The page's session.

    Returns
    -------
    PrepareBox
        The box, shown.
    """
    box = PrepareBox(session)
    charts.show(box, note(session.voice.say("desk.about")), session.voice)
    return box
