"""A tank and the air of its room: where the pH would settle, and what moves it there.

Air stands for the gas phase that the water meets: the room, or what an air line brings.
"""

from __future__ import annotations

from reefchem.carbonate.alkalinity import (
    pco2_from_alkalinity_and_ph,
    ph_from_alkalinity_and_pco2,
)
from reefchem.carbonate.borate import boric_kb_dickson1990
from reefchem.carbonate.buffer import revelle_factor
from reefchem.carbonate.carbonic import carbonic_k1_lueker2000, carbonic_k2_lueker2000
from reefchem.carbonate.gas import (
    co2_fugacity_factor_weiss1974,
    co2_partial_pressure,
    co2_solubility_weiss1974,
)
from reefchem.carbonate.species import co2_share
from reefchem.carbonate.water import water_kw_millero1995
from reefchem.core.atoms import molar_mass
from reefchem.core.constants import GAS_CONSTANT, LN10, STANDARD_ATMOSPHERE
from reefchem.core.functions import Num, exp, kelvin, sqrt
from reefchem.core.record import arg, relation
from reefchem.seawater.composition import boron_uppstrom1974
from reefchem.seawater.gas_exchange import schmidt_carbon_dioxide, schmidt_oxygen
from reefchem.seawater.room_air import vapour_pressure_weiss1980

__all__ = [
    "air_of_tank",
    "approach",
    "blended_air",
    "carbon_exchange_time",
    "co2_exchange_time",
    "dic_per_co2",
    "dry_air_reading",
    "lime_used_on_air",
    "pco2_above_air",
    "ph_in_air",
    "room_air",
]

CALCIUM_HYDROXIDE = molar_mass("Ca(OH)2")

_POSITIVE = (1e-9, float("inf"))
_SALINITY = arg("1", "S", valid=(19.0, 40.0))
_TEMPERATURE = arg("degC", "t", valid=(9.0, 33.0))
_AT = {"salinity": _SALINITY, "temperature": _TEMPERATURE}
_AIR = arg("ppm", r"x_{\mathrm{CO_2}}", typical=(350.0, 2500.0), possible=(0.0, 1e6))
_ALKALINITY = arg("umol/kg", r"A_T", typical=(2200.0, 4500.0), possible=(-1e6, 1e6))
_GAS_TIME = arg("hour", r"\tau", typical=(0.5, 50.0), possible=_POSITIVE)


@relation(
    unit="ppm",
    symbol=r"x_{\mathrm{CO_2}}",
    source="weiss1980",
    at="eq. 10, vapour over pure water",
    reading=arg(
        "ppm", "x", title="CO₂ in the air of the room", typical=(350.0, 2500.0), possible=(0.0, 1e6)
    ),
    room_temperature=arg("degC", r"t_\mathrm{r}", valid=(0.0, 40.0)),
    humidity=arg(
        "percent",
        "u",
        title="relative humidity of the room",
        typical=(0.0, 95.0),
        possible=(0.0, 100.0),
    ),
)
def dry_air_reading(reading: Num, room_temperature: Num, humidity: Num) -> Num:
    """Return the share of carbon dioxide in dry air from its share of moist room air.

    At 25 °C and 60 % the difference is 2 %, less than most meters are good for.

    Examples
    --------
    >>> round(dry_air_reading(800.0, 25.0, 60.0), 0)
    815.0
    """
    vapour = humidity / 100 * vapour_pressure_weiss1980(0.0, room_temperature)
    return reading / (1 - vapour)


@relation(
    unit="1",
    symbol=r"\mathrm{pH}_T",
    source="dickson2007",
    at="chapter 2, pH from total alkalinity and partial pressure",
    total_alkalinity=_ALKALINITY,
    air=_AIR,
    **_AT,
)
def ph_in_air(total_alkalinity: Num, air: Num, salinity: Num, temperature: Num) -> Num:
    """Return the pH (total scale) that water reaches when it is in balance with air.

    Examples
    --------
    >>> round(ph_in_air(2788.0, 420.0, 35.0, 25.0), 2)
    8.11
    """
    p_CO2 = co2_partial_pressure(air, temperature, salinity)
    return ph_from_alkalinity_and_pco2(total_alkalinity, p_CO2, salinity, temperature)


