"""Find which sentences the code asks for, and compare them with the words files."""

from __future__ import annotations

import ast
import hashlib
import json
import re
import string
import tomllib
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

PREFIXES = {"say": "", "said": "", "has": "", "Said": "", "InputProblem": "problem.", "Step": "step."}
FORMS = {"zero", "one", "two", "few", "many", "other"}
MADE_FROM = "_made_from."


@dataclass(frozen=True)
class Asked:
    """A sentence that some line of code asks for."""

    key: str
    where: str
    values: frozenset[str] | None  # names that are supplied; None when they cannot be read from the line


@dataclass
class Found:
    """All that the code asks for: sure keys, patterns of keys, and strings that may be keys."""

    asked: list[Asked] = field(default_factory=list)
    patterns: list[tuple[str, str]] = field(default_factory=list)  # regular expression, where
    strings: set[str] = field(default_factory=set)


def base(key: str) -> str:
    """Drop the plural form from the end of a key."""
    stem, _, last = key.rpartition(".")
    return stem if last in FORMS else key


def forms_of(keys: Iterable[str]) -> dict[str, list[str]]:
    """Gather the keys of each sentence, its plural forms in order."""
    groups: dict[str, list[str]] = {}
    for key in sorted(keys):
        groups.setdefault(base(key), []).append(key)
    return groups


def sources(root: Path) -> Iterator[tuple[str, str]]:
    """Give name and Python text of every module, of every page's code cells, and of what screens ask for."""
    for path in sorted((root / "gardenlib").rglob("*.py")):
        yield str(path.relative_to(root)), path.read_text("utf-8")
    for path in sorted((root / "gardenlib").rglob("*.html")):
        yield str(path.relative_to(root)), "\n".join(re.findall(r"\bsaid\([^()]*\)", path.read_text("utf-8")))
    for path in sorted((root / "notebooks").rglob("*.ipynb")):
        cells = json.loads(path.read_text("utf-8"))["cells"]
        for cell in cells:
            if cell["cell_type"] == "code":
                yield f"{path.relative_to(root)}, cell {cell['id']}", "".join(cell["source"])


def scan(texts: Iterable[tuple[str, str]]) -> Found:
    """Read what the code asks for, without running it."""
    found = Found()
    for name, text in texts:
        for node in ast.walk(ast.parse(text, name)):
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                found.strings.add(node.value)
            elif isinstance(node, ast.JoinedStr):
                found.patterns.extend(_pattern("", node, f"{name}:{node.lineno}"))
            elif isinstance(node, ast.Call):
                _call(node, name, found)
    return found


def _call(node: ast.Call, name: str, found: Found) -> None:
    called = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
    if called not in PREFIXES or not node.args:
        return
    where = f"{name}:{node.lineno}"
    for key in _alternatives(node.args[0]):
        if isinstance(key, ast.Constant) and isinstance(key.value, str):
            values = _values(node, called) if called in {"say", "said", "Said", "InputProblem"} else None
            found.asked.append(Asked(PREFIXES[called] + key.value, where, values))
        elif isinstance(key, ast.JoinedStr):
            found.patterns.extend(_pattern(PREFIXES[called], key, where))


def _alternatives(node: ast.expr) -> Iterator[ast.expr]:
    if isinstance(node, ast.IfExp):
        yield from _alternatives(node.body)
        yield from _alternatives(node.orelse)
    else:
        yield node


def _values(node: ast.Call, called: str) -> frozenset[str] | None:
    if called == "Said":
        given = (
            node.args[1] if len(node.args) > 1 else next((k.value for k in node.keywords if k.arg == "values"), None)
        )
        if given is None:
            return frozenset()
        if not isinstance(given, ast.Dict) or not all(isinstance(k, ast.Constant) for k in given.keys):
            return None
        return frozenset(k.value for k in given.keys if isinstance(k, ast.Constant) and isinstance(k.value, str))
    if any(k.arg is None for k in node.keywords):
        return None
    return frozenset(k.arg for k in node.keywords if k.arg)


def _pattern(prefix: str, node: ast.JoinedStr, where: str) -> Iterator[tuple[str, str]]:
    """Turn an f-string such as "crop.{id}" into a pattern of keys; one without a room in front is no key."""
    parts = [p.value if isinstance(p, ast.Constant) else None for p in node.values]
    first = parts[0] if parts and isinstance(parts[0], str) else ""
    head = prefix + first
    if "." not in head or head in {"problem.", "step."} or not re.fullmatch(r"[a-z_][a-z0-9_.]*", head):
        return
    body = "".join(r"[A-Za-z0-9_.\-]+" if p is None else re.escape(str(p)) for p in parts)
    yield re.escape(prefix) + body, where


