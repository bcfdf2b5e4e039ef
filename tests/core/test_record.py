"""The record around a relation, and the function written around its body."""

from __future__ import annotations

import inspect
import math
import pickle

import pytest

from reefchem.core import record as record_module
from reefchem.core.errors import DomainError, NoRootError
from reefchem.core.fit import Fit
from reefchem.core.functions import exp, log, sqrt
from reefchem.core.record import Record, arg, calculation, calculations, describe, records, relation
from reefchem.seawater import seawater_density

WATER = {"unit": "g", "symbol": "m", "source": "nobody", "at": "nowhere"}


pytestmark = pytest.mark.usefixtures("own_relations")


class Line(Fit):
    slope: float = 2.0


@pytest.fixture
def line():
    @relation(**WATER, x=arg("g", "x", valid=(0.0, 10.0)), y=arg("degC", "y", typical=(0.0, 1.0)))
    def line(x, y=1.0, *, fit=Line()):
        """Return a line.

        More of it.
        """
        return fit.slope * x + y

    return line


def test_the_function_looks_like_its_body(line):
    assert line.__name__ == "line"
    assert line.__module__ == __name__
    assert line.__doc__.startswith("Return a line.")
    assert list(inspect.signature(line).parameters) == ["x", "y", "fit"]
    assert line(3.0) == 7.0
    assert line(3.0, 2.0) == line(x=3.0, y=2.0) == 8.0
    assert line(3.0, fit=Line(slope=1.0)) == 4.0
    with pytest.raises(TypeError, match="missing 1 required positional argument: 'x'"):
        line()
    with pytest.raises(TypeError, match="takes from 1 to 2 positional arguments"):
        line(1.0, 2.0, Line())


def test_the_record_tells_arguments_options_and_defaults_apart(line):
    made = describe(line)
    assert list(made.arguments) == ["x", "y"]
    assert made.defaults == {"y": 1.0}
    assert made.options == made.fits == {"fit": Line()}
    assert made.summary == "Return a line."
    assert made.module == __name__
    assert repr(made) == "<relation line in g, nobody nowhere>"
    assert made.leading


def test_arguments_keep_the_order_of_the_signature_whatever_the_record_says():
    @relation(**WATER, b=arg("g", "b", typical=(0, 1)), a=arg("g", "a", typical=(0, 1)))
    def swapped(a, b):
        """Return the difference."""
        return a - b

    assert list(describe(swapped).arguments) == ["a", "b"]
    assert swapped(5.0, 2.0) == 3.0
    assert swapped(5, 2) == 3.0


def test_an_argument_behind_an_option_is_handed_over_by_name():
    @relation(**WATER, a=arg("g", "a", typical=(0, 1)), b=arg("g", "b", typical=(0, 1)))
    def spread(a, power=2, *, b=4.0):
        """Return a sum."""
        return a**power + b

    assert not describe(spread).leading
    assert spread(3.0) == spread(3) == 13.0
    assert spread(3, 1, b=1) == 4.0
    assert describe(spread).options == {"power": 2}
    assert describe(spread).fits == {}


def test_a_body_with_two_options_takes_both_on_the_longer_way():
    @relation(**WATER, a=arg("g", "a", typical=(0, 1)))
    def bent(a, power=2, *, more=1.0):
        """Return a power and something more."""
        return a**power + more

    assert bent(3) == 10.0
    assert bent(3, 3, more=2.0) == 29.0


def test_a_body_without_a_word_has_no_summary():
    def silent(x):
        return x

    assert describe(relation(**WATER, x=arg("g", "x", typical=(0, 1)))(silent)).summary == ""


def test_a_calculation_has_neither_unit_nor_symbol_of_its_own():
    @calculation(source="nobody", at="nowhere", x=arg("g", "x", typical=(0, 1)))
    def parts(x):
        """Return two parts."""
        return x, x

    assert (describe(parts).unit, describe(parts).symbol) == ("", "")


def test_argument_names_do_not_collide_with_those_of_the_boundary():
    @relation(**WATER, kernel=arg("g", "k", typical=(0, 1)), record=arg("g", "r", typical=(0, 1)))
    def awkward(kernel, record, checked=1.0):
        """Return a sum."""
        return kernel + record + checked

    assert awkward(1.0, 2.0) == awkward(1, 2) == 4.0


def test_a_record_of_an_argument_that_is_not_there_is_refused():
    with pytest.raises(TypeError, match=r"f: the record describes \['z'\], which the function"):

        @relation(**WATER, z=arg("g", "z", typical=(0, 1)))
        def f(x):
            return x


@pytest.mark.parametrize("kind", [relation, calculation])
def test_two_relations_of_one_name_are_refused(kind):
    def seawater_density(x):
        return x

    described = WATER if kind is relation else {"source": "nobody", "at": "nowhere"}
    with pytest.raises(TypeError, match=r"reefchem\.seawater\.density and again in .*test_record"):
        kind(**described, x=arg("g", "x", typical=(0, 1)))(seawater_density)


def test_the_same_module_may_be_loaded_again(line):
    assert records()["line"].function is line


def test_all_relations_are_listed_in_alphabetical_order():
    names = list(records())
    assert names == sorted(names)
    assert "seawater_density" in names
    assert not set(names) & set(calculations())


def test_a_list_that_is_made_anew_is_the_same(monkeypatch):
    before = records(), calculations()
    monkeypatch.setattr(record_module, "_imported", [])
    assert (records(), calculations()) == before


