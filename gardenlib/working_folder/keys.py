"""Keys that JupyterLab would take away from the controls of a page.

While a list, a choice or a button has the focus, JupyterLab reads single keys as
commands on cells: arrow keys move away from a choice, and a few letters insert or
delete cells.  In a learner's working folder these are switched off; all of them stay
in JupyterLab's menus.
"""

from __future__ import annotations

import json
from pathlib import Path

_ON_A_CONTROL = ".jp-Notebook.jp-mod-commandMode:not(.jp-mod-readWrite) :focus"
_TAKEN = {
    "notebook:change-cell-to-code": [["Y"]],
    "notebook:change-cell-to-markdown": [["M"]],
    "notebook:change-cell-to-raw": [["R"]],
    "notebook:copy-cell": [["C"]],
    "notebook:cut-cell": [["X"]],
    "notebook:delete-cell": [["D", "D"]],
    "notebook:insert-cell-above": [["A"]],
    "notebook:insert-cell-below": [["B"]],
    "notebook:move-cursor-down": [["ArrowDown"], ["J"]],
    "notebook:move-cursor-up": [["ArrowUp"], ["K"]],
    "notebook:move-cursor-heading-above-or-collapse": [["ArrowLeft"]],
    "notebook:move-cursor-heading-below-or-expand": [["ArrowRight"]],
    "notebook:paste-cell-below": [["V"]],
    "notebook:undo-cell-action": [["Z"]],
}
_FILE = Path("@jupyterlab") / "shortcuts-extension" / "shortcuts.jupyterlab-settings"


def free_keys(settings: Path) -> None:
    """Write JupyterLab's key settings unless there are some already."""
    target = settings / _FILE
    if target.exists():
        return
    shortcuts = [
        {"command": command, "keys": keys, "selector": _ON_A_CONTROL, "disabled": True}
        for command, all_keys in _TAKEN.items()
        for keys in all_keys
    ]
    target.parent.mkdir(parents=True, exist_ok=True)
    target.write_text(json.dumps({"shortcuts": shortcuts}, indent=1), "utf-8")
