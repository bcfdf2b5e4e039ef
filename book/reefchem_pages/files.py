"""A directive of this book that prints what the files of a tank may hold.

``{file-table}`` takes the name of one of `reefchem.tank.fields.FILE_TABLES`.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from docutils import nodes
from sphinx.util.docutils import SphinxDirective

from reefchem.tank.fields import FILE_TABLES, file_table

if TYPE_CHECKING:
    from sphinx.application import Sphinx

__all__ = ["setup"]


class FileTable(SphinxDirective):
    """A table of keys or columns, with the sentence that introduces it."""

    required_arguments = 1

    def run(self) -> list[nodes.Node]:
        """Return sentence and table."""
        name = self.arguments[0]
        if name not in FILE_TABLES:
            msg = f"{name!r} is none of {', '.join(FILE_TABLES)}"
            raise self.error(msg)
        sentence, headings = FILE_TABLES[name]
        group = nodes.tgroup(cols=len(headings))
        group += [nodes.colspec(colwidth=1) for _ in headings]
        group += nodes.thead("", _row(headings, code=False))
        group += nodes.tbody("", *(_row(row, code=True) for row in file_table(name)))
        return [nodes.paragraph("", sentence), nodes.table("", group)]


def _row(cells: tuple[str, ...], *, code: bool) -> nodes.row:
    """Return a row; its first cell is what is typed into the file."""
    row = nodes.row()
    for number, cell in enumerate(cells):
        typed = code and number == 0
        words = nodes.literal("", cell) if typed else nodes.Text(cell)
        row += nodes.entry("", nodes.paragraph("", "", words))
    return row


def setup(app: Sphinx) -> dict[str, Any]:
    """Register the directive."""
    app.add_directive("file-table", FileTable)
    return {"version": "1", "parallel_read_safe": True, "parallel_write_safe": True}
