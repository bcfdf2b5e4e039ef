"""Root finding: known roots first, then any function, then what has no root."""

from __future__ import annotations

import math
from threading import Thread

import numpy as np
import pytest
import scipy.optimize
from hypothesis import given
from hypothesis import strategies as st

from reefchem.core.errors import DomainError, NoRootError
from reefchem.core.functions import exp, log
from reefchem.core.roots import find_root, newton, searching
from reefchem.core.term import Root, Symbol

SAME = {"rel": 4e-15, "abs": 0.0}

# Name, function, bracket, root in closed form.
KNOWN = [
    ("square", lambda x: x * x - 2.0, 0.0, 2.0, math.sqrt(2)),
    ("cube from far away", lambda x: x * x * x - 1e-9, -1e3, 1e9, 1e-3),
    ("exponential", lambda x: exp(x) - 5.0, -50.0, 50.0, math.log(5)),
    ("logarithm", lambda x: log(x) + 20.0, 1e-30, 1e30, math.exp(-20)),
    ("flat at the root", lambda x: (x - 3.0) * (x - 3.0) * (x - 3.0), -1.0, 8.0, 3.0),
    ("steep pole beside the root", lambda x: 1.0 / (x + 1e-6) - 1e3, 0.0, 1.0, 1e-3 - 1e-6),
    ("root at the lower bound", lambda x: x - 1.0, 1.0, 2.0, 1.0),
    ("root at the upper bound", lambda x: x - 2.0, 1.0, 2.0, 2.0),
    ("bounds in falling order", lambda x: x - 1.25, 2.0, 1.0, 1.25),
    ("zero", lambda x: x, -1.0, 3.0, 0.0),
    ("smallest numbers", lambda x: x - 1e-310, 0.0, 1.0, 1e-310),
    ("largest bracket", lambda x: x - 1e-200, 0.0, 1e308, 1e-200),
]


@pytest.mark.parametrize(
    ("function", "lower", "upper", "root"), [k[1:] for k in KNOWN], ids=[k[0] for k in KNOWN]
)
def test_a_known_root_is_found_as_float_and_as_array(function, lower, upper, root):
    flat = 1e-5 if root == 3.0 else 0.0  # a cube is zero in doubles a good way around its root
    scalar = find_root(function, lower, upper, unknown="x")
    assert type(scalar) is float
    assert scalar == pytest.approx(root, rel=4e-15 + flat, abs=0.0)
    array = find_root(function, np.full((2, 2), lower), upper, unknown="x")
    assert array == pytest.approx(np.full((2, 2), scalar), rel=4e-15 + flat, abs=0.0)


@given(
    root=st.floats(-1e3, 1e3),
    below=st.floats(1e-3, 1e3),
    above=st.floats(1e-3, 1e3),
    bend=st.floats(0.0, 5.0),
    rising=st.booleans(),
)
def test_any_monotonic_function_is_solved_as_another_solver_does(root, below, above, bend, rising):
    scale = 1 if rising else -1

    def residual(x):
        distance = x - root
        return scale * (distance + bend * distance * distance * distance)

    lower, upper = root - below, root + above
    mine = find_root(residual, lower, upper, unknown="x")
    other = scipy.optimize.brentq(residual, lower, upper, xtol=1e-300, rtol=1e-14, maxiter=1000)
    assert mine == pytest.approx(other, rel=1e-13, abs=1e-13)
    assert lower <= mine <= upper


@given(root=st.floats(-10.0, 10.0), steps=st.integers(1, 50))
def test_a_staircase_is_solved_where_it_changes_sign(root, steps):
    found = find_root(lambda x: math.floor((x - root) * steps) + 0.5, -20.0, 20.0, unknown="x")
    assert found == pytest.approx(root, rel=1e-13, abs=1e-13)


@given(exponent=st.integers(1, 25), lower=st.floats(-1e6, -1e-6), upper=st.floats(1e-6, 1e6))
def test_no_power_however_flat_makes_it_hang(exponent, lower, upper):
    calls = 0

    def residual(x):
        nonlocal calls
        calls += 1
        return (x / 1e6) ** (2 * exponent + 1)

    found = find_root(residual, lower, upper, unknown="x")
    assert lower <= found <= upper
    assert residual(found) == 0.0
    assert calls < 1200


def test_each_element_has_its_own_root():
    target = np.array([[1.0, 2.0, 3.0], [4.0, 5.0, 6.0]])
    root = find_root(lambda x: x * x - target, 0.0, 10.0, unknown="x")
    assert root == pytest.approx(np.sqrt(target), **SAME)


def test_an_array_gives_nan_only_where_there_is_no_answer():
    target = np.array([-1.0, 0.0, 4.0, np.nan, 1e9, 100.0])
    root = find_root(lambda x: x * x - target, 0.0, 10.0, unknown="x")
    assert root == pytest.approx([np.nan, 0.0, 2.0, np.nan, np.nan, 10.0], nan_ok=True, **SAME)


