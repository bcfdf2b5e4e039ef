"""Stock solutions: what a millilitre brings, and what a bottle refuses to hold.

A `StockSolution` that exists is one that can be made: what does not dissolve, or would fall out in
the bottle, is refused when it is described.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from reefchem.core.atoms import molar_mass
from reefchem.core.errors import DomainError
from reefchem.dosing.bottle import check_bottle
from reefchem.dosing.catalogue import Salt, salts
from reefchem.dosing.species import (
    alkalinity_after_oxidation,
    alkalinity_of,
    component_mass,
    components_of,
    oxygen_of,
)
from reefchem.dosing.strength import share_of_salt

__all__ = ["StockSolution"]

NOTHING: Mapping[str, float] = MappingProxyType({})


@dataclass(frozen=True)
class StockSolution:
    """A solution that is dosed by the millilitre.

    Attributes
    ----------
    contents
        Grams of each powder in a litre of solution, by formula or name.
    purity
        Grams of the salt in a gram of its dry powder, where it is less than 1.
    temperature
        At which it is kept, °C.
    density
        Measured, kg/L; None when it is not known. With it, what dissolves is judged by the water
        that a litre really holds.
    moisture
        Grams of water in a gram of the powder as it is weighed, beyond that of the formula: a tin
        left open. See `share_of_salt`.

    Examples
    --------
    >>> soda = StockSolution({"NaHCO3": 84.006})
    >>> soda.alkalinity
    1.0
    >>> soda.potency("sodium")
    22.99
    """

    contents: Mapping[str, float]
    purity: Mapping[str, float] = field(default_factory=lambda: NOTHING)
    temperature: float = 25.0
    density: float | None = None
    moisture: Mapping[str, float] = field(default_factory=lambda: NOTHING)

    def __post_init__(self) -> None:
        """Refuse what cannot be, and what cannot be made."""
        contents = {salts[key].formula: _amount(key, value) for key, value in self.contents.items()}
        if len(contents) != len(self.contents) or not contents:
            msg = f"StockSolution: contents {dict(self.contents)!r} name nothing, or a salt twice"
            raise DomainError(msg)
        purity = {salts[key].formula: _share(key, value) for key, value in self.purity.items()}
        moisture = {salts[key].formula: _wet(key, value) for key, value in self.moisture.items()}
        for name, given in (("purity", purity), ("moisture", moisture)):
            strangers = given.keys() - contents.keys()
            if strangers:
                msg = f"StockSolution: {name} is given for {sorted(strangers)}, which is not in it"
                raise DomainError(msg)
        if self.density is not None and not 0.9 <= self.density <= 2.5:
            msg = f"StockSolution: density is {self.density} kg/L; 0.9 to 2.5 is possible"
            raise DomainError(msg)
        if not -5.0 <= self.temperature <= 100.0:
            msg = f"StockSolution: temperature is {self.temperature} degC; -5 to 100 is possible"
            raise DomainError(msg)
        object.__setattr__(self, "contents", MappingProxyType(contents))
        object.__setattr__(self, "purity", MappingProxyType(purity))
        object.__setattr__(self, "moisture", MappingProxyType(moisture))
        check_bottle(self.moles, self.species, self._water(), self.temperature)

    def __reduce__(self) -> tuple[type[StockSolution], tuple[object, ...]]:
        """Pickle what was given; mappings that nobody can change are made anew."""
        contents, purity, moisture = map(dict, (self.contents, self.purity, self.moisture))
        return StockSolution, (contents, purity, self.temperature, self.density, moisture)

    @classmethod
    def of(
        cls,
        salt: str,
        value: float,
        unit: str = "g/L",
        *,
        purity: float = 1.0,
        moisture: float = 0.0,
        temperature: float = 25.0,
        density: float | None = None,
    ) -> StockSolution:
        """Return a solution of one salt from its label, told in any of the usual ways.

        Parameters
        ----------
        salt
            Formula with its water, or name.
        value, unit
            ``"g/L"``, ``"mg/mL"``, ``"g/100 mL"`` or ``"% w/v"`` (of the powder in the solution);
            ``"% w/w"`` (needs the density); ``"mol/L"`` or ``"mmol/mL"``; ``"meq/mL"`` or
            ``"eq/L"`` (of alkalinity, after oxidation); or ``"mg/L"``, ``"g/L"`` or ``"mg/mL"``
            followed by what is counted, as in ``"mg/mL calcium"``.
        purity, moisture, temperature, density
            As in the class.

        Raises
        ------
        DomainError
            When the unit is not known or says too little, and when the label cannot be true.

        Examples
        --------
        >>> StockSolution.of("KNO3", 31.0, "mg/mL nitrate").contents["KNO3"].__round__(3)
        50.548
        """
        known = salts[salt]
        share = float(share_of_salt(_share(salt, purity), _wet(salt, moisture)))
        grams = _grams_per_litre(known, _amount(salt, value), unit, share, density)
        powder = known.formula
        return cls({powder: grams}, {powder: purity}, temperature, density, {powder: moisture})

    @classmethod
    def from_mass(
        cls,
        salt: str,
        mass: float,
        volume: float,
        *,
        purity: float = 1.0,
        moisture: float = 0.0,
        temperature: float = 25.0,
    ) -> StockSolution:
        """Return the solution of a mass in grams, made up with water to a volume in millilitres."""
        strength = _amount(salt, mass) / (_amount("volume", volume) / 1000)
        return cls.of(salt, strength, purity=purity, moisture=moisture, temperature=temperature)

    def share_of(self, formula: str) -> float:
        """Return the grams of salt, with the water of its formula, in a gram of its powder."""
        wet = self.moisture.get(formula, 0.0)
        return float(share_of_salt(self.purity.get(formula, 1.0), wet))

    @property
    def moles(self) -> dict[str, float]:
        """Moles of each salt in a litre."""
        return {
            formula: grams * self.share_of(formula) / salts[formula].molar_mass
            for formula, grams in self.contents.items()
        }

    @property
    def species(self) -> dict[str, float]:
        """Moles of each ion or molecule in a litre, as the salts release them."""
        total: dict[str, float] = {}
        for formula, moles in self.moles.items():
            for ion, count in salts[formula].ions.items():
                total[ion] = total.get(ion, 0.0) + count * moles
        return total

    @property
    def alkalinity(self) -> float:
        """Alkalinity that a millilitre brings at once, meq/mL (Dickson's definition)."""
        return alkalinity_of(self.species)

    @property
    def alkalinity_after_oxidation(self) -> float:
        """Alkalinity that a millilitre brings in the end, meq/mL."""
        return alkalinity_after_oxidation(self.species)

    @property
    def oxygen(self) -> float:
        """Oxygen that a millilitre takes from the water in the end, mg/mL."""
        return oxygen_of(self.species) * molar_mass("O2")

    @property
    def component_moles(self) -> dict[str, float]:
        """Millimoles that a millilitre brings, by what an analysis reports."""
        return components_of(self.species)

    @property
    def components(self) -> dict[str, float]:
        """What a millilitre brings, mg/mL, by what an analysis reports."""
        return {name: n * component_mass(name) for name, n in self.component_moles.items()}

    def potency(self, component: str) -> float:
        """Return what a millilitre brings of a component, mg/mL; 0 when there is none of it."""
        component_mass(component)
        return self.components.get(component, 0.0)

    def mass_for(self, volume: float) -> dict[str, float]:
        """Return the grams of each powder to weigh for a volume in millilitres."""
        litres = _amount("volume", volume) / 1000
        return {formula: grams * litres for formula, grams in self.contents.items()}

    def volume_from(self, salt: str, mass: float) -> float:
        """Return the millilitres that a mass of one powder, in grams, can make."""
        formula = salts[salt].formula
        if formula not in self.contents:
            msg = f"StockSolution: there is no {formula} in it; there is {', '.join(self.contents)}"
            raise DomainError(msg)
        return 1000 * _amount(salt, mass) / self.contents[formula]

    def cautions(self) -> tuple[str, ...]:
        """Return the cautions of everything in the bottle, each once."""
        said = [line for formula in self.contents for line in salts[formula].cautions()]
        return tuple(dict.fromkeys(said))

    def _water(self) -> float | None:
        """Return the kilograms of water in a litre, or None when the density is not known."""
        if self.density is None:
            return None
        water_of = {
            f: salts[f].water * molar_mass("H2O") / salts[f].molar_mass for f in self.contents
        }
        dry = sum(
            grams * (1 - self.moisture.get(f, 0.0) - self.share_of(f) * water_of[f])
            for f, grams in self.contents.items()
        )
        water = self.density - dry / 1000
        if water <= 0:
            msg = (
                f"StockSolution: a litre weighs {1000 * self.density:g} g and would hold {dry:g} g "
                "of dry salt; there is no room for water"
            )
            raise DomainError(msg)
        return water


_POWDER = {"g/L": 1.0, "mg/mL": 1.0, "g/100 mL": 10.0, "% w/v": 10.0}
_COUNTED = {"g/L": 1.0, "mg/mL": 1.0, "mg/L": 1e-3}


def _grams_per_litre(
    salt: Salt, value: float, unit: str, share: float, density: float | None
) -> float:
    if unit in _POWDER:
        return value * _POWDER[unit]
    if unit == "% w/w":
        if density is None:
            msg = (
                f"StockSolution: {value} % w/w of {salt.formula} needs the density of the solution"
            )
            raise DomainError(msg)
        return value / 100 * density * 1000
    if unit in {"mol/L", "mmol/mL"}:
        return value * salt.molar_mass / share
    if unit in {"meq/mL", "eq/L"}:
        if not salt.alkalinity_after_oxidation:
            msg = f"StockSolution: {salt.formula} brings no alkalinity, so {unit} says nothing"
            raise DomainError(msg)
        return value / salt.alkalinity_after_oxidation * salt.molar_mass / share
    per, _, component = unit.partition(" ")
    if per in _COUNTED and component in salt.components:
        moles = value * _COUNTED[per] / component_mass(component) / salt.components[component]
        return moles * salt.molar_mass / share
    known = ", ".join([*_POWDER, "% w/w", "mol/L", "mmol/mL", "meq/mL", "eq/L"])
    counted = ", ".join(f"mg/mL {name}" for name in salt.components)
    hint = "; say per litre or per kilogram, and of what" if "ppm" in unit or unit == "%" else ""
    msg = (
        f"StockSolution: {unit!r} is no unit of a label of {salt.formula}{hint}; "
        f"known are {known}, {counted}"
    )
    raise DomainError(msg)


def _amount(name: str, value: float) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float):
        msg = f"StockSolution: {name} is {value!r}; a number is expected"
        raise DomainError(msg)
    if not 0 < value < float("inf"):
        msg = f"StockSolution: {name} is {value}; more than 0 is possible"
        raise DomainError(msg)
    return float(value)


def _share(name: str, value: float) -> float:
    purity = _amount(f"purity of {name}", value)
    if purity > 1:
        msg = f"StockSolution: purity of {name} is {value}; more than 0, up to 1, is possible"
        raise DomainError(msg)
    return purity


def _wet(name: str, value: float) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float) or not 0 <= value < 1:
        msg = f"StockSolution: moisture of {name} is {value!r}; 0 to less than 1 is possible"
        raise DomainError(msg)
    return float(value)
