"""The words files against the code: nothing missing, unused, unsupplied or stale."""

from pathlib import Path

import pytest
import words_scan
from babel import Locale

from gardenlib.words import Voice, languages, texts

ROOT = Path(__file__).resolve().parents[2]
FOUND = words_scan.scan(words_scan.sources(ROOT))
ENGLISH = texts("en")


def test_no_sentence_is_missing():
    """Every sentence that the code asks for stands in the English file."""
    assert words_scan.missing(FOUND, ENGLISH) == []


def test_no_sentence_is_unused():
    """Every sentence in the English file is asked for somewhere."""
    assert words_scan.unused(FOUND, ENGLISH) == []


def test_every_named_value_is_supplied():
    """A line that asks for a sentence gives every value that the sentence names."""
    assert words_scan.unsupplied(FOUND, ENGLISH) == []


def test_counting_sentences_have_both_forms():
    """A counting sentence in English has the forms one and other (Unicode CLDR plural rules for English)."""
    assert words_scan.plural_faults(ENGLISH, ("one", "other")) == []


WORDS = ROOT / "gardenlib" / "words"
TRANSLATED = [(path.parent.name, path.name) for path in sorted(WORDS.glob("*/*.toml")) if path.parent.name != "en"]


@pytest.mark.parametrize(("language", "name"), TRANSLATED)
def test_a_translated_file_is_whole_and_fresh(language, name):
    """It has the same sentences, values and its own plural forms, made from today's English."""
    english, other = (words_scan.read_words(WORDS / folder / name) for folder in ("en", language))
    forms = {*Locale.parse(language).plural_form.tags, "other"}
    assert words_scan.language_faults(english, other, forms) == []


def test_a_part_that_is_not_translated_is_spoken_in_english():
    """A sentence whose file a language lacks is the English one, never nothing."""
    assert {language for language, _ in TRANSLATED} == set(languages()) - {"en"}
    voice = Voice(language="es", local={})
    lacking = [key for key in ENGLISH if key not in texts("es") and words_scan.base(key) == key]
    assert all(voice.has(key) for key in lacking)


# ---- the scan itself, on made-up code and files ------------------------------------------------


def _scan(code):
    return words_scan.scan([("made_up.py", code)])


def test_scan_sees_a_missing_sentence():
    """A key in any of the four calls is missed when the file lacks it, with its prefix."""
    code = 'say("a.b"); Said("a.c", {}); raise_(InputProblem("d", x=1)); Step("e.f", "x", {}, 1, "s")'
    lost = words_scan.missing(_scan(code), {"other.key": ""})
    assert [line.split(": ")[1] for line in lost] == ["a.b", "a.c", "problem.d", "step.e.f"]


def test_scan_reads_both_branches_and_patterns():
    """A choice of two keys counts as both, and an f-string with a room in front as all keys of that shape."""
    found = _scan('say("a.x" if late else "a.y"); say(f"crop.{crop_id}"); Step(f"freeze.{half}", "", {}, 1, "s")')
    keys = {"a.x": "", "a.y": "", "crop.bean": "", "step.freeze.fall": "", "step.zone.mean": "", "crop": ""}
    assert words_scan.unused(found, keys) == ["crop", "step.zone.mean"]
    assert words_scan.missing(found, {"a.x": "", "a.y": "", "crop.bean": "", "step.zone.mean": ""}) == [
        r"made_up.py:1: nothing like step\.freeze\.[A-Za-z0-9_.\-]+"
    ]


def test_scan_knows_plural_forms():
    """Asking for a counting sentence uses its forms one and other."""
    assert words_scan.unused(_scan('say("a.springs", n=3)'), {"a.springs.one": "", "a.springs.other": ""}) == []


def test_scan_sees_a_value_that_is_not_supplied():
    """A sentence that names a value which the line does not give is found."""
    texts_ = {"a.b": "{n} of {springs}", "problem.c": "{file}: look again"}
    found = _scan('say("a.b", n=1); Said("a.b", {"n": 1, "springs": 2}); InputProblem("c", **known)')
    assert words_scan.unsupplied(found, texts_) == ["made_up.py:1: a.b needs springs"]


def test_a_made_up_language_is_held_to_the_english(tmp_path):
    """Missing, unknown, stale, differently filled and half-counted sentences of a language are all found."""
    import tomllib

    english = {
        "a.one": "{n} day",
        "a.other": "{n} days",
        "b": "Sow in {month}.",
        "c": "Set out.",
        "d": "Look again.",
        "e": "Wait.",
    }
    mark = words_scan.fingerprint
    path = tmp_path / "xx.toml"
    path.write_text(
        f"""
        b = "Semer."
        c = "Planter."
        e = "Attendre."
        f = "Quoi ?"
        [a]
        one = "{{n}} jour"
        [_made_from]
        a = "{mark("{n} day" + chr(10) + "{n} days")}"
        b = "{mark("Sow in {month}.")}"
        c = "{mark("Set out the plants.")}"
        e = "{mark("Wait.")}"
        """
    )
    tree = tomllib.loads(path.read_text())
    flat = {
        f"{key}.{name}" if isinstance(value, dict) else key: (value[name] if isinstance(value, dict) else value)
        for key, value in tree.items()
        for name in (value if isinstance(value, dict) else [key])
    }
    assert words_scan.language_faults(english, flat, {"one", "other"}) == [
        "forms: a has one",
        "missing: d",
        "not in English: f",
        "other values: b",
        f"stale: c, the English now has the mark {mark('Set out.')}",
    ]


def test_nothing_is_minus_zero():
    """A number that rounds to nothing has no sign (common practice, no source)."""
    said = [Voice().number(value, places) for value, places in ((-0.4, 0), (-0.04, 1), (-0.0, 1), (-0.06, 1))]
    assert said == ["0", "0", "0", "-0.1"]
