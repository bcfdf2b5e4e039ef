"""Dose nitrate, or less light? The answer against a tank kept by hand, and against itself."""

from __future__ import annotations

import math

import numpy as np
import pytest

from reefchem.core.errors import DomainError
from reefchem.uncertainty import Choice, nitrate_choices

NITRATE = 62.004
BROUGHT = 0.5 * 0.45 / 6.25 * 1000 / 180.0 * NITRATE / 14.007
"""mg/L a day from half a gram of food with 45 % protein in 180 L, by hand: 0.88533."""


def asked(*choices, **other):
    given = {
        "volume": (180.0, 4.0),
        "food": (0.5, 0.05),
        "protein": (0.45, 0.03),
        "nitrate_change": (-0.3, 0.05),
        "hours": 9.0,
    }
    return nitrate_choices(choices, **(given | other))


def kept_by_hand(gain, target, share=0.1, every=7):
    """Return the first day on which a tank from zero is at the target, with weekly changes."""
    level = 0.0
    for day in range(1, 2000):
        level += gain
        if level >= target:
            return day
        if day % every == 0:
            level *= 1 - share
    return math.inf


@pytest.mark.parametrize("dosed", [0.45, 0.5, 0.6, 0.8, 1.0])
def test_the_time_to_five_is_that_of_a_tank_kept_by_hand(dosed):
    """Between the weekly changes of a real tank and the steady flow lies less than a week."""
    (found,) = asked(Choice("dose", dosed=dosed))
    by_hand = kept_by_hand(dosed - 0.3, 5.0)
    assert found.days[1] == pytest.approx(by_hand, abs=7.0)


def test_a_dose_adds_to_what_the_readings_showed_whatever_the_food():
    (found,) = asked(Choice("dose", dosed=0.5))
    assert found.gain.value == pytest.approx(0.2, rel=1e-12)
    assert found.gain.standard == pytest.approx(0.05, rel=1e-9)
    assert found.gain.shares["food"] == pytest.approx(0.0, abs=1e-12)
    assert found.gain.shares["nitrate_change"] == pytest.approx(1.0)


def test_less_light_leaves_what_the_algae_no_longer_take():
    """In 6 of 9 hours two thirds of 1.18533 are taken; 0.88533 come in: 0.09511 is gained."""
    (found,) = asked(Choice("less light", hours=6.0))
    assert found.gain.value == pytest.approx(BROUGHT - (BROUGHT + 0.3) * 6 / 9, rel=1e-12)
    assert found.gain.value == pytest.approx(0.09511, abs=5e-6)


def test_the_doubt_about_food_matters_only_where_the_light_changes():
    dose, light = asked(Choice("dose", dosed=0.5), Choice("less light", hours=5.0))
    assert light.gain.shares["food"] > 0.2
    assert dose.gain.standard < light.gain.standard


def test_draws_and_slopes_agree():
    rate = -math.log(0.9) / 7
    for found in asked(Choice("dose", dosed=0.6), Choice("less light", hours=4.0)):
        low, middle, high = found.settled
        assert middle == pytest.approx(found.gain.value / rate, rel=0.02)
        assert (high - low) / 2 == pytest.approx(1.96 * found.gain.standard / rate, rel=0.05)


def test_as_many_members_reach_the_target_as_gain_enough_for_it():
    """The gain must beat what the changes take at the target: 5 mg/L times the rate."""
    (found,) = asked(Choice("dose", dosed=0.4))
    needed = 5 * -math.log(0.9) / 7
    z = (found.gain.value - needed) / found.gain.standard
    share = (1 + math.erf(z / math.sqrt(2))) / 2
    assert found.reached == pytest.approx(share, abs=0.02)
    assert 0.02 < share < 0.98
    assert found.days[2] == math.inf


def test_nitrogen_moves_the_alkalinity_and_a_dose_does_only_once_it_is_taken():
    """One equivalent for each nitrate: lost where food's gathers, gained where it is used."""
    for found in asked(
        Choice("as now"),
        Choice("dose", dosed=0.5),
        Choice("less light", hours=6.0),
        Choice("no carbon", carbon=0.0),
        denitrified=(0.1, 0.02),
        carbon=0.5,
    ):
        from_food = found.gain.value - found.choice.dosed
        assert found.gain.unit == found.phosphate.unit == "mg/L/day"
        assert found.alkalinity.unit == "meq/L/day"
        assert found.alkalinity.value == pytest.approx(-from_food / NITRATE, rel=1e-12, abs=1e-15)


def test_less_light_spares_the_phosphate_that_dosing_leaves_to_be_taken():
    dose, light = asked(Choice("dose", dosed=0.5), Choice("less light", hours=6.0))
    spared = (BROUGHT + 0.3) / 3 / NITRATE / 30 * 94.970
    assert light.phosphate.value - dose.phosphate.value == pytest.approx(spared, rel=1e-9)


def test_a_carbon_dose_that_stops_gives_back_what_bacteria_took():
    """0.5 mg/L of carbon, three tenths built in, at 106:16 by atoms: 0.11688 mg/L of nitrate."""
    now, less = asked(Choice("as now"), Choice("no carbon", carbon=0.0), carbon=0.5)
    assert now.gain.value == pytest.approx(-0.3, rel=1e-12)
    assert less.gain.value - now.gain.value == pytest.approx(0.11688, abs=5e-6)


def test_algae_with_light_to_spare_respond_less():
    proportional, spare = (
        asked(Choice("less light", hours=5.0), response=response)[0] for response in (1.0, 0.5)
    )
    assert spare.gain.value < proportional.gain.value


def test_a_tank_at_its_target_is_there_at_once():
    (found,) = asked(Choice("as now"), level=5.0)
    assert found.days == (0.0, 0.0, 0.0)


def test_the_closed_form_holds_in_random_tanks():
    """Members drawn one by one and kept by hand give the same middle of the days."""
    (found,) = asked(Choice("dose", dosed=0.7))
    draw = np.random.default_rng(3)
    days = sorted(kept_by_hand(0.7 + draw.normal(-0.3, 0.05), 5.0) for _ in range(2000))
    assert found.days[1] == pytest.approx(days[1000], abs=2.0)
    assert found.days[0] == pytest.approx(days[50], abs=2.0)
    assert found.days[2] == pytest.approx(days[1950], abs=2.0)


@pytest.mark.parametrize(
    ("other", "text"),
    [
        ({"food": (0.5, -0.1)}, "food is 0.5 with a standard uncertainty of -0.1"),
        ({"nitrate_change": math.nan}, "nitrate_change is nan"),
        ({"hours": 0.0}, "0.0 hours of light"),
        ({"share": 1.0}, "share of 1.0"),
        ({"food": (0.5, 0.3)}, "food is -"),
        ({"correlation": {("food", "protein"): 2.0}}, "-1 to 1 is possible"),
    ],
)
def test_what_cannot_be_is_refused(other, text):
    with pytest.raises(DomainError, match=text):
        asked(Choice("less light", hours=6.0), **other)
