"""One class served for all tests of this folder that leave it running."""

import pytest
from serving_harness import served


@pytest.fixture(scope="session")
def klass(tmp_path_factory):
    """Serve a class with one page."""
    with served(tmp_path_factory.mktemp("class")) as running:
        yield running
