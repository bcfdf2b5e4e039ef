"""Functions that follow their argument: float, array, symbol or term of an equation.

A body is made of ``+ - * / **`` and these. For a float they are `math`, for an array `numpy`, for
a SymPy expression `sympy`; a `Term` writes itself down.
"""

from __future__ import annotations

import math
import sys

from reefchem.core.constants import ZERO_CELSIUS
from reefchem.core.term import Apply, Choice, Term, as_term

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Callable
    from typing import Any, TypeAlias

__all__ = ["Num", "exp", "is_symbolic", "kelvin", "log", "sqrt", "where"]

if TYPE_CHECKING:
    Num: TypeAlias = Any
else:

    class Num:
        """A number of any kind the project knows, and a result of the same kind.

        A float, int, NumPy array or scalar, pint quantity, or SymPy expression.
        """


_exp, _log, _sqrt = math.exp, math.log, math.sqrt


def exp(x: Num) -> Num:
    """Return e to the power of `x`."""
    if type(x) is float:
        return _exp(x)
    return _follow("exp", _exp, x)


def log(x: Num) -> Num:
    """Return the natural logarithm of `x`."""
    if type(x) is float:
        return _log(x)
    return _follow("log", _log, x)


def sqrt(x: Num) -> Num:
    """Return the square root of `x`."""
    if type(x) is float:
        return _sqrt(x)
    return _follow("sqrt", _sqrt, x)


def kelvin(temperature: Num) -> Num:
    """Return a temperature in °C as kelvins."""
    return temperature + ZERO_CELSIUS


def where(condition: Num, then: Num, otherwise: Num) -> Num:
    """Return `then` where the condition holds, `otherwise` elsewhere. Both are computed."""
    if isinstance(condition, bool):
        return then if condition else otherwise
    if isinstance(condition, Term):
        return Choice(condition, as_term(then), as_term(otherwise))
    if is_symbolic(condition):
        import sympy  # noqa: PLC0415 - only where somebody brought SymPy

        return sympy.Piecewise((then, condition), (otherwise, True))
    import numpy as np  # noqa: PLC0415 - only where somebody brought an array

    return np.where(condition, then, otherwise)


def is_symbolic(x: object) -> bool:
    """Return whether `x` is a SymPy object, without importing SymPy."""
    sympy = sys.modules.get("sympy")
    return sympy is not None and isinstance(x, sympy.Basic)


def _follow(name: str, scalar: Callable[[float], float], x: Num) -> Num:
    if isinstance(x, int | float):
        return scalar(x)
    if isinstance(x, Term):
        return Apply(name, x)
    if is_symbolic(x):
        import sympy  # noqa: PLC0415 - only where somebody brought SymPy

        return getattr(sympy, name)(x)
    import numpy as np  # noqa: PLC0415 - only where somebody brought an array

    return getattr(np, name)(x)
