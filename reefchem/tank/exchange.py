"""Water changes: what a series of them leaves, and how many a target takes.

Every relation follows from the same balance: a change takes out a share of the water with all
that is dissolved in it and puts fresh seawater in its place. Written for mg/L, they hold for any
amount per volume; the alkalinity has its own, in meq/L.
"""

from __future__ import annotations

from reefchem.core.functions import Num, exp, log
from reefchem.core.record import EITHER_SIGN, arg, relation

__all__ = [
    "after_continuous_exchange",
    "after_partly_mixed_exchange",
    "after_water_changes",
    "after_water_changes_with_gain",
    "alkalinity_after_water_changes",
    "level_before_water_change",
    "share_left",
    "share_to_change",
    "volume_to_change",
    "water_changes_needed",
]

SOURCE = "levenspiel1999"
LEVEL = arg("mg/L", "c", title="level before", typical=(20.0, 60.0))
FRESH = arg("mg/L", "c_f", title="level in the fresh seawater", typical=(0.0, 4.0))
TARGET = arg("mg/L", "c_t", title="level to reach", typical=(5.0, 15.0))
SHARE = arg(
    "1", "f", title="share of the water changed each time", typical=(0.05, 0.5), possible=(0.0, 1.0)
)
CHANGES = arg("1", "n", typical=(1.0, 12.0))
EXCHANGED = arg("L", "V_x", title="volume that has flowed in", typical=(0.0, 400.0))
FLUSHED = arg("L", "V", title="volume of the tank's water", typical=(100.0, 1000.0))


@relation(
    unit="1",
    symbol="k",
    source=SOURCE,
    at="material balance of a vessel that is emptied in part and refilled; derived in the book",
    share=SHARE,
    changes=CHANGES,
)
def share_left(share: Num, changes: Num) -> Num:
    """Return the share of the old water that is left after some water changes.

    Parameters
    ----------
    share
        Of the volume, taken out and replaced at each change.
    changes
        How many changes.

    Examples
    --------
    >>> round(share_left(0.1, 4.0), 4)
    0.6561
    """
    return (1 - share) ** changes


@relation(
    unit="mg/L",
    symbol="c_n",
    source=SOURCE,
    at="material balance, repeated n times; derived in the book",
    level=LEVEL,
    fresh=FRESH,
    share=SHARE,
    changes=CHANGES,
)
def after_water_changes(level: Num, fresh: Num, share: Num, changes: Num) -> Num:
    """Return a level after some equal water changes, with nothing added or used between them.

    Parameters
    ----------
    level
        Before the first change.
    fresh
        In the fresh seawater.
    share
        Of the volume, at each change.
    changes
        How many changes.

    Examples
    --------
    >>> after_water_changes(40.0, 0.0, 0.5, 2.0)
    10.0
    """
    return fresh + (level - fresh) * share_left(share, changes)


@relation(
    unit="meq/L",
    symbol="A_n",
    source=SOURCE,
    at="material balance, repeated n times; derived in the book",
    alkalinity=arg("meq/L", "A", title="alkalinity before the first change", typical=(1.5, 4.0)),
    fresh=arg("meq/L", "A_f", title="alkalinity of the fresh seawater", typical=(2.0, 4.0)),
    share=SHARE,
    changes=CHANGES,
)
def alkalinity_after_water_changes(alkalinity: Num, fresh: Num, share: Num, changes: Num) -> Num:
    """Return the alkalinity after some equal water changes, with nothing else happening.

    Alkalinity mixes as an amount does: it belongs to the water, whatever its pH.

    Parameters
    ----------
    alkalinity
        Before the first change.
    fresh
        Of the fresh seawater.
    share
        Of the volume, at each change.
    changes
        How many changes.
    """
    return fresh + (alkalinity - fresh) * share_left(share, changes)


@relation(
    unit="1",
    symbol="n",
    source=SOURCE,
    at="material balance, repeated n times, solved for n; derived in the book",
    level=LEVEL,
    target=TARGET,
    fresh=FRESH,
    share=SHARE,
)
def water_changes_needed(level: Num, target: Num, fresh: Num, share: Num) -> Num:
    """Return how many equal water changes bring a level to a target.

    A count with a fraction: the next whole number is the number of changes to make. The target
    lies between the level and that of the fresh seawater, which itself is never quite reached.

    Parameters
    ----------
    level
        Before the first change.
    target
        To reach.
    fresh
        In the fresh seawater.
    share
        Of the volume, at each change.

    Examples
    --------
    >>> round(water_changes_needed(40.0, 10.0, 0.0, 0.5), 12)
    2.0
    """
    return log((target - fresh) / (level - fresh)) / log(1 - share)


