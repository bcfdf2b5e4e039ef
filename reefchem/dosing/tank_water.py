"""The water that a dose falls into, and its carbonate system before and after."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from reefchem.core.errors import DomainError
from reefchem.dosing.species import component_mass
from reefchem.seawater.composition import boron_uppstrom1974, calcium_riley1967
from reefchem.seawater.density import seawater_density

if TYPE_CHECKING:
    from reefchem.carbonate.state import CarbonateState
    from reefchem.dosing.solutions import StockSolution

__all__ = ["Water"]


@dataclass(frozen=True)
class Water:
    """The tank before the dose, per litre."""

    salinity: float
    temperature: float
    alkalinity: float
    ph_total: float
    calcium: float | None

    @property
    def litre(self) -> float:
        """Kilograms in a litre."""
        return float(seawater_density(self.salinity, self.temperature)) / 1000

    @property
    def calcium_content(self) -> float:
        """Calcium in a kilogram, µmol."""
        if self.calcium is None:
            return 1e6 * float(calcium_riley1967(self.salinity))
        return 1000 * self.calcium / component_mass("calcium") / self.litre

    def state(self) -> CarbonateState:
        """Return the carbonate system before the dose."""
        from reefchem.carbonate.system import carbonate_system  # noqa: PLC0415 - heavy

        return carbonate_system(
            salinity=self.salinity,
            temperature=self.temperature,
            total_alkalinity=1000 * self.alkalinity / self.litre,
            ph_total=self.ph_total,
            calcium=self.calcium_content,
        )

    def after(
        self,
        solution: StockSolution,
        share: float,
        *,
        oxidised: bool,
        pco2: float | None = None,
        kept: float = 1.0,
    ) -> CarbonateState | None:
        """Return the carbonate system after the dose, or None when no state fits.

        Parameters
        ----------
        solution
            What is dosed.
        share
            Millilitres of it in a litre.
        oxidised
            Whether what is organic has been burnt. What ammonium becomes is not followed: it
            stays in the water until something takes it.
        pco2
            Of the air it has settled with; None before the air has had its say.
        kept
            Share of the tank's own water in the mixture.
        """
        from reefchem.carbonate.system import carbonate_system  # noqa: PLC0415 - heavy

        per_kilogram = 1000 * share / self.litre  # mmol/mL and mL/L to µmol/kg
        start = self.state()
        moles = solution.component_moles
        base = (
            solution.alkalinity_after_oxidation
            if oxidised
            else (solution.alkalinity - moles.get("acetate", 0.0))
        )
        carbon = moles.get("inorganic carbon", 0.0)
        alkalinity = kept * start.total_alkalinity + per_kilogram * base
        dic = kept * start.dic + per_kilogram * carbon if pco2 is None else None
        boron = 1e6 * float(boron_uppstrom1974(self.salinity))
        try:
            return carbonate_system(
                salinity=self.salinity,
                temperature=self.temperature,
                total_alkalinity=alkalinity,
                dic=dic,
                pco2=pco2,
                phosphate=per_kilogram * moles.get("phosphate", 0.0),
                silicate=per_kilogram * moles.get("silicon", 0.0),
                ammonium=per_kilogram * moles.get("ammonium", 0.0),
                total_boron=kept * boron + per_kilogram * moles.get("boron", 0.0),
                calcium=kept * self.calcium_content + per_kilogram * moles.get("calcium", 0.0),
            )
        except DomainError:
            return None
