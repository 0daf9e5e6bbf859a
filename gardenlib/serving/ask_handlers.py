"""The instructor's view: who is in, what was guessed, and which page is open; it opens no learner's page."""

from __future__ import annotations

import asyncio
import hmac
from importlib.resources import files
from typing import Any

from tornado.web import HTTPError, RequestHandler

from gardenlib.problems import InputProblem
from gardenlib.serving.ask_counts import Counted, counted
from gardenlib.serving.ask_open import on_pages
from gardenlib.serving.ask_questions import Question
from gardenlib.serving.door import KEPT_A_DAY, Door

COOKIE, COOKIE_DAYS = "garden_class", 1
_IN = b"in"
_VIEW = "/class"


class Again(Door, RequestHandler):
    """The few lines that ask a screen again and change what is new in it."""

    def get(self) -> None:
        """Send them."""
        self.set_header("Content-Type", "text/javascript; charset=utf-8")
        self.set_header("Cache-Control", KEPT_A_DAY)
        self.finish((files(__package__) / "templates" / "again.js").read_bytes())


class _ClassDoor(Door, RequestHandler):
    """What stands before the instructor's view: the cookie that the key was exchanged for."""

    async def prepare(self) -> None:
        """Show nothing to anybody else."""
        await super().prepare()
        self.set_header("Cache-Control", "no-store")
        if self.get_signed_cookie(COOKIE, max_age_days=COOKIE_DAYS) != _IN:
            raise HTTPError(404)

    @property
    def kernels(self) -> Any:
        """All kernels."""
        return self.settings["kernel_manager"]

    def say(self, key: str, **values: Any) -> str:
        """Say a sentence in the class's first language."""
        return self.served.voices[0].say(key, **values)

    async def show(self, name: str, reply: str = "", open_at: str = "") -> None:
        """Write the view, with the guesses on one page."""
        opened, there = self.served.opened, await on_pages(self.kernels)
        rows = [
            {
                "page": page,
                "open": page.name in opened,
                "now": page.name == opened.now,
                "phones": there[page.name],
                "filling": opened.filling(page.name, self.kernels),
            }
            for page in opened.known.values()
        ]
        asked = self.served.questions.of(name)
        read = asked.done()
        broken = read and asked.exception() is not None
        found = await self._counted(asked.result()) if read and not broken else []
        screen = self.served.screen(
            "class",
            said=self.say,
            reply=reply,
            came=len(opened.came),
            there=there.total(),
            rows=rows,
            shown=opened.known[name],
            waits=not read,
            broken=broken,
            counted=found,
            open_at=open_at,
        )
        self.finish(screen)

    async def _counted(self, questions: list[Question]) -> list[Counted]:
        guesses = await asyncio.to_thread(self.served.guesses.read)
        return [counted(question, guesses, self.served.hands.of(question.id)) for question in questions]


class ClassView(_ClassDoor):
    """The view, and the key that opens it."""

    async def prepare(self) -> None:
        """Exchange the key for a cookie, so that it leaves the address bar."""
        key = self.get_query_argument("key", None)
        if key is None or self.request.method != "GET":
            await super().prepare()
            return
        await Door.prepare(self)
        if wait := await self.try_once():
            self.finish(self.served.screen("message", lines=self.served.said("serving.wait", n=wait)))
        elif not hmac.compare_digest(key.encode(), self.served.instructor_key.encode()):
            self.set_status(403)
            self.finish(self.served.screen("message", lines=self.served.said("serving.class.other_key")))
        else:
            self.try_found()
            self.set_signed_cookie(COOKIE, _IN, expires_days=COOKIE_DAYS, httponly=True, samesite="Strict")
            self.redirect(_VIEW, status=303)

    async def get(self, name: str | None = None) -> None:
        """Show it for an open page; for the page for now where none is named."""
        if name is None:
            self.redirect(f"{_VIEW}/page/{self.served.opened.now}", status=303)
            return
        if name not in self.served.opened:
            raise HTTPError(404)
        await self.show(name, open_at=self.get_query_argument("open", ""))


class Open(_ClassDoor):
    """Opening a page for all."""

    def post(self) -> None:
        """Begin to make it ready."""
        name = self.get_body_argument("page", "")
        if name not in self.served.opened.known:
            raise HTTPError(400)
        self.served.opened.open(name, self.kernels)
        self.redirect(_VIEW, status=303)


class TypedHands(_ClassDoor):
    """A show of hands, typed in."""

    async def post(self) -> None:
        """Keep the counts, or say which of them is none."""
        name = self.get_body_argument("page", "")
        if name not in self.served.opened:
            raise HTTPError(400)
        asked, mark = await self.served.questions.of(name), self.get_body_argument("question", "")
        question = next((question for question in asked if question.mark == mark), None)
        typed = self.get_body_arguments("hands")
        if question is None or len(typed) != len(question.options):
            raise HTTPError(400)
        try:
            self.served.hands.put(question, typed)
        except InputProblem as problem:
            self.set_status(400)
            await self.show(name, problem.in_voice(self.served.voices[0]), mark)
        else:
            self.redirect(f"{_VIEW}/page/{name}?open={mark}#{mark}", status=303)


class LeaveClass(_ClassDoor):
    """Closing the view on this device."""

    def post(self) -> None:
        """Forget who is there."""
        self.clear_cookie(COOKIE, httponly=True, samesite="Strict")
        self.redirect("/", status=303)
