"""How much alkalinity a tank takes in a day, from its log.

Between two readings the alkalinity falls by what the corals take and rises by what doses and
fresh seawater bring. Each reading is therefore a straight line in two unknowns, the alkalinity at
the start and the uptake; a robust regression over all readings finds both, and how sure they are.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, ClassVar

from reefchem.core.errors import DomainError
from reefchem.core.result import Result
from reefchem.tank.quantities import READINGS

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from datetime import datetime

    from reefchem.tank.log import Entry, Log

__all__ = ["FittedReading", "UptakeEstimate", "uptake"]

LEAST_READINGS = 4
HUBER = 1.345
"""Standardised residual from which a reading counts by its distance only (Huber, 1981)."""

NORMAL_MAD = 0.6744897501960817
"""Median of the absolute value of a standard normal variable."""

OUTLIER = 3.5
"""Standardised residual from which a reading is shown as an outlier; it is not removed."""

ROUNDS = 30


@dataclass(frozen=True)
class FittedReading:
    """A reading beside what the estimate makes of it.

    Attributes
    ----------
    residual
        Reading minus fitted alkalinity, meq/L.
    weight
        Between 0 and 1: how much of an ordinary reading's pull it had.
    """

    entry: Entry
    days: float
    alkalinity: float
    fitted: float
    weight: float
    outlier: bool

    @property
    def residual(self) -> float:
        """Reading minus fitted alkalinity."""
        return self.alkalinity - self.fitted


@dataclass(frozen=True)
class UptakeEstimate(Result):
    """Uptake of alkalinity with its uncertainty.

    Attributes
    ----------
    uptake, standard_error
        In meq/L for a day.
    low, high
        The interval that holds the true uptake in 95 of 100 cases.
    quantile
        Of Student's distribution, for that interval.
    first, last
        Fitted alkalinity at the first and at the last reading.
    last_error
        Standard error of `last`.
    correlation
        Between the errors of `last` and of `uptake`.
    kept, added, days
        The balance between the two: share of the first water still there, what was brought and
        is still there, and the days weighted alike; see `alkalinity_uptake`.
    scatter
        Standard deviation of a single reading about the fit.
    change, change_error, changed
        Uptake of the later half less that of the earlier, and whether this is clear of zero; all
        None when there are too few readings.
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
        "scatter": "meq/L",
        "change": "meq/L/day",
        "change_error": "meq/L/day",
    }

    uptake: float
    standard_error: float
    low: float
    high: float
    quantile: float
    first: float
    last: float
    last_error: float
    correlation: float
    kept: float
    added: float
    days: float
    scatter: float
    change: float | None
    change_error: float | None
    changed: bool | None
    readings: tuple[FittedReading, ...]

    @property
    def outliers(self) -> tuple[FittedReading, ...]:
        """Readings far from the fit; they are shown, and were not removed."""
        return tuple(reading for reading in self.readings if reading.outlier)


@dataclass
class Balance:
    """What the alkalinity is made of at a moment: kept·A₁ + added - days·uptake − late·change."""

    kept: float = 1.0
    added: float = 0.0
    days: float = 0.0
    late: float = 0.0

    def pass_time(self, span: float, brought: float, late_span: float) -> None:
        """Let some days go by."""
        self.days += span
        self.late += late_span
        self.added += brought * span

    def change(self, share: float, fresh: float) -> None:
        """Change some of the water."""
        left = 1 - share
        self.kept *= left
        self.days *= left
        self.late *= left
        self.added = self.added * left + share * fresh


