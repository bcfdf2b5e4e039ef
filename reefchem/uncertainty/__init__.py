"""How sure a result is: uncertainty carried through any relation."""

from __future__ import annotations

TYPE_CHECKING = False
if TYPE_CHECKING:
    from reefchem.uncertainty.gradient import *
    from reefchem.uncertainty.propagation import *
else:
    from reefchem.core.lazy import lazily

    __getattr__, __dir__, __all__ = lazily(
        __name__,
        {
            "gradient": ("gradient",),
            "propagation": ("Propagated", "simulate", "uncertainty"),
        },
    )
