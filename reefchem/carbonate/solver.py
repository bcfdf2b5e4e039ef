"""From alkalinity to pH: a start near the root, Newton steps, and a bracket for what is left.

The unknown is the natural logarithm of the hydrogen ion content, so that no step can reach a
negative content. The start is the cubic of Munhoven (2013) and its relatives for the other pairs.
The last step is checked; what has not settled goes to a search between bounds, which always ends.

All contents are in mol/kg, all constants on the total scale, for floats and for array pieces.
"""

from __future__ import annotations

from reefchem.carbonate.constants import Constants
from reefchem.core.functions import Num, exp, log, sqrt, where
from reefchem.core.roots import find_root

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Callable
    from typing import Any

    Side = Callable[[Num], tuple[Num, Num]]

__all__ = [
    "Solutes",
    "carbon_from_carbonate",
    "carbon_from_co2",
    "carbon_from_dic",
    "least_alkalinity",
    "other_alkalinity",
    "solve_carbonate",
    "solve_co2",
    "solve_dic",
]

MOST_STEPS = 12
"""Most Newton steps. Three or four are usual."""

SETTLED = 1e-7
"""Largest last step, in ln H, that counts as settled: what is left of it is its square."""

SMALL = 0.3
"""Step in ln H below which two terms serve instead of an exponential: the next mends the rest."""

IN_LOG, IN_INVERSE = 0.5, 1.0
"""The second term of a small step, which makes it one in ln H or one in 1/H."""

LONGEST = 5.0
"""Longest step in ln H that is taken."""

LOWEST, HIGHEST = 1e-18, 1e2
"""Bounds of the hydrogen ion content for the search; far outside any water, mol/kg."""

ACID, BASIC = 1e-3, 1e-10
"""Where to start when alkalinity is not positive, or so large that no cubic tells; mol/kg."""

TINY = 1e-300

NAN = float("nan")


class Solutes:
    """What takes part beside carbon: constants, and totals in mol/kg."""

    __slots__ = ("ammonium", "boron", "k", "phosphate", "silicate")

    def __init__(
        self, k: Constants, boron: Num, phosphate: Num, silicate: Num, ammonium: Num
    ) -> None:
        self.k: Constants = k
        self.boron: Num = boron
        self.phosphate: Num = phosphate
        self.silicate: Num = silicate
        self.ammonium: Num = ammonium


def other_alkalinity(h: Num, solutes: Solutes) -> tuple[Num, Num]:
    """Return the alkalinity that is not carbon's, and its slope against ln H."""
    # Divisions cost most in arrays: each denominator is divided by once.
    k = solutes.k
    b, s, f = 1.0 / (k.kb + h), 1.0 / (k.ks + h), 1.0 / (k.kf + h)
    borate = (solutes.boron * k.kb) * b
    hydroxide = k.kw / h
    free, bisulfate, fluoride = 1.0 / k.free, k.sulfate * s, k.fluoride * f
    value = borate + hydroxide - h * (free + bisulfate + fluoride)
    slope = -h * (borate * b + free + bisulfate * (k.ks * s) + fluoride * (k.kf * f)) - hydroxide
    if type(solutes.phosphate) is not float or solutes.phosphate != 0.0:
        a1 = k.k1p
        a2 = a1 * k.k2p
        a3 = a2 * k.k3p
        d = a3 + h * (a2 + h * (a1 + h))
        n = 2.0 * a3 + h * (a2 - h * h)
        part = solutes.phosphate * n / d
        value = value + part
        dn = h * (a2 - 3.0 * h * h)
        dd = h * (a2 + h * (2.0 * a1 + 3.0 * h))
        slope = slope + (solutes.phosphate * dn - part * dd) / d
    if type(solutes.silicate) is not float or solutes.silicate != 0.0:
        q = k.ksi + h
        part = solutes.silicate * k.ksi / q
        value = value + part
        slope = slope - part * h / q
    if type(solutes.ammonium) is not float or solutes.ammonium != 0.0:
        q = k.kn + h
        part = solutes.ammonium * k.kn / q
        value = value + part
        slope = slope - part * h / q
    return value, slope


