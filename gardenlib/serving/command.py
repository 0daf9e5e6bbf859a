"""The command that serves a class."""

from __future__ import annotations

import os
import secrets
import socket
from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import Any

from filelock import FileLock, Timeout

from gardenlib import class_folder
from gardenlib.class_folder import ClassFolder
from gardenlib.problems import InputProblem
from gardenlib.quick import no_web_grammar
from gardenlib.serving import PLACES, PORT
from gardenlib.serving.codes import keep_places
from gardenlib.serving.folders import CLASS, SERVED, Folders, put_closed
from gardenlib.serving.pages import chosen_pages, page_of_the_day, pages_for_learners
from gardenlib.words import Voice, languages

MOST_PLACES, MOST_READY = 500, 60
_HERE = "127.0.0.1"


def serve_class(
    folder: str | Path,
    *,
    pages: Sequence[str] = (),
    network: str | None = None,
    port: int = PORT,
    work: str | Path | None = None,
    places: int = PLACES,
    ready: int | None = None,
) -> None:
    """Serve a class until it is stopped.

    Parameters
    ----------
    folder : str or Path
        The class folder.
    pages : sequence of str
        Pages to serve; those of the class's meetings when none are named.
    network : str, optional
        Address of this computer on the class network, empty to find it. Without it this computer alone is let in.
    port : int
        Port of this computer.
    work : str or Path, optional
        Where plots and codes are kept; else beside the class folder.
    places : int
        How many plot codes there are at least.
    ready : int, optional
        How many kernels wait for the page of the day; else one for each learner of the list.

    Raises
    ------
    InputProblem
        When the class cannot be read, has no class word, a folder cannot be written, or the port is taken.
    """
    source = Path(folder).expanduser().resolve()
    klass = class_folder.read(source)
    if not klass.class_word:
        raise InputProblem("serving.no_word")
    names = chosen_pages(klass, pages)
    ready = min(len(klass.learners), MOST_READY) if ready is None else ready
    for name, value, most in (("--places", places, MOST_PLACES), ("--ready", ready, MOST_READY)):
        if not 0 <= value <= most:
            raise InputProblem("serving.number", name=name, value=value, low=0, high=most)
    folders = Folders(_work_folder(source, work))
    folders.home.mkdir(parents=True, exist_ok=True)
    lock = FileLock(folders.home / ".served", timeout=0)
    try:
        lock.acquire()
    except Timeout:
        raise InputProblem("serving.running", folder=str(folders.home)) from None
    try:
        address = _HERE if network is None else network or _network_address()
        sockets = _sockets(port, address)
        _serve(klass, folders, names, sockets, address=address, port=port, places=places, ready=ready)
    finally:
        lock.release()


def _serve(
    klass: ClassFolder,
    folders: Folders,
    names: list[str],
    sockets: list[Any],
    *,
    address: str,
    port: int,
    places: int,
    ready: int,
) -> None:
    from gardenlib.serving.ask_counts import Hands
    from gardenlib.serving.ask_open import OpenPages
    from gardenlib.serving.ask_questions import Questions
    from gardenlib.serving.door import Served
    from gardenlib.serving.seats import Seats
    from gardenlib.serving.sheet import join_sheet, terminal_qr
    from gardenlib.serving.tries import Tries

    with no_web_grammar():
        from gardenlib.serving.server import run_server
    spoken = [language for language in klass.languages if language in languages()] or ["en"]
    voices = tuple(Voice(language=language, units=klass.units, local=klass.words_local) for language in spoken)
    folders.make()
    codes = keep_places(folders, list(klass.learners.values()), places)
    day = date.today()  # noqa: DTZ011  the day it is here
    opened = OpenPages(
        folders,
        pages_for_learners(spoken[0]),
        names,
        now=page_of_the_day(klass, names, day),
        today=day,
        most_ready=ready,
        voice=voices[0],
    )
    url = f"http://{address}:{port}/"
    put_closed(folders.sheet, join_sheet(klass, voices, url, codes))
    served = Served(
        klass=klass,
        folders=folders,
        places=tuple(codes),
        hosts=frozenset(f"{host}:{port}" for host in {address, _HERE, "localhost"}),
        voices=voices,
        seats=Seats(folders),
        tries=Tries(),
        opened=opened,
        questions=Questions(klass.folder, spoken[0]),
        hands=Hands(folders),
        instructor_key=secrets.token_urlsafe(16),
    )
    say, way = voices[0].say, f"/class?key={served.instructor_key}"
    for line in (
        terminal_qr(url),
        say("serving.address", title=klass.title, address=url),
        say("serving.loopback" if address == _HERE else "serving.network"),
        say("serving.pages_served", pages=", ".join(page.name for page in opened.pages)),
        say("serving.print_sheet", file=str(folders.sheet)),
        say("serving.sealed_list", file=str(folders.codes)),
        say("serving.instructor", link=f"http://{_HERE}:{port}{way}"),
        *([] if address == _HERE else [say("serving.instructor_network", link=f"http://{address}:{port}{way}")]),
        say("serving.stop"),
    ):
        print(line, flush=True)
    os.environ.update({SERVED: str(folders.home), CLASS: str(klass.folder)})
    run_server(served, sockets, _secret(folders))


def _work_folder(source: Path, work: str | Path | None) -> Path:
    home = Path(work).expanduser().resolve() if work else source.with_name(f"{source.name}_served")
    if home == source or source in home.parents:
        raise InputProblem("serving.inside", folder=str(home))
    return home


def _secret(folders: Folders) -> bytes:
    if not folders.secret.exists():
        put_closed(folders.secret, secrets.token_bytes(32))
    return folders.secret.read_bytes()


def _network_address() -> str:
    """Find this computer's address on its network; nothing is sent for that."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(("192.0.2.1", 9))  # an address kept for examples (RFC 5737)
        except OSError:
            raise InputProblem("serving.no_network") from None
        return str(probe.getsockname()[0])


def _sockets(port: int, address: str) -> list[Any]:
    from tornado.netutil import bind_sockets

    found: list[Any] = []
    for host in dict.fromkeys((address, _HERE)):
        try:
            found += bind_sockets(port, host, family=socket.AF_INET)
        except (OSError, OverflowError):
            raise InputProblem("serving.port", port=port, address=host) from None
    return found
