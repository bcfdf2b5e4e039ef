"""Hardness: calcium and magnesium counted together, and each of them told as something else.

A kit for calcium or magnesium titrates the hardness; what it prints may be the ion, calcium
carbonate, or German degrees.
"""

from __future__ import annotations

from reefchem.core.atoms import molar_mass
from reefchem.core.functions import Num
from reefchem.core.quantity import DEGREE
from reefchem.core.record import INFINITY, arg, relation

__all__ = [
    "calcium_as_calcium_carbonate",
    "calcium_from_calcium_carbonate",
    "general_hardness_degrees",
    "hardness_as_calcium_carbonate",
    "hardness_from_degrees",
    "magnesium_from_hardness",
    "total_hardness",
]

CA, MG = molar_mass("Ca"), molar_mass("Mg")
CAO, CACO3 = molar_mass("CaO"), molar_mass("CaCO3")

WEIGHTS = "abridged standard atomic weights of Ca, Mg, C and O"
CALCIUM = arg("mg/L", r"\rho_{\mathrm{Ca}}", typical=(0.0, 600.0))
HARDNESS = arg("mmol/L", "H", typical=(0.0, 80.0))


@relation(
    unit="mmol/L",
    symbol="H",
    source="prohaska2022",
    at=WEIGHTS,
    calcium=CALCIUM,
    magnesium=arg("mg/L", r"\rho_{\mathrm{Mg}}", typical=(0.0, 1600.0)),
)
def total_hardness(calcium: Num, magnesium: Num) -> Num:
    """Return the total hardness: the amount of calcium and magnesium in a litre.

    Examples
    --------
    >>> round(total_hardness(421.7, 1313.7), 2)
    64.57
    """
    return calcium / CA + magnesium / MG


@relation(
    unit="mg/L",
    symbol=r"\rho_{\mathrm{Mg}}",
    source="prohaska2022",
    at=WEIGHTS,
    hardness=HARDNESS,
    calcium=CALCIUM,
)
def magnesium_from_hardness(hardness: Num, calcium: Num) -> Num:
    """Return the magnesium that is left of a total hardness when calcium is taken away.

    A difference of two titrations: an error of 1 % in a hardness of 64 mmol/L is 16 mg/L of
    magnesium. A negative result says that the two readings contradict each other.
    """
    return (hardness - calcium / CA) * MG


@relation(
    unit="mg/L",
    symbol=r"\rho_{\mathrm{CaCO_3}}",
    source="prohaska2022",
    at=WEIGHTS,
    hardness=HARDNESS,
)
def hardness_as_calcium_carbonate(hardness: Num) -> Num:
    """Return a hardness as the mg/L of calcium carbonate with the same number of atoms."""
    return hardness * CACO3


@relation(
    unit="German_degree",
    symbol="d",
    source="prohaska2022",
    at=f"{WEIGHTS}; a German degree is 10 mg of CaO in a litre, by definition",
    hardness=HARDNESS,
)
def general_hardness_degrees(hardness: Num) -> Num:
    """Return a hardness in German degrees of general hardness (dGH).

    Examples
    --------
    >>> round(general_hardness_degrees(64.57))
    362
    """
    oxide = hardness * CAO
    return oxide / DEGREE


@relation(
    unit="mmol/L",
    symbol="H",
    source="prohaska2022",
    at=f"{WEIGHTS}; a German degree is 10 mg of CaO in a litre, by definition",
    degrees=arg(
        "German_degree",
        "d",
        title="hardness in degrees",
        typical=(0.0, 400.0),
        possible=(0.0, INFINITY),
    ),
)
def hardness_from_degrees(degrees: Num) -> Num:
    """Return the calcium and magnesium of water of so many German degrees of hardness.

    Examples
    --------
    >>> round(hardness_from_degrees(1.0), 4)
    0.1783
    """
    oxide = DEGREE * degrees
    return oxide / CAO


@relation(
    unit="mg/L",
    symbol=r"\rho_{\mathrm{Ca}}",
    source="prohaska2022",
    at=WEIGHTS,
    calcium_carbonate=arg("mg/L", r"\rho_{\mathrm{CaCO_3}}", typical=(0.0, 1500.0)),
)
def calcium_from_calcium_carbonate(calcium_carbonate: Num) -> Num:
    """Return calcium that is reported as calcium carbonate.

    Examples
    --------
    >>> round(calcium_from_calcium_carbonate(1050.0), 1)
    420.5
    """
    return calcium_carbonate / CACO3 * CA


@relation(
    unit="mg/L",
    symbol=r"\rho_{\mathrm{CaCO_3}}",
    source="prohaska2022",
    at=WEIGHTS,
    calcium=CALCIUM,
)
def calcium_as_calcium_carbonate(calcium: Num) -> Num:
    """Return calcium as the calcium carbonate that holds it."""
    return calcium / CA * CACO3
