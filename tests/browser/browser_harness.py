"""What browser tests and benchmarks share: JupyterLab on a copy of the pages, and a browser that is kept at home."""

from __future__ import annotations

import json
import os
import re
import shutil
import signal
import socket
import subprocess
import time
from base64 import b64decode
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory
from urllib.error import URLError
from urllib.request import urlopen

from gardenlib.working_folder import FIRST_PAGE, lab_command, prepare

WIDE, PHONE = {"width": 1280, "height": 900}, {"width": 360, "height": 740}
AT_HOME = ("http://127.0.0.1:", "data:", "blob:", "about:")

CHROMIUM_ARGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    # No name is looked up, so that nothing gets out past the gate either (sockets, workers, pre-fetching).
    "--host-resolver-rules=MAP * ~NOTFOUND , EXCLUDE 127.0.0.1",
]

RUN_SECONDS = 120
RUN = """async seconds => {
  const panel = window.jupyterapp.shell.currentWidget, session = panel.sessionContext;
  const run = async () => {
    await session.ready;
    await window.jupyterapp.commands.execute('notebook:run-all-cells');
    for (let quiet = 0; quiet < 2;) {
      await new Promise(done => setTimeout(done, 100));
      quiet = session.session?.kernel?.status === 'idle' ? quiet + 1 : 0;
    }
  };
  const late = new Promise((_, fail) => setTimeout(() => fail(new Error('the cells did not finish')), seconds * 1000));
  await Promise.race([run(), late]);
  return panel.content.widgets.filter(cell => cell.model.type === 'code')
    .flatMap(cell => cell.model.sharedModel.toJSON().outputs)
    .filter(output => output.output_type === 'error').map(output => output.ename + ': ' + output.evalue);
}"""


def chromium() -> str | None:
    """Find the browser: the one named by GARDENLIB_CHROMIUM, or Debian's."""
    named = os.environ.get("GARDENLIB_CHROMIUM")
    return named or shutil.which("chromium") or (p if Path(p := "/usr/bin/chromium").exists() else None)


def working_copy(folder: Path) -> Path:
    """Lay out pages and demo class in a folder, as a reader has them."""
    return prepare(folder).folder


@contextmanager
def jupyterlab(folder: Path):
    """Serve a folder by JupyterLab with settings of its own; give its address."""
    # A short path: kernels talk through files in it, whose names hold 107 letters at most.
    with TemporaryDirectory(prefix="gl") as home, _served(folder, Path(home)) as url:
        yield url


@contextmanager
def _served(folder: Path, home: Path):
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port = probe.getsockname()[1]
    url = f"http://127.0.0.1:{port}"
    names = ("JUPYTER_CONFIG_DIR", "JUPYTER_DATA_DIR", "JUPYTER_RUNTIME_DIR", "IPYTHONDIR")
    own = {name: str(home / str(number)) for number, name in enumerate(names)}
    quiet = home / "0/lab/user-settings/@jupyterlab/apputils-extension/notification.jupyterlab-settings"
    quiet.parent.mkdir(parents=True)
    quiet.write_text('{"fetchNews": "false", "checkForUpdates": false}', "utf-8")
    command = lab_command(folder, FIRST_PAGE, port, browser=False)
    command += ["--IdentityProvider.token=", "--expose-app-in-browser"]
    with (home / "lab.log").open("wb") as log:
        server = subprocess.Popen(
            command, stdout=log, stderr=log, cwd=folder, start_new_session=True, env={**os.environ, **own}
        )
        try:
            _wait_for(f"{url}/api", server, home / "lab.log")
            yield url
        finally:
            os.killpg(server.pid, signal.SIGTERM)
            server.wait(20)


def _wait_for(url: str, server: subprocess.Popen, log: Path) -> None:
    until = time.monotonic() + 60
    while time.monotonic() < until:
        if server.poll() is not None:
            break
        try:
            with urlopen(url, timeout=5):  # noqa: S310
                return
        except URLError:
            time.sleep(0.1)
    raise RuntimeError(f"JupyterLab did not start:\n{log.read_text('utf-8')[-3000:]}")


@contextmanager
def browser(path: str):
    """Start a browser."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as driver:
        running = driver.chromium.launch(executable_path=path, args=CHROMIUM_ARGS)
        yield running
        running.close()


@contextmanager
def gated_page(running, viewport: dict[str, int]):
    """Open a tab whose every request beyond this machine is refused and kept in `page.outside`.

    What the tab's scripts complain about is kept in `page.complaints`.
    """
    context = running.new_context(viewport=viewport)
    context.set_default_timeout(30_000)
    page = context.new_page()
    page.outside, page.complaints = [], []

    def gate(route) -> None:
        if route.request.url.startswith(AT_HOME):
            route.continue_()
        else:
            page.outside.append(route.request.url)
            route.abort()

    context.route("**/*", gate)
    page.on("websocket", lambda ws: None if ws.url.startswith("ws://127.0.0.1:") else page.outside.append(ws.url))
    page.on("console", lambda said: page.complaints.append(said.text) if said.type == "error" else None)
    page.on("pageerror", lambda error: page.complaints.append(str(error)))
    try:
        yield page
    finally:
        context.close()


def open_notebook(page, lab_url: str, name: str) -> None:
    """Open a page of the served folder, alone and in a fresh workspace, and wait until it stands."""
    workspace = "".join(letter for letter in name if letter.isalnum())
    page.goto(f"{lab_url}/doc/workspaces/{workspace}/tree/{name}?reset")
    page.wait_for_function("window.jupyterapp?.shell.currentWidget?.context?.isReady")
    page.wait_for_function("window.jupyterapp.shell.currentWidget.content.widgets.length > 0")


def run_all(page) -> list[str]:
    """Run all cells and wait until the kernel rests; give the errors, as name and words."""
    return page.evaluate(RUN, RUN_SECONDS)


def save(page) -> None:
    """Save the open page."""
    page.evaluate("window.jupyterapp.commands.execute('docmanager:save')")


def screenshot(page, name: str) -> None:
    """Keep a picture of the tab in the folder named by GARDENLIB_SCREENSHOTS, if there is one."""
    folder = os.environ.get("GARDENLIB_SCREENSHOTS")
    if folder:
        Path(folder).mkdir(parents=True, exist_ok=True)
        page.screenshot(path=Path(folder) / f"{name}.png")


def stored(folder, name):
    """Read all that the outputs of a saved page hold, with its pictures as text."""
    book = json.loads((folder / name).read_text("utf-8"))
    outputs = [output["data"] for cell in book["cells"] for output in cell.get("outputs", []) if "data" in output]
    kept = "\n".join("".join(part) for data in outputs for part in data.values() if not isinstance(part, dict))
    return kept + "".join(b64decode(picture).decode() for picture in re.findall(r"base64,([A-Za-z0-9+/=]+)", kept))
