"""The tank: readings in, decisions out, with honest uncertainty."""

from __future__ import annotations

TYPE_CHECKING = False
if TYPE_CHECKING:
    from reefchem.tank.budget import *
    from reefchem.tank.consistency import *
    from reefchem.tank.description import *
    from reefchem.tank.dilution import *
    from reefchem.tank.dissolved import *
    from reefchem.tank.exchange import *
    from reefchem.tank.holding import *
    from reefchem.tank.log import *
    from reefchem.tank.nutrient_balance import *
    from reefchem.tank.nutrients import *
    from reefchem.tank.plan import *
    from reefchem.tank.planning.figures import *
    from reefchem.tank.reach import *
    from reefchem.tank.readings import *
    from reefchem.tank.topoff import *
    from reefchem.tank.uptake_fit import *
else:
    from reefchem.core.lazy import lazily

    __getattr__, __dir__, __all__ = lazily(
        __name__,
        {
            "budget": ("NutrientBudget", "nutrient_budget"),
            "consistency": ("calcium_with_alkalinity", "magnesium_with_calcium"),
            "description": ("Description", "DescriptionError", "Stock", "read_description"),
            "dilution": ("Course", "dilution_factor", "salinity_course"),
            "dissolved": (
                "bound_of_dissolved_uptake",
                "dissolved_error_of_dosed",
                "dissolved_uptake",
                "error_of_dosed",
                "potency_of_ion",
                "readings_to_see_dissolved",
            ),
            "exchange": (
                "after_continuous_exchange",
                "after_partly_mixed_exchange",
                "after_water_changes",
                "after_water_changes_with_gain",
                "alkalinity_after_water_changes",
                "level_before_water_change",
                "share_left",
                "share_to_change",
                "volume_to_change",
                "water_changes_needed",
            ),
            "planning.figures": ("Figure", "Given", "Ledger", "Shown"),
            "holding": (
                "alkalinity_ahead",
                "alkalinity_at_end",
                "alkalinity_brought",
                "alkalinity_need",
                "alkalinity_taken",
                "alkalinity_uptake",
                "bound_of_estimate",
                "bound_of_reading",
                "daily_dose",
                "doses_in_a_day",
                "need_on_the_way",
                "readings_to_see",
                "spread_of_next_reading",
            ),
            "log": (
                "Entry",
                "Fault",
                "Log",
                "LogError",
                "log_from_frame",
                "log_from_text",
                "read_log",
            ),
            "reach": ("alkalinity_with_changes_alone", "times_saturated"),
            "readings": (
                "combined_uncertainty",
                "difference_in_uncertainties",
                "uncertainty_of_mean",
            ),
            "nutrient_balance": (
                "carbon_taken_with_nitrate",
                "days_to_nitrate",
                "nitrate_settled",
                "nitrate_taken_by_bacteria",
                "phosphate_from_food",
                "uptake_at_hours",
                "water_change_rate",
            ),
            "nutrients": (
                "light_hours_that_hold",
                "nitrate_from_food",
                "nitrate_rise",
                "nitrate_uptake",
                "nitrogen_in_food",
                "phosphate_taken_with_nitrate",
                "potassium_with_nitrate",
            ),
            "plan": ("Plan", "dosing_plan", "plan_from_file"),
            "topoff": (
                "correct_salinity",
                "days_to_correct_salinity",
                "evaporation_drift",
                "mixed_salinity",
                "mixed_temperature",
                "salinity_of_new_water",
                "salt_for",
                "salt_to_raise",
                "temperature_of_new_water",
                "top_off_needed",
            ),
            "uptake_fit": ("DissolvedUptake", "FittedReading", "UptakeEstimate", "uptake"),
        },
    )
