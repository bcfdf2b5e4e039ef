"""Saturation with calcium carbonate: from a keeper's readings, and where a dose exceeds limits.

The published limits are measurements in seawater, not laws: what falls out, and when, depends on
surfaces, magnesium, phosphate and organic matter. They are constants here, with their sources, so
that a page can name them.
"""

from __future__ import annotations

from reefchem.carbonate.alkalinity import (
    carbonate_from_alkalinity_and_ph,
    noncarbon_alkalinity,
    ph_from_alkalinity_and_dic,
)
from reefchem.carbonate.carbonic import carbonic_k1_lueker2000, carbonic_k2_lueker2000
from reefchem.carbonate.gas import co2_fugacity_factor_weiss1974, co2_solubility_weiss1974
from reefchem.carbonate.ph_scales import hydrogen_ion, ph_total_from_nbs
from reefchem.carbonate.solubility import aragonite_ksp_mucci1983, calcite_ksp_mucci1983
from reefchem.carbonate.species import carbonate_share
from reefchem.conversion.alkalinity import alkalinity_from_german_degrees, per_kilogram
from reefchem.core.atoms import molar_mass
from reefchem.core.constants import LN10
from reefchem.core.functions import Num, log, sqrt
from reefchem.core.record import arg, relation
from reefchem.core.roots import find_root

__all__ = [
    "HOMOGENEOUS_MORSE1993",
    "NO_PRECIPITATION_MORAS2022",
    "ON_PARTICLES_MORAS2022",
    "alkalinity_at_omega_aragonite",
    "carbonate_at_omega_aragonite",
    "omega_aragonite",
    "omega_aragonite_from_ph_nbs",
    "omega_aragonite_from_ph_total",
    "omega_aragonite_in_plume",
    "omega_calcite",
    "plume_share_at_omega_aragonite",
    "saturation_headroom",
]

NO_PRECIPITATION_MORAS2022 = 5.0
"""Aragonite saturation of about which lime particles brought down nothing (abstract)."""

ON_PARTICLES_MORAS2022 = 7.0
"""Aragonite saturation above which aragonite fell on the added lime particles (abstract)."""

HOMOGENEOUS_MORSE1993 = 18.8
"""Aragonite saturation at which crystals form without a surface, from memory of the literature
on alkalinity enhancement, which derives it from Morse and He; taken as an order of magnitude."""

CALCIUM_MASS = molar_mass("Ca")
"""Milligrams in a millimole of calcium."""

MICRO = 1e-6
LARGEST = 1e6

SALINITY = arg("1", "S", valid=(19.0, 40.0))
TEMPERATURE = arg("degC", "t", valid=(9.0, 33.0))
MINERAL_SALINITY = arg("1", "S", valid=(5.0, 44.0))
MINERAL_TEMPERATURE = arg("degC", "t", valid=(5.0, 40.0))
CALCIUM = arg("umol/kg", r"[\mathrm{Ca^{2+}}]", typical=(8000.0, 13000.0), possible=(0.0, LARGEST))
CARBONATE = arg("umol/kg", r"[\mathrm{CO_3^{2-}}]", typical=(50.0, 700.0), possible=(0.0, LARGEST))
OMEGA = arg("1", r"\Omega", typical=(2.0, 8.0), possible=(1e-6, 1e4))
READ_ALKALINITY = arg("dKH", "d", typical=(6.0, 12.0), possible=(-1000.0, 1000.0))
READ_CALCIUM = arg("mg/L", r"\rho_{\mathrm{Ca}}", typical=(360.0, 500.0))
ALKALINITY = arg("umol/kg", "A_T", typical=(2000.0, 4000.0), possible=(-LARGEST, LARGEST))
DIC = arg("umol/kg", "C_T", typical=(1800.0, 2000.0), possible=(0.0, LARGEST))


