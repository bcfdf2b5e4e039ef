"""Numbers that nobody published: definitions, what statistics says, and what was chosen here.

A choice has no authority but the sentence of the book or of the code that states it; it is held
here, so that it cannot change without a word.
"""

from __future__ import annotations

import math

import pytest
from scipy import stats

from reefchem.core.errors import DomainError
from reefchem.dosing import bottle, effect, limewater_concentration, oxidation
from reefchem.dosing.third_solution import reference_ions
from reefchem.seawater import composition, refractometer, report
from reefchem.seawater.specific_gravity import likely_scales
from reefchem.tank import dilution, nitrogen_in_food, robust, uptake_fit
from reefchem.tank.planning import (
    alkalinity,
    behind,
    bottles,
    confidence,
    consistency,
    ions,
    methods,
    nitrate,
    today,
)


def test_a_week_a_month_and_a_year_are_those_of_the_plan():
    assert alkalinity.AHEAD == 7.0
    assert alkalinity.MONTH == 30.0
    assert behind.YEAR == 365.0


def test_calcium_carries_two_equivalents():
    assert today.CALCIUM_EQUIVALENTS == 2.0


def test_half_is_left_after_a_half_life():
    assert math.exp(-oxidation.LN2) == pytest.approx(0.5, rel=1e-15)


def test_a_change_is_seen_at_the_quantiles_of_the_normal_distribution():
    # Two-sided 5 % of false alarms, 80 % of what is there: 1.960 + 0.842.
    seen = stats.norm.ppf(0.975) + stats.norm.ppf(0.8)
    assert pytest.approx(seen, abs=0.05) == confidence.SEEN
    assert confidence.SEEN == 2.8


def test_protein_has_sixteen_percent_of_nitrogen():
    # Jones (1931): 100 / 16 = 6.25.
    assert nitrogen_in_food(2.0, 0.25) == pytest.approx(0.16 * 2.0 * 0.25 * 1000, rel=1e-12)


def test_the_tail_beyond_chance_is_one_in_forty():
    # Eleven degrees of freedom, of which 0.8 are counted, by another routine.
    counted = 0.8 * 11
    edge = math.sqrt(stats.chi2.isf(1 / 40, counted) / counted)
    assert robust.noisier_than_stated(edge * 1.000001, 1.0, 11)
    assert not robust.noisier_than_stated(edge * 0.999999, 1.0, 11)


def test_what_a_robust_fit_counts_of_its_readings():
    assert robust.KEPT_FREEDOM == 0.85
    assert robust.SCATTER_FREEDOM == 0.8


def test_an_outlier_is_told_from_three_and_a_half():
    # Iglewicz and Hoaglin (1993), from memory.
    assert uptake_fit.OUTLIER == 3.5


def test_two_standard_uncertainties_are_a_contradiction():
    assert consistency.APART == 2.0
    assert report.COVERAGE == 2.0


def test_what_was_chosen_is_as_it_is_written():
    assert alkalinity.LEAST_RATE == 0.8
    assert confidence.TENTH == 0.1
    assert ions.QUARTER == 0.25
    assert nitrate.NEAR == 0.25
    assert dilution.UNCERTAINTY == 0.25
    assert bottles.ROOM == 20.0
    assert methods.ROOM == 25.0
    assert bottle.ROOM == 1.02
    assert effect.PARTS == 50.0


def test_saturated_gypsum_is_that_of_the_handbook():
    # Rumble (2017): 0.205 % by mass at 25 °C, as CaSO4 of 136.13 g/mol.
    molality = 1000 * 0.205 / (100 - 0.205) / 136.13
    assert pytest.approx(molality, abs=5e-5) == bottle.GYPSUM
    assert bottle.GYPSUM == 0.0151


def test_a_gram_of_salt_adds_what_the_handbook_leaves_over():
    # From memory: 1.3391 at 35 g/kg, 1.33299 for water.
    assert pytest.approx((1.3391 - 1.33299) / 35, abs=5e-8) == refractometer.SALT_INCREMENT


def test_limewater_weakens_with_warmth_as_two_remembered_values_say():
    # 0.165 and 0.153 g in 100 g of water at 20 and 30 °C, each known to half a unit.
    ratio = limewater_concentration(30.0) / limewater_concentration(20.0)
    assert 0.1525 / 0.1655 < ratio < 0.1535 / 0.1645


def test_the_reference_is_seawater_of_salinity_35():
    calcium = composition(35.0).amounts["calcium"] + composition(35.0).amounts["strontium"]
    assert reference_ions()["calcium"] == pytest.approx(calcium, rel=1e-12)


@pytest.mark.parametrize("reading", [0.9, 1.2])
def test_a_specific_gravity_lies_between_nine_and_twelve_tenths(reading):
    with pytest.raises(DomainError, match=r"a specific gravity of 0\.9 to 1\.2 is possible"):
        likely_scales(reading, salinity=35.0, temperature=25.0)
    inside = reading + math.copysign(1e-6, 1.0 - reading)
    assert likely_scales(inside, salinity=35.0, temperature=25.0)
