"""Nitrate and phosphate from a salt, and the alkalinity that nitrogen moves."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sympy import Eq, Integer, Matrix, Symbol, symbols

from reefchem.core.atoms import charge_of
from reefchem.derive.derivation import derivation
from reefchem.derive.reactions import balanced, decimal, exact_mass
from reefchem.dosing.alkalinity_budget import alkalinity_change, alkalinity_from_nitrate_gain
from reefchem.dosing.nutrients import (
    phosphate_stock_volume,
    potassium_dihydrogenphosphate_mass,
    potassium_nitrate_mass,
    potassium_nitrate_volume,
    sodium_nitrate_mass,
    sodium_nitrate_volume,
    sodium_with_nitrate,
)

if TYPE_CHECKING:
    from collections.abc import Generator

    Stages = Generator[tuple[Any, ...], None, Any]

__all__ = ["change_from_charges", "potassium_nitrate_from_its_ions"]


M_NO3: Any = Symbol(r"M_\mathrm{NO_3}", positive=True)


def salt_for(rise: Any, volume: Any, ion: str, salt: str) -> Stages:
    """Return the mass of a salt with one of the ion in each mole, in milligrams."""
    M_i, M_s = symbols("M_i M_s", positive=True)
    moles = rise * volume / M_i
    yield "Millimoles of the ion for the whole tank, with its molar mass:", moles
    yield (
        "A mole of the salt brings one of the ion, so the salt weighs, in milligrams:",
        moles * M_s,
    )
    yield "The two molar masses, in g/mol:", [Eq(M_i, decimal(ion)), Eq(M_s, decimal(salt))]
    return (moles * M_s).subs({M_i: exact_mass(ion), M_s: exact_mass(salt)})


@derivation(potassium_nitrate_mass, title="Potassium nitrate for a rise of nitrate")
def potassium_nitrate_from_its_ions(nitrate_rise: Any, volume: Any) -> Stages:
    """Count one nitrate for each mole."""
    milligrams = yield from salt_for(nitrate_rise, volume, "NO3-", "KNO3")
    return milligrams / 1000


@derivation(sodium_nitrate_mass, title="Sodium nitrate for a rise of nitrate")
def sodium_nitrate_from_its_ions(nitrate_rise: Any, volume: Any) -> Stages:
    """Count one nitrate for each mole."""
    milligrams = yield from salt_for(nitrate_rise, volume, "NO3-", "NaNO3")
    return milligrams / 1000


@derivation(potassium_nitrate_volume, title="The volume of a potassium nitrate stock")
def potassium_nitrate_poured(nitrate_rise: Any, volume: Any, strength: Any) -> Stages:
    """Divide the mass by what a millilitre holds."""
    milligrams = yield from salt_for(nitrate_rise, volume, "NO3-", "KNO3")
    yield "A millilitre of the stock holds as many milligrams as a litre holds grams:", strength
    return milligrams / strength


@derivation(sodium_nitrate_volume, title="The volume of a sodium nitrate stock")
def sodium_nitrate_poured(nitrate_rise: Any, volume: Any, strength: Any) -> Stages:
    """Divide the mass by what a millilitre holds."""
    milligrams = yield from salt_for(nitrate_rise, volume, "NO3-", "NaNO3")
    yield "A millilitre of the stock holds as many milligrams as a litre holds grams:", strength
    return milligrams / strength


@derivation(sodium_with_nitrate, title="Sodium that comes with nitrate")
def sodium_of_sodium_nitrate(nitrate_rise: Any) -> Stages:
    """Count one sodium for each nitrate."""
    moles = nitrate_rise / exact_mass("NO3-")
    yield "Millimoles of nitrate in a litre, as many of sodium:", nitrate_rise / M_NO3
    return moles * exact_mass("Na+")


@derivation(potassium_dihydrogenphosphate_mass, title="Phosphate salt for a rise of phosphate")
def phosphate_from_its_ions(phosphate_rise: Any, volume: Any) -> Stages:
    """Count one phosphate for each mole; it is told as PO4 whatever its form."""
    milligrams = yield from salt_for(phosphate_rise, volume, "PO4^3-", "KH2PO4")
    return milligrams


@derivation(phosphate_stock_volume, title="The volume of a phosphate stock")
def phosphate_poured(phosphate_rise: Any, volume: Any, strength: Any) -> Stages:
    """Divide the mass by what a millilitre holds."""
    milligrams = yield from salt_for(phosphate_rise, volume, "PO4^3-", "KH2PO4")
    return milligrams / strength


IONS = ("Ca^2+", "NH4+", "NO3-", "PO4^3-")
CONSERVATIVE = {"Ca^2+": 2, "NH4+": 1, "NO3-": -1, "PO4^3-": -1}
"""Weights of calcium, ammonium, nitrate and phosphate in the explicit conservative expression.