def uptake(
    log: Log,
    *,
    volume: float,
    potencies: Mapping[str, float],
    fresh_alkalinity: float,
    days: float | None = None,
    confidence: float = 0.95,
) -> UptakeEstimate:
    """Return the uptake of alkalinity that the readings of a log show.

    Parameters
    ----------
    log
        Readings, doses and water changes. A reading at the moment of a dose or a change is
        taken as made before it.
    volume
        Net volume of the tank, L.
    potencies
        Alkalinity in each millilitre of each stock by its name, meq/mL; zero for stocks that
        bring none.
    fresh_alkalinity
        Of the fresh seawater, meq/L.
    days
        How far back from the last reading; all readings when None.
    confidence
        Of the interval.

    Raises
    ------
    DomainError
        With fewer than four readings, or when they are all of one moment.

    Notes
    -----
    Huber's M-estimate with the covariance of Huber (1981, sect. 7.6) and a quantile of Student's
    distribution. The scatter is at least what rounding to the last written digit makes.
    """
    readings = _recent(log, days)
    start = readings[0].when
    moments = [_days(entry.when, start) for entry in readings]
    if moments[-1] <= 0:
        msg = f"{log.file}: the readings of alkalinity are all of one moment; no uptake shows"
        raise DomainError(msg)
    rows = _balances(
        log,
        start,
        moments,
        moments[-1] / 2,
        volume=volume,
        potencies=potencies,
        fresh=fresh_alkalinity,
    )
    values = [entry.value for entry in readings]
    offsets = [value - row.added for value, row in zip(values, rows, strict=True)]
    design = [[row.kept, -row.days] for row in rows]
    floor = max(_rounding(entry) for entry in readings)
    fit = _robust(design, offsets, floor)
    quantile = _quantile(len(values) - 2, confidence)
    (first, rate), covariance = fit.coefficients, fit.covariance
    error = math.sqrt(covariance[1][1])
    end = rows[-1]
    variance = (
        end.kept**2 * covariance[0][0]
        - 2 * end.kept * end.days * covariance[0][1]
        + end.days**2 * covariance[1][1]
    )
    shared = end.kept * covariance[0][1] - end.days * covariance[1][1]
    last_error = math.sqrt(max(variance, 0.0))
    change = _change(rows, offsets, floor, confidence)
    fitted = [row.kept * first + row.added - row.days * rate for row in rows]
    return UptakeEstimate(
        uptake=rate,
        standard_error=error,
        low=rate - quantile * error,
        high=rate + quantile * error,
        quantile=quantile,
        first=first,
        last=fitted[-1],
        last_error=last_error,
        correlation=max(-1.0, min(1.0, shared / (last_error * error))),
        kept=end.kept,
        added=end.added,
        days=end.days,
        scatter=fit.scale,
        change=change[0],
        change_error=change[1],
        changed=change[2],
        readings=tuple(
            FittedReading(e, t, v, f, w, abs(v - f) > OUTLIER * fit.scale)
            for e, t, v, f, w in zip(readings, moments, values, fitted, fit.weights, strict=True)
        ),
    )


def _recent(log: Log, days: float | None) -> tuple[Entry, ...]:
    readings = log.readings("alkalinity")
    if readings and days is not None:
        last = readings[-1].when
        readings = tuple(e for e in readings if _days(last, e.when) <= days)
    if len(readings) < LEAST_READINGS:
        span = "" if days is None else f" in the last {days:g} days"
        msg = (
            f"{log.file}: {len(readings)} readings of alkalinity{span}; the uptake needs at least "
            f"{LEAST_READINGS}, on different days"
        )
        raise DomainError(msg)
    return readings


def _days(later: datetime, earlier: datetime) -> float:
    return (later - earlier).total_seconds() / 86400


def _rounding(entry: Entry) -> float:
    """Return the standard deviation of rounding to the last digit that was written."""
    number = entry.written.split()[0].replace(",", ".")
    mantissa, _, exponent = number.lower().partition("e")
    decimals = len(mantissa.partition(".")[2]) - int(exponent or 0)
    written = abs(float(number))
    scale = entry.value / written if written else READINGS["alkalinity"].highest
    return float(10.0**-decimals) * scale / math.sqrt(12)


