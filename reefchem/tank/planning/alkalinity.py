"""What a plan knows of the alkalinity before it says anything: level, uptake, need."""

from __future__ import annotations

import math
from datetime import timedelta
from typing import TYPE_CHECKING

from reefchem.core.errors import DomainError
from reefchem.dosing.dose import days_to_change_alkalinity, potency_of_solution
from reefchem.tank.holding import (
    alkalinity_at_end,
    alkalinity_need,
    alkalinity_taken,
    alkalinity_uptake,
    daily_dose,
    need_on_the_way,
)
from reefchem.tank.planning.figures import Figure, Given, Ledger
from reefchem.tank.uptake_fit import uptake

if TYPE_CHECKING:
    from reefchem.tank.description import Description, Stock
    from reefchem.tank.log import Log

__all__ = ["AHEAD", "MONTH", "Alkalinity", "Way"]

AHEAD = 7.0
"""Days to the reading that puts the plan to the test."""

MONTH = 30.0
"""Days of the plan's month."""

LATELY = timedelta(days=14)
"""Time over which doses count as those of late."""


class Way:
    """How the alkalinity moves to its target.

    Attributes
    ----------
    exact, days
        Days at the limit, and the next whole number of them.
    need, dose
        What doses bring on each of these days, and the volume; both None when nothing is dosed
        and the corals bring the alkalinity down by themselves.
    """

    def __init__(
        self, exact: Figure, days: float, need: Figure | None, dose: Figure | None
    ) -> None:
        self.exact = exact
        self.days = days
        self.need = need
        self.dose = dose


