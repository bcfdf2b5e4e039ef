"""What a dose does to everything in the tank."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, ClassVar

from reefchem.core.boundary import checked_values
from reefchem.core.errors import DomainError
from reefchem.core.record import arg
from reefchem.dosing.report import Line, Report
from reefchem.dosing.residue import salinity_gained
from reefchem.dosing.species import dry_mass
from reefchem.dosing.tank_water import Water

if TYPE_CHECKING:
    from collections.abc import Mapping

    from reefchem.dosing.solutions import StockSolution

__all__ = ["DoseEffect", "dose_effect"]

PARTS = 50.0
"""Parts of tank water that a part of the dose has met near the outlet of the pump, before it is
dispersed. An assumption, to compare doses with each other."""

DOSE = {
    "dose": arg("mL", "v", typical=(1.0, 500.0)),
    "volume": arg("L", "V", typical=(20.0, 1000.0)),
    "salinity": arg("1", "S", valid=(20.0, 40.0)),
    "temperature": arg("degC", "t", valid=(15.0, 32.0)),
    "alkalinity": arg("meq/L", "A", typical=(1.8, 4.5)),
    "ph_total": arg("1", r"\mathrm{pH}_T", typical=(7.6, 8.5), possible=(0.0, 14.0)),
    "calcium": arg("mg/L", r"\rho_\mathrm{Ca}", typical=(350.0, 500.0)),
    "air": arg("uatm", r"p_{\mathrm{CO_2}}", typical=(300.0, 1500.0)),
}
OPTIONAL: dict[str, float | None] = {
    "temperature": 25.0,
    "alkalinity": 2.67,
    "calcium": None,
    "air": None,
}


@dataclass(frozen=True)
class DoseEffect(Report):
    """What a dose has done.

    Attributes
    ----------
    changes
        Of everything that an analysis reports, mg/L, by component.
    alkalinity, alkalinity_later
        Rise at once, and once bacteria have burnt what is organic.
    salinity
        Rise, by the mass of what was dissolved.
    oxygen
        That is taken from the water until then.
    ph_before, ph_at_once, ph_settled
        Total scale; at once after mixing, and in balance with the air after oxidation.
    omega_before, omega_at_once, omega_settled, omega_at_outlet
        Saturation of aragonite; at the outlet of the dosing pump the dose has met few parts of
        tank water, and a high value says that it may fall out there. NaN when no state of
        seawater describes that mixture.
    """

    name: str
    dose: float
    volume: float
    changes: Mapping[str, float]
    alkalinity: float
    alkalinity_later: float
    salinity: float
    oxygen: float
    ph_before: float
    ph_at_once: float
    ph_settled: float
    omega_before: float
    omega_at_once: float
    omega_settled: float
    omega_at_outlet: float
    cautions: tuple[str, ...]

    UNITS: ClassVar[Mapping[str, str]] = {
        "dose": "mL",
        "volume": "L",
        "alkalinity": "meq/L",
        "alkalinity_later": "meq/L",
        "oxygen": "mg/L",
    }

    @property
    def title(self) -> str:
        """What was dosed into how much."""
        return f"{self.dose:g} mL of {self.name} into {self.volume:g} L"

    def lines(self) -> list[Line]:
        """Return every number, changes of ions first."""
        return [
            *(Line(name, change, "mg/L") for name, change in self.changes.items()),
            Line("alkalinity, at once", self.alkalinity, "meq/L"),
            Line("alkalinity, after oxidation", self.alkalinity_later, "meq/L"),
            Line("salinity", self.salinity, ""),
            Line("oxygen taken", self.oxygen, "mg/L"),
            Line("pH before (total scale)", self.ph_before, ""),
            Line("pH at once", self.ph_at_once, ""),
            Line("pH when settled with the air", self.ph_settled, ""),
            Line("saturation of aragonite before", self.omega_before, ""),
            Line("saturation at once", self.omega_at_once, ""),
            Line("saturation when settled", self.omega_settled, ""),
            Line("saturation at the outlet", self.omega_at_outlet, ""),
        ]


def dose_effect(
    solution: StockSolution,
    dose: Any,
    *,
    volume: Any,
    salinity: Any = 35.0,
    temperature: Any = OPTIONAL["temperature"],
    alkalinity: Any = OPTIONAL["alkalinity"],
    ph_total: Any = 8.1,
    calcium: Any = None,
    air: Any = None,
) -> DoseEffect:
    """Return what a dose does to every ion, to alkalinity, salinity, pH, saturation and oxygen.

    Parameters
    ----------
    solution
        What is dosed.
    dose
        Volume of it.
    volume
        Of the tank's water. The top-off keeps it at its mark, so that the water of the dose takes
        the place of water that has evaporated.
    salinity, temperature, alkalinity, ph_total
        Of the tank before the dose; pH on the total scale.
    calcium
        Before the dose; without it, that of seawater of this salinity.
    air
        Carbon dioxide that the tank settles with; without it, what the tank has before the dose.

    Notes
    -----
    Acetate is alkalinity by definition, but it stays acetate at the pH of a tank, so it is left
    out of the carbonate system until it is oxidised. Ammonium takes part, as ammonium and ammonia;
    neither nitrification nor uptake is followed.

    Examples
    --------
    >>> from reefchem.dosing import StockSolution
    >>> soda = StockSolution({"NaHCO3": 70.0})
    >>> effect = dose_effect(soda, 20.0, volume=100.0)
    >>> round(effect.alkalinity, 4), round(effect.changes["sodium"], 3)
    (0.1667, 3.831)
    """
    given = (dose, volume, salinity, temperature, alkalinity, ph_total, calcium, air)
    bare, like = checked_values("dose_effect", DOSE, given, OPTIONAL)
    v, tank, s, t, before, ph, ca, pressure = bare
    if tank == 0.0:
        msg = "dose_effect: volume is 0 L; more than 0 is possible"
        raise DomainError(msg)
    share = v / tank  # moles in a litre of solution to millimoles in a litre of tank
    water = Water(s, t, before, ph, ca)
    changes = {name: share * amount for name, amount in solution.components.items()}
    start = water.state()
    settled_at = start.pco2 if pressure is None else pressure
    at_once = water.after(solution, share, oxidised=False)
    settled = water.after(solution, share, oxidised=True, pco2=settled_at)
    outlet = water.after(solution, 1000.0 / (PARTS + 1), oxidised=False, kept=PARTS / (PARTS + 1))
    result = DoseEffect(
        name=" + ".join(solution.contents),
        dose=v,
        volume=tank,
        changes=changes,
        alkalinity=share * solution.alkalinity,
        alkalinity_later=share * solution.alkalinity_after_oxidation,
        salinity=salinity_gained(share * dry_mass(solution.species) / 1000, s, t),
        oxygen=share * solution.oxygen,
        ph_before=ph,
        ph_at_once=at_once.ph_total if at_once else float("nan"),
        ph_settled=settled.ph_total if settled else float("nan"),
        omega_before=start.omega_aragonite,
        omega_at_once=at_once.omega_aragonite if at_once else float("nan"),
        omega_settled=settled.omega_aragonite if settled else float("nan"),
        omega_at_outlet=outlet.omega_aragonite if outlet else float("nan"),
        cautions=solution.cautions(),
    )
    return result if like is None else result.with_units(like)
