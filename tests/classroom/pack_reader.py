"""Reads printed packs: their text by page and by question, and what a PDF says beside its text."""

import re
import subprocess
import zlib

from gardenlib.homework import PackRecord

HEAD = re.compile(r"\b(\d\d\.[a-z_]+\.[1-4])\b")  # a question's id, which stands in its head
FOOT = re.compile(
    r"5 cm|2 in|2 pulg|.*100 %\?.*|.*\d\.\d\.\d\.|\d\d-\d\d-\d\d.*|.*invented\.|.*inventados\.|(?:month|mes|day|día)"
)


def sides(path):
    """Give the text of each page, without its foot; words that were parted at a line's end are whole."""
    told = subprocess.run(["pdftotext", "-raw", path, "-"], check=True, capture_output=True).stdout.decode()
    pages = told.replace("\u00ad\n", "").split("\f")[:-1]
    return ["\n".join(line for line in page.splitlines() if not FOOT.fullmatch(line.strip())) for page in pages]


def flowing(text):
    """Put a text on one line."""
    return " ".join(text.split())


def questions(path):
    """Give the text of each question by its id, on one line."""
    parts = HEAD.split("\n".join(sides(path)))
    return dict(zip(parts[1::2], map(flowing, parts[2::2]), strict=True))


def hidden_words(path):
    """Give what a PDF holds beside the letters of its pages: descriptions of pictures, titles, notes."""
    raw = path.read_bytes()
    streams = re.findall(rb"stream\r?\n(.*?)\r?\nendstream", raw, re.DOTALL)
    opened = [zlib.decompressobj().decompress(part) for part in streams if part[:1] == b"x"]
    return b"\n".join([raw, *opened])


def holds(text, answer):
    """Tell whether an answer stands in a text, as a whole and not as the number of a step."""
    return re.search(rf"(?<![\w.,]){re.escape(answer)}(?![\w%]|[.,]\d|\.)", text) is not None


def record_of(made):
    """Read the record of a pack."""
    return PackRecord.read(made.folder / "key" / "record.json")


def sheet_of(path, record):
    """Find the record of a learner's file by the code that is printed on it."""
    raw = subprocess.run(["pdftotext", "-raw", path, "-"], check=True, capture_output=True).stdout.decode()
    return next(sheet for sheet in record.sheets if sheet.code in raw)
