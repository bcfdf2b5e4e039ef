"""What a dose does: hand arithmetic, what must follow, refusals, and cautions everywhere."""

from __future__ import annotations

import json
import math

import PyCO2SYS
import pytest

from reefchem.carbonate.system import carbonate_system
from reefchem.core.errors import DomainError, UnitError
from reefchem.core.quantity import quantity
from reefchem.dosing import StockSolution, dose_effect, salts
from reefchem.seawater import seawater_density

OPTIONS = {
    "opt_k_carbonic": 10,
    "opt_k_bisulfate": 1,
    "opt_total_borate": 1,
    "opt_k_fluoride": 2,
}
SODA = StockSolution({"NaHCO3": 84.006})
FORMATE = StockSolution({"Ca(HCOO)2": 130.112})
LIME = StockSolution({"Ca(OH)2": 1.5})


def test_a_dose_of_baking_soda_by_hand():
    """20 mL of 1 mol/L into 100 L: 0.2 mmol/L of Na+ and HCO3-; 22.990 and 12.011 g/mol."""
    effect = dose_effect(SODA, 20.0, volume=100.0)
    assert effect.changes["sodium"] == pytest.approx(0.2 * 22.990)
    assert effect.changes["inorganic carbon"] == pytest.approx(0.2 * 12.011)
    assert effect.alkalinity == effect.alkalinity_later == pytest.approx(0.2)
    assert effect.oxygen == 0.0


def test_formate_is_no_alkalinity_until_it_is_oxidised():
    """20 mL of 1 mol/L into 100 L: 0.2 mmol/L, two equivalents and one O2 for each."""
    effect = dose_effect(FORMATE, 20.0, volume=100.0)
    assert effect.alkalinity == 0.0
    assert effect.ph_at_once == pytest.approx(effect.ph_before, abs=1e-9)
    assert effect.alkalinity_later == pytest.approx(0.4)
    assert effect.oxygen == pytest.approx(0.2 * 31.998)
    assert effect.ph_settled > effect.ph_before


def test_acetate_counts_as_alkalinity_and_moves_no_ph():
    acetate = StockSolution({"Ca(CH3COO)2": 158.166})
    effect = dose_effect(acetate, 20.0, volume=100.0)
    assert effect.alkalinity == effect.alkalinity_later == pytest.approx(0.4)
    assert effect.ph_at_once == pytest.approx(effect.ph_before, abs=1e-9)
    assert effect.oxygen == pytest.approx(4 * 0.2 * 31.998)


def test_soda_ash_lifts_the_ph_and_settles_where_baking_soda_does():
    """The same alkalinity and the same air give the same water."""
    ash = StockSolution({"Na2CO3": 52.994})  # 1 meq/mL as well
    soft = dose_effect(SODA, 20.0, volume=100.0)
    hard = dose_effect(ash, 20.0, volume=100.0)
    assert hard.alkalinity == pytest.approx(soft.alkalinity, rel=1e-12)
    assert hard.ph_at_once > soft.ph_before > soft.ph_at_once
    assert hard.ph_settled == pytest.approx(soft.ph_settled, abs=1e-9)
    assert hard.omega_settled == pytest.approx(soft.omega_settled, rel=1e-9)
    assert hard.omega_at_outlet > soft.omega_at_outlet > soft.omega_before


def test_the_air_decides_where_it_settles():
    indoors = dose_effect(SODA, 20.0, volume=100.0, air=1000.0)
    outdoors = dose_effect(SODA, 20.0, volume=100.0, air=420.0)
    litre = seawater_density(35.0, 25.0) / 1000
    ta = 1000 * (2.67 + 0.2) / litre
    for effect, air in ((indoors, 1000.0), (outdoors, 420.0)):
        state = carbonate_system(salinity=35.0, temperature=25.0, total_alkalinity=ta, pco2=air)
        assert effect.ph_settled == pytest.approx(state.ph_total, abs=1e-9)
    assert indoors.ph_settled < outdoors.ph_settled


def test_calcium_alone_moves_saturation_and_not_the_ph():
    effect = dose_effect(StockSolution({"CaCl2": 110.978}), 20.0, volume=100.0, calcium=400.0)
    assert effect.ph_at_once == pytest.approx(effect.ph_before, abs=1e-9)
    rise = 1 + 0.2 * 40.078 / 400.0
    assert effect.omega_at_once / effect.omega_before == pytest.approx(rise, rel=1e-9)


