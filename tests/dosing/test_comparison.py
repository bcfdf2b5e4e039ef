"""Methods side by side: each number by hand, and the cautions of all of them."""

from __future__ import annotations

import json

import pytest

from reefchem.core.errors import DomainError
from reefchem.core.quantity import quantity
from reefchem.dosing import compare_methods, ionic_balance, two_part, water_change_for_bound

DEGREE = 0.356652
TANK = {"daily_uptake": DEGREE, "volume": 200.0, "evaporation": 3.0}


@pytest.fixture(scope="module")
def methods():
    return {method.name: method for method in compare_methods(**TANK).methods}


# For an equivalent, written out: carbon brought less 0.5 for the skeleton, O2, organic carbon.
# NaHCO3 1 C; Na2CO3 0.5; Ca(HCOO)2 1, 0.5 O2; Ca(CH3COO)2 2, 2 O2; Ca(OH)2 0;
# CaCO3 + CO2 + H2O -> Ca2+ + 2 HCO3-: 1.
BY_HAND = {
    "baking soda and calcium chloride": (0.5, 0.0, 0.0),
    "soda ash and calcium chloride": (0.0, 0.0, 0.0),
    "baking soda with a third solution": (0.5, 0.0, 0.0),
    "calcium formate": (0.5, 0.5, 1.0),
    "calcium acetate": (1.5, 2.0, 2.0),
    "limewater": (-0.5, 0.0, 0.0),
    "calcium reactor": (0.5, 0.0, 0.0),
}


def test_carbon_and_oxygen_of_every_method_by_hand(methods):
    assert set(methods) == set(BY_HAND)
    for name, (carbon_dioxide, oxygen, carbon) in BY_HAND.items():
        method = methods[name]
        assert method.carbon_dioxide == pytest.approx(DEGREE * carbon_dioxide, abs=1e-12)
        assert method.oxygen == pytest.approx(DEGREE * oxygen * 31.998)
        assert method.carbon == pytest.approx(DEGREE * carbon * 12.011)


def test_two_part_gathers_kitchen_salt_and_the_others_none(methods):
    """0.356652 mmol/L of NaCl at 58.440 g/mol are 20.843 mg/L."""
    assert methods["baking soda and calcium chloride"].salt == pytest.approx(20.843, abs=5e-4)
    assert methods["soda ash and calcium chloride"].salt == pytest.approx(20.843, abs=5e-4)
    for name in ("calcium formate", "calcium acetate", "limewater", "calcium reactor"):
        assert methods[name].salt == pytest.approx(0.0, abs=1e-12)
        assert methods[name].magnesium == pytest.approx(0.0, abs=1e-12)
        assert methods[name].water_change == pytest.approx(0.0, abs=1e-12)


def test_the_water_change_that_is_told_keeps_the_bound(methods):
    told = methods["baking soda and calcium chloride"].water_change
    long = ionic_balance(two_part().left, daily_uptake=DEGREE, time=1e5, share=told)
    assert long.change("magnesium") == pytest.approx(-0.05, rel=1e-6)
    assert told == pytest.approx(water_change_for_bound(0.05, long.replaced))


def test_limewater_carries_what_evaporation_allows():
    """1 L a day of 40.6 meq/L into 200 L is 0.203 meq/L, of 0.406 a half."""
    found = compare_methods(daily_uptake=0.406, volume=200.0, evaporation=1.0)
    lime = next(method for method in found.methods if method.name == "limewater")
    assert lime.carries == pytest.approx(0.5)
    assert lime.carbon_dioxide == pytest.approx(-0.5 * 0.203)
    full = compare_methods(daily_uptake=0.1, volume=200.0, evaporation=1.0)
    assert all(method.carries == 1.0 for method in full.methods)


def test_a_comparison_prints_the_cautions_of_every_method():
    found = compare_methods(**TANK)
    for printed in (found.text(), found.html(), json.dumps(found.as_dict(), ensure_ascii=False)):
        for said in ("H318", "H319", "do not aerate", "never pour", "suffocate", "oxygen"):
            assert said in printed


def test_a_comparison_takes_quantities_and_refuses_a_tank_that_uses_nothing():
    found = compare_methods(
        daily_uptake=quantity(DEGREE, "meq/L/day"),
        volume=quantity(200.0, "L"),
        evaporation=quantity(3.0, "L/day"),
    )
    assert found.volume.to("L").magnitude == pytest.approx(200.0)
    with pytest.raises(DomainError, match="daily_uptake is 0"):
        compare_methods(**TANK | {"daily_uptake": 0.0})
    with pytest.raises(DomainError, match="volume is 0"):
        compare_methods(**TANK | {"volume": 0.0})
