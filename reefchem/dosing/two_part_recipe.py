"""Two bottles that match, and a third that keeps the water seawater."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from reefchem.core.errors import DomainError
from reefchem.dosing.bottle import check_size
from reefchem.dosing.catalogue import Salt, salts
from reefchem.dosing.growth import left_over, skeleton
from reefchem.dosing.proportions import ReferenceSeawater
from reefchem.dosing.report import Line, Report
from reefchem.dosing.solutions import StockSolution
from reefchem.dosing.species import component_mass

if TYPE_CHECKING:
    from collections.abc import Mapping

__all__ = ["THIRD", "TwoPart", "two_part"]

THIRD = ("MgCl2·6H2O", "MgSO4·7H2O", "KCl")
"""Salts of a usual third solution."""

APART = (
    "Dose the solutions apart from each other, in place and in time, where the flow is strong; "
    "never pour them together."
)


@dataclass(frozen=True)
class TwoPart(Report):
    """Solutions of which equal volumes replace what corals use.

    Attributes
    ----------
    calcium, alkalinity, third
        The solutions; `third` is None when it was not asked for.
    potency
        Alkalinity of growth that a millilitre of each replaces, meq/mL.
    bottle
        Volume of each bottle, mL.
    left
        What stays in the water for each equivalent of growth, mol, by component.
    sea_salt
        Grams of sea salt among it, for each equivalent; 0 without a third solution.
    misfit
        Moles by which the rest differs from sea salt, by ion; empty without a third solution.
    """

    calcium: StockSolution
    alkalinity: StockSolution
    third: StockSolution | None
    potency: float
    bottle: float
    left: Mapping[str, float]
    sea_salt: float
    misfit: Mapping[str, float]
    cautions: tuple[str, ...]

    UNITS: ClassVar[Mapping[str, str]] = {"potency": "meq/mL", "bottle": "mL"}

    @property
    def title(self) -> str:
        """What the bottles are for."""
        bottles = "three" if self.third else "two"
        return f"{bottles} bottles of {self.bottle:g} mL, {self.potency:g} meq of growth in each mL"

    def masses(self) -> dict[str, dict[str, float]]:
        """Return the grams to weigh for each bottle."""
        bottles = {"calcium": self.calcium, "alkalinity": self.alkalinity, "third": self.third}
        return {
            name: solution.mass_for(self.bottle)
            for name, solution in bottles.items()
            if solution is not None
        }

    def lines(self) -> list[Line]:
        """Return what to weigh, and what is left for a meq/L of growth."""
        weighed = [
            Line(f"{name} bottle, {formula}", grams, "g")
            for name, contents in self.masses().items()
            for formula, grams in contents.items()
        ]
        left = [
            Line(f"left for 1 meq/L of growth, {name}", moles * component_mass(name), "mg/L")
            for name, moles in self.left.items()
            if name != "alkalinity"
        ]
        return [*weighed, *left, Line("of that sea salt", self.sea_salt, "mg/L")]


def two_part(
    *,
    calcium_salt: str = "CaCl2·2H2O",
    alkalinity_salt: str = "NaHCO3",
    third: tuple[str, ...] = (),
    potency: float = 0.5,
    bottle: float = 1000.0,
    magnesium_per_calcium: float = 0.0,
    strontium_per_calcium: float = 0.0,
    temperature: float = 25.0,
) -> TwoPart:
    """Return two solutions of which equal volumes balance, and a third if wanted.

    Parameters
    ----------
    calcium_salt, alkalinity_salt
        Any of the catalogue that brings calcium, and alkalinity.
    third
        Salts that the third solution may hold, such as `THIRD`. With them, calcium and alkalinity
        are dosed slightly above growth, as the sea salt that is left has some of both. A salt of
        strontium goes into the calcium bottle, one of boron or fluoride into the alkalinity bottle,
        since in the third they would fall out.
    potency
        Alkalinity of growth that a millilitre of each bottle replaces, meq/mL.
    bottle
        Volume of each bottle, mL.
    magnesium_per_calcium, strontium_per_calcium
        Of the skeleton, mmol/mol. Magnesium comes from the third solution, and strontium only
        when a salt of it is among `third`; otherwise it is missing in what is left.
    temperature
        At which the bottles stand, °C.

    Raises
    ------
    DomainError
        When a salt does not bring what it is asked for, or a bottle cannot be made.

    Examples
    --------
    >>> pair = two_part(potency=1.0)
    >>> round(pair.masses()["calcium"]["CaCl2·2H2O"], 3)
    73.504
    >>> {name: round(moles, 9) for name, moles in pair.left.items()}
    {'chloride': 1.0, 'sodium': 1.0}
    """
    check_size("two_part", potency, bottle)
    ca, alk = salts[calcium_salt], salts[alkalinity_salt]
    _fits(ca, "calcium", ca.components.get("calcium", 0.0))
    _fits(alk, "alkalinity", alk.alkalinity_after_oxidation)
    grown = skeleton(magnesium_per_calcium, strontium_per_calcium)
    others = tuple(salts[name] for name in third)
    if others:
        from reefchem.dosing.third_solution import balance_salts  # noqa: PLC0415 - needs scipy

        found = balance_salts((ca, alk, *others), grown)
        moles, seawater, misfit = found.moles, found.seawater, found.misfit
    else:
        moles, seawater, misfit = _pair(ca, alk, grown["calcium"]), 0.0, {}
    if moles[ca.formula] <= 0 or moles[alk.formula] <= 0:
        msg = (
            f"two_part: {ca.formula} and {alk.formula} do not make a pair, since one of them would "
            "bring all of both; use it alone, as an all-in-one"
        )
        raise DomainError(msg)
    strength = {f: potency * n * salts[f].molar_mass for f, n in moles.items() if n > 1e-12}
    where = {f: _bottle_of(salts[f]) for f in strength} | {ca.formula: 0, alk.formula: 1}
    bottles = [
        StockSolution({f: g for f, g in strength.items() if where[f] == n}, temperature=temperature)
        for n in (0, 1)
    ]
    rest = {f: g for f, g in strength.items() if where[f] == 2}
    last = StockSolution(rest, temperature=temperature) if rest else None
    species: dict[str, float] = {}
    for formula, n in moles.items():
        for ion, count in salts[formula].ions.items():
            species[ion] = species.get(ion, 0.0) + n * count
    everything = [*bottles, *([last] if last else [])]
    said = [line for solution in everything for line in solution.cautions()]
    return TwoPart(
        calcium=bottles[0],
        alkalinity=bottles[1],
        third=last,
        potency=potency,
        bottle=bottle,
        left=left_over(species, grown),
        sea_salt=seawater * ReferenceSeawater().m_salt,
        misfit=misfit,
        cautions=tuple(dict.fromkeys([*said, APART])),
    )


def _fits(salt: Salt, what: str, amount: float) -> None:
    if amount <= 0:
        options = ", ".join(other.formula for other in salts.for_purpose(what))
        msg = f"two_part: {salt.formula} brings no {what}; one that does: {options}"
        raise DomainError(msg)


def _bottle_of(salt: Salt) -> int:
    """Return where an additional salt keeps: 0 beside calcium, 1 beside alkalinity, 2 the third."""
    if "strontium" in salt.components:
        return 0
    return 1 if {"boron", "fluoride"} & salt.components.keys() else 2


def _pair(ca: Salt, alk: Salt, calcium: float) -> dict[str, float]:
    """Solve two balances: calcium and one equivalent of alkalinity."""
    if "calcium" in alk.components:
        return {ca.formula: 0.0, alk.formula: 0.0}
    x = calcium / ca.components["calcium"]
    y = (1.0 - x * ca.alkalinity_after_oxidation) / alk.alkalinity_after_oxidation
    return {ca.formula: x, alk.formula: y if y > 1e-12 else 0.0}
