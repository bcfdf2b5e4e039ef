"""How sure a plan is, and what would prove it wrong."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from reefchem.tank.dissolved import error_of_dosed
from reefchem.tank.holding import (
    alkalinity_ahead,
    bound_of_reading,
    readings_to_see,
    spread_of_next_reading,
)
from reefchem.tank.planning.alkalinity import AHEAD, SIDES
from reefchem.tank.planning.figures import Figure, Given
from reefchem.tank.planning.reasons import date_text
from reefchem.tank.planning.text import Line, bare, say

if TYPE_CHECKING:
    from collections.abc import Sequence

    from reefchem.tank.log import Log
    from reefchem.tank.planning.alkalinity import Alkalinity
    from reefchem.tank.uptake_fit import FittedReading

__all__ = ["SEEN", "confidence_lines", "listed", "remark_lines"]

TENTH = 0.1
SEEN = 2.8
"""Standard errors at which a change is seen in 80 of 100 cases, and 5 of 100 are false alarms."""


def confidence_lines(account: Alkalinity) -> tuple[Line, ...]:
    """Return the interval, the outliers, whether the uptake changed, and next week's reading."""
    return (
        _interval(account),
        _volume_and_stock(account),
        _dead_band(account),
        *_scatter(account),
        *_salinity(account),
        *_outliers(account),
        *_change(account),
        *_to_see_a_change(account),
        _next_reading(account),
    )


def remark_lines(log: Log) -> tuple[Line, ...]:
    """Return the last remark of a log: it may explain what no number does."""
    events = [entry for entry in log if entry.what == "event"]
    if not events:
        return ()
    last = events[-1]
    return (say(f"The log's last remark, of {date_text(last.when)}: {last.note}."),)


def _interval(account: Alkalinity) -> Line:
    low, high = account.uptakes
    least, most = account.doses
    return say(
        "With 95 % confidence the uptake lies between ",
        bare(low),
        " and ",
        high,
        ", and the dose that holds the target between ",
        bare(least),
        " and ",
        most,
        ".",
    )


def _dead_band(account: Alkalinity) -> Line:
    low, high = account.levels
    return say(
        "Dead band: the level is known to lie between ",
        bare(low),
        " and ",
        high,
        ". While the target may lie there too, and the pump within the doses above, the plan "
        "changes nothing, so that the noise of the kit does not steer the tank.",
    )


def _volume_and_stock(account: Alkalinity) -> Line:
    """Say what volume and strength add: to the uptake, hardly to the dose."""
    stock = account.stock
    wrong = account.ledger.work_out(
        "dosed_error",
        "standard uncertainty of the uptake from volume and stock",
        error_of_dosed,
        dosed=Given(account.estimate.dosed, f"doses in {account.log.file}, by day"),
        volume_error=account.given("tank.volume_uncertainty"),
        strength_error=Given(stock.uncertainty, f"stock {stock.name}, uncertainty of its strength"),
    )
    return say(
        "That is the noise of the tests. The volume, good to "
        f"{account.written('tank.volume_uncertainty')}, and the stock, good to "
        f"{100 * stock.uncertainty:.3g} %, may put the uptake wrong by another ",
        wrong,
        " (one standard uncertainty), but hardly the dose: it errs the same way and makes up "
        "for it.",
    )


def _scatter(account: Alkalinity) -> tuple[Line, ...]:
    """Compare the scatter of the readings with what their methods state."""
    found = account.estimate
    if found.noisier is None:
        return ()
    if found.noisier:
        return (
            say(
                "The readings scatter more than their methods say. Something else moves them: a "
                "missed dose, an uptake that changes, a worn kit."
            ),
        )
    return (say("The readings scatter no more than their methods say."),)


def _salinity(account: Alkalinity) -> tuple[Line, ...]:
    """Say that a change of salinity was allowed for."""
    salinities = account.estimate.salinities
    if salinities is None:
        return ()
    first, last = salinities
    return (
        say(
            f"The salinity went from {first:.1f} to {last:.1f} over these readings; they were "
            "brought to the last, so that dilution does not pass for uptake. If it was the "
            "instrument that changed, mark its readings as such and leave them out."
        ),
    )


