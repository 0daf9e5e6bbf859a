"""The command `pack`: a stack of paper, a bar on stderr, and one sentence for bad input."""

from pathlib import Path

from gardenlib.cli import main

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
