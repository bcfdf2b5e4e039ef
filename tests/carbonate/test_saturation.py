"""Saturation from readings, headroom, and the plume of a dose."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reefchem import carbonate
from reefchem.carbonate import carbonate_system, saturation
from reefchem.conversion import as_alkalinity
from reefchem.core.atoms import molar_mass
from reefchem.core.errors import NoRootError
from reefchem.seawater import seawater_density

WATER = {"salinity": st.floats(20.0, 40.0), "temperature": st.floats(9.0, 33.0)}


@given(
    alkalinity=st.floats(5.0, 14.0),
    calcium=st.floats(300.0, 550.0),
    ph=st.floats(7.5, 8.5),
    **WATER,
)
def test_three_readings_give_the_saturation_of_the_state(
    alkalinity, calcium, ph, salinity, temperature
):
    # Litres and milligrams are brought to kilograms and moles by another way here.
    density = seawater_density(salinity, temperature) / 1000.0
    state = carbonate_system(
        salinity=salinity,
        temperature=temperature,
        total_alkalinity=1000.0 * as_alkalinity(alkalinity, "dKH", "meq/L") / density,
        ph_total=ph,
        calcium=1000.0 * calcium / molar_mass("Ca") / density,
    )
    found = carbonate.omega_aragonite_from_ph_total(alkalinity, calcium, ph, salinity, temperature)
    assert found == pytest.approx(state.omega_aragonite, rel=1e-10)
    nbs = carbonate.convert_ph(ph, salinity, temperature, from_scale="total", to_scale="nbs")
    again = carbonate.omega_aragonite_from_ph_nbs(alkalinity, calcium, nbs, salinity, temperature)
    assert again == pytest.approx(found, rel=1e-10)


@given(
    omega=st.floats(0.5, 20.0),
    pco2=st.floats(100.0, 3000.0),
    calcium=st.floats(7e3, 1.4e4),
    **WATER,
)
def test_the_alkalinity_at_a_saturation_has_that_saturation(
    omega, pco2, calcium, salinity, temperature
):
    alkalinity = carbonate.alkalinity_at_omega_aragonite(
        omega, calcium, pco2, salinity, temperature
    )
    state = carbonate_system(
        salinity=salinity,
        temperature=temperature,
        total_alkalinity=alkalinity,
        pco2=pco2,
        calcium=calcium,
    )
    assert state.omega_aragonite == pytest.approx(omega, rel=1e-9)


@given(omega=st.floats(0.1, 30.0), calcium=st.floats(5e3, 2e4), **WATER)
def test_carbonate_at_a_saturation_is_the_inverse(omega, calcium, salinity, temperature):
    content = carbonate.carbonate_at_omega_aragonite(omega, calcium, temperature, salinity)
    found = carbonate.omega_aragonite(calcium, content, temperature, salinity)
    assert found == pytest.approx(omega, rel=1e-12)


TANK = (2400.0, 2050.0, 10284.6, 35.0, 25.0)


def test_a_plume_without_dose_is_the_tank():
    state = carbonate_system(
        salinity=35.0, temperature=25.0, total_alkalinity=2400.0, dic=2050.0, calcium=10284.6
    )
    found = carbonate.omega_aragonite_in_plume(0.0, 6e5, 0.0, *TANK)
    assert found == pytest.approx(state.omega_aragonite, rel=1e-10)


@given(share=st.floats(0.0, 2e-3), stock=st.floats(1e5, 9e5), part=st.floats(0.0, 1.0))
def test_a_plume_is_the_state_of_the_mixture(share, stock, part):
    carbon = stock * part
    mixed = carbonate_system(
        salinity=35.0,
        temperature=25.0,
        total_alkalinity=2400.0 * (1 - share) + share * stock,
        dic=2050.0 * (1 - share) + share * carbon,
        calcium=10284.6 * (1 - share),
    )
    found = carbonate.omega_aragonite_in_plume(share, stock, carbon, *TANK)
    assert found == pytest.approx(mixed.omega_aragonite, rel=1e-8)


@given(omega=st.floats(5.0, 12.0), stock=st.floats(3e5, 9e5))
def test_the_share_at_a_saturation_has_that_saturation_and_more_has_more(omega, stock):
    share = carbonate.plume_share_at_omega_aragonite(omega, stock, 0.0, *TANK)
    found = carbonate.omega_aragonite_in_plume(share, stock, 0.0, *TANK)
    assert found == pytest.approx(omega, rel=1e-8)
    more = carbonate.omega_aragonite_in_plume(1.1 * share, stock, 0.0, *TANK)
    assert more > found


def test_of_doses_of_one_strength_hydroxide_makes_the_most_saturated_plume():
    # Hydroxide turns the tank's own bicarbonate into carbonate; bicarbonate brings the least.
    hydroxide = carbonate.omega_aragonite_in_plume(1e-3, 6e5, 0.0, *TANK)
    carbonates = carbonate.omega_aragonite_in_plume(1e-3, 6e5, 3e5, *TANK)
    bicarbonate = carbonate.omega_aragonite_in_plume(1e-3, 6e5, 6e5, *TANK)
    assert bicarbonate < carbonates < hydroxide


def test_a_plume_that_never_reaches_a_saturation_is_refused():
    with pytest.raises(NoRootError, match="no share"):
        carbonate.plume_share_at_omega_aragonite(1000.0, 3e5, 0.0, *TANK)


def test_headroom_is_the_factor_to_the_limit():
    assert carbonate.saturation_headroom(3.5, 7.0) == 2.0
    assert saturation.NO_PRECIPITATION_MORAS2022 == 5.0
    assert carbonate.saturation_headroom(3.5) == 2.0, "7 is the default limit"
