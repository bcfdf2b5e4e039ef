"""Units of alkalinity: hand arithmetic first, then what they must keep, then refusals."""

from __future__ import annotations

from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from reefchem.conversion import as_alkalinity, german_degrees, per_kilogram, per_litre
from reefchem.core.errors import DomainError, RangeWarning, UnitError
from reefchem.core.quantity import quantity
from reefchem.seawater import seawater_density

# By hand from Ca 40.078, C 12.011, O 15.999, H 1.0080 and the definitions, meq/L in one unit.
IN_ONE = {
    "meq/L": Fraction(1),
    "umol/L": Fraction(1, 1000),
    "dKH": Fraction(20) / Fraction("56.077"),
    "French degree": Fraction(20) / Fraction("100.086"),
    "Clark degree": 2 * Fraction("64.79891") / Fraction("4.54609") / Fraction("100.086"),
    "grain/gal CaCO3": 2 * Fraction("64.79891") / Fraction("3.785411784") / Fraction("100.086"),
    "mg/L CaCO3": Fraction(2) / Fraction("100.086"),
    "mg/L HCO3": 1 / Fraction("61.016"),
}
PINT = {
    "dKH": "dKH",
    "French degree": "French_degree",
    "Clark degree": "Clark_degree",
    "grain/gal CaCO3": "grain_per_US_gallon_CaCO3",
    "mg/L CaCO3": "ppm_CaCO3",
}
WATER = {"salinity": 35.0, "temperature": 25.0}


@pytest.mark.parametrize("start", IN_ONE)
@pytest.mark.parametrize("end", IN_ONE)
def test_every_pair_of_units_is_what_the_definitions_say(start, end):
    by_hand = float(8 * IN_ONE[start] / IN_ONE[end])
    assert as_alkalinity(8.0, start, end) == pytest.approx(by_hand, rel=1e-14)


@pytest.mark.parametrize(("name", "unit"), PINT.items())
def test_the_registry_has_the_same_units(name, unit):
    meq = quantity(1.0, unit).to("meq/L").magnitude
    assert meq == pytest.approx(float(IN_ONE[name]), rel=1e-12)


def test_eight_german_degrees_are_2788_micromoles_in_a_kilogram():
    assert round(as_alkalinity(8.0, "dKH", "umol/kg", **WATER)) == 2788


@given(
    value=st.floats(-1e4, 1e4, allow_subnormal=False),
    salinity=st.floats(0.0, 42.0),
    temperature=st.floats(0.0, 40.0),
)
def test_a_litre_and_back_is_where_it_started(value, salinity, temperature):
    there = per_litre(value, salinity, temperature)
    assert per_kilogram(there, salinity, temperature) == pytest.approx(value, rel=1e-12)


@given(value=st.floats(-1e6, 1e6), start=st.sampled_from(list(IN_ONE)))
def test_through_kilograms_and_back_is_where_it_started(value, start):
    there = as_alkalinity(value, start, "umol/kg", **WATER)
    back = as_alkalinity(there, "umol/kg", start, **WATER)
    assert back == pytest.approx(value, rel=1e-10, abs=1e-300)


def test_a_litre_of_seawater_holds_more_than_a_kilogram():
    assert per_litre(1000.0, 35.0, 25.0) == pytest.approx(seawater_density(35.0, 25.0))


def test_arrays_keep_their_shape():
    reading = np.array([[6.0, 7.0], [8.0, 9.0]])
    expected = reading * float(IN_ONE["dKH"])
    assert as_alkalinity(reading, "dKH", "meq/L") == pytest.approx(expected)
    assert german_degrees(expected) == pytest.approx(reading)


def test_a_quantity_comes_back_as_a_quantity():
    warm = quantity(77.0, "degF")
    result = per_kilogram(quantity(8.0, "dKH"), 35.0, warm)
    assert str(result.units) == "micromole / kilogram"
    assert result.magnitude == pytest.approx(as_alkalinity(8.0, "dKH", "umol/kg", **WATER))


def test_a_change_may_be_negative_and_nothing_is_clipped():
    assert as_alkalinity(-1.0, "dKH", "meq/L") == -as_alkalinity(1.0, "dKH", "meq/L")
    assert as_alkalinity(0.0, "dKH", "meq/L") == 0.0
    assert as_alkalinity(float("nan"), "dKH", "meq/L") != as_alkalinity(0.0, "dKH", "meq/L")


