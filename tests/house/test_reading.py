"""How hard the words are to read: Flesch-Kincaid grade, by textstat.

The grade is that of Kincaid, Fishburne, Rogers and Chissom (1975), "Derivation of new readability
formulas", Naval Technical Training Command Research Branch Report 8-75.  The limits (6.5 for learners,
9 for instructors, 15 words a sentence, 700 words a page) are this project's own.
"""

from pathlib import Path

import prose
import pytest
import textstat

from gardenlib.words import texts

ROOT = Path(__file__).resolve().parents[2]
PAGES = sorted((ROOT / "notebooks").rglob("*.ipynb"))
INSTRUCTOR = {"problem", "cli", "check", "station"}  # files and commands: read by who prepares a class
LEARNER_GRADE, INSTRUCTOR_GRADE = 6.5, 9.0
LONGEST_SENTENCE = 30
ROOMS = prose.sentences_of(texts("en"))


def _grade(sentences):
    return textstat.flesch_kincaid_grade(" ".join(sentences))


def test_the_measure_is_the_published_one():
    """Short plain words score low and long ones high (formula: 0.39 words/sentence + 11.8 syllables/word - 15.59)."""
    assert _grade(["The cat sat on the mat."]) == pytest.approx(0.39 * 6 + 11.8 * 1 - 15.59, abs=0.1)
    assert _grade(["Horticultural organisations necessitate institutional considerations."]) > 20


@pytest.mark.parametrize("room", sorted(ROOMS))
def test_words_are_easy(room):
    """The sentences of each part of the words file read at grade 6.5 or below, 9 for files and commands."""
    limit = INSTRUCTOR_GRADE if room in INSTRUCTOR else LEARNER_GRADE
    assert _grade(ROOMS[room]) <= limit, sorted(ROOMS[room], key=lambda s: -_grade([s]))[:5]


def test_no_sentence_is_long():
    """No sentence of the words file has more than 30 words."""
    parts = [part for room in ROOMS.values() for text in room for part in prose.SENTENCE_END.split(text)]
    assert [part for part in parts if len(part.split()) > LONGEST_SENTENCE] == []


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.stem)
def test_page_prose_is_easy(page):
    """A page's prose reads at grade 6.5 or below, with 15 words a sentence or fewer on average."""
    sentences = prose.page_sentences(page)
    assert _grade(sentences) <= LEARNER_GRADE, sorted(sentences, key=lambda s: -_grade([s]))[:5]
    assert sum(len(s.split()) for s in sentences) / len(sentences) <= 15


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.stem)
def test_core_path_is_short(page):
    """The core path of a page has at most 700 words."""
    assert 50 <= prose.core_words(page) <= 700


def test_pages_are_there():
    """The three pages of the course's spine exist, and the instructor's two."""
    assert {page.stem[:2] for page in PAGES} >= {"00", "01", "04"}
    assert {page.stem for page in PAGES} >= {"prepare_a_class", "review_homework"}