@relation(
    unit="1",
    symbol=r"\Omega_{\mathrm{ar}}",
    source="mucci1983",
    at="definition of the saturation state, with its solubility product",
    calcium=CALCIUM,
    carbonate=CARBONATE,
    temperature=MINERAL_TEMPERATURE,
    salinity=MINERAL_SALINITY,
)
def omega_aragonite(calcium: Num, carbonate: Num, temperature: Num, salinity: Num) -> Num:
    """Return the saturation state of aragonite: above 1 it can grow, below 1 it dissolves.

    Examples
    --------
    >>> round(omega_aragonite(10284.6, 213.4, 25.0, 35.0), 3)
    3.386
    """
    product = MICRO * calcium * (MICRO * carbonate)
    return product / aragonite_ksp_mucci1983(temperature, salinity)


@relation(
    unit="1",
    symbol=r"\Omega_{\mathrm{ca}}",
    source="mucci1983",
    at="definition of the saturation state, with its solubility product",
    calcium=CALCIUM,
    carbonate=CARBONATE,
    temperature=MINERAL_TEMPERATURE,
    salinity=MINERAL_SALINITY,
)
def omega_calcite(calcium: Num, carbonate: Num, temperature: Num, salinity: Num) -> Num:
    """Return the saturation state of calcite, without magnesium.

    Examples
    --------
    >>> round(omega_calcite(10284.6, 213.4, 25.0, 35.0), 3)
    5.137
    """
    product = MICRO * calcium * (MICRO * carbonate)
    return product / calcite_ksp_mucci1983(temperature, salinity)


@relation(
    unit="umol/kg",
    symbol=r"[\mathrm{CO_3^{2-}}]",
    source="mucci1983",
    at="definition of the saturation state, solved for carbonate",
    saturation=OMEGA.titled("saturation of aragonite"),
    calcium=arg(
        "umol/kg", r"[\mathrm{Ca^{2+}}]", typical=(8000.0, 13000.0), possible=(1.0, LARGEST)
    ),
    temperature=MINERAL_TEMPERATURE,
    salinity=MINERAL_SALINITY,
)
def carbonate_at_omega_aragonite(
    saturation: Num, calcium: Num, temperature: Num, salinity: Num
) -> Num:
    """Return the carbonate ion content at which aragonite has a saturation.

    Examples
    --------
    >>> round(carbonate_at_omega_aragonite(5.0, 10284.6, 25.0, 35.0), 1)
    315.1
    """
    K_ar = aragonite_ksp_mucci1983(temperature, salinity)
    return saturation * K_ar / (MICRO * calcium) / MICRO


@relation(
    unit="umol/kg",
    symbol="A_T",
    source="dickson2007",
    at="chapter 2, total alkalinity, with the constants of chapter 5",
    saturation=OMEGA.titled("saturation of aragonite"),
    calcium=arg(
        "umol/kg", r"[\mathrm{Ca^{2+}}]", typical=(8000.0, 13000.0), possible=(1.0, LARGEST)
    ),
    pco2=arg("uatm", r"p_{\mathrm{CO_2}}", typical=(200.0, 1500.0), possible=(1e-6, LARGEST)),
    salinity=SALINITY,
    temperature=TEMPERATURE,
)
def alkalinity_at_omega_aragonite(
    saturation: Num, calcium: Num, pco2: Num, salinity: Num, temperature: Num
) -> Num:
    """Return the alkalinity at which aragonite reaches a saturation, at a pressure of CO2.

    The pressure is held: the tank breathes the room's air while alkalinity rises.

    Examples
    --------
    >>> round(alkalinity_at_omega_aragonite(5.0, 10284.6, 500.0, 35.0, 25.0), 0)
    3156.0
    """
    K_1 = carbonic_k1_lueker2000(temperature, salinity)
    K_2 = carbonic_k2_lueker2000(temperature, salinity)
    fugacity = co2_fugacity_factor_weiss1974(temperature) * pco2
    CO_2 = co2_solubility_weiss1974(temperature, salinity) * fugacity
    CO_3 = carbonate_at_omega_aragonite(saturation, calcium, temperature, salinity)
    h = sqrt(K_1 * K_2 * CO_2 / CO_3)
    A_C = CO_3 * (h / K_2 + 2.0)
    return A_C + noncarbon_alkalinity(-log(h) / LN10, salinity, temperature)


