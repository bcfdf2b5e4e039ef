"""The directives ``relation`` and ``all-relations``: what the record says, and where it is used."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

from docutils import nodes

from reefchem.formula.equation import equation
from reefchem.formula.units import plain_unit
from reefchem.textbook.mathml import math_inline
from reefchem.textbook.steps import formula_of
from reefchem.textbook.templating import TextbookDirective, relative
from reefchem.textbook.worked_example import code_behind

if TYPE_CHECKING:
    from collections.abc import Sequence

    from reefchem.core.record import Record

__all__ = ["AllRelations", "RelationDirective", "relation_view"]


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
    """List every relation by module, each with the pages and examples that use it."""

    def run(self) -> Sequence[nodes.Node]:
        """Return a section for each module."""
        catalogue = self.catalogue
        self.depend_on(*code_behind(catalogue.records.values()))
        self.depend_on(*sorted(catalogue.examples_folder.glob("*.toml")))
        for page in {mention.page for mention in catalogue.mentions}:
            self.depend_on(Path(self.env.srcdir) / page)
        by_module: dict[str, list[Record]] = {}
        for record in catalogue.records.values():
            by_module.setdefault(record.module, []).append(record)
        made: list[nodes.Node] = []
        for module, records in sorted(by_module.items()):
            title = (sys.modules[module].__doc__ or module).strip().partition("\n")[0].rstrip(".")
            section = nodes.section(ids=[module.replace(".", "-")], names=[module])
            section += nodes.title("", title)
            for record in records:
                view = relation_view(record)
                section += self.html("relation_entry.html", **view, uses=self._uses(record))
            made.append(section)
        return made

    def _uses(self, record: Record) -> list[dict[str, str]]:
        catalogue, app, here = self.catalogue, self.env.app, self.env.docname
        uses = []
        for outcome in catalogue.examples_of(record.name):
            for page in catalogue.pages("worked-example", outcome.example.id):
                address = f"{relative(app, here, page)}#example-{outcome.example.id}"
                uses.append({"address": address, "title": outcome.example.title})
        for kind in ("relation", "derivation"):
            for page in catalogue.pages(kind, record.name):
                address = f"{relative(app, here, page)}#{kind}-{record.name}"
                uses.append({"address": address, "title": f"{page.rpartition('/')[2]} ({kind})"})
        return uses
