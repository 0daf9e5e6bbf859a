"""The working folder: laid out once, brought up to date without loss, and served to this computer alone."""

import dataclasses
import json
import os
import re
import signal
import subprocess
import sys
import time
import urllib.error
import urllib.request

import pytest

from gardenlib import InputProblem, class_folder, plot
from gardenlib.cli import main
from gardenlib.panels.session import PLOT_FILE
from gardenlib.working_folder import lab_command, open_pages, prepare
from gardenlib.working_folder import lay_out as layer

PAGES = [
    "00_start_here",
    "01_site_and_zone",
    "02_soil",
    "03_beds",
    "04_sowing_calendar",
    "05_pests",
    "06_harvest_and_storage",
    "07_season_plan",
]


@pytest.fixture
def two_pages(tmp_path, monkeypatch):
    """Carry two small pages in place of the real ones."""
    home = tmp_path / "carried"
    for name in ("notebooks", "data_demo"):
        (home / name).mkdir(parents=True)
    (home / "data_demo" / "class.toml").write_text(
        'title = "Small"\nlanguages = ["en"]\nunits = "us"\ncrops = ["pea"]\n'
    )
    (home / "data_demo" / "sites.csv").write_text("site,latitude\nHill,40\n")
    _page(home / "notebooks" / "a.ipynb", "one")
    _page(home / "notebooks" / "b.ipynb", "one")
    (home / "notebooks" / "instructor").mkdir()
    _page(home / "notebooks" / "instructor" / "desk.ipynb", "one")
    monkeypatch.setattr(layer, "carried", lambda name: home / name)
    return home / "notebooks", tmp_path / "work"


def _page(path, words, *, outputs=()):
    cells = [
        {"cell_type": "markdown", "id": "m", "metadata": {}, "source": [words]},
        {
            "cell_type": "code",
            "id": "c",
            "metadata": {},
            "source": "1 + 1",
            "execution_count": 3,
            "outputs": list(outputs),
        },
    ]
    path.write_text(json.dumps({"cells": cells, "metadata": {}, "nbformat": 4, "nbformat_minor": 5}))


def _words(path):
    return "".join(json.loads(path.read_text("utf-8"))["cells"][0]["source"])


# ---- laying out ----------------------------------------------------------------------------


def test_a_new_folder_holds_pages_class_and_plot(tmp_path):
    """Pages, the demo class and an empty plot are laid out; nothing is told."""
    ready = prepare(tmp_path / "work")
    assert ready.told == ()
    assert sorted(path.stem for path in ready.folder.glob("*.ipynb")) == PAGES
    assert (ready.folder / "demo_class" / "sites.csv").is_file()
    assert plot.read(ready.folder / PLOT_FILE).revision == 0


def test_pages_are_laid_out_without_outputs(tmp_path):
    """A page in the working folder has no outputs and no counts."""
    folder = prepare(tmp_path / "work").folder
    for path in folder.glob("*.ipynb"):
        cells = json.loads(path.read_text("utf-8"))["cells"]
        assert all(not cell.get("outputs") and cell.get("execution_count") is None for cell in cells)


def test_opening_again_changes_nothing(tmp_path):
    """A second time leaves every file as it is, the plot too."""
    folder = prepare(tmp_path / "work").folder
    plot.update(folder / PLOT_FILE, "soil", {"notes": "clay"}, seen_revision=0)
    before = {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()}
    assert prepare(folder).told == ()
    assert {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()} == before


def test_a_page_that_was_only_run_is_brought_up_to_date(two_pages):
    """Outputs are no change: a new form of the page takes the place of a run one."""
    source, work = two_pages
    prepare(work)
    _page(work / "a.ipynb", "one", outputs=[{"output_type": "stream", "name": "stdout", "text": "2"}])
    run = (work / "a.ipynb").read_bytes()
    assert prepare(work).told == ()
    assert (work / "a.ipynb").read_bytes() == run
    _page(source / "a.ipynb", "two")
    assert prepare(work).told == ()
    assert _words(work / "a.ipynb") == "two"


def test_a_changed_page_is_kept_and_the_new_one_put_beside_once(two_pages):
    """A page that the learner changed stays; its new form lies beside it and one sentence says so."""
    source, work = two_pages
    prepare(work)
    _page(work / "a.ipynb", "mine")
    assert prepare(work).told == ()
    _page(source / "a.ipynb", "two")
    told = [str(sentence) for sentence in prepare(work).told]
    assert told == ["You changed a.ipynb, so it was kept. The new form of it is beside it: a_new.ipynb."]
    assert (_words(work / "a.ipynb"), _words(work / "a_new.ipynb")) == ("mine", "two")
    assert prepare(work).told == ()
    _page(source / "a.ipynb", "three")
    assert "a_new_2.ipynb" in str(prepare(work).told[0])
    assert _words(work / "a_new.ipynb") == "two"


def test_a_page_of_the_same_name_that_was_there_is_kept(two_pages):
    """A file that the learner had before is never written over."""
    _, work = two_pages
    work.mkdir()
    _page(work / "a.ipynb", "older")
    assert len(prepare(work).told) == 1
    assert _words(work / "a.ipynb") == "older"