def test_a_relation_is_found_by_itself_and_by_its_name():
    assert describe(seawater_density) is describe("seawater_density")
    assert isinstance(describe(seawater_density), Record)
    with pytest.raises(
        KeyError, match=r"no relation is called 'seawater_densty'; there is .*seawa"
    ):
        describe("seawater_densty")
    with pytest.raises(KeyError, match=r"there is [a-z_]+, [a-z_]+"):
        describe("salinity_from_densit")
    with pytest.raises(KeyError, match="none with a similar name"):
        describe("qqqqqq")
    with pytest.raises(TypeError, match="is not a relation"):
        describe(math.exp)


def test_a_relation_can_be_pickled():
    assert pickle.loads(pickle.dumps(seawater_density)) is seawater_density  # noqa: S301 - our own


@pytest.mark.parametrize(
    ("unit", "lowest"), [("degC", -273.15), ("delta_degC", -math.inf), ("g", 0.0), ("1", 0.0)]
)
def test_what_is_possible_follows_from_the_unit(unit, lowest):
    assert arg(unit, "x", typical=(0, 1)).possible == (lowest, math.inf)
    assert arg(unit, "x", typical=(0, 1), possible=(-1.0, 1.0)).possible == (-1.0, 1.0)


def test_the_span_is_the_valid_range_and_else_the_typical_one():
    assert arg("g", "x", valid=(0.0, 1.0), typical=(0.2, 0.8)).span == (0.0, 1.0)
    assert arg("g", "x", typical=(0.2, 0.8)).span == (0.2, 0.8)
    with pytest.raises(ValueError, match="a valid range, or a typical one"):
        _ = arg("g", "x").span


@pytest.mark.parametrize("kind", [float, int])
@pytest.mark.parametrize(
    ("body", "value"),
    [
        (lambda x: exp(1000.0 * x), 3),
        (lambda x: 1.0 / (x - 3.0), 3),
        (lambda x: log(x - 3.0), 3),
        (lambda x: sqrt(x - 5.0), 3),
    ],
    ids=["overflow", "division by zero", "logarithm of zero", "root of a negative number"],
)
def test_arithmetic_that_breaks_down_names_relation_and_inputs(body, value, kind):
    def broken(x):
        return body(x)

    function = relation(**WATER, x=arg("g", "x", typical=(0, 1)))(broken)
    with pytest.raises(DomainError, match=r"broken: no finite result for x=3\.0 \(") as caught:
        function(kind(value))
    assert isinstance(caught.value.__cause__, ArithmeticError | ValueError)


def test_arithmetic_that_breaks_down_names_every_input():
    @relation(**WATER, x=arg("g", "x", typical=(0, 1)), y=arg("g", "y", typical=(0, 1)))
    def ratio(x, y):
        """Return a quotient."""
        return x / y

    for x in (1.0, 1):
        with pytest.raises(DomainError, match=r"no finite result for x=1\.0, y=0\.0 \("):
            ratio(x, 0.0)


def test_errors_that_speak_for_themselves_are_left_alone():
    def stubborn(x):
        raise DomainError("as it is")

    function = relation(**WATER, x=arg("g", "x", typical=(0, 1)))(stubborn)
    for value in (1.0, 1):
        with pytest.raises(DomainError, match=r"^as it is$"):
            function(value)


def test_a_search_in_vain_names_the_relation_that_was_called_and_its_inputs(own_relations):
    @relation(**WATER, x=arg("g", "x", typical=(0, 1)))
    def searching_in_vain(x):
        """Return nothing."""
        raise NoRootError("no mass satisfies these inputs")

    @relation(**WATER, y=arg("g", "y", typical=(0, 1)))
    def asking_another(y):
        """Return what another makes of twice the mass."""
        return searching_in_vain(2 * y)

    for value in (1.0, 1):
        with pytest.raises(NoRootError, match=r"^asking_another\(y=1\.0\): no mass satisfies"):
            asking_another(value)


@pytest.mark.parametrize("value", [math.inf, -math.inf])
def test_infinity_never_reaches_a_body(value):
    @relation(**WATER, x=arg("g", "x", typical=(0, 1), possible=(-math.inf, math.inf)))
    def same(x):
        """Return what came."""
        return x

    with pytest.raises(DomainError, match="any finite number is possible"):
        same(value)
    assert same(1.7e308) == 1.7e308
    assert same(-1.7e308) == -1.7e308


def test_an_argument_is_called_by_its_title_or_by_its_name_spelt_out():
    @relation(
        **WATER,
        first=arg("g", "x", title="mass before", typical=(0.0, 1.0)),
        ph_total=arg("1", "y", typical=(0.0, 1.0)),
        mean_depth=arg("m", "z", typical=(0.0, 1.0)).titled("depth at low water"),
        mean_width=arg("m", "w", typical=(0.0, 1.0)),
    )
    def titled(first, ph_total, mean_depth, mean_width):
        """Return nothing of use."""
        return first + ph_total + mean_depth + mean_width

    made = describe(titled)
    assert [made.title(name) for name in made.arguments] == [
        "mass before",
        "pH on the total scale",
        "depth at low water",
        "mean width",
    ]


VAGUE = frozenset(
    "added brought change count days degrees dose end estimate expected factor first fresh gain "
    "kept level limit line loss mass most need one other period periods rise reading readings room "
    "second share shift single start strength target time uptake value volume water".split()
)


def test_no_argument_is_left_with_a_name_that_says_nothing():
    told = [(r.name, name, a.title) for r in records().values() for name, a in r.arguments.items()]
    untold = [(relation, name) for relation, name, title in told if name in VAGUE and not title]
    assert untold == []
