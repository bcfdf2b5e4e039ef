"""What is left out of a question about uncertainty is taken as the page of the book says."""

from __future__ import annotations

import numpy as np

from reefchem.seawater import seawater_density
from reefchem.uncertainty import Choice, nitrate_choices, simulate, years_ahead

TANK = {
    "volume": (180.0, 4.0),
    "alkalinity_uptake": (0.2, 0.004),
    "alkalinity": 2.7,
    "fresh_alkalinity": 2.5,
    "change": 18.0,
}
DOSES = {"NaHCO3": (44.0, 75.0), "CaCl2·2H2O": (44.0, 65.0)}


def same(first, second):
    """Return whether two answers hold the same numbers, the arrays in them as well."""
    for name, one in vars(first).items():
        other = vars(second)[name]
        if isinstance(one, dict):
            assert one.keys() == other.keys()
            assert all(np.array_equal(one[key], other[key]) for key in one), name
        else:
            assert one == other, name
    return True


def test_a_tank_is_told_after_each_of_ten_years_of_weekly_changes():
    told = years_ahead(
        DOSES,
        **TANK,
        period=7.0,
        salinity=35.0,
        fresh_salinity=35.0,
        temperature=25.0,
        start=None,
        fresh=None,
        gains=None,
        magnesium_per_calcium=0.0,
        strontium_per_calcium=0.0,
        correct_salinity=True,
        days=[365.0 * year for year in range(1, 11)],
        members=200,
        seed=0,
        correlation=None,
    )
    assert same(years_ahead(DOSES, **TANK, members=200), told)
    assert told.days == tuple(7.0 * (365 * year // 7) for year in range(1, 11))


def test_a_sample_has_a_hundred_thousand_members_and_the_seed_nought():
    few = {"volume": 180.0, "alkalinity_uptake": (0.2, 0.004), "days": (7.0,)}
    asked = TANK | few
    assert years_ahead({}, **asked).members == 100_000
    drawn = simulate(seawater_density, salinity=(35.0, 0.1), temperature=25.0)
    told = simulate(
        seawater_density, members=100_000, seed=0, salinity=(35.0, 0.1), temperature=25.0
    )
    assert np.array_equal(drawn, told)


def test_a_choice_that_names_nothing_leaves_all_as_it_is():
    tank = {
        "volume": (180.0, 4.0),
        "food": (0.5, 0.05),
        "protein": (0.45, 0.03),
        "nitrate_change": (-0.3, 0.05),
        "hours": 9.0,
    }
    told = nitrate_choices(
        [Choice("none", dosed=0.0, hours=None, food=None, carbon=None)],
        **tank,
        level=0.0,
        target=5.0,
        fresh=0.0,
        share=0.1,
        every=7.0,
        kept=0.0,
        phosphorus=0.01,
        denitrified=0.0,
        response=1.0,
        carbon=0.0,
        built=0.3,
        carbon_per_nitrogen=6.625,
        members=20_000,
        seed=0,
        correlation=None,
    )
    assert nitrate_choices([Choice("none")], **tank) == told
    same_light = nitrate_choices([Choice("none", hours=9.0, food=0.5, carbon=0.0)], **tank)
    assert told[0].gain.value == same_light[0].gain.value
