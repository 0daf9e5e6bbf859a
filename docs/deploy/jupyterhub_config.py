"""JupyterHub for garden classes on one Linux server; index.md beside this file says how to set it up.

Each class has a folder in ``classes``; a learner's name on the hub is the class and the learner, such as
``elm-l01``.  Learners read a copy of the class without its list of learners, its packs and its keys.
"""

import os
import re
import shutil
import sys
from pathlib import Path

from jupyterhub.auth import LocalAuthenticator
from nativeauthenticator import NativeAuthenticator

from gardenlib import InputProblem, class_folder
from gardenlib.working_folder import FIRST_PAGE

HERE = Path(__file__).resolve().parent
HOME = Path(os.environ.get("GARDEN_HUB", "/srv/garden"))
CLASSES, FOR_LEARNERS, STATE = HOME / "classes", HOME / "for_learners", HOME / "state"
CLASS_NAME = r"[a-z][a-z0-9]{1,15}"
KEEPER = "keeper"  # signs up first, and lets the others in
FOR_PAGES = ("class.toml", "class_plot.json", "crops.csv", "normals_monthly.csv", "plots.csv", "sites.csv")


def copy_for_learners(source: Path, target: Path) -> None:
    """Copy what the pages need of a class, whole or not at all; a class that cannot be read stays as it was."""
    try:
        sites = class_folder.read(source).sites.values()
    except InputProblem as problem:
        print(f"{source.name}: {problem}", file=sys.stderr, flush=True)
        return
    records = [path for site in sites for path in (site.station_file, site.normals_file) if path]
    tables = [source / name for name in (*FOR_PAGES, "words_local.csv") if (source / name).is_file()]
    new = target.with_name(f".{target.name}")
    shutil.rmtree(new, ignore_errors=True)
    for path in (*tables, *records):
        place = new / path.relative_to(source)
        place.parent.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(path, place)
    shutil.rmtree(target, ignore_errors=True)
    new.rename(target)


for folder, mode in ((CLASSES, 0o700), (STATE, 0o700), (FOR_LEARNERS, 0o755)):
    folder.mkdir(parents=True, exist_ok=True)
    folder.chmod(mode)
os.umask(0o022)
found = sorted(path.name for path in CLASSES.iterdir() if path.is_dir() and re.fullmatch(CLASS_NAME, path.name))
for name in found:
    copy_for_learners(CLASSES / name, FOR_LEARNERS / name)
classes = [name for name in found if (FOR_LEARNERS / name).is_dir()]


class Door(NativeAuthenticator, LocalAuthenticator):
    """Names and passwords of the hub's own; whoever is let in gets an account of this server."""


def class_of(spawner) -> str:
    """Find the copy of a learner's class; the keeper has none and sees the invented demo class."""
    name = spawner.user.name.partition("-")[0]
    return str(FOR_LEARNERS / name) if name in classes else ""


c = get_config()  # noqa: F821  JupyterHub gives it

# Who comes in: the names of a class alone, each let in by the keeper.
c.JupyterHub.authenticator_class = Door
c.Authenticator.admin_users = {KEEPER}
c.Authenticator.username_pattern = rf"({'|'.join(classes)})-[a-z0-9]{{1,12}}|{KEEPER}"
c.Authenticator.allow_all = True  # all whom the keeper has let in; a name listed here instead would need no keeper
c.NativeAuthenticator.open_signup = False
c.NativeAuthenticator.minimum_password_length = 10
c.NativeAuthenticator.check_common_password = True
c.NativeAuthenticator.allowed_failed_logins = 5
c.NativeAuthenticator.seconds_before_next_try = 600
c.LocalAuthenticator.create_system_users = True
c.LocalAuthenticator.add_user_cmd = ["adduser", "--quiet", "--gecos", "", "--disabled-password"]

# Where it listens: to this server alone.  The program that holds the certificate stands before it.
c.JupyterHub.bind_url = "http://127.0.0.1:8000"
c.JupyterHub.db_url = f"sqlite:///{STATE / 'hub.sqlite'}"
c.JupyterHub.cookie_secret_file = str(STATE / "cookie_secret")
c.ConfigurableHTTPProxy.pid_file = str(STATE / "proxy.pid")

# What a learner gets: pages of their own, under an account of their own.
c.JupyterHub.spawner_class = "jupyterhub.spawner.LocalProcessSpawner"
c.Spawner.cmd = [sys.executable, str(HERE / "learner_server.py")]
c.Spawner.default_url = f"/doc/tree/{FIRST_PAGE}.ipynb"
c.Spawner.environment = {"GARDEN_CLASS": class_of}
c.Spawner.disable_user_config = True
c.Spawner.mem_limit = "1G"
c.Spawner.start_timeout = c.Spawner.http_timeout = 120  # seconds; a whole class may come at once

# What the server can bear.
c.JupyterHub.active_server_limit = 60  # learners at once; see the arithmetic in index.md
c.JupyterHub.concurrent_spawn_limit = 8
c.JupyterHub.shutdown_on_logout = True
c.JupyterHub.services = [
    {
        "name": "idle-culler",
        "command": [sys.executable, "-m", "jupyterhub_idle_culler", "--timeout=3600"],  # seconds
    }
]
c.JupyterHub.load_roles = [
    {
        "name": "idle-culler",
        "scopes": ["list:users", "read:users:activity", "read:servers", "delete:servers"],
        "services": ["idle-culler"],
    }
]