@relation(
    unit="1",
    symbol=r"\Omega_{\mathrm{ar}}",
    source="mucci1983",
    at="solubility product, with carbonate after Dickson et al. (2007)",
    alkalinity=READ_ALKALINITY,
    calcium=READ_CALCIUM,
    ph_total=arg("1", r"\mathrm{pH}_T", typical=(7.7, 8.4), possible=(0.0, 14.0)),
    salinity=SALINITY,
    temperature=TEMPERATURE,
)
def omega_aragonite_from_ph_total(
    alkalinity: Num, calcium: Num, ph_total: Num, salinity: Num, temperature: Num
) -> Num:
    """Return aragonite's saturation from three readings, the pH on the total scale.

    Examples
    --------
    >>> round(omega_aragonite_from_ph_total(8.0, 420.0, 8.1, 35.0, 25.0), 2)
    4.53
    """
    A_T = per_kilogram(1000.0 * alkalinity_from_german_degrees(alkalinity), salinity, temperature)
    CO_3 = carbonate_from_alkalinity_and_ph(A_T, ph_total, salinity, temperature)
    Ca = per_kilogram(1000.0 * calcium / CALCIUM_MASS, salinity, temperature)
    product = MICRO * Ca * (MICRO * CO_3)
    return product / aragonite_ksp_mucci1983(temperature, salinity)


@relation(
    unit="1",
    symbol=r"\Omega_{\mathrm{ar}}",
    source="mucci1983",
    at="solubility product, with carbonate after Dickson et al. (2007)",
    alkalinity=READ_ALKALINITY,
    calcium=READ_CALCIUM,
    ph_nbs=arg("1", r"\mathrm{pH}_{NBS}", typical=(7.8, 8.5), possible=(0.0, 14.0)),
    salinity=SALINITY,
    temperature=TEMPERATURE,
)
def omega_aragonite_from_ph_nbs(
    alkalinity: Num, calcium: Num, ph_nbs: Num, salinity: Num, temperature: Num
) -> Num:
    """Return aragonite's saturation from three readings, the pH on the NBS scale (nominal).

    A meter that was set with dilute buffers of pH 7 and 10 reads on the NBS scale.

    Examples
    --------
    >>> round(omega_aragonite_from_ph_nbs(8.0, 420.0, 8.2, 35.0, 25.0), 2)
    4.27
    """
    ph_total = ph_total_from_nbs(ph_nbs, salinity, temperature)
    return omega_aragonite_from_ph_total(alkalinity, calcium, ph_total, salinity, temperature)


@relation(
    unit="1",
    symbol=r"\Omega_{\mathrm{limit}}/\Omega",
    source="moras2022",
    at="abstract, limits of 5 and 7 for aragonite on added particles",
    saturation=OMEGA.titled("saturation of the water"),
    limit=arg(
        "1", r"\Omega_{\mathrm{limit}}", title="saturation at the limit", typical=(5.0, 20.0)
    ),
)
def saturation_headroom(saturation: Num, limit: Num = ON_PARTICLES_MORAS2022) -> Num:
    """Return by how much the product of calcium and carbonate may grow before a limit.

    Below 1 the limit is exceeded.

    Examples
    --------
    >>> round(saturation_headroom(3.5, 7.0), 3)
    2.0
    """
    return limit / saturation


SHARE = arg(
    "1", "f", title="share of the solution in the water", typical=(1e-5, 1e-3), possible=(0.0, 1.0)
)
STOCK_ALKALINITY = arg("umol/kg", "A_s", typical=(3e5, 9e5), possible=(-LARGEST * 20, LARGEST * 20))
STOCK_DIC = arg("umol/kg", "C_s", typical=(0.0, 3e5), possible=(0.0, LARGEST * 20))
TANK_CALCIUM = arg(
    "umol/kg", r"[\mathrm{Ca^{2+}}]", typical=(9000.0, 12000.0), possible=(0.0, LARGEST)
)


