"""Whole Fahrenheit survives every unit a record passes through; round trips, with no source outside."""

import numpy as np
import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st

from gardenlib.site import read_station
from gardenlib.units import f_to_c

THRESHOLDS_F = (36, 32, 28, 24)
UNITS = {
    "tmin_f,tmax_f": lambda temp_f: f"{temp_f}",
    "tmin_c,tmax_c": lambda temp_f: f"{round((temp_f - 32) / 1.8, 1)}",
    "tmin_tenths_c,tmax_tenths_c": lambda temp_f: f"{round((temp_f - 32) / 1.8 * 10)}",
}


def lows_c(folder, head, lows_f):
    """Read lows of whole Fahrenheit written in one unit; highs lie 20 degrees above."""
    days = pd.date_range("2024-01-01", periods=len(lows_f))
    rows = [f"{day:%Y-%m-%d},{UNITS[head](low)},{UNITS[head](low + 20)}" for day, low in zip(days, lows_f, strict=True)]
    path = folder / "plot.csv"
    path.write_text("\n".join([f"date,{head}", *rows]) + "\n")
    return read_station(path).daily["tmin_c"].to_numpy()


def freezing(tmin_c, threshold_f):
    """Tell which nights freeze, by the rule for records in tenths of a degree."""
    return tmin_c <= f_to_c(float(threshold_f)) + 0.06


@pytest.mark.parametrize("head", UNITS)
def test_16_to_36_f_freeze_on_the_same_nights_in_every_unit(tmp_path, head):
    """Nights of 16 to 36 F freeze by the whole degree that the observer read, however the file stores it."""
    lows_f = np.arange(16, 37)
    tmin_c = lows_c(tmp_path, head, lows_f.tolist())
    for threshold in THRESHOLDS_F:
        assert (freezing(tmin_c, threshold) == (lows_f <= threshold)).all()


@given(lows_f=st.lists(st.integers(-60, 110), min_size=1, max_size=40))
def test_all_units_give_the_same_record(tmp_path_factory, lows_f):
    """Any whole Fahrenheit lows come back the same from Fahrenheit, Celsius and tenths of Celsius."""
    folder = tmp_path_factory.getbasetemp()
    for head in UNITS:
        assert np.allclose(lows_c(folder, head, lows_f), f_to_c(np.array(lows_f, dtype=float)), atol=1e-9)


@pytest.mark.parametrize(("odd", "snapped"), [(2, True), (3, False)])
def test_99_percent_whole_fahrenheit_is_the_border(tmp_path, odd, snapped):
    """With 198 of 200 values whole the record is set to whole Fahrenheit, with 197 it stays as it is."""
    lows = [-2.2] * 100
    lows[:odd] = [-2.0] * odd
    days = pd.date_range("2024-01-01", periods=100)
    rows = [f"{day:%Y-%m-%d},{low},8.9" for day, low in zip(days, lows, strict=True)]
    path = tmp_path / "plot.csv"
    path.write_text("date,tmin_c,tmax_c\n" + "\n".join(rows) + "\n")
    station = read_station(path)
    assert station.daily["tmin_c"].iloc[-1] == pytest.approx(f_to_c(28.0) if snapped else -2.2)
    assert any("whole °F" in str(note) for note in station.notes) == snapped
