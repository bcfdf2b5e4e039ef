"""What is really in a bottle: by its powder, its weight, its volume, or the rise that it makes.

No law is given here for the density of a solution: it is measured, by weighing a filled flask.
"""

from __future__ import annotations

from reefchem.core.functions import Num
from reefchem.core.record import INFINITY, arg, relation
from reefchem.dosing.dose import DOSE, DOSED

__all__ = [
    "share_of_salt",
    "solution_volume",
    "strength_from_mass_share",
    "strength_from_rise",
]

DENSITY = arg(
    "kg/L", r"\rho", title="density of the solution", typical=(1.0, 1.4), possible=(1e-9, INFINITY)
)


@relation(
    unit="1",
    symbol="w",
    source="prohaska2022",
    at="definition of a mass fraction",
    assay=arg(
        "1",
        "w_d",
        title="salt in a gram of the dry powder",
        typical=(0.9, 1.0),
        possible=(0.0, 1.0),
    ),
    moisture=arg(
        "1",
        "u",
        title="water in a gram of the moist powder",
        typical=(0.0, 0.3),
        possible=(0.0, 1.0),
    ),
)
def share_of_salt(assay: Num, moisture: Num) -> Num:
    """Return the purity of a powder that has drunk water: the salt in a gram of it.

    Parameters
    ----------
    assay
        Salt in a gram of the dry powder, as the label says.
    moisture
        Water in a gram of the moist powder, beyond that of the formula: what it loses in drying,
        over what it weighed before.

    Examples
    --------
    >>> round(share_of_salt(0.98, 0.1), 12)
    0.882
    """
    return assay * (1 - moisture)


@relation(
    unit="g/L",
    symbol=r"\rho_s",
    source="prohaska2022",
    at="definitions of mass fraction and density",
    mass_share=arg(
        "1", "w", title="salt in a gram of solution", typical=(0.01, 0.4), possible=(0.0, 1.0)
    ),
    density=DENSITY,
)
def strength_from_mass_share(mass_share: Num, density: Num) -> Num:
    """Return the mass in a litre of a solution that is told by weight (% w/w).

    Parameters
    ----------
    mass_share
        Salt in a gram of solution.
    density
        Of the solution, measured.

    Examples
    --------
    >>> round(strength_from_mass_share(0.1, 1.07), 9)
    107.0
    """
    return mass_share * density * 1000


@relation(
    unit="mL",
    symbol="V_s",
    source="prohaska2022",
    at="definition of density; masses add, volumes do not",
    powder=arg("g", "m_s", title="mass of the powder", typical=(1.0, 500.0)),
    water=arg("g", "m_w", title="mass of the water", typical=(100.0, 1000.0)),
    density=DENSITY,
)
def solution_volume(powder: Num, water: Num, density: Num) -> Num:
    """Return the volume that a powder and the water it is dissolved in take up together.

    Parameters
    ----------
    powder, water
        As weighed.
    density
        Of the solution that they make, measured.

    Examples
    --------
    >>> round(solution_volume(100.0, 900.0, 1.07), 1)
    934.6
    """
    return (powder + water) / density


@relation(
    unit="mg/mL",
    symbol=r"\rho_s",
    source="prohaska2022",
    at="definition of concentration; the dose is small beside the water",
    rise=arg("mg/L", r"\Delta\rho", title="rise of the reading", typical=(1.0, 100.0)),
    volume=DOSED,
    dose=DOSE,
)
def strength_from_rise(rise: Num, volume: Num, dose: Num) -> Num:
    """Return what a millilitre of an unknown bottle brings, from the rise that a dose of it made.

    Parameters
    ----------
    rise
        Of calcium, nitrate or whatever was measured before and after.
    volume
        Of the water that the dose went into.
    dose
        Volume of the solution that was put in.

    Examples
    --------
    >>> strength_from_rise(40.0, 10.0, 10.0)
    40.0
    """
    return rise * volume / dose
