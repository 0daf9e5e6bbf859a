"""From a file on disk to its text; size, kind and letters are judged first."""

from __future__ import annotations

from pathlib import Path

from gardenlib.problems import InputProblem
from gardenlib.words import Said

MAX_MB = 64  # 150 years of one station with every element stay well below this

_SPREADSHEET_ENDINGS = {".xlsx", ".xls", ".xlsm", ".ods", ".numbers"}
# Names inside a packed spreadsheet: the workbook's part (ECMA-376, part 1), the media type (OpenDocument 1.2, part 3).
_SPREADSHEET_PARTS = (b"xl/workbook", b"opendocument.spreadsheet")
_BINARY_STARTS = {
    b"\xd0\xcf\x11\xe0": "spreadsheet",
    b"PK\x03\x04": "packed",
    b"\x1f\x8b": "packed",
    b"BZh": "packed",
    b"%PDF": "binary",
}
_NO_TEXT = bytes(set(range(32)) - set(b"\t\n\r\f"))
_UTF16_STARTS = (b"\xff\xfe", b"\xfe\xff")


def read_text(path: Path) -> tuple[str, list[Said]]:
    """Read a text file whole and tell in sentences what was odd about its letters.

    Parameters
    ----------
    path : Path
        The file.

    Returns
    -------
    tuple of (str, list of Said)
        The text, its lines ending in a line feed and without a byte-order mark, and what to tell the reader.

    Raises
    ------
    InputProblem
        When there is no such file, or it is a folder, unreadable, too large, empty, packed, a spreadsheet, a web
        page, JSON or any other kind that is no text table.
    """
    data = _read_bytes(path)
    kind = next((kind for start, kind in _BINARY_STARTS.items() if data.startswith(start)), None)
    if kind == "packed":
        inside = any(part in data for part in _SPREADSHEET_PARTS)
        kind = "spreadsheet" if inside or path.suffix.lower() in _SPREADSHEET_ENDINGS else kind
    if kind is None and not data.startswith(_UTF16_STARTS) and len(data.translate(None, _NO_TEXT)) < len(data):
        kind = "binary"
    if kind is not None:
        raise InputProblem(f"station.{kind}", file=path.name)
    text, notes = _decode(data, path.name)
    if "\r" in text:
        text = text.replace("\r\n", "\n").replace("\r", "\n")
    start = text[:200].lstrip()
    if not start and not text.strip():
        raise InputProblem("station.empty", file=path.name)
    if start.startswith("<"):
        raise InputProblem("station.web_page", file=path.name)
    if start.startswith(("{", "[")):
        raise InputProblem("station.json", file=path.name)
    return text, notes


def _read_bytes(path: Path) -> bytes:
    try:
        if path.is_dir():
            raise InputProblem("station.folder", file=path.name or str(path))
        size_mb = path.stat().st_size / 1e6
        if size_mb > MAX_MB:
            raise InputProblem("station.too_large", file=path.name, size=round(size_mb), limit=MAX_MB)
        return path.read_bytes()
    except FileNotFoundError:
        raise InputProblem("station.no_file", file=str(path)) from None
    except OSError as trouble:
        reason = trouble.strerror or type(trouble).__name__
        raise InputProblem("station.unreadable", file=path.name, reason=reason) from None


def _decode(data: bytes, file: str) -> tuple[str, list[Said]]:
    if data.startswith(_UTF16_STARTS):
        try:
            return data.decode("utf-16"), [Said("station.note.utf16")]
        except UnicodeDecodeError:
            raise InputProblem("station.binary", file=file) from None
    try:
        text, notes = data.decode("utf-8"), []
    except UnicodeDecodeError:
        text, notes = data.decode("latin-1"), [Said("station.note.latin1")]
    if text.startswith("\ufeff"):
        return text[1:], [Said("station.note.bom")]
    return text, notes
