"""The third bottle: magnesium, potassium and sulfate, so that what is left is sea salt.

Posed as a linear programme. Unknown are the moles of each salt for an equivalent of growth, and
the kilograms of seawater whose salts are left. For each ion, what the salts bring less what growth
takes less that seawater is a surplus or a shortfall; the sum of these is made as small as it can
be. Every column is neutral, so surpluses and shortfalls balance in charge: that equation stands in
the programme as well, and it is why chloride can be met last.

A minor ion is counted with the major one that it resembles, until a salt is offered that brings it:
then it stands for itself, and is met like the others.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from reefchem.core.errors import DomainError
from reefchem.dosing.catalogue import Salt
from reefchem.seawater.reference_composition import composition

if TYPE_CHECKING:
    from collections.abc import Mapping

__all__ = ["CHARGES", "Balanced", "balance_salts", "reference_ions"]

CHARGES: dict[str, int] = {
    "sodium": 1,
    "magnesium": 2,
    "calcium": 2,
    "potassium": 1,
    "chloride": -1,
    "sulfate": -2,
    "alkalinity": -1,
}
"""Charge of a mole of each; alkalinity stands for hydrogencarbonate, carbonate and borate."""

MINOR: dict[str, int] = {
    "strontium": 2,
    "bromide": -1,
    "fluoride": -1,
    "boron": 0,
}
"""Charge of a mole of each minor ion; borate's is counted with the alkalinity."""

OTHERS = {
    "strontium": "calcium",
    "bromide": "chloride",
    "fluoride": "chloride",
}
"""Minor ions, counted with the major one that they resemble."""

_FIRST = 1e-9
"""Weight of a mole of salt beside a mole of misfit: few salts, but only among equal fits."""


class Balanced:
    """A solution of the programme.

    Attributes
    ----------
    moles
        Of each salt for an equivalent of growth, by formula.
    seawater
        Kilograms of seawater whose salts are left, for an equivalent.
    misfit
        Moles by which what is left differs from that seawater, by ion; positive is a surplus.
    """

    __slots__ = ("misfit", "moles", "seawater")

    def __init__(self, moles: dict[str, float], seawater: float, misfit: dict[str, float]) -> None:
        self.moles: dict[str, float] = moles
        self.seawater: float = seawater
        self.misfit: dict[str, float] = misfit


def reference_ions(apart: frozenset[str] = frozenset()) -> dict[str, float]:
    """Return mol/kg of the major ions of seawater at salinity 35, minor ions counted with them.

    Alkalinity is what the charges of the others leave, so that the list is neutral.

    Parameters
    ----------
    apart
        Minor ions that stand for themselves.
    """
    amounts = dict(composition(35.0).amounts)
    amounts["boron"] = amounts["borate"] + amounts["boric_acid"]
    ions = _counted(amounts, apart)
    charges = _charges(apart)
    ions["alkalinity"] = sum(ions[ion] * charge for ion, charge in charges.items())
    return ions


def ions_of(salt: Salt, apart: frozenset[str] = frozenset()) -> dict[str, float]:
    """Return the ions and the alkalinity that a mole of a salt brings in the end."""
    charges = _charges(apart)
    ions = _counted(salt.components, apart)
    ions["alkalinity"] = float(salt.alkalinity_after_oxidation)
    if sum(ions[ion] * charge for ion, charge in charges.items()) != 0:
        msg = f"{salt.formula} brings more than the ions of sea salt; leave it out"
        raise DomainError(msg)
    return ions


def _charges(apart: frozenset[str]) -> dict[str, int]:
    return CHARGES | {ion: charge for ion, charge in MINOR.items() if ion in apart}


def _counted(amounts: Mapping[str, float], apart: frozenset[str]) -> dict[str, float]:
    """Return the amounts by ion, each minor one with its major one unless it stands apart."""
    ions = dict.fromkeys(_charges(apart), 0.0)
    for name, amount in amounts.items():
        ion = name if name in apart else OTHERS.get(name, name)
        if ion in ions:
            ions[ion] += amount
    return ions


def balance_salts(offered: tuple[Salt, ...], taken: dict[str, float]) -> Balanced:
    """Return how much of each salt makes what is left most like sea salt.

    Parameters
    ----------
    offered
        Salts that may be used, those of the first two bottles among them.
    taken
        Moles that growth takes with one equivalent, by ion.
    """
    import numpy as np  # noqa: PLC0415 - only here
    from scipy.optimize import linprog  # noqa: PLC0415

    apart = frozenset(ion for salt in offered for ion in salt.components if ion in MINOR)
    charge_of_ion = _charges(apart)
    ions, sea = tuple(charge_of_ion), reference_ions(apart)
    grown = _counted(taken, apart)
    grown["alkalinity"] = 1.0
    columns: list[list[float]] = [[ions_of(salt, apart)[ion] for ion in ions] for salt in offered]
    columns.append([-sea[ion] for ion in ions])
    columns += [[-float(ion == other) for ion in ions] for other in ions]  # surplus
    columns += [[float(ion == other) for ion in ions] for other in ions]  # shortfall
    charges = [0.0] * (len(offered) + 1)
    charges += [float(charge_of_ion[ion]) for ion in ions]
    charges += [-float(charge_of_ion[ion]) for ion in ions]
    equations = np.vstack([np.array(columns).T, charges])
    wanted = np.array([*(grown[ion] for ion in ions), 0.0])
    cost = [_FIRST] * len(offered) + [0.0] + [1.0] * (2 * len(ions))
    found: Any = linprog(cost, A_eq=equations, b_eq=wanted, bounds=(0, None), method="highs")
    if not found.success:
        msg = f"these salts cannot replace what growth takes: {found.message}"
        raise DomainError(msg)
    ends = np.cumsum([len(offered), 1, len(ions)])
    amounts, (seawater,), surplus, shortfall = np.split(found.x, ends)
    moles = dict(zip((salt.formula for salt in offered), amounts.tolist(), strict=True))
    misfit = dict(zip(ions, (surplus - shortfall).tolist(), strict=True))
    return Balanced(moles, float(seawater), misfit)
