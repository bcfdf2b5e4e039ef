"""Stock solutions: labels, refusals that protect, and the unknown bottle."""

from __future__ import annotations

import re

import pytest

from reefchem.core.errors import DomainError
from reefchem.dosing import StockSolution, potency_from_rise, potency_uncertainty, salts

# One solution told in every usual way. By hand: 50.551 g/L KNO3 over 101.102 g/mol is 0.5 mol/L, so
# 31.002 g/L of nitrate and 19.549 g/L of potassium; the density is an example.
LABELS = [
    (50.551, "g/L"),
    (50.551, "mg/mL"),
    (5.0551, "g/100 mL"),
    (5.0551, "% w/v"),
    (0.5, "mol/L"),
    (0.5, "mmol/mL"),
    (31.002, "mg/mL nitrate"),
    (31.002, "g/L nitrate"),
    (31002.0, "mg/L nitrate"),
    (19549.0, "mg/L potassium"),
]


@pytest.mark.parametrize(("value", "unit"), LABELS)
def test_every_label_of_one_solution_says_the_same(value, unit):
    assert StockSolution.of("KNO3", value, unit).contents["KNO3"] == pytest.approx(50.551, rel=1e-9)


def test_per_cent_by_weight_needs_the_density():
    found = StockSolution.of("KNO3", 4.9, "% w/w", density=1.03)
    assert found.contents["KNO3"] == pytest.approx(50.47)
    with pytest.raises(DomainError, match=r"4\.9 % w/w of KNO3 needs the density"):
        StockSolution.of("KNO3", 4.9, "% w/w")


@pytest.mark.parametrize(
    ("salt", "potency"), [("NaHCO3", 1.0), ("Na2CO3", 2.0), ("Ca(HCOO)2", 2.0), ("NaOH", 1.0)]
)
def test_a_mole_in_a_litre_has_its_equivalents(salt, potency):
    molar = StockSolution.of(salt, 1.0, "mol/L")
    assert molar.alkalinity_after_oxidation == pytest.approx(potency, rel=1e-12)
    again = StockSolution.of(salt, potency, "meq/mL")
    assert again.contents[salt] == pytest.approx(molar.contents[salt], rel=1e-12)


def test_purity_makes_a_bottle_weaker():
    half = StockSolution({"NaHCO3": 84.006}, {"NaHCO3": 0.5})
    assert half.alkalinity == pytest.approx(0.5)
    asked = StockSolution.of("NaHCO3", 0.5, "mol/L", purity=0.5)
    assert asked.contents["NaHCO3"] == pytest.approx(84.006)


def test_from_mass_and_a_flask():
    assert StockSolution.from_mass("NaHCO3", 21.0015, 250.0).alkalinity == pytest.approx(1.0)


def test_a_solution_of_a_hydrate_counts_its_water():
    dry = StockSolution({"CaCl2": 110.978})
    wet = StockSolution({"CaCl2·2H2O": 147.008})
    assert wet.potency("calcium") == pytest.approx(dry.potency("calcium"), rel=1e-12)


