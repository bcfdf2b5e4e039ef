"""The catalogue of salts: balances first, then values of others, then refusals."""

from __future__ import annotations

import csv
from functools import cache

import phreeqpython
import pytest
from conftest import PUBLISHED

from reefchem.core.atoms import molar_mass
from reefchem.core.errors import DomainError
from reefchem.core.sources import entries
from reefchem.dosing import calcium_formate_solubility, most_that_dissolves, salts
from reefchem.dosing.bottle import GYPSUM
from reefchem.dosing.catalogue import Hazard, UnknownSaltError
from reefchem.dosing.species import COMPONENTS, charge_of_mixture
from reefchem.examples.printed import half_last_digit

EACH = pytest.mark.parametrize("salt", salts.values(), ids=list(salts))

# Change of alkalinity for each mole: at once, and after complete oxidation. From the charge
# balance; PHREEQC confirms the first six (see test_effect_against_phreeqc).
ALKALINITY = {
    "NaHCO3": (1, 1),
    "Na2CO3": (2, 2),
    "NaOH": (1, 1),
    "Ca(OH)2": (2, 2),
    "CaCl2": (0, 0),
    "HCl": (-1, -1),
    "Na2B4O7·10H2O": (2, 2),
    "Na2HPO4": (1, 1),
    "K2HPO4": (1, 1),
    "KH2PO4": (0, 0),
    "NaH2PO4": (0, 0),
    "H3BO3": (0, 0),
    "KNO3": (0, 0),
    "NaNO3": (0, 0),
    "Ca(NO3)2·4H2O": (0, 0),
    "KCl": (0, 0),
    "MgCl2·6H2O": (0, 0),
    "MgSO4·7H2O": (0, 0),
    "Na2SO4": (0, 0),
    "Ca(HCOO)2": (0, 2),
    "Mg(HCOO)2·2H2O": (0, 2),
    "Ca(CH3COO)2": (2, 2),
    "Ca(CH3COO)2·H2O": (2, 2),
    "Mg(CH3COO)2·4H2O": (2, 2),
    "HCOONa": (0, 1),
    "CH3COONa": (1, 1),
    "CH3COONa·3H2O": (1, 1),
    "C2H5OH": (0, 0),
    "CH3COOH": (0, 0),
}

# Moles of O2 for a mole, from the reactions written out: Ca(HCOO)2 + O2 -> Ca2+ + 2 HCO3-;
# Ca(CH3COO)2 + 4 O2 -> Ca2+ + 2 HCO3- + 2 CO2 + 2 H2O; C2H5OH + 3 O2 -> 2 CO2 + 3 H2O.
OXYGEN = {"Ca(HCOO)2": 1, "Ca(CH3COO)2": 4, "C2H5OH": 3, "CH3COOH": 2, "NaHCO3": 0}


@pytest.mark.parametrize(("formula", "both"), ALKALINITY.items())
def test_alkalinity_at_once_and_after_oxidation(formula, both):
    assert (salts[formula].alkalinity, salts[formula].alkalinity_after_oxidation) == both


@pytest.mark.parametrize(("formula", "moles"), OXYGEN.items())
def test_oxygen_demand(formula, moles):
    assert salts[formula].oxygen == moles


@EACH
def test_ions_and_water_weigh_what_the_salt_weighs(salt):
    parts = sum(count * molar_mass(ion) for ion, count in salt.ions.items())
    whole = parts + salt.water * molar_mass("H2O")
    assert whole == pytest.approx(salt.molar_mass, rel=1e-12)


@EACH
def test_every_salt_is_neutral(salt):
    assert charge_of_mixture(salt.ions) == 0


@EACH
def test_charges_of_the_components_are_the_alkalinity(salt):
    """Explicit conservative expression of alkalinity (Wolf-Gladrow et al., 2007)."""
    charge = sum(COMPONENTS[name][1] * moles for name, moles in salt.components.items())
    assert charge == salt.alkalinity


# Phases of PHREEQC's Pitzer database at 25 °C: element that is counted, its atoms in the salt, and
# by how much the two may differ. The handbook lies 5.6 % above PHREEQC for sodium carbonate, whose
# solubility rises by a third within these five degrees.
PHASES = {
    "NaCl": ("Halite", "Na", 1, 0.01),
    "KCl": ("Sylvite", "K", 1, 0.01),
    "NaHCO3": ("Nahcolite", "Na", 1, 0.03),
    "Na2CO3": ("Natron", "Na", 2, 0.06),
    "MgSO4·7H2O": ("Epsomite", "Mg", 1, 0.015),
    "Na2SO4": ("Mirabilite", "Na", 2, 0.02),
    "Na2B4O7·10H2O": ("Borax", "Na", 2, 0.03),
    "K2SO4": ("Arcanite", "K", 2, 0.10),
    "Ca(OH)2": ("Portlandite", "Ca", 1, 0.02),
}


@cache
def engine():
    return phreeqpython.PhreeqPython(database="pitzer.dat")


