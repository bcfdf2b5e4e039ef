"""A tank and its air: balances, exchange, and a day that repeats itself."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from PyCO2SYS import sys as co2sys
from scipy.integrate import solve_ivp

from reefchem.carbonate import (
    air_of_tank,
    alkalinity_from_ph_and_dic,
    approach,
    blended_air,
    carbon_exchange_time,
    carbonate_system,
    co2_exchange_time,
    co2_partial_pressure,
    daily_swing,
    dic_per_co2,
    dry_air_reading,
    lime_used_on_air,
    pco2_above_air,
    ph_in_air,
    room_air,
)
from reefchem.core.errors import DomainError
from reefchem.seawater import oxygen_saturation

HERE = {"salinity": 35.0, "temperature": 25.0}
ORACLE = {
    "opt_k_carbonic": 10,
    "opt_k_bisulfate": 1,
    "opt_k_fluoride": 1,
    "opt_total_borate": 1,
}
TANK = {
    **HERE,
    "total_alkalinity": 2788.0,
    "air": 700.0,
    "respiration": 8.0,
    "photosynthesis": 18.0,
    "light_hours": 10.0,
    "oxygen_time": 2.0,
}


# -- balance with air -----------------------------------------------------------------------------


@pytest.mark.parametrize("alkalinity", [2000.0, 2788.0, 4200.0])
@pytest.mark.parametrize("air", [400.0, 800.0, 2000.0])
@pytest.mark.parametrize(("salinity", "temperature"), [(35.0, 25.0), (30.0, 20.0), (38.0, 30.0)])
def test_ph_in_air_is_that_of_an_independent_program(alkalinity, air, salinity, temperature):
    # PyCO2SYS has its own vapour pressure (Weiss and Price 1980) behind the dry mole fraction.
    oracle = co2sys(
        par1=alkalinity,
        par2=air,
        par1_type=1,
        par2_type=9,
        salinity=salinity,
        temperature=temperature,
        **ORACLE,
    )
    ours = ph_in_air(alkalinity, air, salinity, temperature)
    assert ours == pytest.approx(float(oracle["pH_total"]), abs=6e-4)


@given(alkalinity=st.floats(1500.0, 5000.0), air=st.floats(200.0, 5000.0), t=st.floats(10.0, 32.0))
def test_the_air_of_a_tank_in_balance_is_its_air(alkalinity, air, t):
    ph = ph_in_air(alkalinity, air, 35.0, t)
    assert air_of_tank(ph, alkalinity, 35.0, t) == pytest.approx(air, rel=1e-8)


def test_one_formula_and_the_solver_agree_on_a_tank_in_balance():
    pco2 = co2_partial_pressure(900.0, 25.0, 35.0)
    state = carbonate_system(**HERE, total_alkalinity=2788.0, pco2=pco2)
    assert ph_in_air(2788.0, 900.0, 35.0, 25.0) == pytest.approx(state.ph_total, abs=1e-9)


def test_doubling_the_room_costs_about_a_quarter_of_a_unit():
    # Ocean-acidification rule of thumb is 0.3 for twice the pressure; exact by PyCO2SYS above.
    step = ph_in_air(2788.0, 420.0, 35.0, 25.0) - ph_in_air(2788.0, 840.0, 35.0, 25.0)
    assert 0.22 < step < 0.30


def test_dry_air_holds_a_larger_share_than_moist_air():
    # Vapour of 0.0313 atm at 25 °C, Weiss and Price: 60 % of it takes 1.88 % of the room.
    assert dry_air_reading(800.0, 25.0, 60.0) == pytest.approx(800 / (1 - 0.6 * 0.0313), abs=0.3)
    assert dry_air_reading(800.0, 25.0, 0.0) == 800.0


def test_a_room_at_rest_by_hand():
    # 36 L/h into 50 m3/h are 0.72 L in each m3: 720 ppm on top.
    assert room_air(420.0, 36.0, 50.0) == pytest.approx(1140.0)
    assert room_air(420.0, 36.0, 100.0) == pytest.approx(780.0)


@given(share=st.floats(0.0, 1.0))
def test_an_air_line_lies_between_room_and_line(share):
    assert 420.0 - 1e-9 <= blended_air(1200.0, 420.0, share) <= 1200.0


def test_lime_by_hand():
    # 100 L/h of 1000 ppm are 2.4 L of CO2 a day; 24.465 L/mol at 25 °C; 74.092 g/mol.
    assert lime_used_on_air(100.0, 1000.0, 25.0) == pytest.approx(2.4 / 24.465 * 74.092, rel=1e-4)


# -- exchange -------------------------------------------------------------------------------------


@given(
    start=st.floats(-10.0, 2000.0),
    end=st.floats(0.0, 2000.0),
    first=st.floats(0.0, 30.0),
    second=st.floats(0.0, 30.0),
    tau=st.floats(0.5, 50.0),
)
def test_two_stretches_of_time_are_one_long_one(start, end, first, second, tau):
    halfway = approach(start, end, first, tau)
    at_once = approach(start, end, first + second, tau)
    assert approach(halfway, end, second, tau) == pytest.approx(at_once, rel=1e-9, abs=1e-8)


def test_half_the_gap_is_gone_after_0_69_time_constants():
    assert approach(1000.0, 400.0, 2.0 * 0.693147, 2.0) == pytest.approx(700.0, abs=1e-3)


@pytest.mark.parametrize("dic", [1900.0, 2000.0, 2200.0])
def test_carbon_per_co2_is_the_slope_of_an_independent_program(dic):
    sides = [
        co2sys(par1=2300.0, par2=dic + step, par1_type=1, par2_type=2, **HERE, **ORACLE)
        for step in (-0.5, 0.5)
    ]
    slope = 1.0 / (float(sides[1]["aqueous_CO2"]) - float(sides[0]["aqueous_CO2"]))
    ph = carbonate_system(**HERE, total_alkalinity=2300.0, dic=dic).ph_total
    assert dic_per_co2(ph, dic, 35.0, 25.0) == pytest.approx(slope, rel=1e-3)


@given(ph=st.floats(7.4, 8.5), dic=st.floats(1500.0, 4500.0))
def test_carbon_per_co2_is_the_buffer_factor_of_the_state(ph, dic):
    state = carbonate_system(**HERE, ph_total=ph, dic=dic)
    expected = state.gamma_dic / state.co2
    # The state also counts how hydrogen fluoride and hydrogen sulfate shift: 2e-5 at most.
    assert dic_per_co2(ph, dic, 35.0, 25.0) == pytest.approx(expected, rel=2e-5)


def test_carbon_dioxide_is_a_little_slower_than_oxygen_and_carbon_much():
    # Wanninkhof (2014), table 1, at 20 °C: Sc 668 and 568.
    gas = co2_exchange_time(3.0, 20.0)
    assert gas == pytest.approx(3.0 * (668 / 568) ** 0.5, abs=0.002)
    assert carbon_exchange_time(gas, 19.0) == pytest.approx(19.0 * gas)


# -- a day ----------------------------------------------------------------------------------------


def test_without_light_the_tank_stands_where_respiration_and_air_meet():
    day = daily_swing(**{**TANK, "photosynthesis": 0.0, "respiration": 3.0})
    above = pco2_above_air(3.0, co2_exchange_time(2.0, 25.0), 35.0, 25.0)
    expected = co2_partial_pressure(700.0, 25.0, 35.0) + above
    assert day.pco2 == pytest.approx(np.full(len(day.pco2), expected), rel=1e-6)
    assert day.oxygen == pytest.approx(np.full(len(day.oxygen), day.oxygen_saturation - 6.0))


def test_a_tank_that_does_nothing_stays_in_balance_with_its_air():
    day = daily_swing(**{**TANK, "photosynthesis": 0.0, "respiration": 0.0})
    still = ph_in_air(2788.0, 700.0, 35.0, 25.0)
    assert day.ph_total == pytest.approx(np.full(len(day.ph_total), still), abs=1e-6)


@pytest.mark.parametrize("change", [{}, {"oxygen_time": 8.0}, {"air": 420.0}, {"light_hours": 6.0}])
def test_the_day_is_that_of_an_independent_integrator(change):
    given_tank = {**TANK, **change}
    day = daily_swing(**given_tank)
    gas_time = co2_exchange_time(given_tank["oxygen_time"], 25.0)
    pco2 = co2_partial_pressure(given_tank["air"], 25.0, 35.0)
    held = float(carbonate_system(**HERE, total_alkalinity=2788.0, pco2=pco2).co2)
    saturation = oxygen_saturation(35.0, 25.0)

    def slopes(_, y, light):
        co2 = carbonate_system(**HERE, total_alkalinity=2788.0, dic=float(y[0])).co2
        net = given_tank["respiration"] - light * given_tank["photosynthesis"]
        return [
            net + (held - co2) / gas_time,
            -net + (saturation - y[1]) / given_tank["oxygen_time"],
        ]

    lit = given_tank["light_hours"]
    exact = {"method": "DOP853", "rtol": 1e-10, "atol": 1e-9}
    dusk = solve_ivp(slopes, (0.0, lit), [day.dic[0], day.oxygen[0]], args=(1.0,), **exact)
    dawn = solve_ivp(slopes, (lit, 24.0), dusk.y[:, -1], args=(0.0,), **exact)
    at_dusk = np.argmin(np.abs(day.hour - lit))
    assert day.dic[at_dusk] == pytest.approx(dusk.y[0, -1], abs=1e-5)
    assert day.oxygen[at_dusk] == pytest.approx(dusk.y[1, -1], abs=1e-6)
    assert dawn.y[0, -1] == pytest.approx(day.dic[0], abs=1e-5)
    assert dawn.y[1, -1] == pytest.approx(day.oxygen[0], abs=1e-6)


@given(
    respiration=st.floats(0.0, 15.0),
    surplus=st.floats(-2.0, 2.0),
    air=st.floats(350.0, 1500.0),
    tau=st.floats(0.3, 6.0),
)
def test_carbon_balances_and_alkalinity_stays(respiration, surplus, air, tau):
    photosynthesis = max(respiration * 2.0 + surplus, 0.0)
    day = daily_swing(
        **{
            **TANK,
            "respiration": respiration,
            "photosynthesis": photosynthesis,
            "light_hours": 12.0,
            "air": air,
            "oxygen_time": tau,
        },
        steps_per_hour=4,
    )
    assert day.dic[-1] == pytest.approx(day.dic[0], abs=1e-6)
    assert day.respired - day.fixed + day.invaded == pytest.approx(0.0, abs=1e-6)
    alkalinity = alkalinity_from_ph_and_dic(day.ph_total, day.dic, 35.0, 25.0)
    assert alkalinity == pytest.approx(np.full(len(day.dic), 2788.0), abs=1e-4)


def test_more_movement_narrows_the_day_and_ends_at_the_air():
    still, moved, stormy = (daily_swing(**{**TANK, "oxygen_time": tau}) for tau in (8.0, 2.0, 0.05))
    in_air = ph_in_air(2788.0, 700.0, 35.0, 25.0)
    reach = [max(abs(d.ph_total - in_air)) for d in (still, moved, stormy)]
    assert reach[0] > reach[1] > reach[2]
    assert reach[2] < 0.02


def test_ph_is_lowest_at_dawn_and_oxygen_with_it():
    day = daily_swing(**TANK)
    assert day.lowest_ph == day.ph_total[0]
    assert np.argmin(day.oxygen) in (0, len(day.oxygen) - 1)
    assert day.hour[np.argmax(day.ph_total)] == pytest.approx(10.0)


def test_a_smaller_step_changes_nothing_that_can_be_read():
    coarse, fine = (daily_swing(**TANK, steps_per_hour=n) for n in (2, 24))
    assert coarse.lowest_ph == pytest.approx(fine.lowest_ph, abs=1e-6)
    assert coarse.highest_ph == pytest.approx(fine.highest_ph, abs=1e-6)


@pytest.mark.parametrize("hours", [0.0, 24.0])
def test_a_day_may_be_all_dark_or_all_light(hours):
    day = daily_swing(**{**TANK, "light_hours": hours, "photosynthesis": 8.0})
    assert day.ph_total == pytest.approx(np.full(len(day.ph_total), day.ph_total[0]), abs=1e-5)


def test_more_photosynthesis_than_carbon_is_refused():
    with pytest.raises(DomainError, match="photosynthesis is 400"):
        daily_swing(**{**TANK, "photosynthesis": 400.0})


def test_a_step_of_no_length_is_refused():
    with pytest.raises(DomainError, match="1 or more"):
        daily_swing(**TANK, steps_per_hour=0)


def test_a_day_carries_its_units():
    day = daily_swing(**TANK)
    assert str(day.quantity("oxygen").units) == "micromole / kilogram"
