"""Texture classes, jar and settling against the Soil Survey Manual, published mixes and tables of water.

The rules are typed afresh here from the Soil Survey Manual (Soil Science Division Staff 2017, USDA Handbook 18,
chapter 3, pages 122 to 124), in whole numbers; the program decides in another order and with floats.
"""

import ast

import numpy as np
import pytest

from gardenlib import soil, tables
from gardenlib.soil.water_ways import density_kg_m3, viscosity_pa_s

# Soil Survey Manual 2017, chapter 3; twice the sums, so that all stays whole.
RULES = {
    "sand": lambda a, s, c: 2 * s + 3 * c < 30,
    "loamy sand": lambda a, s, c: 2 * s + 3 * c >= 30 and s + 2 * c < 30,
    "sandy loam": lambda a, s, c: (
        (7 <= c < 20 and a > 52 and s + 2 * c >= 30) or (c < 7 and s < 50 and s + 2 * c >= 30)
    ),
    "loam": lambda a, s, c: 7 <= c < 27 and 28 <= s < 50 and a <= 52,
    "silt loam": lambda a, s, c: (s >= 50 and 12 <= c < 27) or (50 <= s < 80 and c < 12),
    "silt": lambda a, s, c: s >= 80 and c < 12,
    "sandy clay loam": lambda a, s, c: 20 <= c < 35 and s < 28 and a > 45,
    "clay loam": lambda a, s, c: 27 <= c < 40 and 20 < a <= 45,
    "silty clay loam": lambda a, s, c: 27 <= c < 40 and a <= 20,
    "sandy clay": lambda a, s, c: c >= 35 and a > 45,
    "silty clay": lambda a, s, c: c >= 40 and s >= 40,
    "clay": lambda a, s, c: c >= 40 and a <= 45 and s < 40,
}
WHOLE = [(a, s, 100 - a - s) for a in range(101) for s in range(101 - a)]


def test_all_5151_whole_mixes():
    """Each of the 5,151 whole mixes has exactly one class by the manual's rules, and the program names it."""
    assert len(WHOLE) == 5151
    by_rule = [[name for name, holds in RULES.items() if holds(*mix)] for mix in WHOLE]
    assert {len(names) for names in by_rule} == {1}
    found = soil.texture_classes(*np.array(WHOLE).T)
    assert [(mix, name) for mix, name, (right,) in zip(WHOLE, found, by_rule, strict=True) if name != right] == []


@pytest.mark.parametrize(
    ("mix", "expected"),
    # 20 mixes inside a class and 32 on a line, worked out by the reference table's author from the same pages of the
    # manual; the ties agree with the particle size estimator of the National Soil Information System.
    [
        ((92, 5, 3), "sand"),
        ((82, 12, 6), "loamy sand"),
        ((65, 25, 10), "sandy loam"),
        ((58, 36, 6), "sandy loam"),
        ((40, 40, 20), "loam"),
        ((45, 35, 20), "loam"),
        ((20, 65, 15), "silt loam"),
        ((30, 60, 10), "silt loam"),
        ((7, 88, 5), "silt"),
        ((60, 13, 27), "sandy clay loam"),
        ((32, 34, 34), "clay loam"),
        ((10, 57, 33), "silty clay loam"),
        ((52, 6, 42), "sandy clay"),
        ((7, 47, 46), "silty clay"),
        ((20, 20, 60), "clay"),
        ((30, 25, 45), "clay"),
        ((55, 15, 30), "sandy clay loam"),
        ((75, 10, 15), "sandy loam"),
        ((10, 80, 10), "silt"),
        ((48, 44, 8), "loam"),
        ((90, 10, 0), "sand"),
        ((85, 15, 0), "loamy sand"),
        ((85, 10, 5), "loamy sand"),
        ((90, 0, 10), "loamy sand"),
        ((70, 30, 0), "sandy loam"),
        ((80, 10, 10), "sandy loam"),
        ((52, 41, 7), "loam"),
        ((53, 40, 7), "sandy loam"),
        ((52, 28, 20), "loam"),
        ((60, 20, 20), "sandy clay loam"),
        ((50, 50, 0), "silt loam"),
        ((43, 50, 7), "silt loam"),
        ((30, 50, 20), "silt loam"),
        ((20, 80, 0), "silt"),
        ((8, 80, 12), "silt loam"),
        ((23, 50, 27), "clay loam"),
        ((45, 28, 27), "clay loam"),
        ((46, 28, 26), "loam"),
        ((45, 20, 35), "clay loam"),
        ((46, 19, 35), "sandy clay"),
        ((45, 15, 40), "clay"),
        ((45, 0, 55), "clay"),
        ((20, 53, 27), "silty clay loam"),
        ((21, 52, 27), "clay loam"),
        ((20, 45, 35), "silty clay loam"),
        ((20, 40, 40), "silty clay"),
        ((21, 39, 40), "clay"),
        ((0, 60, 40), "silty clay"),
        ((100, 0, 0), "sand"),
        ((0, 100, 0), "silt"),
        ((0, 0, 100), "clay"),
        ((30, 40, 30), "clay loam"),
    ],
)
def test_points_inside_and_on_lines(mix, expected):
    """Mixes inside the classes and on every line between them."""
    assert soil.texture_class(*mix) == expected


