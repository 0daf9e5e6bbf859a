"""The imports that leave out a grammar of web addresses."""

import subprocess
import sys

import pytest


def _told(code: str) -> list[str]:
    done = subprocess.run([sys.executable, "-W", "error", "-c", code], capture_output=True, text=True, check=True)
    return done.stdout.splitlines()


def test_the_quick_import_is_still_needed():
    """Altair alone still builds the grammar of web addresses; once it does not, `gardenlib.quick` can go."""
    assert _told("import sys, altair; print('rfc3987_syntax' in sys.modules)") == ["True"]


@pytest.mark.parametrize("module", ["gardenlib.charts.quick_altair", "gardenlib.working_folder.lab"])
def test_the_quick_import_skips_the_grammar_and_hides_nothing(module):
    """Imported our way no grammar is built, for charts and for the pages' server, and the module can be had after."""
    code = f"import sys, {module}; print('jsonschema' in sys.modules, 'lark' in sys.modules);"
    assert _told(code + "import rfc3987_syntax; print('back')") == ["True False", "back"]
