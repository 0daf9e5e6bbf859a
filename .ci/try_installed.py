"""Use the installed package from outside the clone, as somebody would who has only that.

Usage: try_installed.py CLONE WORK
"""

import os
import signal
import subprocess
import sys
from pathlib import Path

import wait_for_page

import gardenlib

COMMAND = Path(sys.executable).with_name("gardenlib")


def run(*arguments: str) -> str:
    """Run one of the commands; it must exit 0 and print something."""
    print("gardenlib", *arguments, flush=True)
    done = subprocess.run([COMMAND, *arguments], capture_output=True, text=True, check=False)
    if done.returncode or not done.stdout.strip():
        raise SystemExit(f"exit {done.returncode}\n{done.stdout}{done.stderr}")
    return done.stdout


def open_pages(work: Path) -> None:
    """Copy the pages and start the server as `gardenlib open` does, then end it."""
    log, home = work / "open.log", work / "open_home"
    home.mkdir()
    with log.open("wb") as out:
        server = subprocess.Popen(
            [COMMAND, "open", "--instructor", "--no-browser"],
            stdout=out,
            stderr=subprocess.STDOUT,
            cwd=home,
            env={**os.environ, "HOME": str(home)},
            start_new_session=True,
        )
    try:
        if wait_for_page.main(str(log), "120"):
            raise SystemExit(log.read_text())
    finally:
        os.killpg(server.pid, signal.SIGTERM)
        server.wait(30)
    pages = sorted(path.name for path in home.rglob("0*.ipynb"))
    print("pages copied:", *pages)
    desk = sorted(path.name for path in home.rglob("instructor/*.ipynb"))
    print("instructor's pages copied:", *desk)
    if not (pages and desk):
        raise SystemExit("no page was copied")


def main(clone: Path, work: Path) -> None:
    """Try what the package carries and its commands."""
    package = Path(gardenlib.__file__).parent
    if package.is_relative_to(clone):
        raise SystemExit(f"{package} is the clone, not the installed package")
    demo = package / "_carried" / "data_demo"
    run("--help")
    for command in ("open", "check", "station"):
        run(command, "--help")
    records = sorted(demo.rglob("stations/*.csv"))
    if not records:
        raise SystemExit(f"no station record below {demo}")
    run("station", str(records[0]), "--latitude", "44")
    run("check", str(next(demo.rglob("class.toml")).parent))
    open_pages(work)


if __name__ == "__main__":
    main(Path(sys.argv[1]), Path(sys.argv[2]))
