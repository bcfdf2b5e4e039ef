"""Draws, correlations and shares by hand, in the small cases that a person can follow."""

from __future__ import annotations

import math

import numpy as np
import pytest

from reefchem.core.errors import DomainError
from reefchem.dosing import rise_from_dose
from reefchem.uncertainty import simulate, uncertainty
from reefchem.uncertainty.draws import normal_draws, ranks_of_bounds

INPUTS = {"dose": (20.0, 1.0), "volume": (200.0, 10.0), "potency": (1.0, 0.1)}
CONTRARY = {("dose", "volume"): 0.9, ("volume", "potency"): 0.9, ("dose", "potency"): -0.9}


def test_of_forty_one_members_one_is_below_the_interval_and_one_above():
    """0.025, 0.5 and 0.975 of 40 steps."""
    assert ranks_of_bounds(41) == [1, 20, 39]


def test_parts_and_shares_of_a_ratio_by_hand():
    """20 mL of 1 meq/mL into 200 L are 0.1 meq/L; 5, 5 and 10 % of it are 0.005, -0.005, 0.01."""
    made = uncertainty(rise_from_dose, **INPUTS)
    assert made.value == pytest.approx(0.1, rel=1e-12)
    assert made.parts == pytest.approx({"dose": 0.005, "volume": -0.005, "potency": 0.01})
    assert made.standard == pytest.approx(math.sqrt(0.00015), rel=1e-12)
    assert made.shares == pytest.approx({"dose": 1 / 6, "volume": 1 / 6, "potency": 4 / 6})
    low, high = made.interval
    assert high - low == pytest.approx(2 * 1.959964 * made.standard, rel=1e-12)
    assert low + high == pytest.approx(0.2, rel=1e-12)
    assert made.unit == "meq/L"


def test_a_correlation_moves_shares_by_what_two_parts_have_in_common():
    """A half of 0.005 times -0.005 for each of the two, of 0.00015 - 0.000025 in all."""
    made = uncertainty(rise_from_dose, correlation={("dose", "volume"): 0.5}, **INPUTS)
    assert made.standard == pytest.approx(math.sqrt(0.000125), rel=1e-12)
    half = (0.000025 - 0.0000125) / 0.000125
    assert made.shares == pytest.approx({"dose": half, "volume": half, "potency": 0.8})


def test_where_nothing_is_uncertain_nothing_has_a_share():
    made = uncertainty(rise_from_dose, dose=20.0, volume=200.0, potency=1.0)
    assert (made.standard, dict(made.shares), dict(made.parts)) == (0.0, {}, {})
    assert made.interval == (made.value, made.value)


@pytest.mark.parametrize("way", [uncertainty, simulate])
def test_a_correlation_with_what_is_certain_changes_nothing(way):
    sure = INPUTS | {"volume": 200.0}
    pair = {("dose", "volume"): 0.5}
    alone, told = way(rise_from_dose, **sure), way(rise_from_dose, correlation=pair, **sure)
    assert np.array_equal(alone, told) if way is simulate else alone == told


def test_correlations_that_would_make_a_variance_negative_are_refused():
    inputs = {"dose": (20.0, 1.0), "volume": (200.0, 10.0), "potency": (1.0, 0.05)}
    contrary = {("dose", "volume"): 1.0, ("volume", "potency"): 1.0, ("dose", "potency"): -1.0}
    with pytest.raises(DomainError, match="rise_from_dose: these correlations cannot all hold"):
        uncertainty(rise_from_dose, correlation=contrary, **inputs)


def test_draws_are_correlated_as_asked_and_the_others_are_as_they_were():
    names = ["a", "b", "c"]
    free = normal_draws("test", names, None, 50_000, 4)
    bound = normal_draws("test", names, {("a", "c"): 0.6}, 50_000, 4)
    assert np.array_equal(free[1], bound[1])
    assert np.corrcoef(bound)[0, 2] == pytest.approx(0.6, abs=0.01)
    assert bound.std(axis=1) == pytest.approx([1.0, 1.0, 1.0], abs=0.01)
    assert abs(np.corrcoef(bound)[0, 1]) < 0.015


@pytest.mark.parametrize("coefficient", [-1.0, 1.0])
def test_complete_correlation_is_allowed(coefficient):
    draws = normal_draws("test", ["a", "b"], {("a", "b"): coefficient}, 1000, 1)
    assert draws[1] == pytest.approx(coefficient * draws[0], abs=1e-7)


@pytest.mark.parametrize("coefficient", [-1.001, 1.001, math.nan])
def test_no_correlation_is_more_than_complete(coefficient):
    with pytest.raises(DomainError, match=f"dose and volume is {coefficient}; -1 to 1"):
        uncertainty(rise_from_dose, correlation={("dose", "volume"): coefficient}, **INPUTS)


def test_three_that_contradict_each_other_cannot_be_drawn():
    with pytest.raises(DomainError, match="test: these correlations cannot all hold"):
        normal_draws("test", ["dose", "volume", "potency"], CONTRARY, 10, 0)


def test_an_argument_that_is_none_is_refused_by_name():
    with pytest.raises(TypeError, match="has no argument 'depth'; it has"):
        uncertainty(rise_from_dose, depth=(1.0, 0.1), **INPUTS)
