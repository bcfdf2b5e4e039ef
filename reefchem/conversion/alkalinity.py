"""Alkalinity in every unit in use, each from its definition and the atomic weights.

A unit of alkalinity speaks of a salt in a litre. What is counted is the acid that the salt could
take up: two equivalents for each mole of CaO or CaCO3, one for each mole of hydrogencarbonate. A
change of alkalinity may be negative, so nothing here refuses a negative number.
"""

from __future__ import annotations

from reefchem.core.atoms import molar_mass
from reefchem.core.errors import DomainError, UnitError
from reefchem.core.functions import Num, is_symbolic
from reefchem.core.quantity import DEGREE, GRAIN, IMPERIAL_GALLON, US_GALLON, is_quantity
from reefchem.core.record import EITHER_SIGN, INFINITY, arg, relation
from reefchem.core.term import Term
from reefchem.seawater.density import seawater_density

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Callable

__all__ = [
    "alkalinity_as_bicarbonate",
    "alkalinity_as_calcium_carbonate",
    "alkalinity_from_bicarbonate",
    "alkalinity_from_calcium_carbonate",
    "alkalinity_from_clark_degrees",
    "alkalinity_from_french_degrees",
    "alkalinity_from_german_degrees",
    "alkalinity_from_grains",
    "as_alkalinity",
    "clark_degrees",
    "french_degrees",
    "german_degrees",
    "grains_per_gallon",
    "per_kilogram",
    "per_litre",
]

CAO = molar_mass("CaO")
CACO3 = molar_mass("CaCO3")
HCO3 = molar_mass("HCO3-")

CHARGES = 2
"""Acid that a mole of CaO or of CaCO3 takes up, in moles: O2- + 2 H+ = H2O."""

ALKALINITY = arg("meq/L", "A", typical=(0.0, 6.0), possible=EITHER_SIGN)
WEIGHTS = "abridged standard atomic weights of Ca, C, O and H"


@relation(
    unit="meq/L",
    symbol="A",
    source="prohaska2022",
    at=f"{WEIGHTS}; a German degree is 10 mg of CaO in a litre, by definition",
    degrees=arg(
        "dKH", "d", title="alkalinity in degrees", typical=(0.0, 20.0), possible=EITHER_SIGN
    ),
)
def alkalinity_from_german_degrees(degrees: Num) -> Num:
    """Return the alkalinity of water of so many German degrees (dKH).

    Examples
    --------
    >>> round(alkalinity_from_german_degrees(1.0), 6)
    0.356652
    """
    oxide = DEGREE * degrees
    amount = oxide / CAO
    return CHARGES * amount


@relation(
    unit="dKH",
    symbol="d",
    source="prohaska2022",
    at=f"{WEIGHTS}; a German degree is 10 mg of CaO in a litre, by definition",
    alkalinity=ALKALINITY,
)
def german_degrees(alkalinity: Num) -> Num:
    """Return an alkalinity in German degrees (dKH).

    Examples
    --------
    >>> round(german_degrees(1.0), 5)
    2.80385
    """
    amount = alkalinity / CHARGES
    oxide = amount * CAO
    return oxide / DEGREE


@relation(
    unit="meq/L",
    symbol="A",
    source="prohaska2022",
    at=f"{WEIGHTS}; a French degree is 10 mg of CaCO3 in a litre, by definition",
    degrees=arg(
        "French_degree",
        "f",
        title="alkalinity in degrees",
        typical=(0.0, 30.0),
        possible=EITHER_SIGN,
    ),
)
def alkalinity_from_french_degrees(degrees: Num) -> Num:
    """Return the alkalinity of water of so many French degrees.

    Examples
    --------
    >>> round(alkalinity_from_french_degrees(1.0), 6)
    0.199828
    """
    carbonate = DEGREE * degrees
    amount = carbonate / CACO3
    return CHARGES * amount


@relation(
    unit="French_degree",
    symbol="f",
    source="prohaska2022",
    at=f"{WEIGHTS}; a French degree is 10 mg of CaCO3 in a litre, by definition",
    alkalinity=ALKALINITY,
)
def french_degrees(alkalinity: Num) -> Num:
    """Return an alkalinity in French degrees."""
    amount = alkalinity / CHARGES
    carbonate = amount * CACO3
    return carbonate / DEGREE


@relation(
    unit="meq/L",
    symbol="A",
    source="prohaska2022",
    at=f"{WEIGHTS}; a Clark degree is a grain of CaCO3 in an imperial gallon, by definition",
    degrees=arg(
        "Clark_degree",
        "c",
        title="alkalinity in degrees",
        typical=(0.0, 25.0),
        possible=EITHER_SIGN,
    ),
)
def alkalinity_from_clark_degrees(degrees: Num) -> Num:
    """Return the alkalinity of water of so many Clark (English) degrees.

    Examples
    --------
    >>> round(alkalinity_from_clark_degrees(1.0), 6)
    0.28483
    """
    carbonate = degrees * GRAIN / IMPERIAL_GALLON
    amount = carbonate / CACO3
    return CHARGES * amount