def test_a_page_that_was_removed_comes_back(two_pages):
    """A page that is missing is laid out again."""
    _, work = two_pages
    prepare(work)
    (work / "b.ipynb").unlink()
    prepare(work)
    assert _words(work / "b.ipynb") == "one"


def test_lost_notes_on_what_was_laid_out_lose_nothing(two_pages):
    """With the record of marks damaged, a changed page still stays."""
    source, work = two_pages
    prepare(work)
    (work / ".workbook" / "laid_out.json").write_text("{")
    _page(work / "a.ipynb", "mine")
    _page(source / "a.ipynb", "two")
    prepare(work)
    assert _words(work / "a.ipynb") == "mine"


def test_the_class_that_was_named_is_kept(two_pages, tmp_path):
    """A class named once is used again without naming it, and no demo class is laid out."""
    _, work = two_pages
    home = tmp_path / "carried" / "data_demo"
    prepare(work, class_path=home)
    assert (work / ".workbook" / "class_folder.txt").read_text().strip() == str(home)
    assert prepare(work).told == ()
    assert not (work / "demo_class").exists()


def test_a_class_that_cannot_be_read_stops_before_anything_is_opened(two_pages, tmp_path):
    """A class folder that is not there is one sentence, and it is not remembered."""
    _, work = two_pages
    with pytest.raises(InputProblem, match="no class folder"):
        prepare(work, class_path=tmp_path / "nowhere")
    assert not (work / ".workbook" / "class_folder.txt").exists()


def test_a_folder_that_cannot_be_written_is_one_sentence(tmp_path, capsys):
    """Where no folder can be, the command ends with exit code 1 and one sentence."""
    (tmp_path / "file").write_text("kept")
    assert main(["open", str(tmp_path / "file" / "work"), "--no-browser"]) == 1
    told = capsys.readouterr().err.strip()
    assert told.startswith("The workbook cannot be laid out in")
    assert "\n" not in told
    assert (tmp_path / "file").read_text() == "kept"


def test_a_page_that_is_not_there_is_one_sentence(tmp_path):
    """An unknown page is named with the pages there are."""
    with pytest.raises(InputProblem, match=r"There is no page 99\. The pages are 00_start_here, 01_site"):
        open_pages(tmp_path / "work", page="99")


def test_a_port_that_is_taken_is_one_sentence(tmp_path):
    """A port in use is named before anything is started."""
    import socket

    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        with pytest.raises(InputProblem, match=r"Port \d+ is taken"):
            open_pages(tmp_path / "work", port=taken.getsockname()[1])


# ---- the instructor's pages ----------------------------------------------------------------


def test_only_who_asks_gets_the_instructors_pages(two_pages):
    """Learners' folders hold none; with the flag they lie in a folder of their own, and stay when changed."""
    source, work = two_pages
    prepare(work)
    assert not (work / "instructor").exists()
    prepare(work, instructor=True)
    assert _words(work / "instructor" / "desk.ipynb") == "one"
    _page(work / "instructor" / "desk.ipynb", "mine")
    _page(source / "instructor" / "desk.ipynb", "two")
    told = [str(sentence) for sentence in prepare(work, instructor=True).told]
    assert told == [
        "You changed instructor/desk.ipynb, so it was kept. The new form of it is beside it: desk_new.ipynb."
    ]
    assert _words(work / "instructor" / "desk.ipynb") == "mine"


def test_the_installed_package_carries_both_instructors_pages(tmp_path):
    """Both pages are laid out from what the package carries, without outputs, and the demo class belongs to them."""
    folder = prepare(tmp_path / "work", instructor=True).folder
    pages = sorted((folder / "instructor").glob("*.ipynb"))
    assert [path.stem for path in pages] == ["prepare_a_class", "review_homework"]
    assert all(not cell.get("outputs") for path in pages for cell in json.loads(path.read_text("utf-8"))["cells"])
    assert class_folder.beside(folder / "instructor") == folder / "demo_class"


def test_an_instructor_may_open_a_class_that_is_not_ready(two_pages, tmp_path):
    """A class with open fields is opened for its instructor, who is told; learners keep the class that they have."""
    _, work = two_pages
    new = class_folder.new_class(tmp_path / "new")
    told = [str(sentence) for sentence in prepare(work, class_path=new, instructor=True).told]
    assert told == [
        f"The class folder {new} is not ready yet. The page prepare_a_class names what to mend.",
    ]
    assert class_folder.beside(work / "instructor") == new
    assert class_folder.beside(work) == work / "demo_class"
    assert prepare(work, instructor=True).told == ()
    assert class_folder.beside(work / "instructor") == new
    with pytest.raises(InputProblem, match="FILL-IN"):
        prepare(work, class_path=new)


