"""The directives ``traceability``, ``misprints`` and ``symbols``: tables made from all there is."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from reefchem.textbook.mathml import math_inline
from reefchem.textbook.templating import TextbookDirective
from reefchem.textbook.worked_example import code_behind

if TYPE_CHECKING:
    from collections.abc import Sequence

    from docutils import nodes

    from reefchem.core.record import Record
    from reefchem.textbook.catalogue import Catalogue

__all__ = ["Misprints", "Symbols", "Trace", "Traceability", "traces"]


@dataclass(frozen=True)
class Trace:
    """One row: a relation, and how far it is from what others printed.

    Attributes
    ----------
    checks
        Number of published values and worked examples.
    largest
        Largest difference as a share of what is allowed; 1 would be at the edge.
    """

    record: Record
    published: int
    examples: int
    largest: float

    @property
    def checks(self) -> int:
        """Number of checks by somebody else's number."""
        return self.published + self.examples


def traces(catalogue: Catalogue) -> list[Trace]:
    """Return a row for each relation, in alphabetical order."""
    rows = []
    for name, record in catalogue.records.items():
        values = catalogue.checks_of(name)
        examples = catalogue.examples_of(name)
        shares = [abs(v.deviation()) / v.tolerance for v in values if v.tolerance]
        shares += [
            abs(made.deviation) / made.expected.tolerance
            for made in examples
            if made.expected.tolerance
        ]
        rows.append(Trace(record, len(values), len(examples), max(shares, default=0.0)))
    return rows


class Traceability(TextbookDirective):
    """Show every relation with its source, its checks and its largest deviation."""

    def run(self) -> Sequence[nodes.Node]:
        """Return the table."""
        catalogue = self.catalogue
        self.depend_on(*code_behind(catalogue.records.values()))
        self.depend_on(*sorted(catalogue.examples_folder.glob("*.toml")))
        self.depend_on(*sorted(catalogue.published_folder.glob("*.toml")))
        rows = traces(catalogue)
        return self.html("traceability.html", rows=rows, total=sum(row.checks for row in rows))


class Misprints(TextbookDirective):
    """Show what sources print in error, and what stands there in its right form."""

    def run(self) -> Sequence[nodes.Node]:
        """Return the table."""
        self.depend_on(*sorted(self.catalogue.published_folder.glob("*.toml")))
        return self.html("misprints.html", rows=self.catalogue.misprints)


class Symbols(TextbookDirective):
    """Show every symbol that the records use, with its meaning and unit."""

    def run(self) -> Sequence[nodes.Node]:
        """Return the table."""
        self.depend_on(*code_behind(self.catalogue.records.values()))
        found: dict[tuple[str, str, str], list[str]] = {}
        for record in self.catalogue.records.values():
            for name, argument in record.arguments.items():
                key = (argument.symbol, record.title(name), argument.unit)
                found.setdefault(key, []).append(record.name)
        rows = [
            {"symbol": math_inline(symbol), "name": name, "unit": unit, "relations": users}
            for (symbol, name, unit), users in sorted(found.items(), key=lambda i: i[0][1])
        ]
        return self.html("symbols.html", rows=rows)
