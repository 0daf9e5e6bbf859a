"""The class folder: what an instructor writes with a spreadsheet and a text editor."""

from __future__ import annotations

from gardenlib.class_folder.days import month_day
from gardenlib.class_folder.model import (
    ClassFolder,
    Contact,
    Lead,
    Learner,
    Meeting,
    MonthRow,
    PlotRow,
    SiteRow,
)
from gardenlib.class_folder.new import new_class
from gardenlib.class_folder.reader import beside, read, survey

__all__ = [
    "ClassFolder",
    "Contact",
    "Lead",
    "Learner",
    "Meeting",
    "MonthRow",
    "PlotRow",
    "SiteRow",
    "beside",
    "month_day",
    "new_class",
    "read",
    "survey",
]
