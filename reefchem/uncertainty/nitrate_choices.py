"""Dose nitrate, or run the algae lights less? Each choice in numbers, and how sure they are."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from reefchem.core.errors import DomainError
from reefchem.dosing.alkalinity_budget import alkalinity_from_nitrate_gain
from reefchem.tank.nutrient_balance import (
    days_to_nitrate,
    nitrate_settled,
    nitrate_taken_by_bacteria,
    phosphate_from_food,
    uptake_at_hours,
    water_change_rate,
)
from reefchem.tank.nutrients import (
    nitrate_from_food,
    nitrate_uptake,
    nitrogen_in_food,
    phosphate_taken_with_nitrate,
)
from reefchem.uncertainty.draws import check_correlation, normal_draws, ranks_of_bounds
from reefchem.uncertainty.propagation import Propagated, propagated

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    Uncertain = float | tuple[float, float]

__all__ = ["Choice", "ChoiceOutcome", "nitrate_choices"]


@dataclass(frozen=True)
class Choice:
    """What a keeper may do about the nitrate; what is not named stays as it is.

    Attributes
    ----------
    dosed
        Nitrate from a salt, mg/L in a day.
    hours
        Of light for the algae in a day.
    food
        In a day, g.
    carbon
        Dosed for bacteria in a day, mg/L.
    """

    name: str
    dosed: float = 0.0
    hours: float | None = None
    food: float | None = None
    carbon: float | None = None


@dataclass(frozen=True)
class ChoiceOutcome:
    """Where a choice leads.

    Attributes
    ----------
    gain
        Nitrate gained in a day before water changes, mg/L, and which input the doubt comes from.
    settled
        Nitrate that the tank settles at, mg/L: low, middle and high, of which the outer two hold 95
        members in 100. Below zero it runs out.
    days
        To the target: low, middle and high; infinite where it is never reached.
    reached
        Share of the members in which the target is reached at all.
    phosphate
        Change in a day before water changes, mg/L.
    alkalinity
        That the nitrogen gives or takes in a day, meq/L.
    """

    choice: Choice
    gain: Propagated
    settled: tuple[float, float, float]
    days: tuple[float, float, float]
    reached: float
    phosphate: Propagated
    alkalinity: Propagated


def nitrate_choices(
    choices: Sequence[Choice],
    *,
    volume: Uncertain,
    food: Uncertain,
    protein: Uncertain,
    nitrate_change: Uncertain,
    hours: float,
    level: Uncertain = 0.0,
    target: float = 5.0,
    fresh: Uncertain = 0.0,
    share: float = 0.1,
    every: float = 7.0,
    kept: Uncertain = 0.0,
    phosphorus: Uncertain = 0.01,
    denitrified: Uncertain = 0.0,
    response: Uncertain = 1.0,
    carbon: float = 0.0,
    built: Uncertain = 0.3,
    carbon_per_nitrogen: float = 6.625,
    members: int = 20_000,
    seed: int = 0,
    correlation: Mapping[tuple[str, str], float] | None = None,
) -> tuple[ChoiceOutcome, ...]:
    """Return where each choice leads, with an interval.

    Each uncertain input is a number, or a pair of value and standard uncertainty.

    Parameters
    ----------
    choices
        To compare.
    volume
        Of the tank's water, L.
    food, protein, phosphorus
        Fed in a day, g, and the shares of it.
    nitrate_change
        What the readings showed in a day, mg/L, water changes taken off, while the nitrate was
        above zero. At zero the readings say nothing of what the algae could take.
    hours
        Of light for the algae in a day, then and now.
    level, target, fresh
        Nitrate now, to reach, and of the fresh seawater, mg/L.
    share, every
        Of the volume at a water change, and days from one to the next.
    kept
        Share of the food's nitrogen and phosphorus that animals build in or that is siphoned out.
    denitrified
        Nitrate that becomes gas in a day, mg/L; it is taken to go on.
    response
        How the uptake follows the light; see `uptake_at_hours`.
    carbon, built, carbon_per_nitrogen
        Carbon dosed now, mg/L in a day; share of it that becomes bacteria, and their make.
    members, seed, correlation
        Of the random draws, as for `simulate`.

    Notes
    -----
    The uptake of now is what the balance leaves over; so a doubt about the food hardly matters
    where the lights stay as they are, and matters fully where they are changed. The gain is taken
    as steady. Algae that are short of nothing may grow, and take more from month to month.

    Raises
    ------
    DomainError
        When an input, or a member of the sample, is impossible.

    Examples
    --------
    >>> dose, light = nitrate_choices(
    ...     [Choice("dose", dosed=0.5), Choice("less light", hours=6.0)],
    ...     volume=180.0, food=(0.5, 0.05), protein=0.45, nitrate_change=(-0.3, 0.05), hours=9.0,
    ... )
    >>> round(dose.gain.value, 2), round(light.gain.value, 3)
    (0.2, 0.095)
    >>> max(light.gain.shares, key=light.gain.shares.get)
    'nitrate_change'
    """
    import numpy as np  # noqa: PLC0415 - NumPy is loaded only by those who use it

    given: dict[str, Uncertain] = {
        "volume": volume,
        "food": food,
        "protein": protein,
        "nitrate_change": nitrate_change,
        "level": level,
        "fresh": fresh,
        "kept": kept,
        "phosphorus": phosphorus,
        "denitrified": denitrified,
        "response": response,
        "built": built,
    }
    pairs = {name: one if isinstance(one, tuple) else (one, 0.0) for name, one in given.items()}
    for name, (value, spread) in pairs.items():
        if not 0 <= spread < math.inf or not abs(value) < math.inf:
            msg = f"nitrate_choices: {name} is {value} with a standard uncertainty of {spread}"
            raise DomainError(msg)
    if not hours > 0 or not 0 < share < 1:
        msg = f"nitrate_choices: {hours} hours of light and a share of {share}; more than 0 needed"
        raise DomainError(msg)
    check_correlation("nitrate_choices", pairs, correlation)
    names = [name for name, (_, spread) in pairs.items() if spread]
    point = {name: float(value) for name, (value, _) in pairs.items()}
    draws = normal_draws("nitrate_choices", names, correlation, members, seed)
    sample: dict[str, Any] = {name: np.full(members, value) for name, value in point.items()}
    for name, row in zip(names, draws, strict=True):
        sample[name] = sample[name] + pairs[name][1] * row
    now = Now(hours, carbon, carbon_per_nitrogen)
    rate = float(water_change_rate(share, every))
    outcomes = []
    for choice in choices:
        gain = now.gain(choice, sample)
        settled = nitrate_settled(sample["fresh"], gain, rate)
        between = (settled - target) * (sample["level"] - target) < 0
        days = np.where(sample["level"] == target, 0.0, np.inf)
        if between.any():
            known = (sample["level"], target, sample["fresh"], gain, rate)
            days[between] = days_to_nitrate(
                *(v[between] if isinstance(v, np.ndarray) else v for v in known)
            )
        outcomes.append(
            ChoiceOutcome(
                choice,
                gain=_propagated(now.gain, choice, pairs, correlation, "mg/L/day"),
                settled=_bounds(settled),
                days=_bounds(days),
                reached=float(np.isfinite(days).mean()),
                phosphate=_propagated(now.phosphate, choice, pairs, correlation, "mg/L/day"),
                alkalinity=_propagated(now.alkalinity, choice, pairs, correlation, "meq/L/day"),
            )
        )
    return tuple(outcomes)


@dataclass(frozen=True)
class Now:
    """What is done now, and what a choice changes; for floats and arrays."""

    hours: float
    carbon: float
    carbon_per_nitrogen: float

    def taken(self, choice: Choice, inputs: Mapping[str, Any]) -> tuple[Any, Any, Any]:
        """Return nitrate brought by food, taken by algae, and built in by bacteria."""
        before = self._brought(inputs["food"], inputs)
        bacteria = self._bacteria(self.carbon, inputs)
        algae = nitrate_uptake(before, inputs["nitrate_change"])
        algae = algae - inputs["denitrified"] - bacteria
        hours = self.hours if choice.hours is None else choice.hours
        then = self._followed(algae, hours, inputs["response"])
        food = inputs["food"] if choice.food is None else choice.food
        carbon = self.carbon if choice.carbon is None else choice.carbon
        return self._brought(food, inputs), then, self._bacteria(carbon, inputs)

    def gain(self, choice: Choice, inputs: Mapping[str, Any]) -> Any:
        """Return what nitrate gains in a day, before water changes."""
        brought, algae, bacteria = self.taken(choice, inputs)
        return brought + choice.dosed - algae - bacteria - inputs["denitrified"]

    def phosphate(self, choice: Choice, inputs: Mapping[str, Any]) -> Any:
        """Return what phosphate gains in a day; bacteria are counted as algae are."""
        _, algae, bacteria = self.taken(choice, inputs)
        food = inputs["food"] if choice.food is None else choice.food
        eaten = food * (1 - inputs["kept"])
        brought = phosphate_from_food(eaten, inputs["phosphorus"], inputs["volume"])
        return brought - phosphate_taken_with_nitrate(1.0) * (algae + bacteria)

    def alkalinity(self, choice: Choice, inputs: Mapping[str, Any]) -> Any:
        """Return what the nitrogen does to the alkalinity in a day; a dose changes nothing."""
        brought, algae, bacteria = self.taken(choice, inputs)
        return alkalinity_from_nitrate_gain(brought - algae - bacteria - inputs["denitrified"])

    def _brought(self, food: Any, inputs: Mapping[str, Any]) -> Any:
        eaten = food * (1 - inputs["kept"])
        return nitrate_from_food(nitrogen_in_food(eaten, inputs["protein"]), inputs["volume"])

    def _bacteria(self, carbon: float, inputs: Mapping[str, Any]) -> Any:
        return nitrate_taken_by_bacteria(carbon, inputs["built"], self.carbon_per_nitrogen)

    def _followed(self, algae: Any, hours: float, response: Any) -> Any:
        """Return the uptake at other hours; it may be below zero, where the balance says so."""
        return algae * uptake_at_hours(1.0, self.hours, hours, response)


def _bounds(values: Any) -> tuple[float, float, float]:
    """Return low, middle and high; members, not means of two, so that the infinite may be there."""
    ordered = sorted(values.tolist())
    low, middle, high = (ordered[rank] for rank in ranks_of_bounds(len(ordered)))
    return low, middle, high


def _propagated(
    function: Any,
    choice: Choice,
    pairs: Mapping[str, tuple[float, float]],
    correlation: Mapping[tuple[str, str], float] | None,
    unit: str,
) -> Propagated:
    """Return a result with its uncertainty; half the step from one side to the other for each."""
    point = {name: float(value) for name, (value, _) in pairs.items()}
    parts = {}
    for name, (value, spread) in pairs.items():
        if spread:
            ends = [
                float(function(choice, {**point, name: value + side * spread})) for side in (1, -1)
            ]
            parts[name] = (ends[0] - ends[1]) / 2
    value = float(function(choice, point))
    return propagated(value, parts, unit, correlation, f"nitrate_choices: {choice.name}")
