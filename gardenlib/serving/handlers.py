"""What the server answers: the door, the pages, their files, and the line to a learner's own kernel."""

from __future__ import annotations

import json
from functools import cached_property
from typing import Any

from jupyter_core.utils import ensure_async
from jupyter_server.services.kernels.connection.base import deserialize_msg_from_ws_v1
from tornado.iostream import StreamClosedError
from tornado.web import HTTPError, RequestHandler
from voila.handler import VoilaHandler
from voila.request_info_handler import RequestInfoSocketHandler
from voila.static_file_handler import MultiStaticFileHandler, TemplateStaticFileHandler
from voila.tornado.kernel_websocket_handler import VoilaKernelWebsocketHandler

from gardenlib.problems import InputProblem
from gardenlib.serving.codes import place_of_code, same_word
from gardenlib.serving.door import COOKIE, COOKIE_DAYS, KEPT_A_DAY, Door
from gardenlib.serving.kernels import MESSAGES, KernelsForOne, shrink_pool
from gardenlib.serving.seats import Seat

_V1 = "v1.kernel.websocket.jupyter.org"
_MOST_PARTS = 100


class Home(Door, RequestHandler):
    """The door for who is not in yet, the list of pages for who is."""

    def get(self) -> None:
        """Show the door, or the pages."""
        if self.current_user is None:
            self.finish(self.served.screen("join", reply=[]))
        else:
            self.finish(self.served.screen("pages"))


class Join(Door, RequestHandler):
    """Letting a learner in by class word and plot code."""

    async def post(self) -> None:
        """Look at word and code; many tries wait."""
        served = self.served
        if wait := await self.try_once():
            self.finish(served.screen("join", reply=served.said("serving.wait", n=wait)))
            return
        word_fits = same_word(self.get_body_argument("word", ""), served.klass.class_word)
        place = place_of_code(self.get_body_argument("code", ""), served.places)
        if not word_fits or place is None:
            self.set_status(403)
            self.finish(served.screen("join", reply=served.said("serving.look_again")))
            return
        self.try_found()
        served.opened.came.add(place.plot)
        self.set_signed_cookie(COOKIE, place.plot, expires_days=COOKIE_DAYS, httponly=True, samesite="Strict")
        self.redirect("/", status=303)


class Leave(Door, RequestHandler):
    """Handing the phone to somebody else."""

    def post(self) -> None:
        """Forget who is there."""
        self.clear_cookie(COOKIE, httponly=True, samesite="Strict")
        self.redirect("/", status=303)


class Nothing(Door, RequestHandler):
    """Everything that is not served."""

    async def prepare(self) -> None:
        """Answer every method alike."""
        raise HTTPError(404)


class ShowPage(Door, VoilaHandler):  # type: ignore[misc]
    """One page, for a learner who was let in."""

    _page = ""

    @cached_property
    def kernel_manager(self) -> Any:
        """The kernels, of which this learner is given one."""
        return KernelsForOne(self.settings["kernel_manager"], Seat(self.current_user, self._page))

    async def get(self, name: str) -> None:
        """Send the page as it is made."""
        if name not in self.served.opened:
            raise HTTPError(404)
        if self.current_user is None:
            self.redirect("/")
            return
        if self.request.query:
            self.redirect(self.request.path)
            return
        self._page = name
        shrink_pool(self.settings["kernel_manager"], Seat(self.current_user, name), self.served.opened.ready[name])
        try:
            async for part in self.get_generator(path=f"{name}.ipynb"):
                self.write(part)
                await self.flush()
        except StreamClosedError:
            return  # the phone has gone; its kernel is ended when nobody has asked for it for a while
        except InputProblem as problem:
            self.log.error("%s", problem)  # for the instructor: a phone has no use for the name of a folder
            self.set_status(503)
            self.finish(self.served.screen("message", lines=self.served.said("serving.broken")))
        finally:
            self.kernel_manager.sent()
            RequestInfoSocketHandler._cache.clear()


class OwnKernel(Door, RequestHandler):
    """Whether a learner's own kernel is still there, and ending it."""

    async def get(self, kernel_id: str) -> None:
        """Say that the kernel is there."""
        kernels = self._kernels(kernel_id)
        if not await ensure_async(kernels.is_alive(kernel_id)):
            raise HTTPError(404)
        self.finish({"id": kernel_id, "name": "python3"})

    async def post(self, kernel_id: str) -> None:
        """End the kernel; a page that is closed asks for it."""
        await self._kernels(kernel_id).shutdown_kernel(kernel_id)
        self.set_status(204)

    def _kernels(self, kernel_id: str) -> Any:
        kernels = self.settings["kernel_manager"]
        own = self.current_user is not None and self.served.seats.belongs(kernel_id, self.current_user)
        if not own or kernel_id not in kernels:
            raise HTTPError(404)
        return kernels


class Line(Door, VoilaKernelWebsocketHandler):  # type: ignore[misc]
    """The line between a page and its own kernel; it carries the values of controls and nothing that runs."""

    async def get(self, kernel_id: str) -> None:
        """Open the line."""
        own = self.current_user is not None and self.served.seats.belongs(kernel_id, self.current_user)
        if not own or kernel_id not in self.settings["kernel_manager"]:
            raise HTTPError(404)
        await super().get(kernel_id)

    def on_message(self, ws_message: Any) -> None:
        """Pass on what a page may send."""
        try:
            passes = self._may_pass(ws_message)
        except (ValueError, KeyError, IndexError, TypeError, AttributeError):
            self.close(1003)
            return
        if passes:
            super().on_message(ws_message)

    def _may_pass(self, message: Any) -> bool:
        if self.selected_subprotocol == _V1:
            # Read with a bound: a made-up count of parts would keep the server busy for ever.
            if not 5 <= int.from_bytes(message[:8], "little") <= _MOST_PARTS:
                raise ValueError
            channel, parts = deserialize_msg_from_ws_v1(message)
            header, content = json.loads(parts[0]), json.loads(parts[3])
        else:
            whole = json.loads(message)
            channel, header, content = whole["channel"], whole["header"], whole["content"]
        if channel != "shell":
            return False
        kind = header["msg_type"]
        return kind in MESSAGES or (kind == "comm_open" and content["target_name"] == "jupyter.widget.control")


class _Kept:
    """Files of the programs that draw a page; phones keep them for a day."""

    def set_extra_headers(self, _: str) -> None:
        self.set_header("Cache-Control", KEPT_A_DAY)  # type: ignore[attr-defined]


class TemplateFile(_Kept, Door, TemplateStaticFileHandler):  # type: ignore[misc]
    """The style of the pages."""


class ProgramFile(_Kept, Door, MultiStaticFileHandler):  # type: ignore[misc]
    """The programs of the pages."""
