"""One contract for all relations: every kind of number gives the same value."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, reject
from hypothesis import strategies as st

from reefchem.core.errors import NoRootError
from reefchem.core.quantity import quantity, registry
from reefchem.core.record import records
from reefchem.core.sources import entries
from reefchem.core.term import Root
from reefchem.formula.equation import equation, evaluate

RECORDS = records()
SAME = {"rel": 1e-12, "abs": 0.0}

pytestmark = [
    pytest.mark.parametrize("record", RECORDS.values(), ids=RECORDS.keys()),
    # A point inside the span of each argument may still have an answer outside a source's range.
    pytest.mark.filterwarnings("ignore::reefchem.core.errors.RangeWarning"),
]


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


@given(fraction=st.floats(0.0, 0.999))
def test_every_kind_of_number_gives_the_same(record, fraction):
    point = inputs(record, fraction)
    names = list(point)
    scalar = solved(record, point)
    assert type(scalar) is float
    assert math.isfinite(scalar)
    arrays = {name: np.array([value, value]) for name, value in point.items()}
    assert record.function(**arrays) == pytest.approx([scalar, scalar], **SAME)
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


@given(fraction=st.floats(0.0, 0.999))
def test_the_traced_equation_gives_the_same(record, fraction):
    point = inputs(record, fraction)
    solved(record, point)
    traced = equation(record)
    assert evaluate(traced.result, point) == pytest.approx(record.function(**point), **SAME)


def has_answer(record, point):
    try:
        record.function(**point)
    except NoRootError:
        return False
    return True


def test_nan_passes_through(record):
    point = next(p for p in (inputs(record, f / 7) for f in range(7)) if has_answer(record, p))
    for name in point:
        result = record.function(**{**point, name: float("nan")})
        bad = np.array([point[name], float("nan")])
        array = record.function(**{**point, name: bad})
        if isinstance(equation(record).result, Root) or math.isnan(result):
            assert math.isnan(result)
            assert math.isnan(array[1])
            assert math.isfinite(array[0])


def test_the_record_is_complete(record):
    assert record.source in entries(), "every relation names a source of the bibliography"
    assert record.at
    assert record.symbol
    assert record.summary.startswith("Return ")
    for argument in record.arguments.values():
        low, high = argument.span
        assert argument.possible[0] <= low < high <= argument.possible[1]
