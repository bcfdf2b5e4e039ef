"""Derivations in SymPy, one module per topic, each proving a function."""

from __future__ import annotations

TYPE_CHECKING = False
if TYPE_CHECKING:
    from reefchem.derive.derivation import *
else:
    from reefchem.core.lazy import lazily

    __getattr__, __dir__, __all__ = lazily(
        __name__,
        {"derivation": ("Derivation", "Stage", "derivations", "derive")},
    )
