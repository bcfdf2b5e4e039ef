"""A day's budget of nitrogen and phosphorus: what food brings, and where it goes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from reefchem.core.record import arg, calculation
from reefchem.core.result import Result
from reefchem.dosing.alkalinity_budget import alkalinity_from_nitrate_gain
from reefchem.tank.nutrients import (
    nitrate_from_food,
    nitrate_uptake,
    nitrogen_in_food,
    phosphate_taken_with_nitrate,
)

if TYPE_CHECKING:
    from collections.abc import Mapping

    from reefchem.core.functions import Num

__all__ = ["NutrientBudget", "nutrient_budget"]

EITHER_SIGN = (-float("inf"), float("inf"))


@dataclass(frozen=True)
class NutrientBudget(Result):
    """A day's budget.

    Attributes
    ----------
    nitrogen
        In the food, mg a day.
    nitrate_brought
        If all of it became nitrate, mg/L a day.
    nitrate_taken
        By algae and bacteria, mg/L a day; negative when more appears than the food explains.
    phosphate_taken
        With that nitrate, by algae of the median make; None when none is taken.
    alkalinity
        That comes of both, meq/L a day: lost as nitrate forms, gained as it is taken.
    """

    UNITS: ClassVar[Mapping[str, str]] = {
        "nitrogen": "mg/day",
        "nitrate_brought": "mg/L/day",
        "nitrate_taken": "mg/L/day",
        "phosphate_taken": "mg/L/day",
        "alkalinity": "meq/L/day",
    }

    nitrogen: Num
    nitrate_brought: Num
    nitrate_taken: Num
    phosphate_taken: Num | None
    alkalinity: Num


@calculation(
    source="levenspiel1999",
    at="material balance: in = out + used + kept; derived in the book",
    food=arg("g/day", r"\dot m", typical=(0.1, 20.0)),
    protein=arg("1", "w", typical=(0.05, 0.6), possible=(0.0, 1.0)),
    volume=arg("L", "V", typical=(20.0, 1000.0)),
    nitrate_change=arg("mg/L/day", r"\dot c", typical=(-1.0, 0.2), possible=EITHER_SIGN),
)
def nutrient_budget(
    food: float, protein: float, volume: float, nitrate_change: float
) -> NutrientBudget:
    """Return a day's budget of nitrogen and phosphorus.

    Parameters
    ----------
    food
        As fed.
    protein
        Share of the food's mass.
    volume
        Of the tank's water.
    nitrate_change
        Seen in the readings, water changes taken off; negative when the nitrate falls.

    Examples
    --------
    >>> round(nutrient_budget(0.5, 0.45, 180.0, -0.3).nitrate_taken, 4)
    1.1853
    """
    nitrogen = nitrogen_in_food(food, protein)
    brought = nitrate_from_food(nitrogen, volume)
    taken = nitrate_uptake(brought, nitrate_change)
    return NutrientBudget(
        nitrogen=nitrogen,
        nitrate_brought=brought,
        nitrate_taken=taken,
        phosphate_taken=phosphate_taken_with_nitrate(taken) if taken > 0 else None,
        alkalinity=alkalinity_from_nitrate_gain(brought) + alkalinity_from_nitrate_gain(-taken),
    )
