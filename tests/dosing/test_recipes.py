"""Recipes, limewater, a reactor, months of drift: values by hand, then refusals."""

from __future__ import annotations

import json

import numpy as np
import pytest

from reefchem.core.errors import DomainError
from reefchem.core.quantity import quantity
from reefchem.dosing import (
    THIRD,
    all_in_one,
    calcium_reactor,
    charge_gap,
    ionic_balance,
    limewater,
    limewater_concentration,
    sea_salt_left,
    seawater_left,
    share_replaced,
    two_part,
    water_change_for_bound,
)
from reefchem.dosing.catalogue import salts
from reefchem.dosing.proportions import ReferenceSeawater
from reefchem.dosing.third_solution import CHARGES, balance_salts, reference_ions
from reefchem.seawater import reference_salinity
from reefchem.seawater.reference_composition import composition

DEGREE = 0.356652
FLOW = {"daily_uptake": DEGREE, "time": 365.0}


def test_a_pair_of_one_equivalent_by_hand():
    """1 mol of NaHCO3, 84.006 g, and half a mole of CaCl2·2H2O, 73.504 g; one of NaCl is left."""
    pair = two_part(potency=1.0)
    assert pair.masses()["alkalinity"]["NaHCO3"] == pytest.approx(84.006)
    assert pair.masses()["calcium"]["CaCl2·2H2O"] == pytest.approx(73.504)
    assert pair.left["sodium"] == pytest.approx(1.0)
    assert pair.left["chloride"] == pytest.approx(1.0)


def test_water_of_the_salt_is_in_the_mass():
    """CaCl2 : dihydrate : hexahydrate = 1 : 1.3247 : 1.9740 by mass for the same calcium."""
    masses = {
        salt: two_part(calcium_salt=salt).masses()["calcium"][salt]
        for salt in ("CaCl2", "CaCl2·2H2O", "CaCl2·6H2O")
    }
    assert masses["CaCl2·2H2O"] / masses["CaCl2"] == pytest.approx(1.3247, abs=5e-5)
    assert masses["CaCl2·6H2O"] / masses["CaCl2"] == pytest.approx(1.9740, abs=5e-5)


def test_baking_soda_and_soda_ash_leave_the_same():
    baked, ash = two_part(), two_part(alkalinity_salt="Na2CO3")
    assert baked.left == pytest.approx(ash.left)


def test_three_solutions_leave_sea_salt_exactly():
    """What is left, over what seawater has, is one number for every ion."""
    three = two_part(third=THIRD)
    sea = reference_ions()
    share = {ion: three.left[ion] / sea[ion] for ion in sea}
    expected = seawater_left(1.0)
    assert share == pytest.approx(dict.fromkeys(sea, 1000 * expected), rel=1e-5)
    assert three.sea_salt == pytest.approx(1000 * sea_salt_left(1.0), rel=1e-5)
    assert all(abs(misfit) < 1e-9 for misfit in three.misfit.values())


def test_three_solutions_with_soda_ash_leave_the_same_sea_salt():
    baked = two_part(third=THIRD)
    ash = two_part(third=THIRD, alkalinity_salt="Na2CO3")
    assert ash.left == pytest.approx(baked.left, abs=1e-9)


def test_magnesium_of_the_skeleton_comes_from_the_third_solution():
    plain = two_part(third=THIRD)
    coral = two_part(third=THIRD, magnesium_per_calcium=5.0)
    algae = two_part(third=THIRD, magnesium_per_calcium=150.0)
    magnesium = [x.third.component_moles["magnesium"] for x in (plain, coral, algae)]
    assert magnesium == sorted(magnesium)
    assert magnesium[1] - magnesium[0] == pytest.approx(0.5 * 0.5 * 0.005 / 1.005, rel=1e-6)


