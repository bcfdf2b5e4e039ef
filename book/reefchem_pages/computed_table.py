"""Tables of computed rows, written as MyST and parsed in place."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, ClassVar

from docutils import nodes
from docutils.statemachine import StringList
from sphinx.util.docutils import SphinxDirective

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

__all__ = ["ComputedTable", "parsed", "table_lines"]


def table_lines(
    head: tuple[str, ...], rows: Iterable[Iterable[Any]], rule: Iterable[str] | None = None
) -> list[str]:
    """Return a table as MyST; every column begins at the left unless `rule` says otherwise."""
    return [
        "| " + " | ".join(str(cell).replace("|", "\\|") for cell in cells) + " |"
        for cells in (head, rule or ["---"] * len(head), *rows)
    ]


def parsed(directive: SphinxDirective, lines: list[str], source: str = "") -> list[nodes.Node]:
    """Return lines of MyST as part of the page; `source` is their file where it is another."""
    box = nodes.container()
    text = StringList(lines, source or directive.get_source_info()[0])
    directive.state.nested_parse(text, 0, box)
    return list(box.children)


class ComputedTable(SphinxDirective):
    """A table of computed rows."""

    HEAD: ClassVar[tuple[str, ...]] = ()
    LABEL: ClassVar[str] = ""
    WORDS: ClassVar[frozenset[str]] = frozenset()  # heads of columns that hold words

    def rows(self) -> Iterator[tuple[str, ...]]:
        """Return the rows of the table."""
        raise NotImplementedError

    def run(self) -> list[nodes.Node]:
        """Return the table in a box that scrolls where the page is narrow."""
        rule = ["---" if name in self.WORDS else "---:" for name in self.HEAD]
        table = parsed(self, table_lines(self.HEAD, self.rows(), rule))
        label = f"{self.LABEL} {' '.join(self.arguments)}".strip()
        box = f'<div class="wide computed-table" tabindex="0" role="region" aria-label="{label}">'
        return [
            nodes.raw("", box, format="html"),
            *table,
            nodes.raw("", "</div>", format="html"),
        ]
