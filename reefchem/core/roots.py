"""Root finding between two bounds, for floats and for arrays.

The method is Chandrupatla's (1997, Advances in Engineering Software 28:145-149): inverse quadratic
interpolation where it is safe, bisection elsewhere. It never leaves the bracket. Every fourth step
is a bisection unless the three before it have halved the bracket, so that it always ends.

Where the slope is known, `newton` is quicker; what it does not vouch for goes the first way.
"""

from __future__ import annotations

from contextvars import ContextVar

from reefchem.core.errors import DomainError, NoRootError
from reefchem.core.functions import Num, is_symbolic
from reefchem.core.term import Term, root_term

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Callable
    from typing import Any

__all__ = ["MOST", "find_root", "newton", "searching"]

MOST = 4 * 2100
"""Most steps; ten or so are usual. Halving takes any two doubles to neighbours in 2098."""

CORRECTIONS = 8
"""Most corrections of `newton`; two or three are usual."""

CLOSE = 1e-8
"""A correction this small, relative to the unknown, was the last that matters."""

_RELATIVE = 8e-16
_SMALLEST = 5e-324

NAN = float("nan")

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
    quick: Callable[[], Num] | None = None,
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
    quick
        A quicker way to the same root, such as one by `newton`. It gives NaN for what it does
        not vouch for (a root outside a source's range, say), and that is searched for.

    Returns
    -------
    Num
        The root, within four units of the last binary digit of what the residual can tell.
        NaN where the residual or a bound is NaN.

    Raises
    ------
    NoRootError
        When a scalar residual has one sign at both bounds. In an array such an element is NaN,
        since the other elements have an answer.

    Examples
    --------
    >>> round(find_root(lambda x: x * x - 2.0, 0.0, 2.0, unknown="side"), 9)
    1.414213562
    """
    for value in like:
        if type(value) is float:
            continue
        if isinstance(value, Term):
            return root_term(residual, lower, upper, unknown, symbol)
        if is_symbolic(value):
            msg = f"{unknown} is found by iteration and has no closed form; use its residual"
            raise TypeError(msg)
    known: Num = None
    if quick is not None:
        known = quick()
        found = known == known
        if found is True or (found is not False and found.all()):
            return known
    token = searching.set(True)
    try:
        ends = (lower, residual(lower), upper, residual(upper))
        if all(isinstance(end, int | float) for end in ends):
            a, fa, b, fb = (float(end) for end in ends)
            root: Num = _scalar(residual, a, fa, b, fb, unknown)
        else:
            root = _array(residual, known, *ends)
    finally:
        searching.reset(token)
    residual(root)  # says aloud when the answer is outside a source's range
    return root


def newton(correction: Callable[[Num], Num], start: Num, lower: Num, upper: Num) -> Num:
    """Return where a correction vanishes, near a start and between two bounds, or NaN.

    Parameters
    ----------
    correction
        Residual over slope, as a function of the unknown. It takes away nearly all of the error:
        of an error e it leaves about K e². The search ends where e is below 1e-8 of the unknown,
        so what is left is below the last digit as long as K times the unknown is not large.
    start
        Near the root; a float or an array.
    lower, upper
        The search does not leave them: NaN then, and where eight corrections are not enough.

    Examples
    --------
    >>> newton(lambda x: (x * x - 2.0) / (2.0 * x), 1.4, 0.0, 2.0)
    1.4142135623730951
    """
    x, left = start, CORRECTIONS
    while left and type(x) is float and lower <= x <= upper:
        step = correction(x)
        x -= step
        left -= 1
        if type(x) is float and abs(step) <= CLOSE * abs(x) and lower <= x <= upper:
            return x
    return NAN if type(x) is float else _newton_array(correction, start, lower, upper)


def _newton_array(correction: Callable[[Any], Any], start: Any, lower: Any, upper: Any) -> Any:
    """Correct all elements until the last is near; the start may be a float for all."""
    import numpy as np  # noqa: PLC0415 - only where somebody brought an array

    x, far = start, np.isnan(start)
    with np.errstate(all="ignore"):
        for _ in range(CORRECTIONS):
            step = correction(x)
            x = x - step
            far = np.abs(step) > CLOSE * np.abs(x)
            if not far.any():
                break
        inside = (x >= lower) & (x <= upper)
        if inside.all() and not far.any():
            return x
        return np.where(inside & ~far, x, np.nan)


def _scalar(
    residual: Callable[[float], float], a: float, fa: float, b: float, fb: float, unknown: str
) -> float:
    if fa != fa or fb != fb:  # NaN passes through
        return NAN
    if not abs(b - a) < float("inf"):
        msg = f"{unknown} is searched for between {a:g} and {b:g}, which is no finite interval"
        raise DomainError(msg)
    if fa == 0.0:
        return a
    if fb == 0.0:
        return b
    if (fa > 0) == (fb > 0):
        msg = f"no {unknown} between {a:g} and {b:g} satisfies these inputs"
        raise NoRootError(msg)
    fraction, wide = 0.5, abs(b - a)
    for step in range(MOST):
        x = a + fraction * (b - a)
        fx = residual(x)
        if fx != fx:
            return fx
        if (fx > 0) == (fa > 0):
            c, fc = a, fa
        else:
            c, fc, b, fb = b, fb, a, fa
        a, fa = x, fx
        best, f_best = (a, fa) if abs(fa) < abs(fb) else (b, fb)
        width = abs(b - a)
        tolerance = _RELATIVE * abs(best) + _SMALLEST
        if f_best == 0.0 or width <= 2 * tolerance:
            return best
        xi, phi = (a - b) / (c - b), (fa - fb) / (fc - fb)
        if phi * phi < xi and (1 - phi) * (1 - phi) < 1 - xi:
            fraction = fa / (fb - fa) * fc / (fb - fc)
            fraction += (c - a) / (b - a) * fa / (fc - fa) * fb / (fc - fb)
        else:
            fraction = 0.5
        if step % 4 == 2:
            fraction, wide = (0.5 if width > 0.5 * wide else fraction), width
        limit = tolerance / width
        fraction = min(1 - limit, max(limit, fraction))
    msg = f"{unknown} was not found in {MOST} steps between {a:g} and {b:g}"
    raise NoRootError(msg)


def _array(
    residual: Callable[[Any], Any], known: Any, lower: Any, f_lower: Any, upper: Any, f_upper: Any
) -> Any:
    """Take the steps of `_scalar` for all elements at once; one that is done stays where it is.

    Elements that are `known` are done from the start.
    """
    import numpy as np  # noqa: PLC0415 - only where somebody brought an array

    a, fa, b, fb = (
        np.array(end, dtype=float) for end in np.broadcast_arrays(lower, f_lower, upper, f_upper)
    )
    with np.errstate(all="ignore"):
        root = np.where(fa == 0, a, np.where(fb == 0, b, np.nan))
        active = (fa * np.sign(fb) < 0) & (np.abs(b - a) < np.inf)
        if known is not None:
            root = np.where(known == known, known, root)
            active &= known != known
        c, fc = a, fa
        fraction, wide = np.full_like(a, 0.5), np.abs(b - a)
        for step in range(MOST):
            if not active.any():
                break
            x = np.where(active, a + fraction * (b - a), a)
            fx = np.where(active, residual(x), fa)
            same = (fx > 0) == (fa > 0)
            c, fc = np.where(same, a, b), np.where(same, fa, fb)
            b, fb = np.where(same, b, a), np.where(same, fb, fa)
            a, fa = x, fx
            nearer = np.abs(fa) < np.abs(fb)
            best, f_best = np.where(nearer, a, b), np.where(nearer, fa, fb)
            width = np.abs(b - a)
            tolerance = _RELATIVE * np.abs(best) + _SMALLEST
            found = active & ((f_best == 0) | (width <= 2 * tolerance))
            root = np.where(found, best, root)
            active &= ~found & ~np.isnan(fa)
            xi, phi = (a - b) / (c - b), (fa - fb) / (fc - fb)
            safe = (phi * phi < xi) & ((1 - phi) * (1 - phi) < 1 - xi)
            quadratic = fa / (fb - fa) * fc / (fb - fc)
            quadratic += (c - a) / (b - a) * fa / (fc - fa) * fb / (fc - fb)
            fraction = np.where(safe, quadratic, 0.5)
            if step % 4 == 2:
                fraction, wide = np.where(width > 0.5 * wide, 0.5, fraction), width
            limit = tolerance / width
            fraction = np.clip(fraction, limit, 1 - limit)
    return root
