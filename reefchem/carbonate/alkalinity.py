"""Single answers about alkalinity, DIC, pH and CO2, for pages and for those who want one number.

Each uses the default constants of `carbonate_system` and no phosphate or silicate, and agrees
with it.
"""

from __future__ import annotations

from reefchem.carbonate.borate import boric_kb_dickson1990
from reefchem.carbonate.carbonic import carbonic_k1_lueker2000, carbonic_k2_lueker2000
from reefchem.carbonate.fluoride import fluoride_kf_perez1987
from reefchem.carbonate.gas import co2_fugacity_factor_weiss1974, co2_solubility_weiss1974
from reefchem.carbonate.ph_scales import hydrogen_ion
from reefchem.carbonate.species import (
    bicarbonate_share,
    borate_share,
    carbonate_share,
    co2_share,
)
from reefchem.carbonate.sulfate import bisulfate_ks_dickson1990
from reefchem.carbonate.water import water_kw_millero1995
from reefchem.core.functions import Num
from reefchem.core.record import arg, relation
from reefchem.core.roots import find_root
from reefchem.seawater.composition import (
    boron_uppstrom1974,
    fluoride_riley1965,
    sulfate_morris1966,
)

TYPE_CHECKING = False
if TYPE_CHECKING:
    from reefchem.core.record import Argument

__all__ = [
    "alkalinity_from_ph_and_dic",
    "alkalinity_from_ph_and_pco2",
    "alkalinity_from_species",
    "carbonate_from_alkalinity_and_ph",
    "dic_from_alkalinity_and_ph",
    "noncarbon_alkalinity",
    "pco2_from_alkalinity_and_ph",
    "pco2_from_ph_and_dic",
    "ph_from_alkalinity_and_dic",
    "ph_from_alkalinity_and_pco2",
]

PER_MOLE = 1e6
"""Micromoles in a mole."""

LOWEST_PH, HIGHEST_PH = 2.0, 12.0

LARGEST = 1e6
HANDBOOK = "chapter 2, total alkalinity, with the constants of chapter 5"
SALINITY = arg("1", "S", valid=(19.0, 40.0))
TEMPERATURE = arg("degC", "t", valid=(9.0, 33.0))
PH = arg("1", r"\mathrm{pH}_T", typical=(7.6, 8.5), possible=(0.0, 14.0))
DIC = arg("umol/kg", "C_T", typical=(1800.0, 3000.0), possible=(0.0, LARGEST))
PCO2 = arg("uatm", r"p_{\mathrm{CO_2}}", typical=(200.0, 1500.0), possible=(0.0, LARGEST))
ALKALINITY = arg("umol/kg", "A_T", typical=(2000.0, 4000.0), possible=(-LARGEST, LARGEST))


def _content(latex: str, low: float, high: float) -> Argument:
    return arg("umol/kg", rf"[\mathrm{{{latex}}}]", typical=(low, high))


@relation(
    unit="umol/kg",
    symbol="A_T",
    source="dickson1981",
    at="definition of total alkalinity",
    bicarbonate=_content("HCO_3^-", 1500.0, 3000.0),
    carbonate=_content("CO_3^{2-}", 100.0, 500.0),
    borate=_content("B(OH)_4^-", 50.0, 200.0),
    hydroxide=_content("OH^-", 1.0, 20.0),
    hydrogen_phosphate=_content("HPO_4^{2-}", 0.0, 5.0),
    phosphate_ion=_content("PO_4^{3-}", 0.0, 1.0),
    silicate_ion=_content("SiO(OH)_3^-", 0.0, 5.0),
    ammonia=_content("NH_3", 0.0, 1.0),
    hydrogen_free=_content("H^+", 0.0, 0.1),
    hydrogen_sulfate=_content("HSO_4^-", 0.0, 0.1),
    hydrogen_fluoride=_content("HF", 0.0, 0.01),
    phosphoric_acid=_content("H_3PO_4", 0.0, 0.001),
)
def alkalinity_from_species(
    bicarbonate: Num,
    carbonate: Num,
    borate: Num,
    hydroxide: Num,
    hydrogen_phosphate: Num = 0.0,
    phosphate_ion: Num = 0.0,
    silicate_ion: Num = 0.0,
    ammonia: Num = 0.0,
    hydrogen_free: Num = 0.0,
    hydrogen_sulfate: Num = 0.0,
    hydrogen_fluoride: Num = 0.0,
    phosphoric_acid: Num = 0.0,
) -> Num:
    """Return the total alkalinity of the species in the water.

    Every base counts by the protons it would take to reach the zero level, every acid above that
    level counts the other way.

    Examples
    --------
    >>> alkalinity_from_species(1775.0, 213.0, 91.0, 7.0)
    2299.0
    """
    return (
        bicarbonate
        + 2.0 * carbonate
        + borate
        + hydroxide
        + hydrogen_phosphate
        + 2.0 * phosphate_ion
        + silicate_ion
        + ammonia
        - hydrogen_free
        - hydrogen_sulfate
        - hydrogen_fluoride
        - phosphoric_acid
    )


