"""The loader: what it accepts, what it refuses and how it says so."""

import pytest

from gardenlib import InputProblem, tables
from gardenlib.tables.loader import read
from gardenlib.tables.schemas import SCHEMAS

HEAD = "crop,vegetable,soil_temp_f,state,days,source,where,status"
GOOD = "pea,pea,50,days,14,book,row pea,published"


def _read(tmp_path, *lines, head=HEAD, name="emergence_by_temp"):
    path = tmp_path / f"{name}.csv"
    path.write_text("\n".join([head, *lines]) + "\n", encoding="utf-8")
    return read(path, SCHEMAS[name], {"book", "other"})


def test_a_good_row_is_read_as_numbers_and_text(tmp_path):
    """A sound row comes back with its numbers as numbers."""
    assert _read(tmp_path, GOOD)[0]["days"] == 14.0


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("pea,pea,50,days,many,book,row pea,published", ["emergence_by_temp.csv", "row 2", "days", "many", "number"]),
        ("pea,pea,50,days,nan,book,row pea,published", ["row 2", "nan", "number"]),
        ("pea,pea,50,days,14,no_book,row pea,published", ["row 2", "no_book", "sources.csv"]),
        ("pea,pea,50,days,14,book|no_book,row pea,published", ["row 2", "no_book"]),
        ("pea,pea,50,days,14,book,row pea,certain", ["row 2", "certain", "published"]),
        ("pea,pea,50,days,14,,row pea,published", ["row 2", "source", "empty"]),
        ("pea,pea,50,days,14,book", ["row 2", "8 cells"]),
        ("pea,pea,50,days,14,book,row, pea,published", ["row 2", "8 cells"]),
    ],
)
def test_a_bad_cell_is_named(tmp_path, line, said):
    """A cell that cannot be used is refused with file, row, value and mend."""
    with pytest.raises(InputProblem) as problem:
        _read(tmp_path, line)
    assert all(part in str(problem.value) for part in said)


def test_unknown_and_missing_columns_are_refused(tmp_path):
    """A column that is not declared, or one too few, stops the loading."""
    for head in (HEAD + ",notes", HEAD.removesuffix(",status")):
        with pytest.raises(InputProblem, match="needs"):
            _read(tmp_path, GOOD, head=head)


def test_a_row_that_stands_twice_is_refused(tmp_path):
    """Two rows with the same key are refused, and the second is named."""
    with pytest.raises(InputProblem, match="row 3"):
        _read(tmp_path, GOOD, GOOD)


def test_a_range_the_wrong_way_round_is_refused(tmp_path):
    """A lowest value above its highest is refused."""
    with pytest.raises(InputProblem, match="row 2: the low end 90"):
        _read(
            tmp_path,
            "pea,pea,90,45,book,row pea,published",
            head="crop,vegetable,min_mean_f,max_mean_f,source,where,status",
            name="heat_limits",
        )


def test_two_sources_may_stand_in_one_cell(tmp_path):
    """Sources are joined by a bar."""
    assert _read(tmp_path, GOOD.replace("book", "book|other"))[0]["source"] == "book|other"


@pytest.mark.parametrize("name", [*SCHEMAS, "crop_timing"])
def test_every_table_that_ships_is_sound(name):
    """Each table of the package loads and has rows."""
    assert len(tables.table(name)) > 0


def test_a_table_that_is_not_there_is_named():
    """Asking for an unknown table lists the known ones."""
    with pytest.raises(InputProblem, match="weather"):
        tables.table("weather")


def test_a_changed_copy_leaves_the_table_alone():
    """What a caller does to a table does not reach the next caller."""
    mine = tables.table("emergence_by_temp")
    mine["days"] = 0
    assert tables.table("emergence_by_temp")["days"].min() > 0


def test_sources_are_found_by_key():
    """A source is found by its key; an unknown key is named."""
    assert "HO-203" in tables.source("purdue_ho203").citation
    with pytest.raises(InputProblem, match="hearsay"):
        tables.source("hearsay")


def test_what_was_not_read_is_never_called_published():
    """A figure from memory names a source from memory, and the other way round."""
    status = tables.table("sources").set_index("key")["status"]
    figures = tables.table("crop_timing_by_source")
    assert (figures["status"] == figures["source"].map(status)).all()
