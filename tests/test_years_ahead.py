"""Years of an uncertain tank: closed forms against a tank that is kept day by day."""

from __future__ import annotations

import tracemalloc
from dataclasses import replace

import numpy as np
import pytest

from reefchem.core.errors import DomainError
from reefchem.dosing import ion_after_periods, ionic_balance, two_part
from reefchem.tank.plan import dosing_plan, plan_from_file
from reefchem.uncertainty import (
    gradient,
    plan_ahead,
    plan_uncertainty,
    simulate,
    uncertainty,
    years_ahead,
)

MEQ_PER_DKH = 0.356652
SODA, CHLORIDE = "NaHCO3", "CaCl2·2H2O"
MASS = {"sodium": 22.990, "chloride": 35.45, "calcium": 40.078}
"""g/mol, IUPAC 2021 abridged."""

SODA_MASS, CHLORIDE_MASS = 84.006, 147.008
"""g/mol, summed by hand from the same weights."""


def tank(**other):
    given = {
        "volume": (180.0, 4.0),
        "alkalinity_uptake": (0.2, 0.004),
        "alkalinity": (2.7, 0.05),
        "fresh_alkalinity": (2.5, 0.05),
        "change": (18.0, 0.4),
        "start": {"calcium": (430.0, 8.0)},
        "members": 20_000,
    }
    doses = other.pop("doses", {SODA: ((44.0, 0.5), (75.0, 1.0)), CHLORIDE: (44.0, (65.0, 1.0))})
    return years_ahead(doses, **(given | other))


def day_by_day(volume, uptake, alkalinity, change, calcium, periods):
    """Keep one tank by hand, in litres and milligrams, with whole days and whole buckets."""
    start = years_ahead(
        {}, volume=volume, alkalinity_uptake=0.0, alkalinity=2.5, fresh_alkalinity=2.5,
        change=0.0, days=(0.0,), members=2,
    ).value  # fmt: skip
    fresh = {ion: float(value[0]) * volume for ion, value in start.items()}
    here = fresh | {"alkalinity": alkalinity * volume, "calcium": calcium * volume}
    salt = 35.16504 * 1.0233407  # g/L, reference salinity and the density at 35 and 25 °C
    ions = [ion for ion in here if ion != "alkalinity"]
    for _ in range(periods):
        before = sum(here[ion] for ion in ions)
        for _ in range(7):
            here["alkalinity"] += 44.0 * 75.0 / SODA_MASS - uptake * volume
            here["sodium"] += 44.0 * 75.0 / SODA_MASS * MASS["sodium"]
            here["calcium"] += 44.0 * 65.0 / CHLORIDE_MASS * MASS["calcium"]
            here["chloride"] += 2 * 44.0 * 65.0 / CHLORIDE_MASS * MASS["chloride"]
            here["calcium"] -= uptake / 2 * volume * MASS["calcium"]
        gained = (sum(here[ion] for ion in ions) - before) / 1000 / volume
        here = {ion: amount * salt / (salt + gained) for ion, amount in here.items()}
        share = change / volume
        here = {ion: amount + (fresh[ion] - amount) * share for ion, amount in here.items()}
    return {ion: amount / volume for ion, amount in here.items()}


def test_the_closed_form_is_what_keeping_the_tank_day_by_day_gives():
    for volume, uptake, alkalinity, change, calcium in (
        (180.0, 0.2, 2.7, 18.0, 430.0),
        (171.0, 0.212, 2.4, 25.0, 395.0),
    ):
        by_hand = day_by_day(volume, uptake, alkalinity, change, calcium, 521)
        found = years_ahead(
            {SODA: (44.0, 75.0), CHLORIDE: (44.0, 65.0)},
            volume=volume, alkalinity_uptake=uptake, alkalinity=alkalinity,
            fresh_alkalinity=2.5, change=change, start={"calcium": calcium},
            days=(3650.0,), members=2,
        )  # fmt: skip
        assert found.days == (3647.0,)
        for ion, value in by_hand.items():
            assert found.value[ion][0] == pytest.approx(value, rel=1e-6)