@relation(
    unit="1",
    symbol="f",
    source=SOURCE,
    at="material balance of one change, solved for the share; derived in the book",
    level=LEVEL,
    target=TARGET,
    fresh=FRESH,
)
def share_to_change(level: Num, target: Num, fresh: Num) -> Num:
    """Return the share of the volume that one water change must replace to reach a target.

    Examples
    --------
    >>> share_to_change(40.0, 10.0, 0.0)
    0.75
    """
    return (level - target) / (level - fresh)


@relation(
    unit="L",
    symbol="V_c",
    source=SOURCE,
    at="definition of the share of the volume",
    share=SHARE,
    volume=arg("L", "V", title="volume of the tank's water", typical=(20.0, 1000.0)),
)
def volume_to_change(share: Num, volume: Num) -> Num:
    """Return the volume of a water change that replaces a share of the tank's water."""
    return share * volume


@relation(
    unit="mg/L",
    symbol="c(t)",
    source=SOURCE,
    at="mixed flow vessel, tracer balance; derived in the book",
    level=LEVEL,
    fresh=FRESH,
    exchanged=EXCHANGED,
    volume=FLUSHED,
)
def after_continuous_exchange(level: Num, fresh: Num, exchanged: Num, volume: Num) -> Num:
    """Return a level after fresh seawater has flowed through a well mixed tank.

    Parameters
    ----------
    level
        Before.
    fresh
        In the fresh seawater.
    exchanged
        Volume that has flowed in, and as much out.
    volume
        Of the tank's water.
    """
    return fresh + (level - fresh) * exp(-exchanged / volume)


@relation(
    unit="mg/L",
    symbol="c(t)",
    source=SOURCE,
    at="mixed flow vessel with a bypass, tracer balance; derived in the book",
    level=LEVEL,
    fresh=FRESH,
    exchanged=EXCHANGED,
    volume=FLUSHED,
    mixed=arg(
        "1", "m", title="share of the inflow that mixes", typical=(0.3, 1.0), possible=(0.0, 1.0)
    ),
)
def after_partly_mixed_exchange(
    level: Num, fresh: Num, exchanged: Num, volume: Num, mixed: Num
) -> Num:
    """Return a level after fresh seawater has flowed through, some of it straight to the drain.

    Parameters
    ----------
    level
        Before.
    fresh
        In the fresh seawater.
    exchanged
        Volume that has flowed in, and as much out.
    volume
        Of the tank's water.
    mixed
        Share of the inflow that mixes with the tank; the rest leaves as it came. 1 for a tank
        that is well mixed.

    Examples
    --------
    >>> round(after_partly_mixed_exchange(100.0, 0.0, 180.0, 180.0, 0.5), 3)
    60.653
    """
    return fresh + (level - fresh) * exp(-mixed * exchanged / volume)


@relation(
    unit="mg/L",
    symbol="c_n",
    source=SOURCE,
    at="material balance with accumulation, a geometric series; derived in the book",
    level=LEVEL.titled("level at the start"),
    fresh=FRESH,
    gain=arg(
        "mg/L",
        "g",
        title="gain between two changes",
        typical=(-2.0, 10.0),
        possible=EITHER_SIGN,
    ),
    share=SHARE,
    changes=CHANGES.titled("number of gains, each with a change after it"),
)
def after_water_changes_with_gain(
    level: Num, fresh: Num, gain: Num, share: Num, changes: Num
) -> Num:
    """Return a level after some water changes, each after the same gain.

    Parameters
    ----------
    level
        At the start.
    fresh
        In the fresh seawater.
    gain
        What is added to each litre between two changes; negative for what is used.
    share
        Of the volume, at each change; more than nothing.
    changes
        How many times the gain and then the change.

    Examples
    --------
    >>> round(after_water_changes_with_gain(0.0, 0.0, 10.0, 0.5, 2.0), 12)
    7.5
    """
    kept = share_left(share, changes)
    return fresh + (level - fresh) * kept + gain * (1 - share) * (1 - kept) / share


@relation(
    unit="mg/L",
    symbol=r"c_\infty",
    source=SOURCE,
    at="material balance with accumulation at steady state; derived in the book",
    fresh=FRESH,
    gain=arg(
        "mg/L",
        "g",
        title="gain between two changes",
        typical=(0.0, 10.0),
        possible=EITHER_SIGN,
    ),
    share=SHARE,
)
def level_before_water_change(fresh: Num, gain: Num, share: Num) -> Num:
    """Return the level that is found before each water change once the tank has settled.

    Parameters
    ----------
    fresh
        In the fresh seawater.
    gain
        What is added to each litre between two changes.
    share
        Of the volume, at each change.

    Examples
    --------
    >>> level_before_water_change(0.0, 2.0, 0.1)
    20.0
    """
    return fresh + gain / share
