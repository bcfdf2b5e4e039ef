"""What the instruments say and what the water is."""

from __future__ import annotations

TYPE_CHECKING = False
if TYPE_CHECKING:
    from reefchem.seawater.composition import *
    from reefchem.seawater.density import *
    from reefchem.seawater.reference_composition import *
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
                "chlorinity_from_halides",
                "fluoride_riley1965",
                "ionic_strength",
                "ionic_strength_millero2008",
                "reference_amount",
                "reference_salinity",
                "sulfate_morris1966",
            ),
            "reference_composition": ("MOLE_FRACTIONS", "SPECIES", "Composition", "composition"),
            "density": ("pure_water_density", "seawater_density", "salinity_from_density"),
        },
    )
