"""What the instruments say and what the water is."""

from __future__ import annotations

TYPE_CHECKING = False
if TYPE_CHECKING:
    from reefchem.seawater.density import *
else:
    from reefchem.core.lazy import lazily

    __getattr__, __dir__, __all__ = lazily(
        __name__,
        {
            "density": ("pure_water_density", "seawater_density", "salinity_from_density"),
        },
    )