@relation(
    unit="Clark_degree",
    symbol="c",
    source="prohaska2022",
    at=f"{WEIGHTS}; a Clark degree is a grain of CaCO3 in an imperial gallon, by definition",
    alkalinity=ALKALINITY,
)
def clark_degrees(alkalinity: Num) -> Num:
    """Return an alkalinity in Clark (English) degrees."""
    amount = alkalinity / CHARGES
    carbonate = amount * CACO3
    return carbonate * IMPERIAL_GALLON / GRAIN


@relation(
    unit="meq/L",
    symbol="A",
    source="prohaska2022",
    at=f"{WEIGHTS}; grains of CaCO3 in a US gallon, by definition",
    grains=arg(
        "grain_per_US_gallon_CaCO3",
        "g",
        title="alkalinity in grains",
        typical=(0.0, 20.0),
        possible=EITHER_SIGN,
    ),
)
def alkalinity_from_grains(grains: Num) -> Num:
    """Return the alkalinity of water with so many grains of CaCO3 in a US gallon."""
    carbonate = grains * GRAIN / US_GALLON
    amount = carbonate / CACO3
    return CHARGES * amount


@relation(
    unit="grain_per_US_gallon_CaCO3",
    symbol="g",
    source="prohaska2022",
    at=f"{WEIGHTS}; grains of CaCO3 in a US gallon, by definition",
    alkalinity=ALKALINITY,
)
def grains_per_gallon(alkalinity: Num) -> Num:
    """Return an alkalinity in grains of CaCO3 in a US gallon."""
    amount = alkalinity / CHARGES
    carbonate = amount * CACO3
    return carbonate * US_GALLON / GRAIN


@relation(
    unit="meq/L",
    symbol="A",
    source="prohaska2022",
    at=WEIGHTS,
    calcium_carbonate=arg("mg/L", r"\rho", typical=(0.0, 300.0), possible=EITHER_SIGN),
)
def alkalinity_from_calcium_carbonate(calcium_carbonate: Num) -> Num:
    """Return an alkalinity that is reported as mg/L of CaCO3.

    Examples
    --------
    >>> round(alkalinity_from_calcium_carbonate(140.0), 4)
    2.7976
    """
    amount = calcium_carbonate / CACO3
    return CHARGES * amount


@relation(
    unit="mg/L",
    symbol=r"\rho",
    source="prohaska2022",
    at=WEIGHTS,
    alkalinity=ALKALINITY,
)
def alkalinity_as_calcium_carbonate(alkalinity: Num) -> Num:
    """Return an alkalinity as the mg/L of CaCO3 that would have it.

    Examples
    --------
    >>> round(alkalinity_as_calcium_carbonate(1.0), 3)
    50.043
    """
    amount = alkalinity / CHARGES
    return amount * CACO3


@relation(
    unit="meq/L",
    symbol="A",
    source="prohaska2022",
    at=WEIGHTS,
    bicarbonate=arg("mg/L", r"\rho", typical=(0.0, 360.0), possible=EITHER_SIGN),
)
def alkalinity_from_bicarbonate(bicarbonate: Num) -> Num:
    """Return an alkalinity that is reported as mg/L of hydrogencarbonate."""
    return bicarbonate / HCO3


@relation(
    unit="mg/L",
    symbol=r"\rho",
    source="prohaska2022",
    at=WEIGHTS,
    alkalinity=ALKALINITY,
)
def alkalinity_as_bicarbonate(alkalinity: Num) -> Num:
    """Return an alkalinity as the mg/L of hydrogencarbonate that would have it.

    Examples
    --------
    >>> round(alkalinity_as_bicarbonate(1.0), 3)
    61.016
    """
    return alkalinity * HCO3


@relation(
    unit="umol/L",
    symbol=r"c",
    source="millero1981",
    at="eq. 6, by the density of seawater",
    value=arg(
        "umol/kg",
        "m",
        title="amount in a kilogram of seawater",
        typical=(0.0, 5000.0),
        possible=EITHER_SIGN,
    ),
    salinity=arg("1", "S", valid=(0.0, 42.0)),
    temperature=arg("degC", "t", valid=(-2.0, 40.0)),
)
def per_litre(value: Num, salinity: Num, temperature: Num) -> Num:
    """Return what a litre of seawater holds, of what a kilogram holds.

    Parameters
    ----------
    value
        Amount in a kilogram of seawater; any shape.
    salinity, temperature
        Of the water when its volume is measured; they decide what a litre weighs.

    Examples
    --------
    >>> round(per_litre(2300.0, 35.0, 25.0), 1)
    2353.7
    """
    return value * seawater_density(salinity, temperature) / 1000


