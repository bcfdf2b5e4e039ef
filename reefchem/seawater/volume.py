"""How much water a tank holds: from its dimensions, and from what a known dose does to it.

A dimension counts in proportion, so an error of 1 % in the depth is one of 1 % in every dose. The
second way needs no tape: dose something that stays in the water, and divide by the rise.
"""

from __future__ import annotations

from reefchem.core.functions import Num, sqrt
from reefchem.core.record import POSITIVE, arg, relation

__all__ = [
    "cylinder_volume",
    "rock_displacement",
    "tank_volume",
    "tank_volume_uncertainty",
    "volume_from_alkalinity_rise",
    "volume_from_rise",
    "volume_from_rise_uncertainty",
    "water_volume",
]

LENGTH = arg("cm", "l", typical=(20.0, 300.0), possible=POSITIVE)
WIDTH = arg("cm", "w", typical=(20.0, 100.0), possible=POSITIVE)
DEPTH = arg("cm", "h", typical=(15.0, 80.0), possible=POSITIVE)
RISE = arg(
    "mg/L", r"\Delta\rho", title="rise of the reading", typical=(1.0, 100.0), possible=POSITIVE
)
PI = 3.141592653589793


@relation(
    unit="L",
    symbol="V",
    source="nist2008",
    at="section 6.2, litre: 1 L is 1000 cm³, exact",
    length=LENGTH.titled("length inside the glass"),
    width=WIDTH.titled("width inside the glass"),
    depth=DEPTH,
)
def tank_volume(length: Num, width: Num, depth: Num) -> Num:
    """Return the volume of a box of water.

    Parameters
    ----------
    length, width
        Inside the glass.
    depth
        Of the water, from the bottom (or the top of the sand) to the surface.

    Examples
    --------
    >>> tank_volume(100.0, 50.0, 45.0)
    225.0
    """
    return length * width * depth / 1000


@relation(
    unit="L",
    symbol="V",
    source="nist2008",
    at="section 6.2, litre: 1 L is 1000 cm³, exact",
    diameter=arg("cm", "d", typical=(10.0, 100.0), possible=POSITIVE),
    depth=DEPTH,
)
def cylinder_volume(diameter: Num, depth: Num) -> Num:
    """Return the volume of water in a round vessel, such as a reactor or a bucket.

    Examples
    --------
    >>> round(cylinder_volume(30.0, 40.0), 2)
    28.27
    """
    return PI / 4 * diameter * diameter * depth / 1000


@relation(
    unit="L",
    symbol="u_V",
    source="jcgm2008",
    at="section 5.1.2, eq. 10, for a product",
    length=LENGTH,
    width=WIDTH,
    depth=DEPTH,
    tape_uncertainty=arg("cm", "u", title="standard uncertainty of the tape", typical=(0.0, 2.0)),
)
def tank_volume_uncertainty(length: Num, width: Num, depth: Num, tape_uncertainty: Num) -> Num:
    """Return the standard uncertainty of a volume from three lengths read off a tape.

    Each length has its own error of the same size. The smallest length weighs most.

    Examples
    --------
    >>> round(tank_volume_uncertainty(100.0, 50.0, 45.0, 0.5), 2)
    3.55
    """
    V = tank_volume(length, width, depth)
    a = tape_uncertainty / length
    b = tape_uncertainty / width
    c = tape_uncertainty / depth
    return V * sqrt(a * a + b * b + c * c)


@relation(
    unit="L",
    symbol="V_d",
    source="nist2008",
    at="section 6.2; volume as mass over density",
    mass=arg("kg", "m", title="dry mass of the rock", typical=(0.0, 100.0)),
    density=arg(
        "kg/L", r"\rho", title="density of the solid itself", typical=(1.0, 3.0), possible=POSITIVE
    ),
)
def rock_displacement(mass: Num, density: Num) -> Num:
    """Return the water that dry rock or sand pushes aside.

    Parameters
    ----------
    mass
        Dry.
    density
        Of the solid that water does not enter: about 2.7 to 2.9 kg/L for calcium carbonate, less
        where closed pores stay dry.

    Examples
    --------
    >>> round(rock_displacement(20.0, 2.8), 1)
    7.1
    """
    return mass / density


@relation(
    unit="L",
    symbol="V",
    source="nist2008",
    at="section 6.2; a difference of volumes",
    tank=arg("L", "V_t", title="volume of the tank", typical=(100.0, 1000.0)),
    sump=arg("L", "V_s", title="volume of the sump", typical=(0.0, 200.0)),
    displaced=arg("L", "V_d", title="volume of rock and sand", typical=(0.0, 50.0)),
)
def water_volume(tank: Num, sump: Num, displaced: Num) -> Num:
    """Return the water of tank and sump, less what rock and sand push aside.

    Examples
    --------
    >>> water_volume(225.0, 40.0, 7.0)
    258.0
    """
    return tank + sump - displaced


@relation(
    unit="L",
    symbol="V",
    source="harris2015",
    at="chapter 5, standard addition: amount over change of concentration",
    added=arg(
        "mg", "m", title="mass of the ion added", typical=(100.0, 50000.0), possible=POSITIVE
    ),
    rise=RISE,
)
def volume_from_rise(added: Num, rise: Num) -> Num:
    """Return the volume of water in which a known mass makes a measured rise.

    Parameters
    ----------
    added
        Mass of the ion that was added, not of the salt.
    rise
        Reading after, well mixed, less the reading before.

    Examples
    --------
    >>> volume_from_rise(5000.0, 20.0)
    250.0
    """
    return added / rise


@relation(
    unit="L",
    symbol="V",
    source="harris2015",
    at="chapter 5, standard addition: amount over change of concentration",
    added=arg("meq", "n", title="alkalinity added", typical=(5.0, 1000.0), possible=POSITIVE),
    rise=arg(
        "meq/L",
        r"\Delta A",
        title="rise of alkalinity measured",
        typical=(0.05, 1.0),
        possible=POSITIVE,
    ),
)
def volume_from_alkalinity_rise(added: Num, rise: Num) -> Num:
    """Return the volume of water in which a known dose makes a measured rise of alkalinity.

    Corals use alkalinity while it mixes: read soon after, and at night.

    Examples
    --------
    >>> round(volume_from_alkalinity_rise(89.0, 0.36), 0)
    247.0
    """
    return added / rise


@relation(
    unit="L",
    symbol="u_V",
    source="jcgm2008",
    at="section 5.1.2, eq. 10, for a quotient",
    volume=arg("L", "V", title="volume of water found", typical=(50.0, 1000.0), possible=POSITIVE),
    dose_error=arg("1", "r_m", title="relative uncertainty of the dose", typical=(0.0, 0.1)),
    rise=RISE,
    reading_uncertainty=arg(
        "mg/L", "u", title="standard uncertainty of one reading", typical=(0.0, 20.0)
    ),
)
def volume_from_rise_uncertainty(
    volume: Num, dose_error: Num, rise: Num, reading_uncertainty: Num
) -> Num:
    """Return the standard uncertainty of a volume that was found from a rise.

    Parameters
    ----------
    volume
        As found.
    dose_error
        Standard uncertainty of the dose over the dose.
    rise
        Reading after less reading before.
    reading_uncertainty
        Standard uncertainty of one reading; there are two, so the rise has it times √2.

    Examples
    --------
    >>> round(volume_from_rise_uncertainty(250.0, 0.01, 20.0, 2.0), 1)
    35.4
    """
    a = dose_error
    b = reading_uncertainty / rise
    return volume * sqrt(a * a + 2 * b * b)
