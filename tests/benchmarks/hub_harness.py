"""A hub with the configuration of docs/deploy, in a folder of its own and on this machine alone."""

from __future__ import annotations

import os
import pwd
import shutil
import signal
import socket
import subprocess
import sys
import time
from contextlib import contextmanager, suppress
from importlib.util import find_spec
from pathlib import Path
from statistics import median
from urllib.error import HTTPError, URLError
from urllib.request import Request, urlopen

import psutil

from gardenlib.carried import carried

CONFIG = Path(__file__).parents[2] / "docs" / "deploy" / "jupyterhub_config.py"
MIB = 1024 * 1024
# What the proof changes: where the hub listens and lies, and a handle for the browser.
PROOF = """
load_subconfig({config!r})
c.JupyterHub.bind_url = "http://127.0.0.1:{port}"
c.JupyterHub.hub_port = {hub_port}
c.ConfigurableHTTPProxy.api_url = "http://127.0.0.1:{api_port}"
c.Spawner.args = ["--LabApp.expose_app_in_browser=True"]
"""
# Without root: no accounts are made, and each learner gets a folder instead of a home.
ONE_ACCOUNT = """
c.JupyterHub.authenticator_class = "nativeauthenticator.NativeAuthenticator"
c.JupyterHub.spawner_class = "jupyterhub.spawner.SimpleLocalProcessSpawner"
c.SimpleLocalProcessSpawner.home_dir_template = {homes!r}
"""
# After the restart: who is away for 20 seconds is stopped.
IMPATIENT = """
c.JupyterHub.services[0]["command"][-1:] = ["--timeout=20", "--cull-every=5"]
c.JupyterHub.last_activity_interval = 5
c.Spawner.environment["JUPYTERHUB_ACTIVITY_INTERVAL"] = "5"
"""


def missing(browser: str | None) -> list[str]:
    """List what the proof needs and does not find."""
    packages = {
        "jupyterhub": "jupyterhub",
        "nativeauthenticator": "jupyterhub-nativeauthenticator",
        "jupyterhub_idle_culler": "jupyterhub-idle-culler",
        "playwright": "playwright",
    }
    found = [package for module, package in packages.items() if find_spec(module) is None]
    found += [] if shutil.which("configurable-http-proxy") else ["configurable-http-proxy (by npm)"]
    return found + ([] if browser else ["Chromium"])


