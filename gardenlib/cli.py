"""The commands: each one thin function over the library."""

from __future__ import annotations

import argparse
import json
import os
import sys
import traceback
from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import Any, TextIO, cast

from gardenlib.problems import InputProblem
from gardenlib.words import Voice

_BAD_INPUT, _BROKEN, _STOPPED = 1, 3, 130


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command.

    Parameters
    ----------
    argv : sequence of str, optional
        The words after ``gardenlib``; those of the process when not given.

    Returns
    -------
    int
        0, or 1 for bad input (one sentence on stderr), or 3 when the program itself is at fault.
        Wrong usage leaves with 2, as argparse does.
    """
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")  # a terminal without a degree sign still gets its lines
    try:
        args = _parser().parse_args(argv)
        code: int = args.run(args) or 0
        sys.stdout.flush()
    except InputProblem as problem:
        print(problem, file=sys.stderr)
        return _BAD_INPUT
    except BrokenPipeError:
        _leave_closed_pipe(sys.stdout)
        return 0
    except KeyboardInterrupt:
        return _STOPPED
    except Exception:
        traceback.print_exc()
        print(Voice().say("command.broken"), file=sys.stderr)
        return _BROKEN
    return code


def _leave_closed_pipe(stream: TextIO) -> None:
    """Let the interpreter flush into nothing at its end; whoever closed the pipe has read enough."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())


def _parser() -> argparse.ArgumentParser:
    say = Voice().say
    parser = argparse.ArgumentParser(prog="gardenlib", description=say("command.about"))
    commands = parser.add_subparsers(title=say("command.title"), metavar="COMMAND", required=True)
    for add in (_add_open, _add_new_class, _add_check, _add_station, _add_serve, _add_pack, _add_mark):
        add(commands)
    return parser


def _command(commands: Any, name: str, run: Any) -> argparse.ArgumentParser:
    about = Voice().say(f"command.{name}.about")
    parser = commands.add_parser(name, help=about, description=about)
    parser.set_defaults(run=run)
    return cast(argparse.ArgumentParser, parser)


def _add_open(commands: Any) -> None:
    say = Voice().say
    parser = _command(commands, "open", _open)
    parser.add_argument("folder", metavar="FOLDER", nargs="?", help=say("command.open.folder"))
    parser.add_argument("--class", dest="class_path", metavar="DIR", help=say("command.open.class"))
    parser.add_argument("--instructor", action="store_true", help=say("command.open.instructor"))
    parser.add_argument("--page", metavar="PAGE", help=say("command.open.page"))
    parser.add_argument("--no-browser", action="store_true", help=say("command.open.no_browser"))
    parser.add_argument("--port", type=int, metavar="N", help=say("command.open.port"))


def _open(args: argparse.Namespace) -> int:
    from gardenlib.working_folder import open_pages

    return open_pages(
        args.folder,
        class_path=args.class_path,
        instructor=args.instructor,
        page=args.page,
        browser=not args.no_browser,
        port=args.port,
    )


def _add_new_class(commands: Any) -> None:
    parser = _command(commands, "new-class", _new_class)
    parser.add_argument("folder", metavar="DIR", help=Voice().say("command.new-class.folder"))
    parser.add_argument("--plan", metavar="PLAN", help=Voice().say("command.new-class.plan"))


def _new_class(args: argparse.Namespace) -> None:
    from gardenlib.class_folder import new_class

    print(Voice().say("command.new-class.made", folder=str(new_class(args.folder, plan=args.plan))))


def _add_check(commands: Any) -> None:
    parser = _command(commands, "check", _check)
    parser.add_argument("folder", metavar="DIR", help=Voice().say("command.check.folder"))


def _check(args: argparse.Namespace) -> int:
    from gardenlib.class_check import report

    found, say = report(args.folder), Voice().say
    for note in found.notes:
        print(say("check.good_to_know", note=note))
    print("\n".join(say(line) for line in found.lines))
    return _BAD_INPUT if found.mend else 0


def _add_station(commands: Any) -> None:
    say = Voice().say
    parser = _command(commands, "station", _station)
    parser.add_argument("file", metavar="FILE", help=say("command.station.file"))
    parser.add_argument("--json", action="store_true", help=say("command.station.json"))
    parser.add_argument("--latitude", type=_latitude, metavar="D", help=say("command.station.latitude"))
    parser.add_argument("--unit", choices=("F", "C", "tenths-C"), help=say("command.station.unit"))
    parser.add_argument("--date-order", choices=("DMY", "MDY"), help=say("command.station.date_order"))
    parser.add_argument("--year", type=_year, metavar="Y", help=say("command.station.year"))


def _station(args: argparse.Namespace) -> None:
    from gardenlib.site._report import Report
    from gardenlib.site.station import read_station

    station = read_station(args.file, unit=args.unit, latitude=args.latitude, date_order=args.date_order)
    report = Report(station, args.year)
    print(json.dumps(report.facts(), indent=2) if args.json else "\n".join(report.lines()))


