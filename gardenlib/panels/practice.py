"""The fold on every page that sets its homework with the learner's own numbers and replies to what is typed."""

from __future__ import annotations

import re
from collections.abc import Callable
from html import escape
from typing import TYPE_CHECKING, Any

import ipywidgets as w

from gardenlib import charts, homework
from gardenlib.homework.handed_in import PAGE as CODE
from gardenlib.homework.looks import PARTS
from gardenlib.panels import controls as c
from gardenlib.panels.more import more
from gardenlib.problems import InputProblem
from gardenlib.words import Said

if TYPE_CHECKING:
    from gardenlib.homework import Blank, Line, Mark, Question
    from gardenlib.panels.session import Session

RUNGS = {1: "practice.rung_shown", 2: "practice.rung_one", 3: "practice.rung_two", 4: "practice.rung_alone"}


def fold(session: Session, page: str) -> c.Fold:
    """Offer the homework of a page, such as ``03_beds``, with the numbers of the open plot."""
    return more(session, Said("practice.title"), 10, lambda _: Practice(session, page))


class Practice(w.VBox):  # type: ignore[misc]
    """A skill and how much of it is one's own, the question, and a reply to each answer.

    What is typed is kept as it is typed; it comes back for as long as the question reads the same.  Answers to a
    printed sheet are kept under its code, for whoever marks it; the question stands on the paper.
    """

    def __init__(self, session: Session, page: str) -> None:
        super().__init__([])
        self.add_class("gl-form")
        self._session, self._page, self._id = session, page, f"{page[:2]}.practice"
        self.message = w.HTML()
        self.question: Question | None = None
        self.boxes: dict[str, w.Text] = {}
        self.replies: dict[str, w.HTML] = {}
        self._body = w.VBox([])
        session.watch(on_plot=self.build, on_change=self.ask)
        self.build()

    def build(self) -> None:
        """Make all parts anew for the plot that is open."""
        say, kept = self._session.voice.say, self._session.kept(self._id)
        titles = [(say(one.title), one.id) for one in homework.skills() if one.page == self._page]
        rungs = [(say(words), rung) for rung, words in RUNGS.items()]
        uses = [(say("practice.use_page"), False), (say("practice.use_sheet"), True)]
        self.on_sheet = c.one_of(say("practice.use"), uses, _known(kept.get("on_sheet"), uses))
        self.code = c.line(say("practice.code"), str(kept.get("code", "")))
        self.skill = c.choice(say("practice.skill"), titles, _known(kept.get("skill"), titles))
        self.rung = c.one_of(say("practice.rung"), rungs, _known(kept.get("rung"), rungs))
        choices = (self.on_sheet, self.code, self.skill, self.rung)
        for control in choices:
            control.observe(self._chosen, "value")
        self.children = [c.text(say("practice.about")), *choices, self.message, self._body]
        self.ask()

    def ask(self) -> None:
        """Set the question; where it cannot be set, one sentence says why."""
        self.message.value, self._body.children = "", ()
        self.question, self.boxes, self.replies = None, {}, {}
        self.code.layout.display = None if self.on_sheet.value else "none"
        self._guarded(self._ask, self.message)

    def _chosen(self, _: Any) -> None:
        self.ask()
        choices = {name: getattr(self, name).value for name in ("on_sheet", "code", "skill", "rung")}
        self._guarded(lambda: self._session.keep(self._id, choices), self.message)

    def _ask(self) -> None:
        session, code = self._session, _sheet_code(self.code.value) if self.on_sheet.value else CODE
        ground = homework.ground_for(
            session.klass,
            plot=session.plot,
            kind="plot",
            code=CODE,
            year=session.year,
            voice=session.voice,
            folder=session.folder,
        )
        self.question = homework.set_question(f"{self.skill.value}.{self.rung.value}", ground)
        self._body.children = self._parts(self.question) if code == CODE else self._boxes(self.question, code)

    def _boxes(self, question: Question, code: str) -> list[w.Widget]:
        """Make room for the answers to a printed sheet."""
        say = self._session.voice.say
        parts = [c.text(say(question.skill.title), "head")]
        for blank in question.blanks:
            label = say("practice.step", number=blank.step) if question.lines else say("practice.answer")
            parts += self._asked(blank, label, code, None)
        return [*parts, c.text(say("practice.hand_in" if question.blanks else "practice.shown_on_sheet"), "note")]

    def _parts(self, question: Question) -> list[w.Widget]:
        say = self._session.voice.say
        parts = [c.text(say(question.skill.title), "head")]
        parts += [c.text(question.caution, "caution")] if question.caution else []
        parts.append(c.text(question.ask))
        if question.drawing:
            drawn = charts.View(say("practice.picture"), None, question.drawing, question.alt or "")
            parts.append(w.HTML(charts.html(drawn, self._session.voice)))
        for number, line in enumerate(question.lines, start=1):
            parts.append(w.HTML(_line(line, number)))
            if line.blank is not None:
                parts += self._asked(line.blank, say("practice.step", number=number), CODE, question.ask)
        if not question.lines:
            for blank in question.blanks:
                parts += self._asked(blank, say("practice.answer"), CODE, question.ask)
        if question.blanks:
            parts.append(c.button(say("page.check"), self.check))
        for title, entries in (("page.assumed", question.assumptions), ("page.sources", question.sources)):
            if entries:
                parts.append(c.text("\n\n".join([say(title), *entries]), "note"))
        return parts

    # ---- answers -------------------------------------------------------------------------------

    def _asked(self, blank: Blank, label: str, code: str, ask: str | None) -> list[w.Widget]:
        """Make a box, with what was typed there before, and room for the reply."""
        say = self._session.voice.say
        shape = {"range": "practice.range", "date": "practice.date"}.get(blank.kind)
        parts = [label, *([say(shape)] if shape else [])]
        parts += [say("practice.in_unit", unit=blank.unit_words)] if blank.unit_words else []
        key, reply = homework.plot_key(code, blank.id), w.HTML()
        box = c.line(", ".join(parts), _typed_before(self._session.plot.answers.get(key), ask))

        def keep(change: Any) -> None:
            reply.value = ""
            entry = {"text": change["new"], "ask": ask}
            self._guarded(lambda: self._session.save("answers", {key: entry}), reply)

        box.observe(keep, "value")
        self.boxes[blank.id], self.replies[blank.id] = box, reply
        return [box, reply]

    def check(self) -> None:
        """Reply to every answer."""
        for blank in () if self.question is None else self.question.blanks:
            self._guarded(lambda blank=blank: self._reply(blank), self.replies[blank.id])  # type: ignore[misc]

    def _reply(self, blank: Blank) -> None:
        voice, text = self._session.voice, self.boxes[blank.id].value
        typed = homework.read_typed(text, blank, language=voice.language, year=self._session.year)
        self.replies[blank.id].value = self._said(homework.mark(blank, typed, voice=voice))

    def _said(self, mark: Mark) -> str:
        say = self._session.voice.say
        if mark.state == "holds":
            return c.html(say("page.yes"), "good")
        if mark.state == "nothing":
            return c.html(say("practice.nothing"), "again")
        if mark.state == "ask":
            return c.html(mark.reply, "again")
        where = say("practice.where", part=Said(PARTS[mark.look]))
        return c.html(f"{say('page.look_again')} {mark.reply} {where}", "again")

    def _guarded(self, action: Callable[[], None], message: w.HTML) -> None:
        """Do it; a problem is one plain sentence, and what was unforeseen is logged."""
        try:
            action()
        except InputProblem as problem:
            message.value = c.html(problem.in_voice(self._session.voice), "again")
        except Exception:
            self._session.log_error(self._id)
            message.value = c.html(self._session.voice.say("page.broken"), "again")


