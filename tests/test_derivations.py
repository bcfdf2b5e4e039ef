"""Every derivation proves its function, and a wrong one proves nothing."""

from __future__ import annotations

import inspect
import signal

import pytest
import sympy

from reefchem.core.record import arg, describe, relation
from reefchem.core.roots import find_root
from reefchem.derive import derivations, derive
from reefchem.derive.derivation import Derivation
from reefchem.seawater import seawater_density

SECONDS = 60
"""More than any proof takes; SymPy can be lost in a simplification for ever."""

ALL = derivations()
every = pytest.mark.parametrize("derivation", ALL, ids=[made.name for made in ALL])


@pytest.fixture(autouse=True)
def _within_a_minute():
    def lost(*_):
        msg = f"SymPy found no answer in {SECONDS} s"
        raise TimeoutError(msg)

    before = signal.signal(signal.SIGALRM, lost)
    signal.alarm(SECONDS)
    yield
    signal.alarm(0)
    signal.signal(signal.SIGALRM, before)


@every
def test_the_function_is_what_the_laws_lead_to(derivation):
    assert derivation.difference() == 0


@every
def test_there_are_stages_to_read_and_a_title(derivation):
    assert derivation.title
    assert inspect.getdoc(derivation.body)
    assert derivation.stages
    for stage in derivation.stages:
        assert stage.text.strip()
        assert stage.expressions
        for expression in stage.expressions:
            assert sympy.latex(expression)


def free_symbols(derivation):
    return set().union(
        *(
            [given] if isinstance(given, sympy.Symbol) else list(given)
            for given in derivation.symbols.values()
            if not isinstance(given, sympy.core.function.UndefinedFunction)
        )
    )


@every
def test_the_closed_form_holds_nothing_but_the_arguments(derivation):
    loose = sympy.sympify(derivation.result).free_symbols - free_symbols(derivation)
    assert not loose


# Of longer ones SymPy may need minutes to say no; `difference` still proves them.
LONGEST = 120
RATIONAL = [
    made
    for made in ALL
    if sympy.sympify(made.result).is_rational_function()
    and sympy.sympify(made.result).count_ops() <= LONGEST
]


@pytest.mark.parametrize("derivation", RATIONAL, ids=[made.name for made in RATIONAL])
def test_a_closed_form_that_is_off_by_a_millionth_is_not_proved(derivation):
    def body(**symbols):
        result = yield from derivation.body(**symbols)
        return result * sympy.Rational(1000001, 1000000)

    body.__signature__ = inspect.signature(derivation.body)
    assert Derivation(derivation.record, derivation.title, body).difference() != 0


def test_names_of_derivations_are_unique():
    names = [(made.record.name, made.name) for made in ALL]
    assert len(names) == len(set(names))


@pytest.fixture
def cone(own_relations):
    @relation(
        unit="L",
        symbol="V",
        source="nobody",
        at="nowhere",
        radius=arg("dm", "r", typical=(1.0, 2.0)),
        height=arg("dm", "h", typical=(1.0, 2.0)),
    )
    def cone(radius, height):
        """Return a third of the base times the height."""
        return radius * radius * height / 3

    return cone


def made(function, body):
    return Derivation(describe(function), "A derivation", body)


def test_a_right_derivation_is_proved_and_a_wrong_one_is_not(cone):
    def right(radius, height):
        """Stack discs."""
        x = sympy.Symbol("x", positive=True)
        disc = (radius * x / height) ** 2
        yield "A disc at the distance x from the tip.", disc
        return sympy.integrate(disc, (x, 0, height))

    def wrong(radius, height):
        """Take a cylinder for a cone."""
        yield "A cylinder.", radius**2 * height
        return radius**2 * height / 2

    assert made(cone, right).difference() == 0
    assert made(cone, wrong).difference() != 0


def test_one_digit_changed_in_a_function_is_seen(cone):
    def third(radius, height):
        """State it."""
        yield "A third.", height
        return radius**2 * height / sympy.Rational(30000001, 10000000)

    assert made(cone, third).difference() != 0


def test_a_root_is_proved_by_its_residual_also_when_it_is_called(own_relations):
    @relation(
        unit="1", symbol="x", source="nobody", at="nowhere", square=arg("1", "s", typical=(1, 4))
    )
    def side(square):
        """Return the side of a square."""
        return find_root(lambda x: x * x - square, 0.0, 9.0, unknown="x", like=(square,))

    def right(square, x):
        """State the law."""
        yield "Side by side.", sympy.Eq(square, x**2)
        return x**2 - square

    def wrong(square, x):
        """State another law."""
        yield "Side by side by side.", sympy.Eq(square, x**3)
        return x**3 - square

    assert made(side, right).difference() == 0
    assert made(side, wrong).difference() != 0

    @relation(
        unit="1", symbol="x", source="nobody", at="nowhere", half=arg("1", "h", typical=(1, 4))
    )
    def side_of_half(half):
        """Return the side of a square twice as large."""
        return side(2 * half)

    def twice(half, x):
        """Call the root with twice the half."""
        yield "Two halves.", sympy.Eq(2 * half, x**2)
        return x**2 - 2 * half

    def once(half, x):
        """Forget the other half."""
        yield "One half.", sympy.Eq(half, x**2)
        return x**2 - half

    assert made(side_of_half, twice).difference() == 0
    assert made(side_of_half, once).difference() != 0


def test_a_parameter_that_is_no_argument_is_named(cone):
    def body(radius, depth):
        """Take what is not there."""
        yield "Nothing.", radius
        return depth

    with pytest.raises(TypeError, match="body: cone has no argument 'depth'"):
        made(cone, body).difference()


def test_an_argument_that_is_left_out_is_named(cone):
    def body(radius):
        """Leave one out."""
        yield "Nothing.", radius
        return radius

    with pytest.raises(TypeError, match=r"body does not take \['height'\] of cone"):
        made(cone, body).difference()


def test_derivations_of_a_relation_are_found_by_function_and_name():
    proved = ALL[0].record
    assert ALL[0] in derive(proved.function)
    assert derive(proved.name) == derive(proved.function)
    assert derive(seawater_density) == []


def test_a_function_stands_for_a_root_with_the_inputs_it_is_given():
    (derivation,) = derive("salinity_from_linear_compensation")

    def at_20_degrees(reading, temperature, coefficient, conductivity):
        """Forget that the meter compensates to 25 °C."""
        swapped = sympy.Function("c")

        def other(salinity, _temperature):
            return swapped(salinity, 20)

        return (yield from derivation.body(reading, temperature, coefficient, other))

    at_20_degrees.__signature__ = inspect.signature(derivation.body)
    wrong = Derivation(derivation.record, "A derivation", at_20_degrees)
    assert sympy.sympify(wrong.result - wrong.computed()) != 0
    assert derivation.difference() == 0