def test_borax_brings_boron_that_buffers():
    """Alkalinity from borax is half borate; more boron in the water takes part in its balance."""
    borax = StockSolution({"Na2B4O7·10H2O": 19.06815})  # 0.05 mol/L, 0.1 meq/mL
    effect = dose_effect(borax, 100.0, volume=100.0)
    assert effect.alkalinity == pytest.approx(0.1)
    assert effect.changes["boron"] == pytest.approx(0.2 * 10.81)
    caustic = dose_effect(StockSolution({"NaOH": 3.9997}), 100.0, volume=100.0)
    assert caustic.alkalinity == pytest.approx(0.1)
    assert effect.ph_before < effect.ph_at_once < caustic.ph_at_once


def test_salinity_rises_by_the_mass_of_the_ions():
    """0.2 mmol/L of NaHCO3 are 16.80 mg/L; over 1.02334 kg/L, and 35 for 35.16504 g/kg."""
    effect = dose_effect(SODA, 20.0, volume=100.0)
    assert effect.salinity == pytest.approx(0.0168012 / 1.02334306 * 35 / 35.16504, rel=1e-5)


def test_quantities_go_in_and_come_out():
    effect = dose_effect(
        SODA,
        quantity(0.02, "L"),
        volume=quantity(100.0, "L"),
        temperature=quantity(25.0, "degC"),
        alkalinity=quantity(2.67, "meq/L"),
    )
    assert effect.alkalinity.to("meq/L").magnitude == pytest.approx(0.2)
    left_out = dose_effect(SODA, quantity(0.02, "L"), volume=quantity(100.0, "L"))
    assert left_out.ph_settled == pytest.approx(effect.ph_settled)
    with pytest.raises(UnitError, match="dose is expected in mL"):
        dose_effect(SODA, quantity(1.0, "g"), volume=quantity(100.0, "L"))


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"volume": 0.0}, "volume is 0 L; more than 0"),
        ({"volume": -1.0}, "dose_effect: volume is -1 L"),
        ({"dose": -1.0}, "dose_effect: dose is -1 mL"),
        ({"ph_total": 20.0}, "ph_total is 20; 0 to 14"),
        ({"alkalinity": float("inf")}, "alkalinity is inf meq/L"),
    ],
)
def test_impossible_doses_are_refused(change, message):
    arguments = {"dose": 20.0, "volume": 100.0, **change}
    with pytest.raises(DomainError, match=message):
        dose_effect(SODA, arguments.pop("dose"), **arguments)


@pytest.mark.parametrize("formula", [s.formula for s in salts.values() if s.signal])
def test_a_hazardous_dose_prints_its_cautions_everywhere(formula):
    grams = 0.5 if formula == "CaCO3" else 1.0
    effect = dose_effect(StockSolution({formula: grams}), 1.0, volume=100.0)
    everywhere = (effect.text(), effect.html(), json.dumps(effect.as_dict(), ensure_ascii=False))
    for hazard in salts[formula].hazards:
        assert all(hazard.code in printed for printed in everywhere)
    assert all("safety data sheet" in printed for printed in everywhere)


def test_json_has_only_numbers_that_are_numbers():
    extreme = StockSolution({"HCl": 300.0})
    effect = dose_effect(extreme, 5.0, volume=100.0)
    data = json.loads(json.dumps(effect.as_dict(), allow_nan=False))
    assert data["numbers"]["chloride"]["unit"] == "mg/L"
    if math.isnan(effect.omega_at_outlet):
        assert "saturation at the outlet" not in data["numbers"]
    else:
        assert data["numbers"]["saturation at the outlet"]["value"] == effect.omega_at_outlet


def test_a_mixture_that_is_no_seawater_has_no_ph():
    """300 g/L of HCl are 8.2 mol/L; 20 L of it in 10 L of water would be a pH below zero."""
    effect = dose_effect(StockSolution({"HCl": 300.0}), 20_000.0, volume=10.0)
    lost = (effect.ph_at_once, effect.ph_settled, effect.omega_at_once, effect.omega_settled)
    assert all(math.isnan(number) for number in lost)
    assert effect.ph_before == 8.1
    assert effect.omega_before > 1.0