@relation(
    unit="ppm",
    symbol=r"x_{\mathrm{CO_2}}",
    source="dickson2007",
    at="chapter 2, partial pressure from pH and total alkalinity",
    ph_total=arg("1", r"\mathrm{pH}_T", typical=(7.4, 8.5), possible=(1.0, 14.0)),
    total_alkalinity=_ALKALINITY,
    **_AT,
)
def air_of_tank(ph_total: Num, total_alkalinity: Num, salinity: Num, temperature: Num) -> Num:
    """Return the carbon dioxide of the dry air with which a tank would be in balance.

    Compared with a meter on the wall it says which way carbon dioxide moves.

    Examples
    --------
    >>> round(air_of_tank(7.85, 2788.0, 35.0, 25.0), -1)
    850.0
    """
    p_CO2 = pco2_from_alkalinity_and_ph(total_alkalinity, ph_total, salinity, temperature)
    return p_CO2 / (1 - vapour_pressure_weiss1980(salinity, temperature))


@relation(
    unit="ppm",
    symbol=r"x_\mathrm{room}",
    source="persily2017",
    at="the mass balance of a mixed room at rest",
    outdoor=arg(
        "ppm",
        r"x_\mathrm{out}",
        title="CO₂ in the air outside",
        typical=(400.0, 500.0),
        possible=(0.0, 1e6),
    ),
    emission=arg("L/hour", "G", title="CO₂ breathed out in the room", typical=(0.0, 100.0)),
    fresh_air=arg(
        "m**3/hour", "Q", title="fresh air that comes in", typical=(30.0, 500.0), possible=_POSITIVE
    ),
)
def room_air(outdoor: Num, emission: Num, fresh_air: Num) -> Num:
    """Return the carbon dioxide of a room in which people breathe and fresh air comes in.

    Examples
    --------
    Two people at rest, 36 L/h together, in a room with little ventilation:

    >>> round(room_air(420.0, 36.0, 50.0), 0)
    1140.0
    """
    return outdoor + 1000 * emission / fresh_air


@relation(
    unit="1",
    symbol="y",
    source="persily2017",
    at="the mass balance of a mixed volume; exact for any first-order exchange",
    start=arg("1", "y_0", title="value at the start", typical=(0.0, 2000.0), possible=(-1e9, 1e9)),
    end=arg(
        "1", r"y_\infty", title="value in the end", typical=(0.0, 2000.0), possible=(-1e9, 1e9)
    ),
    duration=arg("hour", "t", title="time since the start", typical=(0.0, 72.0)),
    time_constant=_GAS_TIME,
)
def approach(start: Num, end: Num, duration: Num, time_constant: Num) -> Num:
    """Return where a quantity is on its way from a start to an end, at a rate set by the gap.

    The unit is that of start and end, whatever it is: ppm, µatm, µmol/kg.

    Examples
    --------
    After one time constant 63 % of the way is done:

    >>> round(approach(0.0, 100.0, 3.0, 3.0), 1)
    63.2
    """
    return end + (start - end) * exp(-duration / time_constant)


@relation(
    unit="hour",
    symbol=r"\tau_{\mathrm{CO_2}}",
    source="wanninkhof2014",
    at="eq. 6, exponent -1/2 of the Schmidt number",
    oxygen_time=arg("hour", r"\tau_{\mathrm{O_2}}", typical=(0.5, 20.0), possible=_POSITIVE),
    temperature=arg("degC", "t", valid=(-2.0, 40.0)),
)
def co2_exchange_time(oxygen_time: Num, temperature: Num) -> Num:
    """Return the exchange time of dissolved carbon dioxide from that of oxygen.

    Of the gas alone: what bicarbonate adds comes with `carbon_exchange_time`.

    Examples
    --------
    >>> round(co2_exchange_time(3.0, 25.0), 2)
    3.25
    """
    ratio = schmidt_carbon_dioxide(temperature) / schmidt_oxygen(temperature)
    return oxygen_time * sqrt(ratio)


@relation(
    unit="1",
    symbol=r"\left(\partial C_T/\partial[\mathrm{CO_2}]\right)_{A}",
    source="egleston2010",
    at="table 1, Revelle factor, with the share of carbon dioxide",
    ph_total=arg("1", r"\mathrm{pH}_T", typical=(7.4, 8.5), possible=(1.0, 14.0)),
    dic=arg("umol/kg", r"C_T", typical=(1800.0, 4500.0), possible=_POSITIVE),
    **_AT,
)
def dic_per_co2(ph_total: Num, dic: Num, salinity: Num, temperature: Num) -> Num:
    """Return how many moles of carbon go with each mole of dissolved carbon dioxide.

    At constant alkalinity: of the carbon that comes out of air, most turns into bicarbonate at
    the expense of carbonate, so the tank has this many times more to exchange than the gas alone.

    Examples
    --------
    >>> round(dic_per_co2(8.0459, 2000.0, 35.0, 25.0), 0)
    19.0
    """
    h = exp(-LN10 * ph_total)
    K_1 = carbonic_k1_lueker2000(temperature, salinity)
    K_2 = carbonic_k2_lueker2000(temperature, salinity)
    K_B = boric_kb_dickson1990(temperature, salinity)
    K_W = water_kw_millero1995(temperature, salinity)
    B_T = 1e6 * boron_uppstrom1974(salinity)
    R = revelle_factor(h, dic, B_T, K_1, K_2, K_B, K_W)
    return 1 / (R * co2_share(h, K_1, K_2))


