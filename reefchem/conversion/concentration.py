"""Concentration: by mass or by amount, as ion or as element, in a litre or in a kilogram.

"5 ppm nitrate" leaves three things open: of the ion or of its nitrogen, in a litre or in a
kilogram, by mass or by amount. Each function here closes one of them.
"""

from __future__ import annotations

from reefchem.core.atoms import atoms_in, molar_mass
from reefchem.core.errors import DomainError, UnitError
from reefchem.core.functions import Num
from reefchem.core.record import EITHER_SIGN, INFINITY, POSITIVE, arg, relation
from reefchem.seawater.density import seawater_density

__all__ = [
    "amount_concentration",
    "as_species",
    "from_ppm",
    "mass_concentration",
    "mass_per_kilogram",
    "mass_per_litre",
    "nitrate_from_nitrogen",
    "nitrite_from_nitrogen",
    "nitrogen_from_nitrate",
    "nitrogen_from_nitrite",
    "nitrogen_to_phosphorus",
    "nutrient_mass_ratio",
    "phosphate_from_phosphorus",
    "phosphorus_from_phosphate",
    "silicate_from_silicon",
    "silicon_from_silicate",
]

N, NO2, NO3 = molar_mass("N"), molar_mass("NO2-"), molar_mass("NO3-")
P, PO4 = molar_mass("P"), molar_mass("PO4^3-")
SI, SIO2 = molar_mass("Si"), molar_mass("SiO2")

SALINITY = arg("1", "S", valid=(0.0, 42.0))
TEMPERATURE = arg("degC", "t", valid=(-2.0, 40.0))
MOLAR_MASS = arg("g/mol", "M", typical=(1.0, 400.0), possible=(1e-3, INFINITY))
NITRATE = arg("mg/L", r"\rho_{\mathrm{NO_3}}", typical=(0.1, 100.0))
PHOSPHATE = arg("mg/L", r"\rho_{\mathrm{PO_4}}", typical=(0.001, 2.0))


@relation(
    unit="mmol/L",
    symbol="c",
    source="prohaska2022",
    at="abridged standard atomic weights, through the molar mass",
    mass_concentration=arg("mg/L", r"\rho", typical=(0.0, 2e4), possible=EITHER_SIGN),
    molar_mass=MOLAR_MASS,
)
def amount_concentration(mass_concentration: Num, molar_mass: Num) -> Num:
    """Return the amount in a litre of what has a mass in a litre.

    Examples
    --------
    >>> from reefchem.core.atoms import molar_mass
    >>> round(amount_concentration(10.0, molar_mass("NO3-")), 4)
    0.1613
    """
    return mass_concentration / molar_mass


@relation(
    unit="mg/L",
    symbol=r"\rho",
    source="prohaska2022",
    at="abridged standard atomic weights, through the molar mass",
    amount_concentration=arg("mmol/L", "c", typical=(0.0, 600.0), possible=EITHER_SIGN),
    molar_mass=MOLAR_MASS,
)
def mass_concentration(amount_concentration: Num, molar_mass: Num) -> Num:
    """Return the mass in a litre of what has an amount in a litre."""
    return amount_concentration * molar_mass


@relation(
    unit="mg/L",
    symbol=r"\rho",
    source="millero1981",
    at="eq. 6, by the density of seawater",
    value=arg(
        "mg/kg",
        "w",
        title="mass in a kilogram of seawater",
        typical=(0.0, 2e4),
        possible=EITHER_SIGN,
    ),
    salinity=SALINITY,
    temperature=TEMPERATURE,
)
def mass_per_litre(value: Num, salinity: Num, temperature: Num) -> Num:
    """Return the mass in a litre of seawater, of what has a mass in a kilogram.

    Examples
    --------
    >>> round(mass_per_litre(412.1, 35.0, 25.0), 1)
    421.7
    """
    return value * seawater_density(salinity, temperature) / 1000


@relation(
    unit="mg/kg",
    symbol="w",
    source="millero1981",
    at="eq. 6, by the density of seawater",
    value=arg(
        "mg/L",
        r"\rho",
        title="mass in a litre of seawater",
        typical=(0.0, 2e4),
        possible=EITHER_SIGN,
    ),
    salinity=SALINITY,
    temperature=TEMPERATURE,
)
def mass_per_kilogram(value: Num, salinity: Num, temperature: Num) -> Num:
    """Return the mass in a kilogram of seawater, of what has a mass in a litre."""
    return value / (seawater_density(salinity, temperature) / 1000)


