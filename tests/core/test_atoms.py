"""Atomic weights and molar masses: printed sums, another library, and formulas that cannot be."""

from __future__ import annotations

import tomllib

import periodictable
import pytest
from conftest import PUBLISHED
from hypothesis import given
from hypothesis import strategies as st

from reefchem.core.atoms import ATOMIC_WEIGHTS, atoms_in, charge_of, molar_mass
from reefchem.core.errors import DomainError

PRINTED = tomllib.loads((PUBLISHED / "prohaska2022.toml").read_text(encoding="utf-8"))
MASSES = PRINTED["molar_mass"]


@pytest.mark.parametrize("row", MASSES, ids=lambda row: row["formula"])
def test_molar_masses_are_the_printed_sums(row):
    assert f"{molar_mass(row['formula']):.3f}" == row["printed"]


@pytest.mark.parametrize("row", MASSES, ids=lambda row: row["formula"])
def test_molar_masses_agree_with_another_library(row):
    formula = row["formula"].partition("^")[0].rstrip("+-")
    assert molar_mass(row["formula"]) == pytest.approx(
        periodictable.formula(formula.replace("·", "+")).mass, abs=0.02
    )


@pytest.mark.parametrize("element", ATOMIC_WEIGHTS)
def test_each_weight_is_the_printed_one(element):
    text = PRINTED["atomic_weight"][element]
    weight, _, digits = text.removesuffix(")").partition("(")
    last = 10.0 ** -len(weight.partition(".")[2])
    assert ATOMIC_WEIGHTS[element] == (float(weight), pytest.approx(int(digits or 1) * last))


# Chlorine and sulfur are abridged to intervals, where libraries carry a mean.
@pytest.mark.parametrize("element", ATOMIC_WEIGHTS)
def test_each_weight_is_that_of_another_library_within_its_uncertainty(element):
    weight, uncertainty = ATOMIC_WEIGHTS[element]
    other = float(getattr(periodictable, element).mass)
    assert abs(weight - other) <= uncertainty
    figures = f"{weight:.4f}".rstrip("0").replace(".", "").lstrip("0")
    assert len(figures) <= 5


@pytest.mark.parametrize(
    ("formula", "atoms"),
    [
        ("CaCl2·2H2O", {"Ca": 1, "Cl": 2, "H": 4, "O": 2}),
        ("CaCl2.2H2O", {"Ca": 1, "Cl": 2, "H": 4, "O": 2}),
        ("CaCl2*2H2O", {"Ca": 1, "Cl": 2, "H": 4, "O": 2}),
        ("Ca(HCOO)2", {"Ca": 1, "H": 2, "C": 2, "O": 4}),
        ("Mg[Ca(CO3)2]", {"Mg": 1, "Ca": 1, "C": 2, "O": 6}),
        ("SO4^2-", {"S": 1, "O": 4}),
        ("NO3-", {"N": 1, "O": 3}),
    ],
)
def test_atoms_are_counted_through_brackets_hydrates_and_charges(formula, atoms):
    assert atoms_in(formula) == atoms


@pytest.mark.parametrize(
    ("formula", "charge"),
    [("SO4^2-", -2), ("Na+", 1), ("PO4^3-", -3), ("Ca^2+", 2), ("NaCl", 0), ("B(OH)4-", -1)],
)
def test_an_ion_ends_in_its_charge(formula, charge):
    assert charge_of(formula) == charge
    assert type(charge_of(formula)) is int


@given(water=st.integers(1, 20))
def test_each_water_of_crystallisation_adds_its_mass(water):
    hydrate = molar_mass(f"MgSO4·{water}H2O")
    assert hydrate - molar_mass("MgSO4") == pytest.approx(water * molar_mass("H2O"), abs=1e-9)


@pytest.mark.parametrize(
    ("formula", "message"),
    [
        ("Xx", "cannot be read at 'Xx'"),
        ("CaCl2)", r"cannot be read at '\)'"),
        ("(CaCl2", "empty part or a bracket left open"),
        ("Ca(Cl2", "empty part or a bracket left open"),
        ("0Ca", "has 0 atoms; 1 to 99999 are allowed"),
        ("Ca()", r"cannot be read at '\)'"),
        ("(Ca())", r"cannot be read at '\)\)'"),
        ("Ca()2", r"cannot be read at '\)2'"),
        ("CaCl0", "cannot be read at '0'"),
        ("caCl2", "cannot be read at 'caCl2'"),
        ("Ca Cl2", "cannot be read at ' Cl2'"),
        ("CaCl2·", "empty part"),
        ("", "0 characters; 1 to 200 are allowed"),
        ("C" * 201, "201 characters"),
        ("(" * 8 + "C" + ")" * 8, r"cannot be read at '\(C"),
        ("(" * 1_000_000, "a formula of 1000000 characters; 1 to 200 are allowed"),
    ],
)
def test_a_formula_that_cannot_be_read_is_named(formula, message):
    with pytest.raises(DomainError, match=message):
        molar_mass(formula)


def test_seven_brackets_may_stand_inside_each_other():
    assert atoms_in("(" * 7 + "C" + ")" * 7) == {"C": 1}


def test_a_formula_is_a_text():
    with pytest.raises(TypeError, match="formula is a text such as 'CaCl2·2H2O', not int"):
        molar_mass(44)


def test_no_caller_can_change_what_the_next_one_reads():
    atoms_in("CaCO3")["Ca"] = 99
    assert atoms_in("CaCO3")["Ca"] == 1
