"""Two directives that take their text from the library: a room's public names, and the table of sources."""

import csv
import importlib
import inspect
from pathlib import Path

from docutils import nodes
from docutils.parsers.rst import Directive
from docutils.statemachine import StringList

SOURCES = Path(__file__).resolve().parent.parent / "gardenlib" / "tables" / "sources.csv"
STATUS = {
    "published": "Published",
    "common_practice": "Common practice, no published source",
    "memory": "Unchecked: written from memory or seen in a copy only; never used where it could hurt somebody",
}


class Room(Directive):
    """Describe every public name of a room from its docstring."""

    required_arguments = 1

    def run(self) -> list[nodes.Node]:
        """Write one autodoc directive a name and let Sphinx read them."""
        room = self.arguments[0]
        module = importlib.import_module(room)
        lines: list[str] = []
        for name in module.__all__:
            thing = getattr(module, name)
            if inspect.isclass(thing):
                lines += [f".. autoclass:: {room}.{name}", "   :members:", ""]
            elif callable(thing):
                lines += [f".. autofunction:: {room}.{name}", ""]
        holder = nodes.container()
        self.state.nested_parse(StringList(lines, room), self.content_offset, holder)
        return holder.children


class Sources(Directive):
    """List the table of sources, grouped by how far each is to be trusted."""

    def run(self) -> list[nodes.Node]:
        """Make one definition list a status."""
        self.state.document.settings.env.note_dependency(str(SOURCES))
        with SOURCES.open(encoding="utf-8", newline="") as file:
            rows = sorted(csv.DictReader(file), key=lambda row: row["citation"].casefold())
        unknown = {row["status"] for row in rows} - set(STATUS)
        if unknown:
            raise self.error(f"sources.csv has a status that the page does not explain: {unknown}")
        found: list[nodes.Node] = []
        for status, heading in STATUS.items():
            chosen = [row for row in rows if row["status"] == status]
            if chosen:
                found += [nodes.rubric(text=heading), nodes.bullet_list("", *(self._item(row) for row in chosen))]
        return found

    @staticmethod
    def _item(row: dict[str, str]) -> nodes.list_item:
        text = nodes.paragraph("", "", nodes.Text(f"{row['citation']}. Read in: {row['where_seen']}. Key "))
        text += nodes.literal(text=row["key"])
        return nodes.list_item("", text)


def _no_call(_app, what, _name, _thing, _options, _signature, _returns):
    """Leave the constructor's call away: answers are made by functions, and their fields are described below."""
    return ("", None) if what == "class" else None


def setup(app):
    """Tell Sphinx about the two directives."""
    app.connect("autodoc-process-signature", _no_call)
    app.add_directive("room", Room)
    app.add_directive("sources", Sources)
    return {"parallel_read_safe": True}
