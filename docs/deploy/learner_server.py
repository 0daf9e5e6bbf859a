"""A learner's server on the hub: lay out the pages, then become JupyterLab.

JupyterHub starts this under the learner's own account (see jupyterhub_config.py beside it), so that
each file it writes is the learner's and nothing here is done as root.
"""

import os
import resource
import sys
from pathlib import Path

from gardenlib.working_folder import FIRST_PAGE, lab_options, prepare

if os.getuid() < 1000:
    sys.exit("This account is one of the system's, not a learner's.")
os.umask(0o077)  # what is written from here on is the learner's alone
Path.home().chmod(0o700)
most = int(os.environ["MEM_LIMIT"])  # bytes, from the hub's configuration; it holds for each process by itself
resource.setrlimit(resource.RLIMIT_DATA, (most, most))

ready = prepare(Path.home() / "garden-workbook", class_path=os.environ["GARDEN_CLASS"] or None)
for sentence in ready.told:
    print(sentence, flush=True)
os.chdir(ready.folder)
command = [
    *(sys.executable, "-m", "jupyterhub.singleuser"),
    *lab_options(ready.folder, FIRST_PAGE),
    "--ServerApp.terminals_enabled=False",
    "--MappingKernelManager.cull_idle_timeout=1200",  # seconds; a page that is still open keeps its kernel
    "--MappingKernelManager.cull_interval=60",
    *sys.argv[1:],
]
os.execv(command[0], command)  # noqa: S606  our own command
