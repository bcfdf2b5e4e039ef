"""From the unit a keeper has to the unit a relation wants."""

from __future__ import annotations

TYPE_CHECKING = False
if TYPE_CHECKING:
    from reefchem.conversion.alkalinity import *
else:
    from reefchem.core.lazy import lazily

    __getattr__, __dir__, __all__ = lazily(
        __name__,
        {
            "alkalinity": (
                "alkalinity_as_bicarbonate",
                "alkalinity_as_calcium_carbonate",
                "alkalinity_from_bicarbonate",
                "alkalinity_from_calcium_carbonate",
                "alkalinity_from_clark_degrees",
                "alkalinity_from_french_degrees",
                "alkalinity_from_german_degrees",
                "alkalinity_from_grains",
                "as_alkalinity",
                "clark_degrees",
                "french_degrees",
                "german_degrees",
                "grains_per_gallon",
                "per_kilogram",
                "per_litre",
            ),
        },
    )
