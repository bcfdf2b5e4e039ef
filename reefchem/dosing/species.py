"""What dissolves: each ion, what it counts as in an analysis, and the alkalinity it brings.

Alkalinity is Dickson's (1981): a base counts when its acid is weaker than pK 4.5, so acetate
counts from the start and formate only when bacteria have turned it into hydrogencarbonate.
"""

from __future__ import annotations

from reefchem.core.atoms import atoms_in, charge_of, molar_mass
from reefchem.core.errors import DomainError

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Mapping

__all__ = [
    "COMPONENTS",
    "alkalinity_after_oxidation",
    "alkalinity_of",
    "charge_of_mixture",
    "component_mass",
    "components_of",
    "dry_mass",
    "oxygen_of",
]

COMPONENTS: dict[str, tuple[str, int]] = {
    "sodium": ("Na+", 1),
    "magnesium": ("Mg^2+", 2),
    "calcium": ("Ca^2+", 2),
    "potassium": ("K+", 1),
    "strontium": ("Sr^2+", 2),
    "ammonium": ("NH4+", 1),
    "chloride": ("Cl-", -1),
    "sulfate": ("SO4^2-", -2),
    "nitrate": ("NO3-", -1),
    "bromide": ("Br-", -1),
    "fluoride": ("F-", -1),
    "iodide": ("I-", -1),
    "phosphate": ("PO4^3-", -1),
    "boron": ("B", 0),
    "silicon": ("Si", 0),
    "formate": ("HCOO-", -1),
    "acetate": ("CH3COO-", 0),
    "ethanol": ("C2H5OH", 0),
    "inorganic carbon": ("C", 0),
}
"""What an analysis reports: the formula whose mass it is given in, and the alkalinity that a mole
of it stands for in the explicit conservative expression (Wolf-Gladrow et al., 2007). The last
column is the charge of the form that is neither acid nor base at the zero level of alkalinity."""

_SPECIES: dict[str, tuple[dict[str, int], int]] = {
    formula: ({name: 1}, 0)
    for name, (formula, _) in COMPONENTS.items()
    if name not in {"phosphate", "boron", "silicon", "acetate", "inorganic carbon"}
} | {
    "CO2": ({"inorganic carbon": 1}, 0),
    "HCO3-": ({"inorganic carbon": 1}, 1),
    "CO3^2-": ({"inorganic carbon": 1}, 2),
    "B(OH)3": ({"boron": 1}, 0),
    "B(OH)4-": ({"boron": 1}, 1),
    "H2PO4-": ({"phosphate": 1}, 0),
    "HPO4^2-": ({"phosphate": 1}, 1),
    "PO4^3-": ({"phosphate": 1}, 2),
    "SiO(OH)3-": ({"silicon": 1}, 1),
    "CH3COO-": ({"acetate": 1}, 1),
    "CH3COOH": ({"acetate": 1}, 0),
    "OH-": ({}, 1),
    "H+": ({}, -1),
}
"""By species: what it counts as, and its alkalinity in equivalents per mole."""

_ORGANIC = frozenset({"HCOO-", "CH3COO-", "CH3COOH", "C2H5OH"})


def alkalinity_of(species: Mapping[str, int | float]) -> float:
    """Return the alkalinity of a mixture, in equivalents, as soon as it is in the water.

    Parameters
    ----------
    species
        Moles by formula.
    """
    return sum(_known(formula)[1] * moles for formula, moles in species.items())


def alkalinity_after_oxidation(species: Mapping[str, int | float]) -> float:
    """Return the alkalinity once bacteria have burnt what is organic.

    The carbon becomes CO2 or hydrogencarbonate, so that each negative charge of an organic ion
    is one equivalent: HCOO⁻ + ½ O₂ → HCO₃⁻.

    Examples
    --------
    >>> alkalinity_after_oxidation({"Ca^2+": 1, "HCOO-": 2})
    2
    """
    return sum(
        (-charge_of(formula) if formula in _ORGANIC else _known(formula)[1]) * moles
        for formula, moles in species.items()
    )


def oxygen_of(species: Mapping[str, int | float]) -> float:
    """Return the moles of O2 that it takes to burn what is organic.

    From the electrons that the carbon has to give: (4 C + H - 2 O - charge) / 4 for each mole.

    Examples
    --------
    >>> oxygen_of({"CH3COO-": 1})
    2.0
    """
    total = 0.0
    for formula, moles in species.items():
        if formula in _ORGANIC:
            atoms = atoms_in(formula)
            electrons = 4 * atoms["C"] + atoms["H"] - 2 * atoms["O"] - charge_of(formula)
            total += electrons / 4 * moles
        else:
            _known(formula)
    return total


def components_of(species: Mapping[str, int | float]) -> dict[str, float]:
    """Return the moles that an analysis would find, by component."""
    total: dict[str, float] = {}
    for formula, moles in species.items():
        for name, count in _known(formula)[0].items():
            total[name] = total.get(name, 0) + count * moles
    return total


def charge_of_mixture(species: Mapping[str, int | float]) -> float:
    """Return the charge of a mixture in moles; 0 for whatever comes out of a bottle."""
    return sum(charge_of(formula) * moles for formula, moles in species.items())


def dry_mass(species: Mapping[str, int | float]) -> float:
    """Return the grams that a mixture adds to the dissolved matter, water left out."""
    return sum(molar_mass(formula) * moles for formula, moles in species.items())


def component_mass(component: str) -> float:
    """Return the grams in a mole of a component, as analyses report it (boron as B ...)."""
    if component not in COMPONENTS:
        msg = f"component is {component!r}; known are {', '.join(COMPONENTS)}"
        raise DomainError(msg)
    return molar_mass(COMPONENTS[component][0])


def _known(formula: str) -> tuple[dict[str, int], int]:
    if formula not in _SPECIES:
        msg = f"species is {formula!r}; known are {', '.join(_SPECIES)}"
        raise DomainError(msg)
    return _SPECIES[formula]
