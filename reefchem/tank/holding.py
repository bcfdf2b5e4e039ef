"""Holding a level: what the corals take in a day, the dose that gives it back, the way to a target.

Volumes of a stock are in millilitres, its potency in milliequivalents of alkalinity per
millilitre; a milliequivalent is a millimole of charge that the dose adds to the alkalinity.
"""

from __future__ import annotations

from reefchem.core.functions import Num, exp, log, sqrt
from reefchem.core.record import EITHER_SIGN, arg, relation
from reefchem.dosing.dose import alkalinity_step

__all__ = [
    "alkalinity_ahead",
    "alkalinity_at_end",
    "alkalinity_brought",
    "alkalinity_need",
    "alkalinity_taken",
    "alkalinity_uptake",
    "bound_of_estimate",
    "bound_of_reading",
    "daily_dose",
    "doses_in_a_day",
    "need_on_the_way",
    "readings_to_see",
    "spread_of_next_reading",
]

SOURCE = "levenspiel1999"
BALANCE = "material balance: in = out + used + kept; derived in the book"
ALKALINITY = arg("meq/L", "A", typical=(1.5, 4.0), possible=EITHER_SIGN)
VOLUME = arg("L", "V", title="volume of the tank's water", typical=(20.0, 1000.0))
POTENCY = arg("meq/mL", "p", title="alkalinity in a millilitre of solution", typical=(0.2, 2.0))
UPTAKE = arg(
    "meq/L/day",
    "u",
    title="alkalinity the corals take in a day",
    typical=(0.02, 0.8),
    possible=EITHER_SIGN,
)
FIRST = arg(
    "meq/L", "A_1", title="alkalinity at the start", typical=(1.5, 4.0), possible=EITHER_SIGN
)
KEPT = arg(
    "1",
    "k",
    title="share of the first water still there",
    typical=(0.5, 1.0),
    possible=(0.0, 1.0),
)
ADDED = arg(
    "meq/L",
    "a",
    title="alkalinity brought and still there",
    typical=(0.0, 4.0),
    possible=EITHER_SIGN,
)
DAYS_BETWEEN = arg("day", "d", title="days between the readings", typical=(1.0, 60.0))
DAYS_AHEAD = arg("day", "d", title="days from now", typical=(1.0, 14.0))
QUANTILE = arg("1", "q", typical=(-3.0, 3.0), possible=EITHER_SIGN)
SCATTER = arg("meq/L", "s", typical=(0.01, 0.1))


@relation(
    unit="meq/L/day",
    symbol="u",
    source=SOURCE,
    at=BALANCE,
    first=FIRST,
    kept=KEPT,
    added=ADDED,
    second=arg(
        "meq/L", "A_2", title="alkalinity at the end", typical=(1.5, 4.0), possible=EITHER_SIGN
    ),
    days=DAYS_BETWEEN,
)
def alkalinity_uptake(first: Num, kept: Num, added: Num, second: Num, days: Num) -> Num:
    """Return the alkalinity that a litre of the tank loses in a day to skeletons.

    Parameters
    ----------
    first
        Alkalinity at the start.
    kept
        Share of the water of the start that is still there at the end; 1 without water changes.
    added
        What doses and fresh seawater brought, as far as it is still there at the end.
    second
        Alkalinity at the end.
    days
        Between the two. With water changes each day counts by the share of its water that is
        still there at the end, since uptake lowers water that is then taken out.

    Examples
    --------
    >>> alkalinity_uptake(3.0, 1.0, 1.5, 2.5, 10.0)
    0.2
    """
    return (kept * first + added - second) / days


@relation(
    unit="meq/L/day",
    symbol=r"u_{\pm}",
    source="student1908",
    at="interval of an estimate: estimate plus a quantile times its standard error",
    estimate=UPTAKE.titled("uptake that fits best"),
    standard_error=arg(
        "meq/L/day", "s", title="standard error of the uptake", typical=(0.001, 0.1)
    ),
    quantile=QUANTILE,
)
def bound_of_estimate(estimate: Num, standard_error: Num, quantile: Num) -> Num:
    """Return a bound of the interval of an estimate.

    Parameters
    ----------
    estimate
        The value that fits best.
    standard_error
        Of the estimate.
    quantile
        Of Student's distribution; negative for the lower bound.
    """
    return estimate + quantile * standard_error


