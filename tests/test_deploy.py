"""The hub's files in docs/deploy, without a hub; the whole is proved by tests/benchmarks/prove_hub.py."""

import os
import re
import runpy
from pathlib import Path

import pytest

from gardenlib import class_folder
from gardenlib.carried import carried

resource = pytest.importorskip("resource", reason="a hub needs Linux")
DEPLOY = Path(__file__).resolve().parents[1] / "docs" / "deploy"


class StartedError(Exception):
    """Stands in for the moment at which the script becomes JupyterLab."""


@pytest.fixture
def start(tmp_path, monkeypatch):
    """Run the learner's script up to that moment, in a home of its own; give home, limits and command."""

    def run(uid=1000):
        limits, home = [], tmp_path / "home"
        home.mkdir(exist_ok=True)
        for name, value in {"HOME": home, "MEM_LIMIT": 1 << 30, "GARDEN_CLASS": carried("data_demo")}.items():
            monkeypatch.setenv(name, str(value))

        def become(_, command):
            raise StartedError(command)

        monkeypatch.setattr(os, "getuid", lambda: uid)
        monkeypatch.setattr(os, "umask", limits.append)
        monkeypatch.setattr(os, "execv", become)
        monkeypatch.setattr(resource, "setrlimit", lambda *limit: limits.append(limit))
        monkeypatch.chdir(tmp_path)
        with pytest.raises(StartedError) as started:
            runpy.run_path(str(DEPLOY / "learner_server.py"))
        return home, limits, started.value.args[0]

    return run


def test_a_learners_server_shows_the_pages_as_a_laptop_does(start):
    """Pages lie in the learner's home, closed to others; JupyterLab gets the folder's settings and no terminal."""
    home, limits, command = start()
    folder = home / "garden-workbook"
    assert (folder / "00_start_here.ipynb").is_file()
    assert class_folder.beside(folder) == carried("data_demo")
    assert home.stat().st_mode & 0o777 == 0o700
    assert limits == [0o077, (resource.RLIMIT_DATA, (1 << 30, 1 << 30))]
    assert command[1:3] == ["-m", "jupyterhub.singleuser"]
    assert f"--LabApp.user_settings_dir={folder / '.workbook' / 'user_settings'}" in command
    assert "--ServerApp.terminals_enabled=False" in command
    assert not any(word.startswith(("--ServerApp.port=", "--ServerApp.ip=", "--allow-root")) for word in command)


@pytest.mark.parametrize("uid", [0, 33, 999])
def test_no_server_runs_under_an_account_of_the_system(start, uid):
    """Ordinary accounts begin at 1000 (Debian policy, 9.2.2); below it nothing is started."""
    with pytest.raises(SystemExit, match="not a learner's"):
        start(uid)


def test_the_hub_hands_out_no_list_of_learners():
    """Of all tables that a class folder may have, the copy for learners lacks the list of learners alone."""
    text = (DEPLOY / "jupyterhub_config.py").read_text("utf-8")
    named = set(re.findall(r'"([a-z_]+\.(?:csv|toml|json))"', text))
    there = {path.name for path in carried("data_demo").iterdir() if path.suffix in {".csv", ".toml", ".json"}}
    assert named == there - {"learners.csv"}
