"""The look: contrast, typeface, style sheet."""

import re

import pytest

from gardenlib.charts import page_css, theme

# M. Okabe and K. Ito, "Color Universal Design" (2008), the palette in RGB.
OKABE_ITO = {"blue": (0, 114, 178), "bluish green": (0, 158, 115), "vermillion": (213, 94, 0)}


def rgb(hue):
    """Split a hue into its three parts."""
    return tuple(int(hue[i : i + 2], 16) for i in (1, 3, 5))


def luminance(hue):
    """Reckon relative luminance as WCAG 2.2 (W3C, 2023) defines it."""
    parts = [c / 255 for c in rgb(hue)]
    r, g, b = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * r + 0.7152 * g + 0.0722 * b


def contrast(one, other):
    """Reckon the contrast ratio as WCAG 2.2 defines it."""
    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


def test_formula_gives_the_published_ends():
    """Black on white is 21 to 1 and a hue on itself 1 to 1 (WCAG 2.2, note under contrast ratio)."""
    assert contrast("#000000", "#FFFFFF") == pytest.approx(21)
    assert contrast("#0072B2", "#0072B2") == pytest.approx(1)


@pytest.mark.parametrize("name", ["COLD", "GROWING", "HEAT", "INK"])
def test_marks_stand_out_from_the_paper(name):
    """Every hue has 3 to 1 against the paper (WCAG 2.2, success criterion 1.4.11)."""
    assert contrast(getattr(theme, name), theme.PAPER) >= 3


@pytest.mark.parametrize("tint_of", [theme.PAPER, theme.COLD, theme.GROWING, theme.HEAT])
def test_words_can_be_read_on_paper_and_on_a_tint(tint_of):
    """Ink has 4.5 to 1 (WCAG 2.2, success criterion 1.4.3) on paper and on each hue's tint of 22 in 100."""
    tint = "#" + "".join(f"{round(255 + (c - 255) * 0.22):02X}" for c in rgb(tint_of))
    assert contrast(theme.INK, tint) >= 4.5


def test_words_of_a_disabled_button_can_be_read():
    """Every colour of words in the style sheet has 4.5 to 1 on paper (WCAG 2.2, success criterion 1.4.3)."""
    hues = set(re.findall(r"[{; ]color: (#[0-9A-Fa-f]{6})", page_css()))
    assert theme.INK in hues
    assert [hue for hue in hues - {theme.PAPER} if contrast(hue, theme.PAPER) < 4.5] == []


def test_hues_are_told_apart_by_people_who_see_fewer():
    """The three hues are those published for people with colour vision deficiency."""
    assert rgb(theme.COLD) == OKABE_ITO["blue"]
    assert rgb(theme.GROWING) == OKABE_ITO["bluish green"]
    assert rgb(theme.HEAT) == OKABE_ITO["vermillion"]


def test_typeface_is_small_and_its_licence_lies_beside_it():
    """The shipped faces stay under 150 kB and carry their licence, which reserves no font name."""
    files = [theme.FONT_FOLDER / name for name in theme.FONT_FILES.values()]
    assert sum(file.stat().st_size for file in files) < 150_000
    licence = (theme.FONT_FOLDER / "OFL.txt").read_text("utf-8")
    assert "SIL OPEN FONT LICENSE Version 1.1" in licence
    assert "Reserved Font Name" not in licence.split("PREAMBLE")[0]


def test_style_sheet_asks_the_network_for_nothing():
    """The style sheet holds its typeface and no address, and every name in it is filled in."""
    css = page_css()
    assert css.count("url(data:font/ttf;base64,") == css.count("url(") == 2
    assert "http" not in re.sub(r"base64,[^)]*", "", css)
    assert "$" not in css
