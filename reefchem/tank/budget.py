"""A day's budget of nitrogen and phosphorus: what food brings, and where it goes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from reefchem.core.record import arg, calculation
from reefchem.core.result import Result
from reefchem.dosing.alkalinity_budget import alkalinity_from_nitrate_gain
from reefchem.tank.nutrient_balance import carbon_taken_with_nitrate, phosphate_from_food
from reefchem.tank.nutrients import (
    CHANGE,
    FOOD,
    PROTEIN,
    VOLUME,
    nitrate_from_food,
    nitrate_uptake,
    nitrogen_in_food,
    phosphate_taken_with_nitrate,
)

if TYPE_CHECKING:
    from collections.abc import Mapping

    from reefchem.core.functions import Num

__all__ = ["NutrientBudget", "nutrient_budget"]


@dataclass(frozen=True)
class NutrientBudget(Result):
    """A day's budget.

    Attributes
    ----------
    nitrogen
        In the food, mg a day.
    nitrate_brought
        By the food, when all of it that the animals do not keep becomes nitrate, mg/L a day.
    nitrate_taken
        By algae and by bacteria that build it in, mg/L a day; negative when more appears than food
        and doses explain.
    phosphate_brought
        By the food, when all that the animals do not keep is set free, mg/L a day.
    phosphate_taken, carbon_taken
        With that nitrate, by algae of the median make, mg/L a day; None when none is taken.
    phosphate_change
        What is left of it in the water, mg/L a day; None when no uptake is known.
    alkalinity
        That comes of the nitrogen, meq/L a day: lost as nitrate forms from food, gained as nitrate
        is taken or becomes gas. A dose of nitrate changes nothing when it goes in.
    """

    UNITS: ClassVar[Mapping[str, str]] = {
        "nitrogen": "mg/day",
        "nitrate_brought": "mg/L/day",
        "nitrate_taken": "mg/L/day",
        "phosphate_taken": "mg/L/day",
        "alkalinity": "meq/L/day",
        "phosphate_brought": "mg/L/day",
        "phosphate_change": "mg/L/day",
        "carbon_taken": "mg/L/day",
    }

    nitrogen: Num
    nitrate_brought: Num
    nitrate_taken: Num
    phosphate_taken: Num | None
    alkalinity: Num
    phosphate_brought: Num
    phosphate_change: Num | None
    carbon_taken: Num | None


@calculation(
    source="levenspiel1999",
    at="material balance: in = out + used + kept; derived in the book",
    food=FOOD,
    protein=PROTEIN,
    volume=VOLUME,
    nitrate_change=CHANGE,
    phosphorus=arg(
        "1",
        "w_P",
        title="share of phosphorus in the food",
        typical=(0.0, 0.02),
        possible=(0.0, 1.0),
    ),
    kept=arg(
        "1", "k", title="share that the animals keep", typical=(0.0, 0.5), possible=(0.0, 1.0)
    ),
    dosed=arg("mg/L/day", "d", title="nitrate dosed in a day", typical=(0.0, 1.0)),
    denitrified=arg("mg/L/day", "n", title="nitrate that becomes gas in a day", typical=(0.0, 1.0)),
)
def nutrient_budget(
    food: float,
    protein: float,
    volume: float,
    nitrate_change: float,
    phosphorus: float = 0.0,
    kept: float = 0.0,
    dosed: float = 0.0,
    denitrified: float = 0.0,
) -> NutrientBudget:
    """Return a day's budget of nitrogen and phosphorus.

    Parameters
    ----------
    food
        As fed.
    protein, phosphorus
        Share of the food's mass.
    volume
        Of the tank's water.
    nitrate_change
        Seen in the readings, water changes taken off; negative when the nitrate falls.
    kept
        Share of the food's nitrogen and phosphorus that animals build in or that is siphoned out.
    dosed
        As nitrate, from a salt.
    denitrified
        To nitrogen gas, where the bottom or a filter does that; as nitrate.

    Examples
    --------
    >>> round(nutrient_budget(0.5, 0.45, 180.0, -0.3).nitrate_taken, 4)
    1.1853
    """
    eaten = food * (1 - kept)
    nitrogen = nitrogen_in_food(food, protein)
    brought = nitrate_from_food(nitrogen_in_food(eaten, protein), volume)
    taken = nitrate_uptake(brought + dosed, nitrate_change) - denitrified
    phosphate = phosphate_from_food(eaten, phosphorus, volume)
    with_it = phosphate_taken_with_nitrate(taken) if taken > 0 else None
    return NutrientBudget(
        nitrogen=nitrogen,
        nitrate_brought=brought,
        nitrate_taken=taken,
        phosphate_taken=with_it,
        alkalinity=alkalinity_from_nitrate_gain(brought)
        + alkalinity_from_nitrate_gain(-taken)
        + alkalinity_from_nitrate_gain(-denitrified),
        phosphate_brought=phosphate,
        phosphate_change=None if with_it is None else phosphate - with_it,
        carbon_taken=carbon_taken_with_nitrate(taken) if taken > 0 else None,
    )
