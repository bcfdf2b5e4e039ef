"""Every argument of these relations at zero, below what can be, at infinity, huge, in a wrong unit.

NaN is in the contract test.
"""

from __future__ import annotations

import math
import re

import numpy as np
import pytest

from reefchem.core.errors import DomainError, UnitError
from reefchem.core.quantity import quantity
from reefchem.core.record import records

MODULES = ("reefchem.conversion.", "reefchem.seawater.")
RECORDS = records()
CASES = [
    pytest.param(record, name, id=f"{record.name}-{name}")
    for record in RECORDS.values()
    if record.module.startswith(MODULES)
    for name in record.arguments
]

pytestmark = [
    pytest.mark.parametrize(("record", "name"), CASES),
    pytest.mark.filterwarnings("ignore::reefchem.core.errors.RangeWarning"),
]


def middle(record, **changed):
    return {k: sum(a.span) / 2 for k, a in record.arguments.items()} | changed


def test_infinity_is_refused_by_name(record, name):
    with pytest.raises(DomainError, match=f"{record.name}: {name} is inf"):
        record.function(**middle(record, **{name: math.inf}))


def test_what_cannot_be_is_refused_by_name_and_place(record, name):
    lowest = record.arguments[name].possible[0]
    if lowest == -math.inf:
        assert math.isfinite(record.function(**middle(record, **{name: -1.0})))
        return
    below = lowest - 1.0
    message = f"{record.name}: {name} is {below:.10g}.*; {lowest:.10g} "
    with pytest.raises(DomainError, match=message):
        record.function(**middle(record, **{name: below}))
    usual = sum(record.arguments[name].span) / 2
    array = np.array([usual, below, usual])
    with pytest.raises(DomainError, match=rf"{name} is {below:.10g}.* at \[1\]; "):
        record.function(**middle(record, **{name: array}))


@pytest.mark.parametrize("value", [0.0, -0.0, 1e300, 5e-324])
def test_the_ends_of_the_floats_give_a_number_or_a_reason(record, name, value):
    try:
        result, reason = record.function(**middle(record, **{name: value})), ""
    except DomainError as error:
        result, reason = 0.0, str(error)
    assert type(result) is float
    if reason:
        named = re.match(r"(\w+)[(:]", reason)  # itself, or one that it calls
        assert named, reason
        assert named[1] in RECORDS


def test_a_wrong_unit_is_refused_by_name(record, name):
    given = {
        k: v if record.arguments[k].unit == "1" else quantity(v, record.arguments[k].unit)
        for k, v in middle(record).items()
    }
    with pytest.raises(UnitError, match=f"{record.name}: {name} is "):
        record.function(**given | {name: quantity(1.0, "candela")})


@pytest.mark.parametrize("value", [[1.0], "1", True, None, 1j])
def test_what_is_no_number_is_refused_by_kind(record, name, value):
    with pytest.raises(TypeError, match=f"{record.name}: {name} is a {type(value).__name__}"):
        record.function(**middle(record, **{name: value}))
