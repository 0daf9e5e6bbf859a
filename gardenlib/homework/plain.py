"""Typed text made plain: one kind of digits, spaces, dashes and letters."""

from __future__ import annotations

import re
import unicodedata

LONGEST = 200
_DASHES = dict.fromkeys("\u2010\u2011\u2012\u2013\u2014\u2015\u2212\ufe63\uff0d", "-")
_QUOTES = {**dict.fromkeys("\u2018\u2019\u2032", "'"), **dict.fromkeys("\u201c\u201d\u2033", '"')}
_SIGNS = {**_DASHES, **_QUOTES, "\u066b": ".", "\u066c": ",", "\u2044": "/", "º": "º"}


def plain(text: str) -> str:
    """Make typed text plain: small letters without accents, digits 0 to 9, single spaces, ``-`` for every dash."""
    signs: list[str] = []
    for sign in text[:LONGEST]:
        signs.append(_plain_sign(sign, after_digit=bool(signs) and signs[-1].isdecimal()))
    small = unicodedata.normalize("NFD", "".join(signs).casefold())
    bare = (sign for sign in small if sign.isspace() or unicodedata.category(sign) not in {"Mn", "Cc", "Cf"})
    return re.sub(r"\s+", " ", "".join(bare)).strip()


def _plain_sign(sign: str, *, after_digit: bool) -> str:
    if sign in _SIGNS:
        return _SIGNS[sign]
    if sign.isdecimal():
        return str(unicodedata.decimal(sign))
    form, *parts = unicodedata.decomposition(sign).split() or [""]
    if form == "<fraction>":
        return f" {''.join(_SIGNS.get(chr(int(part, 16)), chr(int(part, 16))) for part in parts)} "
    if form == "<super>" and after_digit:
        return sign  # five squared is not fifty-two
    return unicodedata.normalize("NFKC", sign)
