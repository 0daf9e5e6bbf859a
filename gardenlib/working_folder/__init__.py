"""The working folder of one learner: laid out, then served with JupyterLab."""

from __future__ import annotations

from gardenlib.working_folder.prepare import Prepared, prepare
from gardenlib.working_folder.serve import FIRST_PAGE, lab_command, lab_options, open_pages

__all__ = ["FIRST_PAGE", "Prepared", "lab_command", "lab_options", "open_pages", "prepare"]
