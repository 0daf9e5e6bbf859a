"""The sheet to print: address, square code, class word, three steps, and the plot codes to cut out."""

from __future__ import annotations

import io
from collections.abc import Sequence
from typing import Any

from gardenlib.class_folder import ClassFolder
from gardenlib.serving.codes import Place
from gardenlib.sheets import sheet_pdf
from gardenlib.words import Voice

_QUIET = 4  # modules of white around the code (ISO/IEC 18004)


def terminal_qr(url: str) -> str:
    """Draw the address as a QR code in half blocks of letters."""
    text = io.StringIO()
    _qr(url).terminal(text, compact=True, border=_QUIET)
    return text.getvalue()


def qr_svg(url: str) -> str:
    """Draw the address as a QR code."""
    picture = io.BytesIO()
    _qr(url).save(picture, kind="svg", border=_QUIET, svgclass=None, lineclass=None)
    return picture.getvalue().decode()


def _qr(url: str) -> Any:
    import segno

    return segno.make_qr(url, error="m")


def join_sheet(klass: ClassFolder, voices: Sequence[Voice], url: str, places: Sequence[Place]) -> bytes:
    """Print the sheet; all of it in each language of the class, then the slips."""

    def said(key: str, between: str) -> str:
        return between.join(voice.say(key) for voice in voices)

    data = {
        "title": said("serving.sheet.title", " / "),
        "class_title": klass.title,
        "address": url,
        "word": klass.class_word,
        "qr": qr_svg(url),
        "qr_alt": said("serving.sheet.qr_alt", " / "),
        "parts": [_part(voice) for voice in voices],
        "codes_title": said("serving.sheet.codes_title", " / "),
        "codes_about": said("serving.sheet.codes_about", "\n\n"),
        "slips": [{"pairs": place.pairs, "name": place.name} for place in places],
    }
    return sheet_pdf("join_sheet", data, voice=voices[0], invented=klass.invented)


def _part(voice: Voice) -> dict[str, Any]:
    say = voice.say
    return {
        "address": say("serving.sheet.address"),
        "word": say("serving.sheet.word"),
        "steps": [say(f"serving.sheet.step_{step}") for step in ("open", "word", "code")],
    }
