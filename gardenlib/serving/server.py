"""The server: Voila's parts behind our own door, and no other handler than those named here."""

from __future__ import annotations

import asyncio
import shutil
import signal
import sys
from pathlib import Path
from tempfile import gettempdir
from typing import Any

from jupyter_core.utils import ensure_async, run_sync
from tornado.httpserver import HTTPServer
from tornado.ioloop import IOLoop
from traitlets.config import Config
from voila.app import Voila
from voila.paths import collect_static_paths, collect_template_paths
from voila.utils import get_voila_labextensions_path

from gardenlib.charts import page_css
from gardenlib.serving import ask_handlers as ask
from gardenlib.serving import handlers as h
from gardenlib.serving import kernel_copy
from gardenlib.serving.door import Served
from gardenlib.serving.kernels import MESSAGES, Kernels

LARGEST_MESSAGE = 8_000_000  # a daily record of a hundred years has 5
_LARGEST_FORM = 10_000
_IDLE_S, _LOOK_S, _GENTLE_S = 600, 30, 2.0
_PING_MS = 30_000
_WIDGETS = ("@jupyter-widgets/jupyterlab-manager", "@voila-dashboards/widgets-manager8")
_LONGEST_TEMP = 40  # the name of a socket's file holds 107 letters at most
_KERNEL = r"([0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12})"


class ClassServer(Voila):  # type: ignore[misc]
    """Voila with a door of its own.  It reads no configuration of this computer's user."""

    served: Served
    sockets: list[Any]

    def setup_template_dirs(self) -> None:
        """Put our form of a page before Voila's."""
        own = [str(Path(__file__).parent / "templates" / "voila")]
        self.template_paths = own + collect_template_paths(["voila", "nbconvert"], "lab", prune=True)
        self.static_paths = collect_static_paths(["voila", "nbconvert"], "lab", prune=True)

    def init_settings(self) -> dict[str, Any]:
        """Add what our handlers need."""
        settings: dict[str, Any] = super().init_settings()
        self.kernel_manager.allowed_message_types = [*MESSAGES, "comm_open"]
        line = {
            "websocket_max_message_size": LARGEST_MESSAGE,
            "ws_ping_interval": _PING_MS,
            "ws_ping_timeout": 3 * _PING_MS,
        }
        return {**settings, **line, "served": self.served, "xsrf_cookies": False}

    def init_handlers(self) -> list[Any]:
        """Name all that is answered."""
        page = {
            "template_paths": self.template_paths,
            "config": self.config,
            "voila_configuration": self.voila_configuration,
        }
        widgets = {"paths": get_voila_labextensions_path()}
        return [
            (r"/", h.Home),
            (r"/join", h.Join),
            (r"/leave", h.Leave),
            (r"/again\.js", ask.Again),
            (r"/class(?:/page/([a-z0-9_]{1,60}))?", ask.ClassView),
            (r"/class/open", ask.Open),
            (r"/class/hands", ask.TypedHands),
            (r"/class/leave", ask.LeaveClass),
            (r"/page/([a-z0-9_]{1,60})", h.ShowPage, page),
            (rf"/api/kernels/{_KERNEL}", h.OwnKernel),
            (rf"/voila/api/shutdown/{_KERNEL}", h.OwnKernel),
            (rf"/api/kernels/{_KERNEL}/channels", h.Line),
            (r"/voila/templates/(lab/static/[A-Za-z0-9._-]+)", h.TemplateFile),
            (r"/voila/static/([A-Za-z0-9._-]+)", h.ProgramFile, {"paths": self.static_paths}),
            (rf"/voila/labextensions/((?:{'|'.join(_WIDGETS)})/static/[A-Za-z0-9._-]+)", h.ProgramFile, widgets),
            (r"/.*", h.Nothing),
        ]

    def listen(self) -> None:
        """Answer on the sockets that are open already, until somebody stops it."""
        server = HTTPServer(self.app, max_body_size=_LARGEST_FORM)
        server.add_sockets(self.sockets)
        self.ioloop = IOLoop.current()
        # Ctrl+C ends the loop as other signals do, and does not strike into whatever is being done.
        before = signal.signal(signal.SIGINT, self._handle_signal_stop)
        try:
            self.ioloop.start()
        finally:
            signal.signal(signal.SIGINT, before)
            self.stop()

    def stop(self) -> None:
        """End all kernels; those that still wait, or only begin, leave when their folder is gone."""
        shutil.rmtree(self.served.folders.seats, ignore_errors=True)
        run_sync(self._end_kernels)()
        shutil.rmtree(self.connection_dir, ignore_errors=True)

    async def _end_kernels(self) -> None:
        kernels, given = self.kernel_manager, self.served.seats.given
        ends = [ensure_async(kernels.shutdown_kernel(one, now=one not in given)) for one in kernels.list_kernel_ids()]
        await asyncio.gather(*ends, return_exceptions=True)  # some end by themselves meanwhile


def run_server(served: Served, sockets: list[Any], secret: bytes) -> None:
    """Serve a class until somebody stops it."""
    server = ClassServer(config=_config(served))
    server.served, server.sockets, server.cookie_secret = served, sockets, secret
    server.initialize([])
    server.start()


def _config(served: Served) -> Config:
    waiting = served.said("serving.getting_ready")[0]
    asleep = {"asleep": served.said("serving.asleep")[0], "no_line": served.said("serving.no_line")[0]}
    words = {"waiting": waiting, "wake": served.said("serving.wake")[0], "all": served.said("serving.all_pages")[0]}
    config = Config()
    config.Voila.root_dir = str(served.folders.pages)
    config.Voila.config_file_paths = []
    config.Voila.log_level = "ERROR"
    config.VoilaConfiguration.update(
        allow_template_override="NO",
        allow_theme_override="NO",
        extension_allowlist=list(_WIDGETS),
        file_allowlist=[],
        multi_kernel_manager_class=Kernels,
        preheat_kernel=True,
        page_config_hook=_stay_at_home,
        resources={"garden": {**words, **asleep, "language": served.voices[0].language, "style": page_css()}},
    )
    pools = {f"{page}.ipynb": {"pool_size": ready} for page, ready in served.opened.ready.items()}
    config.VoilaKernelManager.kernel_pools_config = {"default": {"pool_size": 1}, **pools}
    config.MappingKernelManager.update(cull_idle_timeout=_IDLE_S, cull_interval=_LOOK_S)
    config.KernelManager.update(autorestart=False, shutdown_wait_time=_GENTLE_S)
    if sys.platform != "win32" and len(gettempdir()) < _LONGEST_TEMP:
        config.KernelManager.transport = "ipc"  # nobody else on this computer can reach the kernels then
    if sys.platform == "linux":
        config.KernelProvisionerFactory.default_provisioner_name = kernel_copy.NAME
    config.KernelSpecManager.kernel_dirs = []  # this Python's own kernel, whatever else is installed
    return config


def _stay_at_home(page_config: dict[str, Any], /, **_: Any) -> dict[str, Any]:
    """Take the address of a program on the internet out of the page's settings."""
    return {**page_config, "fullMathjaxUrl": "", "mathjaxConfig": ""}
