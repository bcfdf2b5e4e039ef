"""Doses and days against a tank that is stepped through."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import t as student

from reefchem.dosing import days_to_change_alkalinity, rise_from_dose
from reefchem.tank import (
    alkalinity_ahead,
    alkalinity_at_end,
    alkalinity_brought,
    alkalinity_need,
    alkalinity_taken,
    alkalinity_uptake,
    bound_of_estimate,
    bound_of_reading,
    daily_dose,
    doses_in_a_day,
    need_on_the_way,
    nitrate_rise,
    nitrogen_in_food,
    phosphate_taken_with_nitrate,
    potassium_with_nitrate,
    spread_of_next_reading,
)

UPTAKE = st.floats(0.02, 0.8)
LEVEL = st.floats(1.8, 4.0)
SHARE = st.floats(0.0, 0.4)
VOLUME = st.floats(20.0, 1000.0)
POTENCY = st.floats(0.2, 2.0)


@given(UPTAKE, LEVEL, st.floats(2.0, 4.0), SHARE, st.integers(1, 21), VOLUME, POTENCY)
def test_the_dose_holds_the_target_from_change_to_change(
    rate, target, fresh, share, days, volume, potency
):
    """A tank at its target before a water change is there again before the next."""
    need = alkalinity_need(rate, target, fresh, share, float(days))
    dose = daily_dose(need, volume, potency)
    alkalinity = target + share * (fresh - target)
    for _ in range(days):
        alkalinity += dose * potency / volume - rate
    assert alkalinity == pytest.approx(target, rel=1e-9)


@given(UPTAKE, LEVEL, LEVEL, st.floats(0.05, 0.4), VOLUME, POTENCY)
def test_a_bounded_approach_arrives_and_keeps_its_bound(rate, level, target, most, volume, potency):
    exact = days_to_change_alkalinity(level, target, most)
    days = max(1, int(-(-exact // 1)))
    need = need_on_the_way(rate, level, target, float(days))
    dose = daily_dose(need, volume, potency)
    alkalinity = level
    for _ in range(days):
        before = alkalinity
        alkalinity += dose * potency / volume - rate
        assert abs(alkalinity - before) <= most * (1 + 1e-9)
    assert alkalinity == pytest.approx(target, rel=1e-9)


@given(LEVEL, SHARE, st.floats(0.0, 4.0), UPTAKE, st.floats(1.0, 60.0))
def test_uptake_and_end_are_two_readings_of_one_balance(first, share, added, rate, days):
    end = alkalinity_at_end(first, 1 - share, added, rate, days)
    assert alkalinity_uptake(first, 1 - share, added, end, days) == pytest.approx(rate, rel=1e-8)


@given(UPTAKE, st.floats(0.05, 0.5))
def test_as_many_doses_as_asked_for_raise_no_more_than_allowed(need, single):
    doses = max(1, int(-(-doses_in_a_day(need, single, 1.0) // 1)))
    assert need / doses <= single * (1 + 1e-9)


@given(UPTAKE, st.floats(1.0, 300.0))
def test_what_is_brought_and_taken_in_equal_measure_changes_nothing(rate, days):
    brought = alkalinity_brought(rate * 200.0 * days, 200.0, days)
    assert alkalinity_ahead(2.7, brought, rate, days) == pytest.approx(2.7, rel=1e-9)
    assert alkalinity_taken(rate, days) == pytest.approx(rate * days)


def test_a_daily_dose_gives_back_its_rise():
    assert rise_from_dose(daily_dose(0.25, 180.0, 0.9), 180.0, 0.9) == pytest.approx(0.25)


def test_student_s_table_gives_the_bounds():
    """Student's two-sided 95 % quantile for 10 degrees of freedom is printed as 2.228."""
    printed = 2.228
    assert student.ppf(0.975, 10) == pytest.approx(printed, abs=5e-4)
    assert bound_of_estimate(0.2, 0.01, printed) == pytest.approx(0.22228)
    assert bound_of_reading(2.7, 0.05, -printed) == pytest.approx(2.5886)


def test_errors_of_the_next_reading_add_as_squares():
    """3, 4 and 12 give 13; fully correlated errors of level and drift cancel or add."""
    assert spread_of_next_reading(0.03, 0.01, 0.0, 4.0, 0.12) == pytest.approx(0.13)
    assert spread_of_next_reading(0.04, 0.01, 1.0, 4.0, 0.0) == pytest.approx(0.0, abs=1e-12)
    assert spread_of_next_reading(0.04, 0.01, -1.0, 4.0, 0.0) == pytest.approx(0.08)


def test_potassium_and_nitrate_stand_as_their_weights():
    """39.098 to 62.004, IUPAC 2021 abridged."""
    assert potassium_with_nitrate(62.004) == pytest.approx(39.098, abs=5e-4)


def test_food_of_16_percent_nitrogen_in_protein():
    """A gram of protein holds 160 mg of nitrogen, by the factor of 6.25."""
    assert nitrogen_in_food(2.0, 0.5) == pytest.approx(160.0)


def test_algae_take_nitrate_to_phosphate_as_19_6_to_1():
    """550:30:1 by atoms is 19.6:1 by mass of the ions."""
    assert 1 / phosphate_taken_with_nitrate(1.0) == pytest.approx(19.6, abs=0.05)


def test_nitrate_rises_by_the_same_each_day():
    assert nitrate_rise(1.5, 5.0, 4.0) == pytest.approx(0.875)
