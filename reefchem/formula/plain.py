"""Equations as text for a terminal."""

from __future__ import annotations

from typing import TYPE_CHECKING

from reefchem.formula.digits import exact_text
from reefchem.formula.names import latex_name, plain_name
from reefchem.formula.printer import ATOM, PRODUCT, Printer

if TYPE_CHECKING:
    from collections.abc import Callable

    from reefchem.core.term import Call, Root, Term
    from reefchem.formula.equation import Equation

__all__ = ["PlainPrinter", "plain_lines", "plain_number", "plain_printer"]

_FUNCTIONS = {"log": "ln", "sqrt": "√"}
_RAISED = str.maketrans("0123456789-", "⁰¹²³⁴⁵⁶⁷⁸⁹⁻")


def plain_number(text: str) -> str:
    """Return a number's text with a true minus sign and its power of ten raised."""
    mantissa, e, exponent = text.replace("-", "−", 1).partition("e")
    if not e:
        return mantissa
    power = str(int(exponent.replace("−", "-"))).translate(_RAISED)
    return f"{mantissa}·10{power}"


class PlainPrinter(Printer):
    """Prints terms as a line of text."""

    minus = "−"
    at_most = "≤"
    at_least = "≥"

    def number(self, value: float) -> str:
        """Set a number with the digits of the source."""
        return plain_number(exact_text(value))

    def brackets(self, text: str) -> str:
        """Set round brackets."""
        return f"({text})"

    def product(self, pieces: list[str]) -> str:
        """Set a product with dots."""
        return "·".join(pieces)

    def fraction(self, over: Term, under: list[Term]) -> tuple[str, int]:
        """Set a fraction on the line."""
        parts = [self.show(over, PRODUCT), *(self.show(term, ATOM) for term in under)]
        return " / ".join(parts), PRODUCT

    def power(self, base: str, exponent: str) -> str:
        """Set a power raised where it is a whole number."""
        if exponent.lstrip("-").isdigit():
            return base + exponent.translate(_RAISED)
        return f"{base}^({exponent})"

    def apply(self, function: str, operand: str) -> str:
        """Set exp, ln and the root sign."""
        return (
            f"{ {'log': 'ln', 'log10': 'log10', 'exp': 'exp', 'sqrt': '√'}[function] }({operand})"
        )

    def choice(self, then: str, condition: str, otherwise: str) -> str:
        """Set a choice in words."""
        return f"({then} if {condition}, otherwise {otherwise})"

    def call(self, term: Call, arguments: list[str]) -> str:
        """Set another relation as its symbol with its arguments in brackets."""
        return f"{plain_name(term.record.symbol)}({', '.join(arguments)})"

    def sought(self, term: Root) -> list[str]:
        """Set the words before a residual that is to be zero."""
        return [f"the {plain_name(term.unknown.latex)} for which"]


def plain_lines(equation: Equation) -> list[tuple[str, str]]:
    """Return the lines of a formula as pairs of left side and right side."""
    printer = plain_printer(equation)
    lines = [(plain_name(equation.record.symbol), " ".join(printer.summands(equation.result)))]
    for name, term in equation.named.items():
        lines.append((plain_name(latex_name(name)), " ".join(printer.summands(term))))
    return lines


def plain_printer(
    equation: Equation, put_in: Callable[[Term, int], str | None] | None = None
) -> PlainPrinter:
    """Return a printer that knows the names of an equation.

    Parameters
    ----------
    equation
        The equation.
    put_in
        Returns the number that stands in the place of a term; see `Printer`.
    """

    def name_of(term: Term) -> str | None:
        name = equation.name_of(term)
        return None if name is None else plain_name(latex_name(name))

    return PlainPrinter(name_of, lambda symbol: plain_name(symbol.latex), put_in)
