"""Density against EOS-80 and TEOS-10 of other authors, over their whole ranges."""

from __future__ import annotations

import gsw
import numpy as np
import pytest
import seawater
from hypothesis import given
from hypothesis import strategies as st

from reefchem.core.errors import DomainError, NoRootError, RangeWarning
from reefchem.seawater import (
    pure_water_density,
    pure_water_density_kell1975,
    pure_water_density_teos10,
    salinity_from_density,
    seawater_density,
    seawater_density_teos10,
    temperature_from_density,
)

SALINITY, TEMPERATURE = (
    a.ravel() for a in np.meshgrid(np.linspace(0, 42, 43), np.linspace(-2, 40, 43))
)
LIQUID = np.linspace(0, 40, 81)


def test_eos80_is_that_of_another_implementation():
    # seawater 3.3.5 (a port of the CSIRO library): the same equation.
    theirs = seawater.dens0(SALINITY, TEMPERATURE)
    assert seawater_density(SALINITY, TEMPERATURE) == pytest.approx(theirs, abs=5e-12, rel=0)


def test_pure_water_is_that_of_another_implementation():
    theirs = seawater.smow(LIQUID)
    assert pure_water_density(LIQUID) == pytest.approx(theirs, abs=5e-12, rel=0)


def test_kells_fit_is_the_one_typed_a_second_time():
    # From a transcription, in its printed form; at 100 °C the handbook has 958.35 (from memory).
    t90 = np.linspace(0.0, 150.0, 151)
    t = 1.00024 * t90
    above = 999.83952 + 16.945176 * t - 7.9870401e-3 * t**2 - 46.170461e-6 * t**3
    above += 105.56302e-9 * t**4 - 280.54253e-12 * t**5
    typed_again = above / (1 + 16.879850e-3 * t)
    assert pure_water_density_kell1975(t90) == pytest.approx(typed_again, abs=1e-11, rel=0)
    assert pure_water_density_kell1975(100.0) == pytest.approx(958.35, abs=0.02)


def test_teos10_is_that_of_another_implementation():
    # gsw 3.6: the same Gibbs function, with pressure left in.
    absolute = SALINITY * 35.16504 / 35
    theirs = gsw.rho_t_exact(absolute, TEMPERATURE, 0)
    assert seawater_density_teos10(SALINITY, TEMPERATURE) == pytest.approx(theirs, abs=1e-9, rel=0)
    water = gsw.rho_t_exact(0, TEMPERATURE, 0)
    assert pure_water_density_teos10(TEMPERATURE) == pytest.approx(water, abs=1e-9, rel=0)


def test_teos10_agrees_with_the_polynomial_for_ocean_models():
    # Roquet et al. (2015), 75 terms, fitted to the same Gibbs function: another equation.
    absolute = SALINITY * 35.16504 / 35
    theirs = gsw.rho(absolute, gsw.CT_from_t(absolute, TEMPERATURE, 0), 0)
    assert seawater_density_teos10(SALINITY, TEMPERATURE) == pytest.approx(theirs, abs=0.003, rel=0)


def test_eos80_is_near_teos10():
    # gsw 3.6 (TEOS-10): another equation; it differs by up to 0.01 kg/m3 at the edges.
    theirs = gsw.rho_t_exact(SALINITY * 35.16504 / 35, TEMPERATURE, 0)
    keepers = (SALINITY >= 28) & (SALINITY <= 40) & (TEMPERATURE >= 18) & (TEMPERATURE <= 30)
    difference = theirs - seawater_density(SALINITY, TEMPERATURE)
    assert np.all(np.abs(difference[keepers]) <= 0.0056)


def test_two_fits_of_pure_water_agree_to_four_parts_in_a_million():
    difference = pure_water_density(LIQUID) - pure_water_density_kell1975(LIQUID)
    assert np.all((difference > 0.001) & (difference < 0.006))


@pytest.mark.filterwarnings("ignore::reefchem.core.errors.RangeWarning")
@given(salinity=st.floats(0.01, 45.0), temperature=st.floats(-2.0, 40.0))
def test_salinity_comes_back_from_density(salinity, temperature):
    density = seawater_density(salinity, temperature)
    assert salinity_from_density(density, temperature) == pytest.approx(salinity, abs=1e-10)


@given(salinity=st.floats(25.0, 42.0), temperature=st.floats(0.1, 39.9))
def test_temperature_comes_back_from_density(salinity, temperature):
    density = seawater_density(salinity, temperature)
    there = temperature_from_density(density, salinity)
    assert seawater_density(salinity, there) == pytest.approx(density, abs=1e-10)
    assert there == pytest.approx(temperature, abs=1e-10)


@given(temperature=st.floats(0.0, 40.0), low=st.floats(0.0, 41.0), more=st.floats(0.01, 1.0))
def test_density_grows_with_salinity(temperature, low, more):
    assert seawater_density(low + more, temperature) > seawater_density(low, temperature)


def test_water_lighter_than_pure_has_no_salinity():
    asked = (
        r"salinity_from_density\(density=990\.0, temperature=25\.0\): no salinity between 0 and 50"
    )
    with pytest.raises(NoRootError, match=asked):
        salinity_from_density(990.0, 25.0)
    both = salinity_from_density(np.array([990.0, 1023.0]), 25.0)
    assert np.isnan(both[0])
    assert both[1] == pytest.approx(salinity_from_density(1023.0, 25.0), rel=1e-14)


def test_two_temperatures_may_share_a_density_below_salinity_25():
    with pytest.raises(DomainError, match="salinity is 20; 25 or more is possible"):
        temperature_from_density(1010.0, 20.0)


def test_outside_the_fit_is_said_aloud():
    with pytest.warns(RangeWarning, match="salinity is 45; the source covers 0 to 42"):
        seawater_density(45.0, 25.0)


def test_a_salinity_outside_the_fit_is_found_and_said_aloud():
    # Beyond 42 the quick way vouches for nothing, and the search says what it leans on.
    density = 1030.5
    with pytest.warns(RangeWarning, match="salinity is 44"):
        alone = salinity_from_density(density, 25.0)
    with pytest.warns(RangeWarning, match="salinity is 44"):
        beside = salinity_from_density(np.array([1023.0, density, np.nan]), 25.0)
    assert beside[1] == pytest.approx(alone, rel=1e-14)
    assert beside[0] == pytest.approx(salinity_from_density(1023.0, 25.0), rel=1e-14)
    assert np.isnan(beside[2])
