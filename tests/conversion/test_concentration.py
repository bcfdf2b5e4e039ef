"""Concentrations: what a litre, a kilogram, an ion and an element have in common."""

from __future__ import annotations

import numpy as np
import periodictable
import pytest
from hypothesis import given
from hypothesis import strategies as st

from reefchem import conversion
from reefchem.conversion import as_species, from_ppm, mass_per_kilogram, mass_per_litre
from reefchem.core.atoms import molar_mass
from reefchem.core.errors import DomainError, UnitError
from reefchem.seawater import seawater_density

PAIRS = [
    ("nitrate_from_nitrogen", "nitrogen_from_nitrate", "N", "NO3"),
    ("nitrite_from_nitrogen", "nitrogen_from_nitrite", "N", "NO2"),
    ("phosphate_from_phosphorus", "phosphorus_from_phosphate", "P", "PO4"),
    ("silicate_from_silicon", "silicon_from_silicate", "Si", "SiO2"),
    ("calcium_as_calcium_carbonate", "calcium_from_calcium_carbonate", "Ca", "CaCO3"),
]


@pytest.mark.parametrize(("there", "back", "element", "ion"), PAIRS)
@given(value=st.floats(0.001, 1000.0))
def test_as_element_and_as_ion_are_one_amount(there, back, element, ion, value):
    whole = getattr(conversion, there)(value)
    ratio = periodictable.formula(ion).mass / periodictable.formula(element).mass
    assert whole / value == pytest.approx(ratio, rel=3e-5)
    assert getattr(conversion, back)(whole) == pytest.approx(value, rel=1e-14)
    assert as_species(value, element, ion) == pytest.approx(whole, rel=1e-14)


@given(value=st.floats(0.0, 1e5), salinity=st.floats(0.0, 42.0), temperature=st.floats(0.0, 40.0))
def test_a_litre_and_a_kilogram_differ_by_the_density(value, salinity, temperature):
    litre = mass_per_litre(value, salinity, temperature)
    assert litre == pytest.approx(value * seawater_density(salinity, temperature) / 1000)
    assert mass_per_kilogram(litre, salinity, temperature) == pytest.approx(value, rel=1e-13)


def test_borax_told_as_boron_counts_four_atoms():
    boron = as_species(381.363, "Na2B4O7·10H2O", "B")
    assert boron == pytest.approx(4 * molar_mass("B"), rel=1e-12)


@pytest.mark.parametrize(
    ("start", "end", "element", "message"),
    [
        ("NO3-", "P", "", "NO3- and P share no element"),
        ("CaCO3", "HCO3-", "", "CaCO3 and HCO3- share C and O; name one"),
        ("NO3-", "N", "O", "NO3- and N do not both hold O"),
    ],
)
def test_species_need_one_element_in_common(start, end, element, message):
    with pytest.raises(DomainError, match=f"as_species: {message}"):
        as_species(1.0, start, end, element=element)


def test_ppm_is_what_it_is_said_to_mean():
    assert from_ppm(420.0, meaning="mg/L") == 420.0
    weighed = from_ppm(412.0, meaning="mg/kg", salinity=35.0, temperature=25.0)
    assert weighed == mass_per_litre(412.0, 35.0, 25.0)


@pytest.mark.parametrize(
    ("given", "error", "message"),
    [
        ({"meaning": "ppm"}, UnitError, "meaning is 'mg/L' or 'mg/kg', not 'ppm'"),
        ({"meaning": "mg/kg", "salinity": 35.0}, DomainError, "mg/kg needs salinity and temp"),
    ],
)
def test_ppm_is_not_guessed(given, error, message):
    with pytest.raises(error, match=f"from_ppm: {message}"):
        from_ppm(420.0, **given)
    with pytest.raises(TypeError, match="meaning"):
        from_ppm(420.0)


def test_a_list_of_readings_is_refused_and_an_array_is_not():
    with pytest.raises(TypeError, match="is a list"):
        from_ppm([420.0], meaning="mg/L")
    assert np.array_equal(from_ppm(np.array([420.0, 440.0]), meaning="mg/L"), [420.0, 440.0])
