"""Composition of seawater: whole numbers first, then oracles, then refusals."""

from __future__ import annotations

import tomllib

import numpy as np
import periodictable
import PyCO2SYS
import pytest
from conftest import PUBLISHED
from hypothesis import given
from hypothesis import strategies as st

import reefchem.seawater
from reefchem import seawater
from reefchem.core.atoms import atoms_in, charge_of
from reefchem.core.errors import DomainError, UnitError
from reefchem.core.quantity import quantity
from reefchem.examples.printed import half_last_digit
from reefchem.seawater import composition, minor_element, minor_elements
from reefchem.seawater.composition import MeanSalt, boron_lee2010
from reefchem.seawater.reference_composition import MOLE_FRACTIONS, SPECIES

# Atomic weights of 2005 as the source used them (Wieser 2006, from memory).
OF_2005 = {
    "H": 1.00794,
    "B": 10.811,
    "C": 12.0107,
    "O": 15.9994,
    "F": 18.9984032,
    "S": 32.065,
    "Na": 22.98976928,
    "Mg": 24.3050,
    "Cl": 35.453,
    "K": 39.0983,
    "Ca": 40.078,
    "Br": 79.904,
    "Sr": 87.62,
}
TABLE = tomllib.loads((PUBLISHED / "millero2008.toml").read_text(encoding="utf-8"))
FRACTIONS = TABLE["mass_fraction"]
SALINITY = st.floats(0.5, 45.0)


def weight_of_2005(name):
    return sum(OF_2005[e] * n for e, n in atoms_in(SPECIES[name]).items())


def test_the_shares_add_up_to_ten_million_and_the_charges_to_zero():
    assert sum(MOLE_FRACTIONS.values()) == 10_000_000
    assert sum(MOLE_FRACTIONS[name] * charge_of(SPECIES[name]) for name in SPECIES) == 0


def test_every_species_is_printed():
    assert [row["species"] for row in FRACTIONS] == list(SPECIES) == list(MOLE_FRACTIONS)


@pytest.mark.parametrize("row", FRACTIONS, ids=lambda row: row["species"])
def test_mole_fractions_lead_to_the_printed_mass_fractions(row):
    name = row["species"]
    total = sum(MOLE_FRACTIONS[n] * weight_of_2005(n) for n in SPECIES)
    fraction = MOLE_FRACTIONS[name] * weight_of_2005(name) / total
    assert abs(fraction - float(row["printed"])) <= 0.5e-7 * (1 + 1e-6)


def test_the_mean_molar_mass_is_that_of_the_table():
    mean = sum(MOLE_FRACTIONS[n] * weight_of_2005(n) for n in SPECIES) / 1e7
    assert mean == pytest.approx(MeanSalt().molar_mass, abs=5e-8)


def test_the_ionic_strength_counts_every_ion_once():
    squares = sum(MOLE_FRACTIONS[n] * charge_of(SPECIES[n]) ** 2 for n in SPECIES)
    assert MeanSalt().half_charge_squares == squares / 2e7


@given(salinity=SALINITY)
def test_charge_balances_at_every_salinity(salinity):
    water = composition(salinity)
    assert water.cation_charge == pytest.approx(water.anion_charge, rel=1e-14)


@given(salinity=SALINITY)
def test_alkalinity_of_strong_ions_is_that_of_weak_ones(salinity):
    water = composition(salinity)
    weak = water.bicarbonate + 2 * water.carbonate + water.borate + water.hydroxide
    assert water.alkalinity == pytest.approx(weak, abs=1e-15)


@given(salinity=SALINITY)
def test_the_masses_add_up_to_the_reference_salinity(salinity):
    masses = composition(salinity).mass_contents.values()
    grams = sum(masses) / 1000
    assert grams == pytest.approx(seawater.reference_salinity(salinity), rel=1e-4)


def test_elements_are_counted_across_their_species():
    water = composition(35.0)
    assert water.elements["B"] * 1e6 == pytest.approx(415.1, abs=0.05)
    assert water.elements["C"] * 1e6 == pytest.approx(1966.3, abs=0.05)
    assert water.element_mass_contents["B"] == pytest.approx(4.487, abs=5e-4)
    assert water.element_mass_concentrations(25.0)["B"] == pytest.approx(4.59, abs=5e-3)


@pytest.mark.parametrize(
    ("name", "in_a_kilogram", "in_a_litre"),
    [
        ("sodium", "10781.6", "11033"),
        ("magnesium", "1283.7", "1313.7"),
        ("calcium", "412.1", "421.7"),
        ("potassium", "399.1", "408.4"),
        ("strontium", "7.95", "8.13"),
        ("chloride", "19351", "19803"),
        ("sulfate", "2712.2", "2775.5"),
        ("bromide", "67.3", "68.9"),
        ("fluoride", "1.30", "1.33"),
    ],
)
def test_masses_are_those_worked_out_by_hand(name, in_a_kilogram, in_a_litre):
    water = composition(35.0)
    for mass, printed in (
        (water.mass_contents[name], in_a_kilogram),
        (water.mass_concentrations(25.0)[name], in_a_litre),
    ):
        assert abs(mass - float(printed)) <= half_last_digit(printed, name)


