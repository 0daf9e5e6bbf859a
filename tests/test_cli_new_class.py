"""The command that makes a class folder."""

import sys

import pytest

from gardenlib.cli import main


class _NoOneThere:
    """An input that nobody answers."""

    def read(self, *_):
        raise AssertionError("the command asked something")

    readline = __iter__ = fileno = read


@pytest.fixture(autouse=True)
def nobody_answers(monkeypatch):
    """Fail when a command waits for an answer."""
    monkeypatch.setattr(sys, "stdin", _NoOneThere())


def test_it_makes_the_folder_and_names_what_comes_next(tmp_path, capsys):
    """Exit code 0; one line says where the folder lies and which command checks it."""
    home = tmp_path / "our class" / "spring"
    assert main(["new-class", str(home)]) == 0
    out, err = capsys.readouterr()
    assert out == f'Your class folder is {home}. Fill in each FILL-IN, then run: gardenlib check "{home}"\n'
    assert err == ""
    assert (home / "class.toml").is_file()


def test_what_it_made_is_named_by_check(tmp_path, capsys):
    """The new folder is not ready: check leaves with 1 and names what is to fill in."""
    main(["new-class", str(tmp_path / "ours")])
    capsys.readouterr()
    assert main(["check", str(tmp_path / "ours")]) == 1
    first, *lines = capsys.readouterr().out.splitlines()
    assert first == f"{len(lines)} things must be mended:"
    assert all("FILL-IN" in line for line in lines)


def test_a_folder_with_files_is_exit_code_1(tmp_path, capsys):
    """Bad input is one sentence on the second stream, exit code 1, nothing written."""
    (tmp_path / "mine.txt").write_text("mine")
    assert main(["new-class", str(tmp_path)]) == 1
    out, err = capsys.readouterr()
    assert out == ""
    assert err == f"{tmp_path} holds something already, so nothing was written. Name a new or an empty folder.\n"
    assert [path.name for path in tmp_path.iterdir()] == ["mine.txt"]


def test_twice_is_exit_code_1(tmp_path):
    """A second run leaves the first one's folder as it is."""
    home = tmp_path / "ours"
    assert main(["new-class", str(home)]) == 0
    (home / "class.toml").write_text("mine")
    assert main(["new-class", str(home)]) == 1
    assert (home / "class.toml").read_text() == "mine"


@pytest.mark.parametrize("words", [[], ["a", "b"], ["a", "--force"]])
def test_wrong_usage_is_exit_code_2(tmp_path, monkeypatch, words):
    """No folder, two folders or an unknown option is wrong usage; nothing is made."""
    monkeypatch.chdir(tmp_path)
    with pytest.raises(SystemExit) as left:
        main(["new-class", *words])
    assert left.value.code == 2
    assert list(tmp_path.iterdir()) == []


def test_help_says_what_it_does(capsys):
    """The help names the folder and says that files are left alone."""
    with pytest.raises(SystemExit) as left:
        main(["new-class", "--help"])
    assert left.value.code == 0
    out = " ".join(capsys.readouterr().out.split())
    assert "Make an empty class folder to fill in." in out
    assert "a folder that holds files is left as it is" in out


def test_it_stands_in_the_list_of_commands(capsys):
    """The list of commands names it."""
    with pytest.raises(SystemExit):
        main(["--help"])
    assert "new-class" in capsys.readouterr().out
