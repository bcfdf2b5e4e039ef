"""The boundary: what comes in, what is refused by name, what is warned of, what comes out."""

from __future__ import annotations

import decimal
import enum
import fractions
import math
import threading
import tracemalloc
import warnings
from array import array as plain_array

import numpy as np
import pandas as pd
import pint
import pytest
import sympy

from reefchem.core.blocks import BLOCK
from reefchem.core.boundary import strict, valid
from reefchem.core.errors import DomainError, RangeWarning, UnitError
from reefchem.core.quantity import quantity, registry
from reefchem.core.record import arg, calculation, describe, records, relation
from reefchem.core.term import Call, Number, Symbol
from reefchem.seawater import pure_water_density, salinity_from_density, seawater_density
from reefchem.seawater.density import MilleroPoisson1981

# UNESCO 44, a check value for 35 at 25 °C on the 1968 scale, as printed: 1023.343.
DENSITY = 1023.343
AT_25_IPTS68 = 25.0 / 1.00024

pytestmark = pytest.mark.usefixtures("own_relations")


class Level(enum.IntEnum):
    LOW = 1


def density(salinity, temperature=AT_25_IPTS68):
    return seawater_density(salinity, temperature)


@pytest.mark.parametrize(
    "salinity",
    [35, 35.0, np.float64(35), np.float32(35), np.float16(35), np.int8(35), np.uint64(35)],
    ids=lambda value: type(value).__name__,
)
def test_every_kind_of_single_number_gives_a_float(salinity):
    result = density(salinity)
    assert type(result) is float
    assert result == pytest.approx(DENSITY, abs=5e-4)


@pytest.mark.parametrize(
    "salinity",
    [
        np.array(35.0),
        np.array([35.0]),
        np.array([[35, 35], [35, 35]]),
        np.array([35], dtype=np.float32),
        np.array([35], dtype=">f8"),
        np.full(3 * BLOCK, 35.0)[::3],
        np.broadcast_to(35.0, (2, 3)),
        np.full((2, BLOCK), 35.0),
        np.empty((0, 4)),
    ],
    ids=[
        "0-d",
        "1-d",
        "integers",
        "float32",
        "big-endian",
        "strided",
        "broadcast",
        "large",
        "empty",
    ],
)
def test_every_kind_of_array_gives_an_array_of_its_shape(salinity):
    result = density(salinity)
    assert type(result) is np.ndarray
    assert result.dtype == np.float64
    assert result.shape == salinity.shape
    assert result.flags.writeable
    assert result == pytest.approx(np.full(salinity.shape, DENSITY), abs=5e-4)


@pytest.mark.parametrize("power", [1.0, 2.5], ids=["in place", "by the body"])
def test_a_large_array_takes_little_memory_beside_its_result(power):
    @relation(unit="g", symbol="y", source="nobody", at="nowhere", x=arg("g", "x", typical=(0, 1)))
    def long_sum(x):
        """Return a sum whose terms would each take the memory of the whole."""
        raised = x**power if power > 1 else x * x
        return (x + 1.0) * (x + 2.0) + (x + 3.0) * (x + 4.0) + raised

    given = np.full(64 * BLOCK, 0.5)
    long_sum(given)
    tracemalloc.start()
    result = long_sum(given)
    _, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert peak < 1.3 * result.nbytes


def test_every_relation_takes_arrays_without_elements():
    for record in records().values():
        if record.arguments:
            result = record.function(**dict.fromkeys(record.arguments, np.empty((0, 3))))
            assert result.shape == (0, 3), record.name


def test_arrays_are_broadcast_against_each_other():
    salinity, temperature = np.linspace(30, 40, 5)[:, None], np.linspace(20, 30, 3)
    result = seawater_density(salinity, temperature)
    assert result.shape == (5, 3)
    assert result[4, 0] == pytest.approx(seawater_density(40.0, 20.0), rel=1e-15)


def test_shapes_that_do_not_fit_are_an_error_of_numpy():
    with pytest.raises(ValueError, match="shape mismatch"):
        seawater_density(np.ones(3), np.ones(4))


