"""Root finding between two bounds, for floats and for arrays.

The method is Chandrupatla's (1997, Advances in Engineering Software 28:145-149): inverse quadratic
interpolation where it is safe, bisection elsewhere. It never leaves the bracket and never takes
more than `MOST` steps.
"""

from __future__ import annotations

from contextvars import ContextVar

from reefchem.core.errors import NoRootError
from reefchem.core.functions import Num, is_symbolic
from reefchem.core.term import Term, root_term

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any
    from collections.abc import Callable

__all__ = ["MOST", "find_root", "searching"]

MOST = 120
"""Most steps; bisection alone would halve a bracket of any two doubles to nothing before that."""

_TOLERANCE = 4e-16

searching: ContextVar[bool] = ContextVar("searching", default=False)
"""Whether a search is under way; its trial values are nobody's input and draw no range warning."""


def find_root(
    residual: Callable[[Num], Num],
    lower: Num,
    upper: Num,
    *,
    unknown: str,
    symbol: str = "x",
    like: tuple[Num, ...] = (),
) -> Num:
    """Return where the residual is zero between two bounds.

    Parameters
    ----------
    residual
        A function of the unknown; it changes sign once between the bounds.
    lower, upper
        The bounds; floats, or arrays of the shape of the residual.
    unknown
        Name of the unknown, for the message and for generated code.
    symbol
        How the unknown is written in a formula, in LaTeX.
    like
        The arguments that the residual leans on; a `Term` among them makes this write down the
        root instead of finding it.

    Raises
    ------
    NoRootError
        When a scalar residual has one sign at both bounds. In an array such an element is NaN,
        since the other elements have an answer.
    """
    if any(isinstance(value, Term) for value in like):
        return root_term(residual, lower, upper, unknown, symbol)
    if any(is_symbolic(value) for value in like):
        msg = f"{unknown} is found by iteration and has no closed form; use its residual instead"
        raise TypeError(msg)
    token = searching.set(True)
    try:
        at_lower, at_upper = residual(lower), residual(upper)
        if isinstance(at_lower, float) and isinstance(at_upper, float):
            root = _scalar(residual, (float(lower), at_lower), (float(upper), at_upper), unknown)
        else:
            root = _array(residual, (lower, at_lower), (upper, at_upper))
    finally:
        searching.reset(token)
    residual(root)  # says aloud when the answer is outside a source's range
    return root


def _scalar(
    residual: Callable[[float], float],
    first: tuple[float, float],
    second: tuple[float, float],
    unknown: str,
) -> float:
    (a, fa), (b, fb) = first, second
    if fa != fa or fb != fb:  # NaN passes through
        return fa + fb
    if fa == 0.0:
        return a
    if fb == 0.0:
        return b
    if (fa > 0) == (fb > 0):
        msg = f"no {unknown} between {a:g} and {b:g} satisfies these inputs"
        raise NoRootError(msg)
    c, fc = a, fa
    fraction = 0.5
    for _ in range(MOST):
        x = a + fraction * (b - a)
        fx = residual(x)
        if (fx > 0) == (fa > 0):
            c, fc = a, fa
        else:
            c, fc, b, fb = b, fb, a, fa
        a, fa = x, fx
        best, f_best = (a, fa) if abs(fa) < abs(fb) else (b, fb)
        tolerance = 2 * _TOLERANCE * abs(best) + 1e-300
        limit = tolerance / abs(b - a) if b != a else 1.0
        if f_best == 0.0 or limit > 0.5:
            return best
        xi, phi = (a - b) / (c - b), (fa - fb) / (fc - fb)
        if phi * phi < xi and (1 - phi) * (1 - phi) < 1 - xi:
            fraction = fa / (fb - fa) * fc / (fb - fc)
            fraction += (c - a) / (b - a) * fa / (fc - fa) * fb / (fc - fb)
        else:
            fraction = 0.5
        fraction = min(1 - limit, max(limit, fraction))
    return best


def _array(
    residual: Callable[[Any], Any], first: tuple[Any, Any], second: tuple[Any, Any]
) -> Any:
    import numpy as np  # noqa: PLC0415 - only where somebody brought an array

    a, fa, b, fb = (
        np.array(x, dtype=float) for x in np.broadcast_arrays(*first, *second)
    )
    bracketed = (np.signbit(fa) != np.signbit(fb)) | (fa == 0) | (fb == 0)
    fa, fb = np.where(bracketed, fa, np.nan), np.where(bracketed, fb, np.nan)
    c, fc = a.copy(), fa.copy()
    fraction = np.full_like(a, 0.5)
    best = np.where(fa == 0, a, b)
    active = bracketed & (fa != 0) & (fb != 0)
    with np.errstate(invalid="ignore", divide="ignore", over="ignore"):
        for _ in range(MOST):
            if not active.any():
                break
            x = np.where(active, a + fraction * (b - a), a)
            fx = np.where(active, residual(x), fa)
            same = (fx > 0) == (fa > 0)
            moved = active & ~same
            c, fc = np.where(active, np.where(same, a, b), c), np.where(
                active, np.where(same, fa, fb), fc
            )
            b, fb = np.where(moved, a, b), np.where(moved, fa, fb)
            a, fa = x, fx
            nearer = np.abs(fa) < np.abs(fb)
            best = np.where(active, np.where(nearer, a, b), best)
            f_best = np.where(nearer, fa, fb)
            limit = (2 * _TOLERANCE * np.abs(best) + 1e-300) / np.abs(b - a)
            active = active & ~((f_best == 0) | (limit > 0.5) | np.isnan(f_best))
            xi, phi = (a - b) / (c - b), (fa - fb) / (fc - fb)
            safe = (phi * phi < xi) & ((1 - phi) ** 2 < 1 - xi)
            quadratic = fa / (fb - fa) * fc / (fb - fc)
            quadratic += (c - a) / (b - a) * fa / (fc - fa) * fb / (fc - fb)
            fraction = np.clip(np.where(safe, quadratic, 0.5), limit, 1 - limit)
    return np.where(np.isnan(fa) | ~bracketed, np.nan, best)