@pytest.mark.parametrize(
    ("unit", "message"),
    [
        ("mmol/L", "of acid it is meq/L, of CaCO3 it is half as many"),
        ("ppm", "say mg/L CaCO3 or mg/L HCO3"),
        ("mg/L", "say mg/L CaCO3 or mg/L HCO3"),
        ("KH", "'KH' is no unit of alkalinity here; known: meq/L"),
    ],
)
@pytest.mark.parametrize("side", ["from", "to"])
def test_a_unit_that_says_too_little_is_refused(unit, message, side):
    units = (unit, "dKH") if side == "from" else ("dKH", unit)
    with pytest.raises(UnitError, match=message):
        as_alkalinity(8.0, *units)


@pytest.mark.parametrize(
    ("value", "error", "message"),
    [
        ([8.0], TypeError, r"as_alkalinity: value is a list, \[8\.0\]; a number is expected"),
        ("8", TypeError, "as_alkalinity: value is a str, '8'; a number is expected"),
        (True, TypeError, "as_alkalinity: value is a bool, True"),
        (float("inf"), DomainError, "as_alkalinity: value is inf meq/L; any finite number"),
        (np.array([1.0, -np.inf]), DomainError, r"value is -inf meq/L at \[1\]"),
    ],
)
def test_what_is_no_alkalinity_is_refused_by_name(value, error, message):
    with pytest.raises(error, match=message):
        as_alkalinity(value, "dKH", "meq/L")


def test_a_quantity_converts_itself():
    with pytest.raises(UnitError, match=r"value has a unit already .*use its \.to\(\)"):
        as_alkalinity(quantity(8.0, "dKH"), "dKH", "meq/L")


@pytest.mark.parametrize("given", [{}, {"salinity": 35.0}, {"temperature": 25.0}])
def test_a_kilogram_asks_what_a_litre_weighs(given):
    with pytest.raises(DomainError, match="from dKH to umol/kg needs salinity and temperature"):
        as_alkalinity(8.0, "dKH", "umol/kg", **given)


EITHER = pytest.mark.parametrize("relation", [per_litre, per_kilogram])
BOTH = pytest.mark.parametrize(
    ("relation", "unit"), [(per_litre, "umol/kg"), (per_kilogram, "umol/L")]
)


@EITHER
@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"salinity": -1.0}, "salinity is -1; 0 or more is possible"),
        ({"salinity": float("inf")}, "salinity is inf; 0 or more, and finite, is possible"),
        ({"salinity": np.array([35.0, -2.0])}, r"salinity is -2 at \[1\]"),
        ({"temperature": -300.0}, "temperature is -300 degC; -273.15 or more"),
        ({"value": float("inf")}, "value is inf umol/.*; any finite number"),
        ({"value": np.array([1.0, np.inf])}, r"value is inf umol/.* at \[1\]"),
    ],
)
def test_water_that_cannot_be_is_refused(relation, change, message):
    with pytest.raises(DomainError, match=f"{relation.__name__}: {message}"):
        relation(**{"value": 2300.0, **WATER, **change})


@BOTH
@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"salinity": quantity(35.0, "g/kg")}, "salinity is a pure number; gram / kilogram"),
        ({"temperature": quantity(1.0, "meter")}, "temperature is expected in degC"),
        ({"temperature": 25.0}, "temperature needs a unit"),
        ({"value": quantity(8.0, "mg/L")}, "value is expected in umol/"),
        ({"value": 8.0}, "value needs a unit"),
    ],
)
def test_units_that_do_not_fit_are_refused(relation, unit, change, message):
    fitting = {
        "value": quantity(2300.0, unit),
        "salinity": 35.0,
        "temperature": quantity(25.0, "degC"),
    }
    with pytest.raises(UnitError, match=f"{relation.__name__}: {message}"):
        relation(**fitting | change)


@EITHER
@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"salinity": 60.0}, "salinity is 60; the source covers 0 to 42. It is used as given"),
        ({"temperature": 60.0}, "temperature is 60 degC; the source covers -2 to 40 degC"),
    ],
)
def test_water_outside_the_source_is_used_as_given_and_said(relation, change, message):
    with pytest.warns(RangeWarning) as said:
        result = relation(**{"value": 2300.0, **WATER, **change})
    assert result > 0
    assert f"{relation.__name__}: {message}" in str(said[0].message)