@pytest.mark.parametrize("size", [1, BLOCK + 1])
def test_inputs_are_never_changed_and_never_handed_back(size):
    @relation(unit="g", symbol="x", source="nobody", at="nowhere", x=arg("g", "x", typical=(0, 1)))
    def the_same(x):
        """Return what came."""
        return x

    given = np.full(size, 0.5)
    result = the_same(given)
    result += 1.0
    assert np.array_equal(given, np.full(size, 0.5))


def test_subclasses_of_arrays_become_plain_arrays():
    with pytest.warns(PendingDeprecationWarning):
        matrix = np.asmatrix([[35.0, 36.0]])
    assert type(density(matrix)) is np.ndarray
    assert density(matrix).shape == (1, 2)


@pytest.mark.parametrize(
    ("value", "said"),
    [
        ([35.0], r"salinity is a list, \[35\.0\]; a number is expected; make it a NumPy array"),
        ((35.0,), r"salinity is a tuple, .*make it a NumPy array"),
        ("35", r"salinity is a str, '35'; a number is expected$"),
        (b"35", "salinity is a bytes"),
        (True, "salinity is a bool, True; a number is expected"),
        (None, "salinity is a NoneType"),
        (35j, "salinity is a complex"),
        (decimal.Decimal(35), r"salinity is a Decimal, Decimal\('35'\)"),
        (fractions.Fraction(35), r"salinity is a Fraction, Fraction\(35, 1\)"),
        (Level.LOW, "salinity is a Level"),
        ({35.0}, "salinity is a set"),
        (object, "salinity is a type"),
        (plain_array("d", [35.0]), "salinity is a array"),
        (np.bool_(True), "salinity is a number of type bool; floats or integers are expected"),
        (np.array([True]), "salinity is an array of type bool"),
        (np.array([35j]), "salinity is an array of type complex128"),
        (np.array(["35"]), "salinity is an array of type <U2"),
        (np.array([35.0, None]), "salinity is an array of type object"),
        (np.array([decimal.Decimal(35)]), "salinity is an array of type object"),
        (np.datetime64("2024-01-01"), "salinity is a number of type datetime64"),
        (np.ma.masked_array([35.0], [True]), r"salinity is a masked array; fill it first"),
        (pd.Series([35.0]), r"salinity is a Series; hand over its values \(.to_numpy\(\)"),
        (pd.DataFrame([35.0]), r"salinity is a DataFrame"),
        (sympy.Matrix([35]), r"salinity is a MutableDenseMatrix, .*; a number is expected$"),
        (range(10**9), r"salinity is a range"),
        (["x" * 10**6] * 10**4, r"salinity is a list, .{1,300}; a number"),
    ],
    ids=lambda given: type(given).__name__,
)
def test_what_is_no_number_is_refused_by_name(value, said):
    with pytest.raises(TypeError, match=f"^seawater_density: {said}"):
        seawater_density(value, 25.0)
    with pytest.raises(TypeError, match=f"^seawater_density: {said}"):
        valid(seawater_density, value, 25.0)


@pytest.mark.parametrize("digits", [400, 10_000])
def test_an_integer_that_fits_no_float_is_refused(digits):
    with pytest.raises(DomainError, match=r"salinity is an integer of .* bits; it does not fit"):
        density(10**digits)


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ((-1.0, 25.0), r"salinity is -1; 0 or more is possible"),
        ((math.inf, 25.0), r"salinity is inf; 0 or more, and finite, is possible"),
        ((35.0, -300.0), r"temperature is -300 degC; -273.15 or more is possible"),
        ((35.0, -math.inf), r"temperature is -inf degC; -273.15 or more, and finite, is possible"),
        ((np.array([35.0, -2.0]), 25.0), r"salinity is -2 at \[1\]; 0 or more is possible"),
        ((np.array([[35.0], [np.inf]]), 25.0), r"salinity is inf at \[1, 0\]; 0 or more, and fin"),
        ((np.array(-2.0), 25.0), r"salinity is -2; 0 or more"),
        ((np.array([np.nan, -2.0]), 25.0), r"salinity is -2 at \[1\]"),
    ],
)
def test_the_impossible_is_refused_with_value_place_and_range(given, said):
    with pytest.raises(DomainError, match=f"^seawater_density: {said}"):
        seawater_density(*given)


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ((50.0, 25.0), r"salinity is 50; the source covers 0 to 42. It is used as given$"),
        ((35, 60), r"temperature is 60 degC; the source covers -2 to 40 degC. It is used"),
        ((np.array([35.0, 43.0]), 25.0), r"salinity is 43 at \[1\]; the source covers 0 to 42"),
        ((np.array([np.nan, 43.0]), 25.0), r"salinity is 43 at \[1\]"),
    ],
)
def test_outside_the_source_is_said_and_used_as_given(given, said):
    with pytest.warns(RangeWarning, match=f"^seawater_density: {said}") as caught:
        result = seawater_density(*given)
    assert len(caught) == 1
    assert caught[0].filename == __file__
    with warnings.catch_warnings(action="ignore"):
        body = describe(seawater_density).kernel(*given)
    assert np.array_equal(result, body, equal_nan=True)