def carbon_from_dic(h: Num, dic: Num, k: Constants) -> tuple[Num, Num]:
    """Return carbon's alkalinity for a DIC, and its slope against ln H."""
    k12 = k.k1 * k.k2
    d = 1.0 / (h * (h + k.k1) + k12)
    bicarbonate = dic * (k.k1 * h) * d
    value = bicarbonate + (2.0 * k12 * dic) * d
    slope = -bicarbonate * (h * (h + 4.0 * k.k2) + k12) * d
    return value, slope


def carbon_from_co2(h: Num, co2: Num, k: Constants) -> tuple[Num, Num]:
    """Return carbon's alkalinity for a content of dissolved CO2, and its slope against ln H."""
    bicarbonate = co2 * k.k1 / h
    twice = 2.0 * bicarbonate * k.k2 / h
    return bicarbonate + twice, -bicarbonate - 2.0 * twice


def carbon_from_carbonate(h: Num, carbonate: Num, k: Constants) -> tuple[Num, Num]:
    """Return carbon's alkalinity for a content of carbonate, and its slope against ln H."""
    bicarbonate = carbonate * h / k.k2
    return bicarbonate + 2.0 * carbonate, bicarbonate


def solve_dic(alkalinity: Num, dic: Num, solutes: Solutes) -> Num:
    """Return the hydrogen ion content of an alkalinity and a DIC."""
    k, boron = solutes.k, solutes.boron
    a = where(alkalinity > 0.0, alkalinity, NAN)
    c, b = dic / a, boron / a
    c2 = k.kb * (1.0 - b) + k.k1 * (1.0 - c)
    c1 = k.k1 * (k.kb * (1.0 - b - c) + k.k2 * (1.0 - 2.0 * c))
    c0 = k.k1 * k.k2 * k.kb * (1.0 - 2.0 * c - b)
    start = _cubic(c2, c1, c0)
    start = where(start > BASIC, start, where(alkalinity > 0.0, BASIC, ACID))
    return _settle(start, alkalinity, solutes, lambda h: carbon_from_dic(h, dic, k))


def solve_co2(alkalinity: Num, co2: Num, solutes: Solutes) -> Num:
    """Return the hydrogen ion content of an alkalinity and a content of dissolved CO2."""
    k, boron = solutes.k, solutes.boron
    a = where(alkalinity > 0.0, alkalinity, NAN)
    c = k.k1 * co2 / a
    c2 = k.kb * (1.0 - boron / a) - c
    c1 = -c * (2.0 * k.k2 + k.kb)
    c0 = -2.0 * c * k.k2 * k.kb
    start = _cubic(c2, c1, c0)
    start = where(start > BASIC, start, where(alkalinity > 0.0, BASIC, ACID))
    # The alkalinity of a given CO2 is nearly straight in 1/H, so a step in 1/H is the better one.
    return _settle(start, alkalinity, solutes, lambda h: carbon_from_co2(h, co2, k), IN_INVERSE)


def solve_carbonate(alkalinity: Num, carbonate: Num, solutes: Solutes) -> Num:
    """Return the hydrogen ion content of an alkalinity and a carbonate content, or NaN.

    Two contents of hydrogen ion can have the same alkalinity: one where bicarbonate makes it up,
    and one, at a pH near 10 or above, where hydroxide does. The first is returned. There is none
    where the alkalinity is below the least that this much carbonate can have.
    """
    k, boron = solutes.k, solutes.boron
    b = k.kb + k.k2 * (2.0 - alkalinity / carbonate)
    c0 = k.k2 * k.kb * (2.0 + (boron - alkalinity) / carbonate)
    square = b * b - 4.0 * c0
    start = (sqrt(where(square > 0.0, square, NAN)) - b) / 2.0
    start = where(start > BASIC, start, BASIC)

    def carbon(h: Num) -> tuple[Num, Num]:
        return carbon_from_carbonate(h, carbonate, k)

    h, settled = _newton(start, alkalinity, solutes, carbon)
    settled = settled & (_slope(h, solutes, carbon) > 0.0)
    if _all(settled):
        return h
    # Nobody searches for what is NaN: neither what is settled nor a gap.
    turn, least = least_alkalinity(where(settled, NAN, carbonate + 0.0 * alkalinity), solutes)
    left = where(least <= alkalinity, alkalinity, NAN)
    return where(settled, h, _between(left, solutes, carbon, turn, log(HIGHEST)))