A monovalent ion counts its charge. Total ammonia counts +1 and total phosphate -1: the charges of
the forms in which they stand at the zero level of alkalinity, NH4+ and H2PO4-."""

PROCESSES = {
    "n_c": {"Ca^2+": -1},
    "n_n": {"NH4+": -1, "NO3-": 1},
    "n_d": {"NO3-": -1},
    "n_a": {"NO3-": -1},
    "n_h": {"NH4+": -1},
    "n_p": {"PO4^3-": -1},
}
"""What a mole of each process changes: CaCO3 formed, ammonium oxidised, nitrate reduced, nitrate,
ammonium and phosphate taken up."""


@derivation(alkalinity_change, title="Alkalinity as a balance of charges")
def change_from_charges(
    calcium_carbonate_formed: Any,
    ammonium_oxidised: Any,
    nitrate_reduced: Any,
    nitrate_assimilated: Any,
    ammonium_assimilated: Any,
    phosphate_assimilated: Any,
) -> Stages:
    """Multiply what each process changes by what each ion counts."""
    changes = Matrix([[change.get(ion, 0) for change in PROCESSES.values()] for ion in IONS])
    weights = Matrix([[CONSERVATIVE[ion] for ion in IONS]])
    yield (
        (
            "In a litre the charges balance. Strong ions and the totals of the nutrients therefore "
            "fix the alkalinity (Wolf-Gladrow et al., 2007); of its terms these can change here:"
        ),
        weights
        * Matrix([Symbol(r"\mathrm{" + name + "}") for name in ("Ca", "NH_4", "NO_3", "PO_4")]),
    )
    for ion in ("Ca^2+", "NO3-", "NH4+"):
        if CONSERVATIVE[ion] != charge_of(ion):
            msg = f"{ion} counts its charge"
            raise ArithmeticError(msg)
    extents = Matrix(
        [
            calcium_carbonate_formed,
            ammonium_oxidised,
            nitrate_reduced,
            nitrate_assimilated,
            ammonium_assimilated,
            phosphate_assimilated,
        ]
    )
    yield (
        "Equivalents for a mole of each process, in the order of the arguments:",
        weights * changes,
    )
    return (weights * changes * extents)[0]


@derivation(alkalinity_from_nitrate_gain, title="Alkalinity that goes with nitrate out of food")
def nitrate_from_food(nitrate_gain: Any) -> Stages:
    """Oxidise organic nitrogen all the way and count the protons."""
    moles = nitrate_gain / exact_mass("NO3-")
    yield "Millimoles of nitrate:", nitrate_gain / M_NO3
    numbers = balanced(("NH3", "O2"), ("NO3-", "H+", "H2O"))
    protons = Integer(numbers["H+"]) / numbers["NO3-"]
    yield (
        (
            "Organic nitrogen counts as NH₃, which has neither charge nor excess acid. "
            "a NH₃ + b O₂ → c NO₃⁻ + d H⁺ + e H₂O balances only for these whole numbers:"
        ),
        [Eq(Symbol(s), n) for s, n in zip("abcde", numbers.values(), strict=True)],
    )
    yield "So each nitrate comes with protons, and each proton takes one equivalent:", protons
    return -protons * moles