@relation(
    unit="meq/L/day",
    symbol="n",
    source=SOURCE,
    at=BALANCE,
    uptake=UPTAKE,
    target=arg("meq/L", "A_t", title="alkalinity to hold", typical=(2.0, 4.0)),
    fresh=arg("meq/L", "A_f", title="alkalinity of the fresh seawater", typical=(2.0, 4.0)),
    share=arg(
        "1",
        "f",
        title="share of the water changed each time",
        typical=(0.0, 0.5),
        possible=(0.0, 1.0),
    ),
    days=arg("day", "d", title="days between water changes", typical=(1.0, 60.0)),
)
def alkalinity_need(uptake: Num, target: Num, fresh: Num, share: Num, days: Num) -> Num:
    """Return the alkalinity that doses must bring in a day, beside what water changes bring.

    Negative when the fresh seawater alone brings more than the corals take.

    Parameters
    ----------
    uptake
        What the corals take.
    target
        Alkalinity to hold.
    fresh
        Alkalinity of the fresh seawater.
    share
        Of the volume, at each water change.
    days
        From one water change to the next.

    Examples
    --------
    >>> round(alkalinity_need(0.2, 2.7, 2.0, 0.1, 7.0), 12)
    0.21
    """
    return uptake + share * (target - fresh) / days


@relation(
    unit="mL/day",
    symbol="v",
    source=SOURCE,
    at=BALANCE,
    need=arg(
        "meq/L/day",
        "n",
        title="alkalinity needed in a day",
        typical=(0.0, 0.8),
        possible=EITHER_SIGN,
    ),
    volume=VOLUME,
    potency=POTENCY,
)
def daily_dose(need: Num, volume: Num, potency: Num) -> Num:
    """Return the volume of a stock that brings an alkalinity each day.

    Parameters
    ----------
    need
        Alkalinity for each litre of the tank in a day: what is used, and what it shall rise by.
    volume
        Of the tank's water.
    potency
        Alkalinity in each millilitre of the stock.

    Examples
    --------
    >>> daily_dose(0.2, 200.0, 1.0)
    40.0
    """
    return need * volume / potency


@relation(
    unit="1",
    symbol="m",
    source=SOURCE,
    at="rise in a day over rise of one dose",
    need=arg("meq/L/day", "n", title="alkalinity that doses bring in a day", typical=(0.05, 0.8)),
    single=arg("meq/L", r"\Delta A_1", title="largest rise from one dose", typical=(0.05, 0.4)),
    days=arg("day", "d", title="days that the doses are spread over", typical=(0.5, 2.0)),
)
def doses_in_a_day(need: Num, single: Num, days: Num) -> Num:
    """Return into how many doses a need is split so that none raises the alkalinity too far.

    A count with a fraction: the next whole number is the number of doses.

    Parameters
    ----------
    need
        Alkalinity that the doses bring in a day.
    single
        Largest rise from one dose.
    days
        That the doses are spread over; 1 for doses each day.
    """
    return need * days / single


@relation(
    unit="meq/L",
    symbol="A(d)",
    source=SOURCE,
    at=BALANCE,
    alkalinity=ALKALINITY.titled("alkalinity now"),
    brought=arg("meq/L/day", "b", title="alkalinity brought by doses in a day", typical=(0.0, 0.8)),
    uptake=UPTAKE,
    days=DAYS_AHEAD,
)
def alkalinity_ahead(alkalinity: Num, brought: Num, uptake: Num, days: Num) -> Num:
    """Return the alkalinity some days ahead when dose and uptake stay as they are.

    Parameters
    ----------
    alkalinity
        Now.
    brought
        What doses bring in a day.
    uptake
        What the corals take in a day.
    days
        From now.

    Examples
    --------
    >>> alkalinity_ahead(3.0, 0.125, 0.25, 4.0)
    2.5
    """
    return alkalinity + (brought - uptake) * days


@relation(
    unit="meq/L/day",
    symbol="n_w",
    source=SOURCE,
    at=BALANCE,
    need=arg(
        "meq/L/day",
        "n",
        title="alkalinity needed in a day to hold a level",
        typical=(0.0, 0.8),
        possible=EITHER_SIGN,
    ),
    alkalinity=ALKALINITY.titled("alkalinity at the start"),
    target=arg("meq/L", "A_t", title="alkalinity at the end", typical=(2.0, 4.0)),
    days=arg("day", "d", title="days on the way", typical=(1.0, 14.0)),
)
def need_on_the_way(need: Num, alkalinity: Num, target: Num, days: Num) -> Num:
    """Return the alkalinity that doses must bring in a day while the level moves to a target.

    Parameters
    ----------
    need
        To hold a level.
    alkalinity
        At the start.
    target
        At the end.
    days
        That the way takes.

    Examples
    --------
    >>> need_on_the_way(0.25, 2.5, 3.0, 4.0)
    0.375
    """
    return need + alkalinity_step(alkalinity, target, days)


