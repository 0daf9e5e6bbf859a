"""How all tests run, and how pytest reads the pages.

A stored page holds words only, and its cells run as they do on a reader's screen.
"""

import pytest
from hypothesis import settings
from nbval.kernel import RunningKernel
from nbval.plugin import IPyNbFile

NOT_STORED = ("image/svg+xml", "text/html", "application/vnd.jupyter.widget-view+json")
_init = IPyNbFile.__init__


def _words_only(self: IPyNbFile, *args: object, **kwargs: object) -> None:
    _init(self, *args, **kwargs)
    self.skip_compare += NOT_STORED


def _as_typed(self: RunningKernel, cell_input: str, allow_stdin: bool | None = None) -> str:
    # A semicolon at the end of a line, which keeps its value unshown, is heeded only in a kernel with a history.
    return self.kc.execute(cell_input, store_history=True, allow_stdin=allow_stdin, stop_on_error=False)


IPyNbFile.__init__ = _words_only
RunningKernel.execute_cell_input = _as_typed

# The same examples in every run, and nothing kept between runs: a failure is a change in the code.
settings.register_profile("house", derandomize=True, deadline=None, database=None)
settings.load_profile("house")


@pytest.fixture
def shown(monkeypatch: pytest.MonkeyPatch) -> list[object]:
    """Collect what would be displayed."""
    calls: list[object] = []

    class Handle:
        def update(self, bundle: object, **_: object) -> None:
            calls.append(bundle)

    def display(bundle: object, **_: object) -> Handle:
        calls.append(bundle)
        return Handle()

    monkeypatch.setattr("IPython.display.display", display)
    return calls
