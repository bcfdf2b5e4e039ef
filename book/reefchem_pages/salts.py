"""Directives of this book that print the catalogue of salts, so that no page types it again.

``{salt-table}`` lists what each salt brings; ``{solubility-table}`` how much of it dissolves and
where that was read; ``{hazard-list}`` what each may do to its owner. An argument limits the rows
to one purpose, such as ``nitrate``.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, ClassVar

from sphinx.util.docutils import SphinxDirective

from reefchem.dosing import salts
from reefchem.formula.digits import prose_number
from reefchem_pages.computed_table import parsed, table_lines

if TYPE_CHECKING:
    from docutils import nodes
    from sphinx.application import Sphinx

    from reefchem.dosing import Salt

__all__ = ["setup"]


class SaltTable(SphinxDirective):
    """A table of the catalogue, written as MyST and parsed in place."""

    optional_arguments = 1
    HEAD: ClassVar[tuple[str, ...]] = ("salt", "g/mol", "alkalinity", "later", "oxygen", "brings")

    def row(self, salt: Salt) -> tuple[str, ...] | None:
        """Return the cells of one salt, or None to leave it out."""
        ions = ", ".join(f"{count} {{chem}}`{ion}`" for ion, count in salt.ions.items())
        return (
            f"{{chem}}`{salt.formula}` {salt.name}",
            f"{salt.molar_mass:.3f}",
            _signed(salt.alkalinity),
            _signed(salt.alkalinity_after_oxidation),
            f"{salt.oxygen:g}",
            ions,
        )

    def run(self) -> list[nodes.Node]:
        """Return the table."""
        purpose = self.arguments[0] if self.arguments else None
        chosen = salts.for_purpose(purpose) if purpose else tuple(salts.values())
        if not chosen:
            msg = f"no salt of the catalogue is for {purpose!r}"
            raise self.error(msg)
        return parsed(self, self.lines(chosen))

    def lines(self, chosen: tuple[Salt, ...]) -> list[str]:
        """Return the table as MyST."""
        rows = [row for salt in chosen if (row := self.row(salt)) is not None]
        return table_lines(self.HEAD, rows)


class HazardList(SaltTable):
    """Signal word, statements, and what to do: a paragraph for each salt that needs it."""

    LABELS: ClassVar[tuple[tuple[str, str], ...]] = (
        ("Wear", "wear"),
        ("Never mix with", "never_mix"),
        ("Heat", "heat"),
        ("Keep", "storage"),
        ("Rules", "local_rules"),
    )

    def lines(self, chosen: tuple[Salt, ...]) -> list[str]:
        """Return a list item for each salt that carries a signal word or heats."""
        lines = []
        for salt in chosen:
            if not salt.hazardous:
                continue
            said = "; ".join(str(hazard) for hazard in salt.hazards) or "not classified"
            word = f" **{salt.signal}:**" if salt.signal else ""
            lines.append(f"- {{chem}}`{salt.formula}` {salt.name}.{word} {said}.")
            parts = [(label, getattr(salt, name)) for label, name in self.LABELS]
            lines.append("  " + " ".join(f"*{label}:* {text}." for label, text in parts if text))
        return lines


class SolubilityTable(SaltTable):
    """Grams in 100 g of water, and where they were read."""

    HEAD = ("salt", "as", "g in 100 g of water, by °C", "read")

    def row(self, salt: Salt) -> tuple[str, ...] | None:
        """Return the cells of a salt whose solubility is known."""
        known = salt.solubility
        if known is None:
            return None
        points = ", ".join(
            f"{grams:g} ({prose_number(f'{celsius:g}')})" for celsius, grams in known.points
        )
        memory = known.read == "memory"
        read = f"{known.source}, from memory" if memory else f"{{cite:t}}`{known.source}`"
        read += f", {known.at}" if known.at else ""
        return f"{{chem}}`{salt.formula}`", f"{{chem}}`{known.formula}`", points, read


def _signed(number: int) -> str:
    """Return a number with its sign, the true minus."""
    return f"{number:+d}".replace("-", "−") if number else "0"


def setup(app: Sphinx) -> dict[str, Any]:
    """Register the directives."""
    app.add_directive("salt-table", SaltTable)
    app.add_directive("hazard-list", HazardList)
    app.add_directive("solubility-table", SolubilityTable)
    return {"version": "1", "parallel_read_safe": True, "parallel_write_safe": True}
