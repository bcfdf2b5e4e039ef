"""Equations as text for a terminal."""

from __future__ import annotations

from typing import TYPE_CHECKING

from reefchem.formula.digits import exact_text
from reefchem.formula.names import latex_name, plain_name
from reefchem.formula.printer import ATOM, PRODUCT, SUM, Printer

if TYPE_CHECKING:
    from collections.abc import Mapping

    from reefchem.core.term import Call, Root, Symbol, Term
    from reefchem.formula.equation import Equation

__all__ = ["PlainPrinter", "plain_lines"]

_RAISED = str.maketrans("0123456789-", "⁰¹²³⁴⁵⁶⁷⁸⁹⁻")


class PlainPrinter(Printer):
    """Prints terms as a line of text."""

    minus = "−"
    at_most = "≤"
    at_least = "≥"

    def number(self, value: float) -> str:
        """Set a number with the digits of the source."""
        return exact_text(value).replace("-", "−", 1) if value < 0 else exact_text(value)

    def brackets(self, text: str) -> str:
        """Set round brackets."""
        return f"({text})"

    def product(self, pieces: list[str]) -> str:
        """Set a product with dots."""
        return "·".join(pieces)

    def fraction(self, left: Term, right: Term) -> tuple[str, int]:
        """Set a fraction on the line."""
        return f"{self.show(left, PRODUCT)} / {self.show(right, ATOM)}", PRODUCT

    def power(self, base: str, exponent: str) -> str:
        """Set a power raised where it is a whole number."""
        if exponent.lstrip("-").isdigit():
            return base + exponent.translate(_RAISED)
        return f"{base}^({exponent})"

    def apply(self, function: str, operand: str) -> str:
        """Set exp, ln and the root sign."""
        return f"{ {'log': 'ln', 'exp': 'exp', 'sqrt': '√'}[function] }({operand})"

    def choice(self, then: str, condition: str, otherwise: str) -> str:
        """Set a choice in words."""
        return f"({then} if {condition}, otherwise {otherwise})"

    def call(self, term: Call, arguments: list[str]) -> str:
        """Set another relation as its symbol with its arguments in brackets."""
        return f"{plain_name(term.record.symbol)}({', '.join(arguments)})"

    def root(self, term: Root) -> str:
        """Set a root in words."""
        return f"{plain_name(term.unknown.latex)} such that {self.show(term.residual, SUM)} = 0"


def plain_lines(
    equation: Equation, values: Mapping[str, str] | None = None
) -> list[tuple[str, str]]:
    """Return the lines of a formula as pairs of left side and right side.

    Parameters
    ----------
    equation
        The equation.
    values
        Text of the number put in for each argument; symbols stay where there is none.
    """

    def symbol(term: Symbol) -> str:
        put_in = (values or {}).get(term.name)
        return plain_name(term.latex) if put_in is None else put_in.replace("-", "−", 1)

    def name_of(term: Term) -> str | None:
        name = equation.name_of(term)
        return None if name is None else plain_name(latex_name(name))

    printer = PlainPrinter(name_of, symbol)
    lines = [(plain_name(equation.record.symbol), printer.full(equation.result))]
    for name, term in equation.named.items():
        lines.append((plain_name(latex_name(name)), printer.full(term)))
    return lines