@relation(
    unit="umol/kg",
    symbol=r"m",
    source="millero1981",
    at="eq. 6, by the density of seawater",
    value=arg(
        "umol/L",
        "c",
        title="amount in a litre of seawater",
        typical=(0.0, 5000.0),
        possible=EITHER_SIGN,
    ),
    salinity=arg("1", "S", valid=(0.0, 42.0)),
    temperature=arg("degC", "t", valid=(-2.0, 40.0)),
)
def per_kilogram(value: Num, salinity: Num, temperature: Num) -> Num:
    """Return what a kilogram of seawater holds, of what a litre holds.

    Parameters
    ----------
    value
        Amount in a litre of seawater; any shape.
    salinity, temperature
        Of the water when its volume is measured; they decide what a litre weighs.

    Examples
    --------
    >>> round(per_kilogram(2853.22, 35.0, 25.0), 1)
    2788.1
    """
    return value / (seawater_density(salinity, temperature) / 1000)


def as_alkalinity(
    value: Num,
    from_unit: str,
    to_unit: str,
    *,
    salinity: Num = None,
    temperature: Num = None,
) -> Num:
    """Return an alkalinity in another unit.

    Parameters
    ----------
    value
        A number without a unit (a quantity converts itself); any shape.
    from_unit, to_unit
        ``"meq/L"``, ``"umol/L"``, ``"dKH"``, ``"French degree"``, ``"Clark degree"``,
        ``"grain/gal CaCO3"``, ``"mg/L CaCO3"``, ``"mg/L HCO3"`` or ``"umol/kg"``.
    salinity, temperature
        Of the water; needed between a unit per litre and one per kilogram, and only there.

    Returns
    -------
    Num
        In `to_unit`, of the shape and kind of the value.

    Raises
    ------
    UnitError
        When a unit is not known or says too little, and when the value has a unit already.
    DomainError
        When salinity or temperature is missing where it is needed.

    Notes
    -----
    ``"mmol/L"`` is refused: a mmol of CaCO3 takes up two mmol of acid, and laboratories mean
    either. Acid is ``"meq/L"``.

    Examples
    --------
    >>> round(as_alkalinity(8.0, "dKH", "meq/L"), 4)
    2.8532
    >>> round(as_alkalinity(8.0, "dKH", "umol/kg", salinity=35.0, temperature=25.0))
    2788
    """
    units = (_known(from_unit), _known(to_unit))
    alkalinity = _number(value)
    if units[0] == units[1]:
        return alkalinity
    per_mass = [unit == "umol/kg" for unit in units]
    if any(per_mass) and (salinity is None or temperature is None):
        msg = (
            f"as_alkalinity: from {from_unit} to {to_unit} needs salinity and temperature, "
            "which say what a litre weighs"
        )
        raise DomainError(msg)
    if per_mass[0]:
        alkalinity = per_litre(alkalinity, salinity, temperature) / 1000
    else:
        alkalinity = _SCALES[units[0]][0](alkalinity)
    if per_mass[1]:
        return per_kilogram(1000 * alkalinity, salinity, temperature)
    return _SCALES[units[1]][1](alkalinity)


_SCALES: dict[str, tuple[Callable[[Num], Num], Callable[[Num], Num]]] = {
    "meq/L": (lambda value: value, lambda alkalinity: alkalinity),
    "umol/L": (lambda value: value / 1000, lambda alkalinity: 1000 * alkalinity),
    "dKH": (alkalinity_from_german_degrees, german_degrees),
    "French degree": (alkalinity_from_french_degrees, french_degrees),
    "Clark degree": (alkalinity_from_clark_degrees, clark_degrees),
    "grain/gal CaCO3": (alkalinity_from_grains, grains_per_gallon),
    "mg/L CaCO3": (alkalinity_from_calcium_carbonate, alkalinity_as_calcium_carbonate),
    "mg/L HCO3": (alkalinity_from_bicarbonate, alkalinity_as_bicarbonate),
}


def _known(unit: str) -> str:
    if unit in _SCALES or unit == "umol/kg":
        return unit
    known = ", ".join([*_SCALES, "umol/kg"])
    hints = {
        "mmol/L": "; of acid it is meq/L, of CaCO3 it is half as many: say which",
        "ppm": "; say mg/L CaCO3 or mg/L HCO3",
        "mg/L": "; say mg/L CaCO3 or mg/L HCO3",
    }
    hint = hints.get(unit, "")
    msg = f"as_alkalinity: {unit!r} is no unit of alkalinity here{hint}; known: {known}"
    raise UnitError(msg)


def _number(value: Num) -> Num:
    if is_quantity(value):
        msg = f"as_alkalinity: value has a unit already ({value.units}); use its .to()"
        raise UnitError(msg)
    if type(value) is float and abs(value) < INFINITY:
        return value
    if is_symbolic(value) or isinstance(value, Term):
        return value
    from reefchem.core.boundary import checked_values  # noqa: PLC0415 - floats never need it

    (number,), _ = checked_values("as_alkalinity", {"value": ALKALINITY}, (value,), {})
    return number
