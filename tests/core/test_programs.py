"""Programs for large arrays: which bodies have one, how much memory it takes, what it checks."""

from __future__ import annotations

import numpy as np
import pytest

from reefchem.core.blocks import BLOCK
from reefchem.core.functions import exp, log, sqrt, where
from reefchem.core.in_place import in_place
from reefchem.core.record import arg, calculations, describe, relation
from reefchem.core.roots import find_root
from reefchem.core.vouch import vouched

pytestmark = pytest.mark.usefixtures("own_relations")

A, B = np.linspace(1.0, 2.0, 50), np.linspace(0.5, 0.75, 50)


def made(body):
    """Return a relation of two numbers with a body."""

    def of_two(a, b):
        """Return something of two numbers."""
        return body(a, b)

    number = {"typical": (0.1, 3.0), "possible": (-100.0, 100.0)}
    return relation(
        unit="1",
        symbol="y",
        source="millero1981",
        at="nowhere",
        a=arg("1", "a", **number),
        b=arg("1", "b", **number),
    )(of_two)


WRITTEN = {
    "sum": (lambda a, b: a + b, 0),
    "difference": (lambda a, b: a - b, 0),
    "product": (lambda a, b: a * b, 0),
    "quotient": (lambda a, b: a / b, 0),
    "negative": (lambda a, b: -(a + b), 1),
    "functions": (lambda a, b: exp(a) + log(b) * sqrt(a), 3),
    "chain": (lambda a, b: ((a + b) * 2.0 + 1.0) * 3.0, 1),
    "two halves": (lambda a, b: (a + b) * (a - b), 2),
    "a piece used twice": (lambda a, b: (a + b) * (a + b) + (a + b), 2),
    "bound": (lambda a, b: vouched(a + b, 0.0, 10.0, what="of_two: the sum") * 2.0, 1),
}


@pytest.mark.parametrize(("body", "rows"), WRITTEN.values(), ids=WRITTEN.keys())
def test_a_program_gives_the_bits_of_the_body_in_few_rows(body, rows, monkeypatch):
    record = describe(made(body))
    taken = []
    empty = np.empty

    def counting(shape, *rest, **more):
        taken.append(shape)
        return empty(shape, *rest, **more)

    monkeypatch.setattr(np, "empty", counting)
    program = in_place(record, [A, B], A.size)
    assert program is not None
    assert [shape for shape in taken if isinstance(shape, tuple)] == [(rows, A.size)]
    result = empty(A.size)
    assert program(result, A, B) is True
    assert np.array_equal(result, body(A, B))


@pytest.mark.parametrize(("body", "rows"), WRITTEN.values(), ids=WRITTEN.keys())
@pytest.mark.parametrize("which", [0, 1])
def test_what_depends_on_floats_alone_is_computed_once(body, rows, which):
    given = [A, B]
    given[which] = 1.25
    program = in_place(describe(made(body)), given, A.size)
    assert program is not None
    result = np.empty(A.size)
    assert program(result, *given)
    assert np.array_equal(result, body(*given))


LEFT = {
    "power": lambda a, b: a**b,
    "power inside": lambda a, b: 1.0 + (a**b) * b,
    "choice": lambda a, b: where(a > b, a, b),
    "choice inside": lambda a, b: where(a > b, a, b) + 1.0,
    "root": lambda a, b: find_root(
        lambda x: x * a - b, -1e3, 1e3, unknown="x", symbol="x", like=(a, b)
    ),
    "argument": lambda a, b: a,
    "constant": lambda a, b: 7.0 + 0.0 * 1.0,
}


@pytest.mark.parametrize("body", LEFT.values(), ids=LEFT.keys())
def test_what_no_program_can_do_is_left_to_the_body(body):
    function = made(body)
    assert in_place(describe(function), [A, B], A.size) is None
    many = [np.resize(values, 2 * BLOCK + 3) for values in (A, B)]
    expected = np.broadcast_to(body(*many), many[0].shape)
    assert np.allclose(function(*many), expected, rtol=1e-12)


def test_a_program_says_when_a_check_on_the_way_fails():
    record = describe(made(lambda a, b: vouched(a + b, 0.0, 2.0, what="of_two: the sum") * 2.0))
    program = in_place(record, [A, B], A.size)
    assert program is not None
    assert program(np.empty(A.size), A, B) is False
    assert program(np.empty(A.size), A, B - 1.0) is True


def test_a_piece_may_be_shorter_than_the_memory():
    program = in_place(describe(made(lambda a, b: (a + b) * (a - b))), [A, B], 64)
    result = np.empty(7)
    assert program(result, A[:7], B[:7])
    assert np.array_equal(result, (A[:7] + B[:7]) * (A[:7] - B[:7]))


def test_a_calculation_has_neither_unit_nor_symbol():
    assert {(r.unit, r.symbol) for r in calculations().values()} == {("", "")}
