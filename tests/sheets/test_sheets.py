"""Printed pages: one side, inside the paper, the same bytes each time, and nothing in the data is a command."""

import re
import zlib

import numpy as np
import pytest

from gardenlib import InputProblem
from gardenlib.sheets import sheet_pdf, soil_sample_data
from gardenlib.sheets.printing import PAPERS, TEMPLATES, _typeset
from gardenlib.soil import sampling_plan
from gardenlib.words import Voice

LONGEST = "Bodenuntersuchungsanstalt_of_the_three_counties_and_the_long_valley_" + "x" * 60
SIZES = {"us-letter": "0 0 612 792", "a4": "0 0 595.28 841.89"}  # ANSI letter 8.5 by 11 in; ISO 216 A4 210 by 297 mm
STEPS = {"title": "Check the pots", "steps": ["Fill three pots.", "Wait two weeks."]}


def _pages(pdf):
    return len(re.findall(rb"/Type/Page\b(?!s)", pdf))


def _box(pdf):
    numbers = re.search(rb"/MediaBox\[([^\]]*)\]", pdf)[1].decode().split()
    return [float(number) for number in numbers]


def _sample(units="us", **how):
    names = {"lab_name": "Invented soil laboratory of the three counties", "lab_form": "Form I-1, garden soil", **how}
    return soil_sample_data(sampling_plan(24.0, new_ground=True, lead_asked=True), Voice(units=units), **names)


def _full_page():
    rows = [[str(row), "", "", ""] for row in range(1, 7)]
    return {
        **STEPS,
        "intro": "Manure can carry weed-killer.",
        "caution": "Do not use it before the check is done.",
        "picture": _sample()["places"],
        "picture_alt": "Two beds.",
        "table_title": "What we saw",
        "table_head": ["Pot", "Day 7", "Day 14", "Leaves curled?"],
        "table_rows": rows,
        "after": "Ask the extension office.",
    }


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("large", [False, True])
@pytest.mark.parametrize("units", ["us", "metric"])
def test_the_sample_page_is_one_side(paper, large, units):
    """With lead asked for, names of ordinary length and the boxes ticked, the page is one side on both papers."""
    pdf = sheet_pdf("soil_sample", _sample(units), voice=Voice(units=units), paper=paper, large=large, invented=True)
    assert _pages(pdf) == 1
    assert _box(pdf) == pytest.approx([float(number) for number in SIZES[paper].split()], abs=0.01)


@pytest.mark.parametrize("paper", PAPERS)
def test_long_names_keep_the_page_on_one_side(paper):
    """A name of more than a hundred letters without a space still leaves one side in normal print."""
    data = _sample(lab_name=LONGEST, lab_form=LONGEST)
    assert _pages(sheet_pdf("soil_sample", data, paper=paper)) == 1


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("large", [False, True])
def test_the_page_of_steps_is_one_side(paper, large):
    """Steps, caution, picture and a table of six rows stand on one side."""
    assert _pages(sheet_pdf("steps_and_table", _full_page(), paper=paper, large=large)) == 1


def test_a_longer_page_goes_on_to_the_next():
    """What does not fit is not cut: sixty rows take more than one side (the count above can tell the difference)."""
    rows = [[str(row), "", "", ""] for row in range(60)]
    assert _pages(sheet_pdf("steps_and_table", {**_full_page(), "table_rows": rows})) > 1


@pytest.mark.parametrize("large", [False, True])
@pytest.mark.parametrize(
    ("template", "data"),
    [
        ("soil_sample", _sample(lab_name=LONGEST, lab_form=LONGEST)),
        ("steps_and_table", {**_full_page(), "title": LONGEST, "steps": [LONGEST], "table_head": [LONGEST] * 4}),
    ],
)
def test_nothing_runs_out_of_the_page(template, data, large):
    """The outer centimetre of the paper stays white with the longest names."""
    made = _typeset(template, data, Voice(), "a4", large=large, invented=True, format="png", ppi=25.4)
    for page in made if isinstance(made, list) else [made]:
        ink = _pixels(page)[..., :3].min(axis=2) < 200
        assert ink.any()
        edge = 10  # pixels in a centimetre at 25.4 an inch
        inside = ink[edge:-edge, edge:-edge]
        assert ink.sum() == inside.sum()