class Hub:
    """The folders and the address of a hub.

    Parameters
    ----------
    home : Path
        Where classes, copies and state lie.
    accounts : bool
        Whether each learner gets an account of this machine.
    """

    def __init__(self, home: Path, *, accounts: bool) -> None:
        self.home, self.accounts, self.process = home, accounts, None
        self.port, self.hub_port, self.api_port = (_free_port() for _ in range(3))
        self.url = f"http://127.0.0.1:{self.port}"
        self.keys = home / "classes" / "elm" / "packs" / "2027-03-06-class" / "key" / "key.csv"

    def lay_out(self) -> None:
        """Make a class with learners and a pack."""
        self.home.chmod(0o711)
        shutil.copytree(carried("data_demo"), self.home / "classes" / "elm")
        self.keys.parent.mkdir(parents=True)
        self.keys.write_text("question,answer\n1,invented\n", "utf-8")

    def folder(self, name: str) -> Path:
        """Give a learner's working folder."""
        home = Path(pwd.getpwnam(name).pw_dir) if self.accounts else self.home / "homes" / name
        return home / "garden-workbook"

    @contextmanager
    def running(self, *, impatient: bool = False):
        """Start the hub and stop it, its proxy and every learner's server at the end."""
        words = PROOF.format(config=str(CONFIG), port=self.port, hub_port=self.hub_port, api_port=self.api_port)
        if not self.accounts:
            words += ONE_ACCOUNT.format(homes=str(self.home / "homes" / "{username}"))
        config = self.home / "proof_config.py"
        config.write_text(words + (IMPATIENT if impatient else ""), "utf-8")
        command = [sys.executable, "-m", "jupyterhub", "--config", str(config)]
        env = {**os.environ, "GARDEN_HUB": str(self.home)}
        with (self.home / "hub.log").open("ab") as log:
            self.process = subprocess.Popen(
                command, cwd=self.home, env=env, stdout=log, stderr=log, start_new_session=True
            )
            try:
                self._wait()
                yield
            finally:
                left = psutil.Process(self.process.pid).children(recursive=True)
                self.process.send_signal(signal.SIGTERM)
                try:
                    self.process.wait(30)
                finally:
                    for process in psutil.wait_procs(left, timeout=10)[1]:
                        process.kill()

    def _wait(self) -> None:
        until = time.monotonic() + 60
        while time.monotonic() < until and self.process.poll() is None:
            try:
                if self.status("/hub/health") == 200:
                    return
            except URLError:
                time.sleep(0.2)
        raise RuntimeError(f"the hub did not start:\n{(self.home / 'hub.log').read_text('utf-8')[-3000:]}")

    def status(self, path: str, *, token: str = "", post: bool = False) -> int:
        """Ask as a program does, with a learner's token, and give the answer's status."""
        headers = {"Authorization": f"token {token}"} if token else {}
        asked = Request(self.url + path, headers=headers, method="POST" if post else "GET")  # noqa: S310
        try:
            with urlopen(asked, timeout=30) as answer:  # noqa: S310
                return answer.status
        except HTTPError as refusal:
            return refusal.code

    def servers(self) -> dict[str, psutil.Process]:
        """Find the learners' servers that run, by the learner's name."""
        found = {}
        for child in psutil.Process(self.process.pid).children(recursive=True):
            with suppress(psutil.NoSuchProcess):  # ended meanwhile
                if "jupyterhub.singleuser" in child.cmdline():
                    found[child.environ()["JUPYTERHUB_USER"]] = child
        return found

    def worked_s(self, name: str) -> float:
        """Give the processor time that a learner's server and kernels have taken, in seconds."""
        server = self.servers()[name]
        return sum(p.cpu_times().user + p.cpu_times().system for p in (server, *server.children(recursive=True)))

    def memory(self) -> list[tuple[str, float, float]]:
        """Give what takes memory: its name, the memory it holds (RSS) and what it shares with none (USS), MiB."""
        hub = psutil.Process(self.process.pid)
        rows = [("hub", *_held(hub))]
        for process in hub.children():
            line = " ".join(process.cmdline())
            if "configurable-http-proxy" in line:
                rows.append(("proxy", *_held(process)))
            if "jupyterhub_idle_culler" in line:
                rows.append(("culler", *_held(process)))
        for name, server in sorted(self.servers().items()):
            rows.append((f"{name}: server", *_held(server)))
            kernels = [p for p in server.children(recursive=True) if "ipykernel_launcher" in p.cmdline()]
            rows += [(f"{name}: kernel", *_held(kernel)) for kernel in kernels]
        return rows


def _held(process: psutil.Process) -> tuple[float, float]:
    memory = process.memory_full_info()
    return memory.rss / MIB, memory.uss / MIB


def _free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


def table(waits: dict[str, list[float]], memory: list[tuple[str, float, float]]) -> str:
    """Write the measured times and memory."""
    lines = [f"{'seconds from signing in until':44s} {'median':>9s} {'worst':>9s}"]
    lines += [f"{what:44s} {median(found):9.1f} {max(found):9.1f}" for what, found in waits.items()]
    lines += ["", f"{'memory':44s} {'RSS MiB':>9s} {'USS MiB':>9s}"]
    lines += [f"{what:44s} {rss:9.0f} {uss:9.0f}" for what, rss, uss in memory]
    lines += ["", f"other work on this machine: load {os.getloadavg()[2]:.1f} on {os.cpu_count()} cores"]
    return "\n".join(lines)
