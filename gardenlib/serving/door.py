"""What stands before every request: the right host, the right origin, and a learner who was let in."""

from __future__ import annotations

import asyncio
import math
from dataclasses import dataclass
from functools import cached_property
from importlib.resources import files
from typing import Any

from gardenlib.class_folder import ClassFolder
from gardenlib.serving.ask_counts import Hands, PlotGuesses
from gardenlib.serving.ask_open import OpenPages
from gardenlib.serving.ask_questions import Questions
from gardenlib.serving.codes import Place
from gardenlib.serving.folders import Folders
from gardenlib.serving.seats import Seats
from gardenlib.serving.tries import Tries
from gardenlib.words import Voice

COOKIE = "garden_plot"
COOKIE_DAYS = 200  # a growing season and its class
_POLICY = (
    "default-src 'self'; script-src 'self' 'unsafe-inline' 'unsafe-eval'; style-src 'self' 'unsafe-inline'; "
    "img-src 'self' data: blob:; font-src 'self' data:; connect-src 'self' ws://{host}; "
    "frame-ancestors 'none'; form-action 'self'; base-uri 'none'; object-src 'none'"
)


@dataclass(frozen=True)
class Served:
    """A class that is being served: what every request may need."""

    klass: ClassFolder
    folders: Folders
    places: tuple[Place, ...]
    hosts: frozenset[str]
    voices: tuple[Voice, ...]
    seats: Seats
    tries: Tries
    opened: OpenPages
    questions: Questions
    hands: Hands
    instructor_key: str

    @cached_property
    def plots(self) -> frozenset[str]:
        """The names of the plots of this class."""
        return frozenset(place.plot for place in self.places)

    @cached_property
    def guesses(self) -> PlotGuesses:
        """What the plots of this class guessed."""
        return PlotGuesses(self.folders, sorted(self.plots))

    def said(self, key: str, **values: Any) -> list[str]:
        """Say a sentence in each language of the class."""
        return [voice.say(key, **values) for voice in self.voices]

    def screen(self, name: str, **values: Any) -> str:
        """Write a plain page; everything in it is escaped."""
        return str(self._screens.get_template(f"{name}.html").render({"said": self.said, "served": self, **values}))

    @cached_property
    def _screens(self) -> Any:
        from jinja2 import Environment, FunctionLoader, StrictUndefined

        folder = files(__package__) / "templates"
        return Environment(
            loader=FunctionLoader(lambda name: (folder / name).read_text("utf-8")),
            autoescape=True,
            undefined=StrictUndefined,
        )


KEPT_A_DAY = "public, max-age=86400"  # seconds; what phones need not ask for again


class Door:
    """Checks that come before every answer; mixed into each handler, in front of its own class."""

    settings: dict[str, Any]
    request: Any
    current_user: Any

    @property
    def served(self) -> Served:
        """The class."""
        served: Served = self.settings["served"]
        return served

    def set_default_headers(self) -> None:
        """Keep answers at home and unguessed at."""
        set_header = self.set_header  # type: ignore[attr-defined]
        set_header("Content-Security-Policy", _POLICY.format(host=self.request.host))
        set_header("Referrer-Policy", "same-origin")
        set_header("X-Content-Type-Options", "nosniff")
        set_header("Server", "garden")

    async def prepare(self) -> None:
        """Refuse a foreign host or origin, and read who is there."""
        from tornado.web import HTTPError

        if self.request.host.lower() not in self.served.hosts:
            raise HTTPError(403)
        changes = self.request.method not in {"GET", "HEAD"} or "Upgrade" in self.request.headers
        if changes and not self.check_origin(self.request.headers.get("Origin", "")):
            raise HTTPError(403)
        name = (self.get_signed_cookie(COOKIE, max_age_days=COOKIE_DAYS) or b"").decode()  # type: ignore[attr-defined]
        self.current_user = self._jupyter_current_user = name if name in self.served.plots else None
        if self.current_user is not None:
            self.served.opened.came.add(name)

    async def try_once(self) -> int:
        """Count a try at word, code or key, held back as it must be; give the seconds to wait where it is too early."""
        tries, address = self.served.tries, self.request.remote_ip or ""
        if wait := math.ceil(tries.wait_s(address)):
            self.set_status(429)  # type: ignore[attr-defined]
            self.set_header("Retry-After", str(wait))  # type: ignore[attr-defined]
            return wait
        tries.begin(address)
        await asyncio.sleep(tries.pause_s())
        return 0

    def try_found(self) -> None:
        """Take back the try that fitted."""
        self.served.tries.found(self.request.remote_ip or "")

    def check_origin(self, origin: str = "") -> bool:
        """Tell whether a request comes from one of our own pages."""
        return origin.lower() == f"http://{self.request.host.lower()}"

    def write_error(self, status_code: int, **_: Any) -> None:
        """Say in plain words that there is nothing here."""
        key = "serving.nothing_here" if status_code < 500 else "serving.broken"
        self.finish(self.served.screen("message", lines=self.served.said(key)))  # type: ignore[attr-defined]