@pytest.mark.parametrize("bad", ["lower", "upper", "middle"])
def test_nan_anywhere_passes_through(bad):
    def residual(x):
        nan = {"lower": x == 0.0, "upper": x == 10.0, "middle": (x > 4.0) & (x < 6.0)}[bad]
        return (
            np.where(nan, np.nan, x - 5.0)
            if isinstance(x, np.ndarray)
            else (math.nan if nan else x - 5.0)
        )

    assert math.isnan(find_root(residual, 0.0, 10.0, unknown="x"))
    assert np.isnan(find_root(residual, np.zeros(3), 10.0, unknown="x")).all()


def test_an_infinite_residual_is_only_a_sign():
    def residual(x):
        return math.inf if x > 3.0 else x - 2.0

    assert find_root(residual, 0.0, 1e6, unknown="x") == pytest.approx(2.0, **SAME)


def test_an_empty_array_has_no_roots_and_no_error():
    assert find_root(lambda x: x - 1.0, np.empty(0), 2.0, unknown="x").shape == (0,)


def test_no_change_of_sign_is_said_with_the_unknown_and_the_bounds():
    with pytest.raises(NoRootError, match=r"no salinity between 0 and 45 satisfies"):
        find_root(lambda x: x + 1.0, 0.0, 45.0, unknown="salinity")


@pytest.mark.parametrize(("lower", "upper"), [(0.0, math.inf), (-1e308, 1e308)])
def test_an_interval_without_a_middle_is_refused(lower, upper):
    with pytest.raises(DomainError, match="no finite interval"):
        find_root(math.atan, lower - 1.0, upper, unknown="x")


def test_integers_are_numbers():
    assert find_root(lambda x: x - 1, 0, 2, unknown="x") == 1.0


def test_a_term_among_the_arguments_writes_the_root_down():
    made = find_root(lambda x: x - 1.0, 0.0, 2.0, unknown="x", like=(Symbol("a", "a"),))
    assert isinstance(made, Root)
    assert made.unknown.name == "x"


def test_a_symbol_among_the_arguments_is_refused():
    sympy = pytest.importorskip("sympy")
    with pytest.raises(TypeError, match="x is found by iteration"):
        find_root(lambda x: x, 0.0, 1.0, unknown="x", like=(sympy.Symbol("a"),))


def test_a_search_that_fails_leaves_no_search_under_way():
    def residual(_x):
        assert searching.get()
        raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        find_root(residual, 0.0, 1.0, unknown="x")
    assert not searching.get()


def test_a_search_in_one_thread_is_none_in_another():
    seen = []

    def residual(x):
        thread = Thread(target=lambda: seen.append(searching.get()))
        thread.start()
        thread.join()
        return x - 0.5

    find_root(residual, 0.0, 1.0, unknown="x")
    assert not any(seen)


def square_root(of, start=1.0, upper=10.0):
    """Return the root by Newton's correction, held between 0 and a bound."""
    return newton(lambda x: (x * x - of) / (2 * x), start, 0.0, upper)


@given(of=st.floats(0.01, 99.0))
def test_newton_finds_what_the_bracket_finds(of):
    slow = find_root(lambda x: x * x - of, 0.0, 10.0, unknown="x")
    fast = square_root(of, start=(1 + of) / 10)
    assert fast == pytest.approx(slow, **SAME)
    assert square_root(np.array([of, of]), start=np.full(2, (1 + of) / 10)) == pytest.approx(
        [slow, slow], **SAME
    )


def test_newton_vouches_for_nothing_outside_its_bounds():
    assert math.isnan(square_root(200.0))
    assert math.isnan(square_root(4.0, start=-1.0))
    both = square_root(np.array([4.0, 200.0]), start=np.ones(2))
    assert both == pytest.approx([2.0, math.nan], nan_ok=True)


def test_one_start_serves_many_elements():
    of = np.array([4.0, 9.0, np.nan])
    assert square_root(of) == pytest.approx([2.0, 3.0, math.nan], nan_ok=True, **SAME)


def test_newton_gives_up_where_corrections_lead_in_circles():
    def circling(x):
        return (x * x * x - 2 * x + 2) / (3 * x * x - 2)

    assert math.isnan(newton(circling, 1.0, -5.0, 5.0))
    assert np.isnan(newton(circling, np.array([1.0]), -5.0, 5.0)).all()


def test_what_the_quick_way_leaves_is_searched_for():
    of = np.array([4.0, 200.0, np.nan])
    calls = []

    def residual(x):
        calls.append(x)
        return x * x - of

    found = find_root(
        residual, np.zeros(3), 20.0, unknown="x", like=(of,), quick=lambda: square_root(of, of / 4)
    )
    assert found == pytest.approx([2.0, math.sqrt(200.0), math.nan], nan_ok=True, **SAME)
    assert calls
    assert find_root(
        lambda x: x * x - 200.0, 0.0, 20.0, unknown="x", quick=lambda: float("nan")
    ) == pytest.approx(math.sqrt(200.0), **SAME)
