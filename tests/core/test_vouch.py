"""What a source vouches for of a result: said once, and never in the way."""

from __future__ import annotations

import warnings

import numpy as np
import pytest
import sympy

from reefchem.core.boundary import strict
from reefchem.core.errors import DomainError, RangeWarning
from reefchem.core.roots import searching
from reefchem.core.term import Symbol
from reefchem.core.vouch import vouched

WHAT = "some_relation: the salinity"


@pytest.mark.parametrize("value", [2.0, 42.0, 2.0 - 1e-9, float("nan"), np.array([3.0, np.nan])])
def test_what_is_inside_is_given_in_silence(value):
    assert vouched(value, 2.0, 42.0, what=WHAT) is value


@pytest.mark.parametrize("value", [1.5, np.array([3.0, 1.5])])
def test_what_is_outside_is_given_all_the_same(value):
    with pytest.warns(RangeWarning, match=r"the salinity is 1\.5; the source covers 2 to 42"):
        assert vouched(value, 2.0, 42.0, what=WHAT) is value


def test_what_is_outside_is_refused_by_those_who_ask_for_it():
    with strict(), pytest.raises(DomainError, match="some_relation: the salinity is 43"):
        vouched(43.0, 2.0, 42.0, what=WHAT)


@pytest.mark.parametrize("value", [np.array([]), np.array([np.nan, np.nan])])
def test_an_array_without_numbers_is_given_in_silence(value):
    assert vouched(value, 2.0, 42.0, what=WHAT) is value


@pytest.mark.parametrize("value", [Symbol("S", "S"), sympy.Symbol("S")])
def test_what_is_to_be_printed_is_left_alone(value):
    assert vouched(value, 2.0, 42.0, what=WHAT) is value


def test_trial_values_of_a_search_draw_no_warning():
    token = searching.set(True)
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error")
            assert vouched(1.0, 2.0, 42.0, what=WHAT) == 1.0
            assert vouched(np.array([1.0]), 2.0, 42.0, what=WHAT) == [1.0]
    finally:
        searching.reset(token)
