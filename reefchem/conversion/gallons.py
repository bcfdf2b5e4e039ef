"""Volumes of tanks in gallons. Any volume that pint knows may also be given as a quantity."""

from __future__ import annotations

from reefchem.core.functions import Num
from reefchem.core.quantity import IMPERIAL_GALLON, US_GALLON
from reefchem.core.record import arg, relation

__all__ = [
    "imperial_gallons",
    "litres_from_imperial_gallons",
    "litres_from_us_gallons",
    "us_gallons",
]

LITRES = arg("L", "V", title="volume", typical=(10.0, 2000.0))


@relation(
    unit="L",
    symbol="V",
    source="nist2008",
    at="appendix B.8, gallon (U.S.): 231 cubic inches, exact",
    gallons=arg("gallon", "G", title="volume", typical=(3.0, 500.0)),
)
def litres_from_us_gallons(gallons: Num) -> Num:
    """Return a volume in US gallons in litres.

    Examples
    --------
    >>> round(litres_from_us_gallons(75.0), 1)
    283.9
    """
    return gallons * US_GALLON


@relation(
    unit="gallon",
    symbol="G",
    source="nist2008",
    at="appendix B.8, gallon (U.S.): 231 cubic inches, exact",
    litres=LITRES,
)
def us_gallons(litres: Num) -> Num:
    """Return a volume in litres in US gallons."""
    return litres / US_GALLON


@relation(
    unit="L",
    symbol="V",
    source="nist2008",
    at="appendix B.8, gallon (imperial): 4.54609 L, exact",
    gallons=arg("imperial_gallon", "G", title="volume", typical=(3.0, 400.0)),
)
def litres_from_imperial_gallons(gallons: Num) -> Num:
    """Return a volume in imperial gallons in litres."""
    return gallons * IMPERIAL_GALLON


@relation(
    unit="imperial_gallon",
    symbol="G",
    source="nist2008",
    at="appendix B.8, gallon (imperial): 4.54609 L, exact",
    litres=LITRES,
)
def imperial_gallons(litres: Num) -> Num:
    """Return a volume in litres in imperial gallons."""
    return litres / IMPERIAL_GALLON