REFUSED = [
    (
        {"NaHCO3": 150.0},
        r"150 g/L of sodium hydrogencarbonate .* does not dissolve.* Use more water",
    ),
    ({"Ca(OH)2": 3.0}, r"3 g/L of calcium hydroxide .* at most about 1\.53 g/L .*bates1956"),
    ({"Ca(HCOO)2": 200.0}, r"200 g/L of calcium formate .* does not dissolve .*lumsden1902"),
    ({"CaCO3": 10.0}, r"calcium carbonate .* does not dissolve"),
    (
        {"CaCl2·2H2O": 70.0, "NaHCO3": 70.0},
        r"CaCl2·2H2O and NaHCO3 cannot share a bottle: calcium carbonate falls out\. Make two",
    ),
    ({"MgCl2·6H2O": 50.0, "Na2CO3": 50.0}, "magnesium carbonate falls out"),
    ({"Ca(HCOO)2": 50.0, "Na2CO3": 50.0}, "calcium carbonate falls out"),
    ({"MgSO4·7H2O": 50.0, "NaOH": 10.0}, "magnesium hydroxide falls out"),
    ({"SrCl2·6H2O": 5.0, "Na2SO4": 50.0}, "strontium sulfate falls out"),
    ({"CaCl2": 50.0, "K2HPO4": 5.0}, "calcium phosphate falls out"),
    ({"CaCl2": 50.0, "NaF": 1.0}, "calcium fluoride falls out"),
    ({"MgCl2·6H2O": 50.0, "NaF": 1.0}, "magnesium fluoride falls out"),
    ({"CaCl2": 50.0, "MgSO4·7H2O": 50.0}, r"gypsum falls out.*Put the sulfate into another"),
    ({"HCl": 20.0, "NaHCO3": 50.0}, "carbon dioxide foams up"),
    ({"CH3COOH": 20.0, "NaOH": 10.0}, "acid and base heat up"),
    ({"NH4Cl": 5.0, "NaOH": 10.0}, "ammonia gas escapes"),
    ({"CaCO3": 0.01, "NH4Cl": 5.0}, "NH4Cl and CaCO3 cannot share a bottle: ammonia gas escapes"),
    ({"NaHCO3": 50.0, "NaCl": 150.0}, r"would fall out .* its ions are 1\.21 times"),
    (
        {"NaHCO3": 90.0, "NaCl": 200.0},
        r"sodium hydrogencarbonate .* would fall out of this mixture.* Dilute to \d+ % or less",
    ),
    ({"KCl": 300.0, "NaNO3": 400.0}, r"potassium nitrate .* would fall out"),
]


@pytest.mark.parametrize(("contents", "message"), REFUSED)
def test_a_bottle_that_cannot_be_made_is_refused_with_what_to_do(contents, message):
    with pytest.raises(DomainError, match=message):
        StockSolution(contents)


@pytest.mark.parametrize("salty", [150.0, 175.0, 200.0, 225.0, 250.0])
def test_what_the_advice_says_can_be_made_and_a_per_cent_more_can_not(salty):
    """Diluted as the message says, the mixture is accepted."""
    contents = {"NaHCO3": 90.0, "NaCl": salty}
    with pytest.raises(DomainError, match="Dilute to") as refused:
        StockSolution(contents)
    per_cent = int(re.search(r"Dilute to (\d+) % or less", str(refused.value))[1])
    StockSolution({formula: per_cent / 100 * grams for formula, grams in contents.items()})
    with pytest.raises(DomainError, match="would fall out of this mixture"):
        StockSolution({f: (per_cent + 1) / 100 * grams for f, grams in contents.items()})


@pytest.mark.parametrize(
    "contents",
    [
        {"Ca(OH)2": 1.5},
        {"Na2CO3": 50.0, "NaHCO3": 20.0},
        {"MgCl2·6H2O": 200.0, "MgSO4·7H2O": 50.0, "KCl": 20.0},
        {"Ca(HCOO)2": 100.0, "Mg(HCOO)2·2H2O": 5.0, "SrCl2·6H2O": 1.0},
        {"CaCl2·2H2O": 300.0, "SrCl2·6H2O": 5.0},
    ],
)
def test_usual_bottles_are_accepted(contents):
    assert StockSolution(contents).contents == contents