@relation(
    unit="mg/L",
    symbol=r"\rho_{\mathrm{NO_3}}",
    source="prohaska2022",
    at="abridged standard atomic weights of N and O",
    nitrogen=arg("mg/L", r"\rho_{\mathrm{N}}", title="nitrate as nitrogen", typical=(0.02, 25.0)),
)
def nitrate_from_nitrogen(nitrogen: Num) -> Num:
    """Return the nitrate that has so much nitrogen (NO3-N).

    Examples
    --------
    >>> round(nitrate_from_nitrogen(1.0), 5)
    4.42664
    """
    return nitrogen / N * NO3


@relation(
    unit="mg/L",
    symbol=r"\rho_{\mathrm{N}}",
    source="prohaska2022",
    at="abridged standard atomic weights of N and O",
    nitrate=NITRATE,
)
def nitrogen_from_nitrate(nitrate: Num) -> Num:
    """Return the nitrogen in so much nitrate.

    Examples
    --------
    >>> round(nitrogen_from_nitrate(10.0), 5)
    2.25905
    """
    return nitrate / NO3 * N


@relation(
    unit="mg/L",
    symbol=r"\rho_{\mathrm{NO_2}}",
    source="prohaska2022",
    at="abridged standard atomic weights of N and O",
    nitrogen=arg("mg/L", r"\rho_{\mathrm{N}}", title="nitrite as nitrogen", typical=(0.001, 1.0)),
)
def nitrite_from_nitrogen(nitrogen: Num) -> Num:
    """Return the nitrite that has so much nitrogen (NO2-N)."""
    return nitrogen / N * NO2


@relation(
    unit="mg/L",
    symbol=r"\rho_{\mathrm{N}}",
    source="prohaska2022",
    at="abridged standard atomic weights of N and O",
    nitrite=arg("mg/L", r"\rho_{\mathrm{NO_2}}", typical=(0.001, 5.0)),
)
def nitrogen_from_nitrite(nitrite: Num) -> Num:
    """Return the nitrogen in so much nitrite."""
    return nitrite / NO2 * N


@relation(
    unit="mg/L",
    symbol=r"\rho_{\mathrm{PO_4}}",
    source="prohaska2022",
    at="abridged standard atomic weights of P and O",
    phosphorus=arg(
        "mg/L", r"\rho_{\mathrm{P}}", title="phosphate as phosphorus", typical=(0.001, 1.0)
    ),
)
def phosphate_from_phosphorus(phosphorus: Num) -> Num:
    """Return the phosphate that has so much phosphorus (PO4-P).

    Examples
    --------
    >>> round(phosphate_from_phosphorus(1.0), 5)
    3.06612
    """
    return phosphorus / P * PO4


@relation(
    unit="mg/L",
    symbol=r"\rho_{\mathrm{P}}",
    source="prohaska2022",
    at="abridged standard atomic weights of P and O",
    phosphate=PHOSPHATE,
)
def phosphorus_from_phosphate(phosphate: Num) -> Num:
    """Return the phosphorus in so much phosphate."""
    return phosphate / PO4 * P


@relation(
    unit="mg/L",
    symbol=r"\rho_{\mathrm{SiO_2}}",
    source="prohaska2022",
    at="abridged standard atomic weights of Si and O",
    silicon=arg("mg/L", r"\rho_{\mathrm{Si}}", title="silicate as silicon", typical=(0.001, 5.0)),
)
def silicate_from_silicon(silicon: Num) -> Num:
    """Return silicate, told as SiO2, that has so much silicon."""
    return silicon / SI * SIO2


@relation(
    unit="mg/L",
    symbol=r"\rho_{\mathrm{Si}}",
    source="prohaska2022",
    at="abridged standard atomic weights of Si and O",
    silicate=arg("mg/L", r"\rho_{\mathrm{SiO_2}}", typical=(0.001, 10.0)),
)
def silicon_from_silicate(silicate: Num) -> Num:
    """Return the silicon in so much silicate that is told as SiO2."""
    return silicate / SIO2 * SI


