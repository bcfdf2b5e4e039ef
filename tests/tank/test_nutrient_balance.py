"""Nitrate in time against a balance that is integrated step by step, and ratios by hand."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from reefchem.core.errors import DomainError
from reefchem.tank import (
    carbon_taken_with_nitrate,
    days_to_nitrate,
    light_hours_that_hold,
    nitrate_settled,
    nitrate_taken_by_bacteria,
    phosphate_from_food,
    phosphate_taken_with_nitrate,
    share_left,
    uptake_at_hours,
    water_change_rate,
)

GAIN, RATE = st.floats(0.2, 1.5), st.floats(0.01, 0.03)


@given(st.floats(0.05, 0.5), st.floats(1.0, 30.0), st.integers(1, 20))
def test_a_steady_flow_leaves_as_much_old_water_as_the_changes(share, days, changes):
    rate = water_change_rate(share, days)
    left = 2.718281828459045 ** (-rate * days * changes)
    assert left == pytest.approx(share_left(share, float(changes)), rel=1e-9)


@given(st.floats(0.0, 2.0), st.floats(3.0, 5.0), st.floats(0.0, 0.5), GAIN, RATE)
def test_the_target_is_where_an_integrated_balance_is_after_that_time(
    level, target, fresh, gain, rate
):
    days = days_to_nitrate(level, target, fresh, gain, rate)
    made = solve_ivp(
        lambda _, c: gain - rate * (c - fresh), (0.0, days), [level], rtol=1e-10, atol=1e-12
    )
    assert made.y[0, -1] == pytest.approx(target, rel=1e-7)


def test_a_target_beyond_where_the_tank_settles_is_refused():
    assert nitrate_settled(0.0, 0.05, 0.02) == 2.5
    with pytest.raises(DomainError):
        days_to_nitrate(0.0, 5.0, 0.0, 0.05, 0.02)


@given(st.floats(4.0, 16.0), st.floats(0.2, 5.0), st.floats(0.5, 5.0))
def test_at_the_hours_that_hold_the_uptake_is_what_food_brings(hours, brought, uptake):
    held = light_hours_that_hold(hours, brought, uptake)
    assert uptake_at_hours(uptake, hours, held) == pytest.approx(brought, rel=1e-12)


@given(st.floats(0.2, 5.0), st.floats(4.0, 16.0), st.floats(0.0, 2.0))
def test_hours_of_now_leave_the_uptake_as_it_is(uptake, hours, response):
    assert uptake_at_hours(uptake, hours, hours, response) == pytest.approx(uptake, rel=1e-12)


@given(st.floats(0.1, 50.0))
def test_algae_of_the_median_make_hold_550_carbon_for_30_nitrogen_for_one_phosphorus(nitrate):
    """Atkinson and Smith (1983), abstract: 550:30:1; IUPAC 2021 abridged weights."""
    carbon = carbon_taken_with_nitrate(nitrate) / 12.011
    phosphate = phosphate_taken_with_nitrate(nitrate) / 94.970
    assert carbon / phosphate == pytest.approx(550.0, rel=1e-6)
    assert nitrate / 62.004 / phosphate == pytest.approx(30.0, rel=1e-6)


def test_carbon_for_nitrogen_by_mass():
    """550 · 12.011 over 30 · 14.007 is 15.721, by hand, and nitrate-N to nitrate 4.42664."""
    assert carbon_taken_with_nitrate(4.42664) == pytest.approx(15.7209, abs=5e-4)


def test_phosphate_of_half_a_gram_of_food():
    """5 mg of P into 180 L are 0.0277778 mg/L; times 94.970/30.974 = 3.06612 it is 0.08517."""
    assert phosphate_from_food(0.5, 0.01, 180.0) == pytest.approx(0.08517, abs=5e-6)


def test_bacteria_of_redfield_s_make_take_a_nitrate_for_each_6_6_carbon():
    """12.011 mg of carbon, all built in at 106:16, take 16/106 of 62.004 mg: 9.3591 mg."""
    assert nitrate_taken_by_bacteria(12.011, 1.0, 106 / 16) == pytest.approx(9.3591, abs=5e-5)
