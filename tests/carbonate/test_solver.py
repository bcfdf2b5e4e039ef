"""The solver: slopes, starts far off, and answers that bisection confirms."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from reefchem.carbonate import solver
from reefchem.carbonate.constants import Constants, choices
from reefchem.core.errors import NoRootError

CHOSEN = choices("lueker2000", "uppstrom1974", "perez1987", "handbook")
K = Constants(25.0, 35.0, CHOSEN)


def solutes(boron=4.16e-4, phosphate=0.0, silicate=0.0, ammonium=0.0):
    return solver.Solutes(K, boron, phosphate, silicate, ammonium)


def bisected(residual, low=-18.0, high=2.0):
    """Return where a residual that rises with log10 H changes sign; plain bisection, no more."""
    for _ in range(200):
        middle = 0.5 * (low + high)
        if residual(10.0**middle) > 0:
            low = middle
        else:
            high = middle
    return 10.0**low


@given(
    log_h=st.floats(-12.0, -2.0),
    phosphate=st.floats(0.0, 1e-4),
    silicate=st.floats(0.0, 1e-4),
    ammonium=st.floats(0.0, 1e-3),
)
def test_slopes_are_the_derivatives_against_ln_h(log_h, phosphate, silicate, ammonium):
    h, step = 10.0**log_h, 1e-5
    what = solutes(4.16e-4, phosphate, silicate, ammonium)
    for function in (
        lambda x: solver.other_alkalinity(x, what),
        lambda x: solver.carbon_from_dic(x, 2e-3, K),
        lambda x: solver.carbon_from_co2(x, 1e-5, K),
        lambda x: solver.carbon_from_carbonate(x, 2e-4, K),
    ):
        up, down = function(h * math.exp(step))[0], function(h * math.exp(-step))[0]
        slope = function(h)[1]
        assert slope == pytest.approx((up - down) / (2 * step), rel=1e-5, abs=1e-10)


@given(a=st.floats(-0.05, 0.05), dic=st.floats(0.0, 0.05), boron=st.floats(0.0, 1e-3))
def test_alkalinity_and_dic_agree_with_bisection_anywhere(a, dic, boron):
    what = solutes(boron)
    found = solver.solve_dic(a, dic, what)
    expected = bisected(
        lambda h: solver.carbon_from_dic(h, dic, K)[0] + solver.other_alkalinity(h, what)[0] - a
    )
    assert found > 0
    assert math.log(found / expected) == pytest.approx(0.0, abs=1e-9)


@given(a=st.floats(-0.05, 0.05), co2=st.floats(0.0, 0.03))
def test_alkalinity_and_co2_agree_with_bisection_anywhere(a, co2):
    what = solutes()
    found = solver.solve_co2(a, co2, what)
    expected = bisected(
        lambda h: solver.carbon_from_co2(h, co2, K)[0] + solver.other_alkalinity(h, what)[0] - a
    )
    assert math.log(found / expected) == pytest.approx(0.0, abs=1e-9)


@given(a=st.floats(-0.01, 0.05), carbonate=st.floats(1e-9, 0.01))
def test_alkalinity_and_carbonate_have_the_answer_of_lower_ph_or_none(a, carbonate):
    what = solutes()

    def alkalinity(h):
        return (
            solver.carbon_from_carbonate(h, carbonate, K)[0] + solver.other_alkalinity(h, what)[0]
        )

    grid = 10.0 ** np.linspace(-14.0, 0.0, 4001)
    least = min(alkalinity(float(h)) for h in grid)
    found = solver.solve_carbonate(a, carbonate, what)
    if math.isnan(found):
        assert a < least + 1e-9
        return
    assert alkalinity(found) == pytest.approx(a, abs=1e-12 + 1e-9 * abs(a))
    above = alkalinity(found * 1.001)
    assert above >= alkalinity(found) - 1e-15, "alkalinity rises with H at the answer"


def test_newton_alone_can_reach_a_negative_content_and_the_solver_does_not():
    # Outside 0 < A < 2 C + B the cubic start is no start at all (Munhoven 2013, section 3.2.2).
    for a, dic in ((6e-3, 1e-5), (3e-2, 1e-3), (-4e-3, 2e-3), (0.0, 2e-3), (0.9, 0.0)):
        h = solver.solve_dic(a, dic, solutes())
        assert h > 0
        total = solver.carbon_from_dic(h, dic, K)[0] + solver.other_alkalinity(h, solutes())[0]
        assert total == pytest.approx(a, rel=1e-9, abs=1e-12)


def test_an_array_with_hopeless_elements_ends_and_leaves_them_nan():
    a = np.array([2.3e-3, np.nan, 2.3e-3, 1e-5])
    carbonate = np.array([2e-4, 2e-4, np.nan, 9e-4])
    h = solver.solve_carbonate(a, carbonate, solutes())
    assert np.isnan(h).tolist() == [False, True, True, True]


@pytest.fixture
def evaluations(monkeypatch):
    """Note each time that alkalinity is worked out for a content of hydrogen ion."""
    seen = []
    exact = solver.other_alkalinity

    def noting(h, what):
        seen.append(h)
        return exact(h, what)

    monkeypatch.setattr(solver, "other_alkalinity", noting)
    return seen


def reefs(size=400, seed=3):
    """Return H, alkalinity, DIC, CO2 and carbonate of waters that a reef may have, in mol/kg."""
    rng = np.random.default_rng(seed)
    h, a = 10.0 ** -rng.uniform(7.5, 8.6, size), rng.uniform(1.5e-3, 4.5e-3, size)
    dic = (a - solver.other_alkalinity(h, solutes())[0]) / solver.carbon_from_dic(h, 1.0, K)[0]
    co2 = dic / (1.0 + K.k1 / h * (1.0 + K.k2 / h))
    return h, a, dic, co2, co2 * K.k1 * K.k2 / (h * h)


@pytest.mark.parametrize(
    ("solve", "content", "usual", "most", "near"),
    [
        ("solve_dic", 2, 3, 4, 0.06),
        ("solve_co2", 3, 3, 4, 0.075),
        ("solve_carbonate", 4, 4, 5, 0.03),
    ],
)
def test_a_reef_starts_near_and_takes_three_or_four_steps(
    evaluations, solve, content, usual, most, near
):
    # Speed is built on it: each step costs as much as all else of a state. From a content of
    # carbonate, one evaluation more sees which of two answers was found.
    waters = reefs()
    needed = []
    for exact, a, x in zip(waters[0], waters[1], waters[content], strict=True):
        evaluations.clear()
        h = getattr(solver, solve)(float(a), float(x), solutes())
        assert h == pytest.approx(exact, rel=1e-12), "the last step leaves nothing"
        assert abs(math.log(evaluations[0] / h)) <= near
        needed.append(len(evaluations))
    assert max(needed) <= most
    assert sum(n <= usual for n in needed) >= 0.75 * len(needed)
    evaluations.clear()
    getattr(solver, solve)(waters[1], waters[content], solutes())
    assert len(evaluations) <= most, "an array takes as many as its slowest"


@pytest.mark.parametrize("solve", ["solve_dic", "solve_co2"])
def test_steps_alone_find_the_answer_far_outside_a_reef(evaluations, solve):
    # A search between bounds would take thirty evaluations or so.
    contents = (0.0, 1e-5, 1e-4, 1e-3, 4e-3, 2e-2, 5e-2)
    for a in (-0.05, -1e-3, 0.0, 1e-5, 4.16e-4, 1e-3, 4e-3, 2e-2, 5e-2):
        for x in contents:
            evaluations.clear()
            getattr(solver, solve)(a, x, solutes())
            assert len(evaluations) <= (9 if a else 11), (a, x)


@pytest.mark.parametrize(("solve", "content"), [("solve_dic", 2), ("solve_co2", 3)])
@pytest.mark.parametrize("missing", [slice(7, 8), slice(None)])
def test_gaps_in_an_array_cost_no_more_steps(evaluations, solve, content, missing):
    waters = reefs()
    whole = getattr(solver, solve)(waters[1], waters[content], solutes())
    steps = len(evaluations)
    evaluations.clear()
    a = waters[1].copy()
    a[missing] = np.nan
    with np.errstate(all="ignore"):
        found = getattr(solver, solve)(a, waters[content], solutes())
    # Three more: a look at both bounds and at the answer of a search for nothing.
    assert len(evaluations) <= steps + 3
    gap = np.isnan(a)
    assert np.isnan(found[gap]).all()
    assert found[~gap] == pytest.approx(whole[~gap], rel=1e-13)


def test_gaps_beside_a_content_of_carbonate_cost_two_searches_for_nothing(evaluations):
    waters = reefs()
    whole = solver.solve_carbonate(waters[1], waters[4], solutes())
    steps = len(evaluations)
    for name in ("alkalinity", "carbonate"):
        evaluations.clear()
        a, carbonate = waters[1].copy(), waters[4].copy()
        (a if name == "alkalinity" else carbonate)[7] = np.nan
        with np.errstate(all="ignore"):
            found = solver.solve_carbonate(a, carbonate, solutes())
        assert len(evaluations) <= steps + 8, name
        assert np.isnan(found).tolist() == [place == 7 for place in range(len(a))]
        assert np.delete(found, 7) == pytest.approx(np.delete(whole, 7), rel=1e-13)


@pytest.mark.parametrize("carbonate", [1e-5, 2e-4, 3e-3])
@pytest.mark.parametrize("kind", [float, lambda x: np.array([x, 2.0 * x])])
def test_just_above_the_least_alkalinity_of_a_carbonate_content_there_is_an_answer(carbonate, kind):
    def alkalinity(h):
        return (
            solver.carbon_from_carbonate(h, carbonate, K)[0]
            + solver.other_alkalinity(h, solutes())[0]
        )

    grid = 10.0 ** np.linspace(-12.0, -6.0, 60001)
    turn, least = solver.least_alkalinity(carbonate, solutes())
    assert least == pytest.approx(min(alkalinity(grid)), rel=1e-7)
    for excess in (1e-10, 1e-6, 1e-4, 1e-2):
        a = least * (1.0 + excess)
        found = np.ravel(solver.solve_carbonate(kind(a), carbonate, solutes()))[0]
        assert math.log(found) > turn
        assert alkalinity(found) == pytest.approx(a, rel=1e-12)
    assert np.ravel(solver.solve_carbonate(kind(least), carbonate, solutes()))[0] > 0.0
    for less in (least * (1.0 - 1e-10), 0.0, -1e-3):
        found = solver.solve_carbonate(kind(less), carbonate, solutes())
        assert np.isnan(np.ravel(found)[0])


def test_what_no_content_of_hydrogen_ion_has_is_said_of_ln_h():
    with pytest.raises(NoRootError, match="no ln H between"):
        solver.least_alkalinity(1e-11, solutes())
