"""Where recipes, bottles and the catalogue say no, and with which numbers."""

from __future__ import annotations

import re

import numpy as np
import PyCO2SYS
import pytest

from reefchem.carbonate.system import carbonate_system
from reefchem.core.errors import DomainError
from reefchem.dosing import (
    StockSolution,
    alkalinity_change,
    all_in_one,
    calcium_reactor,
    most_that_dissolves,
    salts,
    two_part,
)
from reefchem.dosing.bottle import GYPSUM
from reefchem.dosing.catalogue import UnknownSaltError
from reefchem.seawater import seawater_density


@pytest.mark.parametrize(("potency", "bottle"), [(0.0, 1e3), (100.0, 1e3), (1.0, 0.0), (1.0, 1e6)])
@pytest.mark.parametrize("recipe", [all_in_one, two_part])
def test_bounds_of_potency_and_bottle_are_refused(recipe, potency, bottle):
    said = rf"{recipe.__name__}: potency is {potency} meq/mL, bottle {bottle} mL"
    with pytest.raises(DomainError, match=said):
        recipe(potency=potency, bottle=bottle)


def test_just_inside_the_bounds_something_else_decides():
    assert all_in_one(potency=1e-9, bottle=999_999.0).bottle == 999_999.0
    with pytest.raises(DomainError, match="does not dissolve"):
        all_in_one(potency=99.999)


@pytest.mark.parametrize(
    ("process", "change"),
    [
        ("calcium_carbonate_formed", -2.0),
        ("ammonium_oxidised", -2.0),
        ("nitrate_reduced", 1.0),
        ("nitrate_assimilated", 1.0),
        ("ammonium_assimilated", -1.0),
        ("phosphate_assimilated", 1.0),
    ],
)
def test_one_process_alone_changes_the_alkalinity_by_its_protons(process, change):
    # Wolf-Gladrow et al. (2007), table 2: equivalents for a mole of each.
    assert alkalinity_change(**{process: 1.0}) == change
    assert alkalinity_change(**{process: 0.25}) == change / 4


def test_a_mixture_past_saturation_is_told_by_how_much():
    # Calcium formate beside sodium formate: excess = c(Ca)/s * (c(HCOO)/(2 s))**2.
    limit = most_that_dissolves("Ca(HCOO)2", 25.0)
    assert limit is not None
    calcium, sodium = 100.0, 200.0  # g/L
    with pytest.raises(DomainError, match=r"would fall out of this mixture at 25 degC") as refused:
        StockSolution({"Ca(HCOO)2": calcium, "HCOONa": sodium})
    said = float(re.search(r"its ions are ([0-9.e+]+) times", str(refused.value))[1])
    moles = calcium / salts["Ca(HCOO)2"].molar_mass
    formate = 2 * moles + sodium / salts["HCOONa"].molar_mass
    ratio = (moles / limit) * (formate / (2 * limit)) ** 2
    assert said == pytest.approx(ratio, rel=0.25), "per litre and per kilogram of water differ"
    share = float(re.search(r"Dilute to ([0-9]+) %", str(refused.value))[1])
    assert share == pytest.approx(100 / said ** (1 / 3), abs=1.0)
    StockSolution({"Ca(HCOO)2": calcium * share / 100, "HCOONa": sodium * share / 100})


@pytest.mark.parametrize("salt", [s for s in salts.values() if s.solubility], ids=str)
def test_a_refusal_says_where_the_solubility_is_from(salt):
    with pytest.raises(DomainError) as refused:
        StockSolution({salt.formula: 5000.0})
    said = str(refused.value)
    if salt.solubility.source in said:
        assert ("from memory" in said) == (salt.solubility.read == "memory")


def test_neighbours_of_an_unknown_salt_are_those_of_another_water_first():
    with pytest.raises(UnknownSaltError) as refused:
        salts["CaCl2·4H2O"]
    near = str(refused.value).partition("near it are ")[2].split(", ")
    names = {salt.name for salt in salts.values()}
    assert all(other in salts or other in names for other in near)
    watered = [other for other in salts if other.partition("·")[0] == "CaCl2"]
    assert near[: len(watered)] == watered
    assert len(near) == len(set(near))
    assert len(near) <= len(watered) + 4


def test_where_nothing_is_near_all_are_named():
    with pytest.raises(UnknownSaltError) as refused:
        salts["qqqqqqqqqqqqqq"]
    assert str(refused.value).partition("near it are ")[2].split(", ") == list(salts)


def test_a_label_in_an_unknown_unit_is_told_the_known_ones():
    with pytest.raises(DomainError) as refused:
        StockSolution.of("CaCl2", 5.0, "spoons")
    first, _, rest = str(refused.value).partition("; known are ")
    assert first == "StockSolution: 'spoons' is no unit of a label of CaCl2"
    said = rest.split(", ")
    of_powder = ["g/L", "mg/mL", "g/100 mL", "% w/v", "% w/w"]
    of_salt = ["mol/L", "mmol/mL", "meq/mL", "eq/L", "mg/mL calcium", "mg/mL chloride"]
    assert said == [*of_powder, *of_salt]