def test_html_is_escaped():
    effect = dose_effect(LIME, 10.0, volume=100.0)
    assert "<script" not in effect.html()
    assert "supplier&#x27;s safety data sheet" in effect.html()


def test_ammonium_takes_part_in_what_a_dose_does_to_ph():
    # Ammonium is an acid: of 0.5 mmol/L some 7 % gives its proton away, and the pH falls.
    bottle = StockSolution({"NH4Cl": 53.491})
    effect = dose_effect(bottle, 50.0, volume=100.0, ph_total=8.1)
    assert effect.ph_at_once < effect.ph_before - 0.03
    oracle = PyCO2SYS.sys(
        par1=2.67e3 / 1.0233394,
        par2=8.1,
        par1_type=1,
        par2_type=3,
        salinity=35,
        temperature=25,
        **OPTIONS,
    )
    after = PyCO2SYS.sys(
        par1=2.67e3 / 1.0233394,
        par2=oracle["dic"],
        par1_type=1,
        par2_type=2,
        salinity=35,
        temperature=25,
        total_ammonia=500 / 1.0233394,
        **OPTIONS,
    )
    assert effect.ph_at_once == pytest.approx(float(after["pH"]), abs=1.5e-4)


@pytest.mark.parametrize(
    ("formula", "option", "acid"),
    [("KH2PO4", "total_phosphate", True), ("Na2SiO3·5H2O", "total_silicate", False)],
)
def test_acids_that_come_along_take_part_in_the_ph(formula, option, acid):
    """A mole of metasilicate is a base of two equivalents; dihydrogenphosphate is an acid."""
    bottle = StockSolution({formula: 0.1 * salts[formula].molar_mass})
    effect = dose_effect(bottle, 100.0, volume=100.0)
    assert (effect.ph_at_once < effect.ph_before) == acid
    alkalinity = 2.67e3 / 1.0233394
    options = {"par1_type": 1, "salinity": 35, "temperature": 25, **OPTIONS}
    before = PyCO2SYS.sys(par1=alkalinity, par2=8.1, par2_type=3, **options)
    after = PyCO2SYS.sys(
        par1=alkalinity + 100 * salts[formula].alkalinity / 1.0233394,
        par2=before["dic"],
        par2_type=2,
        **options,
        **{option: 100 / 1.0233394},
    )
    assert effect.ph_at_once == pytest.approx(float(after["pH"]), abs=1.5e-4)


def test_the_outlet_of_the_pump_is_fifty_parts_of_tank_water_and_one_of_the_dose():
    """Millimoles in 51 parts: 50 of the tank's, one of 1 mol/L of NaHCO3 or 0.5 mol/L of CaCl2."""
    litre = seawater_density(35.0, 25.0) / 1000
    tank = {"salinity": 35.0, "temperature": 25.0}
    before = carbonate_system(**tank, total_alkalinity=2670 / litre, ph_total=8.1)
    soda = dose_effect(SODA, 20.0, volume=100.0)
    mixed = carbonate_system(
        **tank,
        total_alkalinity=(50 * 2670 / litre + 1e6 / litre) / 51,
        dic=(50 * before.dic + 1e6 / litre) / 51,
        total_boron=before.total_boron * 50 / 51,
        calcium=before.calcium * 50 / 51,
    )
    assert soda.omega_at_outlet == pytest.approx(mixed.omega_aragonite, rel=1e-9)
    lime = dose_effect(StockSolution({"CaCl2": 55.489}), 20.0, volume=100.0, calcium=420.0)
    richer = (50 * 420.0 + 500 * 40.078) / 51 / 420.0
    thinner = carbonate_system(
        **tank,
        total_alkalinity=50 / 51 * 2670 / litre,
        dic=before.dic * 50 / 51,
        total_boron=before.total_boron * 50 / 51,
        calcium=1000 * 420.0 / 40.078 / litre,
    )
    assert lime.omega_at_outlet == pytest.approx(thinner.omega_aragonite * richer, rel=1e-9)
    unburnt = StockSolution({"Ca(HCOO)2": 65.056})
    formate = dose_effect(unburnt, 20.0, volume=100.0, calcium=420.0)
    assert formate.omega_at_outlet == pytest.approx(lime.omega_at_outlet, rel=1e-9)