def test_a_class_that_was_broken_meanwhile_still_opens_for_its_instructor(two_pages, tmp_path):
    """When the learners' class cannot be read any more, its instructor can open the page that says why."""
    source, work = two_pages
    klass = source.parent / "data_demo"
    prepare(work, class_path=klass)
    (klass / "class.toml").write_text("title = ")
    with pytest.raises(InputProblem):
        prepare(work)
    assert prepare(work, instructor=True).told == ()
    assert class_folder.beside(work / "instructor") == klass


def test_a_class_that_is_gone_gives_way_to_the_learners_one(two_pages, tmp_path):
    """A class folder that was moved away is not kept for the instructor's pages, unless it is named anew."""
    _, work = two_pages
    new = class_folder.new_class(tmp_path / "new")
    prepare(work, class_path=new, instructor=True)
    new.rename(tmp_path / "moved")
    prepare(work, instructor=True)
    assert class_folder.beside(work / "instructor") == work / "demo_class"
    prepare(work, class_path=new, instructor=True)
    assert class_folder.beside(work / "instructor") == new


def test_the_command_opens_the_page_that_prepares_a_class(tmp_path, monkeypatch, capsys):
    """`open --instructor` shows that page first; without the flag it is no page at all."""
    commands = []
    monkeypatch.setattr("gardenlib.working_folder.serve._serve", lambda command, *_: commands.append(command) or 0)
    assert main(["open", str(tmp_path / "work"), "--instructor", "--no-browser"]) == 0
    assert "--LabApp.default_url=/doc/tree/instructor/prepare_a_class.ipynb" in commands[0]
    assert "/doc/tree/instructor/prepare_a_class.ipynb?token=" in capsys.readouterr().out
    assert main(["open", str(tmp_path / "other"), "--page", "instructor/prepare_a_class", "--no-browser"]) == 1
    assert "There is no page instructor/prepare_a_class. The pages are 00_start_here" in capsys.readouterr().err


@pytest.mark.parametrize("page", ["prepare_a_class", "instructor/prepare_a_class", "../instructor/review_homework"])
def test_the_instructors_pages_are_never_served(page):
    """Named for phones, a page of the instructor's is no page; it is not among those that are served unasked."""
    from gardenlib.carried import carried
    from gardenlib.serving.pages import chosen_pages

    klass = class_folder.read(carried("data_demo"))
    with pytest.raises(InputProblem, match="There is no page"):
        chosen_pages(klass, [page])
    without_meetings = dataclasses.replace(klass, sessions=())
    assert chosen_pages(without_meetings, []) == PAGES


# ---- serving -------------------------------------------------------------------------------


def test_the_server_listens_to_this_computer_alone_and_asks_nobody(tmp_path):
    """The command binds the loopback address, shows one page, and turns news and update questions off."""
    command = lab_command(tmp_path, "00_start_here", 8123, browser=False)
    assert "--ServerApp.ip=127.0.0.1" in command
    assert "--LabApp.default_url=/doc/tree/00_start_here.ipynb" in command
    assert "--LabApp.news_url=None" in command
    assert "--no-browser" in command
    assert not any("token" in word for word in command)
    assert "--no-browser" not in lab_command(tmp_path, "00_start_here", 8123, browser=True)


def test_the_settings_turn_prompts_off(tmp_path):
    """JupyterLab's own questions are switched off in the folder's settings."""
    folder = prepare(tmp_path / "work").folder
    settings = json.loads((folder / ".workbook" / "lab_settings" / "overrides.json").read_text())
    asked = settings["@jupyterlab/apputils-extension:notification"]
    assert asked == {"fetchNews": "false", "checkForUpdates": False}


def _get(address):
    direct = urllib.request.build_opener(urllib.request.ProxyHandler({}))
    with direct.open(address, timeout=10) as answer:
        return answer.status, answer.url, answer.read().decode()


def test_open_serves_the_first_page_and_stops(tmp_path):
    """The real command lays out a folder, answers at the address it prints, needs the token, and stops when told."""
    environment = {**os.environ, "JUPYTER_CONFIG_DIR": str(tmp_path / "config"), "PYTHONUNBUFFERED": "1"}
    command = [sys.executable, "-m", "gardenlib.cli", "open", str(tmp_path / "work"), "--no-browser"]
    with subprocess.Popen(
        command, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True, env=environment
    ) as server:
        try:
            server.stdout.readline()
            address = re.search(r"http://\S+", server.stdout.readline())[0]
            until = time.monotonic() + 60
            while True:
                try:
                    status, _, text = _get(address)
                    break
                except (urllib.error.URLError, ConnectionError):
                    assert server.poll() is None
                    assert time.monotonic() < until
                    time.sleep(0.2)
            assert (status, "JupyterLab" in text) == (200, True)
            assert json.loads(_get(address.replace("/doc/tree/", "/api/contents/"))[2])["name"] == "00_start_here.ipynb"
            with pytest.raises(urllib.error.HTTPError, match="403"):
                _get(address.replace("/doc/tree/", "/api/contents/").partition("?")[0])
        finally:
            server.send_signal(signal.SIGTERM)
        assert server.wait(timeout=30) == 0
