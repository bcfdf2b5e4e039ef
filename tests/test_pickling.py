"""What goes from one process to another arrives as it was."""

from __future__ import annotations

import copy
import pickle

import numpy as np
import pytest
from conftest import ROOT

from reefchem import describe
from reefchem.carbonate import carbonate_system
from reefchem.core.record import calculations, records
from reefchem.dosing import StockSolution, all_in_one, dose_effect, two_part
from reefchem.formula import work
from reefchem.tank.plan import plan_from_file

WATER = {"salinity": 35.0, "temperature": 25.0}
ODD = {"carbonic": "waters2014", "boron": "lee2010"}


def there_and_back(thing):
    return pickle.loads(pickle.dumps(thing))  # noqa: S301 - our own bytes


def test_every_record_arrives_as_itself():
    for record in [*records().values(), *calculations().values()]:
        assert there_and_back(record) is record


def test_a_record_that_was_changed_is_not_sent_as_the_one_it_came_from():
    changed = copy.copy(describe("seawater_density"))
    changed.symbol = "D"
    assert describe("seawater_density").symbol != "D"
    with pytest.raises(TypeError, match="seawater_density is not the package's own, and cannot be"):
        pickle.dumps(changed)


@pytest.mark.parametrize("options", [{}, ODD, {"ammonium": 2.0}], ids=["usual", "odd", "ammonium"])
def test_a_state_arrives_with_all_its_parts_and_its_constants(options):
    state = carbonate_system(total_alkalinity=2300.0, dic=2000.0, **WATER, **options)
    assert there_and_back(state).as_dict() == state.as_dict()


def test_a_state_of_arrays_arrives():
    state = carbonate_system(total_alkalinity=np.array([2300.0, 2400.0]), dic=2000.0, **WATER)
    np.testing.assert_array_equal(there_and_back(state).ph_total, state.ph_total)


@pytest.mark.parametrize(
    "made",
    [
        StockSolution({"NaHCO3": 50.0}, purity={"NaHCO3": 0.98}, temperature=20.0),
        two_part(),
        all_in_one(),
        dose_effect(StockSolution({"NaHCO3": 50.0}), dose=10.0, volume=100.0),
    ],
    ids=["bottle", "pair", "all-in-one", "effect"],
)
def test_what_is_made_for_dosing_arrives_equal(made):
    assert there_and_back(made) == made
    assert copy.deepcopy(made) == made


def test_a_bottle_that_arrived_cannot_be_changed_either():
    arrived = there_and_back(StockSolution({"NaHCO3": 50.0}))
    with pytest.raises(TypeError):
        arrived.contents["NaHCO3"] = 60.0


def test_a_working_and_a_plan_arrive_word_for_word():
    shown = work("seawater_density", **WATER)
    assert there_and_back(shown).text() == shown.text()
    plan = plan_from_file(ROOT / "tests" / "tank" / "plans" / "below" / "tank.toml")
    arrived = there_and_back(plan)
    for before, after in zip(plan.sections, arrived.sections, strict=True):
        assert [line.text() for line in after.lines] == [line.text() for line in before.lines]
    assert {n: f.value for n, f in arrived.figures.items()} == {
        n: f.value for n, f in plan.figures.items()
    }
