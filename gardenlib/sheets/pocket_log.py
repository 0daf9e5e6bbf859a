"""What stands on the page for the pocket: one line a visit."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import accumulate
from typing import Any

from gardenlib.season.log import KINDS
from gardenlib.words import Voice

LINES = {False: 20, True: 14}
# More would take the lines to write on; a name longer than the second is cut.
MOST_LETTERS, LONGEST_NAME = 240, 40


def pocket_log_data(crops: Sequence[str], voice: Voice, *, large: bool = False) -> dict[str, Any]:
    """Gather the words of the page `log`.

    Parameters
    ----------
    crops : sequence of str
        Names of the learner's crops, as they are read; what takes more than three lines is only counted.
    voice : Voice
        Language and units of the reader.
    large : bool
        Whether the page is for large print, which leaves fewer and higher lines.

    Returns
    -------
    dict
        Data for `sheet_pdf`.
    """
    say = voice.say
    short = [name if len(name) <= LONGEST_NAME else f"{name[: LONGEST_NAME - 1]}…" for name in crops]
    fits = sum(length <= MOST_LETTERS for length in accumulate(len(name) for name in short))
    named = ", ".join(short[:fits])
    if fits < len(short):
        named = say("log.sheet.more", crops=named, n=len(short) - fits)
    return {
        "title": say("log.sheet.title"),
        "crops": say("log.sheet.plants", crops=named or say("log.none")),
        "did": say("log.sheet.did", kinds=", ".join(say(f"log.did_{kind}") for kind in KINDS)),
        "head": [
            say("log.column_day"),
            say("log.column_plant"),
            say("log.column_did"),
            say(f"log.sheet.much_{voice.units}"),
        ],
        "lines": LINES[large],
    }
