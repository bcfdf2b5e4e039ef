"""One amount under two names: as the element, as the ion, as a salt."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sympy import Eq, Symbol, solve, symbols

from reefchem.conversion.concentration import (
    mass_per_litre,
    nitrate_from_nitrogen,
    nitrite_from_nitrogen,
    nitrogen_to_phosphorus,
    nutrient_mass_ratio,
    phosphate_from_phosphorus,
    silicate_from_silicon,
)
from reefchem.conversion.hardness import (
    calcium_from_calcium_carbonate,
    general_hardness_degrees,
    magnesium_from_hardness,
)
from reefchem.core.quantity import DEGREE
from reefchem.derive.alkalinity_units import exact
from reefchem.derive.derivation import derivation, written_out
from reefchem.derive.reactions import exact_mass
from reefchem.seawater.density import seawater_density

if TYPE_CHECKING:
    from collections.abc import Generator

    Stages = Generator[tuple[Any, ...], None, Any]

__all__ = [
    "calcium_in_its_carbonate",
    "hardness_as_oxide",
    "kilogram_to_litre",
    "magnesium_by_difference",
    "nitrate_by_its_nitrogen",
    "nitrite_by_its_nitrogen",
    "nutrients_by_atoms",
    "nutrients_by_mass",
    "phosphate_by_its_phosphorus",
    "silicate_by_its_silicon",
]


def one_atom_each(mass: Any, part: str, whole: str) -> Stages:
    """Tell the mass of a part as the mass of a whole that holds one of it."""
    m_part, m_whole, amount = symbols("M_part M_whole n", positive=True)
    yield (
        f"The mass of {part} in a litre is its amount times its molar mass:",
        Eq(Symbol("rho"), amount * m_part),
    )
    (found,) = solve(Eq(mass, amount * m_part), amount)
    yield f"Each {whole} holds one {part}, so this is the amount of both:", Eq(amount, found)
    result = found * m_whole
    yield f"The mass of {whole}:", result
    return result.subs({m_part: exact_mass(part), m_whole: exact_mass(whole)})


@derivation(nitrate_from_nitrogen, title="Nitrate by its nitrogen")
def nitrate_by_its_nitrogen(nitrogen: Any) -> Stages:
    """Count nitrogen atoms."""
    return (yield from one_atom_each(nitrogen, "N", "NO3-"))


@derivation(nitrite_from_nitrogen, title="Nitrite by its nitrogen")
def nitrite_by_its_nitrogen(nitrogen: Any) -> Stages:
    """Count nitrogen atoms."""
    return (yield from one_atom_each(nitrogen, "N", "NO2-"))


@derivation(phosphate_from_phosphorus, title="Phosphate by its phosphorus")
def phosphate_by_its_phosphorus(phosphorus: Any) -> Stages:
    """Count phosphorus atoms."""
    return (yield from one_atom_each(phosphorus, "P", "PO4^3-"))


@derivation(silicate_from_silicon, title="Silicate by its silicon")
def silicate_by_its_silicon(silicon: Any) -> Stages:
    """Count silicon atoms."""
    return (yield from one_atom_each(silicon, "Si", "SiO2"))


@derivation(nutrient_mass_ratio, title="From atoms to milligrams")
def nutrients_by_mass(nitrogen_to_phosphorus: Any) -> Stages:
    """Weigh the ions that hold so many atoms of nitrogen for one of phosphorus."""
    nitrate, phosphate = symbols("M_NO3 M_PO4", positive=True)
    ratio = nitrogen_to_phosphorus * nitrate / phosphate
    yield "So many moles of nitrate weigh so much, for each mole of phosphate:", ratio
    return ratio.subs({nitrate: exact_mass("NO3-"), phosphate: exact_mass("PO4^3-")})


@derivation(nitrogen_to_phosphorus, title="From milligrams to atoms")
def nutrients_by_atoms(nitrate: Any, phosphate: Any) -> Stages:
    """Divide the amounts."""
    m_n, m_p = symbols("M_NO3 M_PO4", positive=True)
    amounts = (nitrate / m_n, phosphate / m_p)
    yield "Nitrate holds one atom of nitrogen, phosphate one of phosphorus:", amounts
    ratio = amounts[0] / amounts[1]
    yield "Their ratio:", ratio
    return ratio.subs({m_n: exact_mass("NO3-"), m_p: exact_mass("PO4^3-")})


@derivation(mass_per_litre, title="From a kilogram to a litre by the density")
def kilogram_to_litre(value: Any, salinity: Any, temperature: Any) -> Stages:
    """Gather what the kilograms of a litre hold."""
    density = Symbol("rho", positive=True)
    yield "The kilograms in a litre, times what each holds:", value * density
    weight = written_out(seawater_density, salinity=salinity, temperature=temperature)
    return (value * density).subs(density, weight / 1000)


@derivation(calcium_from_calcium_carbonate, title="Calcium in calcium carbonate")
def calcium_in_its_carbonate(calcium_carbonate: Any) -> Stages:
    """Count calcium atoms."""
    m_salt, m_calcium = symbols("M_CaCO3 M_Ca", positive=True)
    amount = calcium_carbonate / m_salt
    yield "The amount of CaCO₃, and so of calcium:", amount
    result = amount * m_calcium
    yield "The mass of calcium:", result
    return result.subs({m_salt: exact_mass("CaCO3"), m_calcium: exact_mass("Ca")})


@derivation(general_hardness_degrees, title="German degrees of hardness")
def hardness_as_oxide(hardness: Any) -> Stages:
    """Tell calcium and magnesium as the quicklime with as many atoms."""
    oxide, degrees = symbols("M_CaO d", positive=True)
    law = Eq(hardness * oxide, exact(DEGREE) * degrees)
    yield "As many moles of CaO weigh as much as 10 mg for each degree:", law
    (solution,) = solve(law, degrees)
    yield "Solved for the degrees:", solution
    return solution.subs(oxide, exact_mass("CaO"))


@derivation(magnesium_from_hardness, title="Magnesium by difference")
def magnesium_by_difference(hardness: Any, calcium: Any) -> Stages:
    """Take the calcium from the sum of both."""
    m_ca, m_mg, magnesium = symbols("M_Ca M_Mg rho_Mg", real=True)
    law = Eq(hardness, calcium / m_ca + magnesium / m_mg)
    yield "Hardness is calcium and magnesium counted together:", law
    (solution,) = solve(law, magnesium)
    yield "Solved for magnesium:", solution
    return solution.subs({m_ca: exact_mass("Ca"), m_mg: exact_mass("Mg")})
