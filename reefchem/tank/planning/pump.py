"""What the log says of the pumps: how one is set now, and what all of them brought of late."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import datetime

    from reefchem.tank.log import Entry, Log

__all__ = ["dosed_of_late", "running_pump", "top_off_in_a_day"]

LATELY = timedelta(days=14)
"""Time over which doses count as those of late."""

DAY = timedelta(days=1)


def running_pump(log: Log, stock: str) -> Entry | None:
    """Return the row that set the pump of a stock as it runs, or None when none runs."""
    rows = [
        entry
        for entry in log
        if entry.what == "dose" and entry.quantity == stock and entry.unit == "mL/day"
    ]
    return rows[-1] if rows and rows[-1].value > 0 else None


def dosed_of_late(
    log: Log, potencies: Mapping[str, float], first: datetime, end: datetime
) -> tuple[float, float]:
    """Return what was dosed over the last weeks before a moment, and the days.

    Parameters
    ----------
    potencies
        What a millilitre of each stock brings.
    first
        Moment before which nothing counts.
    """
    begin = max(first, end - LATELY)
    total = 0.0
    for name, potency in potencies.items():
        rate, since = 0.0, begin
        for entry in log:
            if entry.what != "dose" or entry.quantity != name or entry.when >= end:
                continue
            if entry.unit == "mL/day":
                now = max(entry.when, begin)
                total += rate * ((now - since) / DAY) * potency
                rate, since = entry.value, now
            elif entry.when >= begin:
                total += entry.value * potency
        total += rate * ((end - since) / DAY) * potency
    return total, (end - begin) / DAY


def top_off_in_a_day(log: Log) -> float | None:
    """Return the litres of top-off in a day of late, or None with fewer than three rows.

    The first of the rows counted fills what evaporated before it, so it only marks the start.
    """
    rows = [entry for entry in log if entry.what == "top-off"]
    rows = [entry for entry in rows if rows[-1].when - entry.when <= 3 * LATELY]
    if len(rows) < 3 or rows[-1].when == rows[0].when:
        return None
    return sum(entry.value for entry in rows[1:]) / ((rows[-1].when - rows[0].when) / DAY)
