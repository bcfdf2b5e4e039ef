"""Masses of salts, against sums done by hand with the printed atomic weights."""

from __future__ import annotations

import pytest

from reefchem import dosing
from reefchem.core.errors import DomainError

# Prohaska et al. (2022), abridged: H 1.0080, C 12.011, O 15.999, Na 22.990, Cl 35.45, Ca 40.078.
SODA, SODA_ASH = 84.006, 105.988
DIHYDRATE, FORMATE = 147.008, 130.112

# 250 L, 0.4 meq/L more alkalinity: 100 mmol of equivalents; a powder of four fifths.
RISES = [
    ("sodium_hydrogencarbonate_mass", 8.4006),
    ("sodium_carbonate_mass", 5.2994),
    ("calcium_formate_mass", 6.5056),
]


@pytest.mark.parametrize(("name", "grams"), RISES)
def test_a_rise_of_alkalinity_weighs_what_the_sum_by_hand_says(name, grams):
    mass = getattr(dosing, name)
    assert mass(0.4, 250.0) == pytest.approx(grams, rel=1e-12)
    assert mass(0.4, 250.0, purity=0.8) == pytest.approx(grams / 0.8, rel=1e-12)
    assert mass(-0.4, 250.0) == pytest.approx(-grams, rel=1e-12)


def test_a_rise_of_calcium_weighs_what_the_sum_by_hand_says():
    # 40.078 mg/L in 100 L: a tenth of a mole.
    assert dosing.calcium_chloride_mass(40.078, 100.0) == pytest.approx(14.7008, rel=1e-12)
    assert dosing.calcium_chloride_mass(40.078, 100.0, 0.5) == pytest.approx(29.4016, rel=1e-12)


@pytest.mark.parametrize(
    ("molar_mass", "equivalents", "grams"),
    [(SODA, 1.0, 8.4006), (SODA_ASH, 2.0, 5.2994), (FORMATE, 2.0, 6.5056)],
)
def test_any_salt_is_weighed_by_its_molar_mass_and_its_equivalents(molar_mass, equivalents, grams):
    found = dosing.salt_mass(0.4, 250.0, molar_mass, equivalents)
    assert found == pytest.approx(grams, rel=1e-12)
    half = dosing.salt_mass(0.4, 250.0, molar_mass, equivalents, purity=0.5)
    assert half == pytest.approx(2 * grams, rel=1e-12)


def test_a_mole_of_calcium_goes_with_two_equivalents():
    assert dosing.calcium_chloride_for_hydrogencarbonate(2 * SODA) == pytest.approx(DIHYDRATE)
    assert dosing.calcium_chloride_for_carbonate(SODA_ASH) == pytest.approx(DIHYDRATE)


@pytest.mark.parametrize("purity", [-0.1, 1.1])
def test_a_powder_holds_none_to_all_of_its_salt(purity):
    with pytest.raises(DomainError, match=rf"purity is {purity}; 0 to 1 is possible"):
        dosing.salt_mass(0.4, 250.0, SODA, 1.0, purity)
