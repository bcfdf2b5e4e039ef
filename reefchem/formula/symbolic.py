"""Equations as SymPy expressions."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import sympy

from reefchem.core.constants import LN10
from reefchem.core.term import (
    Apply,
    Binary,
    Call,
    Choice,
    Comparison,
    Negative,
    Number,
    Root,
    Symbol,
    Term,
)
from reefchem.formula.equation import evaluate_binary, traced

if TYPE_CHECKING:
    from collections.abc import Mapping

__all__ = ["to_sympy"]


def to_sympy(term: Term, symbols: Mapping[str, Any], *, exact: bool = False) -> Any:
    """Return a term as a SymPy expression, with other relations written out.

    Parameters
    ----------
    term
        A term of an equation; not a root, whose residual can be translated instead.
    symbols
        SymPy symbol, or number, by the name of each symbol of the term. A function by the name of
        a relation, with ``()`` behind it, stands where that is called.
    exact
        Whether a number becomes the fraction that its digits say, 56.077 as 56077/1000, so that
        no step of a proof rounds. The natural logarithm of ten becomes just that.
    """
    match term:
        case Number():
            if not exact:
                return sympy.sympify(term.value)
            if abs(term.value) == LN10:
                return sympy.log(10) * (1 if term.value > 0 else -1)
            return sympy.Rational(repr(term.value))
        case Symbol():
            return symbols[term.name]
        case Negative():
            return -to_sympy(term.operand, symbols, exact=exact)
        case Binary() | Comparison():
            left, right = (
                to_sympy(term.left, symbols, exact=exact),
                to_sympy(term.right, symbols, exact=exact),
            )
            return evaluate_binary(term.operator, left, right)
        case Apply():
            return getattr(sympy, term.function)(to_sympy(term.operand, symbols, exact=exact))
        case Choice():
            condition = to_sympy(term.condition, symbols, exact=exact)
            then, otherwise = (
                to_sympy(term.then, symbols, exact=exact),
                to_sympy(term.otherwise, symbols, exact=exact),
            )
            return sympy.Piecewise((then, condition), (otherwise, True))
        case Call():
            values = [to_sympy(argument, symbols, exact=exact) for argument in term.arguments]
            if f"{term.record.name}()" in symbols:
                return symbols[f"{term.record.name}()"](*values)
            arguments = dict(zip(term.record.arguments, values, strict=True))
            if exact:
                fitted = {name: value for name, value in symbols.items() if "." in name}
                arguments = fitted | arguments  # the numbers of a fit that was handed on
                return to_sympy(traced(term.record, term.options), arguments, exact=True)
            return term.record.kernel(**arguments, **term.options)
        case Root():
            msg = "a root has no closed form; translate its residual"
            raise TypeError(msg)
    msg = f"no expression for {type(term).__name__}"
    raise TypeError(msg)
