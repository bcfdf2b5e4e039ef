"""What a refusal says of an argument: its value and place, and what is possible."""

from __future__ import annotations

import math

import numpy as np
import pytest

from reefchem.core.boundary import strict
from reefchem.core.errors import DomainError, RangeWarning
from reefchem.core.record import arg, relation

pytestmark = pytest.mark.usefixtures("own_relations")

INFINITY = math.inf


def made(possible, unit="g", valid=None):
    @relation(
        unit="g",
        symbol="y",
        source="millero1981",
        at="nowhere",
        mass=arg(unit, "m", valid=valid, typical=(1.0, 2.0), possible=possible),
    )
    def twice(mass):
        """Return twice a mass."""
        return 2 * mass

    return twice


@pytest.mark.parametrize(
    ("possible", "value", "said"),
    [
        ((0.0, 1.0), 1.5, "twice: mass is 1.5 g; 0 to 1 is possible"),
        ((0.0, 1.0), -0.5, "twice: mass is -0.5 g; 0 to 1 is possible"),
        ((0.0, 1.0), INFINITY, "twice: mass is inf g; 0 to 1, and finite, is possible"),
        ((0.0, INFINITY), -2.0, "twice: mass is -2 g; 0 or more is possible"),
        ((0.0, INFINITY), INFINITY, "twice: mass is inf g; 0 or more, and finite, is possible"),
        ((-INFINITY, 5.0), 6.0, "twice: mass is 6 g; 5 or less is possible"),
        ((-INFINITY, 5.0), -INFINITY, "twice: mass is -inf g; 5 or less, and finite, is possible"),
        ((-INFINITY, INFINITY), INFINITY, "twice: mass is inf g; any finite number is possible"),
        ((-INFINITY, INFINITY), -INFINITY, "twice: mass is -inf g; any finite number is possible"),
    ],
)
def test_a_refusal_says_what_is_possible(possible, value, said):
    twice = made(possible)
    with pytest.raises(DomainError) as refused:
        twice(value)
    assert str(refused.value) == said
    with pytest.raises(DomainError) as refused:
        twice(np.array([[1.0, 1.0], [1.0, value]]))
    assert str(refused.value) == said.replace(" g;", " g at [1, 1];")


def test_the_bounds_of_the_possible_are_possible():
    twice = made((0.0, 1.0))
    assert twice(np.array([0.0, 1.0])).tolist() == [0.0, 2.0]
    with pytest.raises(DomainError, match=r"mass is 1\.5 g at \[1\]; 0 to 1"):
        twice(np.array([0.0, 1.5]))


def test_a_pure_number_is_refused_without_a_unit():
    with pytest.raises(DomainError, match=r"^twice: mass is 1\.5; 0 to 1 is possible$"):
        made((0.0, 1.0), "1")(1.5)


@pytest.mark.parametrize("value", [0.5, 2.5])
def test_outside_a_source_the_warning_says_what_it_covers(value):
    twice = made((0.0, 10.0), valid=(1.0, 2.0))
    said = f"twice: mass is {value} g; the source covers 1 to 2 g"
    with pytest.warns(RangeWarning) as heard:
        assert twice(value) == 2 * value
    assert [str(w.message) for w in heard] == [f"{said}. It is used as given"]
    assert heard[0].filename == __file__
    with strict(), pytest.raises(DomainError) as refused:
        twice(value)
    assert str(refused.value) == said


@pytest.mark.parametrize("count", [3, 20000])
@pytest.mark.parametrize("bad", ["low", "high"])
def test_of_an_array_the_first_outside_is_named(count, bad):
    twice = made((0.0, 10.0), valid=(1.0, 2.0))
    values = np.full(count, 1.5)
    values[-2] = {"low": 0.25, "high": 3.75}[bad]
    values[-1] = values[-2]
    with pytest.warns(RangeWarning, match=rf"is {values[-1]:g} g at \[{count - 2}\]; the source"):
        result = twice(values)
    assert np.array_equal(result, 2 * values)


def test_bounds_and_nan_are_silent():
    twice = made((0.0, 10.0), valid=(1.0, 2.0))
    assert twice(1.0) == 2.0
    assert twice(2.0) == 4.0
    assert math.isnan(twice(math.nan))
    assert np.array_equal(twice(np.array([1.0, 2.0])), [2.0, 4.0])
    with pytest.warns(RangeWarning, match="at \\[2\\]"):
        twice(np.array([1.0, math.nan, 3.0]))


def test_a_result_never_shares_memory_with_what_came_in():
    @relation(
        unit="g", symbol="y", source="millero1981", at="nowhere", mass=arg("g", "m", typical=(1, 2))
    )
    def same(mass):
        """Return the mass."""
        return mass

    given = np.array([1.0, 2.0, 3.0])
    result = same(given)
    assert not np.may_share_memory(result, given)
    assert result.flags.writeable
    assert np.array_equal(result, given)


def test_a_constant_fills_the_shape_of_what_came_in():
    @relation(
        unit="g", symbol="y", source="millero1981", at="nowhere", mass=arg("g", "m", typical=(1, 2))
    )
    def seven(mass):
        """Return seven."""
        return 7.0

    result = seven(np.ones((2, 3)))
    assert result.shape == (2, 3)
    assert (result == 7.0).all()
    assert result.flags.writeable
