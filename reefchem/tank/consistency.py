"""What one uptake foretells of another: calcium from alkalinity, magnesium from calcium."""

from __future__ import annotations

from reefchem.core.atoms import molar_mass
from reefchem.core.functions import Num
from reefchem.core.record import EITHER_SIGN, arg, relation

__all__ = ["calcium_with_alkalinity", "magnesium_with_calcium"]


@relation(
    unit="mg/L/day",
    symbol=r"u_\mathrm{Ca}",
    source="wolfgladrow2007",
    at="explicit conservative expression: two equivalents for a mole of CaCO3, one for a nitrate",
    uptake=arg(
        "meq/L/day", "u", title="uptake of alkalinity", typical=(0.02, 0.8), possible=EITHER_SIGN
    ),
    nitrate_taken=arg(
        "mg/L/day",
        r"u_{\mathrm{NO_3}}",
        title="nitrate that is taken",
        typical=(-1.0, 2.0),
        possible=EITHER_SIGN,
    ),
)
def calcium_with_alkalinity(uptake: Num, nitrate_taken: Num) -> Num:
    """Return the uptake of calcium that an uptake of alkalinity leads to expect.

    Parameters
    ----------
    uptake
        Of alkalinity, as readings show it.
    nitrate_taken
        Nitrate that disappears. It gives alkalinity back and so hides some of what the skeletons
        took; negative for nitrate that gathers from food, which takes alkalinity without calcium.

    Examples
    --------
    >>> round(calcium_with_alkalinity(0.2, 0.0), 4)
    4.0078
    """
    skeleton = uptake + nitrate_taken / molar_mass("NO3-")
    return skeleton / 2 * molar_mass("Ca")


@relation(
    unit="mg/L/day",
    symbol=r"u_\mathrm{Mg}",
    source="prohaska2022",
    at="abridged weights; moles of magnesium by moles of calcium",
    calcium=arg(
        "mg/L/day",
        r"u_\mathrm{Ca}",
        title="uptake of calcium",
        typical=(0.2, 15.0),
        possible=EITHER_SIGN,
    ),
    magnesium_per_calcium=arg("mmol/mol", r"r_\mathrm{Mg}", typical=(1.0, 250.0)),
)
def magnesium_with_calcium(calcium: Num, magnesium_per_calcium: Num) -> Num:
    """Return the uptake of magnesium that goes with an uptake of calcium.

    Parameters
    ----------
    calcium
        What the skeletons take.
    magnesium_per_calcium
        Of the skeleton. Coral aragonite has about 4 to 5, coralline algae 90 to 250 or more;
        both from memory, not verified.

    Examples
    --------
    >>> round(magnesium_with_calcium(40.078, 100.0), 4)
    2.4305
    """
    return calcium / molar_mass("Ca") * magnesium_per_calcium / 1000 * molar_mass("Mg")
