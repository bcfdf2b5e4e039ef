"""Months of dosing as one map that is applied again and again.

In each period the doses leave something, the salinity is set right with fresh water, and a share
of the water is changed. Each step is linear, so that any number of periods has a closed form.
"""

from __future__ import annotations

from reefchem.core.functions import Num, log
from reefchem.core.record import EITHER_SIGN, arg, relation

__all__ = [
    "ion_after_periods",
    "ion_settled",
    "kept_share",
    "settling_time",
    "share_replaced",
    "water_change_for_bound",
]

SOURCE = "levenspiel1999"
LEVEL = arg("mg/L", "x_0", title="ion at the start", typical=(200.0, 2000.0))
FRESH = arg("mg/L", "x_f", title="ion in the fresh seawater", typical=(200.0, 2000.0))
GAIN = arg(
    "mg/L",
    "g",
    title="gain of the ion in a period",
    typical=(-5.0, 50.0),
    possible=EITHER_SIGN,
)
SHARE = arg(
    "1", "f", title="share of the water changed each time", typical=(0.05, 0.3), possible=(0.0, 1.0)
)
KEPT = arg("1", "a", title="share kept after a period", typical=(0.7, 0.94), possible=(0.0, 1.0))


@relation(
    unit="1",
    symbol="r",
    source=SOURCE,
    at="material balance of the salt; derived in the book",
    salt_gained=arg("g/L", "m", title="salt gained by each litre", typical=(0.0, 1.0)),
    salt=arg("g/L", "M", title="salt in a litre at the right salinity", typical=(30.0, 40.0)),
)
def share_replaced(salt_gained: Num, salt: Num) -> Num:
    """Return the share of the water that is replaced by fresh water to set the salinity right.

    Parameters
    ----------
    salt_gained
        By each litre since the salinity was right.
    salt
        In a litre when the salinity is right.

    Examples
    --------
    >>> share_replaced(1.0, 35.0).__round__(5)
    0.02778
    """
    return salt_gained / (salt + salt_gained)


@relation(
    unit="1",
    symbol="a",
    source=SOURCE,
    at="material balance of one period; derived in the book",
    share=SHARE,
    replaced=arg(
        "1",
        "r",
        title="share given to fresh water for the salinity",
        typical=(0.0, 0.05),
        possible=(0.0, 1.0),
    ),
)
def kept_share(share: Num, replaced: Num) -> Num:
    """Return the share of what was there that is still there after a period.

    Parameters
    ----------
    share
        Of the volume, that the water change takes.
    replaced
        Of the volume, that gave way to fresh water for the salinity.
    """
    return (1 - share) * (1 - replaced)


@relation(
    unit="mg/L",
    symbol="x_n",
    source=SOURCE,
    at="affine map applied n times, a geometric series; derived in the book",
    level=LEVEL,
    fresh=FRESH,
    gain=GAIN,
    share=SHARE,
    kept=KEPT,
    periods=arg("1", "n", title="number of periods", typical=(1.0, 52.0)),
)
def ion_after_periods(
    level: Num, fresh: Num, gain: Num, share: Num, kept: Num, periods: Num
) -> Num:
    """Return the level of an ion after some periods of dosing, correction and water change.

    Parameters
    ----------
    level
        At the start.
    fresh
        In the fresh seawater.
    gain
        What the doses leave in a period; negative for what the skeleton takes beside.
    share
        Of the volume, that each water change takes.
    kept
        Of what was there, after a period; see `kept_share`. Less than 1.
    periods
        How many.

    Examples
    --------
    >>> ion_after_periods(400.0, 400.0, 0.0, 0.1, 0.9, 10.0).__round__(9)
    400.0
    """
    settled = ion_settled(fresh, gain, share, kept)
    return settled + (level - settled) * kept**periods


@relation(
    unit="mg/L",
    symbol=r"x_\infty",
    source=SOURCE,
    at="fixed point of the affine map; derived in the book",
    fresh=FRESH,
    gain=GAIN,
    share=SHARE,
    kept=KEPT,
)
def ion_settled(fresh: Num, gain: Num, share: Num, kept: Num) -> Num:
    """Return the level at which an ion settles.

    Parameters
    ----------
    fresh
        In the fresh seawater.
    gain
        What the doses leave in a period.
    share
        Of the volume, that each water change takes.
    kept
        Of what was there, after a period; less than 1.
    """
    return (kept * gain + share * fresh) / (1 - kept)


@relation(
    unit="day",
    symbol=r"\tau",
    source=SOURCE,
    at="affine map: the distance from the fixed point falls to 1/e; derived in the book",
    kept=KEPT,
    period=arg("day", "p", title="days between water changes", typical=(1.0, 30.0)),
)
def settling_time(kept: Num, period: Num) -> Num:
    """Return the time in which the distance from the settled level falls to 37 %.

    Parameters
    ----------
    kept
        Of what was there, after a period; between 0 and 1.
    period
        From one water change to the next.

    Examples
    --------
    >>> round(settling_time(0.9, 7.0), 1)
    66.4
    """
    return -period / log(kept)


@relation(
    unit="1",
    symbol="f",
    source=SOURCE,
    at="fixed point of the affine map, solved for the water change; derived in the book",
    loss=arg(
        "1",
        r"\delta",
        title="largest share of the ion that may be missing",
        typical=(0.01, 0.2),
        possible=(0.0, 1.0),
    ),
    replaced=arg(
        "1",
        "r",
        title="share given to fresh water for the salinity",
        typical=(0.0005, 0.02),
        possible=(0.0, 1.0),
    ),
)
def water_change_for_bound(loss: Num, replaced: Num) -> Num:
    """Return the water change at which an ion that nobody doses settles a bounded share lower.

    Parameters
    ----------
    loss
        Largest share by which the ion may be lower than in fresh seawater, in the long run.
    replaced
        Of the volume, that gives way to fresh water for the salinity in a period.

    Examples
    --------
    >>> round(water_change_for_bound(0.05, 0.005), 4)
    0.0868
    """
    held = 1 - loss
    return held * replaced / (1 - held * (1 - replaced))
