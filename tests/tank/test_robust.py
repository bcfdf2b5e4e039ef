"""Constants of the robust regression, and its answer on a line without error."""

from __future__ import annotations

import pytest
from scipy.integrate import quad
from scipy.stats import norm

from reefchem.tank.robust import HUBER, NORMAL_MAD, NORMAL_PSI, robust_fit


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