def test_strontium_of_the_skeleton_comes_from_the_calcium_bottle():
    """Skeleton by hand: 9 mmol Sr to a mole of Ca; half a mole of both is one equivalent."""
    plain = two_part(third=THIRD, strontium_per_calcium=9.0)
    full = two_part(third=(*THIRD, "SrCl2·6H2O"), strontium_per_calcium=9.0)
    assert plain.left["strontium"] == pytest.approx(-0.5 * 0.009 / 1.009)
    assert "SrCl2·6H2O" in full.calcium.contents
    sea = reference_ions(frozenset({"strontium"}))
    share = full.left["sodium"] / sea["sodium"]
    for ion in sea:
        assert full.left[ion] == pytest.approx(share * sea[ion], rel=1e-9)
    dosed = full.calcium.component_moles["strontium"] / full.potency
    assert dosed == pytest.approx(0.5 * 0.009 / 1.009 + share * sea["strontium"])


def test_with_every_minor_salt_offered_the_whole_of_sea_salt_is_left():
    offered = (*THIRD, "SrCl2·6H2O", "Na2B4O7·10H2O", "NaBr", "NaF")
    full = two_part(third=offered, magnesium_per_calcium=4.5, strontium_per_calcium=9.0)
    apart = frozenset({"strontium", "boron", "bromide", "fluoride"})
    sea = reference_ions(apart)
    share = full.left["sodium"] / sea["sodium"]
    assert {ion: full.left[ion] for ion in sea} == pytest.approx(
        {ion: share * amount for ion, amount in sea.items()}, rel=1e-7
    )
    assert set(full.alkalinity.contents) == {"NaHCO3", "Na2B4O7·10H2O", "NaF"}
    balance = ionic_balance(full.left, **FLOW)
    for ion in ("boron", "bromide", "fluoride", "strontium", "potassium"):
        assert balance.change(ion) == pytest.approx(0.0, abs=1e-3)


def test_a_skeleton_may_be_half_magnesium():
    pair = two_part(magnesium_per_calcium=1000.0)
    assert pair.calcium.component_moles["calcium"] == pytest.approx(0.5 * 0.25, rel=1e-12)
    assert pair.left["magnesium"] == pytest.approx(-0.25, rel=1e-12)


def test_the_third_solution_says_what_it_cannot_match():
    only_magnesium = two_part(third=("MgCl2·6H2O",))
    assert only_magnesium.misfit["potassium"] < 0
    assert only_magnesium.misfit["sulfate"] < 0


def test_seawater_without_calcium_and_alkalinity_does_not_balance():
    """Calcium with strontium carries 20.75 meq/kg, alkalinity 2.30: 18.4 meq/kg are missing."""
    ions = reference_ions()
    assert sum(ions[ion] * charge for ion, charge in CHARGES.items()) == pytest.approx(0, abs=1e-15)
    rest = sum(
        ions[ion] * charge
        for ion, charge in CHARGES.items()
        if ion not in {"calcium", "alkalinity"}
    )
    assert rest < 0
    assert -1000 * rest == pytest.approx(
        charge_gap(1000 * ions["calcium"], 1000 * ions["alkalinity"])
    )
    assert 1000 * ions["alkalinity"] == pytest.approx(2.3044, abs=5e-5)  # Millero et al. (2008)


def test_growth_that_is_not_neutral_is_refused():
    """A mole of calcium carries two charges, the equivalent of alkalinity that goes with it one."""
    with pytest.raises(DomainError, match="cannot replace what growth takes"):
        balance_salts((salts["CaCl2"], salts["NaHCO3"]), {"calcium": 1.0})


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        ({"calcium_salt": "NaCl"}, "NaCl brings no calcium; one that does: CaCl2"),
        ({"alkalinity_salt": "KCl"}, "KCl brings no alkalinity; one that does: NaHCO3"),
        ({"calcium_salt": "Ca(HCOO)2"}, "use it alone, as an all-in-one"),
        ({"alkalinity_salt": "Ca(OH)2"}, "do not make a pair"),
        ({"potency": 2.0}, "does not dissolve"),
        ({"potency": 0.0}, "potency is 0.0 meq/mL"),
        ({"potency": 1.0, "alkalinity_salt": "Ca(CH3COO)2"}, "do not make a pair"),
        ({"magnesium_per_calcium": -1.0}, "magnesium_per_calcium is -1.0"),
        ({"magnesium_per_calcium": 1000.1}, "magnesium_per_calcium is 1000.1 .* 0 to 1000 is"),
        ({"strontium_per_calcium": -1.0}, "strontium_per_calcium is -1.0"),
        ({"third": ("KNO3",)}, "KNO3 brings more than the ions of sea salt"),
        ({"third": ("KI",)}, "KI brings more than the ions of sea salt"),
    ],
)
def test_pairs_that_are_none_are_refused(arguments, message):
    with pytest.raises(DomainError, match=message):
        two_part(**arguments)


