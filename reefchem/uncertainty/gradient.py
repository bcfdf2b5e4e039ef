"""Exact derivatives of a relation, by the chain rule along its traced equation.

Where a relation is the root of a residual r(x, p) = 0 the implicit rule gives
dx/dp = -(dr/dp) / (dr/dx); nothing is ever pushed through the search itself.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from reefchem.core.boundary import checked_values
from reefchem.core.errors import DomainError
from reefchem.core.record import describe
from reefchem.core.term import (
    Apply,
    Binary,
    Call,
    Choice,
    Negative,
    Number,
    Root,
    Symbol,
    Term,
)
from reefchem.formula.equation import equation, evaluate, evaluate_binary

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from reefchem.core.record import Record

__all__ = ["gradient"]

Slopes = dict[str, float]


def gradient(function: Callable[..., Any] | str, **inputs: Any) -> tuple[float, Slopes]:
    """Return the value of a relation and its derivative by each argument.

    Parameters
    ----------
    function
        A relation or its name.
    inputs
        One number for each argument, bare in the recorded units or a quantity.

    Returns
    -------
    value, slopes
        In the recorded unit, and in the recorded unit per recorded unit of each argument.

    Raises
    ------
    DomainError
        When the relation has no finite slope there (a square root at zero, say).

    Examples
    --------
    >>> from reefchem.seawater import seawater_density
    >>> _, slopes = gradient(seawater_density, salinity=35.0, temperature=25.0)
    >>> round(slopes["temperature"], 3)
    -0.304
    """
    record = describe(function)
    given = tuple(inputs.get(name, record.defaults.get(name)) for name in record.arguments)
    bare, _ = checked_values(record.name, record.arguments, given, record.defaults)
    point = dict(zip(record.arguments, (float(value) for value in bare), strict=True))
    try:
        return _of_relation(record, point, {})
    except (ZeroDivisionError, OverflowError, ValueError) as error:
        if isinstance(error, DomainError):
            raise
        msg = f"{record.name} has no finite slope at {point}"
        raise DomainError(msg) from error


def _of_relation(
    record: Record, point: Mapping[str, float], options: Mapping[str, Any]
) -> tuple[float, Slopes]:
    if options:
        msg = f"{record.name} is called with {sorted(options)}; its slope is not followed"
        raise TypeError(msg)
    value, slopes = _slopes(equation(record).result, point)
    return value, {name: slopes.get(name, 0.0) for name in record.arguments}


def _slopes(term: Term, point: Mapping[str, float]) -> tuple[float, Slopes]:
    """Return the value of a term and its derivative by each symbol."""
    match term:
        case Number():
            return term.value, {}
        case Symbol():
            return point[term.name], {term.name: 1.0}
        case Negative():
            value, slopes = _slopes(term.operand, point)
            return -value, _scaled(slopes, -1.0)
        case Binary():
            return _of_binary(term, point)
        case Apply():
            inner, slopes = _slopes(term.operand, point)
            value = getattr(math, term.function)(inner)
            if term.function == "exp":
                return value, _scaled(slopes, value)
            return value, _scaled(slopes, 1 / inner if term.function == "log" else 0.5 / value)
        case Choice():
            chosen = term.then if evaluate(term.condition, point) else term.otherwise
            return _slopes(chosen, point)
        case Call():
            return _of_call(term, point)
        case Root():
            return _of_root(term, point)
    msg = f"no slope for {type(term).__name__}"
    raise TypeError(msg)


def _of_binary(term: Binary, point: Mapping[str, float]) -> tuple[float, Slopes]:
    left, by_left = _slopes(term.left, point)
    right, by_right = _slopes(term.right, point)
    value = evaluate_binary(term.operator, left, right)
    match term.operator:
        case "+":
            factors = (1.0, 1.0)
        case "-":
            factors = (1.0, -1.0)
        case "*":
            factors = (right, left)
        case "/":
            factors = (1 / right, -value / right)
        case _:
            raised = math.log(left) * value if by_right else 0.0
            factors = (right * left ** (right - 1) if by_left else 0.0, raised)
    return value, _sum(_scaled(by_left, factors[0]), _scaled(by_right, factors[1]))


def _of_call(term: Call, point: Mapping[str, float]) -> tuple[float, Slopes]:
    inner = [_slopes(argument, point) for argument in term.arguments]
    names = list(term.record.arguments)
    at = {name: float(value) for name, (value, _) in zip(names, inner, strict=True)}
    value, outer = _of_relation(term.record, at, term.options)
    slopes: Slopes = {}
    for name, (_, by_argument) in zip(names, inner, strict=True):
        slopes = _sum(slopes, _scaled(by_argument, outer[name]))
    return value, slopes


def _of_root(term: Root, point: Mapping[str, float]) -> tuple[float, Slopes]:
    value = evaluate(term, point)
    _, slopes = _slopes(term.residual, {**point, term.unknown.name: value})
    steepness = slopes.pop(term.unknown.name)
    return value, _scaled(slopes, -1 / steepness)


def _scaled(slopes: Slopes, factor: float) -> Slopes:
    return {name: slope * factor for name, slope in slopes.items()}


def _sum(first: Slopes, second: Slopes) -> Slopes:
    total = dict(first)
    for name, slope in second.items():
        total[name] = total.get(name, 0.0) + slope
    return total
