"""Parts by weight, by volume, and what a moist powder holds."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sympy import Eq, Symbol, cancel, solve, symbols

from reefchem.derive.derivation import derivation
from reefchem.dosing.strength import (
    share_of_salt,
    solution_volume,
    strength_from_mass_share,
    strength_from_rise,
)

if TYPE_CHECKING:
    from collections.abc import Generator

    Stages = Generator[tuple[Any, ...], None, Any]

__all__ = ["salt_of_a_moist_powder"]


@derivation(share_of_salt, title="Salt in a moist powder")
def salt_of_a_moist_powder(assay: Any, moisture: Any) -> Stages:
    """Divide a weighed mass into water and dry powder, and that into salt and the rest."""
    m, d, s = symbols("m m_d m_s", positive=True)
    laws = [Eq(m, d + moisture * m), Eq(s, assay * d)]
    yield (
        "A moist mass is dry powder and water; the dry powder holds the salt that its label says:",
        laws,
    )
    found = solve(laws, [d, s], dict=True)[0][s]
    yield "Solved for the salt in the moist mass:", found
    return cancel(found / m)


@derivation(strength_from_mass_share, title="From parts by weight to grams in a litre")
def litre_by_weight(mass_share: Any, density: Any) -> Stages:
    """Weigh a litre, and take the share."""
    litre = Symbol("m_L", positive=True)
    yield (
        "A litre weighs, in grams, a thousand times its density in kg/L:",
        Eq(litre, 1000 * density),
    )
    yield "The salt is a share of that:", mass_share * litre
    return (mass_share * litre).subs(litre, 1000 * density)


@derivation(solution_volume, title="Masses add, volumes do not")
def volume_of_a_mixture(powder: Any, water: Any, density: Any) -> Stages:
    """Keep mass, and divide by the density."""
    mass, volume = symbols("m V", positive=True)
    laws = [Eq(mass, powder + water), Eq(density, mass / volume)]
    yield (
        "Mass is conserved; the density (g/mL, the same number as kg/L) is mass over volume:",
        laws,
    )
    return solve(laws, [mass, volume], dict=True)[0][volume]


@derivation(strength_from_rise, title="A bottle by the rise it makes")
def bottle_by_its_rise(rise: Any, volume: Any, dose: Any) -> Stages:
    """Keep mass: what left the bottle is in the water."""
    strength = Symbol(r"\rho_s", positive=True)
    law = Eq(dose * strength, rise * volume)
    yield "What the dose held, in milligrams, is what the water has gained:", law
    return solve(law, strength)[0]
