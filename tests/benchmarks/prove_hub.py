"""Prove the hub of docs/deploy with three learners in browsers, and measure memory and start time.

Run as ``python tests/benchmarks/prove_hub.py``, not as root; it needs jupyterhub, jupyterhub-nativeauthenticator,
jupyterhub-idle-culler, configurable-http-proxy and Chromium, and installs nothing.  Without root all learners share
one account, so what keeps accounts apart is left out.  On a machine that may be thrown away, root proves that too
with ``--system-users``: it makes the accounts that the hub makes for learners, and removes them.
"""

from __future__ import annotations

import argparse
import hashlib
import json
import os
import pwd
import subprocess
import sys
import tempfile
import time
from contextlib import ExitStack
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "browser"))
from browser_harness import PHONE, WIDE, browser, chromium, gated_page, run_all, save, screenshot
from hub_harness import Hub, missing, table
from playwright.sync_api import expect

from gardenlib import plot

KEEPER, LEARNERS, STRANGER, LOCKED = "keeper", ("elm-l01", "elm-l02", "elm-l03"), "elm-l09", "elm-l04"
PASSWORD = "three brown beans in a row"  # noqa: S105  lives as long as the proof
FIRST, PLACE, BEDS, PESTS = "00_start_here", "01_site_and_zone", "03_beds", "05_pests"
READY = "window.jupyterapp?.shell.currentWidget?.context?.isReady"
NOT_YET = "User {} has not been authorized by an administrator yet."
LONGEST_MS = 180_000
GUESS = "1"  # the first answer to the guess about risk: in 1 of 10 springs
MINE = "My own words, which nobody may write over."
# Runs a line of Python in the open page's kernel, as any learner can, and gives what it printed.
ASK = """async code => {
  const kernel = window.jupyterapp.shell.currentWidget.sessionContext.session.kernel;
  const asked = kernel.requestExecute({code}); let said = '';
  asked.onIOPub = m => { if (m.header.msg_type === 'stream') said += m.content.text; };
  await asked.done; return said.trim();
}"""
KEYS = """async () => (await window.jupyterapp.serviceManager.settings.fetch(
  '@jupyterlab/shortcuts-extension:shortcuts')).raw"""
TRY = """
def _tried(action):
    try:
        action()
    except (OSError, MemoryError) as refusal:
        return type(refusal).__name__
    return "done"
"""


class Proof:
    """What was seen, line by line."""

    def __init__(self) -> None:
        self.held = self.failed = 0

    def holds(self, what: str, *, seen: object, wanted: object) -> None:
        """Note one line."""
        if seen == wanted:
            self.held += 1
            print(f"holds: {what}", flush=True)
        else:
            self.failed += 1
            print(f"DOES NOT HOLD: {what}: wanted {wanted!r}, saw {seen!r}", flush=True)


# ---- at the door ---------------------------------------------------------------------------


def sign_up(page, hub: Hub, name: str) -> str:
    """Ask for a place; give what the hub replies."""
    page.goto(f"{hub.url}/hub/signup")
    page.fill("#username_input", name)
    page.fill("#password_input", PASSWORD)
    page.fill("#password_confirmation_input", PASSWORD)
    page.click("#signup_submit")
    return page.locator(".alert p").first.inner_text()


def knock(page, hub: Hub, name: str, password: str) -> None:
    """Type a name and a password."""
    page.goto(f"{hub.url}/hub/login")
    page.fill("#username_input", name)
    page.fill("#password_input", password)
    page.click("#login_submit")


def refused(page, hub: Hub, name: str, password: str) -> str:
    """Knock where nobody should be let in; give the hub's words."""
    knock(page, hub, name, password)
    return page.locator(".login_error").inner_text().strip()


def open_page(page, hub: Hub, name: str, notebook: str) -> None:
    """Open a page of a learner."""
    page.goto(f"{hub.url}/user/{name}/doc/tree/{notebook}.ipynb")
    page.wait_for_function(READY, timeout=LONGEST_MS)


def let_in(page, hub: Hub, proof: Proof) -> None:
    """Sign everybody up, look that nobody is in yet, and let the keeper let them in."""
    proof.holds("the keeper signs up", seen=sign_up(page, hub, KEEPER).startswith("The signup was"), wanted=True)
    for name in (*LEARNERS, STRANGER, LOCKED):
        proof.holds(
            f"{name} asks for a place",
            seen=sign_up(page, hub, name),
            wanted="Your information has been sent to the admin.",
        )
    screenshot(page, "hub_sign_up")
    for name in ("oak-l01", "root", "elm"):
        turned_away = sign_up(page, hub, name).startswith("Something went")
        proof.holds(f"a name of no class, {name}, gets no place", seen=turned_away, wanted=True)
    sorry = refused(page, hub, LEARNERS[0], PASSWORD)
    proof.holds("nobody is in before the keeper agrees", seen=sorry, wanted=NOT_YET.format(LEARNERS[0]))
    knock(page, hub, KEEPER, PASSWORD)
    page.wait_for_url("**/user/**", wait_until="commit", timeout=LONGEST_MS)
    page.goto(f"{hub.url}/hub/authorize")
    for name in (*LEARNERS, LOCKED):
        page.click(f"#{name} a:has-text('Authorize')")
        expect(page.locator(f"#{name} td").nth(2)).to_have_text("Yes")
    screenshot(page, "hub_authorize")
    page.goto(f"{hub.url}/hub/logout")