def missing(found: Found, keys: Iterable[str]) -> list[str]:
    """Name the sentences that the code asks for and the file does not hold."""
    known = set(keys) | {base(key) for key in keys}
    lost = [f"{a.where}: {a.key}" for a in found.asked if a.key not in known]
    lost += [
        f"{where}: nothing like {pattern}"
        for pattern, where in found.patterns
        if _starts_as_key(pattern, known) and not any(re.fullmatch(pattern, key) for key in known)
    ]
    return sorted(set(lost))


def _starts_as_key(pattern: str, known: set[str]) -> bool:
    room = re.split(r"\\?\.", pattern)[0]
    return any(key.startswith(room + ".") for key in known)


def unused(found: Found, keys: Iterable[str]) -> list[str]:
    """Name the sentences that nothing in the code asks for."""
    sure = {a.key for a in found.asked}
    maybe = {prefix + text for text in found.strings for prefix in ("", "problem.", "step.")}
    patterns = [re.compile(pattern) for pattern, _ in found.patterns]

    def is_used(key: str) -> bool:
        names = {key, base(key)}
        return bool(names & sure or names & maybe) or any(p.fullmatch(name) for p in patterns for name in names)

    return sorted(key for key in keys if not is_used(key))


def unsupplied(found: Found, texts: Mapping[str, str]) -> list[str]:
    """Name the lines that ask for a sentence without a value which the sentence names."""
    forms = forms_of(texts)
    return sorted(
        {
            f"{asked.where}: {key} needs {name}"
            for asked in found.asked
            if asked.values is not None
            for key in forms.get(asked.key, [asked.key] if asked.key in texts else [])
            for name in placeholders(texts[key]) - asked.values
        }
    )


def placeholders(text: str) -> set[str]:
    """Read the names in braces of a sentence."""
    return {name.split(".")[0].split("[")[0] for _, name, _, _ in string.Formatter().parse(text) if name}


def read_words(path: Path) -> dict[str, str]:
    """Read one words file as a flat table."""

    def flat(tree: Mapping[str, Any], stem: str = "") -> Iterator[tuple[str, str]]:
        for name, value in tree.items():
            if isinstance(value, dict):
                yield from flat(value, f"{stem}{name}.")
            else:
                yield stem + name, value

    return dict(flat(tomllib.loads(path.read_text("utf-8"))))


def fingerprint(text: str) -> str:
    """Give the short mark by which a translation remembers the English sentence it was made from."""
    return hashlib.sha256(text.encode("utf-8")).hexdigest()[:8]


def plural_faults(texts: Mapping[str, str], forms: Iterable[str]) -> list[str]:
    """Name the counting sentences that lack a form of their language."""
    need = set(forms)
    counted = {
        key: {name.rpartition(".")[2] for name in names if name != key} for key, names in forms_of(texts).items()
    }
    return sorted(
        f"{key} has {', '.join(sorted(has))}"
        for key, has in counted.items()
        if has & (FORMS - {"other"}) and has != need
    )


def language_faults(english: Mapping[str, str], other: Mapping[str, str], forms: Iterable[str]) -> list[str]:
    """Name what is missing, unknown, older than the English or differently filled in another language."""
    made_from = {key.removeprefix(MADE_FROM): mark for key, mark in other.items() if key.startswith(MADE_FROM)}
    own = {key: text for key, text in other.items() if not key.startswith(MADE_FROM)}
    here, there = forms_of(english), forms_of(own)
    faults = [f"missing: {key}" for key in here.keys() - there.keys()]
    faults += [f"not in English: {key}" for key in there.keys() - here.keys()]
    for key in sorted(here.keys() & there.keys()):
        ours = "\n".join(english[k] for k in here[key])
        if made_from.get(key) != fingerprint(ours):
            faults.append(f"stale: {key}, the English now has the mark {fingerprint(ours)}")
        theirs = [placeholders(own[k]) for k in there[key]]
        if set().union(*theirs) != placeholders(ours):
            faults.append(f"other values: {key}")
    return sorted(faults + [f"forms: {fault}" for fault in plural_faults(own, forms)])
