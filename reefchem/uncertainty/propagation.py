"""Uncertainty of a result from the uncertainty of its inputs, two ways.

`uncertainty` uses the exact slopes and is right while the relation is nearly straight across the
uncertainty. `simulate` draws inputs at random and asks no such thing. Where both agree, either may
be trusted; where they differ, trust the second.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from reefchem.core.errors import DomainError
from reefchem.core.quantity import is_quantity, magnitude
from reefchem.core.record import describe
from reefchem.uncertainty.draws import check_correlation, normal_draws, spread_of
from reefchem.uncertainty.gradient import gradient

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from reefchem.core.record import Record

__all__ = ["Propagated", "simulate", "uncertainty"]

PIECE = 65_536
"""Draws between two calls of `progress`."""


@dataclass(frozen=True)
class Propagated:
    """A result with its standard uncertainty and where that comes from.

    Attributes
    ----------
    value, standard
        The result and its standard uncertainty, in the recorded unit.
    unit
        The recorded unit.
    shares
        Part of the variance by argument; they add to one. The largest names the measurement to
        improve first. With correlations a share can be negative: there an input makes up for
        another.
    parts
        What one standard uncertainty of each argument does to the result, with its sign. Over
        `standard` it is the correlation of the result with that argument.
    """

    value: float
    standard: float
    unit: str
    shares: Mapping[str, float]
    parts: Mapping[str, float] = field(default_factory=dict)

    @property
    def interval(self) -> tuple[float, float]:
        """The range that holds the truth 95 times in 100, if the result is normal."""
        half = 1.959964 * self.standard
        return self.value - half, self.value + half


def uncertainty(
    function: Callable[..., Any] | str,
    *,
    correlation: Mapping[tuple[str, str], float] | None = None,
    **inputs: Any,
) -> Propagated:
    """Return a result with its uncertainty, from the exact slopes of the relation.

    Parameters
    ----------
    function
        A relation or its name.
    correlation
        Correlation coefficient by pair of arguments; pairs that are not named have none.
    inputs
        For each argument a number, or a pair of value and standard uncertainty; bare in the
        recorded unit, or quantities.

    Examples
    --------
    >>> from reefchem.seawater import salinity_from_density
    >>> made = uncertainty(salinity_from_density, density=(1023.34, 0.1), temperature=(25.0, 0.5))
    >>> round(made.value, 1), round(made.standard, 2), round(made.shares["temperature"], 2)
    (35.0, 0.24, 0.7)
    """
    record = describe(function)
    values, spreads = _pairs(record, inputs)
    value, slopes = gradient(function, **values)
    parts = {name: slopes[name] * spread for name, spread in spreads.items()}
    check_correlation(record.name, record.arguments, correlation)
    return propagated(value, parts, record.unit, correlation, record.name)


def propagated(
    value: float,
    parts: Mapping[str, float],
    unit: str,
    correlation: Mapping[tuple[str, str], float] | None,
    who: str,
) -> Propagated:
    """Return a result with the uncertainty that its signed parts add up to."""
    standard, shares = spread_of(parts, correlation, who)
    return Propagated(value, standard, unit, shares, parts)


def simulate(
    function: Callable[..., Any] | str,
    *,
    members: int = 100_000,
    seed: int = 0,
    correlation: Mapping[tuple[str, str], float] | None = None,
    progress: Callable[[int, int], None] | None = None,
    **inputs: Any,
) -> Any:
    """Return results for inputs drawn from normal distributions: an array with one per member.

    Parameters
    ----------
    function
        A relation or its name.
    members
        Number of draws.
    seed
        Of the random numbers; the same seed gives the same draws.
    correlation, inputs
        As for `uncertainty`.
    progress
        Called with the number of draws that are done, and of all; for those that take a second.

    Notes
    -----
    A draw that is impossible for the relation (a salinity below zero, say) raises `DomainError`:
    a normal distribution that wide is the wrong description of that input.
    """
    record = describe(function)
    values, spreads = _pairs(record, inputs)
    check_correlation(record.name, record.arguments, correlation)
    draws = normal_draws(record.name, list(spreads), correlation, members, seed)
    drawn = {
        name: values[name] + spread * draw
        for (name, spread), draw in zip(spreads.items(), draws, strict=True)
    }
    if progress is None:
        return record.function(**{**values, **drawn})
    import numpy as np  # noqa: PLC0415 - NumPy is loaded only by those who use it

    results = np.empty(members)
    for begin in range(0, members, PIECE):
        piece = slice(begin, min(begin + PIECE, members))
        some = {name: draw[piece] for name, draw in drawn.items()}
        results[piece] = record.function(**{**values, **some})
        progress(piece.stop, members)
    return results


def _pairs(record: Record, inputs: Mapping[str, Any]) -> tuple[dict[str, float], dict[str, float]]:
    """Return value and standard uncertainty by argument, in the recorded units."""
    values: dict[str, float] = {}
    spreads: dict[str, float] = {}
    for name, given in inputs.items():
        if name not in record.arguments:
            msg = f"{record.name} has no argument {name!r}; it has {list(record.arguments)}"
            raise TypeError(msg)
        value, spread = given if isinstance(given, tuple) else (given, 0.0)
        unit, where = record.arguments[name].unit, f"{record.name}: {name}"
        bare = float(magnitude(value, unit, where) if is_quantity(value) else value)
        if is_quantity(spread):
            spread = float(magnitude(value + spread, unit, where)) - bare
        if not spread >= 0 or spread == float("inf"):
            msg = f"{where} has a standard uncertainty of {spread}; it is 0 or more and finite"
            raise DomainError(msg)
        values[name] = bare
        if spread:
            spreads[name] = float(spread)
    return values, spreads
