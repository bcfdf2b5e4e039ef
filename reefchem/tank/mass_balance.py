"""What a log brought into the tank, and what the water changes left of it, moment by moment."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from reefchem.core.errors import DomainError

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from datetime import datetime

    from reefchem.tank.log import Entry, Log

__all__ = ["Balance", "Inputs", "balances", "days_between"]

COUNTED = frozenset({"dose", "water change", "top-off"})


@dataclass(frozen=True)
class Inputs:
    """What comes in with each thing that a log may note.

    Attributes
    ----------
    volume
        Net volume of the tank, L.
    potencies
        What a millilitre of each stock brings: meq of alkalinity, or mg of an ion.
    fresh, top_off
        In a litre of fresh seawater and of top-off water: meq/L, or mg/L.
    """

    volume: float
    potencies: Mapping[str, float]
    fresh: float
    top_off: float


@dataclass
class Balance:
    """What a level is made of: kept·first + dosed + poured - days·uptake - late·change.

    Attributes
    ----------
    kept
        Share of the first water that is still there.
    dosed, poured
        What stocks brought, and what fresh seawater and top-off brought, as far as it is there.
    days, late
        Days since the start, and since the middle, each counted by what is left of its water.
    """

    kept: float = 1.0
    dosed: float = 0.0
    poured: float = 0.0
    days: float = 0.0
    late: float = 0.0

    @property
    def added(self) -> float:
        """All that was brought and is still there."""
        return self.dosed + self.poured

    def pass_time(self, span: float, brought: float, late_span: float) -> None:
        """Let some days go by."""
        self.days += span
        self.late += late_span
        self.dosed += brought * span

    def change(self, share: float, fresh: float) -> None:
        """Change some of the water."""
        left = 1 - share
        self.kept *= left
        self.dosed *= left
        self.days *= left
        self.late *= left
        self.poured = self.poured * left + share * fresh


def days_between(later: datetime, earlier: datetime) -> float:
    """Return days with their fraction."""
    return (later - earlier).total_seconds() / 86400


def balances(
    log: Log, start: datetime, moments: Sequence[float], middle: float, inputs: Inputs
) -> list[Balance]:
    """Return the balance at each moment, by going through the log once.

    Parameters
    ----------
    start
        Moment from which days are counted.
    moments
        Days from then, in their order. What happens at the very moment counts after it.
    middle
        Day from which time counts as late.
    """
    pumps: dict[str, float] = {}
    steps: list[tuple[float, Entry]] = []
    for entry in log:
        if entry.what not in COUNTED:
            continue
        if entry.when >= start:
            steps.append((days_between(entry.when, start), entry))
        elif entry.unit == "mL/day":
            pumps[entry.quantity] = _risen(entry, inputs)
    now, balance, found, index = 0.0, Balance(), [], 0
    for moment in moments:
        while index < len(steps) and steps[index][0] < moment:
            at, entry = steps[index]
            balance.pass_time(at - now, sum(pumps.values()), _late(now, at, middle))
            now = at
            index += 1
            _take(balance, entry, pumps, inputs, log.file)
        balance.pass_time(moment - now, sum(pumps.values()), _late(now, moment, middle))
        now = moment
        found.append(replace(balance))
    return found


def _take(
    balance: Balance, entry: Entry, pumps: dict[str, float], inputs: Inputs, file: str
) -> None:
    """Let one row of the log act."""
    if entry.what == "water change":
        share = entry.value if entry.unit == "1" else entry.value / inputs.volume
        if share > 1:
            msg = f"{file}, line {entry.line}: {entry.written} is more than the tank has"
            raise DomainError(msg)
        balance.change(share, inputs.fresh)
    elif entry.what == "top-off":
        balance.poured += entry.value * inputs.top_off / inputs.volume
    elif entry.unit == "mL/day":
        pumps[entry.quantity] = _risen(entry, inputs)
    else:
        balance.dosed += _risen(entry, inputs)


def _risen(entry: Entry, inputs: Inputs) -> float:
    return entry.value * inputs.potencies.get(entry.quantity, 0.0) / inputs.volume


def _late(begin: float, end: float, middle: float) -> float:
    return max(0.0, end - max(begin, middle))
