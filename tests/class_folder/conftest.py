"""The demo class, to be changed at will."""

import shutil
from pathlib import Path

import pytest

from gardenlib.carried import carried


@pytest.fixture
def demo(tmp_path):
    """Copy the demo class."""
    return Path(shutil.copytree(carried("data_demo"), tmp_path / "demo"))
