"""Uncertainty: two independent ways must agree, and derivatives must be those of the function."""

from __future__ import annotations

import math

import gsw
import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from reefchem.core.errors import DomainError, NoRootError
from reefchem.core.quantity import quantity
from reefchem.core.record import records
from reefchem.dosing import rise_from_dose
from reefchem.seawater import salinity_from_density, seawater_density
from reefchem.uncertainty import gradient, simulate, uncertainty

RECORDS = records()


@pytest.mark.parametrize("record", RECORDS.values(), ids=RECORDS.keys())
@pytest.mark.filterwarnings("ignore::reefchem.core.errors.RangeWarning")
@given(fraction=st.floats(0.05, 0.95))
def test_slopes_are_the_limit_of_differences(record, fraction):
    point = {}
    for index, (name, argument) in enumerate(record.arguments.items()):
        low, high = argument.span
        share = math.modf(fraction + 0.377 * index)[0]
        point[name] = low + (0.1 + 0.8 * share) * (high - low)
    try:
        value, slopes = gradient(record.function, **point)
    except (NoRootError, DomainError):
        assume(False)
    assert value == pytest.approx(record.function(**point), rel=1e-12)
    for name, slope in slopes.items():
        low, high = record.arguments[name].span
        step = 1e-5 * (high - low)
        ahead = record.function(**{**point, name: point[name] + step})
        behind = record.function(**{**point, name: point[name] - step})
        numeric = (ahead - behind) / (2 * step)
        scale = abs(value) / (high - low)
        assert slope == pytest.approx(numeric, rel=2e-4, abs=2e-6 * scale)


def test_slope_of_density_with_temperature_is_the_thermal_expansion_of_teos10():
    # gsw.rho_alpha_beta: an independent equation of state, whose slope differs by its own fit.
    conservative = gsw.CT_from_t(35.16504, 25.0, 0.0)
    density, expansion, _ = gsw.rho_alpha_beta(35.16504, conservative, 0.0)
    _, slopes = gradient(seawater_density, salinity=35.0, temperature=25.0)
    assert slopes["temperature"] == pytest.approx(-density * expansion, abs=1e-3)


def test_both_ways_agree():
    inputs = {"density": (1023.34, 0.1), "temperature": (25.0, 0.5)}
    straight = uncertainty(salinity_from_density, **inputs)
    drawn = simulate(salinity_from_density, **inputs)
    assert drawn.mean() == pytest.approx(straight.value, abs=0.01)
    assert drawn.std() == pytest.approx(straight.standard, rel=0.02)


def test_shares_add_to_one_and_name_the_weakest_measurement():
    made = uncertainty(salinity_from_density, density=(1023.34, 0.5), temperature=(25.0, 0.1))
    assert sum(made.shares.values()) == pytest.approx(1.0)
    assert max(made.shares, key=made.shares.get) == "density"


def test_correlated_inputs_agree_both_ways():
    inputs = {"density": (1023.34, 0.1), "temperature": (25.0, 0.5)}
    together = {("density", "temperature"): -0.8}
    straight = uncertainty(salinity_from_density, correlation=together, **inputs)
    drawn = simulate(salinity_from_density, correlation=together, **inputs)
    alone = uncertainty(salinity_from_density, **inputs)
    assert straight.standard < alone.standard
    assert drawn.std() == pytest.approx(straight.standard, rel=0.02)


def test_the_interval_holds_95_in_100_of_the_draws():
    inputs = {"salinity": (35.0, 0.5), "temperature": (25.0, 0.5)}
    low, high = uncertainty(seawater_density, **inputs).interval
    drawn = simulate(seawater_density, **inputs)
    assert np.mean((drawn > low) & (drawn < high)) == pytest.approx(0.95, abs=0.005)


