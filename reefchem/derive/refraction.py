"""Refraction: from the index to the salinity, and scales that standards set right."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sympy import Eq, Integer, Rational, Symbol, diff, solve, symbols

from reefchem.derive.derivation import derivation, written_out
from reefchem.seawater.refraction import (
    SODIUM_D,
    refractive_index,
    refractive_index_quan1995,
    salinity_from_refractive_index,
    salinity_from_refractive_index_quan1995,
)
from reefchem.seawater.refractometer import (
    nacl_scale_reading,
    one_point_salinity,
    salinity_from_nacl_scale,
    salinity_from_uncompensated,
    two_point_salinity,
    uncompensated_reading,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Generator

    Stages = Generator[tuple[Any, ...], None, Any]

__all__ = [
    "line_of_two_standards",
    "offset_of_one_standard",
    "reading_at_another_temperature",
    "reading_of_another_salt",
    "salinity_of_a_line",
    "salinity_of_a_shorter_line",
    "salinity_of_another_salt",
    "salinity_of_another_temperature",
]


_millard, _quan = refractive_index, refractive_index_quan1995


def _solved(forward: Callable[..., Any], index: Any, temperature: Any, wavelength: Any) -> Stages:
    """Solve a relation that is linear in salinity."""
    salinity = Symbol("S", real=True)
    water, salt = symbols("n_w n_S", positive=True)
    law = Eq(index, water + salt * salinity)
    yield "At one temperature and one colour, the index is a straight line in salinity:", law
    (solution,) = solve(law, salinity)
    yield "A line can be turned around:", Eq(salinity, solution)
    full = written_out(forward, salinity=salinity, temperature=temperature, wavelength=wavelength)
    slope = diff(full, salinity)
    yield "What each unit of salinity adds, in full:", Eq(salt, slope)
    return solution.subs({water: full.subs(salinity, 0), salt: slope}, simultaneous=True)


@derivation(salinity_from_refractive_index, title="From the index to the salinity")
def salinity_of_a_line(refractive_index: Any, temperature: Any, wavelength: Any) -> Stages:
    """Solve the equation of Millard and Seaver."""
    return (yield from _solved(_millard, refractive_index, temperature, wavelength))


@derivation(salinity_from_refractive_index_quan1995, title="From the index to the salinity")
def salinity_of_a_shorter_line(refractive_index: Any, temperature: Any, wavelength: Any) -> Stages:
    """Solve the equation of Quan and Fry."""
    return (yield from _solved(_quan, refractive_index, temperature, wavelength))


@derivation(nacl_scale_reading, title="What a scale for another salt shows")
def reading_of_another_salt(salinity: Any, increment: Any, scale_temperature: Any) -> Stages:
    """Ask which salt solution bends light as the sample does."""
    reading, water, index = symbols("R n_w n", positive=True)
    scale = Eq(index, water + increment * reading)
    yield "The scale was drawn for a salt that adds the same to the index for each gram:", scale
    (solution,) = solve(scale, reading)
    yield "It shows how much of that salt would bend light as the sample does:", solution
    pure, seawater = (_seawater(s, scale_temperature) for s in (Integer(0), salinity))
    return solution.subs({index: seawater, water: pure}, simultaneous=True)


@derivation(salinity_from_nacl_scale, title="From a scale for another salt")
def salinity_of_another_salt(reading: Any, increment: Any, scale_temperature: Any) -> Stages:
    """Set what two salts add equal."""
    salinity, salt = Symbol("S", real=True), Symbol("n_S", positive=True)
    same = Eq(salt * salinity, increment * reading)
    yield "What both salts add to the index of water is the same:", same
    (solution,) = solve(same, salinity)
    yield "So the salinity is", Eq(salinity, solution)
    return solution.subs(salt, diff(_seawater(salinity, scale_temperature), salinity))


def _seawater(salinity: Any, temperature: Any) -> Any:
    """Return the index of seawater in the light that scales are drawn for."""
    colour = Rational(str(SODIUM_D))
    return written_out(
        refractive_index, salinity=salinity, temperature=temperature, wavelength=colour
    )


def _same_index(known: Any, there: Any, sought: str, here: Any) -> Stages:
    """Equate the index of what is known at one temperature with what is sought at another."""
    other = Symbol(sought, real=True)
    water, salt, water2, salt2 = symbols("n_w n_S n_w2 n_S2", positive=True)
    law = Eq(water + salt * known, water2 + salt2 * other)
    yield "One drop has one index, and at each temperature it is a straight line in salinity:", law
    (solution,) = solve(law, other)
    yield "Solved for what is sought:", Eq(other, solution)
    first, second = (_seawater(other, t) for t in (there, here))
    return solution.subs(
        {
            water: first.subs(other, 0),
            salt: diff(first, other),
            water2: second.subs(other, 0),
            salt2: diff(second, other),
        },
        simultaneous=True,
    )


@derivation(uncompensated_reading, title="A drop at the wrong temperature")
def reading_at_another_temperature(
    salinity: Any, temperature: Any, scale_temperature: Any
) -> Stages:
    """Read the index of warm water on a scale for cool water."""
    return (yield from _same_index(salinity, temperature, "S_read", scale_temperature))


@derivation(salinity_from_uncompensated, title="Back from the wrong temperature")
def salinity_of_another_temperature(
    reading: Any, temperature: Any, scale_temperature: Any
) -> Stages:
    """Give the index of the mark to water at the temperature of the drop."""
    return (yield from _same_index(reading, scale_temperature, "S", temperature))


@derivation(one_point_salinity, title="One standard, one offset")
def offset_of_one_standard(reading: Any, standard_reading: Any, standard_salinity: Any) -> Stages:
    """Take the device as right in its differences."""
    salinity, offset = symbols("S b", real=True)
    laws = [Eq(standard_reading, standard_salinity + offset), Eq(reading, salinity + offset)]
    yield "One offset, in the standard and in the tank:", laws
    (solution,) = solve(laws, [salinity, offset], dict=True)
    yield "The standard tells it:", Eq(offset, solution[offset])
    return solution[salinity]


@derivation(two_point_salinity, title="Two standards, one line")
def line_of_two_standards(
    reading: Any, low_reading: Any, high_reading: Any, low_salinity: Any, high_salinity: Any
) -> Stages:
    """Draw a line through two standards."""
    slope, offset = symbols("a b", real=True)
    laws = [Eq(low_salinity, slope * low_reading + offset)]
    laws.append(Eq(high_salinity, slope * high_reading + offset))
    yield "A slope and an offset make both standards right:", laws
    (solution,) = solve(laws, [slope, offset], dict=True)
    yield "Two equations give the two:", Eq(slope, solution[slope]), Eq(offset, solution[offset])
    return solution[slope] * reading + solution[offset]
