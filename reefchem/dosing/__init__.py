"""What is dosed, what it does to everything, and what stays behind."""

from __future__ import annotations

TYPE_CHECKING = False
if TYPE_CHECKING:
    from reefchem.core.atoms import molar_mass as molar_mass
    from reefchem.dosing.alkalinity_budget import *
    from reefchem.dosing.all_in_one_recipe import *
    from reefchem.dosing.balance import *
    from reefchem.dosing.bottle import *
    from reefchem.dosing.calcification import *
    from reefchem.dosing.catalogue import *
    from reefchem.dosing.comparison import *
    from reefchem.dosing.dose import *
    from reefchem.dosing.drift import *
    from reefchem.dosing.effect import *
    from reefchem.dosing.lime import *
    from reefchem.dosing.limewater_dose import *
    from reefchem.dosing.nutrients import *
    from reefchem.dosing.oxidation import *
    from reefchem.dosing.proportions import *
    from reefchem.dosing.residue import *
    from reefchem.dosing.salt_mass import *
    from reefchem.dosing.scarce_nutrients import *
    from reefchem.dosing.solubility import *
    from reefchem.dosing.solutions import *
    from reefchem.dosing.steps import *
    from reefchem.dosing.strength import *
    from reefchem.dosing.two_part_recipe import *
else:
    from reefchem.core.atoms import molar_mass as molar_mass
    from reefchem.core.lazy import lazily

    __getattr__, __dir__, __all__ = lazily(
        __name__,
        {
            "alkalinity_budget": ("alkalinity_change", "alkalinity_from_nitrate_gain"),
            "all_in_one_recipe": ("AllInOne", "all_in_one"),
            "balance": ("IonicBalance", "ionic_balance"),
            "bottle": ("most_that_dissolves",),
            "calcification": (
                "alkalinity_used",
                "calcium_carbonate_formed",
                "calcium_carbonate_grown",
                "calcium_used",
                "carbon_dioxide_released",
                "magnesium_in_skeleton",
                "strontium_in_skeleton",
            ),
            "comparison": ("Method", "MethodComparison", "compare_methods"),
            "effect": ("DoseEffect", "dose_effect"),
            "steps": ("DosePlan", "Doses", "dose_for", "dose_plan", "doses_for"),
            "dose": (
                "alkalinity_step",
                "days_to_change",
                "days_to_change_alkalinity",
                "dose_volume",
                "potency_from_rise",
                "potency_of_solution",
                "potency_uncertainty",
                "rise_from_dose",
                "solute_rise",
            ),
            "nutrients": (
                "phosphate_stock_volume",
                "potassium_dihydrogenphosphate_mass",
                "potassium_nitrate_mass",
                "potassium_nitrate_volume",
                "sodium_nitrate_mass",
                "sodium_nitrate_volume",
                "sodium_with_nitrate",
            ),
            "scarce_nutrients": (
                "acetic_acid_mass",
                "ammonium_chloride_mass",
                "ethanol_mass",
                "oxygen_for_carbon_from_ethanol",
                "sodium_metasilicate_mass",
            ),
            "strength": (
                "share_of_salt",
                "solution_volume",
                "strength_from_mass_share",
                "strength_from_rise",
            ),
            "oxidation": (
                "alkalinity_waiting",
                "calcium_with_formate",
                "carbon_from_acetate",
                "carbon_from_formate",
                "formate_dosed",
                "oxidised_share",
                "oxygen_for_acetate",
                "oxygen_for_ethanol",
                "oxygen_for_formate",
            ),
            "drift": (
                "ion_after_periods",
                "ion_settled",
                "kept_share",
                "settling_time",
                "share_replaced",
                "water_change_for_bound",
            ),
            "limewater_dose": ("CalciumReactor", "Limewater", "calcium_reactor", "limewater"),
            "lime": ("lime_mass", "limewater_limit", "reactor_carbon_dioxide", "reactor_drip"),
            "proportions": ("charge_gap", "sea_salt_left", "seawater_left"),
            "residue": (
                "chloride_left",
                "salinity_gained",
                "sodium_chloride_left",
                "sodium_chloride_over_time",
                "sodium_left",
            ),
            "salt_mass": (
                "calcium_chloride_for_carbonate",
                "calcium_chloride_for_hydrogencarbonate",
                "calcium_chloride_mass",
                "calcium_formate_mass",
                "salt_mass",
                "sodium_carbonate_mass",
                "sodium_hydrogencarbonate_mass",
            ),
            "two_part_recipe": ("THIRD", "TwoPart", "two_part"),
            "solubility": (
                "calcium_formate_solubility",
                "limewater_alkalinity",
                "limewater_concentration",
                "limewater_ph",
            ),
            "solutions": ("StockSolution",),
            "catalogue": ("Hazard", "Salt", "Solubility", "UnknownSaltError", "salts"),
        },
    )
    __all__ += ["molar_mass"]
