"""The instructor's page before a class."""

import shutil
from datetime import date

from gardenlib.carried import carried
from gardenlib.classroom import prepare
from gardenlib.panels import Session


def test_one_button_prints_and_nothing_before(tmp_path):
    """Checking writes nothing; the button writes the pack and the papers of the day."""
    klass = tmp_path / "class"
    shutil.copytree(carried("data_demo"), klass)
    before = set(klass.rglob("*"))
    box = prepare(Session("prepare_a_class", tmp_path / "my_plot.json", klass, date(2027, 2, 20)))
    assert set(klass.rglob("*")) == before
    box.write()
    pack = klass / "packs" / "2027-02-20-class"
    assert (pack / "key" / "record.json").is_file()
    assert len(list((klass / "packs").glob("day_2027-02-20_*/*.pdf"))) == 8


def test_a_folder_that_is_missing_is_one_sentence(tmp_path):
    """A folder that does not exist is named, escaped, and offers no meeting."""
    box = prepare(Session("prepare_a_class", tmp_path / "my_plot.json", None, date(2027, 2, 20)))
    box.folder.value = str(tmp_path / "<script>")
    box.check()
    assert "&lt;script&gt;" in box.found.value
    assert "<script>" not in box.found.value
    assert box.meeting.options == ()
