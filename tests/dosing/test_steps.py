"""Doses for a rise: bounds that are kept, refusals, and plans with their cautions."""

from __future__ import annotations

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reefchem.core.errors import DomainError
from reefchem.dosing import StockSolution, dose_effect, dose_for, dose_plan, doses_for

SODA = StockSolution({"NaHCO3": 84.006})
FORMATE = StockSolution({"Ca(HCOO)2": 130.112})


def test_a_dose_past_the_bound_is_refused_with_the_number_of_days():
    with pytest.raises(DomainError, match=r"at most 0\.178 meq/L .* divide it into 6 doses on as"):
        dose_for(SODA, 1.0, volume=100.0)
    assert dose_for(SODA, 1.0, volume=100.0, most=float("inf")) == pytest.approx(100.0)
    assert dose_for(SODA, 0.178, volume=100.0) == pytest.approx(17.8)
    with pytest.raises(DomainError, match="divide it into 2 doses"):
        dose_for(SODA, 0.1781, volume=100.0)
    with pytest.raises(DomainError, match="To go there, allow some rise"):
        dose_for(SODA, 1.0, volume=100.0, most=0.0)
    with pytest.raises(DomainError, match=r"rise is 5 mg/L of nitrate; at most 1 mg/L .* 5 doses"):
        dose_for(StockSolution({"KNO3": 50.0}), 5.0, "nitrate", volume=100.0, most=1.0)


def test_alkalinity_that_comes_along_is_bounded_as_well():
    """20 mg/L of calcium as formate are 0.499 mmol/L, so 0.998 meq/L in the end: 6 half degrees."""
    with pytest.raises(DomainError, match=r"brings \+0\.998 meq/L of alkalinity .* into 6 doses"):
        dose_for(FORMATE, 20.0, "calcium", volume=100.0)
    meant = dose_for(FORMATE, 20.0, "calcium", volume=100.0, most=20.0)
    assert meant == pytest.approx(20.0 / 40.078 * 100.0)
    half_degree = 0.178 / 2 * 40.078
    assert dose_for(FORMATE, half_degree, "calcium", volume=100.0) == pytest.approx(8.9)
    with pytest.raises(DomainError, match="into 2 doses on as many days"):
        dose_for(FORMATE, 1.001 * half_degree, "calcium", volume=100.0)
    chloride = StockSolution({"CaCl2": 110.978})
    assert dose_for(chloride, 20.0, "calcium", volume=100.0) == pytest.approx(meant)
    with pytest.raises(DomainError, match=r"brings -1 meq/L of alkalinity"):
        dose_for(StockSolution({"HCl": 5.0}), 35.45, "chloride", volume=100.0)


@pytest.mark.parametrize(
    ("of", "message"),
    [("calcium", "NaHCO3 brings no calcium"), ("KH", "of is 'KH'; known are alkalinity, sodium")],
)
def test_what_a_bottle_cannot_give_is_refused(of, message):
    with pytest.raises(DomainError, match=message):
        dose_for(SODA, 1.0, of, volume=100.0)


@pytest.mark.parametrize(
    ("rise", "volume", "message"),
    [
        (-1.0, 100.0, "dose_for: rise is -1"),
        (0.1, -100.0, "dose_for: volume is -100 L"),
        (0.1, 0.0, "dose_for: volume is 0 L; more than 0"),
    ],
)
@pytest.mark.parametrize("ask", [dose_for, doses_for])
def test_an_impossible_rise_or_volume_is_refused(ask, rise, volume, message):
    with pytest.raises(DomainError, match=message):
        ask(SODA, rise, volume=volume)


@given(rise=st.floats(1e-3, 20.0), most=st.floats(0.01, 5.0), volume=st.floats(10.0, 1000.0))
def test_steps_respect_the_bound_and_add_up(rise, most, volume):
    stock = StockSolution({"NaNO3": 84.994})
    doses = doses_for(stock, rise, "nitrate", volume=volume, most=most)
    each = doses[0] * stock.potency("nitrate") / volume
    assert each <= most * (1 + 1e-9)
    assert sum(doses) * stock.potency("nitrate") / volume == pytest.approx(rise, rel=1e-9)
    fewer = len(doses) - 1
    assert fewer == 0 or rise / fewer > most * (1 - 1e-9)


@pytest.mark.parametrize(
    ("formula", "component"),
    [
        ("NH4Cl", "ammonium"),
        ("Na2SiO3·5H2O", "silicon"),
        ("C2H5OH", "ethanol"),
        ("CH3COOH", "acetate"),
        ("KH2PO4", "phosphate"),
        ("KI", "iodide"),
    ],
)
def test_every_nutrient_can_be_dosed_to_a_rise(formula, component):
    stock = StockSolution({formula: 5.0})
    dose = dose_for(stock, 0.05, component, volume=200.0)
    assert dose_effect(stock, dose, volume=200.0).changes[component] == pytest.approx(0.05)


