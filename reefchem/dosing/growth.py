"""What a skeleton takes, and what a set of solutions leaves, for one equivalent of alkalinity."""

from __future__ import annotations

from reefchem.core.errors import DomainError
from reefchem.dosing.species import alkalinity_after_oxidation, components_of

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Mapping

__all__ = ["left_over", "skeleton"]


def skeleton(
    magnesium_per_calcium: float = 0.0, strontium_per_calcium: float = 0.0
) -> dict[str, float]:
    """Return the moles that a skeleton takes with one equivalent of alkalinity.

    Parameters
    ----------
    magnesium_per_calcium, strontium_per_calcium
        Of the skeleton, mmol/mol.

    Examples
    --------
    >>> skeleton()
    {'calcium': 0.5, 'magnesium': 0.0, 'strontium': 0.0, 'inorganic carbon': 0.5}
    """
    for name, ratio in (
        ("magnesium_per_calcium", magnesium_per_calcium),
        ("strontium_per_calcium", strontium_per_calcium),
    ):
        if not 0.0 <= ratio <= 1000.0:
            msg = f"skeleton: {name} is {ratio} mmol/mol; 0 to 1000 is possible"
            raise DomainError(msg)
    magnesium, strontium = magnesium_per_calcium / 1000, strontium_per_calcium / 1000
    calcium = 0.5 / (1 + magnesium + strontium)
    return {
        "calcium": calcium,
        "magnesium": calcium * magnesium,
        "strontium": calcium * strontium,
        "inorganic carbon": 0.5,
    }


def left_over(species: Mapping[str, float], taken: Mapping[str, float]) -> dict[str, float]:
    """Return what stays of a dose when growth has taken one equivalent.

    Parameters
    ----------
    species
        Moles dosed for each equivalent that growth takes, by formula.
    taken
        By growth; see `skeleton`.

    Returns
    -------
    dict
        Moles by component, with ``"alkalinity"`` in equivalents. Inorganic carbon is left out: it
        comes and goes with the air. So are formate, acetate and ethanol, which are burnt.
    """
    left = components_of(species)
    for name, moles in taken.items():
        left[name] = left.get(name, 0.0) - moles
    left["alkalinity"] = alkalinity_after_oxidation(species) - 1.0
    for name in ("inorganic carbon", "formate", "acetate", "ethanol"):
        left.pop(name, None)
    return {name: moles for name, moles in left.items() if abs(moles) > 1e-15}
