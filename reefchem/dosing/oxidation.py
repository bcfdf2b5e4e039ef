"""What becomes of formate and acetate: alkalinity later, oxygen now.

HCOO⁻ + ½ O₂ → HCO₃⁻, and CH₃COO⁻ + 2 O₂ → HCO₃⁻ + CO₂ + H₂O. Bacteria do it, so it takes time.
"""

from __future__ import annotations

from reefchem.core.atoms import molar_mass
from reefchem.core.functions import Num, exp
from reefchem.core.record import arg, relation

__all__ = [
    "alkalinity_waiting",
    "calcium_with_formate",
    "carbon_from_acetate",
    "carbon_from_formate",
    "formate_dosed",
    "oxidised_share",
    "oxygen_for_acetate",
    "oxygen_for_ethanol",
    "oxygen_for_formate",
]

GAINED = arg("meq/L", "A", title="alkalinity gained in the end", typical=(0.0, 2.0))
DOSED = GAINED.titled("alkalinity dosed as acetate")
REACTIONS = "abridged weights; the balanced oxidation, derived in the book"
LN2 = 0.6931471805599453
"""Natural logarithm of two."""


@relation(
    unit="mg/L",
    symbol=r"\rho_\mathrm{O_2}",
    source="prohaska2022",
    at=REACTIONS,
    alkalinity=GAINED,
)
def oxygen_for_formate(alkalinity: Num) -> Num:
    """Return the oxygen that turns formate into some alkalinity.

    Parameters
    ----------
    alkalinity
        Gained in the end.

    Examples
    --------
    >>> round(oxygen_for_formate(1.0), 4)
    15.999
    """
    return alkalinity / 2 * molar_mass("O2")


@relation(
    unit="mg/L",
    symbol=r"\rho_\mathrm{O_2}",
    source="prohaska2022",
    at=REACTIONS,
    alkalinity=DOSED,
)
def oxygen_for_acetate(alkalinity: Num) -> Num:
    """Return the oxygen that burns the acetate of some alkalinity: four times that of formate.

    Parameters
    ----------
    alkalinity
        Of the acetate; it is the same before and after.

    Examples
    --------
    >>> round(oxygen_for_acetate(1.0), 4)
    63.996
    """
    return 2 * alkalinity * molar_mass("O2")


@relation(
    unit="mg/L",
    symbol=r"\rho_\mathrm{O_2}",
    source="prohaska2022",
    at=REACTIONS,
    ethanol=arg("mg/L", r"\rho_\mathrm{EtOH}", title="ethanol dosed", typical=(0.0, 20.0)),
)
def oxygen_for_ethanol(ethanol: Num) -> Num:
    """Return the oxygen that burns some ethanol.

    Parameters
    ----------
    ethanol
        Dosed, as pure ethanol.

    Examples
    --------
    >>> round(oxygen_for_ethanol(1.0), 3)
    2.084
    """
    amount = ethanol / molar_mass("C2H5OH")
    return 3 * amount * molar_mass("O2")


@relation(
    unit="mg/L",
    symbol=r"\rho_\mathrm{HCOO}",
    source="prohaska2022",
    at=REACTIONS,
    alkalinity=GAINED,
)
def formate_dosed(alkalinity: Num) -> Num:
    """Return the formate that becomes some alkalinity.

    Parameters
    ----------
    alkalinity
        Gained in the end.
    """
    return alkalinity * molar_mass("HCOO-")


@relation(
    unit="mg/L",
    symbol=r"\rho_\mathrm{Ca}",
    source="prohaska2022",
    at=REACTIONS,
    alkalinity=GAINED,
)
def calcium_with_formate(alkalinity: Num) -> Num:
    """Return the calcium that calcium formate brings with some alkalinity.

    The ratio is that of calcium carbonate, so that nothing is left when both are used.

    Parameters
    ----------
    alkalinity
        Gained in the end.

    Examples
    --------
    >>> round(calcium_with_formate(0.356652), 3)
    7.147
    """
    return alkalinity / 2 * molar_mass("Ca")


@relation(
    unit="mg/L",
    symbol=r"\rho_\mathrm{C}",
    source="prohaska2022",
    at=REACTIONS,
    alkalinity=GAINED,
)
def carbon_from_formate(alkalinity: Num) -> Num:
    """Return the organic carbon that is dosed as formate with some alkalinity.

    Parameters
    ----------
    alkalinity
        Gained in the end.

    Examples
    --------
    >>> round(carbon_from_formate(1.0), 3)
    12.011
    """
    return alkalinity * molar_mass("C")


@relation(
    unit="mg/L",
    symbol=r"\rho_\mathrm{C}",
    source="prohaska2022",
    at=REACTIONS,
    alkalinity=DOSED,
)
def carbon_from_acetate(alkalinity: Num) -> Num:
    """Return the organic carbon that is dosed as acetate with some alkalinity.

    Parameters
    ----------
    alkalinity
        Of the acetate.

    Examples
    --------
    >>> round(carbon_from_acetate(1.0), 3)
    24.022
    """
    return 2 * alkalinity * molar_mass("C")


@relation(
    unit="1",
    symbol="x",
    source="levenspiel1999",
    at="first-order rate law; that bacteria follow it here is an assumption",
    time=arg("day", "t", title="time since the dose", typical=(0.0, 5.0)),
    half_life=arg(
        "day", r"t_{1/2}", title="time in which half of it is oxidised", typical=(0.1, 2.0)
    ),
)
def oxidised_share(time: Num, half_life: Num) -> Num:
    """Return the share of a dose of formate or acetate that has been oxidised.

    Parameters
    ----------
    time
        Since the dose.
    half_life
        In which half of it goes. No source gives it for a reef tank: measure it, by the
        alkalinity that a single dose brings hour by hour.

    Examples
    --------
    >>> round(oxidised_share(1.0, 0.5), 12)
    0.75
    """
    return 1 - exp(-LN2 * time / half_life)


@relation(
    unit="meq/L",
    symbol="A_w",
    source="levenspiel1999",
    at="first-order rate law at steady state; that bacteria follow it here is an assumption",
    daily_alkalinity=arg(
        "meq/L/day", "a", title="alkalinity dosed as formate in a day", typical=(0.05, 1.0)
    ),
    half_life=arg(
        "day", r"t_{1/2}", title="time in which half of the formate is oxidised", typical=(0.1, 2.0)
    ),
)
def alkalinity_waiting(daily_alkalinity: Num, half_life: Num) -> Num:
    """Return the alkalinity that is still bound in formate when dosing has become steady.

    Parameters
    ----------
    daily_alkalinity
        Dosed as formate, spread over the day.
    half_life
        In which half of the formate is oxidised; measured, see `oxidised_share`.

    Examples
    --------
    >>> round(alkalinity_waiting(0.5, 0.5), 3)
    0.361
    """
    return daily_alkalinity * half_life / LN2
