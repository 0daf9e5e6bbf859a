"""A learner's own dates, station file and thermometer."""

from datetime import UTC, datetime

import pandas as pd
import pytest

from gardenlib import panels, plot


def form_of(fold):
    """Open a fold and give the form in it."""
    fold.opener.value = True
    return fold._body.children[0]


def upload(name, content):
    """Make what a file field holds after a file was chosen."""
    now = datetime.now(UTC)
    return (
        {"name": name, "type": "text/csv", "size": len(content), "content": memoryview(content), "last_modified": now},
    )


def test_own_dates_are_used_at_once(open_session):
    """Dates that a learner types are saved and every panel reads them."""
    session = open_session()
    panel = panels.place.panel(session)
    form = form_of(panels.own_place.own_dates(session))
    form.fields["last"].value, form.fields["first"].value = "Apr 20", "10-15"
    form.fields["source"].value = "county leaflet, made up"
    form.submit()
    assert "Saved" in form.reply.value
    assert "April 20" in panel.view.finding
    assert plot.read(session.path).site.last_freeze_50 == (4, 20)
    assert panel.controls["way"].value == "typed"
    assert "April 20" in panel.children[0].children[-1].value
    form.fields["last"].value = "Feb 3"
    form.submit()
    assert "You said: May. The table says: February 3." in panel.children[0].children[-1].value


@pytest.mark.parametrize(
    ("last", "source", "told"),
    [
        ("Feb 30", "leaflet", "Feb 30"),
        ("soon", "leaflet", "soon"),
        ("4/5", "leaflet", "4/5"),
        ("Apr 20", "  ", "who gives"),
    ],
)
def test_bad_dates_change_nothing(open_session, last, source, told):
    """A date that cannot be, or has no source, gets one sentence and nothing is saved."""
    session = open_session()
    before = plot.read(session.path)
    form = form_of(panels.own_place.own_dates(session))
    form.fields["last"].value, form.fields["first"].value = last, "Oct 15"
    form.fields["source"].value = source
    form.submit()
    assert told in form.reply.value
    assert plot.read(session.path) == before


def record(years=25, freeze="04-20"):
    """Make a small plain record that freezes until one day of each spring."""
    rows = ["date,tmin_c,tmax_c"]
    for day in pd.date_range("1996-01-01", f"{1995 + years}-12-31"):
        cold = day.strftime("%m-%d") <= freeze or day.strftime("%m-%d") >= "10-10"
        rows.append(f"{day:%Y-%m-%d},{-2.0 if cold else 8.0},{10.0 if cold else 20.0}")
    return "\n".join(rows).encode()


def test_own_station_file_is_read_shown_and_used(open_session):
    """A station file is kept with the plot; coldest and warmest day are shown; the dates come from it."""
    session = open_session()
    panel = panels.place.panel(session)
    form = form_of(panels.own_place.own_file(session))
    form.fields["file"].value = upload("my station.csv", record())
    form.submit()
    assert "Coldest day" in form.reply.value
    assert (session.folder / "stations" / "my_station.csv").exists()
    assert session.way == "file"
    assert "my" in panel.view.table.iloc[0, 0]


@pytest.mark.parametrize("name", ["../../evil.csv", "/etc/passwd", ".hidden", "..\\..\\evil.csv"])
def test_upload_stays_in_its_folder(open_session, name):
    """No name of an uploaded file leads out of the learner's folder of station files."""
    session = open_session()
    form = form_of(panels.own_place.own_file(session))
    form.fields["file"].value = upload(name, record(years=1))
    form.submit()
    written = [path for path in session.folder.rglob("*") if path.is_file() and "station" in str(path.parent)]
    assert len(written) == 1
    assert written[0].parent == session.folder / "stations"


def test_bad_station_file_changes_nothing(open_session):
    """A file that cannot be read gets one sentence, and the plot stays as it was."""
    session = open_session()
    before = plot.read(session.path)
    form = form_of(panels.own_place.own_file(session))
    form.fields["file"].value = upload("page.csv", b"<html><body>no data</body></html>")
    form.submit()
    assert "page.csv" in form.reply.value
    assert plot.read(session.path) == before


def test_thermometer_log_gives_the_night_offset(open_session):
    """A log at the plot beside the station gives the offset and its spread, and the plot uses it."""
    session = open_session()
    form = form_of(panels.own_place.thermometer(session))
    log = (session.klass.folder / "stations" / "invented_plot_thermometer.csv").read_bytes()
    form.fields["file"].value = upload("log.csv", log)
    form.submit()
    assert "28 nights" in form.reply.value
    assert session.plot.site.night_offset_c == pytest.approx(-3 / 1.8, abs=0.6)
