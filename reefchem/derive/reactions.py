"""Reactions as linear algebra: whole numbers from the balance of elements and charge.

Everything here is a matrix of integers; what the reader may choose stands only on the right-hand
side, so that a system is solved exactly and at once.
"""

from __future__ import annotations

from math import lcm
from typing import TYPE_CHECKING, Any

from sympy import Eq, Float, Integer, MatMul, Matrix, Rational, Symbol

from reefchem.core.atoms import ATOMIC_WEIGHTS, atoms_in, charge_of
from reefchem.core.errors import DomainError

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

__all__ = ["balanced", "conservation", "decimal", "exact_mass", "solved", "system_of"]


def exact_mass(formula: str) -> Any:
    """Return a molar mass as a fraction of integers, summed from the weights as printed."""
    total = sum(Rational(repr(ATOMIC_WEIGHTS[e][0])) * n for e, n in atoms_in(formula).items())
    return total + Integer(0)


def decimal(formula: str) -> Any:
    """Return a molar mass as a decimal number, for the page; a proof takes `exact_mass`."""
    return Float(exact_mass(formula), 15)


def conservation(species: Sequence[str]) -> tuple[list[str], Any]:
    """Return what is conserved, and how much of it a mole of each species has.

    A row for each element and one for the charge; a column for each species.
    """
    elements = sorted({element for formula in species for element in atoms_in(formula)})
    rows = [[atoms_in(formula).get(element, 0) for formula in species] for element in elements]
    charges = [charge_of(formula) for formula in species]
    if any(charges):
        rows.append(charges)
        elements.append("charge")
    return elements, Matrix(rows)


def balanced(reactants: Sequence[str], products: Sequence[str]) -> dict[str, int]:
    """Return the smallest whole numbers that balance a reaction in every element and in charge.

    Raises
    ------
    DomainError
        When no reaction, or more than one, joins these species.
    """
    species = [*reactants, *products]
    _, matrix = conservation(species)
    signed = matrix * Matrix.diag(*([1] * len(reactants) + [-1] * len(products)))
    kernel = signed.nullspace()
    if len(kernel) != 1:
        msg = f"{len(kernel)} independent reactions join {species}; one is expected"
        raise DomainError(msg)
    scale = lcm(*(int(entry.q) for entry in kernel[0]))
    numbers = [int(entry * scale) for entry in kernel[0]]
    sign = 1 if numbers[0] > 0 else -1
    if any(sign * n <= 0 for n in numbers):
        msg = f"the balance of {species} has a negative number"
        raise DomainError(msg)
    return dict(zip(species, (sign * n for n in numbers), strict=True))


def system_of(
    extents: Mapping[str, Mapping[str, int]], demands: Mapping[str, Any]
) -> tuple[Any, Any, Any]:
    """Return matrix, unknowns and right-hand side of a balance over several processes.

    Parameters
    ----------
    extents
        By the symbol of each process: what a mole of it changes.
    demands
        By what is balanced: the change that is wanted.
    """
    matrix = Matrix([[change.get(row, 0) for change in extents.values()] for row in demands])
    unknowns = Matrix([Symbol(name, real=True) for name in extents])
    return matrix, unknowns, Matrix(list(demands.values()))


def solved(
    extents: Mapping[str, Mapping[str, int]], demands: Mapping[str, Any]
) -> tuple[Any, dict[str, Any]]:
    """Return the balance as an equation for the page, and its solution by process."""
    matrix, unknowns, wanted = system_of(extents, demands)
    if matrix.shape[0] != matrix.shape[1] or matrix.det() == 0:
        msg = f"{list(demands)} do not determine {list(extents)}"
        raise DomainError(msg)
    solution = matrix.LUsolve(wanted)
    shown = Eq(MatMul(matrix, unknowns, evaluate=False), wanted, evaluate=False)
    return shown, dict(zip(extents, solution, strict=True))