@relation(
    unit="1",
    symbol=r"\Omega_{\mathrm{ar}}",
    source="mucci1983",
    at="solubility product, with the mixture after Dickson et al. (2007)",
    share=SHARE,
    stock_alkalinity=STOCK_ALKALINITY,
    stock_dic=STOCK_DIC,
    total_alkalinity=arg("umol/kg", "A_T", typical=(2200.0, 2600.0), possible=(-LARGEST, LARGEST)),
    dic=DIC,
    calcium=TANK_CALCIUM,
    salinity=SALINITY,
    temperature=TEMPERATURE,
)
def omega_aragonite_in_plume(
    share: Num,
    stock_alkalinity: Num,
    stock_dic: Num,
    total_alkalinity: Num,
    dic: Num,
    calcium: Num,
    salinity: Num,
    temperature: Num,
) -> Num:
    """Return aragonite's saturation where a dosed solution makes up a share of the water.

    Alkalinity and DIC mix in proportion; pH and carbonate follow. Nothing has fallen out yet and
    no gas has come or gone. The solution's own salt is left out.

    Examples
    --------
    >>> round(
    ...     omega_aragonite_in_plume(1e-3, 6e5, 0.0, 2400.0, 2050.0, 10284.6, 35.0, 25.0), 1
    ... )
    11.0
    """
    A_mix = total_alkalinity + share * (stock_alkalinity - total_alkalinity)
    C_mix = dic + share * (stock_dic - dic)
    pH_mix = ph_from_alkalinity_and_dic(A_mix, C_mix, salinity, temperature)
    K_1 = carbonic_k1_lueker2000(temperature, salinity)
    K_2 = carbonic_k2_lueker2000(temperature, salinity)
    alpha_2 = carbonate_share(hydrogen_ion(pH_mix), K_1, K_2)
    product = MICRO * calcium * (1.0 - share) * (MICRO * C_mix * alpha_2)
    return product / aragonite_ksp_mucci1983(temperature, salinity)


@relation(
    unit="1",
    symbol="f",
    source="mucci1983",
    at="solubility product, with the mixture after Dickson et al. (2007)",
    saturation=arg(
        "1",
        r"\Omega_{\mathrm{ar}}",
        title="saturation of aragonite",
        typical=(6.0, 9.0),
        possible=(1e-6, 1e4),
    ),
    stock_alkalinity=STOCK_ALKALINITY,
    stock_dic=arg("umol/kg", "C_s", typical=(0.0, 2e5), possible=(0.0, LARGEST * 20)),
    total_alkalinity=arg("umol/kg", "A_T", typical=(2250.0, 2500.0), possible=(-LARGEST, LARGEST)),
    dic=arg("umol/kg", "C_T", typical=(1900.0, 2000.0), possible=(0.0, LARGEST)),
    calcium=TANK_CALCIUM,
    salinity=SALINITY,
    temperature=TEMPERATURE,
)
def plume_share_at_omega_aragonite(
    saturation: Num,
    stock_alkalinity: Num,
    stock_dic: Num,
    total_alkalinity: Num,
    dic: Num,
    calcium: Num,
    salinity: Num,
    temperature: Num,
) -> Num:
    """Return the share of a dosed solution in the water at which aragonite has a saturation.

    Where the plume holds more of the solution than that, the saturation is exceeded. Water with
    this share has the alkalinity and DIC of the mixture and a carbonate content to match.

    Examples
    --------
    >>> share = plume_share_at_omega_aragonite(
    ...     7.0, 6e5, 0.0, 2400.0, 2050.0, 10284.6, 35.0, 25.0
    ... )
    >>> round(1.0 / share)
    2262
    """

    def excess(share: Num) -> Num:
        return (
            omega_aragonite_in_plume(
                share,
                stock_alkalinity,
                stock_dic,
                total_alkalinity,
                dic,
                calcium,
                salinity,
                temperature,
            )
            - saturation
        )

    return find_root(
        excess,
        0.0,
        0.02,
        unknown="share",
        symbol="f",
        like=(
            saturation,
            stock_alkalinity,
            stock_dic,
            total_alkalinity,
            dic,
            calcium,
            salinity,
            temperature,
        ),
    )