def turned_away(page, hub: Hub, proof: Proof) -> None:
    """Knock with what must not open."""
    sorry = "Invalid username or password."
    seen = refused(page, hub, LEARNERS[0], "a guessed password")
    screenshot(page, "hub_refused")
    proof.holds("a wrong password is refused", seen=seen, wanted=sorry)
    proof.holds(
        "who was not let in is refused", seen=refused(page, hub, STRANGER, PASSWORD), wanted=NOT_YET.format(STRANGER)
    )
    for _ in range(5):
        refused(page, hub, LOCKED, "a guessed password")
    proof.holds(
        "after five tries the right password waits too", seen=refused(page, hub, LOCKED, PASSWORD), wanted=sorry
    )


# ---- on the pages --------------------------------------------------------------------------


def comes_in(page, hub: Hub, name: str, waits: dict[str, list[float]], proof: Proof) -> None:
    """Sign in, open page 01, run it and wait for its first panel; note the waits."""
    page.goto(f"{hub.url}/hub/login")
    page.fill("#username_input", name)
    page.fill("#password_input", PASSWORD)
    begun = time.monotonic()
    page.click("#login_submit")
    page.wait_for_function(READY, timeout=LONGEST_MS)
    waits.setdefault("the first page stands", []).append(time.monotonic() - begun)
    proof.holds(f"{name} lands on page 00", seen=page.url.endswith(f"/doc/tree/{FIRST}.ipynb"), wanted=True)
    screenshot(page, f"hub_first_{name}")
    open_page(page, hub, name, PLACE)
    proof.holds(f"{name}: page 01 runs without a fault", seen=run_all(page), wanted=[])
    page.locator(".gl-panel .gl-finding:visible, .gl-panel .gl-guess:visible").first.wait_for()
    waits.setdefault("a panel of page 01 is drawn, all cells run", []).append(time.monotonic() - begun)
    waits.setdefault("  of which this learner's server and kernels", []).append(hub.worked_s(name))


def guesses(page, folder: Path, proof: Proof) -> None:
    """Keep a guess and see the picture come."""
    panel = page.locator(".gl-panel").nth(1)
    panel.locator("input[type=radio]").first.check()
    panel.get_by_role("button", name="Keep my guess").click()
    panel.locator("svg[role=img]:visible").first.wait_for()
    screenshot(page, "hub_guess")
    proof.holds("the guess is in the learner's own plot file", seen=_guess(folder), wanted=GUESS)


def _guess(folder: Path) -> object:
    return plot.read(folder / "my_plot.json").guesses.get("01.risk.guess")


def writes_into_a_page(page, hub: Hub, name: str, notebook: str) -> None:
    """Change a page's words and save it."""
    open_page(page, hub, name, notebook)
    page.evaluate(
        "words => window.jupyterapp.shell.currentWidget.content.widgets[0].model.sharedModel.setSource(words)", MINE
    )
    save(page)


def marks(folder: Path) -> dict[str, str]:
    """Mark each page and the plot file of a learner by its bytes."""
    files = [*folder.glob("*.ipynb"), *folder.glob("*.json")]
    return {path.name: hashlib.sha256(path.read_bytes()).hexdigest() for path in files}


def pretend_older(folder: Path, name: str) -> None:
    """Note a page as laid out in an earlier form, as if the hub's library had been renewed since."""
    record = folder / ".workbook" / "laid_out.json"
    laid_out = json.loads(record.read_text("utf-8"))
    record.write_text(json.dumps({**laid_out, f"{name}.ipynb": "an earlier form"}), "utf-8")


# ---- what a learner must not reach ------------------------------------------------------------


def token_of(page, hub: Hub, name: str) -> str:
    """Get a token with all that a learner may do, as any learner can."""
    page.goto(f"{hub.url}/hub/home")
    return page.evaluate(
        """async name => (await (await fetch(`/hub/api/users/${name}/tokens?_xsrf=${window.jhdata.xsrf_token}`,
        {method: 'POST', body: '{}', headers: {'Content-Type': 'application/json'}})).json()).token""",
        name,
    )