def test_the_ions_of_a_two_part_method_drift_as_the_ionic_balance_says():
    """The same drift, worked out by another way: what the method leaves for each equivalent."""
    left = ionic_balance(two_part().left, daily_uptake=0.2, time=364.0, share=0.1)
    soda, chloride = 0.2 * 180 * SODA_MASS / 75.0, 0.1 * 180 * CHLORIDE_MASS / 65.0
    found = years_ahead(
        {SODA: (soda, 75.0), CHLORIDE: (chloride, 65.0)},
        volume=180.0, alkalinity_uptake=0.2, alkalinity=2.5, fresh_alkalinity=2.5, change=18.0,
        days=(364.0,), members=2,
    )  # fmt: skip
    for ion, value in left.end.items():
        assert found.value[ion][0] == pytest.approx(value, rel=2e-5)


def test_draws_and_slopes_agree():
    made = tank()
    for ion in made.units:
        assert made.mean[ion] == pytest.approx(made.value[ion], rel=0.01)
        assert made.standard[ion] == pytest.approx(made.straight[ion], rel=0.03)
        half = (made.high[ion] - made.low[ion]) / 2
        assert half == pytest.approx(1.96 * made.straight[ion], rel=0.06)
        assert made.middle[ion] == pytest.approx(made.value[ion], rel=0.01)


def test_the_slopes_are_those_of_the_relation():
    """The gain of a litre in a week is linear in the uptake, so that one slope gives the other."""
    made = tank(correct_salinity=False)
    gain = 7 * (44.0 * 75.0 / SODA_MASS / 180.0 - 0.2)
    value, slopes = gradient(
        ion_after_periods,
        level=2.7, fresh=2.5, gain=gain, share=0.1, kept=0.9, periods=521.0,
    )  # fmt: skip
    assert made.value["alkalinity"][-1] == pytest.approx(value, rel=1e-6)
    parts = made.parts["alkalinity"]
    assert parts["alkalinity_uptake"] == pytest.approx(-7 * slopes["gain"] * 0.004, rel=1e-9)
    assert parts["fresh_alkalinity"] == pytest.approx(slopes["fresh"] * 0.05, rel=1e-9)
    by_share = slopes["share"] - slopes["kept"]
    assert parts["change"] == pytest.approx(by_share * 0.4 / 180.0, rel=1e-9)


def test_shares_add_to_one_and_name_the_input_to_measure_first():
    made = tank()
    for ion, shares in made.shares.items():
        assert sum(shares.values()) == pytest.approx(1.0), ion
    shares = made.shares["alkalinity"]
    assert max(shares, key=shares.get) == "volume"


def test_an_uptake_that_was_found_from_doses_makes_up_for_a_wrong_volume():
    """Two per cent more water would mean two per cent less uptake of each litre, by the same log.

    The balance of the two is what the log measured, so that together they do hardly any harm.
    """
    inputs = {"volume": (180.0, 3.6), "alkalinity_uptake": (0.2, 0.004), "change": 18.0}
    doses = {SODA: (0.2 * 180 * SODA_MASS / 75.0, 75.0)}
    alone = tank(doses=doses, **inputs)
    together = tank(doses=doses, correlation={("volume", "alkalinity_uptake"): -1.0}, **inputs)
    rest = tank(doses=doses, **{**inputs, "volume": 180.0, "alkalinity_uptake": 0.2})
    assert alone.standard["alkalinity"][-1] > 3 * rest.standard["alkalinity"][-1]
    assert together.standard["alkalinity"][-1] < 1.05 * rest.standard["alkalinity"][-1]


def test_without_changes_and_salt_the_doses_add_up():
    made = years_ahead(
        {}, volume=180.0, alkalinity_uptake=(0.001, 0.0001), alkalinity=5.0,
        fresh_alkalinity=2.5, change=0.0, days=(700.0,), members=4000, correct_salinity=False,
    )  # fmt: skip
    assert made.value["alkalinity"][0] == pytest.approx(5.0 - 0.7, rel=1e-12)
    assert made.straight["alkalinity"][0] == pytest.approx(0.07, rel=1e-9)
    assert made.standard["alkalinity"][0] == pytest.approx(0.07, rel=0.05)


def test_members_that_would_be_emptied_are_counted_and_not_mended():
    made = tank(doses={}, change=0.0, days=(7.0, 28.0))
    assert made.emptied["alkalinity"] == 1.0
    assert made.low["alkalinity"][-1] < 0
    assert made.emptied["sodium"] == 0.0


