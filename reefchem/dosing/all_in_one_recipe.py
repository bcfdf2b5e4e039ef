"""One bottle for calcium and alkalinity, and what it asks for in return."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from reefchem.core.errors import DomainError
from reefchem.dosing.bottle import check_size
from reefchem.dosing.catalogue import salts
from reefchem.dosing.growth import left_over, skeleton
from reefchem.dosing.report import Line, Report
from reefchem.dosing.residue import sodium_chloride_left
from reefchem.dosing.solutions import StockSolution
from reefchem.dosing.species import component_mass

if TYPE_CHECKING:
    from collections.abc import Mapping

__all__ = ["AllInOne", "all_in_one"]

SLOW = (
    "Spread the dose over the day and keep the pumps running: bacteria take oxygen to free the "
    "alkalinity, and the test kit shows it only later."
)
ORGANIC = {"formate": 1, "acetate": 2}
"""Carbon atoms in each."""


@dataclass(frozen=True)
class AllInOne(Report):
    """A solution that brings calcium and alkalinity in the ratio of a skeleton.

    Attributes
    ----------
    solution
        What is in the bottle.
    potency
        Alkalinity in the end, meq/mL.
    bottle
        Volume, mL.
    left
        What stays in the water for each equivalent of growth, mol, by component.
    oxygen, carbon
        Oxygen taken and organic carbon brought, mg for each meq of alkalinity.
    two_part_salt
        Sodium chloride that two-part dosing would leave instead, mg for each meq.
    """

    solution: StockSolution
    potency: float
    bottle: float
    left: Mapping[str, float]
    oxygen: float
    carbon: float
    two_part_salt: float
    cautions: tuple[str, ...]

    UNITS: ClassVar[Mapping[str, str]] = {
        "potency": "meq/mL",
        "bottle": "mL",
        "oxygen": "mg/meq",
        "carbon": "mg/meq",
        "two_part_salt": "mg/meq",
    }

    @property
    def title(self) -> str:
        """What is in the bottle."""
        names = " + ".join(self.solution.contents)
        return f"a bottle of {self.bottle:g} mL of {names}, {self.potency:g} meq in each mL"

    def lines(self) -> list[Line]:
        """Return what to weigh, and what it costs for a meq/L; nothing is left of it."""
        weighed = [
            Line(formula, grams, "g")
            for formula, grams in self.solution.mass_for(self.bottle).items()
        ]
        return [
            *weighed,
            Line("oxygen for 1 meq/L", self.oxygen, "mg/L"),
            Line("organic carbon for 1 meq/L", self.carbon, "mg/L"),
            Line("two-part would leave, NaCl for 1 meq/L", self.two_part_salt, "mg/L"),
        ]


def all_in_one(
    *,
    calcium_salt: str = "Ca(HCOO)2",
    magnesium_salt: str | None = None,
    potency: float = 1.0,
    bottle: float = 1000.0,
    magnesium_per_calcium: float = 0.0,
    temperature: float = 25.0,
) -> AllInOne:
    """Return a solution whose calcium and alkalinity match what a skeleton takes.

    Parameters
    ----------
    calcium_salt
        Calcium formate or acetate.
    magnesium_salt
        Magnesium formate or acetate, when the skeleton's magnesium is to be replaced as well.
    potency
        Alkalinity in the end, meq/mL.
    bottle
        Volume, mL.
    magnesium_per_calcium
        Of the skeleton, mmol/mol; needs a magnesium salt.
    temperature
        At which the bottle stands, °C.

    Raises
    ------
    DomainError
        When a salt does not bring metal and alkalinity together, and when so much does not
        dissolve.

    Examples
    --------
    >>> bottle = all_in_one(potency=2.0)
    >>> round(bottle.solution.contents["Ca(HCOO)2"], 3)
    130.112
    >>> round(bottle.oxygen, 3), dict(bottle.left)
    (15.999, {})
    """
    check_size("all_in_one", potency, bottle)
    if (magnesium_per_calcium > 0) != (magnesium_salt is not None):
        msg = "all_in_one: magnesium_per_calcium and magnesium_salt go together; give both or none"
        raise DomainError(msg)
    grown = skeleton(magnesium_per_calcium)
    moles = {_one(calcium_salt, "calcium"): grown["calcium"]}
    if magnesium_salt is not None:
        moles[_one(magnesium_salt, "magnesium")] = grown["magnesium"]
    solution = StockSolution(
        {f: potency * n * salts[f].molar_mass for f, n in moles.items()}, temperature=temperature
    )
    species = {ion: amount / potency for ion, amount in solution.species.items()}
    found = solution.component_moles
    carbon = sum(ORGANIC[name] * found.get(name, 0.0) for name in ORGANIC) / potency
    return AllInOne(
        solution=solution,
        potency=potency,
        bottle=bottle,
        left=left_over(species, grown),
        oxygen=solution.oxygen / potency,
        carbon=carbon * component_mass("inorganic carbon"),
        two_part_salt=float(sodium_chloride_left(1.0)),
        cautions=(*solution.cautions(), SLOW),
    )


def _one(name: str, metal: str) -> str:
    salt = salts[name]
    if salt.components.get(metal, 0.0) == 1 and any(o in salt.components for o in ORGANIC):
        return salt.formula
    hint = ""
    if metal in salt.components or salt.alkalinity > 0:
        hint = (
            "; calcium and hydrogencarbonate or carbonate do not keep in one bottle, with or "
            "without an additive that binds calcium, at the strength of a stock"
        )
    options = ", ".join(
        s.formula
        for s in salts.values()
        if metal in s.components and any(o in s.components for o in ORGANIC)
    )
    what = f"{salt.formula} is no {metal} salt of an organic acid"
    msg = f"all_in_one: {what}; known are {options}{hint}"
    raise DomainError(msg)