def _outliers(account: Alkalinity) -> tuple[Line, ...]:
    outliers = account.estimate.outliers
    if not outliers:
        return ()
    return (
        say(
            f"Far from the others, but counted (with less weight): {listed(outliers)}. "
            "Look whether it was a slip."
        ),
    )


def listed(readings: Sequence[FittedReading]) -> str:
    """Return dates and values of some readings."""
    return "; ".join(
        f"{date_text(reading.entry.when)}, {reading.entry.written} (line {reading.entry.line})"
        for reading in readings
    )


def _change(account: Alkalinity) -> tuple[Line, ...]:
    changed = account.estimate.changed
    if changed is None:
        return ()
    if changed:
        return (
            say(
                "The uptake was not the same in the earlier and the later half of these readings; "
                "a young tank's grows. Shorten log.days in the description to follow it, or "
                "measure more often."
            ),
        )
    return (say("The readings show no change of the uptake between their earlier and later half."),)


def _to_see_a_change(account: Alkalinity) -> tuple[Line, ...]:
    """Say how many readings would show that the uptake has changed by a tenth."""
    found = account.estimate
    if account.uptake.value <= 0:
        return ()
    apart = found.apart
    needed = account.ledger.work_out(
        "readings_to_see",
        "readings before and after a change of the uptake by a tenth",
        readings_to_see,
        digits=2,
        change=Given(TENTH * account.uptake.value, "a tenth of the uptake", account.uptake.id),
        scatter=Given(found.scatter, f"{account.fit}: scatter of a reading"),
        days=Given(apart, f"{account.log.file}: mean time between readings"),
        quantile=Given(SEEN, "normal distribution: 1.96 + 0.84"),
    )
    return (
        say(
            f"To show a change of the uptake by a tenth, at least {math.ceil(needed.value)} "
            f"readings before it and as many after it are needed, {apart:.1f} days apart as now (",
            needed,
            ", rounded up).",
        ),
    )


def _next_reading(account: Alkalinity) -> Line:
    found = account.estimate
    spread = account.ledger.work_out(
        "spread",
        "standard deviation of next week's reading about the plan",
        spread_of_next_reading,
        level_error=Given(found.last_error, f"{account.fit}: standard error of the level"),
        uptake_error=Given(found.standard_error, f"{account.fit}: standard error of the uptake"),
        correlation=Given(found.correlation, f"{account.fit}: correlation of level and uptake"),
        days=Given(AHEAD, "one week"),
        scatter=Given(found.scatter, f"{account.fit}: scatter of a reading"),
    )
    expected = _expected(account)
    low, high = (
        account.ledger.work_out(
            f"reading_{side}",
            f"{side} bound of next week's reading",
            bound_of_reading,
            expected=expected,
            spread=spread,
            quantile=account.quantile(sign),
        )
        for side, sign in SIDES
    )
    return say(
        "A week from now, before a water change, the plan expects a reading of ",
        expected,
        ". A reading below ",
        low,
        " or above ",
        high,
        " would prove it wrong.",
    )


def _expected(account: Alkalinity) -> Figure:
    """Return the alkalinity that the plan foresees in a week: on the way, then held."""
    none = Given(0.0, "no dose")
    held: Given | Figure = account.held if account.need.value > 0 else none
    start, days = account.level, 0.0
    if account.way is not None:
        days = min(AHEAD, account.way.days)
        start = account.ledger.work_out(
            "expected_on_the_way",
            "alkalinity that is expected at the end of the way, or in a week",
            alkalinity_ahead,
            alkalinity=account.level,
            brought=none if account.way.dosed is None else account.way.dosed[0],
            uptake=account.uptake,
            days=Given(days, "days of the way, at most a week"),
        )
    return account.ledger.work_out(
        "expected",
        "reading that the plan expects in a week",
        alkalinity_ahead,
        alkalinity=start,
        brought=held,
        uptake=account.uptake,
        days=Given(AHEAD - days, "what is left of the week"),
    )
