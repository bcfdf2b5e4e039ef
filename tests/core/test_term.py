"""Terms: an equation is written down as it would have been computed."""

from __future__ import annotations

import operator

import numpy as np
import pytest

from reefchem.core.term import (
    Binary,
    Comparison,
    Negative,
    Number,
    Root,
    Symbol,
    as_term,
    root_term,
)

X = Symbol("x", "x")


@pytest.mark.parametrize(
    ("sign", "function"),
    [
        ("+", operator.add),
        ("-", operator.sub),
        ("*", operator.mul),
        ("/", operator.truediv),
        ("**", operator.pow),
    ],
)
def test_operations_keep_their_order_and_the_digits(sign, function):
    left, right = function(X, 1.10), function(2, X)
    assert isinstance(left, Binary)
    assert (left.operator, left.left, left.right.value) == (sign, X, 1.1)
    assert (right.operator, right.left.value, right.right) == (sign, 2, X)


@pytest.mark.parametrize(
    ("sign", "function"),
    [("<", operator.lt), ("<=", operator.le), (">", operator.gt), (">=", operator.ge)],
)
def test_comparisons_are_written_down(sign, function):
    made = function(X, 3.0)
    assert isinstance(made, Comparison)
    assert (made.operator, made.left, made.right.value) == (sign, X, 3.0)


def test_signs():
    assert isinstance(-X, Negative)
    assert (-X).operand is X
    assert +X is X


def test_an_equation_cannot_branch():
    with pytest.raises(TypeError, match="write where"):
        max(X, 0.0)
    with pytest.raises(TypeError, match="write where"):
        bool(X > 1.0)


@pytest.mark.parametrize("value", ["2", True, None, [1.0], np.ones(2), 1j])
def test_what_is_no_number_is_no_part_of_an_equation(value):
    with pytest.raises(TypeError, match="an equation holds numbers and terms, not"):
        as_term(value)


def test_arrays_leave_the_refusal_to_the_term():
    with pytest.raises(TypeError):
        np.ones(2) * X


def test_a_numpy_number_is_kept_as_a_plain_float():
    assert type(as_term(np.float64(0.1)).value) is float
    assert repr((np.float64(0.1) * X).left.value) == "0.1"


def test_walking_goes_through_all_below_outermost_first():
    term = (X + 1.0) * 2.0
    assert [type(part).__name__ for part in term.walk()] == [
        "Binary",
        "Binary",
        "Symbol",
        "Number",
        "Number",
    ]


def test_a_root_holds_its_residual_in_its_unknown():
    root = root_term(lambda y: y - X, 0.0, 9.0, "y", r"\upsilon")
    assert isinstance(root, Root)
    assert root.residual.left is root.unknown
    assert root.unknown.latex == r"\upsilon"
    assert (root.lower.value, root.upper.value) == (0.0, 9.0)
    assert isinstance(root.parts()[2], Number)
