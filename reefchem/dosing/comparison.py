"""The methods side by side, for one tank: what each leaves, takes, and can carry."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from reefchem.core.atoms import molar_mass
from reefchem.core.boundary import checked_values
from reefchem.core.errors import DomainError
from reefchem.core.record import INFINITY, arg
from reefchem.dosing.all_in_one_recipe import SLOW, all_in_one
from reefchem.dosing.balance import ARGUMENTS, ionic_balance
from reefchem.dosing.catalogue import Salt, salts
from reefchem.dosing.drift import water_change_for_bound
from reefchem.dosing.lime import limewater_limit
from reefchem.dosing.limewater_dose import GAS, NOT_ALL_AT_ONCE, SETTLE
from reefchem.dosing.report import Line, Report
from reefchem.dosing.species import component_mass
from reefchem.dosing.two_part_recipe import APART, THIRD, two_part

if TYPE_CHECKING:
    from collections.abc import Mapping
    from typing import Any

__all__ = ["Method", "MethodComparison", "compare_methods"]

TANK = {name: ARGUMENTS[name] for name in ("daily_uptake", "share", "period", "time")} | {
    "volume": arg("L", "V", typical=(20.0, 1000.0), possible=(1e-9, INFINITY)),
    "evaporation": arg("L/day", "e", typical=(0.2, 10.0)),
    "bound": arg("1", r"\delta", typical=(0.01, 0.2), possible=(1e-9, 1.0)),
}
DEFAULTS = {"period": 7.0, "time": 365.0}

CARBON = {"inorganic carbon": 1, "formate": 1, "acetate": 2}
"""Carbon atoms that end as carbon dioxide or one of its ions."""


@dataclass(frozen=True)
class Method:
    """One method in one tank.

    Attributes
    ----------
    carries
        Share of the uptake that it can carry, at most 1; the other numbers are for that share.
    salt
        Dissolved matter that gathers in a day unless it is taken out, mg/L.
    magnesium, potassium
        Relative change in the time asked for, with the water changes asked for.
    water_change
        Share at each change that holds an ion which nobody doses within the bound.
    oxygen
        That bacteria take in a day, mg/L.
    carbon
        Organic carbon that is food for bacteria in a day, mg/L.
    carbon_dioxide
        That must leave through the surface in a day, mmol/L, when corals have built their part;
        negative when the water takes it from the air. The more, the lower the pH.
    """

    name: str
    carries: float
    salt: float
    magnesium: float
    potassium: float
    water_change: float
    oxygen: float
    carbon: float
    carbon_dioxide: float

    def lines(self) -> list[Line]:
        """Return the numbers, under the name of the method."""
        return [
            Line(f"{self.name}: carries", 100 * self.carries, "% of the uptake"),
            Line(f"{self.name}: salt gathers", self.salt, "mg/L a day"),
            Line(f"{self.name}: magnesium", 100 * self.magnesium, "%"),
            Line(f"{self.name}: potassium", 100 * self.potassium, "%"),
            Line(f"{self.name}: water change for the bound", 100 * self.water_change, "%"),
            Line(f"{self.name}: oxygen taken", self.oxygen, "mg/L a day"),
            Line(f"{self.name}: organic carbon", self.carbon, "mg/L a day"),
            Line(f"{self.name}: CO2 to leave", self.carbon_dioxide, "mmol/L a day"),
        ]


@dataclass(frozen=True)
class MethodComparison(Report):
    """Every method for one tank."""

    daily_uptake: float
    volume: float
    methods: tuple[Method, ...]
    cautions: tuple[str, ...]

    UNITS: ClassVar[Mapping[str, str]] = {"daily_uptake": "meq/L/day", "volume": "L"}

    @property
    def title(self) -> str:
        """Which tank it is."""
        return f"methods for {self.volume:g} L that use {self.daily_uptake:g} meq/L a day"

    def lines(self) -> list[Line]:
        """Return every number of every method."""
        return [line for method in self.methods for line in method.lines()]


def compare_methods(
    *,
    daily_uptake: Any,
    volume: Any,
    evaporation: Any,
    share: Any = 0.1,
    period: Any = DEFAULTS["period"],
    time: Any = DEFAULTS["time"],
    bound: Any = 0.05,
) -> MethodComparison:
    """Return what each method of dosing does to one tank, in seawater of salinity 35 at 25 °C.

    Parameters
    ----------
    daily_uptake
        Alkalinity that the tank uses in a day.
    volume
        Of the tank's water.
    evaporation
        Water that is topped off in a day; it sets what limewater can carry.
    share, period
        Of the volume at each water change, and from one to the next.
    time
        After which magnesium and potassium are told.
    bound
        Largest share by which an ion that nobody doses may settle lower.

    Notes
    -----
    The skeleton is taken as calcium carbonate. The reactor is one whose gas all dissolves
    aragonite; a real one wastes some, see `calcium_reactor`.

    Examples
    --------
    >>> found = compare_methods(daily_uptake=0.356652, volume=200.0, evaporation=3.0)
    >>> for method in found.methods[:2]:
    ...     print(method.name, round(method.salt, 1), round(method.carbon_dioxide, 2))
    baking soda and calcium chloride 20.8 0.18
    soda ash and calcium chloride 20.8 0.0
    """
    given = (daily_uptake, share, period, time, volume, evaporation, bound)
    (uptake, f, p, t, tank, top_off, loss), like = checked_values(
        "compare_methods", TANK, given, DEFAULTS
    )
    if uptake == 0.0:
        msg = "compare_methods: daily_uptake is 0 meq/L/day; more than 0 is possible"
        raise DomainError(msg)
    lime = min(1.0, float(limewater_limit(top_off, tank, 25.0)) / uptake)
    baked, ash = two_part(), two_part(alkalinity_salt="Na2CO3")
    three, nothing = two_part(third=THIRD), dict[str, float]()
    formate, acetate = salts["Ca(HCOO)2"], salts["Ca(CH3COO)2"]
    soda, carbonate, hydroxide = salts["NaHCO3"], salts["Na2CO3"], salts["Ca(OH)2"]
    asked = (
        ("baking soda and calcium chloride", baked.left, soda, 1.0),
        ("soda ash and calcium chloride", ash.left, carbonate, 1.0),
        ("baking soda with a third solution", three.left, soda, 1.0),
        ("calcium formate", all_in_one().left, formate, 1.0),
        ("calcium acetate", all_in_one(calcium_salt="Ca(CH3COO)2").left, acetate, 1.0),
        ("limewater", nothing, hydroxide, lime),
        ("calcium reactor", nothing, soda, 1.0),  # it drips hydrogencarbonate, without the sodium
    )
    methods = []
    for name, left, base, carries in asked:
        used = uptake * carries
        balance = ionic_balance(left, daily_uptake=used, time=t, share=f, period=p)
        methods.append(
            Method(
                name=name,
                carries=carries,
                salt=sum(balance.gain.values()) / p,
                magnesium=balance.change("magnesium"),
                potassium=balance.change("potassium"),
                water_change=float(water_change_for_bound(loss, balance.replaced)),
                oxygen=used * base.oxygen / base.alkalinity_after_oxidation * molar_mass("O2"),
                carbon=used * _organic(base) * component_mass("inorganic carbon"),
                carbon_dioxide=used * (_carbon(base) - 0.5),
            )
        )
    said = [*three.cautions, *ash.cautions]
    said += [line for salt in (formate, acetate, hydroxide) for line in salt.cautions()]
    result = MethodComparison(
        daily_uptake=uptake,
        volume=tank,
        methods=tuple(methods),
        cautions=tuple(dict.fromkeys([*said, APART, SLOW, SETTLE, NOT_ALL_AT_ONCE, GAS])),
    )
    return result if like is None else result.with_units(like)


def _carbon(base: Salt) -> float:
    """Return the moles of carbon that come with an equivalent."""
    moles = sum(count * base.components.get(name, 0.0) for name, count in CARBON.items())
    return moles / base.alkalinity_after_oxidation


def _organic(base: Salt) -> float:
    return _carbon(base) if base.oxygen else 0.0
