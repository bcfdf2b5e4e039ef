"""Units for readers: as text and as LaTeX."""

from __future__ import annotations

import re

__all__ = ["latex_unit", "plain_unit"]

_SHOWN = {
    "1": "",
    "degC": "°C",
    "degF": "°F",
    "delta_degC": "°C",
    "umol": "µmol",
    "uatm": "µatm",
    "ug": "µg",
    "um": "µm",
    "percent": "%",
    "kelvin": "K",
    "ppm_CaCO3": "mg/L CaCO₃",
    "US_liquid_gallon": "US gal",
    "US_gallon": "US gal",
    "gallon": "US gal",
    "imperial_gallon": "imp gal",
    "ounce": "oz",
    "teaspoon": "tsp",
    "French_degree": "°fH",
    "Clark_degree": "°Clark",
    "grain_per_US_gallon_CaCO3": "gr/US gal CaCO₃",
    "day": "d",
    "hour": "h",
    "second": "s",
}
_RAISED = str.maketrans("0123456789-", "⁰¹²³⁴⁵⁶⁷⁸⁹⁻")


def _factors(unit: str) -> list[tuple[str, int]]:
    """Return the factors of a unit such as ``mol/kg/atm`` or ``kg/m**3`` with their powers."""
    factors = []
    for sign, name, power in re.findall(r"([*/]?)\s*([A-Za-z_]\w*|1)(?:\*\*(-?\d+))?", unit):
        if name != "1":
            factors.append((name, int(power or 1) * (-1 if sign == "/" else 1)))
    return factors


def plain_unit(unit: str) -> str:
    """Return a recorded unit as text: ``kg/m**3`` is kg/m³; a pure number has none.

    Examples
    --------
    >>> plain_unit("umol/kg"), plain_unit("degC"), plain_unit("1")
    ('µmol/kg', '°C', '')
    """
    if unit in _SHOWN:
        return _SHOWN[unit]
    over: list[str] = []
    under: list[str] = []
    for name, power in _factors(unit):
        raised = "" if abs(power) == 1 else str(abs(power)).translate(_RAISED)
        (over if power > 0 else under).append(_SHOWN.get(name, name) + raised)
    return "/".join(["·".join(over) or "1", *under])


def latex_unit(unit: str) -> str:
    """Return a recorded unit as LaTeX; a pure number has none."""
    if unit in _SHOWN:
        return rf"\text{{{_SHOWN[unit]}}}" if _SHOWN[unit] else ""
    return r"\,".join(
        rf"\text{{{_SHOWN.get(name, name)}}}" + ("" if power == 1 else f"^{{{power}}}")
        for name, power in _factors(unit)
    )