def test_gypsum_falls_out_just_past_its_product():
    assert GYPSUM > 0
    mass = {f: salts[f].molar_mass for f in ("CaCl2·2H2O", "MgSO4·7H2O")}
    below = {f: 0.9 * GYPSUM * m for f, m in mass.items()}
    StockSolution(below)
    with pytest.raises(DomainError, match="gypsum falls out") as refused:
        StockSolution({f: 1.2 * GYPSUM * m for f, m in mass.items()})
    said = float(re.search(r"is ([0-9.]+) times", str(refused.value))[1])
    assert said == pytest.approx(1.44, rel=0.05)


def test_the_ph_behind_a_reactor_is_that_of_another_program():
    given = {
        "daily_uptake": 0.9,
        "volume": 150.0,
        "alkalinity": 2.9,
        "ph_total": 8.05,
        "effluent_alkalinity": 14.0,
        "effluent_ph_total": 6.6,
        "salinity": 34.0,
        "temperature": 26.0,
    }
    reactor = calcium_reactor(**given)
    litre = seawater_density(34.0, 26.0) / 1000
    options = {
        "salinity": 34.0,
        "temperature": 26.0,
        "opt_k_carbonic": 10,
        "opt_total_borate": 1,
        "opt_pH_scale": 1,
    }
    alkalinity = 1000 * 2.9 / litre
    tank = PyCO2SYS.sys(par1=alkalinity, par1_type=1, par2=8.05, par2_type=3, **options)
    effluent = PyCO2SYS.sys(
        par1=1000 * 14.0 / litre,
        par1_type=1,
        par2=6.6,
        par2_type=3,
        total_calcium=tank["total_calcium"] + 1000 * (14.0 - 2.9) / 2 / litre,
        **options,
    )
    drip = 0.9 * 150.0 / (14.0 - 2.9)
    gas = (effluent["dic"] - tank["dic"]) * litre / 1000 - (14.0 - 2.9) / 2
    gained = (effluent["dic"] - tank["dic"]) * drip / 150.0
    mixed = PyCO2SYS.sys(
        par1=alkalinity,
        par1_type=1,
        par2=tank["dic"] + gained - 1000 * 0.45 / litre,
        par2_type=2,
        **options,
    )
    assert reactor.drip == pytest.approx(drip, rel=1e-12)
    assert reactor.carbon_dioxide == pytest.approx(gas, rel=2e-3)
    assert reactor.ph_mixed == pytest.approx(mixed["pH_total"], abs=2e-3)
    assert reactor.omega == pytest.approx(effluent["saturation_aragonite"], rel=5e-3)
    assert reactor.ph_before == 8.05
    assert np.isfinite(reactor.gas)


def test_the_effluent_of_a_reactor_is_seawater_with_what_has_dissolved():
    """Two equivalents for each calcium: 8 meq/L more are 4 mmol/L of calcium."""
    reactor = calcium_reactor(
        daily_uptake=0.2,
        volume=200.0,
        alkalinity=2.8,
        ph_total=8.0,
        effluent_alkalinity=10.8,
        effluent_ph_total=6.4,
    )
    litre = seawater_density(35.0, 25.0) / 1000
    sea = carbonate_system(
        salinity=35.0, temperature=25.0, total_alkalinity=2800 / litre, ph_total=8.0
    )
    effluent = carbonate_system(
        salinity=35.0,
        temperature=25.0,
        total_alkalinity=10800 / litre,
        ph_total=6.4,
        calcium=sea.calcium + 4000 / litre,
    )
    assert reactor.omega == pytest.approx(effluent.omega_aragonite, rel=1e-9)
    # 5 L a day of it into 200 L, of which corals take 0.1 mmol/L of carbon; alkalinity is held.
    gained = (effluent.dic - sea.dic) * 5.0 / 200.0 - 100 / litre
    mixed = carbonate_system(
        salinity=35.0, temperature=25.0, total_alkalinity=2800 / litre, dic=sea.dic + gained
    )
    assert reactor.ph_mixed == pytest.approx(mixed.ph_total, rel=1e-9)


def test_an_effluent_that_has_no_more_alkalinity_than_the_tank_is_refused():
    readings = {"daily_uptake": 0.2, "volume": 200.0, "ph_total": 8.0, "effluent_ph_total": 6.4}
    for effluent in (2.8, 2.7):
        with pytest.raises(DomainError, match=f"effluent_alkalinity is {effluent} meq/L; it must"):
            calcium_reactor(**readings, alkalinity=2.8, effluent_alkalinity=effluent)


def test_a_calcium_salt_that_brings_all_alkalinity_leaves_nothing_for_the_other():
    with pytest.raises(DomainError, match="as an all-in-one"):
        two_part(calcium_salt="Ca(CH3COO)2")