def test_the_warning_points_at_the_caller_also_from_deep_inside():
    with pytest.warns(RangeWarning, match="salinity is 43") as caught:
        salinity_from_density(seawater_density(42.0, 25.0) + 0.77, 25.0)
    assert [warning.filename for warning in caught] == [__file__]


def test_a_warning_from_deep_inside_names_the_place_in_the_whole_array():
    whole = np.full((2, BLOCK), 1023.0)
    whole[1, 17] = seawater_density(42.0, 25.0) + 0.77
    with pytest.warns(RangeWarning, match=r"salinity is 43\.\d+ at \[1, 17\]") as caught:
        salinity_from_density(whole, 25.0)
    assert len(caught) == 1


def test_the_bounds_of_the_source_belong_to_it():
    for salinity, temperature in [(0.0, -2.0), (42.0, 40.0), (0, -2), (np.array([42.0]), 40)]:
        seawater_density(salinity, temperature)


def test_a_value_that_is_handed_on_is_judged_by_the_source_of_the_whole():
    assert describe("pure_water_density").arguments["temperature"].valid == (0.0, 40.0)
    for cold in (
        -1.0,
        -1,
        np.array([-1.0, 25.0]),
        np.full(2 * BLOCK, -1.0),
        quantity(-1.0, "degC"),
    ):
        seawater_density(35.0, cold)
    with pytest.warns(RangeWarning, match="^seawater_density: temperature is -3 ") as caught:
        seawater_density(35.0, -3.0)
    assert len(caught) == 1
    with pytest.warns(RangeWarning, match="^salinity_from_density: temperature is -3 ") as caught:
        salinity_from_density(1026.0, -3.0)
    assert len(caught) == 1


def test_a_value_of_another_origin_is_judged_where_it_is_used():
    @relation(
        unit="g",
        symbol="x",
        source="nobody",
        at="nowhere",
        temperature=arg("degC", "t", valid=(-10.0, 40.0)),
    )
    def colder(temperature):
        """Return the density of water that is five degrees colder."""
        return pure_water_density(temperature - 5.0)

    with pytest.warns(RangeWarning, match="pure_water_density: temperature is -3"):
        colder(2.0)
    with pytest.warns(RangeWarning, match=r"temperature is -3 degC at \[7\]") as caught:
        colder(np.where(np.arange(5 * BLOCK) < 7, 20.0, 2.0))  # in every one of many pieces
    assert len(caught) == 1


@pytest.mark.parametrize("size", [3, 5 * BLOCK])
def test_two_uses_of_one_source_are_judged_each_whatever_the_size(size):
    @relation(
        unit="g",
        symbol="x",
        source="nobody",
        at="nowhere",
        temperature=arg("degC", "t", valid=(-10.0, 50.0)),
    )
    def layers(temperature):
        """Return the densities of a colder and a warmer layer, added."""
        return pure_water_density(temperature - 5.0) + pure_water_density(temperature + 39.0)

    with pytest.warns(RangeWarning) as caught:
        layers(np.full(size, 2.0))
    assert [str(w.message).partition(";")[0] for w in caught] == [
        "pure_water_density: temperature is -3 degC at [0]",
        "pure_water_density: temperature is 41 degC at [0]",
    ]


