"""Salinity that changes between readings: dilution, which is not uptake.

Evaporation and fresh water change the level of everything in one proportion, which the salinity
shows. A reading is brought to the salinity of the last one before uptake is looked for.
"""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass
from statistics import median
from typing import TYPE_CHECKING

from reefchem.core.functions import Num
from reefchem.core.record import arg, relation

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import datetime

    from reefchem.tank.log import Entry

__all__ = ["Course", "dilution_factor", "salinity_course"]

UNCERTAINTY = 0.25
"""Of a reading of salinity whose method states none; common practice, no source."""


@relation(
    unit="1",
    symbol="k_S",
    source="levenspiel1999",
    at="material balance: salt stays, water comes and goes; derived in the book",
    salinity=arg("1", "S", title="salinity at the reading", typical=(33.0, 37.0)),
    reference=arg("1", "S_0", title="salinity to compare at", typical=(33.0, 37.0)),
)
def dilution_factor(salinity: Num, reference: Num) -> Num:
    """Return the factor that brings a level to the salinity at which levels are compared.

    Parameters
    ----------
    salinity
        Of the water when the level was read.
    reference
        At which levels are compared.

    Notes
    -----
    Salinities are taken by volume; the density that changes with them is left out, which matters
    less than 0.1 % of the level for each unit of salinity.

    Examples
    --------
    >>> dilution_factor(35.0, 36.75)
    1.05
    """
    return reference / salinity


@dataclass(frozen=True)
class Course:
    """Salinity over time, by straight lines between readings.

    Attributes
    ----------
    moments, salinities
        In the order of time; with four readings or more, each the median of three neighbours, so
        that one slip among them does no harm.
    changed
        Whether the salinities differ by more than their readings can be off.
    """

    moments: tuple[datetime, ...]
    salinities: tuple[float, ...]
    changed: bool

    def at(self, when: datetime) -> float:
        """Return the salinity at a moment; before the first and after the last it stays."""
        index = bisect_right(self.moments, when) - 1
        if index < 0:
            return self.salinities[0]
        if index + 1 == len(self.moments):
            return self.salinities[-1]
        begin, end = self.moments[index], self.moments[index + 1]
        share = (when - begin) / (end - begin)
        return self.salinities[index] + share * (
            self.salinities[index + 1] - self.salinities[index]
        )


def salinity_course(
    readings: Sequence[Entry], begin: datetime, end: datetime, uncertainty: float = UNCERTAINTY
) -> Course | None:
    """Return the course of the salinity between two moments, or None without two readings.

    Parameters
    ----------
    readings
        Of salinity, in the order of time.
    begin, end
        Readings between them count, and the last before them.
    uncertainty
        Standard uncertainty of a single reading; twice that of a difference must be passed
        before the salinity counts as changed.
    """
    before = [entry for entry in readings if entry.when < begin][-1:]
    counted = [*before, *(entry for entry in readings if begin <= entry.when <= end)]
    by_moment = {entry.when: entry.value for entry in counted}
    if len(by_moment) < 2:
        return None
    values = list(by_moment.values())
    smooth = _smoothed(values)
    changed = max(smooth) - min(smooth) > 2 * 2**0.5 * uncertainty
    return Course(tuple(by_moment), smooth, changed)


def _smoothed(values: list[float]) -> tuple[float, ...]:
    """Return running medians of three, with Tukey's rule (1977) at both ends."""
    if len(values) < 4:
        return tuple(values)
    inner = [median(values[index - 1 : index + 2]) for index in range(1, len(values) - 1)]
    first = median((values[0], inner[0], 3 * inner[0] - 2 * inner[1]))
    last = median((values[-1], inner[-1], 3 * inner[-1] - 2 * inner[-2]))
    return (first, *inner, last)
