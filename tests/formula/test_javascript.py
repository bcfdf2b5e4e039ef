"""The generated JavaScript; that it computes as Python does is in test_contract."""

import json

import pytest
import quickjs
from hypothesis import given
from hypothesis import strategies as st

from reefchem.core.errors import NoRootError
from reefchem.core.record import arg, describe, relation
from reefchem.core.roots import find_root
from reefchem.examples.exercise import random_shares
from reefchem.export.javascript import functions_source, runtime
from reefchem.formula.digits import concise, significant
from reefchem.formula.javascript import function_source, needed
from reefchem.seawater import salinity_from_density

CONTEXT = quickjs.Context()
CONTEXT.eval(runtime())


def evaluated(source):
    return json.loads(CONTEXT.eval(f"JSON.stringify({source})"))


@given(st.floats(allow_nan=False, allow_infinity=False), st.integers(1, 15))
def test_numbers_have_the_same_text_in_python_and_in_the_page(value, digits):
    assert evaluated(f"significant({value!r}, {digits})") == significant(value, digits)
    assert evaluated(f"concise({value!r}, {digits})") == concise(value, digits)


def test_what_is_no_number_has_the_same_text():
    for value, source in ((float("nan"), "NaN"), (float("inf"), "Infinity")):
        assert evaluated(f"significant({source}, 4)") == significant(value, 4)


@given(st.floats(0.1, 50.0), st.floats(-3.0, 3.0))
def test_roots_are_found_in_the_same_steps(square, shift):
    def residual(x):
        return x * x * x - square - shift

    try:
        right = find_root(residual, -1.0, 8.0, unknown="x")
    except NoRootError:
        right = None
    source = f"findRoot((x) => x * x * x - {square!r} - {shift!r}, -1, 8)"
    assert evaluated(source) == right, "JSON writes NaN as null"


def test_called_relations_come_first_and_once():
    names = [record.name for record in needed([describe(salinity_from_density)] * 2)]
    assert names == ["pure_water_density", "seawater_density", "salinity_from_density"]


def test_words_that_javascript_keeps_for_itself_are_given_another_name(own_relations):
    @relation(
        unit="1",
        symbol="y",
        source="none",
        at="",
        function=arg("1", "f", typical=(0.0, 1.0)),
        new=arg("1", "n", typical=(0.0, 1.0)),
    )
    def reserved(function, new):
        delete = function + new
        return delete * delete

    CONTEXT.eval(function_source(describe(reserved)))
    assert evaluated("reserved(1.5, 0.25)") == reserved(1.5, 0.25)


def test_what_is_impossible_gives_no_number_in_the_page():
    CONTEXT.eval(functions_source([describe(salinity_from_density)]))
    assert evaluated("[seawater_density(-1, 25), seawater_density(35, -300)]") == [None, None]
    assert evaluated("seawater_density(35, NaN)") is None
    assert evaluated("[seawater_density(Infinity, 25)]") == [None]


@pytest.mark.parametrize("seed", [0, 1, 2**32 - 1])
def test_the_page_draws_the_numbers_that_python_draws(root, seed):
    script = (root / "reefchem/textbook/static/textbook.js").read_text(encoding="utf-8")
    start = script.index("  function shares(seed)")
    CONTEXT.eval(script[start : script.index("  class Exercise")])
    first = random_shares(seed)
    wanted = [next(first) for _ in range(5)]
    assert (
        evaluated(f"(() => {{ const n = shares({seed}); return [n(), n(), n(), n(), n()] }})()")
        == wanted
    )
