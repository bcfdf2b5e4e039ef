"""How much light reaches a film: the relations of a tiny book about photography."""

from __future__ import annotations

from reefchem.core.functions import Num, log
from reefchem.core.record import arg, describe, relation
from reefchem.core.roots import find_root

LN2 = 0.6931471805599453


@relation(
    unit="1",
    symbol="E_v",
    source="handbook",
    at="chapter 2, definition of the exposure value",
    aperture=arg("1", "N", typical=(1.4, 22.0)),
    exposure_time=arg("second", "t", typical=(0.001, 1.0)),
)
def exposure_value(aperture: Num, exposure_time: Num) -> Num:
    """Return the exposure value of an aperture and a time."""
    return log(aperture * aperture / exposure_time) / LN2


@relation(
    unit="1",
    symbol="N",
    source="handbook",
    at="chapter 2, solved for the aperture",
    value=arg("1", "E_v", typical=(5.0, 15.0)),
    exposure_time=arg("second", "t", typical=(0.001, 0.1)),
)
def aperture_for(value: Num, exposure_time: Num) -> Num:
    """Return the aperture that gives an exposure value at a time."""
    return find_root(
        lambda aperture: exposure_value(aperture, exposure_time) - value,
        0.01,
        1000.0,
        unknown="aperture",
        symbol="N",
        like=(value, exposure_time),
    )


def records():
    """Return the relations of this book by name."""
    return {f.__name__: describe(f) for f in (exposure_value, aperture_for)}


def derivations(_name):
    """Return no derivations: this book has none."""
    return []