def test_an_all_in_one_by_hand():
    """2 meq/mL of calcium formate: 130.112 g/L; 15.999 mg of O2 and 12.011 mg of C for a meq."""
    bottle = all_in_one(potency=2.0)
    assert bottle.solution.contents["Ca(HCOO)2"] == pytest.approx(130.112)
    assert bottle.oxygen == pytest.approx(15.999)
    assert bottle.carbon == pytest.approx(12.011)
    assert bottle.two_part_salt == pytest.approx(58.440)
    assert bottle.left == {}


def test_acetate_takes_four_times_the_oxygen():
    formate, acetate = all_in_one(), all_in_one(calcium_salt="Ca(CH3COO)2")
    assert acetate.oxygen == pytest.approx(4 * formate.oxygen)
    assert acetate.carbon == pytest.approx(2 * formate.carbon)


def test_magnesium_formate_keeps_the_skeleton_whole():
    both = all_in_one(magnesium_salt="Mg(HCOO)2·2H2O", magnesium_per_calcium=40.0)
    assert both.left == {}
    moles = both.solution.component_moles
    assert moles["magnesium"] / moles["calcium"] == pytest.approx(0.04)
    little = all_in_one(magnesium_salt="Mg(HCOO)2·2H2O", magnesium_per_calcium=0.5)
    moles = little.solution.component_moles
    assert moles["magnesium"] / moles["calcium"] == pytest.approx(0.0005)


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        ({"calcium_salt": "CaCl2"}, "no calcium salt of an organic acid; known are Ca.HCOO.2"),
        ({"calcium_salt": "NaHCO3"}, "do not keep in one bottle, with or without an additive"),
        ({"potency": 3.0}, "does not dissolve"),
        ({"magnesium_per_calcium": 0.5}, "go together"),
        ({"magnesium_salt": "Mg(HCOO)2·2H2O"}, "go together"),
    ],
)
def test_all_in_ones_that_are_none_are_refused(arguments, message):
    with pytest.raises(DomainError, match=message):
        all_in_one(**arguments)


@pytest.mark.parametrize(
    ("salt", "told"),
    [("CaCl2", True), ("NaHCO3", True), ("NaCl", False), ("Mg(HCOO)2·2H2O", False)],
)
def test_only_who_may_have_meant_two_parts_is_told_that_they_do_not_keep(salt, told):
    with pytest.raises(DomainError, match=r"known are Ca\(HCOO\)2, Ca\(CH3COO\)2") as refused:
        all_in_one(calcium_salt=salt)
    assert ("do not keep in one bottle" in str(refused.value)) == told
    assert "Mg(" not in str(refused.value).partition("known are")[2]


def test_limewater_by_hand():
    """1 L of 40.6 meq/L into 100 L is 0.406 meq/L a day; 0.0203 mol are 1.504 g of lime."""
    lime = limewater(daily_uptake=0.812, evaporation=1.0, volume=100.0)
    assert lime.most == pytest.approx(0.406)
    assert lime.share == pytest.approx(0.5)
    assert lime.daily == pytest.approx(1.0)
    assert lime.lime == pytest.approx(0.0203 * 74.092)
    assert lime.calcium == pytest.approx(0.406 / 2 * 40.078)


def test_limewater_doses_no_more_than_is_used():
    lime = limewater(daily_uptake=0.203, evaporation=1.0, volume=100.0)
    assert lime.share == pytest.approx(2.0)
    assert lime.daily == pytest.approx(0.5)
    with_units = limewater(
        daily_uptake=quantity(0.203, "meq/L/day"),
        evaporation=quantity(1.0, "L/day"),
        volume=quantity(100.0, "L"),
        lime_temperature=quantity(25.0, "degC"),
    )
    assert with_units.daily.to("mL/day").magnitude == pytest.approx(500.0)


