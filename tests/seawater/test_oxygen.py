"""Oxygen in balance with air, the air itself, and how fast they meet."""

from __future__ import annotations

import tomllib

import gsw
import numpy as np
import pytest
from conftest import PUBLISHED
from hypothesis import assume, given
from hypothesis import strategies as st

from reefchem import seawater as sw
from reefchem.core.errors import DomainError
from reefchem.seawater.oxygen import GarciaGordon1992, GarciaGordon1992Volume
from reefchem.seawater.room_air import StandardAtmosphere

SALINITIES, TEMPERATURES = np.meshgrid(np.linspace(0.0, 42.0, 22), np.linspace(-2.0, 40.0, 43))
SALINITY, TEMPERATURE = st.floats(0.0, 40.0), st.floats(0.0, 40.0)


def test_the_fit_is_that_of_teos_10_over_its_whole_range():
    ours = sw.oxygen_saturation(SALINITIES, TEMPERATURES)
    assert ours == pytest.approx(gsw.O2sol_SP_pt(SALINITIES, TEMPERATURES), rel=4e-15)


def test_the_fit_in_litres_and_the_density_give_the_fit_in_kilograms():
    inside = TEMPERATURES >= 0
    s, t = SALINITIES[inside], TEMPERATURES[inside]
    by_volume = sw.oxygen_volume_saturation(s, t)
    by_mass = sw.oxygen_saturation(s, t) * sw.seawater_density(s, t) * 1e-6
    # Two fits to the same measurements: the paper gives each a few parts in ten thousand.
    assert by_volume == pytest.approx(by_mass, rel=2e-4)


@pytest.mark.parametrize(
    ("fit", "source"),
    [
        (GarciaGordon1992(), "garcia1992"),
        (GarciaGordon1992Volume(), "garcia1992"),
        (StandardAtmosphere(), "iso1975"),
    ],
)
def test_every_coefficient_is_the_printed_one(fit, source):
    table = tomllib.loads((PUBLISHED / f"{source}.toml").read_text(encoding="utf-8"))
    printed = table["coefficients"][type(fit).__name__]
    assert {name: float(text) for name, text in printed.items()} == dict(
        zip(fit.names(), fit, strict=True)
    )


@given(salinity=SALINITY, temperature=st.floats(0.0, 39.0))
def test_warm_and_salty_water_holds_less(salinity, temperature):
    here = sw.oxygen_mass_saturation(salinity, temperature)
    assert sw.oxygen_mass_saturation(salinity, temperature + 1.0) < here
    assert sw.oxygen_mass_saturation(salinity + 1.0, temperature) < here


@given(salinity=SALINITY, temperature=TEMPERATURE)
def test_at_one_atmosphere_the_pressure_changes_nothing(salinity, temperature):
    there = sw.oxygen_saturation_at_pressure(salinity, temperature, 1013.25)
    assert there == pytest.approx(sw.oxygen_mass_saturation(salinity, temperature), rel=1e-14)
    assert sw.oxygen_percent(there, salinity, temperature, 1013.25) == pytest.approx(100.0)


def test_leaving_out_the_non_ideality_costs_little():
    # Benson and Krause (1984), eq. 13, from memory: theta per atmosphere.
    t = 25.0
    theta = 0.000975 - 1.426e-5 * t + 6.436e-8 * t * t
    vapour = sw.vapour_pressure_weiss1980(35.0, t)
    for pressure in (0.5, 0.7, 0.9):
        full = (pressure - vapour) * (1 - theta * pressure) / ((1 - vapour) * (1 - theta))
        ours = sw.oxygen_saturation_at_pressure(35.0, t, pressure * 1013.25)
        assert ours / sw.oxygen_mass_saturation(35.0, t) == pytest.approx(full, rel=4e-4)


@given(volume=st.floats(10.0, 2000.0), surface=st.floats(0.05, 3.0), velocity=st.floats(0.2, 100.0))
def test_a_measured_time_gives_back_its_velocity(volume, surface, velocity):
    time = sw.exchange_time(volume, surface, velocity)
    assert sw.transfer_velocity_from_time(volume, surface, time) == pytest.approx(velocity)
    metres = volume / 1000 / surface
    assert time == pytest.approx(metres / (velocity / 100), rel=1e-12)


@given(start=st.floats(1.0, 6.0), hours=st.floats(0.1, 30.0), time=st.floats(0.5, 40.0))
def test_two_readings_give_back_the_time(start, hours, time):
    assume(hours < 10 * time)  # later than that, nothing is left of the gap to read
    end = sw.oxygen_after(start, 6.8, hours, time)
    found = sw.exchange_time_from_recovery(start, end, 6.8, hours)
    assert found == pytest.approx(time, rel=1e-9)


def test_after_one_exchange_time_37_per_cent_of_the_gap_is_left():
    left = (6.8 - sw.oxygen_after(4.8, 6.8, 7.0, 7.0)) / 2.0
    assert left == pytest.approx(np.exp(-1))


def test_oxygen_at_rest_is_where_supply_meets_use():
    at_rest = sw.oxygen_under_respiration(6.8, 0.2, 4.0)
    assert (6.8 - at_rest) / 4.0 == pytest.approx(0.2)
    assert sw.oxygen_under_respiration(6.8, 1.0, 10.0) < 0


def test_gas_of_the_same_schmidt_number_goes_as_fast():
    assert sw.transfer_velocity_of_another_gas(5.0, 568.0, 568.0, 0.5) == 5.0
    slower = sw.transfer_velocity_of_another_gas(5.0, 400.0, 1600.0, 0.5)
    assert slower == pytest.approx(2.5)


@pytest.mark.parametrize("relation", [sw.schmidt_carbon_dioxide, sw.schmidt_oxygen])
def test_gases_spread_faster_in_warm_water(relation):
    numbers = relation(np.linspace(-2.0, 40.0, 43))
    assert (np.diff(numbers) < 0).all()


def test_schmidt_numbers_agree_with_an_older_fit():
    # Wanninkhof (1992), table A1, seawater, from memory: valid 0 to 30 degC.
    t = np.linspace(0.0, 30.0, 31)
    carbon_dioxide = 2073.1 - 125.62 * t + 3.6276 * t**2 - 0.043219 * t**3
    oxygen = 1953.4 - 128.00 * t + 3.9918 * t**2 - 0.050091 * t**3
    assert sw.schmidt_carbon_dioxide(t) == pytest.approx(carbon_dioxide, rel=0.05)
    assert sw.schmidt_oxygen(t) == pytest.approx(oxygen, rel=0.06)


def test_readings_on_both_sides_of_the_saturation_are_refused():
    with pytest.raises(DomainError, match="exchange_time_from_recovery: no finite result"):
        sw.exchange_time_from_recovery(5.0, 7.0, 6.8, 2.0)


def test_a_gap_that_grew_shows_as_a_negative_time():
    assert sw.exchange_time_from_recovery(5.0, 4.5, 6.8, 2.0) < 0


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"pressure": 50.0}, "pressure is 50 hPa; 100 to 2000"),
        ({"salinity": -1.0}, "salinity is -1; 0 or more"),
        ({"temperature": float("-inf")}, "temperature is -inf degC"),
    ],
)
def test_air_that_cannot_be_is_refused(change, message):
    given = {"salinity": 35.0, "temperature": 25.0, "pressure": 1000.0}
    with pytest.raises(DomainError, match=f"oxygen_saturation_at_pressure: {message}"):
        sw.oxygen_saturation_at_pressure(**given | change)
