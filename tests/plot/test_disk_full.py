"""A disk that refuses a save: one sentence, and what was saved before lies there as it was."""

import subprocess
import sys

import pytest

from gardenlib import InputProblem, plot
from gardenlib.serving.codes import keep_places
from gardenlib.serving.folders import Folders
from gardenlib.serving.seats import Seat, Seats

SAYS = "my_plot.json cannot be saved in"


@pytest.fixture
def small_disk(tmp_path):
    """Give a disk of 64 kB, where this computer lets one be made."""
    disk = tmp_path / "disk"
    disk.mkdir()
    mounted = subprocess.run(
        ["mount", "-t", "tmpfs", "-o", "size=64k", "tmpfs", disk], capture_output=True, check=False
    )
    if mounted.returncode:
        pytest.skip("no disk can be mounted here; the test with a limit stands for it")
    yield disk
    subprocess.run(["umount", disk], check=True)


def _fill(disk, free):
    """Fill a disk but for some bytes."""
    room = disk / "fill"
    with room.open("wb", buffering=0) as file:
        try:
            for _ in range(100):
                file.write(b"x" * 4096)
        except OSError:
            pass
        file.truncate(file.tell() - free)


def _lies(folder):
    return {file.name: file.read_bytes() for file in folder.iterdir() if file.name != "fill"}


@pytest.mark.parametrize("free", [0, 4096, 8192])
def test_full_disk_leaves_every_file_as_it_was(small_disk, free):
    """With room for none, one or two of its three files a save is refused, and none of them has changed."""
    path = small_disk / "my_plot.json"
    plot.new(path)
    plot.update(path, "soil", {"notes": "clay"}, seen_revision=0)
    _fill(small_disk, free)
    before = _lies(small_disk)
    with pytest.raises(InputProblem, match=SAYS):
        plot.update(path, "soil", {"notes": "loam"}, seen_revision=1)
    assert _lies(small_disk) == before
    (small_disk / "fill").unlink()
    assert plot.update(path, "soil", {"notes": "loam"}, seen_revision=1).revision == 2


def test_full_disk_of_a_served_class_is_one_sentence(small_disk):
    """The list of codes and a learner's seat are refused in one sentence; the list that was there stays."""
    folders = Folders(small_disk / "class")
    folders.make()
    keep_places(folders, [], 3)
    before = folders.codes.read_bytes()
    _fill(small_disk, 0)
    with pytest.raises(InputProblem, match=r"The class cannot be laid out in .* \(No space left on device\)"):
        keep_places(folders, [], 200)
    assert folders.codes.read_bytes() == before
    seats = Seats(folders)
    with pytest.raises(InputProblem, match=r"No space left"):
        seats.give("kernel", Seat("plot_01", "page"))
    assert not seats.belongs("kernel", "plot_01")


_LIMITED = """
import resource, sys
from datetime import date
from pathlib import Path
from gardenlib import panels, plot
from gardenlib.panels.panel import Panel
from gardenlib.panels.risk import SPEC

path = Path(sys.argv[1])
session = panels.Session("01_site_and_zone", path, None, date(2027, 2, 20))
session.keep_guess(SPEC.guess.id, SPEC.guess.options(session)[0][0])
panel = Panel(session, SPEC)
panel.controls["springs"].value = 3
before = {file.name: file.read_bytes() for file in path.parent.iterdir()}
resource.setrlimit(resource.RLIMIT_FSIZE, (300, 300))
panel.controls["springs"].value = 5
print(panel.message.value)
assert before == {file.name: file.read_bytes() for file in path.parent.iterdir()}, "a file has changed"
assert plot.read(path).answers[SPEC.id]["controls"]["springs"] == 3
"""


def test_page_says_that_the_disk_refused(tmp_path):
    """Where the system refuses to write on, the page shows the sentence beside the controls, and no trace."""
    pytest.importorskip("resource", reason="this system knows no such limit")
    path = tmp_path / "my_plot.json"
    command = [sys.executable, "-c", _LIMITED, path]
    run = subprocess.run(command, capture_output=True, text=True, timeout=120, check=False)
    assert run.returncode == 0, run.stderr
    assert SAYS in run.stdout
    assert list(tmp_path.glob("*.log")) == []
