"""What holds for any bed in lines."""

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from gardenlib import beds

NAMES = ["tomato", "cabbage_main", "carrot", "pea", "lettuce_leaf", "beet"]
UNITS = {"in": 0.0254, "cm": 0.01}


@st.composite
def asked(draw):
    """Make a bed and what is wanted in it."""
    names = draw(st.lists(st.sampled_from(NAMES), min_size=1, max_size=5, unique=True))
    plantings = [(name, draw(st.integers(1, 40)), None, draw(st.booleans()), draw(st.booleans())) for name in names]
    return {
        "length_m": draw(st.floats(0.2, 6)),
        "width_m": draw(st.floats(0.1, 2.6)),
        "reach_m": draw(st.floats(0.1, 1)),
        "reach_from": draw(st.sampled_from(["both", "one"])),
        "plantings": plantings,
        "latitude": draw(st.sampled_from([-38.0, 0.0, 44.0])),
        "bearing_deg": draw(st.integers(0, 359)),
        "spacing_m": {name: draw(st.floats(0.04, 0.6)) for name in names},
        "unit": draw(st.sampled_from(["in", "cm"])),
        "seed": draw(st.integers(0, 5)),
    }


@settings(max_examples=60, deadline=None)
@given(asked(), st.booleans())
def test_nobody_crowded_nobody_lost(how, keep):
    """No two plants closer than the mean of their spacings, all inside, counts kept, lines whole, tall ones behind."""
    names = [planting[0] for planting in how["plantings"]]
    spacing = how["spacing_m"]
    short_side = min(how["length_m"], how["width_m"])
    room = short_side / 2 - spacing[names[0]] / 2 > 0.06
    how["kept"] = [(names[0], short_side / 2)] if keep and room else []
    found = beds.lines(**how)
    one, places = UNITS[how["unit"]], found.places
    x, y = places.x_m.to_numpy(float), places.y_m.to_numpy(float)
    own = places.crop.map(spacing).to_numpy(float)
    apart = np.hypot(x[:, None] - x, y[:, None] - y) + 1e9 * np.eye(len(x))
    assert (apart >= (own[:, None] + own) / 2 - 1e-6).all()
    assert (np.minimum(x, found.length_m - x) >= own / 2 - 1e-6).all()
    assert (np.minimum(y, found.width_m - y) >= own / 2 - 1e-6).all()
    left = {item.crop: item.left for item in found.left_over}
    for crop, count, *_ in how["plantings"]:
        assert found.counts.get(crop, 0) + left.get(crop, 0) == count
    for line in found.lines:
        whole = line.from_edge_m / one
        assert abs(whole - round(whole)) < 1e-6
    assert [line.from_edge_m for line in found.lines if line.kept] == (
        [round(how["kept"][0][1] / one) * one] if any(line.kept for line in found.lines) else []
    )
    assert found.lines == tuple(sorted(found.lines, key=lambda line: line.from_edge_m))
    tall = {planting[0] for planting in how["plantings"] if planting[3]}
    if not how["kept"] and any(said.key.startswith("lines.tall_side") for said in found.assumptions):
        sun = np.cos(np.radians(how["bearing_deg"] + 90 - (180 if how["latitude"] > 0 else 0)))
        side = y * np.sign(sun)
        stands = places.crop.isin(tall).to_numpy()
        if stands.any() and not stands.all():
            assert side[stands].max() <= side[~stands].min() + 1e-9
            assert found.shading == 0
