"""Water after a dose of alkalinity: in a closed jar, and when it has met the air again.

A source enters with one number, the carbon it brings with each equivalent: 1 for bicarbonate, 1/2
for carbonate, 0 for hydroxide. Calcium carbonate that forms is a dose below zero with 1/2.
"""

from __future__ import annotations

from reefchem.carbonate.air import ph_in_air
from reefchem.carbonate.alkalinity import (
    carbonate_from_alkalinity_and_ph,
    dic_from_alkalinity_and_ph,
    ph_from_alkalinity_and_dic,
)
from reefchem.carbonate.saturation import omega_aragonite
from reefchem.core.functions import Num
from reefchem.core.record import arg, relation

__all__ = [
    "alkalinity_after_dose",
    "carbon_after_dose",
    "carbon_from_air_after_dose",
    "ph_after_dose",
    "ph_after_dose_in_air",
    "saturation_after_dose",
]

_SALINITY = arg("1", "S", valid=(19.0, 40.0))
_TEMPERATURE = arg("degC", "t", valid=(9.0, 33.0))
_AT = {"salinity": _SALINITY, "temperature": _TEMPERATURE}
_ALKALINITY = arg("umol/kg", r"A_T", typical=(2400.0, 4000.0), possible=(-1e6, 1e6))
_DIC = arg("umol/kg", r"C_T", typical=(1600.0, 2300.0))
_DOSE = arg("umol/kg", "a", title="alkalinity dosed", typical=(-400.0, 500.0), possible=(-1e6, 1e6))
_RATIO = arg("1", "r", typical=(0.0, 2.0), possible=(0.0, 10.0))


@relation(
    unit="umol/kg",
    symbol=r"A'_T",
    source="wolfgladrow2007",
    at="the explicit conservative expression for total alkalinity",
    total_alkalinity=_ALKALINITY,
    dose=_DOSE,
)
def alkalinity_after_dose(total_alkalinity: Num, dose: Num) -> Num:
    """Return the alkalinity after a dose; dilution is left out."""
    return total_alkalinity + dose


@relation(
    unit="umol/kg",
    symbol=r"C'_T",
    source="wolfgladrow2007",
    at="the balance of carbon",
    dic=_DIC,
    dose=_DOSE,
    dic_per_alkalinity=_RATIO,
)
def carbon_after_dose(dic: Num, dose: Num, dic_per_alkalinity: Num) -> Num:
    """Return the dissolved inorganic carbon after a dose, before any gas exchange.

    Examples
    --------
    >>> carbon_after_dose(2000.0, -540.0, 0.5)
    1730.0
    """
    return dic + dose * dic_per_alkalinity


@relation(
    unit="1",
    symbol=r"\mathrm{pH}_T",
    source="wolfgladrow2007",
    at="the balances of alkalinity and carbon in a closed jar",
    total_alkalinity=_ALKALINITY,
    dic=_DIC,
    dose=_DOSE,
    dic_per_alkalinity=_RATIO,
    **_AT,
)
def ph_after_dose(
    total_alkalinity: Num,
    dic: Num,
    dose: Num,
    dic_per_alkalinity: Num,
    salinity: Num,
    temperature: Num,
) -> Num:
    """Return the pH (total scale) after a dose in a closed jar.

    Examples
    --------
    Calcium carbonate forms, 0.27 mmol/kg:

    >>> round(ph_after_dose(2300.0, 2000.0, -540.0, 0.5, 35.0, 25.0), 2)
    7.42
    """
    return ph_from_alkalinity_and_dic(
        alkalinity_after_dose(total_alkalinity, dose),
        carbon_after_dose(dic, dose, dic_per_alkalinity),
        salinity,
        temperature,
    )


@relation(
    unit="1",
    symbol=r"\mathrm{pH}_T",
    source="wolfgladrow2007",
    at="the balance of alkalinity, with carbon from the air",
    total_alkalinity=_ALKALINITY,
    dose=_DOSE,
    air=arg("ppm", r"x_{\mathrm{CO_2}}", typical=(350.0, 2500.0), possible=(0.0, 1e6)),
    **_AT,
)
def ph_after_dose_in_air(
    total_alkalinity: Num, dose: Num, air: Num, salinity: Num, temperature: Num
) -> Num:
    """Return the pH (total scale) after a dose, once the water is in balance with air.

    The salt does not matter any more: what it brought too much or too little of carbon has come
    from the air or gone there.
    """
    return ph_in_air(alkalinity_after_dose(total_alkalinity, dose), air, salinity, temperature)


@relation(
    unit="umol/kg",
    symbol=r"\Delta C",
    source="wolfgladrow2007",
    at="the balance of carbon, in balance with air less in a closed jar",
    total_alkalinity=_ALKALINITY,
    dic=_DIC,
    dose=_DOSE,
    dic_per_alkalinity=_RATIO,
    air=arg("ppm", r"x_{\mathrm{CO_2}}", typical=(350.0, 2500.0), possible=(0.0, 1e6)),
    **_AT,
)
def carbon_from_air_after_dose(
    total_alkalinity: Num,
    dic: Num,
    dose: Num,
    dic_per_alkalinity: Num,
    air: Num,
    salinity: Num,
    temperature: Num,
) -> Num:
    """Return the carbon that the air must bring after a dose; negative when it must take some."""
    balanced = dic_from_alkalinity_and_ph(
        alkalinity_after_dose(total_alkalinity, dose),
        ph_after_dose_in_air(total_alkalinity, dose, air, salinity, temperature),
        salinity,
        temperature,
    )
    return balanced - carbon_after_dose(dic, dose, dic_per_alkalinity)


@relation(
    unit="1",
    symbol=r"\Omega_\mathrm{a}",
    source="mucci1983",
    at="the solubility product, after a dose in a closed jar",
    total_alkalinity=_ALKALINITY,
    dic=_DIC,
    calcium=arg("umol/kg", r"[\mathrm{Ca^{2+}}]", typical=(8000.0, 13000.0)),
    dose=_DOSE,
    dic_per_alkalinity=_RATIO,
    **_AT,
)
def saturation_after_dose(
    total_alkalinity: Num,
    dic: Num,
    calcium: Num,
    dose: Num,
    dic_per_alkalinity: Num,
    salinity: Num,
    temperature: Num,
) -> Num:
    """Return the saturation state of aragonite after a dose in a closed jar.

    `calcium` is that after the dose.
    """
    carbonate = carbonate_from_alkalinity_and_ph(
        alkalinity_after_dose(total_alkalinity, dose),
        ph_after_dose(total_alkalinity, dic, dose, dic_per_alkalinity, salinity, temperature),
        salinity,
        temperature,
    )
    return omega_aragonite(calcium, carbonate, temperature, salinity)