def test_quantities_carry_their_own_uncertainty():
    bare = uncertainty(seawater_density, salinity=35.0, temperature=(25.0, 0.5))
    made = uncertainty(
        seawater_density,
        salinity=35.0,
        temperature=(quantity(77.0, "degF"), quantity(0.9, "delta_degF")),
    )
    assert made.standard == pytest.approx(bare.standard, rel=1e-9)


@pytest.mark.parametrize(
    ("spread", "text"), [(-0.1, "0 or more"), (math.inf, "finite"), (math.nan, "0 or more")]
)
def test_an_impossible_uncertainty_is_refused(spread, text):
    with pytest.raises(DomainError, match=text):
        uncertainty(seawater_density, salinity=(35.0, spread), temperature=25.0)


def test_impossible_correlations_are_refused():
    inputs = {"salinity": (35.0, 0.5), "temperature": (25.0, 0.5)}
    with pytest.raises(DomainError, match="-1 to 1"):
        uncertainty(seawater_density, correlation={("salinity", "temperature"): 1.5}, **inputs)
    with pytest.raises(TypeError, match="no argument 'depth'"):
        simulate(seawater_density, correlation={("salinity", "depth"): 0.5}, **inputs)


def test_a_draw_that_cannot_be_is_refused():
    with pytest.raises(DomainError, match="salinity is -"):
        simulate(seawater_density, salinity=(1.0, 5.0), temperature=25.0)


def test_no_finite_slope_is_said_aloud():
    with pytest.raises(DomainError, match="no finite slope"):
        gradient(seawater_density, salinity=0.0, temperature=25.0)


def test_the_slope_of_a_root_is_the_implicit_one():
    """dS/dt along equal density is -(drho/dt) / (drho/dS), which needs no search."""
    _, found = gradient(salinity_from_density, density=1023.34, temperature=25.0)
    salinity = salinity_from_density(1023.34, 25.0)
    _, density = gradient(seawater_density, salinity=salinity, temperature=25.0)
    implicit = -density["temperature"] / density["salinity"]
    assert found["temperature"] == pytest.approx(implicit, rel=1e-9)
    assert found["density"] == pytest.approx(1 / density["salinity"], rel=1e-9)


def test_shares_of_correlated_inputs_add_to_one_as_well():
    made = uncertainty(
        salinity_from_density,
        correlation={("density", "temperature"): -0.8},
        density=(1023.34, 0.1),
        temperature=(25.0, 0.5),
    )
    assert sum(made.shares.values()) == pytest.approx(1.0)
    assert made.parts["density"] > 0
    assert made.parts["temperature"] > 0


def test_inputs_may_hang_together_completely():
    """Two volumes from one wrong jug: the doubt of their ratio drops out."""
    inputs = {"dose": (20.0, 1.0), "volume": (200.0, 10.0), "potency": 1.0}
    together = {("dose", "volume"): 1.0}
    assert uncertainty(rise_from_dose, correlation=together, **inputs).standard < 1e-9
    assert simulate(rise_from_dose, correlation=together, members=1000, **inputs).std() < 1e-9


def test_three_correlations_that_contradict_each_other_are_refused():
    pairs = {("dose", "volume"): 0.9, ("volume", "potency"): 0.9, ("dose", "potency"): -0.9}
    inputs = {"dose": (20.0, 1.0), "volume": (200.0, 10.0), "potency": (1.0, 0.1)}
    with pytest.raises(DomainError, match="cannot all hold"):
        simulate(rise_from_dose, correlation=pairs, **inputs)


def test_progress_of_draws_is_told_and_changes_nothing():
    inputs = {"density": (1023.34, 0.1), "temperature": (25.0, 0.5)}
    seen = []
    told = simulate(
        salinity_from_density, members=150_000, progress=lambda *now: seen.append(now), **inputs
    )
    assert seen == [(65_536, 150_000), (131_072, 150_000), (150_000, 150_000)]
    assert np.array_equal(told, simulate(salinity_from_density, members=150_000, **inputs))