def test_nan_passes_through_without_a_word():
    assert math.isnan(density(math.nan))
    assert np.isnan(density(np.array([35.0, np.nan]))).tolist() == [False, True]
    assert np.isnan(density(np.full(3, np.nan))).all()
    assert math.isnan(seawater_density(quantity(math.nan, ""), quantity(25.0, "degC")).magnitude)


def test_strict_refuses_what_would_be_warned_of():
    with strict(), pytest.raises(DomainError, match=r"salinity is 50; the source covers 0 to 42$"):
        seawater_density(50.0, 25.0)
    with pytest.warns(RangeWarning):
        seawater_density(50.0, 25.0)


def test_strict_holds_although_warnings_are_ignored():
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        with strict(), pytest.raises(DomainError):
            seawater_density(50.0, 25.0)


def test_strict_in_one_thread_is_none_in_another():
    seen = []

    def ask():
        with warnings.catch_warnings(record=True):
            warnings.simplefilter("always")
            seen.append(seawater_density(50.0, 25.0))

    with strict():
        thread = threading.Thread(target=ask)
        thread.start()
        thread.join()
    assert len(seen) == 1


def test_strict_nests():
    with strict():
        with strict():
            pass
        with pytest.raises(DomainError):
            seawater_density(50.0, 25.0)


@pytest.mark.parametrize(
    ("given", "inside"),
    [
        ((35.0, 25.0), True),
        ((50.0, 25.0), False),
        ((0.0, -2.0), True),
        ((42, 40), True),
        ((35, 41), False),
        ((math.nan, 25.0), False),
        ((-1.0, 25.0), False),
        ((np.float64(35.0), 25.0), True),
        ((np.array([35.0, 50.0, np.nan]), 25.0), [True, False, False]),
        ((np.array([[35.0], [50.0]]), np.array([25.0, 60.0])), [[True, False], [False, False]]),
        ((35.0, quantity(77.0, "degF")), True),
        ((35.0, quantity(177.0, "degF")), False),
    ],
)
def test_valid_says_where_all_inputs_are_inside(given, inside):
    found = valid(seawater_density, *given)
    assert type(found) is (bool if isinstance(inside, bool) else np.ndarray)
    assert np.array_equal(found, inside)


def test_valid_takes_names_and_defaults_as_a_call_does():
    assert valid(seawater_density, temperature=25.0, salinity=35.0) is True
    for given, named in [
        ((35.0,), {}),
        ((35.0, 25.0, 3.0), {}),
        ((35.0,), {"salinity": 35.0}),
        ((35.0, 25.0), {"depth": 1.0}),
    ]:
        with pytest.raises(TypeError, match=r"seawater_density takes .*salinity.*each once"):
            valid(seawater_density, *given, **named)
    with pytest.raises(TypeError, match="is not a relation"):
        valid(math.exp, 1.0)


def test_where_the_source_states_no_range_the_possible_counts():
    assert valid(salinity_from_density, 2000.0, 25.0) is True
    assert valid(salinity_from_density, -1.0, 25.0) is False
    assert valid(salinity_from_density, math.inf, 25.0) is False
    assert valid(salinity_from_density, np.array([1e3, np.inf]), 25.0).tolist() == [True, False]


def test_a_quantity_that_came_makes_a_quantity():
    result = seawater_density(35.0, quantity(77.0, "degF"))
    assert result.units == registry().Unit("kg/m**3")
    assert result.magnitude == pytest.approx(seawater_density(35.0, 25.0), rel=1e-12)
    assert isinstance(result, registry().Quantity)


@pytest.mark.parametrize("make", [pint.UnitRegistry, lambda: pint.UnitRegistry(cache_folder=None)])
def test_a_quantity_of_any_registry_keeps_its_class(make):
    foreign = make()
    result = seawater_density(35.0, foreign.Quantity(25.0, "degC"))
    assert type(result) is type(foreign.Quantity(1.0, "m"))
    assert result.to("g/mL").magnitude == pytest.approx(1.02334, abs=1e-5)
    assert (result + result).magnitude == pytest.approx(2 * result.magnitude)


