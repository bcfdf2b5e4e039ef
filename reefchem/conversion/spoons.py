"""A spoon as a measure of mass: only with a bulk density, and never without its uncertainty.

A spoon measures volume. What a volume of powder weighs depends on its grain, its moisture and how
it was filled: the same teaspoon of a salt may hold half as much again on another day. A kitchen
balance that shows 0.1 g is better in every way.
"""

from __future__ import annotations

from reefchem.core.functions import Num, sqrt
from reefchem.core.quantity import US_GALLON
from reefchem.core.record import POSITIVE, arg, relation

__all__ = ["METRIC_TEASPOON", "US_TEASPOON", "spoon_mass", "spoon_mass_uncertainty"]

US_TEASPOON = 1000 * US_GALLON / 768
"""Millilitres in a US teaspoon: a US gallon is 768 of them (definition)."""

METRIC_TEASPOON = 5.0
"""Millilitres in a metric teaspoon (definition)."""

SPOONS = arg("1", "N", typical=(0.25, 20.0), possible=POSITIVE)
SPOON_VOLUME = arg("mL", "V", typical=(1.0, 15.0), possible=POSITIVE)
BULK_DENSITY = arg("g/mL", r"\rho_b", typical=(0.4, 2.0), possible=POSITIVE)


@relation(
    unit="g",
    symbol="m",
    source="nist2008",
    at="appendix B.8, teaspoon; the bulk density is the keeper's own measurement",
    spoons=SPOONS,
    spoon_volume=SPOON_VOLUME,
    bulk_density=BULK_DENSITY,
)
def spoon_mass(spoons: Num, spoon_volume: Num, bulk_density: Num) -> Num:
    """Return the mass of level spoons of a powder.

    Parameters
    ----------
    spoons
        Number of level spoons.
    spoon_volume
        What one holds: see `US_TEASPOON` and `METRIC_TEASPOON`, or fill yours with water on a
        balance.
    bulk_density
        Mass of the powder over the volume it fills, air included; measure it with your spoon.

    Examples
    --------
    >>> round(spoon_mass(2.0, US_TEASPOON, 1.1), 1)
    10.8
    """
    return spoons * spoon_volume * bulk_density


@relation(
    unit="g",
    symbol="u_m",
    source="jcgm2008",
    at="section 5.1.2, eq. 10, for a product",
    spoons=SPOONS,
    spoon_volume=SPOON_VOLUME,
    bulk_density=BULK_DENSITY,
    volume_uncertainty=arg(
        "mL", "u_V", title="standard uncertainty of the volume of a spoon", typical=(0.0, 2.0)
    ),
    density_uncertainty=arg(
        "g/mL", r"u_\rho", title="standard uncertainty of the bulk density", typical=(0.0, 0.5)
    ),
)
def spoon_mass_uncertainty(
    spoons: Num,
    spoon_volume: Num,
    bulk_density: Num,
    volume_uncertainty: Num,
    density_uncertainty: Num,
) -> Num:
    """Return the standard uncertainty of the mass of level spoons of a powder.

    The same spoon and the same powder fill every spoon, so their errors do not average out: the
    uncertainty grows with the number of spoons, not with its root.

    Examples
    --------
    >>> round(spoon_mass_uncertainty(2.0, US_TEASPOON, 1.1, 0.5, 0.15), 1)
    1.8
    """
    a = volume_uncertainty / spoon_volume
    b = density_uncertainty / bulk_density
    return spoon_mass(spoons, spoon_volume, bulk_density) * sqrt(a * a + b * b)
