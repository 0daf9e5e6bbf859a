"""How long a reader waits for a picture after moving a control, beside a bare slider with a bare chart.

Run as ``python tests/benchmarks/bench_page.py PAGE.ipynb CONTROL KEY PICTURE``: a page of the notebooks folder, the
selector of the control that gets the key (such as ``ArrowRight`` or ``ArrowDown``), and the selector of what is
redrawn.  Both sides are measured in one run; without arguments only the bare one is.  A guess that hides the picture
is stored beforehand with ``--plot FILE``, a plot file that the page reads in place of its own.
"""

from __future__ import annotations

import argparse
import json
import shutil
import sys
from pathlib import Path
from statistics import median, quantiles
from tempfile import TemporaryDirectory

import nbformat

sys.path.insert(0, str(Path(__file__).parents[1] / "browser"))
from browser_harness import WIDE, browser, chromium, gated_page, jupyterlab, open_notebook, run_all, working_copy

STEPS, WARM_UP, LIMIT_MS = 20, 2, 100

BARE = """
import ipywidgets, vl_convert, altair
slider = ipywidgets.IntSlider(value=3, min=0, max=50)
picture = ipywidgets.HTML()
def draw(change=None):
    bars = altair.Chart(altair.Data(values=[{"x": n, "y": n * slider.value} for n in range(10)]))
    spec = bars.mark_bar().encode(x="x:O", y="y:Q").properties(title=f"step {slider.value}").to_dict()
    picture.value = f'<div class="bare">{vl_convert.vegalite_to_svg(spec, vl_version="6.4")}</div>'
slider.observe(draw, "value")
draw()
ipywidgets.VBox([slider, picture])
"""

# From the key going down in the page to the first frame after the picture has changed.
STEP = """([picture, control]) => new Promise((done, fail) => {
  const target = document.querySelector(picture), before = target.innerHTML;
  let start;
  const press = () => { start = performance.now(); };
  window.addEventListener('keydown', press, {capture: true, once: true});
  window.__gone = setTimeout(() => { watch.disconnect(); fail(new Error('the picture did not change')); }, 5000);
  const watch = new MutationObserver(() => {
    const now = document.querySelector(picture);
    if (start === undefined || !now || now.innerHTML === before) return;
    watch.disconnect(); clearTimeout(window.__gone);
    requestAnimationFrame(() => done(performance.now() - start));
  });
  watch.observe(document.body, {subtree: true, childList: true, characterData: true, attributes: true});
})"""


def waits_ms(page, control: str, key: str, picture: str) -> list[float]:
    """Press a key on a control and time the picture, again and again, turning back at the control's end."""
    page.wait_for_selector(picture)
    back = {"ArrowRight": "ArrowLeft", "ArrowDown": "ArrowUp", "ArrowUp": "ArrowDown", "ArrowLeft": "ArrowRight"}
    found = []
    for number in range(WARM_UP + STEPS):
        page.locator(control).first.focus()
        page.evaluate(f"([p, c]) => {{ window.__step = ({STEP})([p, c]); }}", [picture, control])
        page.keyboard.press(key if number % 2 == 0 else back.get(key, key))
        found.append(page.evaluate("() => window.__step"))
        page.wait_for_timeout(150)
    return found[WARM_UP:]


def told(name: str, waits: list[float]) -> str:
    """Write one side as a line."""
    return f"{name:40s} median {median(waits):5.0f} ms   9 in 10 within {quantiles(waits, n=10)[-1]:5.0f} ms"


def main() -> int:
    """Measure both sides in one run; 1 when the page's median is over the limit."""
    parse = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parse.add_argument("page", nargs="?")
    parse.add_argument("control", nargs="?")
    parse.add_argument("key", nargs="?", default="ArrowRight")
    parse.add_argument("picture", nargs="?", default=".gl-chart")
    parse.add_argument("--plot", type=Path, help="a plot file with the guesses that the page asks for")
    parse.add_argument("--fold", help="the words on a fold to open first; control and picture may then stand inside it")
    asked = parse.parse_args()
    path = chromium()
    if path is None:
        parse.error("no Chromium found: install it, or name it in GARDENLIB_CHROMIUM")
    with TemporaryDirectory(prefix="gb") as home:
        folder = working_copy(Path(home) / "w")
        book = nbformat.v4.new_notebook(cells=[nbformat.v4.new_code_cell(BARE.strip())])
        book.metadata.kernelspec = {"name": "python3", "display_name": "Python 3", "language": "python"}
        nbformat.write(book, folder / "bare.ipynb")
        sides = [("bare.ipynb", ".noUi-handle", "ArrowRight", ".bare")]
        if asked.page:
            sides.append((asked.page, asked.control, asked.key, asked.picture))
            if asked.plot:
                _give_plot(folder, asked.page, asked.plot)
        with jupyterlab(folder) as url, browser(path) as running:
            for name, control, key, picture in sides:
                with gated_page(running, WIDE) as page:
                    open_notebook(page, url, name)
                    errors = run_all(page)
                    if errors:
                        raise RuntimeError(f"{name}: {errors}")
                    if asked.fold and name == asked.page:
                        page.get_by_role("button", name=asked.fold).first.click()
                        page.locator(picture).first.wait_for()
                    waits = waits_ms(page, control, key, picture)
                    print(told(f"{name} {control}", waits))
    return int(bool(asked.page) and median(waits) > LIMIT_MS)


def _give_plot(folder: Path, name: str, plot: Path) -> None:
    shutil.copy(plot, folder / "bench_plot.json")
    book = json.loads((folder / name).read_text("utf-8"))
    for cell in book["cells"]:
        if cell["id"] == "parameters":
            cell["source"] = "".join(cell["source"]) + "\nplot_file = 'bench_plot.json'"
    (folder / name).write_text(json.dumps(book), "utf-8")


if __name__ == "__main__":
    sys.exit(main())