def test_limewater_takes_arrays_and_a_tank_that_does_not_evaporate():
    lime = limewater(daily_uptake=0.4, evaporation=np.array([0.0, 0.5, 2.0]), volume=100.0)
    assert lime.most == pytest.approx([0.0, 0.203, 0.812])
    assert lime.daily == pytest.approx([0.0, 0.5, 2.0 * 0.4 / 0.812])
    assert limewater(daily_uptake=0.4, evaporation=0.0, volume=100.0).daily == 0.0


def test_limewater_warns_everywhere():
    lime = limewater(daily_uptake=0.4, evaporation=1.0, volume=100.0)
    for printed in (lime.text(), lime.html(), json.dumps(lime.as_dict())):
        assert "H318" in printed
        assert "do not aerate" in printed
    with pytest.raises(DomainError, match="daily_uptake is 0"):
        limewater(daily_uptake=0.0, evaporation=1.0, volume=100.0)


REACTOR = {
    "daily_uptake": 0.2,
    "volume": 200.0,
    "alkalinity": 2.8,
    "ph_total": 8.0,
    "effluent_alkalinity": 10.8,
    "effluent_ph_total": 6.4,
}


def test_a_reactor_by_hand():
    """40 meq a day from 8 meq/L: 5 L. They are 20 mmol of CaCO3, 2.0017 g."""
    reactor = calcium_reactor(**REACTOR)
    assert reactor.drip == pytest.approx(5.0)
    assert reactor.aragonite == pytest.approx(2.00172)
    assert reactor.gas == pytest.approx(reactor.carbon_dioxide * 5.0 * 44.009 / 1000)
    assert reactor.ph_mixed < reactor.ph_before
    assert reactor.omega < 1.0


def test_a_reactor_at_a_lower_ph_wastes_gas():
    more = calcium_reactor(**REACTOR | {"effluent_ph_total": 6.2})
    less = calcium_reactor(**REACTOR)
    assert more.carbon_dioxide > less.carbon_dioxide
    assert more.ph_mixed < less.ph_mixed
    with pytest.raises(DomainError, match="must be more than that of the tank"):
        calcium_reactor(**REACTOR | {"effluent_alkalinity": 2.0})


def test_a_year_without_water_changes_by_hand():
    """52.14 weeks, 0.4056 % of the water each: exp(-0.2119) = 0.81 of what nobody doses is left."""
    balance = ionic_balance(two_part().left, **FLOW)
    salt = 35.16504 * 1.02334306
    weekly = 7 * DEGREE * 58.440 / 1000
    assert balance.replaced == pytest.approx(share_replaced(weekly, salt), rel=1e-5)
    left = (salt / (salt + weekly)) ** (365 / 7)
    assert balance.change("magnesium") == pytest.approx(left - 1, rel=1e-5)
    assert balance.change("potassium") == pytest.approx(-0.190, abs=0.0005)


def test_uncorrected_salinity_rises_by_the_salt():
    """365 days at one degree are 7.608 g/L of NaCl: 7.40 of salinity."""
    balance = ionic_balance(two_part().left, **FLOW, correct_salinity=False)
    assert balance.salinity_end == pytest.approx(42.40, abs=0.005)
    assert balance.end["sodium"] - balance.start["sodium"] == pytest.approx(
        365 * DEGREE * 22.990, rel=1e-9
    )


def test_water_changes_alone_settle_by_their_share():
    """A tenth each week: the distance falls to 0.9 of it in 7 days, to 1/e in 7 / 0.1053605."""
    quiet = ionic_balance({}, **FLOW, share=0.1)
    assert quiet.settling == pytest.approx(66.4386, abs=5e-5)
    assert quiet.kept == pytest.approx(0.9, rel=1e-12)
    assert quiet.salinity_end == pytest.approx(35.0, rel=1e-12)


