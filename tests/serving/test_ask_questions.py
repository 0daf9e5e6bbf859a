"""The questions that the instructor's view lists."""

import re
from collections import Counter
from datetime import date
from pathlib import Path

from gardenlib import panels
from gardenlib.carried import carried
from gardenlib.serving.ask_questions import questions, specs
from gardenlib.serving.pages import pages_for_learners
from gardenlib.words import texts


def test_every_guess_of_the_pages_is_listed_once():
    """As many guesses are listed, each on one page, as the panels make."""
    made = sum(
        len(re.findall(r"=\s*Guess\(", file.read_text("utf-8"))) for file in Path(*panels.__path__).rglob("*.py")
    )
    listed = Counter(spec.guess.id for page in pages_for_learners() for spec in specs(page.name))
    assert made > 30
    assert set(listed.values()) == {1}
    assert len(listed) == made


def test_questions_come_in_the_page_s_order_with_what_is_so():
    """On the page on beds counting comes before lines, and two lines 18 and 2 in wide stand 10 in apart: the middle."""
    asked = questions("03_beds", carried("data_demo"), "en", date(2027, 3, 6))
    marks = [question.mark for question in asked]
    assert marks.index("03-count-guess") < marks.index("03-lines-guess") < marks.index("03-water-guess")
    lines = asked[marks.index("03-lines-guess")]
    assert lines.truth.startswith("10 in")
    assert [value for value, _ in lines.options] == ["more", "mean", "less"]


def test_caution_goes_before_a_number_that_can_hurt():
    """The question on lime carries the caution of its panel."""
    asked = questions("02_soil", carried("data_demo"), "en", date(2027, 3, 6))
    lime = next(question for question in asked if question.mark == "02-lime-guess")
    assert lime.caution
    assert lime.caution in texts("en").values()
