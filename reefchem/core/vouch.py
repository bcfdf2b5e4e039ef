"""What a source vouches for of a result.

The record says for which inputs a source speaks. Some sources speak of their result instead: the
practical salinity scale is defined from 2 to 42, whatever the conductivity that leads there.
"""

from __future__ import annotations

from contextvars import ContextVar

from reefchem.core.blocks import said_before
from reefchem.core.errors import DomainError, RangeWarning
from reefchem.core.functions import Num, is_symbolic
from reefchem.core.roots import searching
from reefchem.core.term import Term

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

__all__ = ["noting", "vouched"]

noting: ContextVar[list[tuple[Any, float, float]] | None] = ContextVar("noting", default=None)
"""Where terms are noted with what a source covers, while a body is written down for arrays."""

ROUNDING = 1e-9
"""What a result may be outside, as a share of the range, before anything is said."""


def vouched(value: Num, low: float, high: float, *, what: str) -> Num:
    """Return a result as it is; say so where it is outside what the source speaks for.

    Parameters
    ----------
    value
        A float, an array, or something to be printed, which is left alone.
    low, high
        What the source covers.
    what
        Whose result, and of what, for the message.

    Examples
    --------
    >>> vouched(35.0, 2.0, 42.0, what="practical_salinity: the salinity")
    35.0
    """
    slack = ROUNDING * (high - low)
    least, most = low - slack, high + slack
    if type(value) is float:
        if least <= value <= most or value != value or searching.get():
            return value
        bad = value
    elif isinstance(value, Term) or is_symbolic(value) or searching.get():
        noted = noting.get()
        if noted is not None:
            noted.append((value, least, most))
        return value
    else:
        outside = (value < least) | (value > most)
        if not outside.any():
            return value
        bad = float(value[outside].flat[0])
    import warnings  # noqa: PLC0415 - only where something is to be said

    from reefchem.core.boundary import first_outside, is_strict  # noqa: PLC0415

    msg = f"{what} is {bad:.10g}; the source covers {low:g} to {high:g}"
    if is_strict():
        raise DomainError(msg)
    if not said_before(what):
        warnings.warn(f"{msg}. It is given all the same", RangeWarning, stacklevel=first_outside())
    return value
