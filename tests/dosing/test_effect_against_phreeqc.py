"""Doses into seawater against PHREEQC with its Pitzer database, another author's equilibrium.

The water is the reference composition at salinity 35 and 25 °C, made neutral by sodium. PHREEQC
gets the same totals of every ion, the same inorganic carbon and boron, and finds its own pH from
the charge balance. Its pH is on another scale, so changes are compared.
"""

from __future__ import annotations

from functools import cache

import phreeqpython
import pytest

from reefchem.dosing import StockSolution, dose_effect
from reefchem.dosing.tank_water import Water
from reefchem.seawater import seawater_density
from reefchem.seawater.reference_composition import composition

LITRE = seawater_density(35.0, 25.0) / 1000
ALKALINITY, PH = 2.8, 8.1
WATER = Water(35.0, 25.0, ALKALINITY, PH, None)
PHREEQC = {
    "sodium": "Na",
    "magnesium": "Mg",
    "calcium": "Ca",
    "potassium": "K",
    "chloride": "Cl",
    "sulfate": "S(6)",
}
CHARGE = {"sodium": 1, "magnesium": 2, "calcium": 2, "potassium": 1, "chloride": -1, "sulfate": -2}
FRESH = 1 - 0.03516504
"""Kilograms of water in a kilogram of seawater."""
VOLUME = 100.0

ADDED = {
    "NaHCO3": {"NaHCO3": 1},
    "Na2CO3": {"Na2CO3": 1},
    "NaOH": {"NaOH": 1},
    "Ca(OH)2": {"Ca(OH)2": 1},
    "CaCl2": {"CaCl2": 1},
    "HCl": {"HCl": 1},
    "MgSO4·7H2O": {"MgSO4": 1},
}


@cache
def engine():
    return phreeqpython.PhreeqPython(database="pitzer.dat")


def seawater():
    """Return a kilogram of water with the salts that go with it, as PHREEQC sees it."""
    amounts = composition(35.0).amounts
    totals = {name: amounts[name] for name in PHREEQC}
    totals["calcium"] = WATER.calcium_content * 1e-6 + amounts["strontium"]
    totals["chloride"] += amounts["bromide"] + amounts["fluoride"]
    start = WATER.state()
    charge = sum(CHARGE[name] * amount for name, amount in totals.items())
    totals["sodium"] += start.total_alkalinity * 1e-6 - charge
    raw = {PHREEQC[name]: f"{amount / FRESH:.14e}" for name, amount in totals.items()}
    raw["B"] = f"{start.total_boron * 1e-6 / FRESH:.14e}"
    raw["C(4)"] = f"{start.dic * 1e-6 / FRESH:.14e}"
    return engine().add_solution({"temp": "25", "units": "mol/kgw", "pH": "8.1 charge", **raw})


def dosed(formulas, millimoles_in_a_litre):
    water = seawater()
    before = water.pH
    for formula, count in formulas.items():
        water.add(formula, count * millimoles_in_a_litre / LITRE / FRESH)  # mmol to a kg of water
    return before, water


def strength(formula, effect):
    """Return the millimoles in a litre that a dose made."""
    solution = {"Ca(OH)2": 1.0, "NaOH": 20.0, "HCl": 5.0}.get(formula, 40.0)
    stock = StockSolution({formula: solution})
    return stock, stock.moles[formula] * effect / VOLUME


@pytest.mark.parametrize("formula", ADDED)
@pytest.mark.parametrize("dose", [20.0, 200.0])
def test_ph_moves_as_phreeqc_says(formula, dose):
    stock, millimoles = strength(formula, dose)
    effect = dose_effect(stock, dose, volume=VOLUME, alkalinity=ALKALINITY, ph_total=PH)
    before, water = dosed(ADDED[formula], millimoles)
    assert effect.ph_at_once - PH == pytest.approx(water.pH - before, abs=0.02)


@pytest.mark.parametrize("formula", ADDED)
def test_every_total_is_the_one_that_phreeqc_holds(formula):
    stock, millimoles = strength(formula, 100.0)
    effect = dose_effect(stock, 100.0, volume=VOLUME, alkalinity=ALKALINITY, ph_total=PH)
    _, start = dosed({}, 0.0)
    _, water = dosed(ADDED[formula], millimoles)
    for name, element in {**PHREEQC, "sulfate": "S", "inorganic carbon": "C"}.items():
        change = water.total_element(element) - start.total_element(
            element
        )  # mmol in a kg of water
        ours = stock.component_moles.get(name, 0.0) * 100.0 / VOLUME / LITRE / FRESH
        assert change == pytest.approx(ours, abs=2e-9 * start.total_element(element) + 1e-9)
    assert set(effect.changes) == set(stock.components)


def test_formate_is_inert_until_it_is_oxidised():
    stock = StockSolution({"Ca(HCOO)2": 65.056})
    dose = 50.0
    effect = dose_effect(stock, dose, volume=VOLUME, alkalinity=ALKALINITY, ph_total=PH)
    millimoles = stock.moles["Ca(HCOO)2"] * dose / VOLUME
    before, inert = dosed({"CaCl2": 1}, millimoles)  # chloride stands for an ion that does nothing
    assert effect.ph_at_once == pytest.approx(PH, abs=1e-9)
    assert inert.pH - before == pytest.approx(0.0, abs=0.02)


@pytest.mark.parametrize(
    ("formula", "grams", "oxidised"),
    [
        ("Ca(HCOO)2", 65.056, {"CaCO3": 1, "CO2": 1}),
        ("Ca(CH3COO)2", 79.083, {"CaCO3": 1, "CO2": 3}),
    ],
)
def test_oxidised_carbon_moves_ph_as_phreeqc_says(formula, grams, oxidised):
    """Before the air has had its say: all carbon still in the water."""
    from reefchem.carbonate.system import carbonate_system  # noqa: PLC0415 - the same engine, by hand

    stock = StockSolution({formula: grams})
    dose = 10.0
    millimoles = stock.moles[formula] * dose / VOLUME
    start = WATER.state()
    carbon = 1000 * millimoles * sum(oxidised.values()) / LITRE
    ours = carbonate_system(
        salinity=35.0,
        temperature=25.0,
        total_alkalinity=start.total_alkalinity + 2000 * millimoles / LITRE,
        dic=start.dic + carbon,
    )
    before, water = dosed(oxidised, millimoles)
    assert ours.ph_total - PH == pytest.approx(water.pH - before, abs=0.02)
    effect = dose_effect(stock, dose, volume=VOLUME, alkalinity=ALKALINITY, ph_total=PH)
    assert effect.alkalinity_later == pytest.approx(2 * millimoles, rel=1e-12)


def test_limewater_saturates_where_phreeqc_says():
    """Another author's solubility: 0.0201 mol/kg, 1 % below the abstract's 0.0203."""
    from reefchem.dosing import limewater_concentration, limewater_ph  # noqa: PLC0415

    water = engine().add_solution({"temp": "25", "units": "mol/kgw", "pH": "7 charge"})
    water.equalize(["Portlandite"], [0])
    assert water.total_element("Ca") / 1000 == pytest.approx(
        limewater_concentration(25.0), abs=4e-4
    )
    assert water.pH == pytest.approx(limewater_ph(25.0), abs=0.03)