def _sheet_code(typed: str) -> str:
    """Read the code of a sheet: six digits, however they are parted."""
    digits = re.sub(r"[\s./-]", "", typed)
    if not re.fullmatch("[0-9]{6}", digits):
        raise InputProblem("practice.code")
    return "-".join(re.findall("..", digits))


def _typed_before(entry: Any, ask: str | None) -> str:
    """Give what was typed at a blank, if it was for the question as it reads now."""
    if not isinstance(entry, dict) or entry.get("ask") != ask:
        return ""
    return str(entry.get("text", ""))


def _known(value: Any, options: list[tuple[str, Any]]) -> Any:
    """Give a value that was kept if it can still be chosen, else the first one."""
    values = [option for _, option in options]
    return value if value in values else values[0]


def _line(line: Line, number: int) -> str:
    """Write a step: what is done, the formula, what goes in and, where it is not asked, what comes out."""
    out = "?" if line.blank is not None else line.result
    result = f" = <b>{escape(out)}</b>" if out else ""
    given = f"<br><small>{escape(line.given)}</small>" if line.given else ""
    words = f"{escape(line.label)}<br><code>{escape(line.expression)}</code>{result}{given}"
    return f'<div class="gl-working"><ol start="{number}"><li>{words}</li></ol></div>'
