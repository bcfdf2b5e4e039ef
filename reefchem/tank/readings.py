"""How sure several readings are, and whether two of them differ."""

from __future__ import annotations

from reefchem.core.functions import Num, sqrt
from reefchem.core.record import EITHER_SIGN, arg, relation

__all__ = ["combined_uncertainty", "difference_in_uncertainties", "uncertainty_of_mean"]

FIRST = arg("1", "u_1", title="first standard uncertainty", typical=(0.05, 1.0))
SECOND = arg("1", "u_2", title="second standard uncertainty", typical=(0.05, 1.0))


@relation(
    unit="1",
    symbol=r"u_{\bar x}",
    source="jcgm2008",
    at="4.2.3, eq. 5",
    scatter=arg("1", "s", typical=(0.05, 1.0)),
    readings=arg(
        "1", "n", title="number of readings", typical=(1.0, 20.0), possible=(1.0, float("inf"))
    ),
)
def uncertainty_of_mean(scatter: Num, readings: Num) -> Num:
    """Return the standard uncertainty of the mean of several readings of one thing.

    Parameters
    ----------
    scatter
        Standard deviation of single readings, in the unit of the reading; any shape.
    readings
        How many were taken, each on its own; broadcast against `scatter`.

    Returns
    -------
    Num
        In the unit of the reading; of the broadcast shape and of the kind of the arguments.

    Notes
    -----
    It speaks of scatter only. What is wrong with all readings alike, a scale with another
    reference temperature say, is not made smaller by repeating them.

    Examples
    --------
    >>> uncertainty_of_mean(0.3, 4.0)
    0.15
    """
    return scatter / sqrt(readings)


@relation(
    unit="1",
    symbol="u_c",
    source="jcgm2008",
    at="5.1.2, eq. 10, for a sum or a difference",
    first=FIRST,
    second=SECOND,
)
def combined_uncertainty(first: Num, second: Num) -> Num:
    """Return the standard uncertainty of the sum or difference of two independent numbers.

    Parameters
    ----------
    first, second
        Their standard uncertainties, in one unit; they broadcast against each other.

    Returns
    -------
    Num
        In the same unit; of the broadcast shape and of the kind of the arguments.

    Examples
    --------
    >>> combined_uncertainty(0.3, 0.4)
    0.5
    """
    return sqrt(first * first + second * second)


@relation(
    unit="1",
    symbol="k",
    source="jcgm2008",
    at="5.1.2, eq. 10, and 6.2.1: a difference over its standard uncertainty",
    one=arg(
        "1",
        "x_1",
        title="first reading",
        typical=(5.0, 10.0),
        possible=EITHER_SIGN,
    ),
    other=arg(
        "1",
        "x_2",
        title="second reading",
        typical=(5.0, 10.0),
        possible=EITHER_SIGN,
    ),
    first=FIRST,
    second=SECOND,
)
def difference_in_uncertainties(one: Num, other: Num, first: Num, second: Num) -> Num:
    """Return how many times their uncertainty two readings differ by.

    Parameters
    ----------
    one, other
        The readings, in one unit.
    first, second
        Their standard uncertainties, in the same unit.

    Returns
    -------
    Num
        A pure number; above 2 in size, chance alone would be the cause less than once in twenty.
        Of the broadcast shape and of the kind of the arguments.

    Examples
    --------
    >>> difference_in_uncertainties(8.0, 7.5, 0.3, 0.4)
    1.0
    """
    return (one - other) / combined_uncertainty(first, second)