@relation(
    unit="hour",
    symbol=r"\tau_C",
    source="zeebe2001",
    at="chapter 2, time of equilibration of CO2 and chemical buffering",
    gas_time=arg("hour", r"\tau_{\mathrm{CO_2}}", typical=(0.5, 20.0), possible=_POSITIVE),
    dic_per_co2=arg(
        "1", r"\left(\partial C_T/\partial[\mathrm{CO_2}]\right)_{A}", typical=(5.0, 60.0)
    ),
)
def carbon_exchange_time(gas_time: Num, dic_per_co2: Num) -> Num:
    """Return the time in which a small gap of pH to its balance with air falls to 37 %.

    Examples
    --------
    A tank whose oxygen is back in three hours takes two and a half days for its pH:

    >>> carbon_exchange_time(3.0, 20.0)
    60.0
    """
    return gas_time * dic_per_co2


@relation(
    unit="uatm",
    symbol=r"\Delta p_{\mathrm{CO_2}}",
    source="zeebe2001",
    at="chapter 2, flux through the surface, at rest",
    net_respiration=arg(
        "umol/kg/hour",
        "R",
        title="CO₂ breathed out, net",
        typical=(-20.0, 20.0),
        possible=(-1e6, 1e6),
    ),
    gas_time=arg("hour", r"\tau_{\mathrm{CO_2}}", typical=(0.5, 20.0), possible=_POSITIVE),
    **_AT,
)
def pco2_above_air(net_respiration: Num, gas_time: Num, salinity: Num, temperature: Num) -> Num:
    """Return how far a tank that breathes stands above the air, at rest.

    Negative for a tank that takes up more than it breathes out. More movement of the surface
    makes the time shorter and the gap smaller; it cannot bring the tank past the air.

    Examples
    --------
    >>> round(pco2_above_air(3.0, 3.0, 35.0, 25.0), 0)
    318.0
    """
    CO_2 = 1e-6 * net_respiration * gas_time
    K_0 = co2_solubility_weiss1974(temperature, salinity)
    return 1e6 * CO_2 / (K_0 * co2_fugacity_factor_weiss1974(temperature))


@relation(
    unit="ppm",
    symbol=r"\bar x",
    source="zeebe2001",
    at="chapter 2, flux through the surface, two surfaces side by side",
    room=arg(
        "ppm",
        r"x_\mathrm{room}",
        title="CO₂ in the air of the room",
        typical=(400.0, 2500.0),
        possible=(0.0, 1e6),
    ),
    line=arg(
        "ppm",
        r"x_\mathrm{line}",
        title="CO₂ in the air of the line",
        typical=(0.0, 500.0),
        possible=(0.0, 1e6),
    ),
    share=arg(
        "1",
        "f",
        title="share of the exchange through the line",
        typical=(0.0, 1.0),
        possible=(0.0, 1.0),
    ),
)
def blended_air(room: Num, line: Num, share: Num) -> Num:
    """Return the air that a tank feels when a share of its gas exchange goes through an air line.

    `line` is outside air, or air behind an absorber (near zero while the medium is fresh). The
    rest of the exchange goes through the open surface and sees the room.

    Examples
    --------
    >>> blended_air(1200.0, 420.0, 0.5)
    810.0
    """
    return room + share * (line - room)


@relation(
    unit="g/day",
    symbol=r"\dot m",
    source="prohaska2022",
    at="table 1, with the ideal gas law and Ca(OH)2 + CO2 -> CaCO3 + H2O",
    air_flow=arg("L/hour", "q", title="flow of air through the absorber", typical=(0.0, 500.0)),
    air=_AIR.titled("CO₂ in the air that enters"),
    room_temperature=arg("degC", r"t_\mathrm{r}", typical=(10.0, 35.0)),
)
def lime_used_on_air(air_flow: Num, air: Num, room_temperature: Num) -> Num:
    """Return how much calcium hydroxide an absorber uses up on the CO2 of an air flow.

    Nothing gets past it.

    Examples
    --------
    >>> round(lime_used_on_air(100.0, 1000.0, 25.0), 1)
    7.3
    """
    V = 24 * air_flow * 1e-6 * air / 1000
    n = V * STANDARD_ATMOSPHERE / (GAS_CONSTANT * kelvin(room_temperature))
    return CALCIUM_HYDROXIDE * n
