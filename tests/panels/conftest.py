"""A session over the invented demo class, with nothing shown."""

from datetime import date
from pathlib import Path

import pytest

from gardenlib.carried import carried
from gardenlib.panels import Session

GUESSES = {
    "00.cold.guess": "some",
    "01.place.guess": "5",
    "01.risk.guess": "5",
    "04.crop.guess": "before",
    "04.list.guess": "14",
}


@pytest.fixture(autouse=True)
def _nothing_shown(shown):
    """Let no panel show anything."""


@pytest.fixture
def open_session(tmp_path):
    """Open a plot file of a given name beside the demo class, with all guesses kept unless told otherwise."""

    def make(name="my_plot.json", *, guesses=GUESSES, folder: Path | None = None, today=date(2027, 2, 15)):
        session = Session("test", tmp_path / name, folder or carried("data_demo"), today)
        for question, guess in guesses.items():
            session.keep_guess(question, guess)
        return session

    return make
