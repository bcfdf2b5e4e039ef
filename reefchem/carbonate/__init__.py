"""The carbonate system: constants, pH scales, any two of five, saturation, titration, air."""

from __future__ import annotations

TYPE_CHECKING = False
if TYPE_CHECKING:
    from reefchem.carbonate.air import *
    from reefchem.carbonate.alkalinity import *
    from reefchem.carbonate.alkalinity_kits import *
    from reefchem.carbonate.alkalinity_sources import *
    from reefchem.carbonate.ammonium import *
    from reefchem.carbonate.borate import *
    from reefchem.carbonate.buffer import *
    from reefchem.carbonate.carbonic import *
    from reefchem.carbonate.constants_spread import *
    from reefchem.carbonate.day_and_night import *
    from reefchem.carbonate.dosed import *
    from reefchem.carbonate.endpoint import *
    from reefchem.carbonate.fluoride import *
    from reefchem.carbonate.free_scale import *
    from reefchem.carbonate.gas import *
    from reefchem.carbonate.ph_scales import *
    from reefchem.carbonate.phosphate import *
    from reefchem.carbonate.saturation import *
    from reefchem.carbonate.silicate import *
    from reefchem.carbonate.solubility import *
    from reefchem.carbonate.species import *
    from reefchem.carbonate.state import *
    from reefchem.carbonate.sulfate import *
    from reefchem.carbonate.system import *
    from reefchem.carbonate.titration import *
    from reefchem.carbonate.titration_table import *
    from reefchem.carbonate.water import *
else:
    from reefchem.core.lazy import lazily

    __getattr__, __dir__, __all__ = lazily(
        __name__,
        {
            "alkalinity": (
                "alkalinity_from_ph_and_dic",
                "alkalinity_from_ph_and_pco2",
                "alkalinity_from_species",
                "carbonate_from_alkalinity_and_ph",
                "dic_from_alkalinity_and_ph",
                "noncarbon_alkalinity",
                "pco2_from_alkalinity_and_ph",
                "pco2_from_ph_and_dic",
                "ph_from_alkalinity_and_dic",
                "ph_from_alkalinity_and_pco2",
            ),
            "ammonium": (
                "ammonia_share",
                "ammonium_k_clegg1995",
            ),
            "borate": ("boric_kb_dickson1990",),
            "buffer": ("revelle_factor",),
            "carbonic": (
                "carbonic_k1_dickson1987",
                "carbonic_k1_lueker2000",
                "carbonic_k1_millero2010",
                "carbonic_k1_roy1993",
                "carbonic_k1_sulpis2020",
                "carbonic_k1_waters2014",
                "carbonic_k2_dickson1987",
                "carbonic_k2_lueker2000",
                "carbonic_k2_millero2010",
                "carbonic_k2_roy1993",
                "carbonic_k2_sulpis2020",
                "carbonic_k2_waters2014",
            ),
            "fluoride": (
                "fluoride_kf_dickson1979",
                "fluoride_kf_perez1987",
            ),
            "gas": (
                "co2_fugacity_factor_weiss1974",
                "co2_partial_pressure",
                "co2_solubility_weiss1974",
            ),
            "ph_scales": (
                "convert_ph",
                "hydrogen_activity_takahashi1982",
                "hydrogen_ion",
                "ph_free_from_total",
                "ph_nbs_from_total",
                "ph_seawater_from_total",
                "ph_total_from_free",
                "ph_total_from_nbs",
                "ph_total_from_seawater",
                "tris_ph_delvalls1998",
            ),
            "phosphate": (
                "phosphate_k1p_yao1995",
                "phosphate_k2p_yao1995",
                "phosphate_k3p_yao1995",
            ),
            "saturation": (
                "HOMOGENEOUS_MORSE1993",
                "NO_PRECIPITATION_MORAS2022",
                "ON_PARTICLES_MORAS2022",
                "alkalinity_at_omega_aragonite",
                "carbonate_at_omega_aragonite",
                "omega_aragonite",
                "omega_aragonite_from_ph_nbs",
                "omega_aragonite_from_ph_total",
                "omega_aragonite_in_plume",
                "omega_calcite",
                "plume_share_at_omega_aragonite",
                "saturation_headroom",
            ),
            "silicate": ("silicate_ksi_yao1995",),
            "solubility": (
                "aragonite_ksp_mucci1983",
                "calcite_ksp_mucci1983",
            ),
            "species": (
                "bicarbonate_share",
                "borate_share",
                "carbonate_share",
                "co2_share",
            ),
            "constants_spread": (
                "Spread",
                "spread",
            ),
            "state": ("CarbonateState",),
            "sulfate": ("bisulfate_ks_dickson1990",),
            "system": ("carbonate_system",),
            "water": ("water_kw_millero1995",),
            "air": (
                "air_of_tank",
                "approach",
                "blended_air",
                "carbon_exchange_time",
                "co2_exchange_time",
                "dic_per_co2",
                "dry_air_reading",
                "lime_used_on_air",
                "pco2_above_air",
                "ph_in_air",
                "room_air",
            ),
            "alkalinity_kits": (
                "DropReading",
                "ElectrodeReading",
                "PhotometerReading",
                "drop_kit",
                "electrode_endpoint",
                "photometer",
            ),
            "alkalinity_sources": (
                "AlkalinitySource",
                "DoseComparison",
                "alkalinity_sources",
                "raise_alkalinity",
            ),
            "day_and_night": (
                "DailySwing",
                "daily_swing",
            ),
            "dosed": (
                "alkalinity_after_dose",
                "carbon_after_dose",
                "carbon_from_air_after_dose",
                "ph_after_dose",
                "ph_after_dose_in_air",
                "saturation_after_dose",
            ),
            "endpoint": (
                "alkalinity_from_acid",
                "alkalinity_from_one_addition",
                "endpoint_error",
                "equivalence_ph",
                "indicator_ph",
                "seawater_pk",
                "titrated_share",
            ),
            "free_scale": ("titration_constants",),
            "titration": (
                "TitrationConstants",
                "acid_for_balance",
                "acid_to_reach",
                "electrode_emf",
                "ph_from_emf",
                "titratable_alkalinity",
                "titration_ph",
            ),
            "titration_table": (
                "Titrated",
                "TitrationCurve",
                "alkalinity_from_titration",
                "titration_curve",
            ),
        },
    )
