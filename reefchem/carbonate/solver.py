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
    a = where(alkalinity > 0.0, alkalinity, 1.0)
    c, b = dic / a, boron / a
    c2 = k.kb * (1.0 - b) + k.k1 * (1.0 - c)
    c1 = k.k1 * (k.kb * (1.0 - b - c) + k.k2 * (1.0 - 2.0 * c))
    c0 = k.k1 * k.k2 * k.kb * (1.0 - 2.0 * c - b)
    start, good = _cubic(c2, c1, c0)
    most = 2.0 * dic + boron
    otherwise = where(alkalinity <= 0.0, 1e-3, where(alkalinity >= most, 1e-10, 1e-7))
    start = where(good & (alkalinity > 0.0) & (alkalinity < most), start, otherwise)
    return _settle(start, alkalinity, solutes, lambda h: carbon_from_dic(h, dic, k))


def solve_co2(alkalinity: Num, co2: Num, solutes: Solutes) -> Num:
    """Return the hydrogen ion content of an alkalinity and a content of dissolved CO2."""
    k, boron = solutes.k, solutes.boron
    a = where(alkalinity > 0.0, alkalinity, 1.0)
    c = k.k1 * co2 / a
    c2 = k.kb * (1.0 - boron / a) - c
    c1 = -c * (2.0 * k.k2 + k.kb)
    c0 = -2.0 * c * k.k2 * k.kb
    start, good = _cubic(c2, c1, c0)
    start = where(good & (alkalinity > 0.0), start, where(alkalinity > 0.0, 1e-8, 1e-3))
    # The alkalinity of a given CO2 is nearly straight in 1/H, so a step in 1/H is the better one.
    return _settle(start, alkalinity, solutes, lambda h: carbon_from_co2(h, co2, k), IN_INVERSE)


def solve_carbonate(alkalinity: Num, carbonate: Num, solutes: Solutes) -> tuple[Num, Num]:
    """Return the hydrogen ion content of an alkalinity and a carbonate content, and the excess.

    Two contents of hydrogen ion can have the same alkalinity: one where bicarbonate makes it up,
    and one, at a pH near 10 or above, where hydroxide does. The first is returned. The excess is
    the least alkalinity that this much carbonate can have, minus the one given: where it is
    positive there is no answer, and NaN is returned beside it. Where the answer was found by
    Newton steps alone, the excess is zero.
    """
    k, boron = solutes.k, solutes.boron
    c = where(carbonate > 0.0, carbonate, 1.0)
    b = k.kb + k.k2 * (2.0 - alkalinity / c)
    c0 = k.k2 * k.kb * (2.0 + (boron - alkalinity) / c)
    disc = b * b - 4.0 * c0
    start = (sqrt(where(disc > 0.0, disc, 0.0)) - b) / 2.0
    start = where((disc > 0.0) & (start > 0.0), start, 1e-8)

    def carbon(h: Num) -> tuple[Num, Num]:
        return carbon_from_carbonate(h, carbonate, k)

    h, settled = _newton(start, alkalinity, solutes, carbon)
    slope = _slope(h, solutes, carbon)
    settled = settled & (slope > 0.0)
    if _all(settled):
        return h, 0.0 * h
    # The slope changes its sign once, where the alkalinity is least; the answer lies above.
    lower, upper = log(LOWEST), log(HIGHEST)
    left = where(settled, NAN, 0.0 * alkalinity)  # nobody searches for what is NaN
    turn = find_root(lambda x: _slope(exp(x), solutes, carbon) + left, lower, upper, unknown="ln H")
    excess = _alkalinity(exp(turn), solutes, carbon) - alkalinity
    found = _between(where(excess <= 0.0, alkalinity, NAN), solutes, carbon, turn, upper)
    return where(settled, h, found), where(settled, 0.0, excess)


def _cubic(c2: Num, c1: Num, c0: Num) -> tuple[Num, Any]:
    """Return a value above the largest root of x³ + c2 x² + c1 x + c0, and where it is one.

    The parabola that touches the cubic at its minimum (Munhoven 2013, section 3.2.2).
    """
    c21 = c2 * c2 - 3.0 * c1
    root = sqrt(where(c21 > 0.0, c21, 0.0))
    steep = where(c2 < 0.0, -c2, c2) + root + TINY
    lowest = where(c2 < 0.0, (root - c2) / 3.0, -c1 / steep)
    depth = -(c0 + lowest * (c1 + lowest * (c2 + lowest)))
    start = lowest + sqrt(where(depth > 0.0, depth, 0.0) / (root + TINY))
    return start, (c21 > 0.0) & (depth > 0.0) & (start > 0.0)


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
    settled: Any = False
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
                step = where(size > LONGEST, where(step > 0.0, LONGEST, -LONGEST), step)
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
    return exp(
        find_root(
            lambda x: _alkalinity(exp(x), solutes, carbon) - alkalinity,
            lower,
            upper,
            unknown="ln H",
        )
    )


def _alkalinity(h: Num, solutes: Solutes, carbon: Side) -> Num:
    return carbon(h)[0] + other_alkalinity(h, solutes)[0]


def _slope(h: Num, solutes: Solutes, carbon: Side) -> Num:
    return carbon(h)[1] + other_alkalinity(h, solutes)[1]


def _all(mask: Any) -> bool:
    return mask if isinstance(mask, bool) else bool(mask.all())
