"""What another risk costs, and why books differ."""

from datetime import date

import pandas as pd
import pytest
from invented_places import place

from gardenlib import InputProblem, sowing
from gardenlib.site import FreezeDates

TYPED = FreezeDates.typed((4, 15), (10, 15), source="invented", latitude=40.0)
SPREAD = FreezeDates.typed((4, 15), (10, 15), source="invented", latitude=40.0, last_spring_10=(4, 29))


def test_a_risk_is_priced_in_days():
    """Broccoli at 1 spring in 10 opens on the typed 1 in 10 date, 14 days after its default."""
    table = sowing.risk_costs("broccoli", SPREAD, year=2027).table.set_index("risk")
    assert table.loc[0.1, "opens"] == pd.Timestamp(2027, 4, 29)
    assert (table.loc[0.1, "days_later"], table.loc[0.5, "days_later"]) == (14, 0)
    assert table.loc[0.1, "bad_springs_in_ten"] == pytest.approx(1)


def test_days_never_fall_as_the_risk_falls():
    """Down the table, from careful to bold, the first day only comes sooner."""
    table = sowing.risk_costs("tomato", place(6, 12), year=2027).table
    assert table["risk"].is_monotonic_increasing
    assert table["opens"].is_monotonic_decreasing
    assert table.set_index("risk").loc[0.1, "days_later"] == 0
    assert table["days_later"].iloc[-1] < 0


def test_risks_that_are_not_known_are_left_out():
    """With one typed date only its own risk is priced, and the answer says that others are left out."""
    found = sowing.risk_costs("broccoli", TYPED, year=2027)
    assert found.table["risk"].tolist() == [0.5]
    assert "sowing.risks_unknown" in [said.key for said in found.assumptions]


def test_each_book_has_its_row_and_ours_comes_last():
    """Cabbage has five books with their own dates, citations and status, and our window below them."""
    table = sowing.window_by_source("cabbage_main", TYPED, year=2027).table
    books = table.set_index("source")
    # Purdue HO-203: 2 to 3 weeks before; University of Idaho CIS 1209: 2 to 5; Illinois (Mason): 4 to 6.
    assert books.loc["purdue_ho203", ["opens", "closes"]].tolist() == [
        pd.Timestamp(2027, 3, 25),
        pd.Timestamp(2027, 4, 1),
    ]
    assert books.loc["idaho_cis1209", "opens"] == pd.Timestamp(2027, 3, 11)
    assert books.loc["illinois_mason", "closes"] == pd.Timestamp(2027, 3, 18)
    assert "CIS 1209" in books.loc["idaho_cis1209", "citation"]
    assert list(table["source"])[-1] == "ours"
    assert set(table["status"]) == {"published", ""}
    # Virginia 426-331: 40 days before up to the date.
    assert books.loc["virginia_426_331_2006", "opens"] == pd.Timestamp(date(2027, 3, 6))


def test_books_without_a_last_freeze_have_no_dates():
    """Where it never freezes the books' weeks are kept without dates."""
    table = sowing.window_by_source("cabbage_main", place(22, 2, noise_c=1.0), year=2027).table
    assert table["opens"].isna().all()
    assert table["weeks_low"].notna().sum() == 5


def test_an_unknown_crop_is_refused_here_too():
    """A misspelt crop is refused with near ids."""
    with pytest.raises(InputProblem, match="broccoli"):
        sowing.risk_costs("brocoli", TYPED, year=2027)
