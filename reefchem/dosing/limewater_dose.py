"""Limewater as top-off, and a calcium reactor: what each can carry for one tank."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from reefchem.core.atoms import molar_mass
from reefchem.core.errors import DomainError
from reefchem.core.functions import where
from reefchem.core.record import arg, calculation
from reefchem.dosing.calcification import calcium_used
from reefchem.dosing.catalogue import salts
from reefchem.dosing.lime import lime_mass, limewater_limit, reactor_carbon_dioxide, reactor_drip
from reefchem.dosing.report import Line, Report
from reefchem.seawater.composition import calcium_riley1967
from reefchem.seawater.density import seawater_density

if TYPE_CHECKING:
    from collections.abc import Mapping

    from reefchem.core.functions import Num

__all__ = ["CalciumReactor", "Limewater", "calcium_reactor", "limewater"]

SETTLE = (
    "Let the lime settle and dose only the clear water, slowly, where the flow is strong; keep the "
    "container closed, since air turns limewater into a crust of carbonate and plain water."
)
NOT_ALL_AT_ONCE = (
    "A pump or float that sticks can pour the whole container into the tank: size it so that this "
    "would not raise the pH above what the animals stand."
)
GAS = (
    "Carbon dioxide from a cylinder: fix the cylinder, keep the room ventilated, and shut the gas "
    "off when the reactor's flow stops; a leak can suffocate in a closed room."
)

DAILY = arg("meq/L/day", "u", typical=(0.05, 1.0))
VOLUME = arg("L", "V", typical=(20.0, 1000.0), possible=(1e-9, float("inf")))
SALINITY = arg("1", "S", valid=(20.0, 40.0))
WATER = arg("degC", "t", valid=(15.0, 32.0))
LIME = arg("degC", r"t_l", typical=(15.0, 30.0), possible=(0.0, 100.0))


@dataclass(frozen=True)
class Limewater(Report):
    """What limewater as top-off can do for a tank.

    Attributes
    ----------
    most
        Alkalinity that it can bring in a day.
    share
        Of the tank's uptake that this covers; more than 1 when not all top-off need be limewater.
    daily
        Limewater to dose in a day: the evaporation, or less when that is more than the uptake asks.
    lime
        Grams of calcium hydroxide in that.
    calcium
        That it brings in a day.
    """

    most: Num
    share: Num
    daily: Num
    lime: Num
    calcium: Num
    cautions: tuple[str, ...]

    UNITS: ClassVar[Mapping[str, str]] = {
        "most": "meq/L/day",
        "daily": "L/day",
        "lime": "g/day",
        "calcium": "mg/L/day",
    }

    @property
    def title(self) -> str:
        """What it is."""
        return "limewater in place of top-off"

    def lines(self) -> list[Line]:
        """Return every number."""
        return [
            Line("most alkalinity", self.most, "meq/L a day"),
            Line("share of the uptake", self.share, ""),
            Line("limewater to dose", self.daily, "L a day"),
            Line("lime in it", self.lime, "g a day"),
            Line("calcium from it", self.calcium, "mg/L a day"),
        ]


@calculation(
    source="bates1956",
    at="abstract: about 0.0203 M at 25 °C",
    daily_uptake=DAILY,
    evaporation=arg("L/day", "e", typical=(0.2, 10.0)),
    volume=VOLUME,
    lime_temperature=LIME,
)
def limewater(
    *, daily_uptake: Num, evaporation: Num, volume: Num, lime_temperature: Num = 25.0
) -> Limewater:
    """Return what limewater can carry of a tank's uptake; evaporation sets the limit.

    Parameters
    ----------
    daily_uptake
        Alkalinity that the tank uses in a day.
    evaporation
        Water that is topped off in a day.
    volume
        Of the tank's water.
    lime_temperature
        At which the limewater stands. Only 25 °C is verified; see `limewater_concentration`.

    Notes
    -----
    Nothing is left behind: the hydroxide takes carbon dioxide from the water and becomes
    hydrogencarbonate, and the rest is calcium.

    Examples
    --------
    >>> round(limewater(daily_uptake=0.4, evaporation=1.0, volume=100.0).share, 3)
    1.015
    """
    most = limewater_limit(evaporation, volume, lime_temperature)
    if type(most) is float and daily_uptake == 0.0:
        msg = "limewater: daily_uptake is 0 meq/L/day; more than 0 is possible"
        raise DomainError(msg)
    share = most / daily_uptake
    enough = share >= 1.0
    needed = evaporation / where(enough, share, 1.0)
    carried = where(enough, daily_uptake, most)
    return Limewater(
        most=most,
        share=share,
        daily=needed,
        lime=lime_mass(needed, lime_temperature),
        calcium=calcium_used(carried),
        cautions=(*salts["Ca(OH)2"].cautions(), SETTLE, NOT_ALL_AT_ONCE),
    )


@dataclass(frozen=True)
class CalciumReactor(Report):
    """What a calcium reactor does for a tank.

    Attributes
    ----------
    drip
        Flow that replaces the uptake.
    carbon_dioxide
        Gas that it takes, for each litre of effluent.
    gas
        The same in a day.
    aragonite
        Of the filling that dissolves in a day.
    omega
        Saturation of aragonite in the effluent. Well above 1, the two readings of the effluent do
        not fit each other: it would have stopped dissolving before.
    ph_mixed
        Of the tank after a day's effluent, before the air has had its say (total scale).
    """

    drip: float
    carbon_dioxide: float
    gas: float
    aragonite: float
    omega: float
    ph_before: float
    ph_mixed: float
    cautions: tuple[str, ...]

    UNITS: ClassVar[Mapping[str, str]] = {
        "drip": "L/day",
        "carbon_dioxide": "mmol/L",
        "gas": "g/day",
        "aragonite": "g/day",
    }

    @property
    def title(self) -> str:
        """What it is."""
        return "calcium reactor"

    def lines(self) -> list[Line]:
        """Return every number."""
        return [
            Line("drip rate", self.drip, "L a day"),
            Line("drip rate, by the minute", self.drip * 1000 / 1440, "mL a minute"),
            Line("carbon dioxide in each litre of effluent", self.carbon_dioxide, "mmol/L"),
            Line("carbon dioxide", self.gas, "g a day"),
            Line("aragonite that dissolves", self.aragonite, "g a day"),
            Line("saturation of aragonite in the effluent", self.omega, ""),
            Line("pH before (total scale)", self.ph_before, ""),
            Line("pH after a day's effluent, without air", self.ph_mixed, ""),
        ]


@calculation(
    source="dickson2007",
    at="chapter 2, for the carbonate system of tank and effluent",
    daily_uptake=DAILY,
    volume=VOLUME,
    salinity=SALINITY,
    temperature=WATER,
    alkalinity=arg("meq/L", "A", typical=(2.0, 4.5)),
    ph_total=arg("1", r"\mathrm{pH}_T", typical=(7.7, 8.3), possible=(0.0, 14.0)),
    effluent_alkalinity=arg("meq/L", "A_e", typical=(6.0, 15.0)),
    effluent_ph_total=arg("1", r"\mathrm{pH}_e", typical=(6.2, 6.9), possible=(0.0, 14.0)),
)
def calcium_reactor(
    *,
    daily_uptake: float,
    volume: float,
    alkalinity: float,
    ph_total: float,
    effluent_alkalinity: float,
    effluent_ph_total: float,
    salinity: float = 35.0,
    temperature: float = 25.0,
) -> CalciumReactor:
    """Return drip rate, gas and the pH that it costs, from two readings of the effluent.

    Parameters
    ----------
    daily_uptake
        Alkalinity that the tank uses in a day.
    volume, alkalinity, ph_total, salinity, temperature
        Of the tank.
    effluent_alkalinity, effluent_ph_total
        Measured in what drips out.

    Raises
    ------
    DomainError
        When the effluent has no more alkalinity than the tank.

    Examples
    --------
    >>> reactor = calcium_reactor(
    ...     daily_uptake=0.2, volume=200.0, alkalinity=2.8, ph_total=8.0,
    ...     effluent_alkalinity=10.8, effluent_ph_total=6.4,
    ... )
    >>> round(reactor.drip, 2), round(reactor.aragonite, 2)
    (5.0, 2.0)
    """
    from reefchem.carbonate.system import carbonate_system  # noqa: PLC0415 - only here

    if not effluent_alkalinity > alkalinity:
        msg = (
            f"calcium_reactor: effluent_alkalinity is {effluent_alkalinity:g} meq/L; it must be "
            f"more than that of the tank, {alkalinity:g} meq/L"
        )
        raise DomainError(msg)
    litre = float(seawater_density(salinity, temperature)) / 1000
    calcium = 1e6 * float(calcium_riley1967(salinity))
    tank = carbonate_system(
        salinity=salinity,
        temperature=temperature,
        total_alkalinity=1000 * alkalinity / litre,
        ph_total=ph_total,
        calcium=calcium,
    )
    dissolved = (effluent_alkalinity - alkalinity) / 2
    effluent = carbonate_system(
        salinity=salinity,
        temperature=temperature,
        total_alkalinity=1000 * effluent_alkalinity / litre,
        ph_total=effluent_ph_total,
        calcium=calcium + 1000 * dissolved / litre,
    )
    drip = reactor_drip(daily_uptake, volume, effluent_alkalinity, alkalinity)
    dic, effluent_dic = tank.dic * litre / 1000, effluent.dic * litre / 1000
    gas = reactor_carbon_dioxide(effluent_dic, dic, effluent_alkalinity, alkalinity)
    growth = daily_uptake / 2
    mixed = carbonate_system(
        salinity=salinity,
        temperature=temperature,
        total_alkalinity=tank.total_alkalinity,
        dic=tank.dic + 1000 * ((effluent_dic - dic) * drip / volume - growth) / litre,
    )
    return CalciumReactor(
        drip=drip,
        carbon_dioxide=gas,
        gas=gas * drip * molar_mass("CO2") / 1000,
        aragonite=dissolved * drip * salts["CaCO3"].molar_mass / 1000,
        omega=effluent.omega_aragonite,
        ph_before=ph_total,
        ph_mixed=mixed.ph_total,
        cautions=(GAS,),
    )
