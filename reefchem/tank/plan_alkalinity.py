"""The part of a plan that holds the alkalinity: daily dose, approach, water change, next reading."""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import timedelta
from typing import TYPE_CHECKING

from reefchem.core.errors import DomainError
from reefchem.dosing.calcification import calcium_carbonate_grown, calcium_used
from reefchem.dosing.dose import days_to_change_alkalinity, potency_of_solution
from reefchem.tank.exchange import alkalinity_after_water_changes, volume_to_change
from reefchem.tank.figures import Figure, Given, Ledger
from reefchem.tank.holding import (
    alkalinity_ahead,
    alkalinity_at_end,
    alkalinity_brought,
    alkalinity_need,
    alkalinity_taken,
    alkalinity_uptake,
    bound_of_estimate,
    bound_of_reading,
    daily_dose,
    doses_in_a_day,
    need_on_the_way,
    spread_of_next_reading,
)
from reefchem.tank.plan_text import Line
from reefchem.tank.uptake_fit import UptakeEstimate, uptake

if TYPE_CHECKING:
    from reefchem.tank.description import Description, Stock
    from reefchem.tank.log import Log

__all__ = ["Alkalinity", "plan_alkalinity"]

AHEAD = 7.0
"""Days to the reading that puts the plan to the test."""

MONTH = 30.0
"""Days of the plan's month."""

CALCIUM_EQUIVALENTS = 2.0


@dataclass(frozen=True)
class Alkalinity:
    """What was worked out, and the lines that say so."""

    estimate: UptakeEstimate
    stock: Stock
    uptake: Figure
    need: Figure
    today: tuple[Line, ...]
    why: tuple[Line, ...]
    sure: tuple[Line, ...]


def plan_alkalinity(ledger: Ledger, log: Log, description: Description) -> Alkalinity:
    """Return the part of a plan that holds the alkalinity."""
    return Planner(ledger, log, description).plan()