@relation(
    unit="meq/L",
    symbol="s_A",
    source="student1908",
    at="propagation of two correlated errors and one independent one",
    level_error=arg(
        "meq/L", "s_l", title="standard error of today's alkalinity", typical=(0.005, 0.1)
    ),
    uptake_error=arg(
        "meq/L/day", "s_u", title="standard error of the uptake", typical=(0.001, 0.02)
    ),
    correlation=arg(
        "1", "r", title="correlation of the two errors", typical=(-0.95, 0.95), possible=(-1.0, 1.0)
    ),
    days=DAYS_AHEAD,
    scatter=SCATTER,
)
def spread_of_next_reading(
    level_error: Num, uptake_error: Num, correlation: Num, days: Num, scatter: Num
) -> Num:
    """Return the standard deviation of a reading some days ahead about what is expected.

    Parameters
    ----------
    level_error
        Standard error of today's alkalinity.
    uptake_error
        Standard error of the uptake.
    correlation
        Between the two errors.
    days
        From today.
    scatter
        Standard deviation of a single reading.
    """
    drift = uptake_error * days
    return sqrt(
        level_error * level_error
        + drift * drift
        - 2 * correlation * level_error * drift
        + scatter * scatter
    )


@relation(
    unit="meq/L",
    symbol=r"A_{\pm}",
    source="student1908",
    at="interval of an estimate: estimate plus a quantile times its standard deviation",
    expected=ALKALINITY.titled("reading that the plan foresees"),
    spread=arg(
        "meq/L", "s_A", title="standard deviation of a reading about it", typical=(0.01, 0.2)
    ),
    quantile=QUANTILE,
)
def bound_of_reading(expected: Num, spread: Num, quantile: Num) -> Num:
    """Return a bound of the interval in which the next reading should lie.

    Parameters
    ----------
    expected
        The reading that the plan foresees.
    spread
        Standard deviation of a reading about it.
    quantile
        Of Student's distribution; negative for the lower bound.
    """
    return expected + quantile * spread


@relation(
    unit="meq/L",
    symbol="A_2",
    source=SOURCE,
    at=BALANCE,
    first=FIRST,
    kept=KEPT,
    added=ADDED,
    uptake=UPTAKE,
    days=DAYS_BETWEEN,
)
def alkalinity_at_end(first: Num, kept: Num, added: Num, uptake: Num, days: Num) -> Num:
    """Return the alkalinity at the end of a time with doses, water changes and uptake.

    Parameters
    ----------
    first
        Alkalinity at the start.
    kept
        Share of the water of the start that is still there at the end; 1 without water changes.
    added
        What doses and fresh seawater brought, as far as it is still there at the end.
    uptake
        What the corals take in a day.
    days
        Between the two, each day counted by the share of its water that is still there.

    Examples
    --------
    >>> alkalinity_at_end(3.0, 1.0, 1.5, 0.25, 8.0)
    2.5
    """
    return kept * first + added - uptake * days


@relation(
    unit="meq/L/day",
    symbol="b",
    source=SOURCE,
    at="definition of a rate",
    equivalents=arg("meq", "n", title="alkalinity in all doses together", typical=(10.0, 2000.0)),
    volume=VOLUME,
    days=arg("day", "d", title="days over which the doses were given", typical=(1.0, 60.0)),
)
def alkalinity_brought(equivalents: Num, volume: Num, days: Num) -> Num:
    """Return the alkalinity that doses brought to each litre in a day.

    Parameters
    ----------
    equivalents
        Of alkalinity in all doses together.
    volume
        Of the tank's water.
    days
        Over which they were given.

    Examples
    --------
    >>> alkalinity_brought(500.0, 200.0, 10.0)
    0.25
    """
    return equivalents / volume / days


@relation(
    unit="meq/L",
    symbol="A_u",
    source=SOURCE,
    at="rate times time",
    uptake=UPTAKE,
    days=arg("day", "d", title="days that pass", typical=(1.0, 366.0)),
)
def alkalinity_taken(uptake: Num, days: Num) -> Num:
    """Return the alkalinity that an uptake takes from each litre in some days.

    Examples
    --------
    >>> alkalinity_taken(0.25, 30.0)
    7.5
    """
    return uptake * days


@relation(
    unit="1",
    symbol="n",
    source="student1908",
    at="standard error of a slope from n evenly spaced readings, for large n; derived in the book",
    change=arg(
        "meq/L/day", r"\Delta u", title="change of the uptake to be seen", typical=(0.005, 0.1)
    ),
    scatter=SCATTER,
    days=arg("day", "d", title="days between readings", typical=(1.0, 7.0)),
    quantile=arg("1", "q", title="quantile for what shall be seen", typical=(1.6, 3.5)),
)
def readings_to_see(change: Num, scatter: Num, days: Num, quantile: Num) -> Num:
    """Return how many readings before a change of uptake, and as many after it, show the change.

    A count with a fraction: the next whole number is the number of readings on each side.

    Parameters
    ----------
    change
        Of the uptake, that shall be seen.
    scatter
        Standard deviation of a single reading.
    days
        From one reading to the next.
    quantile
        2.8 to see it in 80 of 100 cases and be fooled in 5 (1.96 + 0.84 of the normal
        distribution).

    Examples
    --------
    >>> round(readings_to_see(0.02, 0.04, 2.0, 2.8), 2)
    5.73
    """
    ratio = quantile * scatter / (days * change)
    return exp(log(24 * ratio * ratio) / 3)
