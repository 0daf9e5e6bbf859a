"""What the tests of a served class share: the command in a process of its own, a phone, and the line to a kernel."""

from __future__ import annotations

import csv
import http.client
import json
import os
import re
import shutil
import signal
import socket
import struct
import subprocess
import sys
import time
from contextlib import contextmanager, suppress
from pathlib import Path
from urllib.parse import urlencode
from uuid import uuid4

import psutil

from gardenlib.carried import carried

WORD, PAGE = "brook-2027", "00_start_here"
ADDRESS = "127.0.0.2"  # where the class of these tests is served, as on a network
V1 = "v1.kernel.websocket.jupyter.org"
KERNEL = re.compile(r'"kernelId": "([0-9a-f-]{36})"')


def free_port() -> int:
    """Find a port that nobody uses."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


def wait_until(holds, seconds=5):
    """Ask again and again until something holds, and give what it was."""
    until = time.monotonic() + seconds
    while not (found := holds()):
        assert time.monotonic() < until, "it did not come to hold in time"
        time.sleep(0.05)
    return found


class Class:
    """A served class: its folders and its address."""

    def __init__(self, home: Path, port: int) -> None:
        self.home, self.port = home, port
        self.folder, self.work = home / "demo", home / "demo_served"

    @property
    def codes(self) -> list[str]:
        """The plot codes, in the order of their plots."""
        with (self.work / "codes.csv").open(encoding="utf-8") as file:
            return [row["code"] for row in csv.DictReader(file)]

    def plot(self, number: int) -> Path:
        """Give the plot file of a place."""
        return self.work / "plots" / f"plot_{number:02d}" / "my_plot.json"


@contextmanager
def served(home: Path, *options: str, pages=(PAGE,), ready: int = 1):
    """Serve a copy of the demo class; every process is gone at the end."""
    if not (home / "demo").exists():
        shutil.copytree(carried("data_demo"), home / "demo")
    klass = Class(home, free_port())
    command = [sys.executable, "-m", "gardenlib.cli", "serve", str(klass.folder), "--port", str(klass.port)]
    command += ["--ready", str(ready), "--places", "6", *options, "--pages", *pages]
    with (home / "server.log").open("ab") as log:
        server = subprocess.Popen(command, stdout=log, stderr=log, cwd=home, start_new_session=True)
        klass.server = server
        try:
            _wait(klass, server, home / "server.log")
            yield klass
        finally:
            kernels = _children(server.pid)
            server.send_signal(signal.SIGTERM)
            try:
                server.wait(15)
            except subprocess.TimeoutExpired:
                server.kill()
                server.wait()
            for pid in kernels:
                try:
                    os.kill(pid, signal.SIGKILL)
                except ProcessLookupError:
                    continue


def _wait(klass: Class, server: subprocess.Popen, log: Path) -> None:
    until = time.monotonic() + 120
    while time.monotonic() < until and server.poll() is None:
        try:
            if Phone(klass).get("/").status == 200:
                return
        except OSError:
            time.sleep(0.1)
    raise RuntimeError(f"the class was not served:\n{log.read_text('utf-8')[-3000:]}")


def _children(pid: int) -> list[int]:
    try:
        return [child.pid for child in psutil.Process(pid).children(recursive=True)]
    except psutil.NoSuchProcess:
        return []


def kernel_process(server: int, kernel_id: str) -> psutil.Process:
    """Find the process of a kernel by the sockets that bear its name."""
    for process in psutil.Process(server).children(recursive=True):
        with suppress(psutil.Error):
            if any(kernel_id in str(line.laddr) for line in process.net_connections("unix")):
                return process
    raise LookupError(f"no process below {server} is the kernel {kernel_id}")


class Answer:
    """What came back."""

    def __init__(self, response) -> None:
        self.status, self.headers = response.status, response.headers
        self.text = response.read().decode("utf-8", "replace")


class Phone:
    """A phone with its own cookies; `source` is the address it comes from, `host` the one it goes to."""

    def __init__(self, klass: Class, source: str = "127.0.0.1", host: str = "127.0.0.1") -> None:
        self.klass, self.source, self.host, self.cookie = klass, source, host, ""
        self.patience_s = 30

    @property
    def site(self) -> str:
        """The server as it stands in an address."""
        return f"{self.host}:{self.klass.port}"

    def ask(self, method: str, path: str, body: str | None = None, **headers: str) -> Answer:
        """Ask for something as it stands; the path is not cleaned."""
        line = http.client.HTTPConnection(
            self.host, self.klass.port, timeout=self.patience_s, source_address=(self.source, 0)
        )
        own = {"Host": self.site, "Cookie": self.cookie}
        if method not in {"GET", "HEAD"}:
            own |= {
                "Origin": f"http://{self.site}",
                "Content-Type": "application/x-www-form-urlencoded",
            }
        line.putrequest(method, path, skip_host=True, skip_accept_encoding=True)
        sent = {name: value for name, value in {**own, **headers}.items() if value}
        if body is not None:
            sent["Content-Length"] = str(len(body.encode()))
        for name, value in sent.items():
            line.putheader(name, value)
        try:
            line.endheaders(None if body is None else body.encode())
            answer = Answer(line.getresponse())
        finally:
            line.close()
        if found := re.match(r"garden_plot=[^;]*", answer.headers.get("Set-Cookie", "")):
            self.cookie = found[0]
        return answer

    def get(self, path: str, **headers: str) -> Answer:
        """Ask for a page."""
        return self.ask("GET", path, **headers)

    def join(self, code: str, word: str = WORD, **headers: str) -> Answer:
        """Come in."""
        return self.ask("POST", "/join", urlencode({"word": word, "code": code}), **headers)

    def open(self, page: str = PAGE) -> Answer:
        """Open a page and remember its kernel."""
        answer = self.get(f"/page/{page}")
        self.kernel = KERNEL.search(answer.text)[1]
        return answer


class Line:
    """The line between a page and its kernel, as a page uses it."""

    def __init__(self, phone: Phone, kernel: str | None = None, origin: str | None = None, v1: bool = False) -> None:
        from websockets.sync.client import connect

        self._open = connect(
            f"ws://{phone.site}/api/kernels/{kernel or phone.kernel}/channels?session_id={uuid4().hex}",
            origin=origin or f"http://{phone.site}",
            additional_headers={"Cookie": phone.cookie},
            subprotocols=[V1] if v1 else None,
            max_size=None,
            open_timeout=30,
        )
        self.socket = self._open.__enter__()

    def send(self, kind: str, content: dict, channel: str = "shell", **metadata: str) -> str:
        """Send one message; give its id."""
        number = uuid4().hex
        header = {"msg_id": number, "msg_type": kind, "username": "", "session": "s", "version": "5.3", "date": ""}
        message = {"header": header, "parent_header": {}, "metadata": metadata, "content": content, "channel": channel}
        self.socket.send(json.dumps({**message, "buffers": []}))
        return number

    def answers(self, seconds: float, until=lambda message: False) -> list[dict]:
        """Gather what comes within a time."""
        found, end = [], time.monotonic() + seconds
        while (left := end - time.monotonic()) > 0:
            try:
                data = self.socket.recv(timeout=left)
            except TimeoutError:
                break
            if isinstance(
                data, bytes
            ):  # a message with bytes behind it: how many parts, where each begins, the message
                count, start, *more = struct.unpack(
                    f"!{int.from_bytes(data[:4]) + 1}I", data[: 4 * (int.from_bytes(data[:4]) + 1)]
                )
                data = data[start : more[0] if count > 1 else None]
            found.append(json.loads(data))
            if until(found[-1]):
                break
        return found

    def models(self) -> dict[str, dict]:
        """Ask for the state of all controls, as a page does when it opens."""
        comm = uuid4().hex
        control = {"comm_id": comm, "target_name": "jupyter.widget.control", "data": {}}
        self.send("comm_open", control, version="1.0.0")
        self.send("comm_msg", {"comm_id": comm, "data": {"method": "request_states"}})
        done = self.answers(15, lambda m: m["content"].get("data", {}).get("method") == "update_states")
        return done[-1]["content"]["data"]["states"]

    def set(self, model: str, **state) -> None:
        """Move a control."""
        self.send("comm_msg", {"comm_id": model, "data": {"method": "update", "state": state, "buffer_paths": []}})

    def settled(self) -> None:
        """Wait until the kernel has done what was sent."""
        number = self.send("kernel_info_request", {})
        found = self.answers(
            15, lambda m: m["parent_header"].get("msg_id") == number and "reply" in m["header"]["msg_type"]
        )
        assert "reply" in found[-1]["header"]["msg_type"]

    def close(self) -> None:
        """Hang up."""
        self._open.__exit__(None, None, None)


def by_label(models: dict[str, dict], label: str) -> str:
    """Find a control by the words beside it."""
    return next(key for key, model in models.items() if label in str(model["state"].get("description", "")))