def test_without_water_change_and_correction_nothing_settles():
    balance = ionic_balance(
        {"sodium": 1.0, "chloride": 1.0, "magnesium": -0.01}, **FLOW, correct_salinity=False
    )
    assert balance.settling == float("inf")
    assert balance.settled["sodium"] == float("inf")
    assert balance.settled["magnesium"] == -float("inf")
    assert balance.settled["potassium"] == balance.start["potassium"]


def test_where_all_water_is_changed_each_time_everything_settles_at_once():
    balance = ionic_balance(two_part().left, **FLOW, share=1.0)
    assert balance.settling == 0.0
    assert balance.settled == pytest.approx(balance.start)


def test_an_uptake_that_is_not_known_leaves_no_number_known():
    balance = ionic_balance(two_part().left, daily_uptake=float("nan"), time=365.0)
    for number in (balance.settling, balance.salinity_end, balance.end["magnesium"]):
        assert number != number


def test_a_balance_takes_quantities_and_keeps_its_own_defaults():
    units = {"daily_uptake": quantity(DEGREE, "meq/L/day"), "time": quantity(52.0, "week")}
    found = ionic_balance(two_part().left, **units, share=0.1)
    bare = ionic_balance(two_part().left, daily_uptake=DEGREE, time=364.0, share=0.1)
    assert found.change("magnesium") == pytest.approx(bare.change("magnesium"))
    assert found.settling.to("day").magnitude == pytest.approx(bare.settling)


@pytest.mark.parametrize("left", [{}, all_in_one().left])
def test_limewater_and_formate_leave_the_water_as_it_is(left):
    balance = ionic_balance(left, **FLOW)
    assert balance.end == pytest.approx(balance.start)
    assert balance.replaced == 0.0


def test_three_solutions_hold_every_major_ion():
    balance = ionic_balance(two_part(third=THIRD).left, **FLOW, share=0.1)
    for ion in ("sodium", "magnesium", "calcium", "potassium", "chloride", "sulfate"):
        assert balance.change(ion) == pytest.approx(0.0, abs=0.001)
    assert balance.change("boron") < -0.04


def test_the_water_change_for_a_bound_keeps_it():
    weekly = ionic_balance(two_part().left, **FLOW).replaced
    share = water_change_for_bound(0.05, weekly)
    balance = ionic_balance(two_part().left, **FLOW | {"time": 1e5}, share=share)
    assert balance.change("magnesium") == pytest.approx(-0.05, rel=1e-6)
    assert balance.settled["magnesium"] / balance.start["magnesium"] == pytest.approx(0.95)


def test_drift_starts_at_the_reference_composition():
    balance = ionic_balance({}, **FLOW)
    litre = composition(35.0).mass_concentrations(25.0)
    for ion in ("sodium", "magnesium", "chloride", "sulfate", "fluoride"):
        assert balance.start[ion] == pytest.approx(litre[ion], rel=1e-12)


def test_cautions_of_a_recipe_go_with_it():
    pair = two_part(alkalinity_salt="Na2CO3")
    balance = ionic_balance(pair.left, **FLOW, cautions=pair.cautions)
    for report in (pair, balance):
        for printed in (report.text(), report.html(), json.dumps(report.as_dict())):
            assert "H319" in printed
            assert "never pour them together" in printed


def test_limewater_weakens_with_warmth_as_handbooks_say():
    """Two handbook series, g in 100 g at 20 and 30 °C; secondary copies, not verified."""
    fall = limewater_concentration(30.0) / limewater_concentration(20.0)
    for cool, warm in ((0.165, 0.153), (0.173, 0.160)):
        assert fall == pytest.approx(warm / cool, abs=0.004)


def test_the_numbers_of_reference_seawater_are_those_of_its_ions():
    fit = ReferenceSeawater()
    assert fit.n_sodium == pytest.approx(1000 * composition(35.0).sodium, abs=5e-5)
    assert fit.a_sea == pytest.approx(1000 * reference_ions()["alkalinity"], abs=5e-5)
    assert fit.m_salt == pytest.approx(reference_salinity(35.0), rel=1e-12)
