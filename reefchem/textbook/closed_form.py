"""The formulas of a derivation as they are read: decimals, and long sums in rows."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import Any

import sympy

from reefchem.textbook.mathml import math_block

__all__ = ["formula", "formula_of_result"]

MOST_OPERATIONS = 120
"""Operations in a closed form that is still read on a page. The proof does not depend on it."""

MOST_DECIMALS = 6
"""Numbers with a point in a closed form that is still read on a page."""

LONGEST_ROW = 64
"""Signs in a row of a formula; a longer sum goes on in the next."""

LARGEST_SIMPLE = 10
"""Largest denominator of a fraction that is read as easily as its decimal."""


_FRACTION = re.compile(r"\\frac\{((?:[^{}]|\{[^{}]*\})*)\}\{((?:[^{}]|\{[^{}]*\})*)\}")


def formula_of_result(result: Any) -> str:
    """Return the closed form, or nothing when all its constants written out would fill a page."""
    if not isinstance(result, str):
        decimals = _in_decimals(result).atoms(sympy.Float)
        if sympy.count_ops(result) > MOST_OPERATIONS or len(decimals) > MOST_DECIMALS:
            return ""
    return formula(result)


def formula(expression: Any) -> str:
    """Return an expression as a displayed formula; a long sum in several rows."""
    whole = _latex(expression)
    if isinstance(expression, str) or _width(whole) <= LONGEST_ROW:
        return math_block(whole)
    equal = isinstance(expression, sympy.Equality)
    left, right = (_latex(expression.lhs), expression.rhs) if equal else ("", expression)
    if not isinstance(right, sympy.Add):
        return math_block(whole)
    rows = [""]
    for term in map(_latex, right.as_ordered_terms()):
        signed = term if term.startswith("-") or rows == [""] else f"+ {term}"
        if rows[-1] and _width(f"{rows[-1]} {signed}") > LONGEST_ROW:
            rows.append("")
        rows[-1] = f"{rows[-1]} {signed}"
    start = f"{left} &= " if equal else "& "
    body = " \\\\ & ".join(row.strip() for row in rows)
    return math_block(rf"\begin{{aligned}} {start}{body} \end{{aligned}}")


def _width(latex: str) -> int:
    """Return about how many signs a formula is wide; of a fraction, half of both lines."""
    fractions = sum(len(_signs(a)) + len(_signs(b)) for a, b in _FRACTION.findall(latex)) // 2
    return len(_signs(latex)) - fractions


def _signs(latex: str) -> str:
    plain = re.sub(r"\\(?:left|right|mathrm|frac|,|;)", "", latex)
    return re.sub(r"[{}^_\s]", "", re.sub(r"\\[A-Za-z]+", "x", plain))


def _latex(expression: Any) -> str:
    if isinstance(expression, str):
        return expression
    text: str = sympy.latex(
        _in_decimals(expression),
        ln_notation=True,
        mul_symbol="dot" if _only_numbers(expression) else None,
    )
    return text.replace(r"\operatorname", r"\mathrm")


def _in_decimals(expression: Any) -> Any:
    """Return an expression with 40.078 for 20039/500, as an atomic weight is read in a table."""
    if not isinstance(expression, sympy.Basic):
        return expression
    return expression.xreplace({f: _decimal(f) for f in expression.atoms(sympy.Rational)})


def _decimal(fraction: Any) -> Any:
    """Return a fraction, or one over it, as the decimal that it ends as.

    Simple fractions, those of one, and those that no decimal ends stay as they are.
    """
    over, under = int(fraction.p), int(fraction.q)
    if under <= LARGEST_SIMPLE or abs(over) == 1:
        return fraction
    if _ends(under):
        return sympy.Float(str(Decimal(over) / Decimal(under)))
    if over > LARGEST_SIMPLE and _ends(over):
        return 1 / sympy.Symbol(str(Decimal(under) / Decimal(over)))
    return fraction


def _ends(number: int) -> bool:
    """Say whether a fraction over this number has a decimal that ends."""
    return set(sympy.primefactors(number)) <= {2, 5}


def _only_numbers(expression: Any) -> bool:
    return not getattr(expression, "free_symbols", True)
