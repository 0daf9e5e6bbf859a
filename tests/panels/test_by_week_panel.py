"""Page 07: what the plan would have given in which week."""

from gardenlib.panels.season import by_week


def test_a_row_for_each_week_and_the_best_in_the_finding(open_session):
    """The weeks follow one another, each with its range and its springs, and the finding names the best."""
    fold = by_week.fold(open_session())
    fold.opener.value = True
    panel = fold._body.children[0]
    table = panel.view.table
    assert table.columns.tolist() == ["week of", "on average", "springs with a picking"]
    assert len(table) > 10
    assert any(f"the week of {week}:" in panel.view.finding for week in table["week of"])
    assert "lb a week" in panel.view.chart
    panel.controls["planting"].value = "planting-1"
    assert len(panel.view.table) < len(table)