class Alkalinity:
    """The account of the alkalinity, worked out from log and description.

    Attributes
    ----------
    stock, potencies
        The stock that holds the alkalinity; the potency of every stock that brings any.
    estimate
        The fit.
    level, uptake, need, hold
        Figures: today's alkalinity, what the corals take, what doses must bring, the daily dose.
    way
        How to come to the target, or None when the level is as near it as readings can tell, or
        when nothing needs dosing.
    """

    def __init__(self, ledger: Ledger, log: Log, description: Description) -> None:
        self.ledger = ledger
        self.log = log
        self.description = description
        stock = description.stock_for("alkalinity") or description.stock_for("all-in-one")
        if stock is None:
            msg = f"{description.path.name}: no [[stock]] brings alkalinity; the plan needs one"
            raise DomainError(msg)
        self.stock: Stock = stock
        self.volume = self.given("tank.volume")
        self.target = self.given("targets.alkalinity")
        self.share = self.given("water_change.share")
        self.every = self.given("water_change.every")
        self.fresh = self.given("water_change.alkalinity")
        self.potencies = {
            other.name: self.potency(other, float(other.salt.alkalinity_after_oxidation))
            for other in description.stocks
            if other.salt.alkalinity_after_oxidation > 0
        }
        self.estimate = uptake(
            log,
            volume=self.volume.value,
            potencies={name: figure.value for name, figure in self.potencies.items()},
            fresh=self.fresh.value,
            days=description.number("log.days"),
        )
        self.fit = f"fit to {len(self.estimate.readings)} readings of {log.file}"
        self.level = self._level()
        self.uptake = self._uptake()
        self.need = self.need_for(self.uptake, "need", "alkalinity that doses must bring in a day")
        self.hold = self.dose_for(
            self.need, "dose", f"daily dose of {stock.name} that holds the target"
        )
        self.way = self._way()

    def given(self, key: str) -> Given:
        """Return a number of the description with its origin."""
        return Given(self.description.number(key), self.description.origin(key))

    def written(self, key: str) -> str:
        """Return a number as the keeper wrote it, or its default."""
        return self.description.written[key]

    def potency(self, stock: Stock, equivalents: float, suffix: str = "") -> Figure:
        """Return the equivalents in each millilitre of a stock."""
        index = [other.name for other in self.description.stocks].index(stock.name) + 1
        catalogue = f"catalogue of salts, {stock.salt.formula}"
        return self.ledger.work_out(
            f"potency_{index}{suffix}",
            f"potency of the stock {stock.name}",
            potency_of_solution,
            digits=4,
            strength=Given(stock.strength, f"{self.description.path.name}, stock {stock.name}"),
            molar_mass=Given(stock.salt.molar_mass, catalogue),
            equivalents=Given(equivalents, catalogue),
            purity=Given(1.0, "taken as pure"),
        )

    def need_for(self, taken: Figure, name: str, label: str) -> Figure:
        """Return what doses must bring for an uptake, beside what water changes bring."""
        return self.ledger.work_out(
            name,
            label,
            alkalinity_need,
            uptake=taken,
            target=self.target,
            fresh=self.fresh,
            share=self.share,
            days=self.every,
        )

    def dose_for(self, need: Figure, name: str, label: str) -> Figure:
        """Return the daily volume of the stock that brings a need."""
        return self.ledger.work_out(
            name,
            label,
            daily_dose,
            need=need,
            volume=self.volume,
            potency=self.potencies[self.stock.name],
        )

    def taken(self, days: float, span: str) -> Figure:
        """Return the alkalinity that the corals take in a week or month."""
        known = self.ledger.figures.get(f"taken_{span}")
        if known is not None:
            return known
        return self.ledger.work_out(
            f"taken_{span}",
            f"alkalinity that the corals take in a {span}",
            alkalinity_taken,
            uptake=self.uptake,
            days=Given(days, f"a {span} of {days:g} days"),
        )

    def dosed_of_late(self) -> tuple[float, float]:
        """Return the milliequivalents that were dosed over the last weeks, and the days."""
        end = self.estimate.readings[-1].entry.when
        begin = max(self.estimate.readings[0].entry.when, end - LATELY)
        total = 0.0
        for name, potency in self.potencies.items():
            rate, since = 0.0, begin
            for entry in self.log:
                if entry.what != "dose" or entry.quantity != name or entry.when >= end:
                    continue
                if entry.unit == "mL/day":
                    now = max(entry.when, begin)
                    total += rate * (now - since).total_seconds() / 86400 * potency.value
                    rate, since = entry.value, now
                elif entry.when >= begin:
                    total += entry.value * potency.value
            total += rate * (end - since).total_seconds() / 86400 * potency.value
        return total, (end - begin).total_seconds() / 86400

    def _level(self) -> Figure:
        found = self.estimate
        return self.ledger.work_out(
            "level",
            "alkalinity at the last reading",
            alkalinity_at_end,
            first=Given(found.first, f"{self.fit}: alkalinity at the first reading"),
            kept=Given(found.kept, f"water changes in {self.log.file}"),
            added=Given(found.added, f"doses and water changes in {self.log.file}"),
            uptake=Given(found.uptake, f"{self.fit}: uptake"),
            days=Given(found.days, f"{self.log.file}, weighted by the water still there"),
        )

    def _uptake(self) -> Figure:
        found = self.estimate
        return self.ledger.work_out(
            "uptake",
            "alkalinity that the corals take in a day",
            alkalinity_uptake,
            first=Given(found.first, f"{self.fit}: alkalinity at the first reading"),
            kept=Given(found.kept, f"water changes in {self.log.file}"),
            added=Given(found.added, f"doses and water changes in {self.log.file}"),
            second=Given(found.last, f"{self.fit}: alkalinity at the last reading"),
            days=Given(found.days, f"{self.log.file}, weighted by the water still there"),
        )

    def _way(self) -> Way | None:
        distance = self.target.value - self.level.value
        dead_band = self.estimate.quantile * self.estimate.last_error
        if self.need.value <= 0 or abs(distance) <= dead_band:
            return None
        rate = self.given("limits.alkalinity")
        falls_alone = distance < 0 and self.need.value <= rate.value
        if falls_alone:
            rate = Given(self.need.value, self.need.label, self.need.id)
        exact = self.ledger.work_out(
            "days_on_the_way",
            "days to the target",
            days_to_change_alkalinity,
            start=self.level,
            target=self.target,
            most=rate,
        )
        days = float(max(1, math.ceil(exact.value - 1e-9)))
        if falls_alone:
            return Way(exact, days, None, None)
        moves = "rises" if distance > 0 else "falls"
        need = self.ledger.work_out(
            "need_on_the_way",
            f"alkalinity that doses bring in a day while it {moves}",
            need_on_the_way,
            need=self.need,
            alkalinity=self.level,
            target=self.target,
            days=Given(days, "the next whole number of days", exact.id),
        )
        dose = self.dose_for(need, "dose_on_the_way", f"daily dose while the alkalinity {moves}")
        return Way(exact, days, need, dose)
