"""The sheet to print and the screen of letters: what a camera reads there is the address, letter by letter.

The squares are read by ZXing-C++, a reader of QR codes (ISO/IEC 18004) that shares no code with their writer.
"""

import re
import subprocess

import numpy as np
import pytest
import zxingcpp

from gardenlib import class_folder
from gardenlib.carried import carried
from gardenlib.serving.codes import Place
from gardenlib.serving.sheet import join_sheet, terminal_qr
from gardenlib.words import Voice, texts

ADDRESSES = ("http://192.168.8.12:8700/", "http://127.0.0.1:60917/")
PLACES = (Place("plot_01", "01234567", "L01", "Juniper"), Place("plot_02", "76543210"))
HALVES = {" ": (0, 0), "▀": (1, 0), "▄": (0, 1), "█": (1, 1)}  # a letter's upper and lower half: lit or not
LIGHT, DOT_PX = 255, 6


@pytest.fixture(scope="module")
def sheet(tmp_path_factory):
    """Give the sheet of the demo class in two languages, as a file."""
    path = tmp_path_factory.mktemp("sheet") / "join_sheet.pdf"
    voices = [Voice(language="es"), Voice(language="en")]
    path.write_bytes(join_sheet(class_folder.read(carried("data_demo")), voices, ADDRESSES[0], PLACES))
    return path


def picture(pdf, dpi):
    """Draw the first page in grey."""
    made = subprocess.run(
        ["pdftoppm", "-r", str(dpi), "-f", "1", "-l", "1", "-gray", pdf], check=True, capture_output=True
    )
    _, size, _, dots = made.stdout.split(b"\n", 3)
    wide, high = map(int, size.split())
    return np.frombuffer(dots, np.uint8, wide * high).reshape(high, wide)


def words(pdf, page):
    """Read the words of a page."""
    command = ["pdftotext", "-layout", "-f", str(page), "-l", str(page), pdf, "-"]
    printed = subprocess.run(command, check=True, capture_output=True).stdout.decode()
    return " ".join(re.sub(r"\u200b|\u00ad\n\s*", "", printed).split())  # as before it was broken into lines


def read(dots):
    """Read the one square on a picture."""
    (found,) = zxingcpp.read_barcodes(dots)
    assert found.format == zxingcpp.BarcodeFormat.QRCode
    return found.text


@pytest.mark.parametrize("dpi", [60, 150])
def test_square_on_the_sheet_holds_the_address_printed_below_it(sheet, dpi):
    """Printed fine, or as coarse as 60 dots an inch, the square gives the address that stands in words."""
    assert read(picture(sheet, dpi)) == ADDRESSES[0]
    assert ADDRESSES[0] in words(sheet, 1).split()


@pytest.mark.parametrize("address", ADDRESSES)
@pytest.mark.parametrize("dark", [True, False], ids=["dark screen", "light screen"])
def test_square_of_letters_holds_the_address(address, dark):
    """Where the laptop prints its address, a phone reads the same from the half blocks, on dark and light screens."""
    lines = terminal_qr(address).rstrip("\n").split("\n")
    lit = np.array([[HALVES[letter][half] for letter in line] for line in lines for half in (0, 1)], bool)
    dots = np.where(lit == dark, LIGHT, 0).astype(np.uint8).repeat(DOT_PX, 0).repeat(DOT_PX, 1)
    assert read(dots) == address


def test_sheet_says_all_in_each_language_of_the_class(sheet):
    """Address, word and three steps stand there in Spanish and in English; the slips carry code and name."""
    printed = words(sheet, 1)
    for language in ("es", "en"):
        spoken = texts(language)
        for key in ("title", "address", "word", "step_open", "step_word", "step_code"):
            assert spoken[f"serving.sheet.{key}"] in printed
    assert "brook-2027" in printed
    slips = words(sheet, 2)
    assert "01 23 45 67" in slips
    assert "Juniper" in slips
    assert "76 54 32 10" in slips
