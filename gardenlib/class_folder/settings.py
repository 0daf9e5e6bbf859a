"""The class's settings: ``class.toml``."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

from gardenlib.class_folder.days import month_day
from gardenlib.class_folder.model import Contact, Lead, Meeting, MonthDay
from gardenlib.class_folder.sheet import Findings, is_fill_in, read_text
from gardenlib.problems import InputProblem
from gardenlib.words import Said

FILE = "class.toml"
KNOWN = {
    "": [
        *("title", "languages", "units", "invented", "crops", "class_bed", "region", "garden_opens", "garden_closes"),
        *("water_on", "water_off", "workdays", "spray_rule", "class_word", "lime_from_texture", "show_scores"),
        "translation_read_by",
        *("lab", "lead", "sessions", "contacts"),
    ],
    "lab": ["name", "form"],
    "lead": ["line", "authority", "date"],
    "sessions": ["date", "title", "page"],
    "contacts": ["name", "role", "mail", "phone"],
}


@dataclass(frozen=True)
class _Part:
    """One table of the file, and where it stands; `number` is its place among several of its name, else 0."""

    name: str
    values: Mapping[str, Any]
    findings: Findings
    number: int = 0

    def where(self, field: str) -> Said:
        values = {"file": FILE, "field": f"{self.name}.{field}" if self.name else field, "number": self.number}
        return Said("class.setting_of" if self.number else "class.setting", values)

    def refuse(self, field: str, mend: Said) -> None:
        value = str(self.values[field])[:60]
        self.findings.problems.append(InputProblem("class.cell", where=self.where(field), value=value, mend=mend))

    def text(self, field: str, *, needed: bool = False) -> str:
        value = self.values.get(field, "")
        if isinstance(value, date):
            value = value.isoformat()
        if not isinstance(value, str) or len(value) > 500:
            self.refuse(field, Said("class.mend.text"))
            return ""
        if is_fill_in(value):
            self.findings.fill_in(self.where(field), needed=needed)
            return ""
        if needed and not value.strip():
            self.findings.problems.append(InputProblem("class.empty", where=self.where(field)))
        return value.strip()

    def choice(self, field: str, choices: tuple[str, ...]) -> str:
        text = self.text(field, needed=True)
        if text and text not in choices:
            self.refuse(field, Said("class.mend.choice", {"choices": ", ".join(choices)}))
        return text

    def yes(self, field: str) -> bool:
        value = self.values.get(field, False)
        if not isinstance(value, bool):
            self.refuse(field, Said("class.mend.choice", {"choices": "true, false"}))
        return value is True

    def month_day(self, field: str) -> MonthDay | None:
        text = self.text(field)
        return self.findings.attempt(lambda: month_day(text, what=self.where(field))) if text else None

    def day(self, field: str) -> date | None:
        value = self.values.get(field)
        if type(value) is date:
            return value
        if isinstance(value, str) and is_fill_in(value):
            self.findings.fill_in(self.where(field), needed=False)
        else:
            self.findings.problems.append(InputProblem("class.whole_date", where=self.where(field), value=str(value)))
        return None

    def items(self, field: str) -> list[Any]:
        value = self.values.get(field, [])
        if not isinstance(value, list):
            self.refuse(field, Said("class.mend.list"))
            return []
        return value

    def words(self, field: str, *, needed: bool = False) -> tuple[str, ...]:
        items = self.items(field)
        parts = [_Part(self.name, {field: item}, self.findings) for item in items]
        words = tuple(text for part in parts if (text := part.text(field)))
        if needed and not any(items):
            self.findings.problems.append(InputProblem("class.empty", where=self.where(field)))
        return words

    def part(self, field: str) -> _Part:
        value = self.values.get(field, {})
        if not isinstance(value, dict):
            self.refuse(field, Said("class.mend.table", {"field": field}))
            value = {}
        return _part(field, value, self.findings, self.number)

    def parts(self, field: str) -> list[_Part]:
        items = self.items(field)
        numbers = range(1, len(items) + 1) if len(items) > 1 else [0] * len(items)
        return [
            _Part(self.name, {field: item}, self.findings, number).part(field)
            for number, item in zip(numbers, items, strict=True)
        ]


def _part(name: str, values: Mapping[str, Any], findings: Findings, number: int = 0) -> _Part:
    if unknown := [field for field in values if field not in KNOWN[name]]:
        findings.notes.append(Said("class.extra_settings", {"file": FILE, "fields": ", ".join(unknown)}))
    return _Part(name, values, findings, number)


def read_settings(folder: Path, findings: Findings) -> dict[str, Any]:
    """Read ``class.toml`` into the fields of `ClassFolder`."""
    text = read_text(folder / FILE, findings)
    try:
        tree = tomllib.loads(text or "")
    except tomllib.TOMLDecodeError as problem:
        findings.problems.append(InputProblem("class.toml", file=FILE, place=str(problem)))
        text, tree = None, {}
    except (ValueError, RecursionError):  # a number of thousands of digits, brackets within brackets without end
        findings.problems.append(InputProblem("class.toml_odd", file=FILE))
        text, tree = None, {}
    if text is None:
        return {"title": "", "languages": ("en",), "units": "us", "class_bed": ""}
    top = _part("", tree, findings)
    lab, lead = top.part("lab"), top.part("lead")
    lead_line = lead.text("line")
    lead_from = [lead.text(field, needed=bool(lead_line)) for field in ("authority", "date")]
    return {
        "title": top.text("title", needed=True),
        "languages": top.words("languages", needed=True),
        "units": top.choice("units", ("us", "metric")),
        "invented": top.yes("invented"),
        "class_bed": top.text("class_bed"),
        "crop_ids": top.words("crops", needed=True),
        "region": top.text("region") or None,
        **{name: top.month_day(name) for name in ("garden_opens", "garden_closes", "water_on", "water_off")},
        "workdays": tuple(
            day for item in top.items("workdays") if (day := _Part("", {"workdays": item}, findings).day("workdays"))
        ),
        "sessions": tuple(
            Meeting(day, title, page)
            for meeting in top.parts("sessions")
            for day, title, page in [(meeting.day("date"), meeting.text("title"), meeting.text("page"))]
            if day
        ),
        "spray_rule": top.text("spray_rule"),
        "contacts": tuple(
            Contact(who.text("name"), who.text("role"), who.text("mail"), who.text("phone"))
            for who in top.parts("contacts")
        ),
        "class_word": top.text("class_word"),
        "lab_name": lab.text("name"),
        "lab_form": lab.text("form"),
        "lead": Lead(lead_line, *lead_from) if lead_line else None,
        "lime_from_texture": top.yes("lime_from_texture"),
        "show_scores": top.yes("show_scores"),
        "translation_read_by": top.text("translation_read_by"),
    }