def test_a_measured_density_sharpens_the_judgement():
    """600 g/L would need less water than there is; by the density there is too little."""
    assert StockSolution({"CaCl2": 700.0}).potency("calcium") > 0
    with pytest.raises(DomainError, match="700 g/L of calcium chloride, anhydrous"):
        StockSolution({"CaCl2": 700.0}, density=1.45)
    with pytest.raises(DomainError, match="no room for water"):
        StockSolution({"C2H5OH": 1000.0}, density=0.95)


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (({},), "name nothing"),
        (({"NaHCO3": -1.0},), "NaHCO3 is -1.0; more than 0"),
        (({"NaHCO3": float("nan")},), "more than 0 is possible"),
        (({"NaHCO3": float("inf")},), "NaHCO3 is inf; more than 0"),
        (({"NaHCO3": 0.0},), "NaHCO3 is 0.0; more than 0"),
        (({"NaHCO3": True},), "NaHCO3 is True; a number is expected"),
        (({"NaHCO3": "70"},), "a number is expected"),
        (({"NaHCO3": 70.0}, {"NaHCO3": 1.2}), r"purity of NaHCO3 is 1\.2"),
        (({"NaHCO3": 70.0}, {"KCl": 0.9}), "which is not in it"),
        (({"NaHCO3": 35.0, "baking soda": 35.0},), "a salt twice"),
        (({"NaHCO3": 70.0}, {"NaHCO3": 0.0}), "purity of NaHCO3 is 0.0; more than 0"),
        (({"NaHCO3": 70.0}, {"NaHCO3": "pure"}), "purity of NaHCO3 is 'pure'; a number"),
        (({"NaHCO3": 70.0}, {}, 100.1), "temperature is 100.1"),
        (({"NaHCO3": 70.0}, {}, -5.1), "temperature is -5.1"),
        (({"NaHCO3": 70.0}, {}, 25.0, 0.89), "density is 0.89"),
        (({"NaHCO3": 70.0}, {}, 25.0, 2.51), "density is 2.51"),
    ],
)
def test_what_describes_no_solution_is_refused(arguments, message):
    with pytest.raises(DomainError, match=message):
        StockSolution(*arguments)


@pytest.mark.parametrize("temperature", [-5.0, 100.0])
@pytest.mark.parametrize("density", [None, 0.9, 2.5])
def test_the_ends_of_what_is_possible_are_possible(temperature, density):
    bottle = StockSolution({"KCl": 10.0}, {"KCl": 1.0}, temperature, density)
    assert (bottle.temperature, bottle.density) == (temperature, density)


def test_a_bottle_that_is_told_by_names_is_known_by_its_formulas():
    named = StockSolution(
        {"baking soda": 70.0}, {"baking soda": 0.5}, moisture={"Baking Soda": 0.1}
    )
    assert named.contents == {"NaHCO3": 70.0}
    assert named.purity == {"NaHCO3": 0.5}
    assert named.moisture == {"NaHCO3": 0.1}
    assert named.alkalinity == pytest.approx(70.0 * 0.45 / 84.006, rel=1e-12)


@pytest.mark.parametrize("volume", [0.0, -1.0])
def test_a_volume_is_more_than_nothing(volume):
    with pytest.raises(DomainError, match=f"volume is {volume}; more than 0"):
        StockSolution.from_mass("NaHCO3", 40.0, volume)
    with pytest.raises(DomainError, match=f"volume is {volume}; more than 0"):
        StockSolution({"NaHCO3": 80.0}).mass_for(volume)


def test_the_water_of_a_hydrate_is_water_of_the_bottle():
    # A mole of CaCl2·2H2O in a litre of 1.1 kg: 110.978 g are salt, whatever was weighed.
    hydrate = StockSolution({"CaCl2·2H2O": 147.008}, density=1.1)
    assert hydrate._water() == pytest.approx(1.1 - 0.110978, rel=1e-12)
    poor = StockSolution({"CaCl2·2H2O": 147.008}, {"CaCl2·2H2O": 0.5}, density=1.1)
    assert poor._water() == pytest.approx(1.1 - 0.147008 + 0.5 * 0.03603, rel=1e-12)


@pytest.mark.parametrize("unit", ["meq/mL", "eq/L"])
def test_equivalents_in_a_litre_are_milliequivalents_in_a_millilitre(unit):
    found = StockSolution.of("Na2CO3", 0.5, unit)
    assert found.contents["Na2CO3"] == pytest.approx(0.25 * 105.988, rel=1e-12)