@relation(
    unit="1",
    symbol=r"n_{\mathrm{N}}/n_{\mathrm{P}}",
    source="prohaska2022",
    at="abridged standard atomic weights of N, P and O",
    nitrate=NITRATE,
    phosphate=arg("mg/L", r"\rho_{\mathrm{PO_4}}", typical=(0.001, 2.0), possible=POSITIVE),
)
def nitrogen_to_phosphorus(nitrate: Num, phosphate: Num) -> Num:
    """Return the atoms of nitrogen for each atom of phosphorus, of nitrate and phosphate.

    Examples
    --------
    >>> round(nitrogen_to_phosphorus(10.446, 1.0), 2)
    16.0
    """
    n = nitrate / NO3
    p = phosphate / PO4
    return n / p


@relation(
    unit="1",
    symbol=r"\rho_{\mathrm{NO_3}}/\rho_{\mathrm{PO_4}}",
    source="prohaska2022",
    at="abridged standard atomic weights of N, P and O",
    nitrogen_to_phosphorus=arg(
        "1",
        r"n_{\mathrm{N}}/n_{\mathrm{P}}",
        title="atoms of nitrogen for each of phosphorus",
        typical=(1.0, 200.0),
    ),
)
def nutrient_mass_ratio(nitrogen_to_phosphorus: Num) -> Num:
    """Return the mass of nitrate for each mass of phosphate at a ratio of atoms.

    Examples
    --------
    >>> round(nutrient_mass_ratio(16.0), 4)
    10.4461
    """
    return nitrogen_to_phosphorus * NO3 / PO4


def as_species(value: Num, from_formula: str, to_formula: str, *, element: str = "") -> Num:
    """Return a mass concentration of one species as that of another with the same atoms.

    Parameters
    ----------
    value
        Mass in a litre or in a kilogram, as `from_formula`; the result is in the same unit.
    from_formula, to_formula
        Formulas, as ``"PO4^3-"`` and ``"P"``.
    element
        The element that both share. Needed when they share more than one.

    Raises
    ------
    DomainError
        When they share no element, or several and none is named.

    Examples
    --------
    >>> round(as_species(412.1, "Ca^2+", "CaCO3"), 1)
    1029.1
    >>> round(as_species(25.0, "SiO2", "Si"), 2)
    11.69
    """
    before, after = atoms_in(from_formula), atoms_in(to_formula)
    shared = [name for name in before if name in after]
    if element and element not in shared:
        msg = f"as_species: {from_formula} and {to_formula} do not both hold {element}"
        raise DomainError(msg)
    if not element and len(shared) != 1:
        found = f"share {' and '.join(shared)}; name one" if shared else "share no element"
        msg = f"as_species: {from_formula} and {to_formula} {found}"
        raise DomainError(msg)
    counted = element or shared[0]
    amount = amount_concentration(value, molar_mass(from_formula))
    times = before[counted] / after[counted]
    return mass_concentration(amount * times, molar_mass(to_formula))


def from_ppm(value: Num, *, meaning: str, salinity: Num = None, temperature: Num = None) -> Num:
    """Return "parts per million" as mg/L, when it is said what is meant.

    Parameters
    ----------
    value
        What the kit, the table or the report calls ppm.
    meaning
        ``"mg/L"``, which most kits mean, or ``"mg/kg"``, which the word says.
    salinity, temperature
        Of the water; needed for ``"mg/kg"``.

    Raises
    ------
    UnitError
        When the meaning is another.
    DomainError
        When salinity or temperature is missing where it is needed.

    Examples
    --------
    >>> from_ppm(420.0, meaning="mg/L")
    420.0
    >>> round(from_ppm(412.1, meaning="mg/kg", salinity=35.0, temperature=25.0), 1)
    421.7
    """
    if meaning == "mg/L":
        return mass_concentration(amount_concentration(value, 1.0), 1.0)
    if meaning != "mg/kg":
        msg = f"from_ppm: meaning is 'mg/L' or 'mg/kg', not {meaning!r}"
        raise UnitError(msg)
    if salinity is None or temperature is None:
        msg = "from_ppm: mg/kg needs salinity and temperature, which say what a litre weighs"
        raise DomainError(msg)
    return mass_per_litre(value, salinity, temperature)
