"""Our drawings of pests and helpers: whole, without words, and in the theme's hues; and how they stand together."""

import re
from pathlib import Path
from xml.etree import ElementTree

import pytest

from gardenlib import charts
from gardenlib.charts import hand_drawn, theme
from gardenlib.charts.tiles import IN_A_ROW, TILE_PX, tiles

FOLDER = Path(hand_drawn.__file__).parent / "sketches"
NAMES = sorted(path.stem for path in FOLDER.glob("pest_*.svg"))
HUES = {theme.INK, theme.PAPER, theme.FAINT, theme.GROWING, theme.COLD, theme.HEAT, "none"}


def test_there_are_drawings():
    """The key's animals, eggs and damage are drawn."""
    assert len(NAMES) >= 20


@pytest.mark.parametrize("name", NAMES)
def test_a_sketch_is_whole_and_says_nothing(name):
    """The file is well-formed SVG of the size of a tile, and holds no letters."""
    root = ElementTree.fromstring(charts.sketch(name))  # noqa: S314  (our own file)
    assert root.get("viewBox") == f"0 0 {TILE_PX[0]} {TILE_PX[1]}"
    assert not [part for part in root.iter() if part.tag.endswith(("text", "title", "image", "use", "style"))]
    assert "".join(root.itertext()).strip() == ""


@pytest.mark.parametrize("name", NAMES)
def test_a_sketch_has_no_hue_of_its_own(name):
    """Every stroke and fill is a slot of the theme: the file names no color itself."""
    source = (FOLDER / f"{name}.svg").read_text("utf-8")
    named = re.findall(r'(?:fill|stroke)="([^"{][^"]*)"', source)
    assert set(named) <= {"none"}
    drawn = re.findall(r'(?:fill|stroke|color)="([^"]+)"', charts.sketch(name))
    assert set(drawn) <= HUES


@pytest.mark.parametrize("name", NAMES)
def test_a_sketch_stays_on_its_tile(name):
    """No path starts right of the tile or below it."""
    for part in ElementTree.fromstring(charts.sketch(name)).iter():  # noqa: S314  (our own file)
        start = re.match(r"M(-?[\d.]+) (-?[\d.]+)", part.get("d", ""))
        if start and float(start[1]) > 0 and float(start[2]) > 0:
            assert float(start[1]) <= TILE_PX[0]
            assert float(start[2]) <= TILE_PX[1]


@pytest.mark.parametrize("n", [1, 2, 3, 4])
def test_tiles_keep_their_words_inside(n):
    """Words are escaped, broken to the tile's width, and the drawing is high enough for the last of them."""
    words = "a rather long label < with many words for a small tile to carry below it"
    picture = tiles([(NAMES[place], words) for place in range(n)])
    root = ElementTree.fromstring(picture)  # noqa: S314  (our own drawing)
    *_, wide, high = map(float, root.get("viewBox").split())
    texts = [part for part in root.iter() if part.tag.endswith("text")]
    assert wide == theme.CHART_PX
    assert max(float(part.get("y")) for part in texts) <= high
    room = wide / min(n, IN_A_ROW)
    assert all(theme.text_px(part.text) <= room for part in texts)
    assert " ".join(part.text for part in texts) == " ".join([words] * n) if n == 1 else len(texts) >= n
