"""What the keeper's estimates are worth, beside a truth that only the simulation knows."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from statistics import mean
from typing import TYPE_CHECKING

from demo import simulate
from demo.simulate import MEQ_PER_DKH, Truth
from reefchem.conversion import german_degrees
from reefchem.tank import uncertainty_of_mean, water_change_rate
from reefchem.tank.plan import dosing_plan
from reefchem.uncertainty import Choice, nitrate_choices, plan_uncertainty

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from reefchem.tank import Entry, Log
    from reefchem.tank.plan import Plan
    from reefchem.uncertainty import ChoiceOutcome, PlanUncertainty

__all__ = [
    "Verdict",
    "Window",
    "algae_of_the_readings",
    "forgotten",
    "salinity_by_magnesium",
    "verdicts",
    "windows",
]

WINDOW = 42
EMPTY_SEEN = 305
"""A day three weeks after the bottle of soda was found empty."""

FALLING = (58, 92)
"""Days on which the nitrate fell, with nine hours of light and half a gram of food."""


@dataclass(frozen=True)
class Verdict:
    """An estimate beside the truth.

    Attributes
    ----------
    low, high
        Of the interval that holds the truth 19 times in 20.
    """

    what: str
    unit: str
    truth: float
    estimate: float
    low: float
    high: float

    @property
    def holds(self) -> bool:
        """Whether the truth lies in the interval."""
        return self.low <= self.truth <= self.high


@dataclass(frozen=True)
class Window:
    """Six weeks of the log, and the uptake that they show, dKH in a day."""

    end: int
    truth: float
    estimate: float
    low: float
    high: float


def verdicts(plan: Plan, truth: Truth, sure: PlanUncertainty) -> tuple[Verdict, ...]:
    """Return the estimates of the last day, and what was found on the way, beside the truth."""
    found = plan.estimate
    reach = found.quantile * found.last_error
    last = _day(found.readings[-1].entry)
    uptake = mean(truth.uptake[-WINDOW:])
    need = uptake + 0.1 * (7.5 - simulate.FRESH["alkalinity"]) / 7
    dose = sure.figures["dose"]
    skeleton = sure.figures["skeleton"]
    grams = 30 * truth.uptake[-1] * MEQ_PER_DKH / 2 * simulate.VOLUME * 100.086 / 1000
    shown, low, high = salinity_by_magnesium(plan.log)
    light = algae_of_the_readings(plan.log)[0]
    reached = 1 - (1 - 0.1) ** ((simulate.DAYS - 238) / 7)
    return (
        Verdict(
            "uptake of the last six weeks",
            "dKH a day",
            uptake,
            *(german_degrees(value) for value in (found.uptake, found.low, found.high)),
        ),
        Verdict(
            "alkalinity at the last reading",
            "dKH",
            truth.alkalinity[last],
            *(
                german_degrees(value)
                for value in (found.last, found.last - reach, found.last + reach)
            ),
        ),
        Verdict(
            "dose of soda that holds the target",
            "mL a day",
            need * MEQ_PER_DKH * simulate.VOLUME / simulate.POTENCY,
            dose.value,
            *dose.interval,
        ),
        Verdict("skeleton of a month", "g", grams, skeleton.value, *skeleton.interval),
        Verdict("salinity while it read 35", "", truth.salinity[0], shown, low, high),
        Verdict(
            "nitrate today, foreseen when the lights were changed",
            "mg/L",
            truth.nitrate[-1],
            *(max(0.0, light.settled[i]) * reached for i in (1, 0, 2)),
        ),
    )


def windows(plan: Plan, truth: Truth) -> tuple[Window, ...]:
    """Return what a plan would have found after each six weeks of the year."""
    made = []
    for end in range(WINDOW + 7, simulate.DAYS + 1, 35):
        log = _cut(plan.log, lambda entry, end=end: _day(entry) <= end)
        found = dosing_plan(log, plan.description).estimate
        days = [_day(reading.entry) for reading in found.readings]
        made.append(
            Window(
                end,
                mean(truth.uptake[days[0] : days[-1]]),
                *(german_degrees(value) for value in (found.uptake, found.low, found.high)),
            )
        )
    return tuple(made)


def forgotten(plan: Plan) -> tuple[float, float]:
    """Return the uptake by six weeks with the empty bottle, with and without its row, dKH/d."""
    until = _cut(plan.log, lambda entry: _day(entry) <= EMPTY_SEEN)
    without = _cut(until, lambda entry: entry.note != "bottle empty")
    found = [dosing_plan(log, plan.description).estimate.uptake for log in (until, without)]
    return german_degrees(found[0]), german_degrees(found[1])


def salinity_by_magnesium(log: Log) -> tuple[float, float, float]:
    """Return the salinity before the refractometer was checked, by magnesium, with its interval.

    Hardly anything takes magnesium or brings any. So the last three readings before stand to the
    first three after as the salinity of before to that of after, which a standard vouches for.
    """
    entries = log.readings("magnesium")
    before = [entry.value for entry in entries if _day(entry) <= simulate.CHECKED][-3:]
    after = [entry.value for entry in entries if _day(entry) > simulate.CHECKED + 5][:3]
    salinity = 35.0 * mean(before) / mean(after)
    scatter = simulate.SCATTER["magnesium"]
    parts = [
        uncertainty_of_mean(scatter, float(len(values))) / mean(values)
        for values in (before, after)
    ]
    half = 1.96 * salinity * math.hypot(*parts)
    return salinity, salinity - half, salinity + half


def algae_of_the_readings(log: Log) -> tuple[ChoiceOutcome, ...]:
    """Return what less light and what a dose would do, by the readings while the nitrate fell."""
    rows = [
        (float(_day(entry)), entry.value)
        for entry in log.readings("nitrate")
        if FALLING[0] <= _day(entry) <= FALLING[1] and entry.value > 0
    ]
    days, values = zip(*rows, strict=True)
    slope, error = _line(days, values)
    rate = water_change_rate(simulate.CHANGE / simulate.VOLUME, 7.0)
    return nitrate_choices(
        [Choice("6 hours of light", hours=6.0), Choice("0.35 mg/L of nitrate a day", dosed=0.35)],
        volume=(simulate.VOLUME, 3.6),
        food=(0.5, 0.05),
        protein=(simulate.PROTEIN, 0.02),
        kept=(simulate.KEPT, 0.08),
        nitrate_change=(slope + rate * mean(values), error),
        response=(1.0, 0.1),
        hours=9.0,
    )


def _line(days: Sequence[float], values: Sequence[float]) -> tuple[float, float]:
    """Return the slope of a straight line through readings, and its standard error."""
    middle, level = mean(days), mean(values)
    width = sum((day - middle) ** 2 for day in days)
    slope = sum((d - middle) * (v - level) for d, v in zip(days, values, strict=True)) / width
    rest = sum(
        (v - level - slope * (d - middle)) ** 2 for d, v in zip(days, values, strict=True)
    ) / (len(days) - 2)
    scatter = max(math.sqrt(rest), simulate.SCATTER["nitrate"])
    return slope, scatter / math.sqrt(width)


def sure_of(plan: Plan, progress: Callable[[int, int], None]) -> PlanUncertainty:
    """Return how sure every number of the plan is.

    Volume and bottles are as sure as the description says; a reading of alkalinity, and that of the
    new seawater, to a tenth of a degree.
    """
    description = plan.description
    volume, soda = description.number("tank.volume"), description.stocks[0]
    standard = {
        "tank.volume": volume * description.number("tank.volume_uncertainty"),
        f"stock.{soda.name}": soda.strength * soda.uncertainty,
        "water_change.alkalinity": 0.1 * MEQ_PER_DKH,
        "readings.alkalinity": simulate.SCATTER["alkalinity"] * MEQ_PER_DKH,
    }
    return plan_uncertainty(plan, standard, progress=progress)


def _day(entry: Entry) -> int:
    return (entry.when.date() - simulate.START.date()).days


def _cut(log: Log, keep: Callable[[Entry], bool]) -> Log:
    return replace(log, entries=tuple(entry for entry in log.entries if keep(entry)))
