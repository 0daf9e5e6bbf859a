"""Homework: questions from the class's or the learner's own plot, their keys, and how they are marked."""

from typing import TYPE_CHECKING

from gardenlib.lazy import attach, homes_in

if TYPE_CHECKING:
    from gardenlib.homework.answers_typed import answers_from_csv
    from gardenlib.homework.blank import Blank, BlankSlip
    from gardenlib.homework.ground import Ground, ground_for
    from gardenlib.homework.handed_in import HandedIn, answers_from_plots, plot_key
    from gardenlib.homework.marking import Mark, MarkedSheet, check_key, class_view, mark, marked_sheet
    from gardenlib.homework.question import Line, Question, set_question
    from gardenlib.homework.reading import Typed, read_typed
    from gardenlib.homework.record import PackRecord, QuestionRecord, SheetRecord, sheet_record
    from gardenlib.homework.registry import question_ids, skills
    from gardenlib.homework.skill import Skill, Slip, Task
    from gardenlib.homework.tally import tally_from_csv, write_templates

__all__ = [
    "Blank",
    "BlankSlip",
    "Ground",
    "HandedIn",
    "Line",
    "Mark",
    "MarkedSheet",
    "PackRecord",
    "Question",
    "QuestionRecord",
    "SheetRecord",
    "Skill",
    "Slip",
    "Task",
    "Typed",
    "answers_from_csv",
    "answers_from_plots",
    "check_key",
    "class_view",
    "ground_for",
    "mark",
    "marked_sheet",
    "plot_key",
    "question_ids",
    "read_typed",
    "set_question",
    "sheet_record",
    "skills",
    "tally_from_csv",
    "write_templates",
]

__getattr__, __dir__ = attach(__name__, homes_in(__file__))