@relation(
    unit="umol/kg",
    symbol="A_{nc}",
    source="dickson2007",
    at=HANDBOOK,
    ph_total=PH,
    salinity=SALINITY,
    temperature=TEMPERATURE,
)
def noncarbon_alkalinity(ph_total: Num, salinity: Num, temperature: Num) -> Num:
    """Return the part of alkalinity that is not carbon's: borate, hydroxide, less the acids.

    Examples
    --------
    >>> round(noncarbon_alkalinity(8.1, 35.0, 25.0), 2)
    107.96
    """
    h = hydrogen_ion(ph_total)
    beta = borate_share(h, boric_kb_dickson1990(temperature, salinity))
    hydroxide = water_kw_millero1995(temperature, salinity) / h
    S_T, F_T = sulfate_morris1966(salinity), fluoride_riley1965(salinity)
    K_S = bisulfate_ks_dickson1990(temperature, salinity)
    K_F = fluoride_kf_perez1987(temperature, salinity)
    free = 1.0 + S_T / K_S
    acids = h / free + S_T * h / (K_S * free + h) + F_T * h / (K_F + h)
    return PER_MOLE * (beta * boron_uppstrom1974(salinity) + hydroxide - acids)


@relation(
    unit="umol/kg",
    symbol="A_T",
    source="dickson2007",
    at=HANDBOOK,
    ph_total=PH,
    dic=DIC,
    salinity=SALINITY,
    temperature=TEMPERATURE,
)
def alkalinity_from_ph_and_dic(ph_total: Num, dic: Num, salinity: Num, temperature: Num) -> Num:
    """Return the total alkalinity of water with a pH and a DIC.

    Examples
    --------
    >>> round(alkalinity_from_ph_and_dic(8.1, 2000.0, 35.0, 25.0), 1)
    2336.7
    """
    h = hydrogen_ion(ph_total)
    K_1 = carbonic_k1_lueker2000(temperature, salinity)
    K_2 = carbonic_k2_lueker2000(temperature, salinity)
    A_C = dic * (bicarbonate_share(h, K_1, K_2) + 2.0 * carbonate_share(h, K_1, K_2))
    return A_C + noncarbon_alkalinity(ph_total, salinity, temperature)


@relation(
    unit="umol/kg",
    symbol="A_T",
    source="dickson2007",
    at=HANDBOOK,
    ph_total=PH,
    pco2=PCO2,
    salinity=SALINITY,
    temperature=TEMPERATURE,
)
def alkalinity_from_ph_and_pco2(ph_total: Num, pco2: Num, salinity: Num, temperature: Num) -> Num:
    """Return the total alkalinity of water with a pH, at equilibrium with a pressure of CO2.

    Examples
    --------
    >>> round(alkalinity_from_ph_and_pco2(8.1, 400.0, 35.0, 25.0), 1)
    2686.1
    """
    h = hydrogen_ion(ph_total)
    K_1 = carbonic_k1_lueker2000(temperature, salinity)
    K_2 = carbonic_k2_lueker2000(temperature, salinity)
    fugacity = co2_fugacity_factor_weiss1974(temperature) * pco2
    CO_2 = co2_solubility_weiss1974(temperature, salinity) * fugacity
    A_C = CO_2 * K_1 / h * (1.0 + 2.0 * K_2 / h)
    return A_C + noncarbon_alkalinity(ph_total, salinity, temperature)


@relation(
    unit="1",
    symbol=r"\mathrm{pH}_T",
    source="dickson2007",
    at=HANDBOOK,
    total_alkalinity=ALKALINITY,
    dic=DIC,
    salinity=SALINITY,
    temperature=TEMPERATURE,
)
def ph_from_alkalinity_and_dic(
    total_alkalinity: Num, dic: Num, salinity: Num, temperature: Num
) -> Num:
    """Return the pH of water with an alkalinity and a DIC, total scale.

    Examples
    --------
    >>> round(ph_from_alkalinity_and_dic(2300.0, 2000.0, 35.0, 25.0), 4)
    8.0458
    """
    return find_root(
        lambda ph: alkalinity_from_ph_and_dic(ph, dic, salinity, temperature) - total_alkalinity,
        LOWEST_PH,
        HIGHEST_PH,
        unknown="ph",
        symbol=r"\mathrm{pH}",
        like=(total_alkalinity, dic, salinity, temperature),
    )