@pytest.mark.parametrize("name", SPECIES)
def test_masses_agree_with_weights_of_another_library(name):
    water = composition(35.0)
    formula = SPECIES[name].partition("^")[0].rstrip("+-")
    other = periodictable.formula(formula).mass * 1000 * getattr(water, name)
    assert water.mass_contents[name] == pytest.approx(other, rel=3e-4)


@pytest.mark.parametrize("salinity", np.linspace(1.0, 45.0, 12))
def test_totals_agree_with_another_library_over_the_whole_range(salinity):
    given = {"par1": 2300.0, "par2": 8.0, "par1_type": 1, "par2_type": 3}
    other = PyCO2SYS.sys(**given, salinity=salinity, temperature=25.0, opt_total_borate=2)
    ours = {
        "total_sulfate": seawater.sulfate_morris1966,
        "total_fluoride": seawater.fluoride_riley1965,
        "total_calcium": seawater.calcium_riley1967,
    }
    for name, relation in ours.items():
        assert relation(salinity) * 1e6 == pytest.approx(float(other[name]), rel=1e-12), name
    # That library rounds both ratios of boron to four figures.
    assert seawater.boron_lee2010(salinity) * 1e6 == pytest.approx(
        float(other["total_borate"]), rel=2e-4
    )
    other = PyCO2SYS.sys(**given, salinity=salinity, temperature=25.0, opt_total_borate=1)
    assert seawater.boron_uppstrom1974(salinity) * 1e6 == pytest.approx(
        float(other["total_borate"]), rel=2e-4
    )


@given(salinity=SALINITY)
def test_calcium_boron_and_fluoride_of_two_sources_are_close(salinity):
    water = composition(salinity)
    assert seawater.calcium_riley1967(salinity) == pytest.approx(water.calcium, rel=5e-4)
    assert seawater.fluoride_riley1965(salinity) == pytest.approx(water.fluoride, rel=1e-3)
    assert seawater.boron_uppstrom1974(salinity) == pytest.approx(water.elements["B"], rel=2e-3)
    assert seawater.sulfate_morris1966(salinity) == pytest.approx(water.sulfate, rel=1e-4)


@given(salinity=SALINITY)
def test_two_ionic_strengths_are_close(salinity):
    old, new = seawater.ionic_strength(salinity), seawater.ionic_strength_millero2008(salinity)
    assert new == pytest.approx(old, rel=5e-4)


@given(salinity=SALINITY)
def test_chlorinity_by_silver_is_chlorinity_by_salinity(salinity):
    water = composition(salinity)
    by_silver = seawater.chlorinity_from_halides(water.chloride, water.bromide)
    assert by_silver == pytest.approx(seawater.chlorinity(salinity), rel=1e-5)


def test_arrays_go_through_whole():
    water = composition(np.array([30.0, 35.0]))
    assert water.calcium == pytest.approx([composition(s).calcium for s in (30.0, 35.0)])
    assert water.mass_concentrations(25.0)["calcium"].shape == (2,)
    assert np.isnan(composition(np.array([35.0, np.nan])).sodium).tolist() == [False, True]


def test_a_field_knows_its_unit():
    assert str(composition(35.0).quantity("calcium").units) == "mole / kilogram"


def test_the_function_wins_over_the_module_of_its_name():
    assert callable(reefchem.seawater.composition)
    assert callable(boron_lee2010)


@pytest.mark.parametrize(
    ("salinity", "error", "message"),
    [
        (-1.0, DomainError, "composition: salinity is -1; 0 or more is possible"),
        (np.inf, DomainError, "composition: salinity is inf"),
        (np.array([35.0, -1.0]), DomainError, r"composition: salinity is -1 at \[1\]"),
        (quantity(35.0, "g/kg"), UnitError, "composition: salinity is a pure number"),
        ([35.0], TypeError, "composition: salinity is a list"),
    ],
)
def test_a_salinity_that_cannot_be_is_refused(salinity, error, message):
    with pytest.raises(error, match=message):
        composition(salinity)


def test_minor_elements_have_a_source_or_say_that_they_have_none():
    for element in minor_elements().values():
        assert (element.content is None) == (element.source == "") == (element.at == "")


def test_lithium_follows_the_salinity():
    assert minor_element("Li").at_salinity(35.0) == 0.18
    assert minor_element("Li").at_salinity(17.5) == pytest.approx(0.09)


@pytest.mark.parametrize(
    ("symbol", "message"),
    [
        ("I", "I varies with place and depth .* its average is 0.058 mg/L"),
        ("Zn", "no source was read for Zn in seawater"),
    ],
)
def test_a_number_that_nobody_gave_is_not_made_up(symbol, message):
    with pytest.raises(DomainError, match=message):
        minor_element(symbol).at_salinity(35.0)


def test_an_element_off_the_list_is_refused():
    with pytest.raises(DomainError, match="'Xx' is not on the list; it has Li"):
        minor_element("Xx")
