"""Normal draws of inputs that may be correlated, and the check that correlations can all hold."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from reefchem.core.errors import DomainError

if TYPE_CHECKING:
    from collections.abc import Collection, Mapping, Sequence

__all__ = [
    "check_correlation",
    "correlation_matrix",
    "normal_draws",
    "ranks_of_bounds",
    "spread_of",
]

ROUNDING = 1e-9
"""Below zero by no more than this, an eigenvalue of a matrix of correlations is one of zero."""


def check_correlation(
    who: str, names: Collection[str], correlation: Mapping[tuple[str, str], float] | None
) -> None:
    """Refuse correlations of what is no input, or that are no correlations.

    Raises
    ------
    TypeError
        When a pair names something else.
    DomainError
        When a coefficient is outside -1 to 1.
    """
    for pair, coefficient in (correlation or {}).items():
        for name in pair:
            if name not in names:
                msg = f"{who} has no argument {name!r} to correlate"
                raise TypeError(msg)
        if not -1 <= coefficient <= 1:
            msg = f"correlation of {pair[0]} and {pair[1]} is {coefficient}; -1 to 1 is possible"
            raise DomainError(msg)


def correlation_matrix(
    names: Sequence[str], correlation: Mapping[tuple[str, str], float] | None
) -> Any:
    """Return the matrix of correlations of some inputs, as a NumPy array."""
    import numpy as np  # noqa: PLC0415 - NumPy is loaded only by those who use it

    matrix = np.eye(len(names))
    for (first, second), coefficient in (correlation or {}).items():
        if first in names and second in names:
            i, j = names.index(first), names.index(second)
            matrix[i, j] = matrix[j, i] = coefficient
    return matrix


def normal_draws(
    who: str,
    names: Sequence[str],
    correlation: Mapping[tuple[str, str], float] | None,
    members: int,
    seed: int,
) -> Any:
    """Return standard normal draws, one row for each name, correlated as asked.

    Inputs that hang together completely, with a correlation of 1 or -1, are allowed.

    Raises
    ------
    DomainError
        When no set of inputs can have all these correlations at once.
    """
    import numpy as np  # noqa: PLC0415 - NumPy is loaded only by those who use it

    draws = np.random.default_rng(seed).standard_normal((len(names), members))
    matrix = correlation_matrix(names, correlation)
    together = [i for i, row in enumerate(matrix) if np.count_nonzero(row) > 1]
    if together:
        inner = matrix[np.ix_(together, together)]
        values, vectors = np.linalg.eigh(inner)
        if values[0] < -ROUNDING:
            msg = f"{who}: these correlations cannot all hold"
            raise DomainError(msg)
        root = vectors * np.sqrt(np.maximum(values, 0.0))
        draws[together] = root @ draws[together]
    return draws


def ranks_of_bounds(members: int) -> list[int]:
    """Return the rank, from 0, of the members called low, middle and high.

    Of the members 95 in 100 lie between the outer two.
    """
    return [round(bound * (members - 1)) for bound in (0.025, 0.5, 0.975)]


def spread_of(
    parts: Mapping[str, float], correlation: Mapping[tuple[str, str], float] | None, who: str
) -> tuple[float, dict[str, float]]:
    """Return the standard uncertainty that signed parts add up to, and their shares of its square.

    A share is its own square and half of what it has in common with each other input. So
    the shares add to one; one that is negative belongs to an input that makes up for another.
    """
    pulls = dict(parts)
    for (first, second), coefficient in (correlation or {}).items():
        if first in parts and second in parts:
            pulls[first] += coefficient * parts[second]
            pulls[second] += coefficient * parts[first]
    terms = {name: part * pulls[name] for name, part in parts.items()}
    variance = math.fsum(terms.values())
    largest = max((part * part for part in parts.values()), default=0.0)
    if variance < -ROUNDING * largest:
        msg = f"{who}: these correlations cannot all hold; the variance is below zero"
        raise DomainError(msg)
    if variance <= 0:
        return 0.0, {}
    return math.sqrt(variance), {name: term / variance for name, term in terms.items()}
