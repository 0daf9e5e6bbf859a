"""A browser at JupyterLab, refused everything beyond this machine."""

import os

import pytest
from browser_harness import PHONE, WIDE, browser, chromium, gated_page, jupyterlab, working_copy


@pytest.fixture(scope="session")
def chrome():
    """Give a running browser; without one the tests are skipped, or fail where it is required."""
    path = chromium()
    if path is None:
        reason = "no Chromium found: install it, or name it in GARDENLIB_CHROMIUM"
        if os.environ.get("GARDENLIB_BROWSER") == "required":
            pytest.fail(reason)
        pytest.skip(reason)
    with browser(path) as running:
        yield running


@pytest.fixture(scope="session")
def folder(tmp_path_factory):
    """Give a working folder of its own with the pages and the demo class."""
    return working_copy(tmp_path_factory.mktemp("working_folder"))


@pytest.fixture(scope="session")
def lab(folder, chrome):
    """Serve the working folder; give the address."""
    with jupyterlab(folder) as url:
        yield url


def _at_home(chrome, viewport):
    with gated_page(chrome, viewport) as page:
        yield page
        assert page.outside == [], f"the page asked for {page.outside}"


@pytest.fixture
def page(chrome):
    """Give a tab as wide as a laptop; a request to the internet fails the test."""
    yield from _at_home(chrome, WIDE)


@pytest.fixture
def phone(chrome):
    """Give a tab as wide as a phone; a request to the internet fails the test."""
    yield from _at_home(chrome, PHONE)