@pytest.mark.parametrize(
    ("mix", "expected"),
    [
        ((30, 40, 30), "clay loam"),  # oneplan.org, Soil Triangle, its example
        ((20, 25, 55), "clay"),  # aqp (R package), example of ssc_to_texcl
        ((82, 12, 6), "loamy sand"),  # the same
        ((93, 4, 3), "sand"),  # the same
        ((90, 5, 5), "sand"),  # soiltexture (R package) 1.5.1, example data
        ((32, 8, 60), "clay"),  # the same
        ((70, 15, 15), "sandy loam"),  # the same
        ((20, 55, 25), "silt loam"),  # the same
        ((10, 15, 75), "clay"),  # the same
        ((10, 43, 47), "silty clay"),  # the same
    ],
)
def test_published_mixes(mix, expected):
    """Mixes with the class that others print for them."""
    assert soil.texture_class(*mix) == expected


def _holds(rule, mix):
    """Work out a rule as it stands in the table, by walking its parts."""

    def number(node):
        if isinstance(node, ast.BinOp):
            left, right = number(node.left), number(node.right)
            return left + right if isinstance(node.op, ast.Add) else left * right
        return mix[node.id] if isinstance(node, ast.Name) else node.value

    def truth(node):
        if isinstance(node, ast.BoolOp):
            parts = [truth(part) for part in node.values]
            return all(parts) if isinstance(node.op, ast.And) else any(parts)
        sides = [number(side) for side in (node.left, *node.comparators)]
        signs = {ast.Lt: "<", ast.LtE: "<=", ast.Gt: ">", ast.GtE: ">="}
        told = {"<": lambda a, b: a < b, "<=": lambda a, b: a <= b, ">": lambda a, b: a > b, ">=": lambda a, b: a >= b}
        pairs = zip(sides, sides[1:], node.ops, strict=False)
        return all(told[signs[type(sign)]](a, b) for a, b, sign in pairs)

    return truth(ast.parse(rule.replace("1.5 clay", "1.5 * clay").replace("2 clay", "2 * clay"), mode="eval").body)


def test_rules_shown_are_the_manual_s():
    """The rule that the working shows for a class holds for just the whole mixes that the manual gives to it."""
    shown = tables.table("texture_classes").set_index("texture")["rule"]
    assert set(shown.index) == set(RULES)
    for name, rule in shown.items():
        off = [m for m in WHOLE if _holds(rule, dict(zip(("sand", "silt", "clay"), m, strict=True))) != RULES[name](*m)]
        assert off == [], name


@pytest.mark.parametrize(
    ("lengths", "given", "shares", "texture"),
    # Computed by the reference table's author from the steps of the jar test of Montana State University (2021).
    [
        ((40, 40, 20), "layers", (40, 40, 20), "loam"),
        ((45, 66, 75), "marks", (60, 28, 12), "sandy loam"),
        ((10, 50, 25), "layers", (11.8, 58.8, 29.4), "silty clay loam"),
    ],
)
def test_jar_percents(lengths, given, shares, texture):
    """Layers, and marks above the bottom, come to the shares and classes worked out by hand."""
    assert soil.jar_percents(lengths, given=given) == pytest.approx(shares, abs=0.05)
    assert soil.jar_texture(lengths, given=given).texture == texture