def test_no_bound_is_no_step():
    with pytest.raises(DomainError, match="most is 0; more than 0"):
        doses_for(SODA, 0.1, volume=100.0, most=0.0)


def test_without_a_bound_the_alkalinity_beside_decides_the_days():
    """0.998 meq/L beside the calcium: 0.998 / 0.178 = 5.6, so six days."""
    doses = doses_for(FORMATE, 20.0, "calcium", volume=100.0)
    assert len(doses) == 6
    assert sum(doses) == pytest.approx(20.0 / 40.078 * 100.0)
    assert len(doses_for(FORMATE, 20.0, "calcium", volume=100.0, most=10.0)) == 2


def test_a_plan_for_nitrate_by_hand():
    """4 mg/L in steps of 1: 1 * 180 / 62.004 = 2.9030 mmol a day; the stock has 0.19782 mmol/mL."""
    stock = StockSolution({"KNO3": 20.0})
    plan = dose_plan(stock, "nitrate", start=1.0, target=5.0, volume=180.0, most=1.0)
    assert plan.days == 4
    assert plan.dose == pytest.approx(14.675, abs=5e-4)
    assert plan.daily["nitrate"] == pytest.approx(1.0)
    assert plan.daily["potassium"] == pytest.approx(39.098 / 62.004)
    assert plan.alkalinity == 0.0


@pytest.mark.parametrize(
    ("formula", "of", "oxygen", "alkalinity"),
    [
        ("NH4Cl", "ammonium", 0.0, 0.0),
        ("Na2SiO3·5H2O", "silicon", 0.0, 2.0),
        ("C2H5OH", "ethanol", 3.0, 0.0),
        ("CH3COOH", "acetate", 2.0, 0.0),
        ("KH2PO4", "phosphate", 0.0, 0.0),
    ],
)
def test_a_plan_says_what_each_nutrient_takes_and_brings(formula, of, oxygen, alkalinity):
    """Moles of O2, and of equivalents, for a mole; balances in `test_catalogue`."""
    stock = StockSolution({formula: 5.0})
    plan = dose_plan(stock, of, start=0.0, target=0.3, volume=200.0, most=0.1)
    assert plan.days == 3
    millimoles = plan.dose * stock.moles[formula] / 200.0
    assert plan.oxygen == pytest.approx(oxygen * millimoles * 31.998)
    assert plan.alkalinity == pytest.approx(alkalinity * millimoles)
    assert any("Bacteria take oxygen" in caution for caution in plan.cautions) == (oxygen > 0)


def test_a_plan_with_a_hazard_prints_its_cautions_everywhere():
    stock = StockSolution({"KNO3": 20.0})
    plan = dose_plan(stock, "nitrate", start=1.0, target=5.0, volume=180.0, most=1.0)
    for printed in (plan.text(), plan.html(), json.dumps(plan.as_dict())):
        assert "H272" in printed
        assert "regulated precursors" in printed
        assert "Measure before each dose" in printed


@pytest.mark.parametrize("target", [1.0, 5.0])
def test_a_plan_that_does_not_go_up_is_refused(target):
    stock = StockSolution({"KNO3": 20.0})
    with pytest.raises(DomainError, match="a dose raises nitrate and takes nothing out"):
        dose_plan(stock, "nitrate", start=5.0, target=target, volume=180.0)


@pytest.mark.parametrize("days", range(1, 30))
def test_a_whole_number_of_largest_doses_takes_no_day_more(days):
    assert len(doses_for(SODA, days * 0.178, volume=100.0)) == days
    said = "To go there" if days == 1 else f"into {days} doses"
    with pytest.raises(DomainError, match=said):
        dose_for(SODA, days * 0.178 + 1e-6 * (days == 1), volume=100.0)


def test_doses_carry_and_print_the_cautions_of_the_bottle():
    doses = doses_for(StockSolution({"NaOH": 20.0}), 0.5, volume=100.0)
    assert doses == (doses[0],) * 3
    assert any("sodium hydroxide" in caution.lower() for caution in doses.cautions)
    first, *said = str(doses).splitlines()
    assert first == f"3 doses of {doses[0]:.5g} mL, one a day"
    assert [line.removeprefix("  ! ") for line in said] == list(doses.cautions)


@pytest.mark.parametrize("strength", [0.01, 20.0])
def test_doses_of_what_bacteria_burn_warn_of_their_breath(strength):
    doses = doses_for(StockSolution({"C2H5OH": strength}), 0.5, "ethanol", volume=100.0)
    assert any("Bacteria take oxygen" in caution for caution in doses.cautions)
