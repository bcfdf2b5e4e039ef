"""What a plan knows of the alkalinity before it says anything: level, uptake, need."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from reefchem.core.errors import DomainError
from reefchem.dosing.dose import days_to_change_alkalinity, potency_of_solution
from reefchem.tank.holding import (
    alkalinity_at_end,
    alkalinity_brought,
    alkalinity_need,
    alkalinity_taken,
    alkalinity_uptake,
    bound_of_estimate,
    bound_of_reading,
    daily_dose,
    need_on_the_way,
)
from reefchem.tank.planning.figures import Figure, Given, Ledger
from reefchem.tank.planning.pump import running_pump
from reefchem.tank.uptake_fit import uptake

if TYPE_CHECKING:
    from reefchem.tank.description import Description, Stock
    from reefchem.tank.log import Entry, Log
    from reefchem.tank.uptake_fit import UptakeEstimate

__all__ = ["AHEAD", "MONTH", "SIDES", "Alkalinity", "Way"]

AHEAD = 7.0
"""Days to the reading that puts the plan to the test."""

MONTH = 30.0
"""Days of the plan's month."""

SIDES = (("low", -1.0), ("high", 1.0))


LEAST_RATE = 0.8
"""Largest share of the limit that the doubt of the uptake may take away from the way."""


class Way:
    """How the alkalinity moves to its target.

    Attributes
    ----------
    exact, days
        Days at the limit, and the next whole number of them.
    dosed
        What doses bring on each of these days, and the volume; None when nothing is dosed and the
        corals bring the alkalinity down by themselves.
    """

    def __init__(self, exact: Figure, days: float, dosed: tuple[Figure, Figure] | None) -> None:
        self.exact = exact
        self.days = days
        self.dosed = dosed


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
    levels, uptakes, doses
        Low and high bound of each, at 95 %: the dead band of the plan.
    way
        How to come to the target, or None when the level is as near it as readings can tell, or
        when nothing needs dosing.
    pump
        Row of the log that set the pump of the stock, when it is to be left as it is: the level
        and the dose are then both within their dead bands.
    held
        What the doses bring in a day once the target is held: what the pump brings when it is
        left as it is, else the need.
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
        self.volume: Given = self.given("tank.volume")
        self.target: Given = self.given("targets.alkalinity")
        self.share: Given = self.given("water_change.share")
        self.every: Given = self.given("water_change.every")
        self.fresh: Given = self.given("water_change.alkalinity")
        self.potencies: dict[str, Figure] = {
            other.name: self.potency(other, float(other.salt.alkalinity_after_oxidation))
            for other in description.stocks
            if other.salt.alkalinity_after_oxidation > 0
        }
        self.estimate: UptakeEstimate = self.fitted(description.number("log.days"))
        self.fit: str = f"fit to {len(self.estimate.readings)} readings of {log.file}"
        self.level: Figure = self._level()
        self.uptake: Figure = self._uptake()
        self.need: Figure = self.need_for(
            self.uptake, "need", "alkalinity that doses must bring in a day"
        )
        self.hold: Figure = self.dose_for(
            self.need, "dose", f"daily dose of {stock.name} that holds the target"
        )
        self.levels: tuple[Figure, Figure] = self._bounds("level", bound_of_reading)
        self.uptakes: tuple[Figure, Figure] = self._bounds("uptake", bound_of_estimate)
        self.doses: tuple[Figure, ...] = tuple(
            self.dose_for(
                self.need_for(bound, f"need_{side}", f"{side} bound of the need"),
                f"dose_{side}",
                f"{side} bound of the daily dose",
            )
            for bound, (side, _) in zip(self.uptakes, SIDES, strict=True)
        )
        self.way: Way | None = self._way()
        self.pump: Entry | None = self._pump()
        self.held: Figure = self._held()

    def fitted(self, days: float, *, at_least: int = 0, halves: bool = True) -> UptakeEstimate:
        """Return the uptake that the readings of the last days show."""
        return uptake(
            self.log,
            volume=self.volume.value,
            potencies={name: figure.value for name, figure in self.potencies.items()},
            fresh=self.fresh.value,
            top_off=self.description.number("top_off.alkalinity"),
            days=days,
            at_least=at_least,
            halves=halves,
        )

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

    def _level(self) -> Figure:
        found = self.estimate
        if found.last < 0:
            msg = (
                f"{self.log.file}: with its doses and water changes the readings put the "
                "alkalinity below nothing; look for a dose, a pump or a change that was not made"
            )
            raise DomainError(msg)
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

    def quantile(self, sign: float) -> Given:
        """Return the quantile of the intervals, negative for their lower bounds."""
        found = self.estimate
        return Given(
            sign * found.quantile,
            f"Student's distribution, 95 %, {found.freedom:.3g} degrees of freedom",
        )

    def _bounds(self, name: str, relation: Any) -> tuple[Figure, Figure]:
        """Return the bounds of level or uptake."""
        found, figure = self.estimate, getattr(self, name)
        error = found.last_error if name == "level" else found.standard_error
        best, spread = ("expected", "spread") if name == "level" else ("estimate", "standard_error")
        wrong = Given(error, f"{self.fit}: standard error of the {name}")
        bounds: list[Figure] = []
        for side, sign in SIDES:
            inputs: dict[str, Any] = {
                best: figure,
                spread: wrong,
                "quantile": self.quantile(sign),
            }
            label = f"{side} bound of the {name}"
            bounds.append(self.ledger.work_out(f"{name}_{side}", label, relation, **inputs))
        return bounds[0], bounds[1]

    def _pump(self) -> Entry | None:
        pump = running_pump(self.log, self.stock.name)
        if pump is None or self.way is not None or self.need.value <= 0:
            return None
        low, high = (bound.value for bound in self.doses)
        return pump if low <= pump.value <= high else None

    def _held(self) -> Figure:
        if self.pump is None:
            return self.need
        potency = self.potencies[self.stock.name]
        return self.ledger.work_out(
            "held",
            "alkalinity that the pump brings in a day",
            alkalinity_brought,
            equivalents=Given(
                self.pump.value * potency.value, f"{self.log.file}, line {self.pump.line}: one day"
            ),
            volume=self.volume,
            days=Given(1.0, "one day"),
        )

    def _safe_rate(self) -> Given:
        """Return the largest change in a day, less what the uptake's doubt may add to it."""
        limit = self.given("limits.alkalinity")
        doubt = self.uptake.value - self.uptakes[0].value
        if doubt >= LEAST_RATE * limit.value:
            return Given((1 - LEAST_RATE) * limit.value, f"{limit.origin}, a fifth of it for sure")
        return Given(limit.value - doubt, f"{limit.origin}, less the doubt of the uptake")

    def _way(self) -> Way | None:
        distance = self.target.value - self.level.value
        low, high = (bound.value for bound in self.levels)
        if self.need.value <= 0 or low <= self.target.value <= high:
            return None
        rate = self._safe_rate()
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
            return Way(exact, days, None)
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
        return Way(exact, days, (need, dose))
