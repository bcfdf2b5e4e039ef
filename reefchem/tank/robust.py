"""A straight line through readings that does not let one slip decide."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = ["Robust", "freedom_left", "noisier_than_stated", "quantile", "robust_fit"]

HUBER = 1.345
"""Standardised residual from which a reading counts by its distance only (Huber, 1981)."""

NORMAL_MAD = 0.6744897501960817
"""Median of the absolute value of a standard normal variable."""

SCATTER_FREEDOM = 0.8
"""Share of the degrees of freedom that is counted when a scatter is judged, to be cautious."""

NORMAL_PSI = 0.7101645482690484
"""Mean square of a standard normal variable that is cut off at Huber's bound."""

KEPT_FREEDOM = 0.85
"""Share of the degrees of freedom that is counted, since the scatter of a robust fit is less sure.

Measured, not from a source: on simulated lines of 6 to 40 readings, with slips and without, the
95 % interval then holds the truth in 94 to 96 of 100 cases, however coarse the kit.
"""

ROUNDS = 30
STEPS = 200


@dataclass(frozen=True)
class Robust:
    """A robust linear regression.

    Attributes
    ----------
    scale
        Standard deviation of a reading whose trust is 1.
    weights
        Between 0 and 1: how much of its ordinary pull each reading had.
    standardised
        Residual of each reading over its own standard deviation.
    """

    coefficients: list[float]
    covariance: list[list[float]]
    scale: float
    weights: list[float]
    standardised: list[float]


def robust_fit(
    design: Sequence[Sequence[float]],
    values: Sequence[float],
    floor: float,
    trust: Sequence[float] | None = None,
) -> Robust:
    """Return Huber's M-estimate with the covariance of Huber (1981, sect. 7.6).

    Parameters
    ----------
    design, values
        One row for each reading; more of them than unknowns.
    floor
        Smallest standard deviation that a reading of trust 1 can have: that of its rounding.
    trust
        Over the standard deviation of each reading; 1 for all when None.
    """
    import numpy as np  # noqa: PLC0415 - the extra `plan`
    from scipy.optimize import least_squares  # noqa: PLC0415 - the extra `plan`

    weight = np.ones(len(values)) if trust is None else np.array(trust)
    x, y = np.array(design) * weight[:, None], np.array(values) * weight
    unknowns = x.shape[1]

    def residuals(coefficients: Any) -> Any:
        return x @ coefficients - y

    def slopes(_coefficients: Any) -> Any:
        return x.copy()  # SciPy before 1.16 scales in place what it is given

    guess = np.linalg.lstsq(x, y, rcond=None)[0]
    scale = max(_scatter(y - x @ guess, unknowns), floor)
    for _ in range(ROUNDS):
        found = least_squares(
            residuals,
            guess,
            jac=slopes,
            loss="huber",
            f_scale=HUBER * scale,
            xtol=1e-12,
            ftol=1e-12,
            gtol=1e-12,
        )
        guess, before = found.x, scale
        scale = max(_scatter(y - x @ guess, unknowns), floor)
        if abs(scale - before) <= 1e-6 * scale:
            break
    left = y - x @ guess
    variance = max(_variance(left, scale, unknowns), floor**2)
    covariance = np.linalg.pinv(x.T @ x) * variance
    standardised = left / scale
    weights = HUBER / np.maximum(np.abs(standardised), HUBER)
    return Robust(
        guess.tolist(), covariance.tolist(), scale, weights.tolist(), standardised.tolist()
    )


def freedom_left(readings: int, unknowns: int) -> float:
    """Return the degrees of freedom that a robust fit leaves."""
    return KEPT_FREEDOM * (readings - unknowns)


def quantile(freedom: float, confidence: float) -> float:
    """Return Student's quantile for an interval to both sides."""
    from scipy.special import stdtrit  # noqa: PLC0415 - the extra `plan`

    return float(stdtrit(freedom, (1 + confidence) / 2))


def noisier_than_stated(scatter: float, stated: float, freedom: float) -> bool:
    """Return whether readings scatter more than their methods say, beyond chance of 1 in 40."""
    from scipy.special import chdtri  # noqa: PLC0415 - the extra `plan`

    told_by = max(1.0, SCATTER_FREEDOM * freedom)
    return bool((scatter / stated) ** 2 > float(chdtri(told_by, 0.025)) / told_by)


def _scatter(left: Any, unknowns: int) -> float:
    """Return a robust standard deviation of residuals: Huber's second proposal.

    It starts from their median size and grows until cut-off residuals are as large as those of a
    normal variable. It uses more of the readings than a median does, and a kit that reads in
    coarse steps does not make it jump.
    """
    import numpy as np  # noqa: PLC0415 - the extra `plan`

    freedom = len(left) - unknowns
    largest = np.sort(np.abs(left))[unknowns - 1 :]
    scale = float(np.median(largest)) / NORMAL_MAD
    for _ in range(STEPS):
        if scale <= 0:
            break
        cut = np.clip(left / scale, -HUBER, HUBER)
        grown = scale * float(np.sqrt((cut**2).sum() / freedom / NORMAL_PSI))
        if abs(grown - scale) <= 1e-9 * scale:
            break
        scale = grown
    return scale


def _variance(left: Any, scale: float, unknowns: int) -> float:
    """Return the variance of one coefficient's worth of residuals, by Huber's formula."""
    import numpy as np  # noqa: PLC0415 - the extra `plan`

    count = len(left)
    standardised = left / scale
    share = float((np.abs(standardised) <= HUBER).mean())
    cut = np.clip(standardised, -HUBER, HUBER)
    correction = 1 + unknowns / count * (1 - share) / share
    return scale**2 * float((cut**2).sum()) / (count - unknowns) / share**2 * correction**2
