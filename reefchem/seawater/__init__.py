"""What the instruments say and what the water is."""

from __future__ import annotations

TYPE_CHECKING = False
if TYPE_CHECKING:
    from reefchem.seawater.composition import *
    from reefchem.seawater.density import *
else:
    from reefchem.core.lazy import lazily

    __getattr__, __dir__, __all__ = lazily(
        __name__,
        {
            "composition": (
                "boron_lee2010",
                "boron_uppstrom1974",
                "calcium_riley1967",
                "chlorinity",
                "fluoride_riley1965",
                "ionic_strength",
                "ionic_strength_millero2008",
                "reference_salinity",
                "sulfate_morris1966",
            ),
            "density": ("pure_water_density", "seawater_density", "salinity_from_density"),
        },
    )
