"""Alkalinity sources: charge and carbon of each, and the pH after a dose by two chemistries."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from phreeqpython import PhreeqPython

from reefchem.carbonate import (
    alkalinity_after_dose,
    alkalinity_sources,
    carbon_after_dose,
    carbon_from_air_after_dose,
    carbonate_system,
    ph_after_dose,
    ph_after_dose_in_air,
    ph_from_alkalinity_and_dic,
    ph_in_air,
    raise_alkalinity,
    saturation_after_dose,
)
from reefchem.core.atoms import atoms_in
from reefchem.core.errors import DomainError

WATER = {"salinity": 35.0, "temperature": 25.0}
BEFORE = {**WATER, "total_alkalinity": 2440.0, "dic": 2130.0}
SOURCES = alkalinity_sources()
ONE_DKH = 348.5
"""umol/kg, 0.356653 meq/L over 1.02334 kg/L."""


# -- stated values --------------------------------------------------------------------------------


def test_calcium_carbonate_that_forms_in_a_jar_lowers_ph_to_7_42():
    # 0.27 mmol/kg from 2300 and 2000 umol/kg, pH 8.046: computed with PyCO2SYS 1.8.3.
    assert ph_from_alkalinity_and_dic(2300.0, 2000.0, 35.0, 25.0) == pytest.approx(8.046, abs=6e-4)
    assert ph_after_dose(2300.0, 2000.0, -540.0, 0.5, 35.0, 25.0) == pytest.approx(7.42, abs=0.005)


def test_back_in_balance_with_420_microatmospheres_it_is_7_93():
    # The same source; 420 uatm are 433.3 ppm of dry air at 25 °C.
    air = 420.0 / (1 - 0.030655)
    found = ph_after_dose_in_air(2300.0, -540.0, air, 35.0, 25.0)
    assert found == pytest.approx(7.93, abs=0.006)


# -- the sources ----------------------------------------------------------------------------------

CATIONS = {"Na": 1, "Ca": 2}


@pytest.mark.parametrize("name", SOURCES)
def test_alkalinity_is_the_charge_of_the_cation(name):
    # Wolf-Gladrow et al. (2007), explicit conservative alkalinity: + Na + 2 Ca.
    source = SOURCES[name]
    atoms = atoms_in(source.formula)
    assert source.alkalinity == sum(CATIONS[e] * atoms.get(e, 0) for e in CATIONS)
    assert source.carbon == atoms.get("C", 0)
    assert source.calcium == atoms.get("Ca", 0)


@pytest.mark.parametrize("name", [n for n, s in SOURCES.items() if s.oxygen])
def test_oxygen_is_what_burning_the_anion_takes(name):
    # CcHhOo + (c + h/4 - o/2) O2 -> c CO2 + h/2 H2O, and the cation's oxide needs 1/2 O for
    # each equivalent.
    source = SOURCES[name]
    a = atoms_in(source.formula)
    needed = a["C"] + a["H"] / 4 - a["O"] / 2 + source.alkalinity / 4
    assert source.oxygen == pytest.approx(needed)


def test_mass_of_an_equivalent_by_hand():
    assert SOURCES["sodium bicarbonate"].mass_per_equivalent == pytest.approx(84.006, abs=0.001)
    assert SOURCES["calcium hydroxide"].mass_per_equivalent == pytest.approx(37.046, abs=0.001)


def test_a_caustic_source_says_so():
    assert "caustic" in SOURCES["sodium hydroxide"].caution
    assert "eye" in SOURCES["calcium hydroxide"].caution


# -- closed and open ------------------------------------------------------------------------------


def test_in_a_jar_the_salt_matters_and_in_the_air_it_does_not():
    made = [raise_alkalinity(ONE_DKH, **BEFORE, air=420.0, source=name) for name in SOURCES]
    in_air = [m.ph_change_air for m in made]
    assert in_air == pytest.approx([in_air[0]] * len(in_air), abs=1e-12)
    closed = dict(zip(SOURCES, (m.ph_change_closed for m in made), strict=True))
    order = ["sodium hydroxide", "sodium carbonate", "sodium bicarbonate", "sodium acetate"]
    assert [closed[n] for n in order] == sorted((closed[n] for n in order), reverse=True)
    assert closed["sodium bicarbonate"] < 0.0 < closed["sodium carbonate"]
    assert closed["sodium formate"] == closed["sodium bicarbonate"]


def test_calcium_adds_to_saturation():
    sodium, calcium = (
        raise_alkalinity(ONE_DKH, **BEFORE, air=420.0, source=f"{metal} formate")
        for metal in ("sodium", "calcium")
    )
    # 174 umol/kg on 10285: 1.7 % of the saturation after the dose.
    assert calcium.omega_change_air > sodium.omega_change_air


@given(
    dose=st.floats(-400.0, 800.0),
    ratio=st.floats(0.0, 2.0),
    air=st.floats(350.0, 2000.0),
)
def test_what_the_air_brings_is_the_rest_of_the_balance(dose, ratio, air):
    brought = carbon_from_air_after_dose(2440.0, 2130.0, dose, ratio, air, 35.0, 25.0)
    carbon = carbon_after_dose(2130.0, dose, ratio) + brought
    alkalinity = alkalinity_after_dose(2440.0, dose)
    balanced = ph_in_air(alkalinity, air, 35.0, 25.0)
    assert ph_from_alkalinity_and_dic(alkalinity, carbon, 35.0, 25.0) == pytest.approx(
        balanced, abs=1e-8
    )


@given(dose=st.floats(0.0, 800.0), ratio=st.sampled_from([0.0, 0.5, 1.0, 2.0]))
def test_the_short_relations_agree_with_the_solver(dose, ratio):
    state = carbonate_system(
        **WATER, total_alkalinity=2440.0 + dose, dic=2130.0 + ratio * dose, calcium=10300.0
    )
    ph = ph_after_dose(2440.0, 2130.0, dose, ratio, 35.0, 25.0)
    omega = saturation_after_dose(2440.0, 2130.0, 10300.0, dose, ratio, 35.0, 25.0)
    assert ph == pytest.approx(state.ph_total, abs=1e-8)
    assert omega == pytest.approx(state.omega_aragonite, rel=1e-7)


def test_no_dose_changes_nothing():
    made = raise_alkalinity(0.0, **BEFORE, air=420.0)
    assert made.ph_change_closed == made.omega_change_closed == made.dic_change_air == 0.0


def test_doses_may_be_an_array():
    made = raise_alkalinity(
        np.array([0.0, ONE_DKH]), **BEFORE, air=420.0, source="sodium carbonate"
    )
    single = raise_alkalinity(ONE_DKH, **BEFORE, air=420.0, source="sodium carbonate")
    assert made.ph_change_closed[1] == pytest.approx(single.ph_change_closed, abs=1e-12)


def test_an_unknown_source_is_refused_with_the_known_ones():
    with pytest.raises(DomainError, match="sodium bicarbonate"):
        raise_alkalinity(100.0, **BEFORE, air=420.0, source="baking soda")


# -- a second chemistry ---------------------------------------------------------------------------

PER_WATER = 1 / (1 - 0.035165)
"""Kilograms of seawater with a kilogram of water, at 35.165 g/kg of salt."""

# Reference composition at salinity 35, mmol/kg of seawater, to four figures.
IONS = {
    "Na": 469.06,
    "Mg": 52.82,
    "Ca": 10.28,
    "K": 10.21,
    "Sr": 0.09,
    "Cl": 545.87,
    "Br": 0.84,
    "S(6)": 28.24,
    "B": 0.416,
}


@pytest.fixture(scope="module")
def pitzer():
    return PhreeqPython(database="pitzer.dat")


@pytest.mark.parametrize(("alkalinity", "dic"), [(2440.0, 2130.0), (2800.0, 2420.0)])
@pytest.mark.parametrize(
    ("formula", "alkalinity_of_one", "ratio", "dose"),
    [
        ("NaHCO3", 1, 1.0, ONE_DKH),
        ("Na2CO3", 2, 0.5, ONE_DKH),
        ("NaOH", 1, 0.0, ONE_DKH),
        ("Ca(OH)2", 2, 0.0, ONE_DKH),
        ("CaCO3", 2, 0.5, -540.0),
    ],
)
def test_phreeqc_with_pitzer_sees_the_same_change_of_ph(
    pitzer, alkalinity, dic, formula, alkalinity_of_one, ratio, dose
):
    # The pH itself differs (activity, another set of constants); the change is compared.
    water = {ion: content * PER_WATER for ion, content in IONS.items()}
    carbon = {"Alkalinity": 1e-3 * alkalinity * PER_WATER, "C(4)": 1e-3 * dic * PER_WATER}
    before = pitzer.add_solution({**water, **carbon, "units": "mmol/kgw", "temp": 25, "pH": "8.1"})
    after = before.copy()
    after.add(formula, 1e-3 * dose / alkalinity_of_one * PER_WATER)
    ours = ph_after_dose(alkalinity, dic, dose, ratio, 35.0, 25.0)
    start = ph_from_alkalinity_and_dic(alkalinity, dic, 35.0, 25.0)
    assert ours - start == pytest.approx(after.pH - before.pH, abs=0.02)