@pytest.mark.parametrize("formula", PHASES)
def test_solubility_at_25_degrees_is_that_of_phreeqc(formula):
    phase, element, atoms, within = PHASES[formula]
    water = engine().add_solution({"temp": "25", "units": "mol/kgw", "pH": "7 charge"})
    water.equalize([phase], [0])
    molality = water.total_element(element) / 1000 / atoms / water.mass
    assert most_that_dissolves(formula, 25.0) == pytest.approx(molality, rel=within)


def test_gypsum_in_pure_water_is_that_of_phreeqc():
    water = engine().add_solution({"temp": "25", "units": "mol/kgw", "pH": "7 charge"})
    water.equalize(["Gypsum"], [0])
    assert pytest.approx(water.total_element("Ca") / 1000 / water.mass, rel=0.02) == GYPSUM


def handbook():
    """Return (formula, °C, mass percent as printed) of the Handbook's table."""
    text = (PUBLISHED / "rumble2017_solubility.csv").read_text(encoding="utf-8").splitlines()
    head, *body = csv.reader(line for line in text if not line.startswith("#"))
    return [
        (row[0], float(celsius), printed)
        for row in body
        for celsius, printed in zip(head[1:], row[1:], strict=True)
        if printed
    ]


HANDBOOK = handbook()
FROM_HANDBOOK = {
    salt.solubility.formula
    for salt in salts.values()
    if salt.solubility and salt.solubility.source == "rumble2017"
}


@pytest.mark.parametrize("formula", sorted(FROM_HANDBOOK))
def test_every_solubility_of_the_handbook_gives_its_printed_percent_back(formula):
    printed = {celsius: text for name, celsius, text in HANDBOOK if name == formula}
    for salt in salts.values():
        if salt.solubility is None or salt.solubility.formula != formula:
            continue
        points = dict(salt.solubility.points)
        assert printed.keys() <= points.keys()
        from_memory = points.keys() - printed.keys()
        assert from_memory == ({0.0, 10.0} if formula == "Na2SO4" else set())
        for celsius, text in printed.items():
            percent = 100 * points[celsius] / (100 + points[celsius])
            assert abs(percent - float(text)) <= half_last_digit(text, formula), (salt, celsius)


def test_gypsum_is_that_of_the_handbook():
    printed = {(name, celsius): text for name, celsius, text in HANDBOOK}["CaSO4", 25.0]
    percent = 100 * (grams := GYPSUM * molar_mass("CaSO4") / 10) / (100 + grams)
    assert abs(percent - float(printed)) <= half_last_digit(printed, "CaSO4")


# "Solubility of common salts at ambient temperatures", mol/kg at 20 °C: another table of the same
# edition of the Handbook, in the same public transcription.
AMBIENT = {"Ca(NO3)2·4H2O": 7.986, "NH4Cl": 6.943, "NaBr": 8.856, "NaCl": 6.136, "NaNO3": 10.261}


@pytest.mark.parametrize(("formula", "molality"), AMBIENT.items())
def test_the_two_tables_of_the_handbook_agree_within_one_percent(formula, molality):
    assert most_that_dissolves(formula, 20.0) == pytest.approx(molality, rel=0.01)


# Ashton and others (1933), g in 100 g of water, ± 0.25; SRD 106, system 73_14.
MAGNESIUM_FORMATE = {0: 14.0, 10: 14.1, 20: 14.4, 30: 15.0, 40: 15.9}


def test_magnesium_formate_is_as_tabulated():
    assert dict(salts["Mg(HCOO)2·2H2O"].solubility.points) == MAGNESIUM_FORMATE


# Krasnicki (1887), from 0.8 to 80.5 °C, ± 0.4 g/kg; Ashton and others (1933), ± 1 g/kg; both as
# compiled in the IUPAC-NIST solubility database, SRD 106, systems 73_15 and 73_19. They lie up to
# 1.9 % above Lumsden's.
OTHER_FORMATE = {0.8: 162.8, 15.5: 167.2, 26.3: 170.4, 39.7: 173.6, 56.6: 177.0, 20.0: 167.0}


@pytest.mark.parametrize(("temperature", "grams"), OTHER_FORMATE.items())
def test_calcium_formate_dissolves_as_others_found(temperature, grams):
    assert calcium_formate_solubility(temperature) == pytest.approx(grams, rel=0.02)


def test_the_table_of_calcium_formate_is_the_relation():
    table = salts["Ca(HCOO)2"].solubility
    for temperature, grams in table.points:
        assert 10 * grams == pytest.approx(calcium_formate_solubility(temperature), abs=0.0501)


@EACH
def test_whoever_opens_a_classified_tin_is_told(salt):
    said = " ".join(salt.cautions())
    for hazard in salt.hazards:
        assert hazard.code in said
        assert ("unverified" in str(hazard)) == (hazard.read == "memory")
    if salt.signal:
        assert salt.hazards
        assert salt.wear
        assert salt.wear in said
        assert "safety data sheet" in said