def _balances(
    log: Log,
    start: datetime,
    moments: Sequence[float],
    middle: float,
    *,
    volume: float,
    potencies: Mapping[str, float],
    fresh: float,
) -> list[Balance]:
    """Return the balance at each moment, by going through the log once."""
    rates: dict[str, float] = {}
    steps: list[tuple[float, Entry]] = []
    for entry in log:
        at = _days(entry.when, start)
        if entry.what == "dose" and entry.unit == "mL/day" and at < 0:
            rates[entry.quantity] = entry.value * potencies.get(entry.quantity, 0.0) / volume
        elif at >= 0 and entry.what in {"dose", "water change"}:
            steps.append((at, entry))
    now, balance, found, index = 0.0, Balance(), [], 0
    for moment in moments:
        while index < len(steps) and steps[index][0] < moment:
            at, entry = steps[index]
            balance.pass_time(at - now, sum(rates.values()), _late(now, at, middle))
            now = at
            index += 1
            if entry.what == "water change":
                share = entry.value if entry.unit == "1" else entry.value / volume
                if share > 1:
                    msg = (
                        f"{log.file}, line {entry.line}: {entry.written} is more than the tank has"
                    )
                    raise DomainError(msg)
                balance.change(share, fresh)
            elif entry.unit == "mL/day":
                rates[entry.quantity] = entry.value * potencies.get(entry.quantity, 0.0) / volume
            else:
                balance.added += entry.value * potencies.get(entry.quantity, 0.0) / volume
        balance.pass_time(moment - now, sum(rates.values()), _late(now, moment, middle))
        now = moment
        found.append(Balance(balance.kept, balance.added, balance.days, balance.late))
    return found


def _late(begin: float, end: float, middle: float) -> float:
    return max(0.0, end - max(begin, middle))


@dataclass(frozen=True)
class Robust:
    """A robust linear regression."""

    coefficients: list[float]
    covariance: list[list[float]]
    scale: float
    weights: list[float]


def _robust(design: list[list[float]], values: list[float], floor: float) -> Robust:
    import numpy as np  # noqa: PLC0415 - the extra `plan`
    from scipy.optimize import least_squares  # noqa: PLC0415 - the extra `plan`

    x, y = np.array(design), np.array(values)
    count, unknowns = x.shape

    def residuals(coefficients: Any) -> Any:
        return x @ coefficients - y

    def slopes(_coefficients: Any) -> Any:
        return x

    guess = np.linalg.lstsq(x, y, rcond=None)[0]
    scale = max(_mad(y - x @ guess, unknowns), floor)
    for _ in range(ROUNDS):
        found = least_squares(
            residuals,
            guess,
            jac=slopes,
            loss="huber",
            f_scale=HUBER * scale,
            xtol=1e-12,
            ftol=1e-12,
            gtol=1e-12,
        )
        guess, before = found.x, scale
        scale = max(_mad(y - x @ guess, unknowns), floor)
        if abs(scale - before) <= 1e-6 * scale:
            break
    standardised = (y - x @ guess) / scale
    inside = np.abs(standardised) <= HUBER
    share = float(inside.mean()) or 1.0 / count
    psi = np.clip(standardised, -HUBER, HUBER)
    correction = 1 + unknowns / count * (1 - share) / share
    variance = scale**2 * float((psi**2).sum()) / (count - unknowns) / share**2 * correction**2
    variance = max(variance, floor**2)
    covariance = np.linalg.pinv(x.T @ x) * variance
    weights = np.where(inside, 1.0, HUBER / np.maximum(np.abs(standardised), HUBER))
    return Robust(guess.tolist(), covariance.tolist(), scale, weights.tolist())


def _mad(residuals: Any, unknowns: int) -> float:
    """Return a robust standard deviation; the fit leaves `unknowns` residuals near zero."""
    import numpy as np  # noqa: PLC0415 - the extra `plan`

    largest = np.sort(np.abs(residuals))[unknowns - 1 :] if len(residuals) > unknowns else residuals
    return float(np.median(np.abs(largest))) / NORMAL_MAD


def _quantile(freedom: int, confidence: float) -> float:
    from scipy.special import stdtrit  # noqa: PLC0415 - the extra `plan`

    return float(stdtrit(freedom, (1 + confidence) / 2))


def _change(
    rows: list[Balance], offsets: list[float], floor: float, confidence: float
) -> tuple[float | None, float | None, bool | None]:
    """Return later less earlier uptake, its standard error, and whether it is clear of zero."""
    if len(rows) < 2 * LEAST_READINGS:
        return None, None, None
    fit = _robust([[row.kept, -row.days, -row.late] for row in rows], offsets, floor)
    change, error = fit.coefficients[2], math.sqrt(fit.covariance[2][2])
    return change, error, abs(change) > _quantile(len(rows) - 3, confidence) * error
