"""exp, log, sqrt, where: each follows the kind of its argument."""

from __future__ import annotations

import math

import numpy as np
import pytest
import sympy

from reefchem.core.functions import exp, is_symbolic, kelvin, log, sqrt, where
from reefchem.core.term import Apply, Choice, Symbol

FUNCTIONS = [(exp, math.exp), (log, math.log), (sqrt, math.sqrt)]


@pytest.mark.parametrize(("function", "known"), FUNCTIONS)
@pytest.mark.parametrize("value", [1e-300, 0.5, 1.0, 2.0, 37.0])
def test_every_kind_gives_what_the_float_gives(function, known, value):
    expected = known(value)
    assert type(function(value)) is float
    assert function(value) == expected
    assert function(np.float64(value)) == expected
    assert function(np.array([value])) == pytest.approx([expected], rel=1e-15)
    assert float(function(sympy.Float(value, 40))) == pytest.approx(expected, rel=1e-15)


@pytest.mark.parametrize("function", [exp, log, sqrt])
def test_integers_are_numbers(function):
    assert function(2) == function(2.0)


@pytest.mark.parametrize(("function", "name"), [(exp, "exp"), (log, "log"), (sqrt, "sqrt")])
def test_a_term_is_written_down(function, name):
    x = Symbol("x", "x")
    made = function(x)
    assert isinstance(made, Apply)
    assert (made.function, made.operand) == (name, x)


def test_where_chooses_for_every_kind():
    x = sympy.Symbol("x", real=True)
    assert where(True, 1.0, 2.0) == 1.0
    assert where(False, 1.0, 2.0) == 2.0
    assert where(np.array([True, False]), 1.0, 2.0).tolist() == [1.0, 2.0]
    assert where(np.float64(1.0) > 0.5, 1.0, 2.0) == 1.0
    chosen = where(x > 0, x, -x)
    assert [chosen.subs(x, number) for number in (-3, 3)] == [3, 3]
    assert isinstance(where(Symbol("a", "a") > 0.0, 1.0, 2.0), Choice)


def test_a_condition_that_sympy_can_decide_is_decided():
    assert where(sympy.Integer(3) > 2, 1, 2) == 1


def test_kelvins_at_zero_celsius_by_definition():
    assert kelvin(0.0) == 273.15


def test_symbols_are_told_from_numbers():
    assert is_symbolic(sympy.Symbol("x"))
    assert is_symbolic(sympy.Integer(1))
    assert not is_symbolic(1.0)
    assert not is_symbolic(np.ones(2))
