"""Uncertainty of a volume from that of what was measured."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sympy import Eq, Symbol, diff, solve, sqrt, symbols

from reefchem.derive.derivation import derivation
from reefchem.seawater.volume import (
    tank_volume_uncertainty,
    volume_from_alkalinity_rise,
    volume_from_rise,
    volume_from_rise_uncertainty,
)

if TYPE_CHECKING:
    from collections.abc import Generator

    Stages = Generator[tuple[Any, ...], None, Any]

__all__ = [
    "uncertainty_of_a_box",
    "uncertainty_of_a_rise",
    "volume_of_a_dose",
    "volume_of_a_dose_of_alkalinity",
]


def diluted(added: Any, rise: Any, what: str) -> Stages:
    """Solve the dilution of a dose for the volume."""
    before, volume = Symbol("c", positive=True), Symbol("V", positive=True)
    law = Eq(volume * (before + rise), volume * before + added)
    yield f"{what} after the dose is what was there and what was added:", law
    (solution,) = solve(law, volume)
    yield "What was there before drops out:", Eq(volume, solution)
    return solution


@derivation(volume_from_rise, title="The volume in which a dose is diluted")
def volume_of_a_dose(added: Any, rise: Any) -> Stages:
    """Balance the mass."""
    return (yield from diluted(added, rise, "The mass"))


@derivation(volume_from_alkalinity_rise, title="The volume in which alkalinity is diluted")
def volume_of_a_dose_of_alkalinity(added: Any, rise: Any) -> Stages:
    """Balance the equivalents."""
    return (yield from diluted(added, rise, "The alkalinity"))


@derivation(tank_volume_uncertainty, title="Three lengths with one tape")
def uncertainty_of_a_box(length: Any, width: Any, depth: Any, tape_uncertainty: Any) -> Stages:
    """Add up in squares what each length contributes."""
    volume = length * width * depth / 1000
    yield (
        "The volume, and what it gains with each length:",
        [
            volume,
            *(diff(volume, side) for side in (length, width, depth)),
        ],
    )
    parts = [tape_uncertainty * diff(volume, side) for side in (length, width, depth)]
    result = sqrt(sum(part**2 for part in parts))
    yield "Independent errors add in squares:", result
    return result


@derivation(volume_from_rise_uncertainty, title="A dose and two readings")
def uncertainty_of_a_rise(
    volume: Any, dose_error: Any, rise: Any, reading_uncertainty: Any
) -> Stages:
    """Add up in squares what the dose and each reading contribute."""
    added, before, after = symbols("m rho_0 rho_1", positive=True)
    found = added / (after - before)
    yield "The volume that the rise gives:", found
    parts = [
        diff(found, added) * dose_error * added,
        diff(found, before) * reading_uncertainty,
        diff(found, after) * reading_uncertainty,
    ]
    total = sqrt(sum(part**2 for part in parts))
    yield "Independent errors add in squares:", total
    return total.subs(after, before + rise).subs(added, volume * rise)
