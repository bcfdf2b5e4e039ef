"""Equations in LaTeX."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from reefchem.formula.digits import exact_text, significant
from reefchem.formula.names import latex_name
from reefchem.formula.printer import ATOM, PRODUCT, SUM, Printer

if TYPE_CHECKING:
    from collections.abc import Mapping

    from reefchem.core.term import Call, Root, Symbol, Term
    from reefchem.formula.equation import Equation

__all__ = [
    "LatexPrinter",
    "latex_block",
    "latex_lines",
    "latex_number",
    "latex_significant",
    "latex_summands",
]


def latex_number(text: str) -> str:
    """Return a number's text with its power of ten as LaTeX."""
    mantissa, e, exponent = text.partition("e")
    return rf"{mantissa} \times 10^{{{int(exponent)}}}" if e else mantissa


class LatexPrinter(Printer):
    """Prints terms as LaTeX that MathML can carry."""

    at_most = r"\le"
    at_least = r"\ge"

    def number(self, value: float) -> str:
        """Set a number with the digits of the source."""
        return latex_number(exact_text(value))

    def number_binding(self, text: str) -> int:
        """A power of ten binds as a product does."""
        return PRODUCT if r"\times" in text else ATOM

    def brackets(self, text: str) -> str:
        """Set brackets that grow."""
        return rf"\left( {text} \right)"

    def product(self, pieces: list[str]) -> str:
        """Set a product; between two numbers stands a dot."""
        text = pieces[0]
        for piece in pieces[1:]:
            digit = piece.lstrip(r"\left( ")[:1].isdigit() or piece[:1].isdigit()
            text += (r" \cdot " if digit else r" \, ") + piece
        return text

    def fraction(self, left: Term, right: Term) -> tuple[str, int]:
        """Set a fraction with a bar."""
        return rf"\frac{{{self.show(left)}}}{{{self.show(right)}}}", PRODUCT

    def power(self, base: str, exponent: str) -> str:
        """Set a power; a base that has an index or a power keeps it apart by braces."""
        return f"{{{base}}}^{{{exponent}}}"

    def apply(self, function: str, operand: str) -> str:
        """Set exp, ln and the root sign."""
        if function == "sqrt":
            return rf"\sqrt{{{operand}}}"
        name = {"log": r"\ln", "exp": r"\exp"}[function]
        return rf"{name}\left( {operand} \right)"

    def choice(self, then: str, condition: str, otherwise: str) -> str:
        """Set a choice with a brace."""
        return (
            rf"\begin{{cases}} {then} & \text{{if }} {condition} \\ "
            rf"{otherwise} & \text{{otherwise}} \end{{cases}}"
        )

    def call(self, term: Call, arguments: list[str]) -> str:
        """Set another relation as its symbol with its arguments in brackets."""
        return rf"{term.record.symbol}({', '.join(arguments)})"

    def root(self, term: Root) -> str:
        """Set a root in words: the unknown for which the residual is zero."""
        residual = self.show(term.residual, SUM)
        return rf"{term.unknown.latex} \;\text{{such that}}\; {residual} = 0"


def latex_lines(
    equation: Equation, values: Mapping[str, str] | None = None
) -> list[tuple[str, str]]:
    """Return the lines of a formula as pairs of left side and right side.

    Parameters
    ----------
    equation
        The equation.
    values
        Text of the number put in for each argument, or LaTeX that begins with a command; symbols
        stay where there is none.
    """
    return [(left, " ".join(parts)) for left, parts in latex_summands(equation, values)]


def latex_summands(
    equation: Equation,
    values: Mapping[str, str] | None = None,
    named: Mapping[str, str] | None = None,
) -> list[tuple[str, list[str]]]:
    """Return the lines of a formula with each right side in the parts of its sum.

    Parameters
    ----------
    equation, values
        As for `latex_lines`.
    named
        Text of the number put in for quantities that the body names on the way.
    """

    def symbol(term: Symbol) -> str:
        put_in = (values or {}).get(term.name)
        if put_in is None or put_in.startswith("\\"):
            return put_in or term.latex
        return latex_number(put_in)

    def name_of(term: Term) -> str | None:
        name = equation.name_of(term)
        return None if name is None else (named or {}).get(name) or latex_name(name)

    printer = LatexPrinter(name_of, symbol)
    lines = [(equation.record.symbol, printer.summands(equation.result))]
    lines += [(latex_name(name), printer.summands(term)) for name, term in equation.named.items()]
    return lines


def latex_block(lines: list[tuple[str, list[str]]], *, width: int = 62) -> str:
    """Return lines as one aligned block, with sums broken where they grow too wide.

    Parameters
    ----------
    lines
        Left side, and the parts of the right side.
    width
        Most characters in a row, roughly as they are set.
    """
    rows = []
    for left, parts in lines:
        row, length, start = "", 0, f"{left} &= "
        for part in parts:
            more = _width(part)
            if row and length + more > width:
                rows.append(start + row)
                row, length, start = "", 0, r"&\quad "
            row, length = f"{row} {part}".strip(), length + more + 1
        rows.append(start + row)
    return "\\begin{aligned}\n" + " \\\\\n".join(rows) + "\n\\end{aligned}"


def _width(latex: str) -> int:
    """Return roughly how many characters wide a piece is set."""
    flat = re.sub(
        r"\\frac\{((?:[^{}]|\{[^{}]*\})*)\}\{((?:[^{}]|\{[^{}]*\})*)\}",
        lambda match: max(match[1], match[2], key=len),
        latex,
    )
    flat = re.sub(r"\\(?:left|right|mathrm|text|times|cdot|,|;|quad)", "", flat)
    return len(re.sub(r"\\[A-Za-z]+", "x", flat).translate(_NO_BRACES))


_NO_BRACES = str.maketrans("", "", "{}^_ ")


def latex_significant(value: float, digits: int) -> str:
    """Return a number with so many significant digits as LaTeX."""
    return latex_number(significant(value, digits))