@pytest.mark.parametrize(
    ("unit", "message"),
    [
        ("ppm", "say per litre or per kilogram, and of what"),
        ("%", "say per litre or per kilogram, and of what"),
        ("mg/mL calcium", "no unit of a label of KNO3"),
        ("meq/mL", "KNO3 brings no alkalinity"),
    ],
)
def test_a_label_that_says_too_little_is_refused(unit, message):
    with pytest.raises(DomainError, match=message):
        StockSolution.of("KNO3", 5.0, unit)


def test_every_salt_alone_at_a_gram_in_a_litre_is_a_solution():
    for formula in salts:
        if formula == "CaCO3":
            continue
        assert StockSolution({formula: 1.0}).contents == {formula: 1.0}


def test_an_unknown_bottle_is_known_by_the_rise_it_makes():
    """5 mL into 10 L raise 0.5 meq/L: 1 meq/mL. Errors 0.05 meq/L, 0.1 L, 0.05 mL: 10, 1, 1 %."""
    potency = potency_from_rise(0.5, 10.0, 5.0)
    error = potency_uncertainty(0.5, 10.0, 5.0, 0.05, 0.1, 0.05)
    assert potency == 1.0
    assert error == pytest.approx((0.1**2 + 0.01**2 + 0.01**2) ** 0.5)


def test_the_uncertainty_is_what_propagation_gives():
    from reefchem.uncertainty import uncertainty  # noqa: PLC0415 - a second way to the same number

    measured = {"alkalinity_rise": (0.5, 0.05), "volume": (10.0, 0.1), "dose": (5.0, 0.05)}
    found = uncertainty(potency_from_rise, **measured)
    expected = potency_uncertainty(0.5, 10.0, 5.0, 0.05, 0.1, 0.05)
    assert found.standard == pytest.approx(expected)


def test_moisture_makes_a_bottle_weaker_and_is_water():
    # By hand: 100 g of a powder with 10 % of water, of which 98 % of the rest is salt, hold 88.2 g.
    damp = StockSolution({"KNO3": 100.0}, {"KNO3": 0.98}, moisture={"KNO3": 0.1})
    assert damp.share_of("KNO3") == pytest.approx(0.882, rel=1e-12)
    assert damp.moles["KNO3"] == pytest.approx(88.2 / 101.102, rel=1e-12)
    told = StockSolution.of("KNO3", 100.0, purity=0.98, moisture=0.1)
    assert told.potency("nitrate") == pytest.approx(damp.potency("nitrate"), rel=1e-12)
    made = StockSolution.from_mass("KNO3", 25.0, 250.0, moisture=0.1)
    assert made.moles["KNO3"] == pytest.approx(90.0 / 101.102, rel=1e-12)


def test_the_label_of_a_damp_powder_is_what_the_bottle_brings():
    bottle = StockSolution.of("KNO3", 31.0, "mg/mL nitrate", purity=0.98, moisture=0.2)
    assert bottle.potency("nitrate") == pytest.approx(31.0, rel=1e-12)
    dry = StockSolution.of("KNO3", 31.0, "mg/mL nitrate")
    assert bottle.contents["KNO3"] == pytest.approx(dry.contents["KNO3"] / 0.784, rel=1e-12)


def test_the_water_of_a_damp_powder_dissolves_with_the_rest():
    # A litre of 1.1 kg with 200 g of powder, half of it water: 0.1 kg is salt and 1.0 kg is water.
    damp = StockSolution({"NaCl": 200.0}, density=1.1, moisture={"NaCl": 0.5})
    assert damp._water() == pytest.approx(1.0, rel=1e-12)


@pytest.mark.parametrize("moisture", [-0.1, 1.0, 2.0, True, "much"])
def test_an_impossible_moisture_is_refused(moisture):
    with pytest.raises(DomainError, match="0 to less than 1 is possible"):
        StockSolution({"KNO3": 20.0}, moisture={"KNO3": moisture})


def test_moisture_of_what_is_not_in_the_bottle_is_refused():
    with pytest.raises(DomainError, match=r"moisture is given for \['NaCl'\]"):
        StockSolution({"KNO3": 20.0}, moisture={"NaCl": 0.1})
