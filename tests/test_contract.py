"""One contract for all relations: every way to compute one gives the same value."""

from __future__ import annotations

import json
import math
from functools import cache

import numpy as np
import pint
import pytest
import quickjs
import sympy
from hypothesis import given, reject, settings
from hypothesis import strategies as st

from reefchem.core.errors import NoRootError
from reefchem.core.quantity import quantity, registry
from reefchem.core.record import records
from reefchem.core.sources import entries
from reefchem.core.term import Root
from reefchem.export.javascript import functions_source, runtime
from reefchem.formula.equation import equation, evaluate

RECORDS = records()
FOREIGN = pint.UnitRegistry()
SAME = {"rel": 1e-12, "abs": 0.0}

every = pytest.mark.parametrize("record", RECORDS.values(), ids=RECORDS.keys())
points = given(fraction=st.floats(0.0, 0.999))
few = settings(max_examples=settings().max_examples // 5)

# A point inside the span of each argument may still have an answer outside a source's range.
pytestmark = pytest.mark.filterwarnings("ignore::reefchem.core.errors.RangeWarning")


@cache
def has_root(record):
    """Return whether a relation, or one that it calls, is found by iteration."""
    traced = equation(record)
    parts = traced.result.walk()
    return any(isinstance(p, Root) for p in parts) or any(
        has_root(c.record) for c in traced.calls()
    )


CLOSED = {name: record for name, record in RECORDS.items() if not has_root(record)}
ITERATED = {name: record for name, record in RECORDS.items() if has_root(record)}


def inputs(record, fraction):
    """Return a point inside the span of each argument."""
    point = {}
    for index, (name, argument) in enumerate(record.arguments.items()):
        low, high = argument.span
        share = math.modf(fraction * (1 + 0.618034 * index) + 0.137 * index)[0]
        point[name] = low + (0.05 + 0.9 * share) * (high - low)
    return point


def solved(record, point):
    """Return the scalar result; where no root exists, the array is NaN and the point is left."""
    try:
        return record.function(**point)
    except NoRootError:
        assert np.isnan(record.function(**{k: np.array([v]) for k, v in point.items()}))
        reject()


def has_answer(record, point):
    try:
        record.function(**point)
    except NoRootError:
        return False
    return True


def some_point(record):
    return next(p for p in (inputs(record, f / 7) for f in range(7)) if has_answer(record, p))


@every
@points
@few
def test_every_kind_of_number_gives_the_same(record, fraction):
    point = inputs(record, fraction)
    names = list(point)
    scalar = solved(record, point)
    assert type(scalar) is float
    assert math.isfinite(scalar)
    if record.leading:
        assert record.function(*point.values()) == scalar
    arrays = {name: np.array([value, value]) for name, value in point.items()}
    assert record.function(**arrays) == pytest.approx([scalar, scalar], **SAME)
    assert all(np.array_equal(arrays[name], [point[name]] * 2) for name in names)
    first = {**point, names[0]: np.full((2, 1), point[names[0]])}
    assert record.function(**first) == pytest.approx(np.full((2, 1), scalar), **SAME)
    quantities = {
        name: quantity(value, record.arguments[name].unit)
        for name, value in point.items()
        if record.arguments[name].unit != "1"
    }
    if quantities:
        result = record.function(**{**point, **quantities})
        assert result.units == registry().Unit("" if record.unit == "1" else record.unit)
        assert result.magnitude == pytest.approx(scalar, **SAME)


@every
@points
@few
def test_the_traced_equation_gives_the_same(record, fraction):
    point = inputs(record, fraction)
    scalar = solved(record, point)
    assert evaluate(equation(record).result, point) == pytest.approx(scalar, **SAME)


@pytest.fixture(scope="module")
def javascript():
    """Return a function that computes a relation in JavaScript."""
    context = quickjs.Context()
    context.eval(f"{runtime()}\n{functions_source(RECORDS.values())}")

    def call(record, point):
        values = ", ".join(map(repr, point.values()))
        return json.loads(context.eval(f"JSON.stringify({record.name}({values}))"))

    return call


@every
def test_javascript_gives_the_same(record, javascript):
    compared = 0
    for share in range(20):
        point = inputs(record, share / 20)
        if has_answer(record, point):
            assert javascript(record, point) == pytest.approx(record.function(**point), **SAME)
            compared += 1
        else:
            assert javascript(record, point) is None, "JSON writes NaN as null"
    assert compared


@pytest.mark.parametrize("record", CLOSED.values(), ids=CLOSED.keys())
def test_symbols_give_the_same_when_numbers_take_their_place(record):
    point = some_point(record)
    symbols = {name: sympy.Symbol(name, positive=value > 0) for name, value in point.items()}
    expression = sympy.sympify(record.function(**symbols))
    numbers = {symbol: sympy.Float(point[name], 40) for name, symbol in symbols.items()}
    value = expression.subs(numbers).evalf(30)
    assert value.is_real
    assert float(value) == pytest.approx(record.function(**point), **SAME)


@pytest.mark.parametrize("record", ITERATED.values(), ids=ITERATED.keys())
def test_a_relation_without_closed_form_says_so_to_symbols(record):
    symbols = {name: sympy.Symbol(name, positive=True) for name in record.arguments}
    with pytest.raises(TypeError, match="is found by iteration and has no closed form"):
        record.function(**symbols)


@every
def test_nan_passes_through(record):
    point = some_point(record)
    for name in point:
        result = record.function(**{**point, name: float("nan")})
        bad = np.array([point[name], float("nan")])
        array = record.function(**{**point, name: bad})
        if isinstance(equation(record).result, Root) or math.isnan(result):
            assert math.isnan(result)
            assert math.isnan(array[1])
            assert math.isfinite(array[0])


@every
def test_a_foreign_registry_is_kept(record):
    units = FOREIGN
    point = some_point(record)
    made = {}
    for name, value in point.items():
        unit = record.arguments[name].unit
        base = quantity(value, "" if unit == "1" else unit).to_base_units()
        foreign = units.Quantity(base.magnitude, str(base.units))
        made[name] = value if unit == "1" else foreign
    if any(isinstance(value, units.Quantity) for value in made.values()):
        result = record.function(**made)
        assert isinstance(result, units.Quantity)
        own = quantity(record.function(**point), "" if record.unit == "1" else record.unit)
        again = result.to_base_units().magnitude
        assert again == pytest.approx(own.to_base_units().magnitude, rel=1e-9)


def raw(record):
    """Return what the body makes of raw quantities, or None where its constants have units."""
    point = some_point(record)
    made = {}
    for name, value in point.items():
        unit = record.arguments[name].unit
        made[name] = value if unit == "1" else quantity(value, unit)
    try:
        result = quantity(1.0, "") * record.kernel(**made)
        expected = quantity(record.function(**point), "" if record.unit == "1" else record.unit)
        return result.to(expected.units).magnitude, expected.magnitude
    except (pint.errors.PintError, TypeError, ValueError):
        return None


def test_homogeneous_bodies_have_the_dimension_of_their_record(root):
    named = (root / "tests" / "homogeneous.txt").read_text(encoding="utf-8").split()
    assert named == sorted(named)
    for name in named:
        found = raw(CLOSED[name])
        assert found is not None, f"{name} no longer computes with raw quantities"
        assert found[0] == pytest.approx(found[1], **SAME)


@every
def test_the_record_is_complete(record):
    assert record.source in entries(), "every relation names a source of the bibliography"
    assert record.at
    assert record.symbol
    assert record.summary.startswith("Return ")
    for name, argument in record.arguments.items():
        low, high = argument.span
        assert argument.possible[0] <= low < high <= argument.possible[1]
        assert argument.symbol, f"{name} has no symbol"
        assert registry().Unit("" if argument.unit == "1" else argument.unit)
    assert registry().Unit("" if record.unit == "1" else record.unit) is not None