def test_memory_grows_with_members_and_not_with_ions():
    def peak(**other):
        tracemalloc.start()
        try:
            tank(**other)
            return tracemalloc.get_traced_memory()[1]
        finally:
            tracemalloc.stop()

    few = peak(members=50_000)
    many = peak(members=50_000, gains={f"thing {i}": 0.1 for i in range(40)})
    assert few < 8 * 50_000 * 45
    assert many < 1.1 * few


def test_progress_is_told_ion_by_ion():
    seen = []
    made = tank(members=100, progress=lambda done, of: seen.append((done, of)))
    count = len(made.units)
    assert seen == [(i, count) for i in range(1, count + 1)]
    assert count == 20


def test_the_same_seed_gives_the_same_sample():
    first, again, other = tank(seed=1), tank(seed=1), tank(seed=2)
    assert np.array_equal(first.mean["calcium"], again.mean["calcium"])
    assert not np.array_equal(first.mean["calcium"], other.mean["calcium"])


@pytest.mark.parametrize(
    ("other", "text"),
    [
        ({"volume": 0.0}, "volume is 0; more than 0"),
        ({"volume": (180.0, 90.0)}, "too wide for 180"),
        ({"alkalinity": -1.0}, "alkalinity is -1.0; it is finite, and 0 or more"),
        ({"change": (18.0, -1.0)}, "change has a standard uncertainty of -1.0"),
        ({"change": 200.0}, "of the volume is too much"),
        ({"members": 1}, "1 members"),
        ({"correlation": {("volume", "change"): 1.2}}, "-1 to 1 is possible"),
        ({"gains": {"nitrate": float("nan")}}, "gain nitrate is nan"),
    ],
)
def test_what_cannot_be_is_refused(other, text):
    with pytest.raises(DomainError, match=text):
        tank(**other)


def test_a_correlation_of_what_is_no_input_is_refused():
    with pytest.raises(TypeError, match="no argument 'depth' to correlate"):
        tank(correlation={("volume", "depth"): 0.5})


# A whole plan.

STANDARD = {
    "tank.volume": 4.0,
    "stock.soda": 1.0,
    "water_change.alkalinity": 0.1 * MEQ_PER_DKH,
    "readings.alkalinity": 0.1 * MEQ_PER_DKH,
}


@pytest.fixture(scope="module")
def plan(root):
    return plan_from_file(root / "demo" / "tank.toml")


@pytest.fixture(scope="module")
def sure(plan):
    return plan_uncertainty(plan, STANDARD)


def drawn_plans(plan, members, seed):
    """Make whole plans from drawn inputs; nothing here is shared with the other way."""
    random = np.random.default_rng(seed)
    made = []
    for _ in range(members):
        volume, strength, fresh = random.standard_normal(3)
        entries = tuple(
            replace(e, value=e.value + 0.1 * MEQ_PER_DKH * random.standard_normal())
            if (e.what, e.quantity) == ("reading", "alkalinity")
            else e
            for e in plan.log.entries
        )
        numbers = dict(plan.description.numbers)
        numbers["tank.volume"] += 4.0 * volume
        numbers["water_change.alkalinity"] += 0.1 * MEQ_PER_DKH * fresh
        soda, *others = plan.description.stocks
        stocks = (replace(soda, strength=soda.strength + strength), *others)
        description = replace(plan.description, numbers=numbers, stocks=stocks)
        found = dosing_plan(replace(plan.log, entries=entries), description).figures
        made.append([found[name].value for name in ("uptake", "dose", "level")])
    return np.array(made)


def test_the_uncertainty_of_a_plan_is_that_of_plans_from_drawn_inputs(plan, sure):
    drawn = drawn_plans(plan, 150, 5).std(axis=0)
    for name, spread in zip(("uptake", "dose", "level"), drawn, strict=True):
        assert sure.figures[name].standard == pytest.approx(spread, rel=0.2), name


def test_a_plan_names_what_to_measure_first(sure):
    """The uptake of a litre leans on the volume; the dose in millilitres does not."""
    assert sure.first("uptake") == "tank.volume"
    assert sure.first("dose") == "readings.alkalinity"
    assert sure.figures["dose"].shares["tank.volume"] < 0.1
    assert sum(sure.figures["uptake"].shares.values()) == pytest.approx(1.0)


def test_a_number_that_leans_on_one_input_has_the_slope_of_its_relation(plan, sure):
    """The next water change is a share of the volume, and the volume alone."""
    change = uncertainty("volume_to_change", share=0.1, volume=(180.0, 4.0))
    assert sure.figures["water_change"].standard == pytest.approx(change.standard, rel=1e-9)
    drawn = simulate("volume_to_change", share=0.1, volume=(180.0, 4.0))
    assert drawn.std() == pytest.approx(change.standard, rel=0.02)


