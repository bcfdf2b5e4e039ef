"""Constants of the robust regression, and its answer on a line without error."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.stats import norm
from scipy.stats import t as student

from reefchem.tank.robust import (
    HUBER,
    NORMAL_MAD,
    NORMAL_PSI,
    freedom_left,
    noisier_than_stated,
    quantile,
    robust_fit,
)


def test_the_constants_are_those_of_a_normal_variable():
    square, _ = quad(
        lambda x: min(abs(x), HUBER) ** 2 * norm.pdf(x), -12, 12, points=[-HUBER, HUBER]
    )
    assert pytest.approx(square, rel=1e-7) == NORMAL_PSI
    assert pytest.approx(norm.ppf(0.75), rel=1e-12) == NORMAL_MAD


def test_a_line_is_found_and_a_slip_left_aside():
    values = [1.0 + 2.0 * x for x in range(10)]
    values[6] += 50.0
    found = robust_fit([[1.0, float(x)] for x in range(10)], values, 1e-6)
    assert found.coefficients == pytest.approx([1.0, 2.0], abs=1e-5)
    assert found.weights[6] < 1e-5
    assert found.standardised[6] > 1e5


def noisy(seed, count, unknowns, slips):
    """Return design, values and trust of noisy readings, some of them slips."""
    draw = np.random.default_rng(seed)
    moments = np.arange(count, dtype=float)
    design = np.column_stack([np.ones(count), moments, np.maximum(0.0, moments - count / 2)])
    values = 3.0 - 0.2 * moments + draw.normal(0.0, 0.1, count)
    values[draw.permutation(count)[:slips]] += 1.5
    return design[:, :unknowns].tolist(), values.tolist(), draw.uniform(0.5, 2.0, count).tolist()


@pytest.mark.parametrize("unknowns", [2, 3])
@pytest.mark.parametrize(("count", "slips"), [(5, 0), (9, 1), (12, 2), (30, 5)])
def test_the_fit_solves_the_equations_of_huber(count, slips, unknowns):
    """Huber (1981): sum of psi times x is nothing; that of psi squared is as for a normal one.

    The covariance is that of sect. 7.6, K squared times the mean square of psi over the squared
    mean of its slope, times the inverse of the design's square.
    """
    for seed in range(4):
        design, values, trust = noisy(seed, count, unknowns, slips)
        found = robust_fit(design, values, 1e-6, trust)
        weight = np.array(trust)
        x, y = np.array(design) * weight[:, None], np.array(values) * weight
        z = (y - x @ np.array(found.coefficients)) / found.scale
        psi = np.clip(z, -HUBER, HUBER)
        assert found.standardised == pytest.approx(z.tolist(), abs=1e-9)
        assert found.weights == pytest.approx(np.minimum(1.0, HUBER / np.abs(z)).tolist())
        size = np.sqrt((x**2).sum(axis=0))
        assert (psi @ x / size).tolist() == pytest.approx([0.0] * unknowns, abs=1e-3)
        assert (psi**2).sum() == pytest.approx((count - unknowns) * NORMAL_PSI, rel=1e-4)
        inside = (np.abs(z) <= HUBER).mean()
        k = 1 + unknowns / count * (1 - inside) / inside
        square = (k * found.scale / inside) ** 2 * (psi**2).sum() / (count - unknowns)
        expected = np.linalg.inv(x.T @ x) * square
        assert np.array(found.covariance) == pytest.approx(expected, rel=1e-6)


def test_without_a_slip_the_fit_is_that_of_least_squares():
    """Readings 1, 2 and 4 of moments 0, 1 and 2 and so on: none is beyond the bound."""
    moments = [0.0, 1.0, 2.0, 3.0, 4.0, 5.0]
    values = [0.1, 0.9, 2.1, 2.9, 4.1, 4.9]
    found = robust_fit([[1.0, moment] for moment in moments], values, 1e-6)
    slope, start = np.polyfit(moments, values, 1)
    assert found.weights == [1.0] * 6
    assert found.coefficients == pytest.approx([start, slope], rel=1e-9)


def test_readings_that_lie_on_the_line_are_as_good_as_their_rounding():
    """Four readings without error, each rounded to 0.1: the slope's error is 0.1 over root 5."""
    found = robust_fit([[1.0, float(x)] for x in range(4)], [3.0, 2.0, 1.0, 0.0], 0.1)
    assert found.scale == 0.1
    assert found.covariance[1][1] ** 0.5 == pytest.approx(0.1 / 5**0.5)
    assert found.coefficients == pytest.approx([3.0, -1.0])


def test_the_quantile_is_that_of_student():
    assert quantile(10.0, 0.95) == pytest.approx(student.ppf(0.975, 10.0))
    assert quantile(3.4, 0.8) == pytest.approx(student.ppf(0.9, 3.4))
    assert freedom_left(12, 2) == pytest.approx(8.5)


def test_a_scatter_is_never_judged_by_less_than_one_degree_of_freedom():
    """Chi-square with one degree of freedom is below 5.024 in 39 of 40 cases (tables)."""
    assert noisier_than_stated(2.25, 1.0, 1)
    assert not noisier_than_stated(2.24, 1.0, 1)
