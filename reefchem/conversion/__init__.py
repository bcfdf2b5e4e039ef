"""From the unit a keeper has to the unit a relation wants."""

from __future__ import annotations

TYPE_CHECKING = False
if TYPE_CHECKING:
    from reefchem.conversion.alkalinity import *
    from reefchem.conversion.concentration import *
    from reefchem.conversion.fahrenheit import *
    from reefchem.conversion.gallons import *
    from reefchem.conversion.hardness import *
    from reefchem.conversion.spoons import *
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
            "concentration": (
                "amount_concentration",
                "as_species",
                "from_ppm",
                "mass_concentration",
                "mass_per_kilogram",
                "mass_per_litre",
                "nitrate_from_nitrogen",
                "nitrite_from_nitrogen",
                "nitrogen_from_nitrate",
                "nitrogen_from_nitrite",
                "nitrogen_to_phosphorus",
                "nutrient_mass_ratio",
                "phosphate_from_phosphorus",
                "phosphorus_from_phosphate",
                "silicate_from_silicon",
                "silicon_from_silicate",
            ),
            "fahrenheit": (
                "celsius_from_fahrenheit",
                "fahrenheit_from_celsius",
            ),
            "gallons": (
                "imperial_gallons",
                "litres_from_imperial_gallons",
                "litres_from_us_gallons",
                "us_gallons",
            ),
            "hardness": (
                "calcium_as_calcium_carbonate",
                "calcium_from_calcium_carbonate",
                "general_hardness_degrees",
                "hardness_as_calcium_carbonate",
                "hardness_from_degrees",
                "magnesium_from_hardness",
                "total_hardness",
            ),
            "spoons": (
                "METRIC_TEASPOON",
                "US_TEASPOON",
                "spoon_mass",
                "spoon_mass_uncertainty",
            ),
        },
    )