def stays_out(page, hub: Hub, proof: Proof) -> None:
    """Let the second learner try for the first one's files and the class's keys."""
    first, second = LEARNERS[0], LEARNERS[1]
    token = token_of(page, hub, second)
    own, other = f"/user/{second}/api", f"/user/{first}/api"
    proof.holds("a learner's token opens the own files", seen=hub.status(f"{own}/contents", token=token), wanted=200)
    proof.holds("and not another's", seen=hub.status(f"{other}/contents", token=token), wanted=403)
    proof.holds("without a token there is nothing", seen=hub.status(f"{own}/contents"), wanted=403)
    proof.holds("there is no terminal", seen=hub.status(f"{own}/terminals", token=token, post=True), wanted=404)
    for path in ("..%2F.profile", "..%2F..%2Fclasses%2Felm%2Flearners.csv"):
        proof.holds(
            f"nothing outside the folder: {path}", seen=hub.status(f"{own}/contents/{path}", token=token), wanted=404
        )
    page.goto(f"{hub.url}/user/{first}/doc/tree/{PLACE}.ipynb")
    screenshot(page, "hub_other_refused")
    proof.holds(
        "in the browser another's page is refused", seen="403" in page.locator("h1").first.inner_text(), wanted=True
    )
    copied = hub.home / "for_learners" / "elm"
    held = sorted(path.name for path in copied.rglob("*") if path.is_file())
    proof.holds("the copy has no learners, packs, keys", seen={"learners.csv", "key.csv"} & set(held), wanted=set())
    open_page(page, hub, second, PLACE)
    run_all(page)
    keys = page.evaluate(KEYS)
    proof.holds(
        "the keys of the controls are free, as on a laptop", seen="notebook:delete-cell" in (keys or ""), wanted=True
    )
    proof.holds("memory has an end", seen=_try(page, "bytearray(2 << 30)"), wanted="MemoryError")
    if hub.accounts:
        closed = {
            "the list of learners": hub.home / "classes" / "elm" / "learners.csv",
            "the key": hub.keys,
            "another's plot": hub.folder(first) / "my_plot.json",
            "the hub's state": hub.home / "state" / "hub.sqlite",
        }
        for what, path in closed.items():
            seen = _try(page, f"open({str(path)!r})") if path.exists() else "nothing there"
            proof.holds(f"Python on a page cannot open {what}", seen=seen, wanted="PermissionError")
        sites = copied / "sites.csv"
        proof.holds("it reads the copy of the class", seen=_try(page, f"open({str(sites)!r})"), wanted="done")
        proof.holds("and cannot write there", seen=_try(page, f"open({str(sites)!r}, 'a')"), wanted="PermissionError")
    else:
        print("left out: all learners share one account here, so nothing keeps Python on a page from other files")


def _try(page, action: str) -> str:
    return page.evaluate(ASK, f"{TRY}\nprint(_tried(lambda: {action}))")


# ---- the proof ---------------------------------------------------------------------------------


def first_day(running, hub: Hub, proof: Proof) -> tuple[dict[str, list[float]], list[tuple[str, float, float]]]:
    """Let three learners in, one after another, and let the first one work."""
    waits: dict[str, list[float]] = {}
    with ExitStack() as open_tabs:
        desk = open_tabs.enter_context(gated_page(running, WIDE))
        let_in(desk, hub, proof)
        turned_away(desk, hub, proof)
        tabs = {name: open_tabs.enter_context(gated_page(running, WIDE)) for name in LEARNERS}
        for name, tab in tabs.items():
            comes_in(tab, hub, name, waits, proof)
        first, *others = LEARNERS
        before = {name: marks(hub.folder(name)) for name in others}
        guesses(tabs[first], hub.folder(first), proof)
        memory = hub.memory()  # the first learner's page has drawn its picture, the others' ask for a guess
        writes_into_a_page(tabs[first], hub, first, BEDS)
        own = marks(hub.folder(first))
        for name in others:
            proof.holds(f"{name}'s files are as they were", seen=marks(hub.folder(name)), wanted=before[name])
            differs = {file for file, mark in own.items() if before[name].get(file) != mark}
            proof.holds(
                f"and are not the first learner's, {name}",
                seen={f"{BEDS}.ipynb", "my_plot.json"} <= differs,
                wanted=True,
            )
        stays_out(tabs[others[0]], hub, proof)
        with gated_page(running, PHONE) as phone:
            knock(phone, hub, first, PASSWORD)
            phone.wait_for_function(READY, timeout=LONGEST_MS)
            open_page(phone, hub, first, PLACE)
            run_all(phone)
            screenshot(phone, "hub_phone")
            proof.holds("a phone asks no other computer", seen=phone.outside, wanted=[])
        for name, tab in {KEEPER: desk, **tabs}.items():
            proof.holds(f"{name}'s browser asks no other computer", seen=tab.outside, wanted=[])
    return waits, memory