def test_the_same_input_gives_the_same_bytes():
    """A page has no date of its own."""
    first, second = (sheet_pdf("soil_sample", _sample()) for _ in range(2))
    assert first == second
    assert b"CreationDate" not in first
    assert b"CreateDate" not in first


def test_paper_goes_by_the_units():
    """A class that reads US units gets letter, one that reads metric units A4."""
    widths = [_box(sheet_pdf("steps_and_table", STEPS, voice=Voice(units=units)))[2] for units in ("us", "metric")]
    assert widths == pytest.approx([612, 595.28], abs=0.01)


def test_the_page_says_its_title_and_language():
    """The file is tagged, and names its title and language (PDF/UA-1)."""
    pdf = sheet_pdf("steps_and_table", STEPS)
    assert b"/Title(Check the pots)" in pdf
    assert b"/Lang(en)" in pdf
    assert b"/Marked true" in pdf
    assert b"pdfuaid:part>1<" in pdf


@pytest.mark.parametrize("typed", ["#pagebreak()", '#panic("x")', "*b* _i_ $x$ @ref <a> `raw`", "]; #image", "\\", '"'])
def test_data_is_never_a_command(typed):
    """What somebody typed is printed as it is: no second page, no error, the title letter by letter."""
    data = {**_full_page(), "title": typed, "steps": [typed], "caution": typed, "after": typed}
    assert _pages(sheet_pdf("steps_and_table", data)) == 1
    names = _sample(lab_name=typed, lab_form=typed)
    assert _pages(sheet_pdf("soil_sample", names)) == 1


@pytest.mark.parametrize(("template", "paper"), [("../base", "a4"), ("nothing", "a4"), ("soil_sample", "a3")])
def test_an_unknown_page_or_paper_is_one_sentence(template, paper):
    """The sentence lists what there is."""
    with pytest.raises(InputProblem, match="Choose one of these"):
        sheet_pdf(template, STEPS, paper=paper)


def test_every_template_is_named():
    """Each file of the folder but the shared one is a page that can be asked for."""
    from importlib.resources import files

    names = {file.name.removesuffix(".typ") for file in (files("gardenlib.sheets") / "templates").iterdir()}
    assert names == {*TEMPLATES, "base"}


def test_lead_is_asked_only_when_the_history_does():
    """The box for lead and its caution come together, or not at all."""
    plain = soil_sample_data(sampling_plan(24.0), Voice())
    assert "total lead" in _sample()["boxes"]
    assert _sample()["caution"].startswith("Lead")
    assert "total lead" not in plain["boxes"]
    assert "Lead" not in plain["caution"]


def _pixels(png):
    """Read an 8-bit PNG without interlacing, by the filters of its specification (ISO/IEC 15948, section 9)."""
    width, height = (int.from_bytes(png[at : at + 4]) for at in (16, 20))
    parts, at = b"", 8
    while at < len(png):
        length = int.from_bytes(png[at : at + 4])
        if png[at + 4 : at + 8] == b"IDAT":
            parts += png[at + 8 : at + 8 + length]
        at += length + 12
    depth = {2: 3, 6: 4}[png[25]]
    raw = np.frombuffer(zlib.decompress(parts), np.uint8).reshape(height, 1 + width * depth)
    lines = np.zeros((height + 1, width + 1, depth), np.int64)
    for y, (kind, row) in enumerate(zip(raw[:, 0], raw[:, 1:].reshape(height, width, depth), strict=True), start=1):
        for x in range(1, width + 1):
            left, up, corner = lines[y, x - 1], lines[y - 1, x], lines[y - 1, x - 1]
            lines[y, x] = (row[x - 1] + _guessed(kind, left, up, corner)) % 256
    return lines[1:, 1:]


def _guessed(kind, left, up, corner):
    if kind == 4:
        guess = left + up - corner
        far = [abs(guess - left), abs(guess - up), abs(guess - corner)]
        return np.where((far[0] <= far[1]) & (far[0] <= far[2]), left, np.where(far[1] <= far[2], up, corner))
    return [0, left, up, (left + up) // 2][kind]