def test_without_more_said_a_plan_is_as_sure_as_its_description(plan):
    made = plan_uncertainty(plan)
    share = plan.description.number("tank.volume_uncertainty")
    assert made.standard["tank.volume"] == pytest.approx(180.0 * share)
    assert made.standard["stock.soda"] == pytest.approx(
        75.0 * plan.description.stocks[0].uncertainty
    )
    assert made.standard["readings.alkalinity"] == plan.estimate.scatter
    again = plan_uncertainty(plan, made.standard)
    assert again.figures["dose"] == made.figures["dose"]


def test_progress_of_a_plan_is_told(plan):
    seen = []
    plan_uncertainty(plan, {"tank.volume": 1.0}, progress=lambda *now: seen.append(now))
    assert seen == [(1, 1)]


@pytest.mark.parametrize(
    ("standard", "text"),
    [
        ({"tank.depth": 1.0}, "no input of the plan"),
        ({"stock.syrup": 1.0}, "no stock has that name"),
        ({"readings.silver": 1.0}, "the log has no reading of silver"),
        ({"tank.volume": 0.0}, "more than 0 and finite"),
    ],
)
def test_an_unknown_input_of_a_plan_is_refused(plan, standard, text):
    with pytest.raises(DomainError, match=text):
        plan_uncertainty(plan, standard)


def test_the_tank_of_a_plan_is_carried_on_for_years(plan, sure):
    ahead = plan_ahead(sure, members=20_000)
    target = plan.description.number("targets.alkalinity")
    assert ahead.low["alkalinity"][-1] < target < ahead.high["alkalinity"][-1]
    assert ahead.standard["alkalinity"] == pytest.approx(ahead.straight["alkalinity"], rel=0.1)
    alone = plan_ahead(sure, members=2, volume=180.0, alkalinity_uptake=0.2)
    assert alone.straight["alkalinity"][-1] > 0


def quiet(**other):
    """Return a tank in which nothing happens but what is told."""
    given = {
        "volume": 180.0,
        "alkalinity_uptake": 0.0,
        "alkalinity": 2.7,
        "fresh_alkalinity": 2.5,
        "change": 0.0,
        "days": (70.0, 700.0),
        "members": 10,
    }
    return years_ahead({}, **(given | other))


def test_a_change_of_all_the_water_leaves_the_fresh_water():
    made = quiet(change=180.0, start={"calcium": 300.0}, fresh={"calcium": 420.0})
    assert made.value["alkalinity"] == pytest.approx([2.5, 2.5], rel=1e-12)
    assert made.value["calcium"] == pytest.approx([420.0, 420.0], rel=1e-12)


def test_water_that_loses_salt_is_not_thinned_for_it():
    """Corals take 0.0005 mmol/L of calcium a day; nobody adds fresh water, and sodium stays."""
    made = quiet(alkalinity_uptake=0.001)
    start = quiet(days=(0.0,)).value
    assert made.value["sodium"] == pytest.approx([start["sodium"][0]] * 2, rel=1e-12)
    lost = start["calcium"][0] - made.value["calcium"]
    assert lost == pytest.approx([70 * 0.0005 * 40.078, 700 * 0.0005 * 40.078], rel=1e-9)


def test_what_nobody_measured_and_seawater_has_not_begins_at_nothing():
    made = quiet(gains={"nitrate": 0.1})
    assert made.value["nitrate"] == pytest.approx([7.0, 70.0], rel=1e-12)
    assert made.units["nitrate"] == "mg/L"
    assert made.units["alkalinity"] == "meq/L"


def test_what_is_not_there_has_not_been_used_up():
    made = quiet(start={"nitrate": 0.0}, gains={"phosphate": -0.001})
    assert made.emptied["nitrate"] == 0.0
    assert made.emptied["phosphate"] == 1.0


def test_each_water_has_the_ions_of_its_own_salinity():
    made = quiet(salinity=33.0, fresh_salinity=36.0, change=90.0, days=(0.0, 700.0))
    reference = quiet(days=(0.0,)).value["sodium"][0]
    expected = [reference * 33 / 35, reference * 36 / 35]
    assert made.value["sodium"] == pytest.approx(expected, rel=1e-12)
