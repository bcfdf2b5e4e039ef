"""The search takes the steps of its method: as many as another implementation of it."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.optimize import elementwise

from reefchem.core.roots import find_root, newton

# Name, function, bracket. The last evaluation, which warns of a range, is ours alone.
SEARCHED = [
    ("square", lambda x: x * x - 2.0, 0.0, 2.0),
    ("cube from far away", lambda x: x * x * x - 1e-9, -1e3, 1e9),
    ("exponential", lambda x: np.exp(x) - 5.0, -50.0, 50.0),
    ("logarithm", lambda x: np.log(x) + 20.0, 1e-30, 1e30),
    ("flat at the root", lambda x: (x - 3.0) * (x - 3.0) * (x - 3.0), -1.0, 8.0),
    ("steep pole beside the root", lambda x: 1.0 / (x + 1e-6) - 1e3, 0.0, 1.0),
    ("line", lambda x: x - 1.25, 1.0, 2.0),
    ("through zero", lambda x: x, -1.0, 3.0),
    ("falling", lambda x: 2.0 - x * x * x, 0.0, 4.0),
    ("bent", lambda x: np.cos(x) - x, 0.0, 2.0),
    ("stiff", lambda x: x**9 - 1e-3, 0.0, 10.0),
    ("acid and base", lambda x: 1e-3 / (1 + x / 1e-6) - x + 1e-14 / x - 4e-4, 1e-14, 1.0),
    ("two slopes", lambda x: np.where(x < 1.0, 1e3 * (x - 1.0), x - 1.0) + 1e-3, 0.0, 50.0),
]

each = pytest.mark.parametrize(
    ("function", "lower", "upper"), [s[1:] for s in SEARCHED], ids=[s[0] for s in SEARCHED]
)


def steps_of_another(function, lower, upper):
    close = {"xatol": 5e-324, "xrtol": 8e-16, "fatol": 0.0, "frtol": 0.0}
    found = elementwise.find_root(function, (lower, upper), tolerances=close)
    assert found.success
    return int(found.nfev), float(found.x)


@each
@pytest.mark.parametrize("kind", [float, np.atleast_1d], ids=["float", "array"])
def test_as_many_steps_as_another_implementation(function, lower, upper, kind):
    asked = []

    def counted(x):
        asked.append(x)
        return kind(function(x))

    root = find_root(counted, kind(lower), upper, unknown="x")
    theirs, expected = steps_of_another(function, lower, upper)
    assert len(asked) == theirs + 1
    assert float(np.asarray(root).item()) == pytest.approx(expected, rel=4e-15, abs=1e-300)


def test_all_elements_of_an_array_take_the_steps_each_would_take_alone():
    levels = np.array([2.0, 1e-9, 1e9, 0.3])

    def counting(level, asked):
        def residual(x):
            asked.append(x)
            return x * x * x - level

        return residual

    together = []
    roots = find_root(counting(levels, together), np.zeros(4), 1e4, unknown="x")
    alone = []
    for level, root in zip(levels.tolist(), roots, strict=True):
        mine = []
        assert find_root(counting(level, mine), 0.0, 1e4, unknown="x") == root
        alone.append(len(mine))
    assert len(together) == max(alone)


def test_newton_stops_when_the_last_correction_was_small():
    asked = []

    def correction(x):
        asked.append(x)
        return (x * x - 2.0) / (2.0 * x)

    assert newton(correction, 1.4142135, 1.0, 2.0) == pytest.approx(math.sqrt(2), rel=1e-15)
    assert len(asked) == 2
    asked.clear()
    found = newton(correction, np.array([1.4142135, 1.5]), 1.0, 2.0)
    assert found == pytest.approx([math.sqrt(2)] * 2, rel=1e-15)
    assert len(asked) == 4


@pytest.mark.parametrize("start", [0.5, 2.5])
def test_newton_does_not_start_outside_its_bounds(start):
    asked = []
    assert math.isnan(newton(lambda x: asked.append(x) or x - 1.5, start, 1.0, 2.0))
    assert not asked


@pytest.mark.parametrize("bound", [1.0, 2.0])
def test_newton_may_end_on_a_bound(bound):
    assert newton(lambda x: x - bound, 1.5, 1.0, 2.0) == bound
    assert newton(lambda x: x - bound, np.array([1.5, 1.6]), 1.0, 2.0).tolist() == [bound] * 2


def test_newton_gives_up_after_eight_corrections():
    asked = []

    def halving(x):
        asked.append(x)
        return x / 2

    assert math.isnan(newton(halving, 1.0, 0.0, 2.0))
    assert len(asked) == 8
    asked.clear()
    assert np.isnan(newton(halving, np.array([1.0]), 0.0, 2.0)).all()
    assert len(asked) == 8
