"""What is left out of a call is taken as the signature on the page of the book says."""

from __future__ import annotations

import pytest

from reefchem.dosing import (
    StockSolution,
    alkalinity_change,
    all_in_one,
    calcium_reactor,
    compare_methods,
    dose_effect,
    dose_for,
    ionic_balance,
    limewater,
    two_part,
)
from reefchem.dosing.growth import skeleton

SODA = StockSolution({"NaHCO3": 80.0})


def test_a_process_that_is_left_out_has_not_happened():
    assert alkalinity_change() == 0.0


def test_a_bottle_stands_at_25_degrees_and_its_powder_is_pure_and_dry():
    told = StockSolution({"NaHCO3": 80.0}, {"NaHCO3": 1.0}, 25.0, None, {"NaHCO3": 0.0})
    assert told.temperature == SODA.temperature
    assert told.moles == SODA.moles
    assert told.density is SODA.density
    assert StockSolution.of("NaHCO3", 80.0) == told
    assert StockSolution.from_mass("NaHCO3", 40.0, 500.0) == told


def test_a_pair_is_a_litre_of_baking_soda_and_one_of_calcium_chloride():
    assert two_part() == two_part(
        calcium_salt="CaCl2·2H2O",
        alkalinity_salt="NaHCO3",
        third=(),
        potency=0.5,
        bottle=1000.0,
        magnesium_per_calcium=0.0,
        strontium_per_calcium=0.0,
        temperature=25.0,
    )


def test_an_all_in_one_is_a_litre_of_calcium_formate():
    assert all_in_one() == all_in_one(
        calcium_salt="Ca(HCOO)2",
        magnesium_salt=None,
        potency=1.0,
        bottle=1000.0,
        magnesium_per_calcium=0.0,
        temperature=25.0,
    )


def test_a_skeleton_is_calcium_carbonate():
    assert skeleton() == skeleton(0.0, 0.0)
    assert skeleton(5.0) == skeleton(5.0, 0.0)


def test_the_water_that_a_dose_falls_into_is_that_of_a_usual_tank():
    told = dose_effect(
        SODA,
        20.0,
        volume=100.0,
        salinity=35.0,
        temperature=25.0,
        alkalinity=2.67,
        ph_total=8.1,
        calcium=None,
        air=None,
    )
    assert dose_effect(SODA, 20.0, volume=100.0) == told


def test_a_dose_is_for_alkalinity():
    assert dose_for(SODA, 0.1, volume=100.0) == dose_for(SODA, 0.1, "alkalinity", volume=100.0)


def test_limewater_stands_at_25_degrees():
    tank = {"daily_uptake": 0.4, "evaporation": 1.0, "volume": 100.0}
    assert limewater(**tank) == limewater(**tank, lime_temperature=25.0)


def test_the_tank_of_a_reactor_is_at_salinity_35_and_25_degrees():
    readings = {
        "daily_uptake": 0.2,
        "volume": 200.0,
        "alkalinity": 2.8,
        "ph_total": 8.0,
        "effluent_alkalinity": 10.8,
        "effluent_ph_total": 6.4,
    }
    told = calcium_reactor(**readings, salinity=35.0, temperature=25.0)
    assert calcium_reactor(**readings) == told


def test_months_of_dosing_have_no_water_change_and_hold_the_salinity():
    left = two_part().left
    told = ionic_balance(
        left,
        daily_uptake=0.3,
        time=100.0,
        share=0.0,
        period=7.0,
        correct_salinity=True,
        salinity=35.0,
        temperature=25.0,
        cautions=(),
    )
    assert ionic_balance(left, daily_uptake=0.3, time=100.0) == told


def test_methods_are_compared_over_a_year_with_a_tenth_changed_each_week():
    tank = {"daily_uptake": 0.3, "volume": 100.0, "evaporation": 1.0}
    told = compare_methods(**tank, share=0.1, period=7.0, time=365.0, bound=0.05)
    assert compare_methods(**tank) == told


@pytest.mark.parametrize("name", ["temperature", "density", "moisture", "purity"])
def test_a_label_hands_over_what_it_is_told(name):
    given = {"temperature": 30.0, "density": 1.05, "moisture": 0.1, "purity": 0.9}[name]
    found = getattr(StockSolution.of("NaHCO3", 80.0, **{name: given}), name)
    assert found == (given if name in {"temperature", "density"} else {"NaHCO3": given})
