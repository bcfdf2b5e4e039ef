"""The directives ``relation``, ``all-relations``, ``relation-index``: records and their uses."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

from docutils import nodes

from reefchem.formula.equation import equation
from reefchem.formula.units import plain_unit
from reefchem.textbook.entries import listed, relative
from reefchem.textbook.mathml import math_inline
from reefchem.textbook.steps import formula_of
from reefchem.textbook.templating import TextbookDirective
from reefchem.textbook.worked_example import code_behind

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from reefchem.core.record import Record

__all__ = ["AllRelations", "RelationDirective", "RelationIndex", "relation_view"]


def relation_view(record: Record) -> dict[str, Any]:
    """Return what a template shows of a relation."""
    traced = equation(record)
    return {
        "record": record,
        "formula": formula_of(record),
        "symbol": math_inline(record.symbol),
        "unit": plain_unit(record.unit),
        "symbols": {name: math_inline(a.symbol) for name, a in record.arguments.items()},
        "called": sorted({call.record.name for call in traced.calls()}),
        "about": _about(record),
    }


def _about(record: Record) -> str:
    """Return the summary as a noun phrase: "Return the density ..." is "The density ..."."""
    text = record.summary.removeprefix("Return ")
    return text[:1].upper() + text[1:]


class RelationDirective(TextbookDirective):
    """Show one relation in a chapter; the argument is its name."""

    required_arguments = 1

    def run(self) -> Sequence[nodes.Node]:
        """Return the relation as part of the page."""
        record = self.found("relation", self.catalogue.records)
        self.depend_on(*code_behind([record]))
        return self.html("relation.html", **relation_view(record))


class AllRelations(TextbookDirective):
    """List relations by module, each with the pages, examples and exercises that use it.

    The argument is the package or module whose relations are listed; without it, all are.
    """

    optional_arguments = 1

    def run(self) -> Sequence[nodes.Node]:
        """Return a section for each module."""
        catalogue = self.catalogue
        prefix = self.arguments[0] if self.arguments else ""
        by_module = self.by_module(prefix)
        if not by_module:
            msg = f"no relation is in {prefix!r}"
            raise self.error(msg)
        self.depend_on(*code_behind(r for records in by_module.values() for r in records))
        self.depend_on(*sorted(catalogue.examples_folder.glob("*.toml")))
        self.depend_on(*sorted(catalogue.exercises_folder.glob("*.toml")))
        for page in {mention.page for mention in catalogue.mentions}:
            self.depend_on(Path(self.env.srcdir) / page)
        return self.sections(by_module, self._entries)

    def sections(
        self,
        by_module: dict[str, list[Record]],
        content: Callable[[list[Record]], list[nodes.Node]],
    ) -> list[nodes.Node]:
        """Return a section for each module with what `content` makes of its relations."""
        made: list[nodes.Node] = []
        for module, records in by_module.items():
            section = nodes.section(ids=[module.replace(".", "-")], names=[module])
            title = (sys.modules[module].__doc__ or module).strip().partition("\n")[0]
            section += nodes.title("", title.rstrip("."))
            section += content(records)
            made.append(section)
        return made

    def by_module(self, prefix: str = "") -> dict[str, list[Record]]:
        """Return the relations of a package or module, by module."""
        found: dict[str, list[Record]] = {}
        for record in self.catalogue.records.values():
            if listed(record.module, prefix):
                found.setdefault(record.module, []).append(record)
        return dict(sorted(found.items()))

    def _entries(self, records: list[Record]) -> list[nodes.Node]:
        made: list[nodes.Node] = []
        for record in records:
            view = relation_view(record)
            made += self.html("relation_entry.html", **view, uses=self._uses(record))
        return made

    def _uses(self, record: Record) -> list[dict[str, str]]:
        catalogue = self.catalogue
        named = [
            ("worked-example", made.example.id, "example", made.example.title)
            for made in catalogue.examples_of(record.name)
        ]
        named += [
            ("exercise", exercise.id, "exercise", f"{exercise.title} (exercise)")
            for exercise in catalogue.exercises_of(record.name)
        ]
        named += [(kind, record.name, kind, "") for kind in ("relation", "derivation")]
        return [
            {
                "address": f"{relative(self.env.app, self.env.docname, page)}#{anchor}-{name}",
                "title": title or f"{catalogue.titles[page]} ({kind})",
            }
            for kind, name, anchor, title in named
            for page in catalogue.pages(kind, name)
        ]


class RelationIndex(AllRelations):
    """List the names of all relations by module, each with an anchor and a link to its entry."""

    optional_arguments = 0

    def run(self) -> Sequence[nodes.Node]:
        """Return the list."""
        by_module = self.by_module()
        self.depend_on(*(sys.modules[module].__file__ for module in by_module))
        return self.sections(by_module, self._names)

    def _names(self, records: list[Record]) -> list[nodes.Node]:
        rows = [(record.name, _about(record)) for record in records]
        anchored = self.env.app.builder.name != "singlehtml"  # there the entry has the anchor
        return self.html("relation_index.html", rows=rows, anchored=anchored)
