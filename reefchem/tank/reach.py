"""How far a method reaches that brings only so much."""

from __future__ import annotations

from reefchem.core.functions import Num
from reefchem.core.record import arg, relation

__all__ = ["alkalinity_with_changes_alone"]

EITHER_SIGN = (-float("inf"), float("inf"))


@relation(
    unit="meq/L",
    symbol=r"A_\infty",
    source="levenspiel1999",
    at="material balance at steady state: a change brings what was used since the last; derived",
    fresh=arg("meq/L", "A_f", title="alkalinity of the fresh seawater", typical=(2.0, 4.0)),
    uptake=arg(
        "meq/L/day", "u", title="uptake of alkalinity", typical=(0.01, 0.3), possible=EITHER_SIGN
    ),
    days=arg("day", "d", title="days from change to change", typical=(1.0, 14.0)),
    share=arg(
        "1",
        "f",
        title="share of the water that is changed",
        typical=(0.1, 0.5),
        possible=(0.0, 1.0),
    ),
)
def alkalinity_with_changes_alone(fresh: Num, uptake: Num, days: Num, share: Num) -> Num:
    """Return the alkalinity before each water change of a tank that nothing else is dosed to.

    Where it settles if the corals went on to take as much. A result near zero or below says that
    water changes alone cannot carry these corals.

    Parameters
    ----------
    fresh
        Of the fresh seawater.
    uptake
        What the corals take.
    days
        From one change to the next.
    share
        Of the volume, at each change; more than nothing.

    Examples
    --------
    >>> alkalinity_with_changes_alone(3.0, 0.05, 4.0, 0.25)
    2.2
    """
    return fresh - uptake * days / share
