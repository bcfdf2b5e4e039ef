"""How sure the numbers of a whole plan are: what counts, and what is refused."""

from __future__ import annotations

from dataclasses import replace

import pytest

from reefchem.core.errors import DomainError
from reefchem.tank.plan import plan_from_file
from reefchem.uncertainty import plan_ahead, plan_uncertainty

STANDARD = {"tank.volume": 4.0, "stock.soda": 1.0}


@pytest.fixture(scope="module")
def plan(root):
    return plan_from_file(root / "demo" / "tank.toml")


@pytest.fixture(scope="module")
def sure(plan):
    return plan_uncertainty(plan, STANDARD)


def test_a_number_that_leans_on_no_input_has_none_to_measure_first(sure):
    certain = next(name for name, made in sure.figures.items() if not made.shares)
    with pytest.raises(DomainError, match=f"{certain} leans on none of tank.volume, stock.soda"):
        sure.first(certain)


def test_readings_are_independent_of_everything(plan):
    with pytest.raises(DomainError, match=r"readings\.alkalinity: readings are independent"):
        plan_uncertainty(
            plan,
            STANDARD | {"readings.alkalinity": 0.04},
            correlation={("readings.alkalinity", "tank.volume"): 0.5},
        )


def test_a_stock_that_is_as_wrong_as_the_volume_leaves_the_uptake_as_it_is(plan):
    """The uptake in a litre is grams over litres: two per cent more of both are none of it."""
    both = {"tank.volume": 1.8, "stock.soda": 0.75}
    apart = plan_uncertainty(plan, both).figures["uptake"]
    together = plan_uncertainty(plan, both, correlation={("tank.volume", "stock.soda"): 1.0})
    assert apart.standard > 0
    assert together.figures["uptake"].standard < 0.05 * apart.standard
    assert apart.parts["tank.volume"] < 0 < apart.parts["stock.soda"]


def test_a_reading_that_the_plan_does_not_look_at_has_no_part_in_its_doubt(plan):
    """The log is a year long, and the plan looks at 42 days of it."""
    seen = []
    plan_uncertainty(plan, {"readings.nitrate": 0.5}, progress=lambda *now: seen.append(now))
    readings = [e for e in plan.log.entries if (e.what, e.quantity) == ("reading", "nitrate")]
    last = readings[-1].when
    days = [(last - entry.when).total_seconds() / 86400 for entry in readings]
    assert len(seen) == sum(day <= 42.0 for day in days)
    assert len(seen) < len(readings)
    magnesium = [e.when for e in plan.log.readings("magnesium")]
    recent = sum((magnesium[-1] - when).total_seconds() <= 42 * 86400 for when in magnesium)
    assert recent < 3, "the test is about few readings"
    seen.clear()
    plan_uncertainty(plan, {"readings.magnesium": 9.0}, progress=lambda *now: seen.append(now))
    assert len(seen) == 3


def test_a_plan_without_a_dose_of_alkalinity_is_not_carried_on(plan, sure):
    stocks = tuple(stock for stock in plan.description.stocks if stock.name == "saltpetre")
    none = replace(plan, description=replace(plan.description, stocks=stocks))
    with pytest.raises(DomainError, match="the plan doses no alkalinity"):
        plan_ahead(replace(sure, plan=none), members=2)


def test_a_plan_that_is_carried_on_doses_what_it_says_for_as_long(plan):
    """Growth takes 4.6 mg/L of calcium a day; undosed, it would settle some 290 mg/L lower."""
    doubts = {"water_change.alkalinity": 0.1, "stock.calcium chloride": 1.0}
    ahead = plan_ahead(plan_uncertainty(plan, doubts), members=200)
    assert ahead.value["calcium"][-1] == pytest.approx(420.0, rel=0.25)
    assert ahead.parts["calcium"]["strength CaCl2·2H2O"] > 0
    assert ahead.parts["alkalinity"]["fresh_alkalinity"] > 0
