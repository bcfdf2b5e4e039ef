"""Alkalinity sources compared: carbon, pH and saturation, closed and open to air."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, ClassVar

from reefchem.carbonate.gas import co2_partial_pressure
from reefchem.carbonate.system import carbonate_system
from reefchem.core.atoms import molar_mass
from reefchem.core.errors import DomainError
from reefchem.core.record import arg, calculation
from reefchem.core.result import Result
from reefchem.seawater.composition import calcium_riley1967

if TYPE_CHECKING:
    from collections.abc import Mapping

__all__ = ["AlkalinitySource", "DoseComparison", "alkalinity_sources", "raise_alkalinity"]


@dataclass(frozen=True)
class AlkalinitySource:
    """What a mole of a source brings, by charge balance.

    Attributes
    ----------
    formula
        Of the solid.
    alkalinity
        Equivalents of alkalinity, of organic salts after they have been oxidised.
    carbon
        Moles of inorganic carbon, of organic salts after they have been oxidised.
    calcium
        Moles of calcium.
    oxygen
        Moles of oxygen that microbes use on it; 0 for a source that works at once.
    counted
        Equivalents that count as alkalinity by Dickson's definition before anything is oxidised.
    caution
        The usual caution; the safety data sheet of the product comes first.
    """

    formula: str
    alkalinity: int
    carbon: int
    calcium: int = 0
    oxygen: float = 0.0
    counted: int = 0
    caution: str = ""

    @property
    def carbon_per_alkalinity(self) -> float:
        """Moles of inorganic carbon with each equivalent: the one number that sets the pH."""
        return self.carbon / self.alkalinity

    @property
    def mass_per_equivalent(self) -> float:
        """Grams of the pure, dry solid for an equivalent."""
        return molar_mass(self.formula) / self.alkalinity


_CAUSTIC = "caustic: gloves and eye protection; add the solid to water, never water to the solid"
_FEEDS = "feeds microbes and uses up oxygen; start low"

_SOURCES = {
    "sodium bicarbonate": AlkalinitySource("NaHCO3", 1, 1, counted=1),
    "sodium carbonate": AlkalinitySource(
        "Na2CO3", 2, 1, counted=2, caution="irritates the eyes; its solution has a pH above 11"
    ),
    "sodium hydroxide": AlkalinitySource("NaOH", 1, 0, counted=1, caution=_CAUSTIC),
    "calcium hydroxide": AlkalinitySource(
        "Ca(OH)2",
        2,
        0,
        calcium=1,
        counted=2,
        caution="burns the eyes, irritates skin and airways: no dust, gloves and eye protection",
    ),
    "sodium formate": AlkalinitySource("Na(HCOO)", 1, 1, oxygen=0.5, caution=_FEEDS),
    "calcium formate": AlkalinitySource(
        "Ca(HCOO)2",
        2,
        2,
        calcium=1,
        oxygen=1.0,
        caution="can harm the eyes: eye protection; " + _FEEDS,
    ),
    "sodium acetate": AlkalinitySource("Na(CH3COO)", 1, 2, oxygen=2.0, counted=1, caution=_FEEDS),
    "calcium acetate": AlkalinitySource(
        "Ca(CH3COO)2", 2, 4, calcium=1, oxygen=4.0, counted=2, caution=_FEEDS
    ),
}


def alkalinity_sources() -> dict[str, AlkalinitySource]:
    """Return the known sources by name.

    Examples
    --------
    >>> alkalinity_sources()["sodium carbonate"].carbon_per_alkalinity
    0.5
    """
    return dict(_SOURCES)


@dataclass(frozen=True)
class DoseComparison(Result):
    """Water before a dose, after it in a closed jar, and back in balance with air.

    Organic salts are taken to be oxidised; until then they change nothing here. The changes of a
    jar are from `before`; those in air are from the undosed water in balance with the same air.

    Attributes
    ----------
    alkalinity_change
        The dose.
    dic_change_closed, ph_change_closed, omega_change_closed
        In the closed jar.
    dic_change_air, ph_change_air, omega_change_air
        In balance with air; but for calcium the same for every source.
    ph_closed, ph_air
        pH (total scale) after the dose.
    oxygen_used
        What the oxidation takes out of the water.
    """

    alkalinity_change: Any
    dic_change_closed: Any
    ph_change_closed: Any
    omega_change_closed: Any
    dic_change_air: Any
    ph_change_air: Any
    omega_change_air: Any
    ph_closed: Any
    ph_air: Any
    oxygen_used: Any
    UNITS: ClassVar[Mapping[str, str]] = {
        "alkalinity_change": "umol/kg",
        "dic_change_closed": "umol/kg",
        "dic_change_air": "umol/kg",
        "oxygen_used": "umol/kg",
    }


@calculation(
    source="wolfgladrow2007",
    at="the explicit conservative expression for total alkalinity",
    dose=arg("umol/kg", "a", typical=(0.0, 1000.0)),
    total_alkalinity=arg("umol/kg", r"A_T", typical=(2000.0, 4500.0)),
    dic=arg("umol/kg", r"C_T", typical=(1700.0, 4000.0)),
    salinity=arg("1", "S", typical=(30.0, 38.0)),
    temperature=arg("degC", "t", typical=(20.0, 30.0)),
    air=arg("ppm", r"x_{\mathrm{CO_2}}", typical=(380.0, 2000.0), possible=(0.0, 1e6)),
    calcium=arg("umol/kg", r"[\mathrm{Ca^{2+}}]", typical=(8000.0, 13000.0)),
)
def raise_alkalinity(
    dose: Any,
    *,
    total_alkalinity: Any,
    dic: Any,
    salinity: Any,
    temperature: Any,
    air: Any,
    calcium: Any = None,
    source: str = "sodium bicarbonate",
) -> DoseComparison:
    """Return what raising the alkalinity does, closed and open to air.

    Parameters
    ----------
    dose
        Alkalinity to add.
    total_alkalinity, dic, salinity, temperature
        Of the water before.
    air
        Carbon dioxide in dry air with which the water is balanced in the end.
    calcium
        Before the dose; without it, that of seawater of this salinity.
    source
        A name of `alkalinity_sources`.

    Raises
    ------
    DomainError
        When the source is not known.

    Examples
    --------
    >>> made = raise_alkalinity(349.0, total_alkalinity=2440.0, dic=2130.0, salinity=35.0,
    ...                         temperature=25.0, air=420.0, source="sodium hydroxide")
    >>> round(made.ph_change_closed, 1), made.dic_change_closed
    (0.4, 0.0)
    """
    if source not in _SOURCES:
        msg = f"raise_alkalinity: source is {source!r}; known are {', '.join(_SOURCES)}"
        raise DomainError(msg)
    what = _SOURCES[source]
    water: dict[str, Any] = {"salinity": salinity, "temperature": temperature}
    held = 1e6 * calcium_riley1967(salinity) if calcium is None else calcium
    with_dose = held + dose * what.calcium / what.alkalinity
    more = total_alkalinity + dose
    carbon = dic + dose * what.carbon_per_alkalinity
    pco2 = co2_partial_pressure(air, temperature, salinity)
    before = carbonate_system(**water, total_alkalinity=total_alkalinity, dic=dic, calcium=held)
    closed = carbonate_system(**water, total_alkalinity=more, dic=carbon, calcium=with_dose)
    undosed = carbonate_system(**water, total_alkalinity=total_alkalinity, pco2=pco2, calcium=held)
    dosed = carbonate_system(**water, total_alkalinity=more, pco2=pco2, calcium=with_dose)
    return DoseComparison(
        alkalinity_change=dose,
        dic_change_closed=carbon - dic,
        ph_change_closed=closed.ph_total - before.ph_total,
        omega_change_closed=closed.omega_aragonite - before.omega_aragonite,
        dic_change_air=dosed.dic - undosed.dic,
        ph_change_air=dosed.ph_total - undosed.ph_total,
        omega_change_air=dosed.omega_aragonite - undosed.omega_aragonite,
        ph_closed=closed.ph_total,
        ph_air=dosed.ph_total,
        oxygen_used=dose * what.oxygen / what.alkalinity,
    )
