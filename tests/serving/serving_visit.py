"""A learner at a page, as a page's program talks to its kernel, for many at once."""

from __future__ import annotations

import asyncio
import json
import random
import struct
import time
from typing import Any
from uuid import uuid4

from serving_harness import Phone

LONGEST_S = 60.0
_PREFIX = len("IPY_MODEL_")


class Gone(Exception):  # noqa: N818  it is no fault: a kernel may go
    """The line was closed from the other side."""


class Visit:
    """One open page: its line, and the state of its controls as the kernel tells it."""

    def __init__(self, socket: Any) -> None:
        self._socket, self._models = socket, {}
        self._waiting: dict[str, asyncio.Future[None]] = {}
        self._states: asyncio.Future[dict[str, Any]] = asyncio.get_running_loop().create_future()
        self._drawn: tuple[str, asyncio.Future[None]] | None = None
        self._panel = self._control = self._form = ""
        self._reading = asyncio.create_task(self._read())

    @classmethod
    async def begin(cls, phone: Phone) -> Visit:
        """Open the line and ask for the state of all controls."""
        from websockets.asyncio.client import connect

        socket = await connect(
            f"ws://{phone.site}/api/kernels/{phone.kernel}/channels?session_id={uuid4().hex}",
            origin=f"http://{phone.site}",
            additional_headers={"Cookie": phone.cookie} if phone.cookie else None,
            max_size=None,
            open_timeout=LONGEST_S,
        )
        visit, comm = cls(socket), uuid4().hex
        opened = {"comm_id": comm, "target_name": "jupyter.widget.control", "data": {}}
        await visit._send("comm_open", opened, version="1.0.0")
        await visit._send("comm_msg", {"comm_id": comm, "data": {"method": "request_states"}})
        states = await asyncio.wait_for(visit._states, LONGEST_S)
        visit._models = {key: model["state"] for key, model in states.items()}
        return visit

    async def close(self) -> None:
        """Close the line."""
        self._reading.cancel()
        await self._socket.close()

    def hang_up(self) -> None:
        """Be gone without a word."""
        self._socket.transport.abort()

    # ---- what a learner does -------------------------------------------------------------

    async def uncover(self) -> None:
        """Answer the guesses, and find the control with the most values and its picture."""
        for guess in self._with_class("gl-guess"):
            parts = self._children(guess)
            answers = next((key for key in parts if self._kind(key) == "RadioButtonsModel"), None)
            if answers is not None:
                await self._set(answers, index=0)
                await self._press(parts)
        most = -1
        for panel in self._with_class("gl-panel"):
            parts = self._children(panel)
            for at, part in enumerate(parts[:-2]):
                for control in self._children(part) if not self._models[part]["_dom_classes"] else []:
                    if (values := self._values(control)) > most:
                        most, self._control, self._panel = values, control, parts[at + 2]
        if not self._control:
            shown = [
                self._models[key].get("value") for panel in self._with_class("gl-panel") for key in self._all(panel)
            ]
            raise Gone(f"the page shows no control to move, but {[text for text in shown if text]}"[:600])
        form = [key for group in self._with_class("gl-form") for key in self._children(group)]
        self._form = next((key for key in form if self._kind(key) == "BoundedIntTextModel"), "")
        self._form_parts = form

    def another(self, rolled: random.Random) -> int:
        """Choose another value of the control."""
        state = self._models[self._control]
        return rolled.choice([value for value in range(state["min"], state["max"] + 1) if value != state["value"]])

    async def move(self, value: int) -> float:
        """Move the control to a value; wait until it is saved, and give the seconds until its picture came."""
        drawn = asyncio.get_running_loop().create_future()
        self._drawn = (self._panel, drawn)
        self._models[self._control]["value"] = value
        began = time.monotonic()
        number = await self._send("comm_msg", _update(self._control, {"value": value}))
        await self._within(drawn)
        took = time.monotonic() - began
        await self._done(number)
        return took

    @property
    def number(self) -> int | None:
        """The number that stands in the page's form; none where the page has no form."""
        return self._models[self._form]["value"] if self._form else None

    async def keep(self, number: int) -> None:
        """Save a number in the form, and wait until the kernel has done it."""
        await self._set(self._form, value=number)
        await self._press(self._form_parts)

    async def send_number(self, number: int) -> None:
        """Save a number in the form without waiting for anything."""
        button = next(key for key in self._form_parts if self._kind(key) == "ButtonModel")
        self._models[self._form]["value"] = number
        await self._send("comm_msg", _update(self._form, {"value": number}))
        await self._send("comm_msg", _click(button))

    async def _press(self, parts: list[str]) -> None:
        button = next(key for key in parts if self._kind(key) == "ButtonModel")
        await self._done(await self._send("comm_msg", _click(button)))

    async def _set(self, model: str, **state: Any) -> None:
        self._models[model].update(state)
        await self._done(await self._send("comm_msg", _update(model, state)))

    # ---- the state of the page -----------------------------------------------------------

    def _kind(self, model: str) -> str:
        return self._models[model]["_model_name"]

    def _children(self, model: str) -> list[str]:
        return [key[_PREFIX:] for key in self._models[model].get("children", [])]

    def _all(self, model: str) -> list[str]:
        return [model, *(below for child in self._children(model) for below in self._all(child))]

    def _with_class(self, name: str) -> list[str]:
        return [key for key, state in list(self._models.items()) if name in (state.get("_dom_classes") or ())]

    def _values(self, model: str) -> int:
        state = self._models[model]
        numbered = self._kind(model) in {"BoundedIntTextModel", "IntSliderModel"}
        return state["max"] - state["min"] if numbered else -1

    # ---- the line ------------------------------------------------------------------------

    async def _send(self, kind: str, content: dict[str, Any], **metadata: str) -> str:
        from websockets.exceptions import ConnectionClosed

        number = uuid4().hex
        header = {"msg_id": number, "msg_type": kind, "username": "", "session": "s", "version": "5.3", "date": ""}
        message = {"header": header, "parent_header": {}, "metadata": metadata, "content": content, "channel": "shell"}
        self._waiting[number] = asyncio.get_running_loop().create_future()
        try:
            await self._socket.send(json.dumps({**message, "buffers": []}))
        except ConnectionClosed as closed:
            raise Gone(str(closed)) from None
        return number

    async def _done(self, number: str) -> None:
        if number in self._waiting:
            await self._within(self._waiting[number])

    async def _within(self, wanted: asyncio.Future[None]) -> None:
        await asyncio.wait({wanted, self._reading}, timeout=LONGEST_S, return_when=asyncio.FIRST_COMPLETED)
        if not wanted.done():
            raise Gone("the line closed" if self._reading.done() else "no answer came")

    async def _read(self) -> None:
        from websockets.exceptions import ConnectionClosed

        try:
            async for data in self._socket:
                self._take(json.loads(_without_bytes(data)))
        except ConnectionClosed:
            return

    def _take(self, message: dict[str, Any]) -> None:
        kind, content = message["header"]["msg_type"], message["content"]
        if kind == "status" and content["execution_state"] == "idle":
            waiting = self._waiting.pop(message["parent_header"].get("msg_id"), None)
            if waiting is not None:
                waiting.set_result(None)
        elif kind == "comm_open":
            self._models[content["comm_id"]] = content["data"]["state"]
        elif kind == "comm_msg":
            self._changed(content["comm_id"], content["data"])

    def _changed(self, model: str, data: dict[str, Any]) -> None:
        if data.get("method") == "update_states" and not self._states.done():
            self._states.set_result(data["states"])
        elif data.get("method") in {"update", "echo_update"}:
            self._models.setdefault(model, {}).update(data["state"])
            if self._drawn is not None and self._drawn[0] == model and data["state"].get("value"):
                drawn, self._drawn = self._drawn[1], None
                drawn.set_result(None)


def _update(model: str, state: dict[str, Any]) -> dict[str, Any]:
    return {"comm_id": model, "data": {"method": "update", "state": state, "buffer_paths": []}}


def _click(button: str) -> dict[str, Any]:
    return {"comm_id": button, "data": {"method": "custom", "content": {"event": "click"}}}


def _without_bytes(data: str | bytes) -> str | bytes:
    """Cut the message out of what has bytes behind it: how many parts, where each begins, the message."""
    if isinstance(data, str):
        return data
    count = int.from_bytes(data[:4])
    starts = struct.unpack(f"!{count}I", data[4 : 4 * (count + 1)])
    return data[starts[0] : starts[1] if count > 1 else None]
