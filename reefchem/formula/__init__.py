"""Formulas read off the functions that compute: trace, evaluate, print, show the working."""

from __future__ import annotations

TYPE_CHECKING = False
if TYPE_CHECKING:
    from reefchem.formula.equation import *
    from reefchem.formula.working import *
else:
    from reefchem.core.lazy import lazily

    __getattr__, __dir__, __all__ = lazily(
        __name__,
        {"equation": ("Equation", "equation", "evaluate"), "working": ("Working", "work")},
    )