def _add_serve(commands: Any) -> None:
    from gardenlib.serving import PLACES, PORT

    say = Voice().say
    parser = _command(commands, "serve", _serve)
    parser.add_argument("folder", metavar="DIR", help=say("command.serve.folder"))
    parser.add_argument("--pages", nargs="+", default=[], metavar="PAGE", help=say("command.serve.pages"))
    parser.add_argument("--network", nargs="?", const="", metavar="ADDRESS", help=say("command.serve.network"))
    parser.add_argument("--port", type=int, default=PORT, metavar="N", help=say("command.serve.port"))
    parser.add_argument("--work", metavar="FOLDER", help=say("command.serve.work"))
    parser.add_argument("--places", type=int, default=PLACES, metavar="N", help=say("command.serve.places"))
    parser.add_argument("--ready", type=int, metavar="N", help=say("command.serve.ready"))


def _serve(args: argparse.Namespace) -> None:
    from gardenlib.serving import serve_class

    serve_class(
        args.folder,
        pages=args.pages,
        network=args.network,
        port=args.port,
        work=args.work,
        places=args.places,
        ready=args.ready,
    )


def _add_pack(commands: Any) -> None:
    say = Voice().say
    parser = _command(commands, "pack", _pack)
    parser.add_argument("folder", metavar="DIR", help=say("command.pack.folder"))
    parser.add_argument("--out", metavar="OUT", help=say("command.pack.out"))
    parser.add_argument("--session", type=int, metavar="N", help=say("command.pack.session"))
    parser.add_argument("--kind", choices=("class", "plot", "pair"), default="class", help=say("command.pack.kind"))
    parser.add_argument("--large", action="store_true", help=say("command.pack.large"))
    parser.add_argument("--paper", choices=("a4", "us-letter"), help=say("command.pack.paper"))
    parser.add_argument("--day", action="store_true", help=say("command.pack.day"))


def _pack(args: argparse.Namespace) -> None:
    from gardenlib import class_folder
    from gardenlib.classroom import day_papers
    from gardenlib.classroom.pack_folder import PACKS
    from gardenlib.classroom.pack_print import meeting_of

    today = date.today()  # noqa: DTZ011  the day on the instructor's own clock
    folder, stopped = Path(args.out or Path(args.folder) / PACKS), None
    try:
        folder = _homework(args, today)
    except InputProblem as problem:
        if not args.day:
            raise
        stopped = problem  # a page without homework has papers of the day
    if args.day:
        klass = class_folder.read(args.folder)
        meeting = meeting_of(klass, args.session, today)
        papers = day_papers(klass, meeting, folder, large=args.large, paper=args.paper)
        print(Voice().say("pack.day_made", n=len(papers), folder=str(papers[0].parent)))
    if stopped is not None:
        raise stopped


def _homework(args: argparse.Namespace, today: date) -> Path:
    """Print the sheets with their key, and give their folder."""
    from gardenlib.classroom import pack

    say, bar = Voice().say, _Bar()
    try:
        made = pack(
            args.folder,
            args.out,
            today=today,
            session=args.session,
            kind=args.kind,
            large=args.large,
            paper=args.paper,
            progress=bar.show,
        )
    finally:
        bar.end()
    for line in made.told:
        print(say(line))
    print(say("pack.made", n=made.sheets, folder=str(made.folder)))
    return made.folder


class _Bar:
    """A bar on the line of the terminal that is being written."""

    def __init__(self) -> None:
        self._open = False

    def show(self, done: int, many: int) -> None:
        """Draw how far it is."""
        bar = ("#" * (20 * done // many)).ljust(20, ".")
        self._open = done < many
        end = "" if self._open else "\n"
        print(f"\r[{bar}] {Voice().say('pack.progress', done=done, n=many)}", end=end, file=sys.stderr, flush=True)

    def end(self) -> None:
        """Leave the line where the bar stopped short, so that what is said next has its own."""
        if self._open:
            print(file=sys.stderr)


def _add_mark(commands: Any) -> None:
    parser = _command(commands, "mark", _mark)
    parser.add_argument("folder", metavar="DIR", help=Voice().say("command.mark.folder"))


def _mark(args: argparse.Namespace) -> None:
    from gardenlib.homework.replies import mark_pack

    say = Voice().say
    print("\n".join(map(say, mark_pack(args.folder).lines)))


def _latitude(text: str) -> float:
    latitude = float(text)
    if not -90 <= latitude <= 90:
        raise argparse.ArgumentTypeError(Voice().say("problem.station.latitude", value=text))
    return latitude


def _year(text: str) -> int:
    year = int(text)
    if not 1000 <= year <= 9000:
        raise argparse.ArgumentTypeError(Voice().say("command.station.year_range", value=text))
    return year


if __name__ == "__main__":
    sys.exit(main())