@relation(
    unit="1",
    symbol=r"\mathrm{pH}_T",
    source="dickson2007",
    at=HANDBOOK,
    total_alkalinity=ALKALINITY,
    pco2=PCO2,
    salinity=SALINITY,
    temperature=TEMPERATURE,
)
def ph_from_alkalinity_and_pco2(
    total_alkalinity: Num, pco2: Num, salinity: Num, temperature: Num
) -> Num:
    """Return the pH of water with an alkalinity, at equilibrium with a pressure of CO2.

    Examples
    --------
    >>> round(ph_from_alkalinity_and_pco2(2800.0, 420.0, 35.0, 25.0), 2)
    8.1
    """
    return find_root(
        lambda ph: alkalinity_from_ph_and_pco2(ph, pco2, salinity, temperature) - total_alkalinity,
        LOWEST_PH,
        HIGHEST_PH,
        unknown="ph",
        symbol=r"\mathrm{pH}",
        like=(total_alkalinity, pco2, salinity, temperature),
    )


@relation(
    unit="umol/kg",
    symbol="C_T",
    source="dickson2007",
    at=HANDBOOK,
    total_alkalinity=ALKALINITY,
    ph_total=PH,
    salinity=SALINITY,
    temperature=TEMPERATURE,
)
def dic_from_alkalinity_and_ph(
    total_alkalinity: Num, ph_total: Num, salinity: Num, temperature: Num
) -> Num:
    """Return the DIC of water with an alkalinity and a pH.

    Negative where the pH is too high for the alkalinity, whatever the DIC.

    Examples
    --------
    >>> round(dic_from_alkalinity_and_ph(2300.0, 8.1, 35.0, 25.0), 1)
    1967.1
    """
    h = hydrogen_ion(ph_total)
    K_1 = carbonic_k1_lueker2000(temperature, salinity)
    K_2 = carbonic_k2_lueker2000(temperature, salinity)
    A_C = total_alkalinity - noncarbon_alkalinity(ph_total, salinity, temperature)
    return A_C / (bicarbonate_share(h, K_1, K_2) + 2.0 * carbonate_share(h, K_1, K_2))


@relation(
    unit="umol/kg",
    symbol=r"[\mathrm{CO_3^{2-}}]",
    source="dickson2007",
    at=HANDBOOK,
    total_alkalinity=ALKALINITY,
    ph_total=PH,
    salinity=SALINITY,
    temperature=TEMPERATURE,
)
def carbonate_from_alkalinity_and_ph(
    total_alkalinity: Num, ph_total: Num, salinity: Num, temperature: Num
) -> Num:
    """Return the carbonate ion content of water with an alkalinity and a pH.

    Examples
    --------
    >>> round(carbonate_from_alkalinity_and_ph(2300.0, 8.1, 35.0, 25.0), 1)
    234.6
    """
    h = hydrogen_ion(ph_total)
    K_2 = carbonic_k2_lueker2000(temperature, salinity)
    A_C = total_alkalinity - noncarbon_alkalinity(ph_total, salinity, temperature)
    return A_C / (h / K_2 + 2.0)


@relation(
    unit="uatm",
    symbol=r"p_{\mathrm{CO_2}}",
    source="dickson2007",
    at=HANDBOOK,
    ph_total=PH,
    dic=DIC,
    salinity=SALINITY,
    temperature=TEMPERATURE,
)
def pco2_from_ph_and_dic(ph_total: Num, dic: Num, salinity: Num, temperature: Num) -> Num:
    """Return the partial pressure of CO2 of water with a pH and a DIC.

    Examples
    --------
    >>> round(pco2_from_ph_and_dic(8.1, 2000.0, 35.0, 25.0), 1)
    345.8
    """
    h = hydrogen_ion(ph_total)
    K_1 = carbonic_k1_lueker2000(temperature, salinity)
    K_2 = carbonic_k2_lueker2000(temperature, salinity)
    CO_2 = dic * co2_share(h, K_1, K_2)
    fugacity = CO_2 / co2_solubility_weiss1974(temperature, salinity)
    return fugacity / co2_fugacity_factor_weiss1974(temperature)


@relation(
    unit="uatm",
    symbol=r"p_{\mathrm{CO_2}}",
    source="dickson2007",
    at=HANDBOOK,
    total_alkalinity=ALKALINITY,
    ph_total=PH,
    salinity=SALINITY,
    temperature=TEMPERATURE,
)
def pco2_from_alkalinity_and_ph(
    total_alkalinity: Num, ph_total: Num, salinity: Num, temperature: Num
) -> Num:
    """Return the partial pressure of CO2 that an alkalinity and a pH imply.

    Examples
    --------
    >>> round(pco2_from_alkalinity_and_ph(2300.0, 8.1, 35.0, 25.0), 1)
    340.1
    """
    dic = dic_from_alkalinity_and_ph(total_alkalinity, ph_total, salinity, temperature)
    return pco2_from_ph_and_dic(ph_total, dic, salinity, temperature)
