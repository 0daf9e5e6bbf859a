"""The questions of a page with their answers to choose from, and what is so for the class's own bed.

Rooms and panels take seconds to load, so they are read in a program of their own; the server only waits for it.
"""

from __future__ import annotations

import asyncio
import json
import re
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import asdict, dataclass
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

from gardenlib.problems import InputProblem

if TYPE_CHECKING:
    from gardenlib.panels import Session
    from gardenlib.panels.panel import Spec


@dataclass(frozen=True)
class Question:
    """A guess that a page asks for.

    Parameters
    ----------
    id : str
        Under which guesses are kept in plot files.
    title : str
        The panel that asks.
    caution : str
        What stands before any number; empty where there is none.
    words : str
        The question.
    options : list of (str, str)
        The answers: the value that is kept, and its words.
    truth : str
        What is so, for the class's own bed and place.
    """

    id: str
    title: str
    caution: str
    words: str
    options: list[tuple[str, str]]
    truth: str

    @property
    def mark(self) -> str:
        """The id as it stands in a page's address."""
        return self.id.replace(".", "-")


class Questions:
    """The questions of each page, read when they are first asked for.

    Parameters
    ----------
    class_folder : Path
        The class.
    language : str
        In which the class as a whole is spoken to.
    """

    def __init__(self, class_folder: Path, language: str) -> None:
        self._folder, self._language = class_folder, language
        self._read: dict[str, asyncio.Task[list[Question]]] = {}

    def of(self, page: str) -> asyncio.Task[list[Question]]:
        """Begin to read a page's questions, or give what is being read or was."""
        if page not in self._read:
            self._read[page] = asyncio.ensure_future(self._ask(page))
        return self._read[page]

    async def _ask(self, page: str) -> list[Question]:
        command = [sys.executable, "-m", __name__, page, str(self._folder), self._language]
        said = await asyncio.to_thread(subprocess.run, command, stdout=subprocess.PIPE, check=True)
        return [
            Question(**{**found, "options": [(value, words) for value, words in found["options"]]})
            for found in json.loads(said.stdout)
        ]


def questions(page: str, class_folder: Path, language: str, today: date) -> list[Question]:
    """List the questions of a page in its order; one that cannot be asked here says why in the place of the result."""
    from gardenlib.panels import Session

    session = Session(page, class_folder / "no_plot" / "no_plot.json", class_folder, today, language)
    return [_question(session, spec) for spec in specs(page)]


def _question(session: Session, spec: Spec) -> Question:
    say, guess = session.voice.say, spec.guess
    assert guess is not None  # noqa: S101  `specs` gives no others
    caution = say(spec.caution) if spec.caution else ""
    try:
        options = [(value, say(words)) for value, words in guess.options(session)]
        return Question(
            guess.id, say(spec.title), caution, say(guess.question(session)), options, say(guess.truth(session))
        )
    except InputProblem as problem:
        return Question(guess.id, say(spec.title), caution, "", [], problem.in_voice(session.voice))


def specs(page: str) -> list[Spec]:
    """List the panels of a page that ask for a guess, in the order in which the page names them."""
    named = _named(page)
    found = {}
    for module, spec in _all_specs():
        places = [place for place in named if module == place or module.startswith((f"{place}.", f"{place}_"))]
        if spec.guess.id.startswith(f"{page[:2]}.") and places:
            found[spec.guess.id] = named.index(max(places, key=len)), spec
    return [spec for _, spec in sorted(found.values(), key=lambda placed: placed[0])]


def _named(page: str) -> list[str]:
    from gardenlib.working_folder.lay_out import pages

    book = next(json.loads(data) for path, data in pages() if path.stem == page)
    code = "\n".join("".join(cell["source"]) for cell in book["cells"] if cell["cell_type"] == "code")
    return [match.rpartition(".")[0] for match in re.findall(r"\bpanels\.([a-z_.0-9]+)\(session", code)]


def _all_specs() -> Iterator[tuple[str, Any]]:
    import importlib
    import pkgutil

    from gardenlib import panels
    from gardenlib.panels.panel import Spec

    for found in pkgutil.walk_packages(panels.__path__, f"{panels.__name__}."):
        module = importlib.import_module(found.name)
        for value in vars(module).values():
            if isinstance(value, Spec) and value.guess is not None:
                yield found.name.removeprefix(f"{panels.__name__}."), value


def _main(page: str, class_folder: str, language: str) -> None:
    asked = questions(page, Path(class_folder), language, date.today())  # noqa: DTZ011  the day it is here
    print(json.dumps([asdict(question) for question in asked]))


if __name__ == "__main__":
    _main(*sys.argv[1:])
