"""The reference composition of seawater: every ion at any salinity.

Fifteen species by their mole fraction in sea salt, in ten-millionths, so that they are whole
numbers: they add up to ten million, and their charges to zero, exactly.
"""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import TYPE_CHECKING, ClassVar

from reefchem.core.atoms import atoms_in, charge_of, molar_mass
from reefchem.core.functions import Num
from reefchem.core.record import calculation
from reefchem.core.result import Result
from reefchem.seawater.composition import SALINITY, reference_amount
from reefchem.seawater.density import seawater_density

if TYPE_CHECKING:
    from collections.abc import Mapping

__all__ = ["MOLE_FRACTIONS", "SPECIES", "Composition", "composition"]

SPECIES: Mapping[str, str] = {
    "sodium": "Na+",
    "magnesium": "Mg^2+",
    "calcium": "Ca^2+",
    "potassium": "K+",
    "strontium": "Sr^2+",
    "chloride": "Cl-",
    "sulfate": "SO4^2-",
    "bicarbonate": "HCO3-",
    "bromide": "Br-",
    "carbonate": "CO3^2-",
    "borate": "B(OH)4-",
    "fluoride": "F-",
    "hydroxide": "OH-",
    "boric_acid": "B(OH)3",
    "carbon_dioxide": "CO2",
}
"""Formula by the name of each species, in the order of the source."""

MOLE_FRACTIONS: Mapping[str, int] = {
    "sodium": 4188071,
    "magnesium": 471678,
    "calcium": 91823,
    "potassium": 91159,
    "strontium": 810,
    "chloride": 4874839,
    "sulfate": 252152,
    "bicarbonate": 15340,
    "bromide": 7520,
    "carbonate": 2134,
    "borate": 900,
    "fluoride": 610,
    "hydroxide": 71,
    "boric_acid": 2807,
    "carbon_dioxide": 86,
}
"""Ten-millionths of the amount of sea salt, as printed (Millero et al., 2008)."""

TEN_MILLION = 1e7

_NOT_COUNTED = ("H", "O")


@dataclass(frozen=True)
class Composition(Result):
    """What a kilogram of reference seawater holds, in mol/kg of each species.

    Carbonate, hydrogencarbonate, hydroxide, borate and carbon dioxide are those of the reference
    water, at 25 °C in equilibrium with the air of its day; in a tank they follow from alkalinity
    and pH. All others keep their ratio to each other wherever the water is.
    """

    salinity: Num
    sodium: Num
    magnesium: Num
    calcium: Num
    potassium: Num
    strontium: Num
    chloride: Num
    sulfate: Num
    bicarbonate: Num
    bromide: Num
    carbonate: Num
    borate: Num
    fluoride: Num
    hydroxide: Num
    boric_acid: Num
    carbon_dioxide: Num

    UNITS: ClassVar[Mapping[str, str]] = dict.fromkeys(
        (*SPECIES, "cation_charge", "anion_charge", "alkalinity"), "mol/kg"
    )

    @property
    def amounts(self) -> dict[str, Num]:
        """Amount of each species in a kilogram of seawater, mol/kg, by name."""
        return {field.name: getattr(self, field.name) for field in fields(self)[1:]}

    @property
    def elements(self) -> dict[str, Num]:
        """Amount of each element in a kilogram of seawater, mol/kg; H and O are left out."""
        total: dict[str, Num] = {}
        for name, amount in self.amounts.items():
            for element, count in atoms_in(SPECIES[name]).items():
                if element not in _NOT_COUNTED:
                    total[element] = total.get(element, 0.0) + count * amount
        return total

    @property
    def mass_contents(self) -> dict[str, Num]:
        """Mass of each species in a kilogram of seawater, mg/kg, by name."""
        return {n: 1000 * molar_mass(SPECIES[n]) * a for n, a in self.amounts.items()}

    @property
    def element_mass_contents(self) -> dict[str, Num]:
        """Mass of each element in a kilogram of seawater, mg/kg, by its symbol."""
        return {e: 1000 * molar_mass(e) * amount for e, amount in self.elements.items()}

    def mass_concentrations(self, temperature: Num) -> dict[str, Num]:
        """Return the mass of each species in a litre at a temperature, mg/L, by name."""
        litre = seawater_density(self.salinity, temperature) / 1000
        return {name: mass * litre for name, mass in self.mass_contents.items()}

    def element_mass_concentrations(self, temperature: Num) -> dict[str, Num]:
        """Return the mass of each element in a litre at a temperature, mg/L, by its symbol."""
        litre = seawater_density(self.salinity, temperature) / 1000
        return {e: mass * litre for e, mass in self.element_mass_contents.items()}

    @property
    def cation_charge(self) -> Num:
        """Charge of all cations in a kilogram of seawater, mol/kg."""
        return sum(a * max(charge_of(SPECIES[n]), 0) for n, a in self.amounts.items())

    @property
    def anion_charge(self) -> Num:
        """Charge of all anions in a kilogram of seawater, mol/kg, as a positive number."""
        return sum(a * max(-charge_of(SPECIES[n]), 0) for n, a in self.amounts.items())

    @property
    def alkalinity(self) -> Num:
        """Charge of the ions of strong bases less that of strong acids, mol/kg."""
        strong = ("sodium", "magnesium", "calcium", "potassium", "strontium", "chloride", "sulfate")
        return sum(
            charge_of(SPECIES[name]) * getattr(self, name)
            for name in (*strong, "bromide", "fluoride")
        )


@calculation(source="millero2008", at="table 4, mole fractions", salinity=SALINITY)
def composition(salinity: Num) -> Composition:
    """Return what a kilogram of seawater of a salinity holds.

    Parameters
    ----------
    salinity
        Practical salinity; any shape.

    Returns
    -------
    Composition
        Amounts in mol/kg; masses, elements and litres are worked out when they are asked for.

    Examples
    --------
    >>> water = composition(35.0)
    >>> round(water.calcium * 1e3, 4)
    10.2821
    >>> round(water.mass_concentrations(25.0)["magnesium"], 1)
    1313.7
    """
    return Composition(
        salinity,
        **{
            name: reference_amount(salinity, fraction / TEN_MILLION)
            for name, fraction in MOLE_FRACTIONS.items()
        },
    )