class Planner:
    """Works the figures out one after the other; each method gives the lines of its part."""

    def __init__(self, ledger: Ledger, log: Log, description: Description) -> None:
        self.ledger = ledger
        self.log = log
        self.description = description
        stock = description.stock_for("alkalinity") or description.stock_for("all-in-one")
        if stock is None:
            msg = f"{description.path.name}: no [[stock]] brings alkalinity; the plan needs one"
            raise DomainError(msg)
        self.stock = stock
        self.volume = self._given("tank.volume")
        self.target = self._given("targets.alkalinity")
        self.limit = self._given("limits.alkalinity")
        self.share = self._given("water_change.share")
        self.every = self._given("water_change.every")
        self.fresh = self._given("water_change.alkalinity")
        self.potencies = {
            other.name: self._potency(other, other.salt.alkalinity_after_oxidation)
            for other in description.stocks
            if other.salt.alkalinity_after_oxidation > 0
        }
        self.potency = self.potencies[stock.name]
        self.estimate = uptake(
            log,
            volume=self.volume.value,
            potencies={name: figure.value for name, figure in self.potencies.items()},
            fresh_alkalinity=self.fresh.value,
            days=description.number("log.days"),
        )
        self.fit = f"fit to {len(self.estimate.readings)} readings of {log.file}"

    def plan(self) -> Alkalinity:
        """Work everything out, in the order in which each figure needs the others."""
        found = self.estimate
        work_out = self.ledger.work_out
        self.level = self._level()
        self.uptake = work_out(
            "uptake",
            "alkalinity that the corals take in a day",
            alkalinity_uptake,
            first=Given(found.first, f"{self.fit}: alkalinity at the first reading"),
            kept=Given(found.kept, f"water changes in {self.log.file}"),
            added=Given(found.added, f"doses and water changes in {self.log.file}"),
            second=Given(found.last, f"{self.fit}: alkalinity at the last reading"),
            days=Given(found.days, f"{self.log.file}, weighted by the water still there"),
        )
        self.need = work_out(
            "need",
            "alkalinity that doses must bring in a day",
            alkalinity_need,
            uptake=self.uptake,
            target=self.target,
            fresh=self.fresh,
            share=self.share,
            days=self.every,
        )
        today = (*self._dose(), *self._water_change())
        return Alkalinity(
            found, self.stock, self.uptake, self.need, today, self._why(), self._sure()
        )

    def _given(self, key: str) -> Given:
        return Given(self.description.number(key), self.description.origin(key))

    def _potency(self, stock: Stock, equivalents: float, suffix: str = "") -> Figure:
        index = [other.name for other in self.description.stocks].index(stock.name) + 1
        return self.ledger.work_out(
            f"potency_{index}{suffix}",
            f"potency of the stock {stock.name}",
            potency_of_solution,
            digits=4,
            strength=Given(stock.strength, f"{self.description.path.name}, stock {stock.name}"),
            molar_mass=Given(stock.salt.molar_mass, f"catalogue of salts, {stock.salt.formula}"),
            equivalents=Given(float(equivalents), f"catalogue of salts, {stock.salt.formula}"),
            purity=Given(1.0, "taken as pure"),
        )

    def _level(self) -> Figure:
        """Return today's alkalinity: the balance from the first reading to the last, with the fit."""
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

    def _dose(self) -> list[Line]:
        """Say what to dose: to hold when the level is right, else on a bounded way to the target."""
        work_out = self.ledger.work_out
        hold = work_out(
            "dose",
            f"daily dose of {self.stock.name} that holds the target",
            daily_dose,
            need=self.need,
            volume=self.volume,
            potency=self.potency,
        )
        dead_band = self.estimate.quantile * self.estimate.last_error
        distance = self.target.value - self.level.value
        lines = []
        if self.need.value <= 0:
            lines.append(Line((
                "Dose no ", self.stock.name, ": the water changes alone bring what is used (",
                self.need, " would be needed from doses).",
            )))  # fmt: skip
        elif abs(distance) <= dead_band:
            lines.append(Line((
                "Dose ", hold, " of ", self.stock.name, ". The alkalinity, ", self.level,
                ", is as near the target as the readings can tell.", *self._split(self.need),
            )))  # fmt: skip
        elif distance > 0:
            lines += self._rise(hold)
        else:
            lines += self._fall(hold)
        return [*lines, *self._calcium()]

    def _rise(self, hold: Figure) -> list[Line]:
        exact, days = self._way(self.limit)
        way = self.ledger.work_out(
            "need_rising",
            "alkalinity that doses bring in a day while it rises",
            need_on_the_way,
            need=self.need,
            alkalinity=self.level,
            target=self.target,
            days=Given(days, "the next whole number of days", exact.id),
        )
        dose = self._way_dose(way, "daily dose while the alkalinity rises")
        return [
            Line((
                f"For the next {_days(days)}, dose ", dose, " of ", self.stock.name,
                ": the alkalinity rises from ", self.level, " to ", self._target_text(),
                f", no faster than {self._limit_text()}.", *self._split(way),
            )),
            Line((
                "Then, or sooner if a reading reaches the target, dose ", hold, " of ",
                self.stock.name, " to hold it.",
            )),
        ]  # fmt: skip

    def _fall(self, hold: Figure) -> list[Line]:
        fall = self.limit
        stop = self.need.value <= self.limit.value
        if stop:
            fall = Given(self.need.value, self.need.label, self.need.id)
        exact, days = self._way(fall)
        then = Line(("Then dose ", hold, " of ", self.stock.name, " to hold it."))
        if stop:
            return [
                Line((
                    "Dose no ", self.stock.name, f" for the next {_days(days)}: the alkalinity, ",
                    self.level, ", is above ", self._target_text(),
                    " and the corals bring it down by themselves.",
                )),
                then,
            ]  # fmt: skip
        way = self.ledger.work_out(
            "need_falling",
            "alkalinity that doses bring in a day while it falls",
            need_on_the_way,
            need=self.need,
            alkalinity=self.level,
            target=self.target,
            days=Given(days, "the next whole number of days", exact.id),
        )
        dose = self._way_dose(way, "daily dose while the alkalinity falls")
        return [
            Line((
                f"For the next {_days(days)}, dose only ", dose, " of ", self.stock.name,
                ": the alkalinity falls from ", self.level, " to ", self._target_text(),
                f", no faster than {self._limit_text()}.",
            )),
            then,
        ]  # fmt: skip

    def _way(self, rate: Given) -> tuple[Figure, float]:
        exact = self.ledger.work_out(
            "days_on_the_way",
            "days to the target at the limit",
            days_to_change_alkalinity,
            start=self.level,
            target=self.target,
            most=rate,
        )
        return exact, float(max(1, math.ceil(exact.value - 1e-9)))

    def _way_dose(self, way: Figure, label: str) -> Figure:
        return self.ledger.work_out(
            "dose_on_the_way",
            label,
            daily_dose,
            need=way,
            volume=self.volume,
            potency=self.potency,
        )

    def _target_text(self) -> str:
        written = self.description.written["targets.alkalinity"]
        return f"the target of {written}"

    def _limit_text(self) -> str:
        return self.description.written["limits.alkalinity"]

    def _split(self, need: Figure) -> tuple[str | Figure, ...]:
        """Say into how many doses a day's need is split, when one would raise it too far."""
        exact = self.ledger.work_out(
            f"doses_for_{need.id}",
            "doses in a day so that none raises the alkalinity too far",
            doses_in_a_day,
            need=need,
            single=self._given("limits.single_dose"),
            days=Given(1.0, "one day"),
        )
        single = self.description.written["limits.single_dose"]
        if exact.value <= 1:
            return (" One dose a day will do (", exact, f" of the {single} that one may raise it).")
        return (f" Split it into at least {math.ceil(exact.value)} equal doses a day (", exact,
                f" times the {single} that one may raise it).")  # fmt: skip

    def _calcium(self) -> list[Line]:
        """Say how much of the calcium stock goes with the dose, for a method in two parts."""
        other = self.description.stock_for("calcium")
        if self.stock.purpose == "all-in-one" or self.need.value <= 0:
            return []
        if other is None:
            return [Line((
                "No calcium stock is described: the corals also take calcium, ", self._calcium_taken(),
                " in a week, which the water changes must bring.",
            ))]  # fmt: skip
        dose = self.ledger.work_out(
            "dose_calcium",
            f"daily dose of {other.name} that goes with it",
            daily_dose,
            need=self.need,
            volume=self.volume,
            potency=self._potency(other, CALCIUM_EQUIVALENTS, "_calcium"),
        )
        return [Line((
            "With it, at another time of the day, dose ", dose, " of ", other.name,
            ": as many equivalents of calcium as of alkalinity, since skeletons take both alike (",
            self._calcium_taken(), " of calcium in a week).",
        ))]  # fmt: skip

    def _calcium_taken(self) -> Figure:
        return self.ledger.work_out(
            "calcium", "calcium that goes into skeletons in a week", calcium_used,
            alkalinity_used=self._taken(AHEAD, "week"),
        )  # fmt: skip

    def _taken(self, days: float, span: str) -> Figure:
        return self.ledger.work_out(
            f"taken_{span}", f"alkalinity that the corals take in a {span}", alkalinity_taken,
            uptake=self.uptake, days=Given(days, f"a {span} of {days:g} days"),
        )  # fmt: skip

    def _water_change(self) -> list[Line]:
        work_out = self.ledger.work_out
        litres = work_out(
            "water_change", "volume of a water change", volume_to_change,
            share=self.share, volume=self.volume,
        )  # fmt: skip
        after = work_out(
            "after_change", "alkalinity after a water change at the target",
            alkalinity_after_water_changes,
            alkalinity=self.target, fresh=self.fresh, share=self.share,
            changes=Given(1.0, "one change"),
        )  # fmt: skip
        lines = [Line((
            f"Every {_days(self.every.value)}, change ", litres,
            " of the water. At the target this moves the alkalinity to ", after,
            ", and the daily dose above allows for it.",
        ))]  # fmt: skip
        if abs(after.value - self.target.value) > self.description.number("limits.single_dose"):
            lines.append(Line((
                "That is more than a single dose may do: bring the fresh seawater nearer the tank's "
                "alkalinity first, or change less at a time and more often.",
            )))  # fmt: skip
        return lines

    def _why(self) -> tuple[Line, ...]:
        work_out = self.ledger.work_out
        found = self.estimate
        first, last = found.readings[0].entry.when, found.readings[-1].entry.when
        month = work_out(
            "skeleton", "calcium carbonate that the corals build in 30 days", calcium_carbonate_grown,
            alkalinity_used=self._taken(MONTH, "month"), volume=self.volume,
        )  # fmt: skip
        lines = [
            Line((
                f"From {_date(first)} to {_date(last)} there are {len(found.readings)} readings of "
                "alkalinity. With the doses and water changes of the log they show an uptake of ",
                self.uptake, ". That is ", month, " of skeleton in a month.",
            )),
            Line((
                "Since the water changes bring seawater of another alkalinity than the target, the "
                "doses must bring ", self.need, ".",
            )),
        ]  # fmt: skip
        lines.append(self._if_nothing_changes())
        return tuple(lines)

    def _if_nothing_changes(self) -> Line:
        volume, span = self._dosed_lately()
        brought = self.ledger.work_out(
            "brought",
            "alkalinity that the doses brought in a day of late",
            alkalinity_brought,
            equivalents=Given(volume, f"doses in {self.log.file}, last {_days(span)}"),
            volume=self.volume,
            days=Given(span, f"{self.log.file}"),
        )
        ahead = self.ledger.work_out(
            "ahead",
            "alkalinity in a week if nothing changes, before a water change",
            alkalinity_ahead,
            alkalinity=self.level,
            brought=brought,
            uptake=self.uptake,
            days=Given(AHEAD, "one week"),
        )
        return Line((
            "Of late the doses brought ", brought, ". If nothing changes, the alkalinity goes from ",
            self.level, " to ", ahead, " in a week, before a water change.",
        ))  # fmt: skip

    def _dosed_lately(self) -> tuple[float, float]:
        """Return the milliequivalents that were dosed over the last weeks, and the days."""
        end = self.estimate.readings[-1].entry.when
        begin = max(self.estimate.readings[0].entry.when, end - timedelta(days=14))
        total = 0.0
        for name, potency in self.potencies.items():
            rate, since = 0.0, begin
            for entry in self.log:
                if entry.what != "dose" or entry.quantity != name or entry.when >= end:
                    continue
                if entry.unit == "mL/day":
                    if entry.when > begin:
                        total += rate * (entry.when - since).total_seconds() / 86400 * potency.value
                        since = entry.when
                    rate = entry.value
                elif entry.when >= begin:
                    total += entry.value * potency.value
            total += rate * (end - since).total_seconds() / 86400 * potency.value
        return total, (end - begin).total_seconds() / 86400

    def _sure(self) -> tuple[Line, ...]:
        found = self.estimate
        lines = [self._interval()]
        if found.outliers:
            listed = "; ".join(
                f"{_date(r.entry.when)}, {r.entry.written} (line {r.entry.line})"
                for r in found.outliers
            )
            lines.append(Line((
                f"Far from the others, but counted (with less weight): {listed}. "
                "Look whether it was a slip.",
            )))  # fmt: skip
        if found.changed:
            lines.append(Line((
                "The uptake was not the same in the earlier and the later half of these readings; "
                "a young tank's grows. Shorten log.days in the description to follow it, or measure "
                "more often.",
            )))  # fmt: skip
        elif found.changed is False:
            lines.append(Line((
                "The readings show no change of the uptake between their earlier and later half.",
            )))  # fmt: skip
        lines.append(self._next_reading())
        return tuple(lines)

    def _interval(self) -> Line:
        found = self.estimate
        bounds, doses = [], []
        for side, sign in (("low", -1.0), ("high", 1.0)):
            bound = self.ledger.work_out(
                f"uptake_{side}", f"{side} bound of the uptake", bound_of_estimate,
                estimate=self.uptake,
                standard_error=Given(found.standard_error, f"{self.fit}: standard error"),
                quantile=Given(sign * found.quantile,
                               f"Student's distribution, 95 %, {len(found.readings) - 2} degrees"),
            )  # fmt: skip
            need = self.ledger.work_out(
                f"need_{side}", f"{side} bound of the need", alkalinity_need,
                uptake=bound, target=self.target, fresh=self.fresh, share=self.share, days=self.every,
            )  # fmt: skip
            bounds.append(bound)
            doses.append(self.ledger.work_out(
                f"dose_{side}", f"{side} bound of the daily dose", daily_dose,
                need=need, volume=self.volume, potency=self.potency,
            ))  # fmt: skip
        return Line((
            "With 95 % confidence the uptake lies between ", bounds[0], " and ", bounds[1],
            ", and the dose that holds the target between ", doses[0], " and ", doses[1],
            ". Neither the volume's nor the stock's own error is in this.",
        ))  # fmt: skip

    def _next_reading(self) -> Line:
        """Say which reading in a week would prove the plan wrong."""
        found = self.estimate
        spread = self.ledger.work_out(
            "spread",
            "standard deviation of next week's reading about the plan",
            spread_of_next_reading,
            level_error=Given(found.last_error, f"{self.fit}: standard error of the level"),
            uptake_error=Given(found.standard_error, f"{self.fit}: standard error of the uptake"),
            correlation=Given(found.correlation, f"{self.fit}: correlation of level and uptake"),
            days=Given(AHEAD, "one week"),
            scatter=Given(found.scatter, f"{self.fit}: scatter of a reading"),
        )
        expected = self._expected()
        low, high = (
            self.ledger.work_out(
                f"reading_{side}", f"{side} bound of next week's reading", bound_of_reading,
                expected=expected, spread=spread,
                quantile=Given(sign * found.quantile,
                               f"Student's distribution, 95 %, {len(found.readings) - 2} degrees"),
            )
            for side, sign in (("low", -1.0), ("high", 1.0))
        )  # fmt: skip
        return Line((
            "A week from now, before a water change, the plan expects a reading of ", expected,
            ". A reading below ", low, " or above ", high, " would prove it wrong.",
        ))  # fmt: skip

    def _expected(self) -> Figure:
        """Return the alkalinity that the plan foresees in a week."""
        way = self.ledger.figures.get("need_rising") or self.ledger.figures.get("need_falling")
        exact = self.ledger.figures.get("days_on_the_way")
        days = AHEAD if exact is None else min(AHEAD, float(max(1, math.ceil(exact.value - 1e-9))))
        brought: Given | Figure = way or self.need
        if exact is not None and way is None:
            brought = Given(0.0, "no dose")
        after: Given | Figure = self.need
        if self.need.value <= 0:
            days, brought, after = AHEAD, Given(0.0, "no dose"), Given(0.0, "no dose")
        first = self.ledger.work_out(
            "expected_way",
            "alkalinity when the target should be reached",
            alkalinity_ahead,
            alkalinity=self.level, brought=brought, uptake=self.uptake, days=Given(days, "the way"),
        )  # fmt: skip
        return self.ledger.work_out(
            "expected", "reading that the plan expects in a week", alkalinity_ahead,
            alkalinity=first, brought=after, uptake=self.uptake,
            days=Given(AHEAD - days, "what is left of the week"),
        )  # fmt: skip


def _days(days: float) -> str:
    return "day" if days == 1 else f"{days:g} days"


def _date(when: object) -> str:
    return f"{when:%d %B %Y}".lstrip("0")