@pytest.mark.parametrize(
    ("temp_c", "grams_cm3", "centipoise"),
    # International Critical Tables (1928, 1929), as printed in the Encyclopedia of Environmental Science and
    # Engineering (2006), appendix, table 2.
    [
        (1, 0.99993, 1.7320),
        (5, 0.99999, 1.5188),
        (10, 0.99973, 1.3097),
        (15, 0.99913, 1.1447),
        (20, 0.99823, 1.0087),
        (25, 0.99707, 0.8949),
        (30, 0.99568, 0.8004),
        (35, 0.99406, 0.7208),
        (39, 0.99262, 0.6661),
    ],
)
def test_water_against_a_table(temp_c, grams_cm3, centipoise):
    """Density to 0.0001; viscosity to 0.8 %, since the old table lies 0.7 % above today's value of 1.002 at 20 C."""
    assert float(density_kg_m3(temp_c)) / 1000 == pytest.approx(grams_cm3, abs=1e-4)
    assert float(viscosity_pa_s(temp_c)) * 1000 == pytest.approx(centipoise, rel=0.008)


@pytest.mark.parametrize(
    ("temp_c", "milli_pa_s"),
    # Dynamic viscosity of water as printed by engineersedge.com, "Water - Density Viscosity Specific Weight".
    [(5, 1.519), (10, 1.307), (20, 1.002), (30, 0.798), (40, 0.653)],
)
def test_viscosity_against_a_newer_table(temp_c, milli_pa_s):
    """Viscosity to 0.2 %, the last digit printed and a little."""
    assert float(viscosity_pa_s(temp_c)) * 1000 == pytest.approx(milli_pa_s, rel=0.002)


@pytest.mark.parametrize("temp_c", [0, 5, 10, 15, 20, 25, 30, 35, 40])
def test_viscosity_against_another_formula(temp_c):
    """Swindells (National Bureau of Standards): log10(v/v20) = (1.3272 (20-t) - 0.001053 (t-20)^2) / (t+105)."""
    t = temp_c
    expected = 1.002 * 10 ** ((1.3272 * (20 - t) - 0.001053 * (t - 20) ** 2) / (t + 105))
    # The formula is published for 20 C and above; below, it is 1 % off at most.
    assert float(viscosity_pa_s(t)) * 1000 == pytest.approx(expected, rel=0.002 if t >= 20 else 0.012)


@pytest.mark.parametrize(
    ("diameter_mm", "temp_c", "seconds"),
    # Computed by the reference table's author by Stokes' law for 10 cm, with water figures of his own.
    [
        (0.05, 10, 58.1),
        (0.05, 15, 50.6),
        (0.05, 20, 44.5),
        (0.05, 25, 39.5),
        (0.05, 30, 35.4),
        (0.02, 20, 278.3),
        (0.002, 10, 36329.2),
        (0.002, 15, 31620.2),
        (0.002, 20, 27826.2),
        (0.002, 25, 24697.9),
        (0.002, 30, 22127.5),
    ],
)
def test_settling_times(diameter_mm, temp_c, seconds):
    """The times through 10 cm of water, to 0.3 %: the two sets of water figures differ by that much."""
    assert float(soil.settling_seconds(diameter_mm, 0.1, temp_c)) == pytest.approx(seconds, rel=0.003)
    assert float(soil.settling_seconds(diameter_mm, 0.15, temp_c)) == pytest.approx(1.5 * seconds, rel=0.003)


def test_protocols_are_those_of_the_guides():
    """Three guides: Montana State 1 min, 6 h, 24 h; Colorado 1 min, 2 h, 48 h; a trade magazine 45 s, 3 h, 24 h."""
    found = tables.table("jar_protocols").set_index("source")
    columns = ["sand_after_min", "silt_after_hours", "clay_after_hours"]
    assert found.loc["montana_jar_2021", columns].tolist() == [1, 6, 24]
    assert found.loc["colorado_jar", columns].tolist() == [1, 2, 48]
    assert found.loc["grounds_jar", columns].tolist() == [0.75, 3, 24]


@pytest.mark.parametrize(
    ("answers", "texture"),
    # Thien 1979, flow diagram for texture by feel, in the form printed (modified) in a handbook of wetland techniques.
    [
        (("no",), "sand"),
        (("yes", "none"), "loamy sand"),
        (("yes", "short", "gritty"), "sandy loam"),
        (("yes", "short", "smooth"), "silt loam"),
        (("yes", "short", "neither"), "loam"),
        (("yes", "middle", "gritty"), "sandy clay loam"),
        (("yes", "middle", "smooth"), "silty clay loam"),
        (("yes", "middle", "neither"), "clay loam"),
        (("yes", "long", "gritty"), "sandy clay"),
        (("yes", "long", "smooth"), "silty clay"),
        (("yes", "long", "neither"), "clay"),
    ],
)
def test_feel_key_is_thien_s(answers, texture):
    """Each path of the key ends at the class of the flow diagram."""
    assert soil.texture_by_feel(*answers).texture == texture
