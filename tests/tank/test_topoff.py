"""Salinity and evaporation against a balance that is kept in kilograms, and against TEOS-10."""

from __future__ import annotations

import gsw
import pytest
from hypothesis import given
from hypothesis import strategies as st

from reefchem.seawater import pure_water_density, seawater_density
from reefchem.tank import (
    correct_salinity,
    days_to_correct_salinity,
    evaporation_drift,
    mixed_salinity,
    mixed_temperature,
    salinity_of_new_water,
    salt_for,
    salt_to_raise,
    temperature_of_new_water,
    top_off_needed,
)

SALINITY = st.floats(30.0, 38.0)
TEMPERATURE = st.floats(15.0, 32.0)
VOLUME = st.floats(20.0, 1000.0)


@given(SALINITY, TEMPERATURE, VOLUME, st.floats(0.001, 0.02), st.floats(0.5, 10.0))
def test_the_mass_of_salt_is_kept_while_water_evaporates(salinity, temperature, volume, rate, days):
    after = evaporation_drift(salinity, temperature, volume, rate * volume, days)
    before = seawater_density(salinity, temperature) * volume
    lost = pure_water_density(temperature) * rate * volume * days
    assert after * (before - lost) == pytest.approx(salinity * before, rel=1e-12)


@given(SALINITY, TEMPERATURE, VOLUME, st.floats(0.001, 0.02), st.floats(0.5, 5.0))
def test_topping_off_puts_back_what_evaporated(salinity, temperature, volume, rate, days):
    after = evaporation_drift(salinity, temperature, volume, rate * volume, days)
    kilograms = seawater_density(salinity, temperature) * volume
    kilograms -= pure_water_density(temperature) * rate * volume * days
    left = kilograms / seawater_density(after, temperature)
    needed = top_off_needed(after, salinity, temperature, left)
    assert needed == pytest.approx(rate * volume * days, rel=1e-9)


@given(SALINITY, TEMPERATURE, st.floats(5.0, 500.0))
def test_the_salt_of_a_vat_is_that_of_teos_10(salinity, temperature, volume):
    absolute = gsw.SR_from_SP(salinity)
    density = gsw.rho(absolute, gsw.CT_from_t(absolute, temperature, 0.0), 0.0)
    assert salt_for(volume, salinity, temperature) == pytest.approx(
        absolute * density * volume / 1000, rel=3e-5
    )


def test_a_moist_mix_weighs_more():
    dry = salt_for(10.0, 35.0, 25.0)
    assert salt_for(10.0, 35.0, 25.0, 0.9) == pytest.approx(dry / 0.9)


@given(st.floats(35.5, 38.0), st.floats(0.0, 30.0), VOLUME)
def test_an_exchange_ends_at_its_target(salinity, replacement, volume):
    out = correct_salinity(salinity, 35.0, replacement, volume)
    assert mixed_salinity(volume - out, salinity, out, replacement) == pytest.approx(35.0)


@given(st.floats(35.5, 38.0), VOLUME)
def test_by_mass_the_exchange_differs_by_less_than_3_percent(salinity, volume):
    """The same exchange in kilograms: salt m S, then m_out out and as many litres of water in."""
    by_volume = correct_salinity(salinity, 35.0, 0.0, volume)
    rho, rho_w = seawater_density(salinity, 25.0), pure_water_density(25.0)
    low, high = 0.0, volume
    for _ in range(80):
        out = (low + high) / 2
        left = rho * (volume - out)
        if salinity * left / (left + rho_w * out) > 35.0:
            low = out
        else:
            high = out
    assert abs(by_volume / out - 1) < 0.03


def test_waters_of_one_kind_stay_as_they_are():
    assert mixed_salinity(90.0, 35.0, 10.0, 35.0) == pytest.approx(35.0)
    assert mixed_temperature(90.0, 25.0, 10.0, 25.0) == pytest.approx(25.0)


@given(SALINITY, SALINITY, st.floats(0.1, 1.0))
def test_no_day_moves_the_salinity_further_than_the_bound(salinity, target, most):
    days = max(1, int(-(-days_to_correct_salinity(salinity, target, most) // 1)))
    assert abs(target - salinity) / days <= most * (1 + 1e-9)


@given(st.floats(28.0, 34.0), st.floats(34.0, 38.0), TEMPERATURE, VOLUME, st.floats(0.8, 1.0))
def test_the_salt_that_raises_a_salinity_is_that_of_teos_10(
    salinity, target, temperature, volume, dry
):
    """Salt before and salt added, over the mass of both, is the absolute salinity of the target."""
    added = salt_to_raise(volume, salinity, target, temperature, dry) / 1000
    before = gsw.SR_from_SP(salinity)
    density = gsw.rho(before, gsw.CT_from_t(before, temperature, 0.0), 0.0)
    mass = density * volume / 1000
    after = (before * mass + 1000 * dry * added) / (mass + added)
    assert after == pytest.approx(gsw.SR_from_SP(target), rel=2e-5)


@given(SALINITY, SALINITY, st.floats(0.05, 0.9))
def test_the_new_water_brings_a_tank_to_its_target(salinity, target, share):
    new = salinity_of_new_water(salinity, target, share)
    assert (1 - share) * salinity + share * new == pytest.approx(target, rel=1e-12)
    if new > 0:
        mixed = mixed_salinity(200.0 * (1 - share), salinity, 200.0 * share, new)
        assert mixed == pytest.approx(target, rel=1e-12)


@given(st.floats(20.0, 30.0), st.floats(18.0, 30.0), st.floats(0.05, 0.9))
def test_water_as_cold_as_it_may_be_brings_a_tank_to_the_bound(temperature, coldest, share):
    new = temperature_of_new_water(temperature, coldest, share)
    mixed = mixed_temperature(200.0 * (1 - share), temperature, 200.0 * share, max(new, -273.15))
    assert mixed == pytest.approx(coldest, abs=1e-9) or new < -273.15
