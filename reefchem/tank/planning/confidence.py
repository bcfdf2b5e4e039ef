"""How sure a plan is, and what would prove it wrong."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from reefchem.tank.holding import (
    alkalinity_ahead,
    bound_of_estimate,
    bound_of_reading,
    readings_to_see,
    spread_of_next_reading,
)
from reefchem.tank.planning.alkalinity import AHEAD
from reefchem.tank.planning.figures import Figure, Given
from reefchem.tank.planning.reasons import date_text
from reefchem.tank.planning.text import Line, say

if TYPE_CHECKING:
    from reefchem.tank.log import Log
    from reefchem.tank.planning.alkalinity import Alkalinity

__all__ = ["confidence_lines", "remark_lines"]

TENTH = 0.1
SEEN = 2.8
"""Standard errors at which a change is seen in 80 of 100 cases, and 5 of 100 are false alarms."""

SIDES = (("low", -1.0), ("high", 1.0))


def confidence_lines(account: Alkalinity) -> tuple[Line, ...]:
    """Return the interval, the outliers, whether the uptake changed, and next week's reading."""
    return (
        _interval(account),
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


def _quantile(account: Alkalinity, sign: float) -> Given:
    found = account.estimate
    return Given(
        sign * found.quantile,
        f"Student's distribution, 95 %, {found.freedom:.3g} degrees of freedom",
    )


def _interval(account: Alkalinity) -> Line:
    bounds, doses = [], []
    for side, sign in SIDES:
        bound = account.ledger.work_out(
            f"uptake_{side}",
            f"{side} bound of the uptake",
            bound_of_estimate,
            estimate=account.uptake,
            standard_error=Given(account.estimate.standard_error, f"{account.fit}: standard error"),
            quantile=_quantile(account, sign),
        )
        need = account.need_for(bound, f"need_{side}", f"{side} bound of the need")
        bounds.append(bound)
        doses.append(account.dose_for(need, f"dose_{side}", f"{side} bound of the daily dose"))
    return say(
        "With 95 % confidence the uptake lies between ",
        bounds[0],
        " and ",
        bounds[1],
        ", and the dose that holds the target between ",
        doses[0],
        " and ",
        doses[1],
        ". Neither the volume's nor the stock's own error is in this.",
    )


def _outliers(account: Alkalinity) -> tuple[Line, ...]:
    outliers = account.estimate.outliers
    if not outliers:
        return ()
    listed = "; ".join(
        f"{date_text(reading.entry.when)}, {reading.entry.written} (line {reading.entry.line})"
        for reading in outliers
    )
    return (
        say(
            f"Far from the others, but counted (with less weight): {listed}. "
            "Look whether it was a slip."
        ),
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
    apart = (found.readings[-1].days - found.readings[0].days) / (len(found.readings) - 1)
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
            quantile=_quantile(account, sign),
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
    held: Given | Figure = account.need if account.need.value > 0 else none
    start, days = account.level, 0.0
    if account.way is not None:
        days = min(AHEAD, account.way.days)
        start = account.ledger.work_out(
            "expected_on_the_way",
            "alkalinity that is expected at the end of the way, or in a week",
            alkalinity_ahead,
            alkalinity=account.level,
            brought=account.way.need or none,
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
