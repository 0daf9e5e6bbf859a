"""One class served for all tests of this folder that leave it running."""

import shutil

import pytest
from serving_harness import ADDRESS, served

from gardenlib.carried import carried

MARKUP = "<i>Invented</i> & <script>alert(1)</script>"


@pytest.fixture(scope="session")
def klass(tmp_path_factory):
    """Serve a class with one page on an address of its own beside this computer's; its title holds markup."""
    home = tmp_path_factory.mktemp("class")
    shutil.copytree(carried("data_demo"), home / "demo")
    settings = home / "demo" / "class.toml"
    text = settings.read_text("utf-8")
    settings.write_text(text.replace('title = "', f'title = "{MARKUP} ', 1), "utf-8")
    with served(home, "--network", ADDRESS) as running:
        yield running
