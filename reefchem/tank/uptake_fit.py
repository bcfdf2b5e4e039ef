"""How much of an ion or of alkalinity a tank takes in a day, from its log.

Between two readings a level falls by what the tank takes and rises by what doses and fresh
seawater bring. Each reading is therefore a straight line in two unknowns, the level at the start
and the uptake; a robust regression over all readings finds both, and how sure they are.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from statistics import median
from typing import TYPE_CHECKING, ClassVar

from reefchem.core.errors import DomainError
from reefchem.core.result import Result
from reefchem.tank.dilution import dilution_factor, salinity_course
from reefchem.tank.mass_balance import Balance, Inputs, balances, days_between
from reefchem.tank.quantities import READINGS, difference_from_text
from reefchem.tank.robust import freedom_left, noisier_than_stated, quantile, robust_fit

if TYPE_CHECKING:
    from collections.abc import Mapping

    from reefchem.tank.log import Entry, Log

__all__ = ["TAKEN", "DissolvedUptake", "FittedReading", "UptakeEstimate", "uptake"]

TAKEN = ("alkalinity", "calcium", "magnesium", "potassium", "nitrate", "phosphate")
"""Quantities whose uptake can be found."""

LEAST_READINGS = 4
UNKNOWN = (None, None, None)
OUTLIER = 3.5
"""Standardised residual from which a reading is shown as an outlier; it is not removed."""


@dataclass(frozen=True)
class FittedReading:
    """A reading beside what the estimate makes of it.

    Attributes
    ----------
    level
        As read, brought to the salinity of the last reading when the salinity has changed.
    residual
        Level minus fitted level.
    weight
        Between 0 and 1: how much of an ordinary reading's pull it had.
    """

    entry: Entry
    days: float
    level: float
    fitted: float
    weight: float
    outlier: bool

    @property
    def residual(self) -> float:
        """Level minus fitted level."""
        return self.level - self.fitted


@dataclass(frozen=True)
class UptakeEstimate(Result):
    """Uptake of alkalinity with its uncertainty.

    Attributes
    ----------
    of
        The quantity whose uptake it is.
    uptake, standard_error
        In meq/L for a day.
    low, high
        The interval that holds the true uptake in 95 of 100 cases, if volume and stock are right.
    quantile, freedom
        Of Student's distribution for that interval, and its degrees of freedom.
    first, last
        Fitted level at the first and at the last reading.
    last_error
        Standard error of `last`.
    correlation
        Between the errors of `last` and of `uptake`.
    kept, added, days
        The balance between the two: share of the first water still there, what was brought and
        is still there, and the days weighted alike; see `alkalinity_uptake`.
    dosed
        What the stocks brought of that, for a day; errors of volume and strength are a share of it.
    scatter
        Standard deviation of a single reading about the fit.
    stated
        Median standard uncertainty that the methods of the readings state; None when none does.
    noisier
        Whether the readings scatter more than that; None when nothing is stated.
    change, change_error, changed
        Uptake of the later half less that of the earlier, and whether this is clear of zero; all
        None when there are too few readings or nobody asked.
    salinities
        At the first and at the last reading, when the salinity has changed and was allowed for.
    readings
        Each with its fitted value and weight.
    """

    UNITS: ClassVar[Mapping[str, str]] = {
        "uptake": "meq/L/day",
        "standard_error": "meq/L/day",
        "low": "meq/L/day",
        "high": "meq/L/day",
        "first": "meq/L",
        "last": "meq/L",
        "last_error": "meq/L",
        "added": "meq/L",
        "days": "day",
        "dosed": "meq/L/day",
        "scatter": "meq/L",
        "stated": "meq/L",
        "change": "meq/L/day",
        "change_error": "meq/L/day",
    }

    of: str
    uptake: float
    standard_error: float
    low: float
    high: float
    quantile: float
    freedom: float
    first: float
    last: float
    last_error: float
    correlation: float
    kept: float
    added: float
    days: float
    dosed: float
    scatter: float
    stated: float | None
    noisier: bool | None
    change: float | None
    change_error: float | None
    changed: bool | None
    salinities: tuple[float, float] | None
    readings: tuple[FittedReading, ...]

    @property
    def outliers(self) -> tuple[FittedReading, ...]:
        """Readings far from the fit; they are shown, and were not removed."""
        return tuple(reading for reading in self.readings if reading.outlier)

    @property
    def apart(self) -> float:
        """Mean time between two readings, days."""
        return self.readings[-1].days / (len(self.readings) - 1)


@dataclass(frozen=True)
class DissolvedUptake(UptakeEstimate):
    """Uptake of an ion with its uncertainty: the same, in mg/L."""

    UNITS: ClassVar[Mapping[str, str]] = {
        name: unit.replace("meq", "mg") for name, unit in UptakeEstimate.UNITS.items()
    }


def uptake(
    log: Log,
    quantity: str = "alkalinity",
    *,
    volume: float,
    potencies: Mapping[str, float],
    fresh: float,
    top_off: float = 0.0,
    days: float | None = None,
    at_least: int = 0,
    halves: bool = True,
    confidence: float = 0.95,
) -> UptakeEstimate:
    """Return the uptake that the readings of a log show.

    Parameters
    ----------
    log
        Readings, doses, water changes and top-off. A reading at the moment of a dose or a change
        is taken as made before it.
    quantity
        One of `TAKEN`. Nitrate and phosphate out of food are not seen as brought: their uptake
        is what disappears beyond what food brings.
    volume
        Net volume of the tank, L.
    potencies
        What each millilitre of each stock brings by its name: meq of alkalinity or mg of the
        ion; stocks that bring none may be left out.
    fresh, top_off
        Level in fresh seawater and in top-off water, meq/L or mg/L.
    days
        How far back from the last reading; all readings when None.
    at_least
        Readings that count even when some of them are older.
    halves
        Whether the later half is to be compared with the earlier.
    confidence
        Of the interval.

    Raises
    ------
    DomainError
        With fewer than four readings, or when they are all of one moment.

    Notes
    -----
    Huber's M-estimate with the covariance of Huber (1981, sect. 7.6) and a quantile of Student's
    distribution. The scatter is at least what rounding to the last written digit makes. Readings
    whose method states its uncertainty count by it; one that states none counts as the median.

    Evaporation and top-off are taken to keep the volume. When the log's readings of salinity
    differ by more than they can be off, each reading is brought to the last salinity.
    """
    if quantity not in TAKEN:
        msg = f"uptake: quantity is {quantity!r}; it must be one of {', '.join(TAKEN)}"
        raise DomainError(msg)
    readings = _recent(log, quantity, days, at_least)
    start = readings[0].when
    moments = [days_between(entry.when, start) for entry in readings]
    if moments[-1] <= 0:
        msg = f"{log.file}: the readings of {quantity} are all of one moment; no uptake shows"
        raise DomainError(msg)
    rows = balances(log, start, moments, moments[-1] / 2, Inputs(volume, potencies, fresh, top_off))
    factors, salinities = _dilution(log, readings)
    levels = [entry.value * factor for entry, factor in zip(readings, factors, strict=True)]
    offsets = [level - row.added for level, row in zip(levels, rows, strict=True)]
    stated, trust = _trust(readings)
    floor = max(_rounding(entry) * share for entry, share in zip(readings, trust, strict=True))
    fit = robust_fit([[row.kept, -row.days] for row in rows], offsets, floor, trust)
    freedom = freedom_left(len(levels), 2)
    reach = quantile(freedom, confidence)
    (first, rate), covariance = fit.coefficients, fit.covariance
    error = math.sqrt(covariance[1][1])
    end = rows[-1]
    variance = (
        end.kept**2 * covariance[0][0]
        - 2 * end.kept * end.days * covariance[0][1]
        + end.days**2 * covariance[1][1]
    )
    shared = end.kept * covariance[0][1] - end.days * covariance[1][1]
    last_error = math.sqrt(variance)
    change = _change(rows, offsets, floor, trust, confidence) if halves else UNKNOWN
    fitted = [row.kept * first + row.added - row.days * rate for row in rows]
    make = UptakeEstimate if quantity == "alkalinity" else DissolvedUptake
    return make(
        of=quantity,
        uptake=rate,
        standard_error=error,
        low=rate - reach * error,
        high=rate + reach * error,
        quantile=reach,
        freedom=freedom,
        first=first,
        last=fitted[-1],
        last_error=last_error,
        correlation=max(-1.0, shared / (last_error * error)),  # never above zero
        kept=end.kept,
        added=end.added,
        days=end.days,
        dosed=end.dosed / end.days,
        scatter=fit.scale,
        stated=stated,
        noisier=None if stated is None else noisier_than_stated(fit.scale, stated, len(levels) - 2),
        change=change[0],
        change_error=change[1],
        changed=change[2],
        salinities=salinities,
        readings=tuple(
            FittedReading(e, t, v, f, w, abs(z) > OUTLIER)
            for e, t, v, f, w, z in zip(
                readings, moments, levels, fitted, fit.weights, fit.standardised, strict=True
            )
        ),
    )


def _recent(log: Log, quantity: str, days: float | None, at_least: int) -> tuple[Entry, ...]:
    readings = log.readings(quantity)
    if readings and days is not None:
        last = readings[-1].when
        recent = sum(days_between(last, entry.when) <= days for entry in readings)
        readings = readings[-max(recent, at_least) :]
    if len(readings) < LEAST_READINGS:
        span = "" if days is None else f" in the last {days:g} days"
        msg = (
            f"{log.file}: {len(readings)} readings of {quantity}{span}; the uptake needs at least "
            f"{LEAST_READINGS}, on different days"
        )
        raise DomainError(msg)
    return readings


def _dilution(
    log: Log, readings: tuple[Entry, ...]
) -> tuple[list[float], tuple[float, float] | None]:
    """Return the factor for each reading, and first and last salinity if they count."""
    begin, end = readings[0].when, readings[-1].when
    course = salinity_course(log.readings("salinity"), begin, end)
    if course is None or not course.changed or min(course.salinities) <= 0:
        return [1.0] * len(readings), None
    last = course.at(end)
    factors = [float(dilution_factor(course.at(entry.when), last)) for entry in readings]
    return factors, (course.at(begin), last)


def _trust(readings: tuple[Entry, ...]) -> tuple[float | None, list[float]]:
    """Return the median stated uncertainty, and it over that of each reading."""
    stated = [entry.uncertainty for entry in readings]
    known = [value for value in stated if value is not None]
    if not known:
        return None, [1.0] * len(readings)
    usual = median(known)
    return usual, [1.0 if value is None else usual / value for value in stated]


def _rounding(entry: Entry) -> float:
    """Return the standard deviation of rounding to the last digit that was written."""
    written, _, unit = entry.written.partition(" ")
    mantissa, _, exponent = written.replace(",", ".").lower().partition("e")
    decimals = len(mantissa.partition(".")[2]) - int(exponent or 0)
    one = difference_from_text("1", unit, READINGS[entry.quantity])
    return float(10.0**-decimals) * one / math.sqrt(12)


def _change(
    rows: list[Balance], offsets: list[float], floor: float, trust: list[float], confidence: float
) -> tuple[float | None, float | None, bool | None]:
    """Return later less earlier uptake, its standard error, and whether it is clear of zero."""
    if len(rows) < 2 * LEAST_READINGS:
        return None, None, None
    design = [[row.kept, -row.days, -row.late] for row in rows]
    fit = robust_fit(design, offsets, floor, trust)
    change, error = fit.coefficients[2], math.sqrt(fit.covariance[2][2])
    return change, error, abs(change) > quantile(freedom_left(len(rows), 3), confidence) * error