def least_alkalinity(carbonate: Num, solutes: Solutes) -> tuple[Num, Num]:
    """Return ln H where a carbonate content has the least alkalinity, and that alkalinity."""

    def carbon(h: Num) -> tuple[Num, Num]:
        return carbon_from_carbonate(h, carbonate, solutes.k)

    # The slope changes its sign once.
    turn = _search(lambda x: _slope(exp(x), solutes, carbon), log(LOWEST), log(HIGHEST))
    return turn, _alkalinity(exp(turn), solutes, carbon)


def _cubic(c2: Num, c1: Num, c0: Num) -> Num:
    """Return a value above the largest root of x³ + c2 x² + c1 x + c0, or NaN.

    The parabola that touches the cubic at its minimum (Munhoven 2013, section 3.2.2).
    """
    square = c2 * c2 - 3.0 * c1
    root = sqrt(where(square > 0.0, square, NAN))
    lowest = (root - c2) / 3.0
    depth = -(c0 + lowest * (c1 + lowest * (c2 + lowest)))
    return lowest + sqrt(where(depth > 0.0, depth, NAN) / root)


def _settle(
    start: Num, alkalinity: Num, solutes: Solutes, carbon: Side, bend: float = IN_LOG
) -> Num:
    h, settled = _newton(start, alkalinity, solutes, carbon, bend)
    if _all(settled):
        return h
    left = where(settled, NAN, alkalinity)  # nobody searches for what is NaN
    found = _between(left, solutes, carbon, log(LOWEST), log(HIGHEST))
    return where(settled, h, found)


def _newton(
    start: Num, alkalinity: Num, solutes: Solutes, carbon: Side, bend: float = IN_LOG
) -> tuple[Num, Any]:
    """Return H after Newton steps in ln H, and where the last step was small enough.

    The second term of small steps is `bend`.
    """
    h = start
    settled: Any = None
    for _ in range(MOST_STEPS):
        other, other_slope = other_alkalinity(h, solutes)
        own, own_slope = carbon(h)
        step = (own + other - alkalinity) / (own_slope + other_slope + TINY)
        size = abs(step)
        most = _most(size)
        if most < SMALL:
            h = h * (1.0 - step * (1.0 - bend * step))
        else:
            # More than e⁵ comes from far off the root: the step is cut, so that H stays finite.
            if most > LONGEST:
                step = where(size > LONGEST, step * (LONGEST / size), step)
            h = h * exp(-step)
        settled = size < SETTLED
        if most < SETTLED:
            break
    return h, settled


def _most(size: Num) -> float:
    """Return the largest; what is NaN has no answer, and the others do not wait for one."""
    if type(size) is float:
        return size
    import numpy as np  # noqa: PLC0415 - an array is at hand

    return float(np.fmax.reduce(size, initial=0.0))


def _between(alkalinity: Num, solutes: Solutes, carbon: Side, lower: Num, upper: Num) -> Num:
    return exp(_search(lambda x: _alkalinity(exp(x), solutes, carbon) - alkalinity, lower, upper))


def _search(residual: Callable[[Num], Num], lower: Num, upper: Num) -> Num:
    return find_root(residual, lower, upper, unknown="ln H")


def _alkalinity(h: Num, solutes: Solutes, carbon: Side) -> Num:
    return carbon(h)[0] + other_alkalinity(h, solutes)[0]


def _slope(h: Num, solutes: Solutes, carbon: Side) -> Num:
    return carbon(h)[1] + other_alkalinity(h, solutes)[1]


def _all(mask: Any) -> bool:
    return mask if isinstance(mask, bool) else bool(mask.all())
