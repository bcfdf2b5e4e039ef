"""Equations in LaTeX."""

from __future__ import annotations

import math
import re
from itertools import pairwise
from typing import TYPE_CHECKING

from reefchem.core.constants import LN10
from reefchem.formula.digits import exact_text, significant
from reefchem.formula.names import latex_name
from reefchem.formula.printer import ATOM, POWER, PRODUCT, Printer

if TYPE_CHECKING:
    from collections.abc import Callable

    from reefchem.core.term import Call, Root, Term
    from reefchem.formula.equation import Equation

__all__ = [
    "LatexPrinter",
    "latex_block",
    "latex_lines",
    "latex_number",
    "latex_printer",
    "latex_put_in",
    "latex_significant",
    "latex_summands",
]


_LOGARITHMS = {LN10: r"\ln 10", math.log(2): r"\ln 2"}
_NUMBER = re.compile(r"(?:\\left\( |\{)*-?(?:\d|\\text\{@)")
_WORD = re.compile(r"\{*\\mathrm\{[A-Za-z]{2,}")


def latex_number(text: str) -> str:
    """Return a number's text with its power of ten as LaTeX."""
    mantissa, e, exponent = text.partition("e")
    if not e:
        zeros = len(mantissa) - 1
        return rf"10^{{{zeros}}}" if zeros > 4 and mantissa == f"1{'0' * zeros}" else mantissa
    power = rf"10^{{{int(exponent)}}}"
    return power if mantissa == "1" else rf"{mantissa} \times {power}"


def latex_put_in(text: str, *, tight: bool) -> str:
    """Return a number that stands in the place of a symbol; brackets keep it apart."""
    brackets = text.startswith("-") or (tight and "e" in text)
    return rf"\left( {latex_number(text)} \right)" if brackets else latex_number(text)


class LatexPrinter(Printer):
    """Prints terms as LaTeX that MathML can carry."""

    at_most = r"\le"
    at_least = r"\ge"

    def number(self, value: float) -> str:
        """Set a number with the digits of the source."""
        if abs(value) in _LOGARITHMS:
            return f"{'-' if value < 0 else ''}{_LOGARITHMS[abs(value)]}"
        return latex_number(exact_text(value))

    def number_binding(self, text: str) -> int:
        """Return how tightly a set number binds; a power of ten does as a product."""
        return PRODUCT if r"\times" in text else POWER if "^" in text else ATOM

    def brackets(self, text: str) -> str:
        """Set brackets that grow."""
        return rf"\left( {text} \right)"

    def product(self, pieces: list[str]) -> str:
        """Set a product; a dot stands before a number and between two words."""
        text = pieces[0]
        for before, piece in pairwise(pieces):
            dot = _NUMBER.match(piece) or (_WORD.search(before) and _WORD.match(piece))
            text += (r" \cdot " if dot else r" \, ") + piece
        return text

    def fraction(self, over: Term, under: list[Term]) -> tuple[str, int]:
        """Set a fraction with a bar."""
        below = [self.show(term, PRODUCT if len(under) > 1 else 0) for term in under]
        return rf"\frac{{{self.show(over)}}}{{{self.product(below)}}}", PRODUCT

    def power(self, base: str, exponent: str) -> str:
        """Set a power; a base that has an index or a power keeps it apart by braces."""
        return f"{{{base}}}^{{{exponent}}}"

    def apply(self, function: str, operand: str) -> str:
        """Set exp, ln and the root sign."""
        if function == "sqrt":
            return rf"\sqrt{{{operand}}}"
        name = {"log": r"\ln", "log10": r"\log_{10}", "exp": r"\exp"}[function]
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

    def sought(self, term: Root) -> list[str]:
        """Set the words before a residual that is to be zero."""
        return [rf"\text{{the }} {term.unknown.latex} \text{{ for which}}\;"]


def latex_lines(equation: Equation) -> list[tuple[str, str]]:
    """Return the lines of a formula as pairs of left side and right side."""
    return [(left, " ".join(parts)) for left, parts in latex_summands(equation)]


def latex_summands(equation: Equation) -> list[tuple[str, list[str]]]:
    """Return the lines of a formula with each right side in the parts of its sum."""
    printer = latex_printer(equation)
    lines = [(equation.record.symbol, printer.summands(equation.result))]
    lines += [(latex_name(name), printer.summands(term)) for name, term in equation.named.items()]
    return lines


def latex_printer(
    equation: Equation, put_in: Callable[[Term, int], str | None] | None = None
) -> LatexPrinter:
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
        return None if name is None else latex_name(name)

    return LatexPrinter(name_of, lambda symbol: symbol.latex, put_in)


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
