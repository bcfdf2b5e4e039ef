"""Mass and charge are conserved to 1e-12, for random salts, bottles and tanks."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from reefchem.core.atoms import atoms_in, molar_mass
from reefchem.core.errors import DomainError
from reefchem.dosing import (
    THIRD,
    StockSolution,
    all_in_one,
    dose_effect,
    dose_for,
    ionic_balance,
    salts,
    two_part,
)
from reefchem.dosing.growth import left_over, skeleton
from reefchem.dosing.species import COMPONENTS, components_of, dry_mass

EXACT = {"rel": 1e-12, "abs": 1e-15}
FORMULAS = st.sampled_from(sorted(salts))
STRENGTH = st.floats(1e-3, 400.0)
TANK = st.floats(5.0, 5000.0)
DOSE = st.floats(0.01, 500.0)


@st.composite
def bottles(draw):
    """Return a solution that can be made."""
    names = draw(st.lists(FORMULAS, min_size=1, max_size=3, unique=True))
    contents = {name: draw(STRENGTH) for name in names}
    purity = {name: draw(st.floats(0.3, 1.0)) for name in names}
    try:
        return StockSolution(contents, purity)
    except DomainError:
        assume(False)


def charge_and_alkalinity(components):
    return sum(COMPONENTS[name][1] * moles for name, moles in components.items())


@given(bottle=bottles(), dose=DOSE, volume=TANK)
def test_what_leaves_the_bottle_arrives_in_the_tank(bottle, dose, volume):
    effect = dose_effect(bottle, dose, volume=volume)
    assert set(effect.changes) == set(bottle.components)
    for name, change in effect.changes.items():
        assert change * volume == pytest.approx(bottle.potency(name) * dose, **EXACT)
    assert effect.alkalinity * volume == pytest.approx(bottle.alkalinity * dose, **EXACT)


@given(bottle=bottles(), dose=DOSE, volume=TANK)
def test_charges_of_a_dose_are_its_alkalinity(bottle, dose, volume):
    effect = dose_effect(bottle, dose, volume=volume)
    moles = {name: mg / molar_mass(COMPONENTS[name][0]) for name, mg in effect.changes.items()}
    scale = sum(abs(COMPONENTS[name][1]) * n for name, n in moles.items()) + 1e-300
    assert charge_and_alkalinity(moles) == pytest.approx(
        effect.alkalinity, rel=1e-12, abs=1e-12 * scale
    )


@given(bottle=bottles())
def test_a_bottle_holds_the_elements_of_its_salts(bottle):
    from_salts, from_ions = {}, {}
    for formula, moles in bottle.moles.items():
        for element, count in atoms_in(formula).items():
            from_salts[element] = from_salts.get(element, 0.0) + count * moles
        water = salts[formula].water * moles
        from_ions["O"] = from_ions.get("O", 0.0) + water
        from_ions["H"] = from_ions.get("H", 0.0) + 2 * water
    for ion, moles in bottle.species.items():
        for element, count in atoms_in(ion).items():
            from_ions[element] = from_ions.get(element, 0.0) + count * moles
    largest = max(from_salts.values())
    for element in from_salts.keys() | from_ions.keys():
        assert from_ions.get(element, 0.0) == pytest.approx(
            from_salts.get(element, 0.0), rel=1e-12, abs=1e-12 * largest
        )


@given(bottle=bottles())
def test_mass_in_is_ions_and_water(bottle):
    weighed = sum(grams * bottle.purity[f] for f, grams in bottle.contents.items())
    water = sum(n * salts[f].water * molar_mass("H2O") for f, n in bottle.moles.items())
    assert dry_mass(bottle.species) + water == pytest.approx(weighed, rel=1e-12)


@given(bottle=bottles(), volume=TANK, rise=st.floats(1e-6, 5.0))
def test_dose_for_is_the_inverse_of_dose_effect(bottle, volume, rise):
    name = next(iter(bottle.components), None)
    assume(name is not None)
    dose = dose_for(bottle, rise, name, volume=volume, most=float("inf"))
    assert dose * bottle.potency(name) / volume == pytest.approx(rise, rel=1e-12)


@given(
    calcium=st.sampled_from(["CaCl2", "CaCl2·2H2O", "CaCl2·6H2O", "Ca(NO3)2·4H2O"]),
    alkali=st.sampled_from(["NaHCO3", "Na2CO3", "NaOH"]),
    potency=st.floats(0.01, 0.9),
    magnesium=st.floats(0.0, 250.0),
    strontium=st.floats(0.0, 15.0),
)
def test_a_pair_replaces_growth_and_what_is_left_is_neutral(
    calcium, alkali, potency, magnesium, strontium
):
    pair = two_part(
        calcium_salt=calcium,
        alkalinity_salt=alkali,
        potency=potency,
        magnesium_per_calcium=magnesium,
        strontium_per_calcium=strontium,
    )
    grown = skeleton(magnesium, strontium)
    assert sum(grown[m] for m in ("calcium", "magnesium", "strontium")) == pytest.approx(0.5)
    assert pair.calcium.component_moles["calcium"] == pytest.approx(
        potency * grown["calcium"], **EXACT
    )
    assert pair.alkalinity.alkalinity_after_oxidation == pytest.approx(potency, **EXACT)
    assert abs(pair.left.get("calcium", 0.0)) < 1e-12
    assert abs(pair.left.get("alkalinity", 0.0)) < 1e-12
    assert charge_and_alkalinity(
        {name: n for name, n in pair.left.items() if name != "alkalinity"}
    ) == pytest.approx(pair.left.get("alkalinity", 0.0), abs=1e-12)


@given(
    alkali=st.sampled_from(["NaHCO3", "Na2CO3"]),
    magnesium=st.floats(0.0, 200.0),
    offered=st.lists(
        st.sampled_from([*THIRD, "K2SO4", "Na2SO4", "NaCl"]), min_size=1, max_size=5, unique=True
    ),
)
def test_a_third_solution_keeps_charge_and_mass(alkali, magnesium, offered):
    three = two_part(
        alkalinity_salt=alkali,
        third=tuple(offered),
        potency=0.1,
        magnesium_per_calcium=magnesium,
    )
    left = {name: n for name, n in three.left.items() if name != "alkalinity"}
    assert charge_and_alkalinity(left) == pytest.approx(
        three.left.get("alkalinity", 0.0), abs=1e-12
    )
    charges = {"sodium": 1, "magnesium": 2, "calcium": 2, "potassium": 1, "chloride": -1}
    charges |= {"sulfate": -2, "alkalinity": -1}
    assert sum(charges[ion] * n for ion, n in three.misfit.items()) == pytest.approx(0.0, abs=1e-9)
    everything = {}
    for solution in (three.calcium, three.alkalinity, three.third):
        for name, n in (solution.component_moles if solution else {}).items():
            everything[name] = everything.get(name, 0.0) + n / 0.1
    for name, n in skeleton(magnesium).items():
        everything[name] = everything.get(name, 0.0) - n
    for name, n in left.items():
        assert everything[name] == pytest.approx(n, rel=1e-9, abs=1e-12)


@given(
    organic=st.sampled_from(["Ca(HCOO)2", "Ca(CH3COO)2", "Ca(CH3COO)2·H2O"]),
    potency=st.floats(0.01, 2.0),
)
def test_an_all_in_one_leaves_nothing(organic, potency):
    bottle = all_in_one(calcium_salt=organic, potency=potency)
    assert all(abs(n) < 1e-12 for n in bottle.left.values())
    assert bottle.solution.alkalinity_after_oxidation == pytest.approx(potency, **EXACT)


@given(
    moles=st.dictionaries(FORMULAS, st.floats(0.0, 3.0), min_size=1, max_size=5),
    magnesium=st.floats(0.0, 300.0),
)
def test_what_is_left_is_what_was_dosed_less_what_grew(moles, magnesium):
    species = {}
    for formula, n in moles.items():
        for ion, count in salts[formula].ions.items():
            species[ion] = species.get(ion, 0.0) + count * n
    grown = skeleton(magnesium)
    left, dosed = left_over(species, grown), components_of(species)
    assert not left.keys() & {"inorganic carbon", "formate", "acetate", "ethanol"}
    for name in left.keys() - {"alkalinity"}:
        assert left[name] == pytest.approx(dosed.get(name, 0.0) - grown.get(name, 0.0), **EXACT)


@given(
    uptake=st.floats(0.01, 1.0),
    share=st.floats(0.0, 0.5),
    weeks=st.integers(1, 40),
    correct=st.booleans(),
)
def test_the_closed_form_is_the_weeks_one_by_one(uptake, share, weeks, correct):
    """Exact fractions, one week after the other: gain, fresh water for the salinity, change."""
    balance = ionic_balance(
        two_part().left,
        daily_uptake=uptake,
        time=7.0 * weeks,
        share=share,
        correct_salinity=correct,
    )
    gain = {name: Fraction(balance.gain.get(name, 0.0)) for name in balance.start}
    now = {name: Fraction(level) for name, level in balance.start.items()}
    f, r = Fraction(share), Fraction(balance.replaced)
    for _ in range(weeks):
        for name, level in now.items():
            kept = (level + gain[name]) * (1 - r) * (1 - f)
            now[name] = kept + f * Fraction(balance.start[name])
    for name, level in now.items():
        assert balance.end[name] == pytest.approx(float(level), rel=1e-12)


@given(uptake=st.floats(0.01, 1.0), share=st.floats(0.01, 0.5))
def test_the_salt_of_a_litre_is_held_by_the_correction(uptake, share):
    """What is gained in a period is what fresh water and water change take out of the excess."""
    balance = ionic_balance(two_part().left, daily_uptake=uptake, time=70.0, share=share)
    salt = 35.16504 * 1.02334306  # g in a litre
    gained = sum(balance.gain.values()) / 1000
    assert (salt + gained) * (1 - balance.replaced) == pytest.approx(salt, rel=1e-6)


@given(bottle=bottles())
def test_a_mass_and_its_volume_are_inverse(bottle):
    for formula, grams in bottle.mass_for(250.0).items():
        assert bottle.volume_from(formula, grams) == pytest.approx(250.0, rel=1e-12)
