"""The command `pack`: a stack of paper, a bar on stderr, and one sentence for bad input."""

import shutil
from pathlib import Path

from gardenlib.cli import main
from gardenlib.problems import InputProblem

DEMO = Path(__file__).resolve().parents[1] / "data_demo"


def test_it_prints_a_pack(tmp_path, capsys):
    """The folder is named, the bar is drawn, the sheets are there."""
    assert main(["pack", str(DEMO), "--out", str(tmp_path / "out"), "--session", "2", "--paper", "a4"]) == 0
    told = capsys.readouterr()
    assert str(tmp_path / "out") in told.out
    assert "4 of 4 sheets" in told.err
    assert len(list((tmp_path / "out" / "learners").iterdir())) == 4


def test_bad_input_is_one_sentence(tmp_path, capsys):
    """No such session: exit 1, one line, nothing written."""
    assert main(["pack", str(DEMO), "--out", str(tmp_path / "out"), "--session", "99"]) == 1
    assert len(capsys.readouterr().err.strip().splitlines()) == 1
    assert not (tmp_path / "out").exists()


def test_the_days_papers_lie_in_the_pack(tmp_path, capsys):
    """With --day the eight papers of that meeting are printed beside the sheets."""
    out = tmp_path / "out"
    assert main(["pack", str(DEMO), "--out", str(out), "--session", "1", "--day"]) == 0
    papers = sorted(path.name for path in next(out.glob("day_*")).iterdir())
    assert [name[0] for name in papers] == list("12345678")
    assert "8 papers for the day" in capsys.readouterr().out


def test_a_page_without_homework_has_its_papers_of_the_day(tmp_path, capsys):
    """The first meeting of the monthly plan: what cannot be printed is one line, the eight papers are there."""
    klass = Path(shutil.copytree(DEMO, tmp_path / "class"))
    settings = (klass / "class.toml").read_text("utf-8")
    (klass / "class.toml").write_text(
        settings.replace('page = "01_site_and_zone"', 'page = "00_start_here"', 1), "utf-8"
    )
    assert main(["pack", str(klass), "--session", "1", "--day"]) == 1
    told = capsys.readouterr()
    assert len(list(next((klass / "packs").glob("day_*_00_start_here")).iterdir())) == 8
    assert "8 papers for the day" in told.out
    assert len(told.err.strip().splitlines()) == 1
    assert "00_start_here" in told.err


def test_what_goes_amiss_stands_on_a_line_of_its_own(tmp_path, capsys, monkeypatch):
    """A bar that stopped short does not run into the sentence."""

    def stop(*_, progress, **__):
        progress(1, 4)
        raise InputProblem("pack.no_learners")

    monkeypatch.setattr("gardenlib.classroom.pack", stop)
    assert main(["pack", str(DEMO), "--out", str(tmp_path / "out")]) == 1
    bar, said = capsys.readouterr().err.strip().splitlines()
    assert "1 of 4" in bar
    assert "learners" in said