def next_day(running, hub: Hub, proof: Proof) -> list[float]:
    """Let all three come at once after the hub was stopped; then let them go away."""
    waits: dict[str, list[float]] = {}
    first, *others = LEARNERS
    with ExitStack() as open_tabs:
        tabs = {name: open_tabs.enter_context(gated_page(running, WIDE)) for name in LEARNERS}
        begun = time.monotonic()
        for name, tab in tabs.items():
            knock(tab, hub, name, PASSWORD)
        for tab in tabs.values():
            tab.wait_for_function(READY, timeout=LONGEST_MS)
            waits.setdefault("all", []).append(time.monotonic() - begun)
        proof.holds("the guess is still there", seen=_guess(hub.folder(first)), wanted=GUESS)
        open_page(tabs[first], hub, first, PLACE)
        proof.holds("page 01 runs again", seen=run_all(tabs[first]), wanted=[])
        tabs[first].locator(".gl-panel").nth(1).locator("svg[role=img]:visible").first.wait_for()
        screenshot(tabs[first], "hub_next_day")
        kept = (hub.folder(first) / f"{BEDS}.ipynb").read_text("utf-8")
        proof.holds("the changed page was not written over", seen=MINE in kept, wanted=True)
        beside = (hub.folder(first) / f"{BEDS}_new.ipynb").is_file()
        proof.holds("its new form lies beside it", seen=beside, wanted=True)
        renewed = "earlier words" not in (hub.folder(others[0]) / f"{PESTS}.ipynb").read_text("utf-8")
        proof.holds("a page that nobody changed was renewed", seen=renewed, wanted=True)
        proof.holds("three servers run", seen=sorted(hub.servers()), wanted=sorted(LEARNERS))
    until = time.monotonic() + 120
    while hub.servers() and time.monotonic() < until:
        time.sleep(1)
    proof.holds("servers of those who left are stopped", seen=list(hub.servers()), wanted=[])
    return waits["all"]


def library_is_renewed(hub: Hub) -> None:
    """Make it look as if pages had come in a new form overnight: one changed by its learner, one left alone."""
    from gardenlib.working_folder.lay_out import page_mark

    first, second, *_ = LEARNERS
    pretend_older(hub.folder(first), BEDS)
    page = hub.folder(second) / f"{PESTS}.ipynb"
    book = json.loads(page.read_text("utf-8"))
    book["cells"][0]["source"] = ["earlier words"]
    page.write_text(json.dumps(book), "utf-8")
    record = page.parent / ".workbook" / "laid_out.json"
    laid_out = json.loads(record.read_text("utf-8"))
    record.write_text(json.dumps({**laid_out, page.name: page_mark(page.read_bytes())}), "utf-8")


def accounts() -> list[str]:
    """List the accounts of the proof that this machine has."""
    names = {account.pw_name for account in pwd.getpwall()}
    return [name for name in (KEEPER, *LEARNERS, STRANGER, LOCKED) if name in names]


def main() -> int:
    """Run the whole proof and print what was measured."""
    parse = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parse.add_argument("--system-users", action="store_true", help="make accounts of this machine, and remove them")
    asked, path = parse.parse_args(), chromium()
    if lacking := missing(path):
        parse.error(f"The proof needs these, which are missing here: {', '.join(lacking)}.")
    if asked.system_users != (os.geteuid() == 0):
        parse.error("Run it as root with --system-users on a machine to throw away, or not as root and without it.")
    if asked.system_users and accounts():
        parse.error(f"These accounts are here already and would be in the way: {', '.join(accounts())}.")
    proof = Proof()
    with tempfile.TemporaryDirectory(prefix="hub") as home, browser(path) as running:
        hub = Hub(Path(home), accounts=asked.system_users)
        hub.lay_out()
        try:
            with hub.running():
                waits, memory = first_day(running, hub, proof)
            library_is_renewed(hub)
            with hub.running(impatient=True):
                waits["the first page stands, three at once"] = next_day(running, hub, proof)
        except BaseException:
            print((hub.home / "hub.log").read_text("utf-8")[-4000:], file=sys.stderr)
            raise
        finally:
            for name in accounts() if asked.system_users else []:
                subprocess.run(["deluser", "--quiet", "--remove-home", name], check=False)
    print(f"\n{proof.held} lines hold, {proof.failed} do not.\n\n{table(waits, memory)}")
    return int(proof.failed > 0)


if __name__ == "__main__":
    sys.exit(main())