def test_pints_own_class_is_kept_too():
    result = seawater_density(35.0, pint.Quantity(25.0, "degC"))
    assert result.to("g/mL").magnitude == pytest.approx(1.02334, abs=1e-5)
    assert result.units == pint.Unit("kg/m**3")


def test_of_quantities_of_several_registries_the_first_decides():
    own, foreign = quantity(35.0, ""), pint.UnitRegistry().Quantity(25.0, "degC")
    assert type(seawater_density(own, foreign)) is type(own)
    density, temperature = foreign.__class__(1023.0, "kg/m**3"), quantity(25.0, "degC")
    assert type(salinity_from_density(density, temperature)) is type(foreign)


def test_quantities_of_arrays_and_of_integers():
    temperature = quantity(np.array([77, 77]), "degF")
    result = seawater_density(35, temperature)
    assert result.magnitude == pytest.approx([seawater_density(35.0, 25.0)] * 2, rel=1e-12)
    assert temperature.magnitude.tolist() == [77, 77]
    assert seawater_density(35, quantity(25, "degC")).magnitude == seawater_density(35.0, 25.0)


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ((35.0, quantity(25.0, "g")), "temperature is expected in degC, not in gram"),
        ((35.0, quantity(25.0, "delta_degC")), "temperature is expected in degC, not in delta"),
        ((quantity(35.0, "g/kg"), 25.0), "salinity is a pure number; gram / kilogram would be"),
        ((quantity(35.0, ""), 25.0), r"temperature needs a unit \(degC\), since other arguments"),
        ((quantity(3.5, "percent"), quantity(25.0, "degC")), "salinity is a pure number"),
    ],
)
def test_a_unit_that_is_wrong_or_missing_is_refused(given, said):
    with pytest.raises(UnitError, match=f"^seawater_density: {said}"):
        seawater_density(*given)


def test_a_quantity_of_no_number_is_refused_by_name():
    decimals = pint.UnitRegistry(non_int_type=decimal.Decimal)
    with pytest.raises(TypeError, match="temperature is a Decimal"):
        seawater_density(35.0, decimals.Quantity(decimal.Decimal(25), "degC"))


def test_terms_become_a_call_and_symbols_an_expression():
    made = seawater_density(Symbol("s", "S"), 25.0)
    assert isinstance(made, Call)
    assert made.record is describe(seawater_density)
    assert made.options == {}
    assert [type(part) for part in made.parts()] == [Symbol, Number]
    equal, other = MilleroPoisson1981(), MilleroPoisson1981(a0=1.0)
    assert seawater_density(Symbol("s", "S"), 25.0, fit=equal).options == {}
    assert seawater_density(Symbol("s", "S"), 25.0, fit=other).options == {"fit": other}
    salinity = sympy.Symbol("S", positive=True)
    expression = seawater_density(salinity, sympy.Integer(25))
    assert float(expression.subs(salinity, 35)) == pytest.approx(seawater_density(35.0, 25.0))


def test_a_calculation_may_leave_an_argument_out():
    @calculation(
        source="millero1981",
        at="nowhere",
        x=arg("g", "x", typical=(0, 1)),
        y=arg("g", "y", typical=(0, 1)),
    )
    def both(*, x, y=None):
        """Return both."""
        return x, y

    assert both(x=1.0) == both(x=1) == (1.0, None)
    assert both(x=1, y=2) == (1.0, 2.0)
    assert valid(both, x=1.0) is True
    assert both(x=np.ones(2), y=None)[1] is None
    with pytest.raises(TypeError, match="both: x is a NoneType"):
        both(x=None)


def test_what_follows_an_argument_that_was_left_out_is_judged_too():
    @calculation(
        source="millero1981",
        at="nowhere",
        x=arg("g", "x", typical=(0, 1)),
        y=arg("g", "y", typical=(0, 1)),
    )
    def either(*, x=None, y=None):
        """Return both."""
        return x, y

    assert either(y=2) == (None, 2.0)
    assert valid(either, y=2.0) is True
    assert valid(either, y=-2.0) is False
    with pytest.raises(DomainError, match="either: y is -2 g; 0 or more"):
        either(y=-2)
