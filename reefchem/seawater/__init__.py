"""What the instruments say and what the water is."""

from __future__ import annotations

TYPE_CHECKING = False
if TYPE_CHECKING:
    from reefchem.seawater.analysis import *
    from reefchem.seawater.composition import *
    from reefchem.seawater.conductivity import *
    from reefchem.seawater.conductivity_meter import *
    from reefchem.seawater.density import *
    from reefchem.seawater.gas_exchange import *
    from reefchem.seawater.minor_elements import *
    from reefchem.seawater.oxygen import *
    from reefchem.seawater.reference_composition import *
    from reefchem.seawater.refraction import *
    from reefchem.seawater.refractometer import *
    from reefchem.seawater.report import *
    from reefchem.seawater.room_air import *
    from reefchem.seawater.specific_gravity import *
    from reefchem.seawater.volume import *
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
            "conductivity": (
                "STANDARD_CONDUCTIVITY",
                "conductivity",
                "conductivity_ratio",
                "salinity_from_conductivity",
                "salinity_from_conductivity_ratio",
            ),
            "conductivity_meter": (
                "cell_constant",
                "compensated_conductivity",
                "compensation_error",
                "corrected_conductivity",
                "fixed_factor_reading",
                "linear_coefficient",
                "linear_compensation_reading",
                "salinity_from_fixed_factor",
                "salinity_from_linear_compensation",
                "seawater_temperature_coefficient",
            ),
            "gas_exchange": (
                "exchange_time",
                "exchange_time_from_recovery",
                "oxygen_after",
                "oxygen_under_respiration",
                "schmidt_carbon_dioxide",
                "schmidt_oxygen",
                "transfer_velocity_from_time",
                "transfer_velocity_of_another_gas",
            ),
            "oxygen": (
                "oxygen_mass_saturation",
                "oxygen_percent",
                "oxygen_saturation",
                "oxygen_saturation_at_pressure",
                "oxygen_volume_saturation",
            ),
            "room_air": (
                "pressure_at_altitude",
                "vapour_pressure_weiss1980",
            ),
            "analysis": (
                "SUBSTANCES",
                "AnalysisError",
                "Fault",
                "Measured",
                "Substance",
                "analysis_from_text",
                "read_analysis",
            ),
            "refraction": (
                "refractive_index",
                "refractive_index_quan1995",
                "salinity_from_refractive_index",
                "salinity_from_refractive_index_quan1995",
            ),
            "refractometer": (
                "SALT_INCREMENT",
                "nacl_scale_reading",
                "one_point_salinity",
                "salinity_from_nacl_scale",
                "salinity_from_uncompensated",
                "two_point_salinity",
                "uncompensated_reading",
            ),
            "report": (
                "Contradiction",
                "WaterReport",
                "water_report",
            ),
            "volume": (
                "cylinder_volume",
                "rock_displacement",
                "tank_volume",
                "tank_volume_uncertainty",
                "volume_from_alkalinity_rise",
                "volume_from_rise",
                "volume_from_rise_uncertainty",
                "water_volume",
            ),
            "minor_elements": (
                "MinorElement",
                "minor_concentration",
                "minor_element",
                "minor_elements",
            ),
            "reference_composition": ("MOLE_FRACTIONS", "SPECIES", "Composition", "composition"),
            "density": (
                "pure_water_density",
                "pure_water_density_kell1975",
                "pure_water_density_teos10",
                "salinity_from_density",
                "seawater_density",
                "seawater_density_teos10",
                "temperature_from_density",
            ),
            "specific_gravity": (
                "GLASS_EXPANSION",
                "SCALES",
                "change_of_scale",
                "hydrometer_reading",
                "hydrometer_salinity",
                "likely_scales",
                "salinity_from_specific_gravity",
                "specific_gravity",
                "swing_arm_uncertainty",
            ),
        },
    )
