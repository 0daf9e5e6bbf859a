"""Run a copy of a page in a folder of its own, in a worker process, and read what it shows."""

from __future__ import annotations

from contextlib import suppress
from pathlib import Path
from typing import Any

from gardenlib.words import Voice


def run_page(page: str, folder: str, parameters: dict[str, Any]) -> str:
    """Run the page with these parameters; the finished copy lies in the folder.

    An error in a cell is kept in the copy, for the test to show.
    """
    import papermill

    output = str(Path(folder) / "finished.ipynb")
    with suppress(papermill.exceptions.PapermillExecutionError):
        papermill.execute_notebook(
            page, output, parameters, cwd=folder, kernel_name="python3", progress_bar=False, execution_timeout=120
        )
    return output


def errors(page: Any) -> list[str]:
    """List the errors and warnings that a finished page shows."""
    found = []
    for cell in page.cells:
        for output in cell.get("outputs", []):
            if output.output_type == "error":
                found.append(f"{cell.id}: {output.ename}: {output.evalue}")
            elif output.output_type == "stream":
                found.append(f"{cell.id}: {output.name}: {output.text}")
    return found


def said(cell: Any) -> list[str]:
    """List what a cell says in words."""
    return [output.data["text/plain"] for output in cell.outputs if output.get("data", {}).get("text/plain")]


def results(page: Any) -> list[tuple[str, str]]:
    """Read the table that the last cell shows: pairs of words, the first flush at the right edge of its heading."""
    last = [cell for cell in page.cells if cell.cell_type == "code"][-1]
    heading, *rows = said(last)[-1].split("\n\n", 1)[1].splitlines()
    what = Voice().say("page.results_what")
    edge = heading.index(what) + len(what)
    return [(row[:edge].strip(), row[edge:].strip()) for row in rows]