def test_the_cautions_of_a_tin_come_in_the_order_in_which_they_are_needed():
    """Hazards first, then what to wear and to avoid, where to keep it, and who decides."""
    salt = salts["NaOH"]
    assert salt.cautions() == (
        f"sodium hydroxide: Danger. {salt.hazards[0]}; {salt.hazards[1]}.",
        f"sodium hydroxide, wear: {salt.wear}.",
        f"sodium hydroxide, never mix with: {salt.never_mix}.",
        f"sodium hydroxide, heat: {salt.heat}.",
        f"sodium hydroxide, rules: {salt.local_rules}.",
        f"sodium hydroxide, keep: {salt.storage}.",
        "The supplier's safety data sheet decides; local rules and licensed practice come first.",
    )


@EACH
def test_a_caution_says_something_or_is_not_there(salt):
    said = salt.cautions()
    assert not any(": ." in line for line in said)
    dangerous = salt.hazards or salt.heat or salt.never_mix or salt.wear or salt.local_rules
    assert bool(said) == bool(dangerous)


def test_a_hazard_says_whether_it_was_read():
    read, remembered = Hazard("H1", "bites", "secondary"), Hazard("H1", "bites", "memory")
    assert str(read) == "H1 bites"
    assert str(remembered) == "H1 bites (from memory, unverified)"


def test_what_is_not_recorded_of_a_source_is_empty():
    places = {s.formula: s.solubility.at for s in salts.values() if s.solubility}
    assert {formula for formula, at in places.items() if not at} == {"CaCO3", "Na2SiO3·5H2O"}
    assert {s.solubility.read for s in salts.values() if s.solubility} == {"memory", "secondary"}
    assert {h.read for s in salts.values() for h in s.hazards} == {"memory", "secondary"}


def test_what_was_seen_is_not_called_unverified():
    seen = {s.formula for s in salts.values() if any(h.read == "secondary" for h in s.hazards)}
    elsewhere = {s.formula for s in salts.values() if any(h.source for h in s.hazards)}
    assert seen - elsewhere == {"CaCl2", "CaCl2·2H2O", "CaCl2·6H2O", "Ca(OH)2"}
    assert elsewhere <= seen


@pytest.mark.parametrize("formula", ["KNO3", "NaNO3", "Ca(NO3)2·4H2O"])
def test_nitrates_point_to_local_rules(formula):
    said = " ".join(salts[formula].cautions())
    assert "regulated precursors" in said
    assert "follow the local rules" in said
    assert "never mix with: organic matter" in said


@pytest.mark.parametrize("formula", ["CaCl2", "NaOH", "CaO", "HCl", "CH3COOH"])
def test_what_heats_up_says_so(formula):
    assert any("heat" in line for line in salts[formula].cautions())


def test_every_sourced_solubility_is_in_the_bibliography():
    sourced = {
        salt.solubility.source
        for salt in salts.values()
        if salt.solubility and salt.solubility.read != "memory"
    }
    assert sourced == {"ashton1933", "bates1956", "lumsden1902", "rumble2017", "wikipedia2014"}
    assert sourced <= entries().keys()


@pytest.mark.parametrize("key", ["CaCl2.2H2O", "CaCl2*2H2O", "calcium chloride dihydrate"])
def test_a_salt_is_found_however_it_is_written(key):
    assert salts[key].formula == "CaCl2·2H2O"


def test_an_unknown_salt_is_refused_with_its_neighbours():
    with pytest.raises(UnknownSaltError, match=r"'CaCl2·4H2O' is not in the catalogue.*CaCl2·2H2O"):
        salts["CaCl2·4H2O"]
    with pytest.raises(DomainError):
        salts["unobtainium chloride"]
    assert "unobtainium" not in salts
    assert salts.get("unobtainium") is None
    assert "" not in salts
    assert len(salts) == len(list(salts)) == len(set(salts))


def test_outside_its_table_a_solubility_is_not_guessed():
    assert most_that_dissolves("NaHCO3", 60.0) is None
    assert most_that_dissolves("Ca(OH)2", 35.0) is None
    assert most_that_dissolves("C2H5OH", 25.0) is None


@EACH
def test_at_each_temperature_of_its_table_a_solubility_is_the_tabulated_one(salt):
    if salt.solubility is None:
        assert most_that_dissolves(salt.formula, 25.0) is None
        return
    grams_in_a_mole = molar_mass(salt.solubility.formula)
    for celsius, grams in salt.solubility.points:
        found = most_that_dissolves(salt.formula, celsius)
        assert found == pytest.approx(10 * grams / grams_in_a_mole, rel=1e-12)


def test_between_two_temperatures_of_its_table_a_solubility_lies_on_the_line():
    (low, a), (high, b), *_ = salts["NaHCO3"].solubility.points
    between = most_that_dissolves("NaHCO3", low + 0.25 * (high - low))
    assert between == pytest.approx(10 * (0.75 * a + 0.25 * b) / molar_mass("NaHCO3"), rel=1e-12)


@pytest.mark.parametrize(
    ("temperature", "known"),
    [(19.9, False), (20.0, True), (30.0, True), (30.1, False)],
)
def test_a_solubility_of_one_temperature_holds_within_five_degrees(temperature, known):
    assert len(salts["Ca(OH)2"].solubility.points) == 1
    at_25 = most_that_dissolves("Ca(OH)2", 25.0)
    assert most_that_dissolves("Ca(OH)2", temperature) == (at_25 if known else None)
