"""Read sentences out of pages and words files, so that their grade can be measured."""

from __future__ import annotations

import json
import re
import string
from collections.abc import Iterator, Mapping
from pathlib import Path

# What stands in a sentence's gaps while it is measured: short words as a reader would see them.
EXAMPLES = {
    "date": "April 5",
    "day": "April 5",
    "crop": "beans",
    "place": "the plot",
    "site": "the plot",
    "station": "the station",
    "file": "the file",
    "name": "the bed",
}
SENTENCE_END = re.compile(r"(?<=[.?!:])\s+")


def filled(text: str) -> str:
    """Put a short example into each gap of a sentence; ``5`` where no better one is known."""
    parts = []
    for literal, name, _, _ in string.Formatter().parse(text):
        parts.append(literal)
        if name is not None:
            parts.append(next((word for hint, word in EXAMPLES.items() if hint in name), "5"))
    return readable("".join(parts))


def readable(text: str) -> str:
    """Drop what is read as a sign and not as a word: units, ranges, code and markup."""
    text = re.sub(r"<[^>]+>", " ", text)
    text = re.sub(r"!?\[([^\]]*)\]\([^)]*\)", r"\1", text)
    text = re.sub(r"`[^`]*`", "it", text)
    text = re.sub(r"https?://\S+", "", text)
    text = re.sub(r"[*_#>|]", " ", text)
    text = re.sub(r"\s*°\s*[FC]\b", "", text)
    return re.sub(r"[ \t]+", " ", text).strip()


def is_sentence(text: str) -> bool:
    """Tell a sentence from a label: four words or more and an end."""
    return len(text.split()) >= 4 and text.rstrip(" )\"'”").endswith((".", "?", "!", ":"))


def sentences_of(texts: Mapping[str, str]) -> dict[str, list[str]]:
    """Give the whole sentences of a words file by its first table."""
    rooms: dict[str, list[str]] = {}
    for key, text in texts.items():
        plain = filled(text)
        if is_sentence(plain):
            rooms.setdefault(key.split(".")[0], []).append(plain)
    return rooms


def markdown(page: Path) -> Iterator[str]:
    """Give the text cells of a page."""
    for cell in json.loads(page.read_text("utf-8"))["cells"]:
        if cell["cell_type"] == "markdown":
            yield "".join(cell["source"])


def core(text: str) -> str:
    """Cut the closed folds out of a page's text."""
    return re.sub(r"<details\b.*?</details>", "", text, flags=re.DOTALL)


def page_sentences(page: Path) -> list[str]:
    """Give the sentences of a page's prose: no headings, tables, code, or list of sources."""
    found = []
    for cell in markdown(page):
        text = re.sub(r"```.*?```", "", cell, flags=re.DOTALL)
        text = re.split(r"^#+ *Sources\b", text, flags=re.MULTILINE)[0]
        for block in re.split(r"\n\s*\n|\n(?=\s*(?:[-*]|\d+\.)\s)", text):
            lines = [line for line in block.splitlines() if not re.match(r"\s*(#|\||<)", line)]
            plain = readable(re.sub(r"^\s*(?:[-*]|\d+\.)\s+", "", " ".join(lines)))
            found += [part if is_sentence(part) else part + "." for part in SENTENCE_END.split(plain) if part]
    return [sentence for sentence in found if is_sentence(sentence)]


def core_words(page: Path) -> int:
    """Count the words a learner meets on the page's core path: all text cells but the folds."""
    return sum(len(re.findall(r"[A-Za-z0-9°½'’-]+", readable(core(cell)))) for cell in markdown(page))
