"""What a bottle can hold: solubility, shared ions, and ions that do not stand each other.

The judgement is by ion products and without activities: it refuses what is clearly impossible and
says what to do. What passes may still fall out on a cold night.
"""

from __future__ import annotations

from reefchem.core.errors import DomainError
from reefchem.dosing.catalogue import Salt, Solubility, salts

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

__all__ = ["check_bottle", "check_size", "most_that_dissolves"]

ROOM = 1.02
"""A litre of solution holds at most about a kilogram of water; 2 % is left for the doubt."""

CARBONATE = ("HCO3-", "CO3^2-")
ENEMIES: tuple[tuple[tuple[str, ...], tuple[str, ...], str], ...] = (
    (("Ca^2+",), CARBONATE, "calcium carbonate falls out"),
    (("Mg^2+",), CARBONATE, "magnesium carbonate falls out"),
    (("Sr^2+",), CARBONATE, "strontium carbonate falls out"),
    (("Mg^2+",), ("OH-",), "magnesium hydroxide falls out"),
    (("Sr^2+",), ("SO4^2-",), "strontium sulfate falls out"),
    (("Ca^2+",), ("HPO4^2-", "PO4^3-"), "calcium phosphate falls out"),
    (("Mg^2+",), ("HPO4^2-", "PO4^3-"), "magnesium phosphate falls out"),
    (("Ca^2+",), ("F-",), "calcium fluoride falls out"),
    (("Mg^2+",), ("F-",), "magnesium fluoride falls out"),
    (("Ca^2+", "Mg^2+"), ("SiO(OH)3-",), "a silicate falls out"),
    (("H+", "CH3COOH"), CARBONATE, "carbon dioxide foams up and the alkalinity is gone"),
    (("H+", "CH3COOH"), ("OH-",), "acid and base heat up and neutralise each other"),
    (("NH4+",), ("OH-", "CO3^2-"), "ammonia gas escapes"),
)
"""Ions that do not stand each other in concentrated solutions, and what happens."""

GYPSUM = 0.0151
"""Calcium sulfate that dissolves in pure water at 25 °C, mol/kg (0.205 %: Rumble, 2017)."""


def check_bottle(
    moles: Mapping[str, float],
    species: Mapping[str, float],
    water: float | None,
    temperature: float,
) -> None:
    """Refuse a bottle that cannot be made.

    Parameters
    ----------
    moles
        Of each salt in a litre.
    species
        Moles of each ion in a litre.
    water
        Kilograms in a litre, or None when it is not known.
    temperature
        At which the bottle stands.

    Raises
    ------
    DomainError
        With what would happen and what to do instead.
    """
    _check_enemies(moles, species)
    room = ROOM if water is None else water
    for salt, law, limit in _laws((salts[formula] for formula in moles), temperature):
        amount = moles[salt.formula]
        if amount / room > limit:
            grams, most = amount * salt.molar_mass, limit * room * salt.molar_mass
            msg = (
                f"{grams:.4g} g/L of {salt.name} ({salt.formula}) does not dissolve at "
                f"{temperature:g} degC; at most about {most:.3g} g/L does ({law.origin}). Use more "
                "water and dose more of it, or check the label and its unit"
            )
            raise DomainError(msg)
    molality = {ion: amount / room for ion, amount in species.items()}
    _check_gypsum(molality)
    if len(moles) > 1:
        _check_shared(molality, temperature)


def check_size(recipe: str, potency: float, bottle: float) -> None:
    """Refuse a recipe for no bottle at all, or for one that nobody can lift.

    Parameters
    ----------
    recipe
        Its name, for the message.
    potency, bottle
        Alkalinity in a millilitre, meq, and millilitres.
    """
    if not 0 < potency < 100 or not 0 < bottle < 1e6:
        msg = f"{recipe}: potency is {potency} meq/mL, bottle {bottle} mL; more than 0 is possible"
        raise DomainError(msg)


def most_that_dissolves(formula: str, temperature: float) -> float | None:
    """Return mol/kg of water that dissolve at a temperature, or None where no value is known.

    Examples
    --------
    >>> round(most_that_dissolves("Ca(OH)2", 25.0), 4)
    0.0202
    """
    law = salts[formula].solubility
    return None if law is None else law.molality(temperature)


def _laws(
    candidates: Iterable[Salt], temperature: float
) -> Iterator[tuple[Salt, Solubility, float]]:
    """Go through the salts whose solubility is known at a temperature; it is in mol/kg."""
    for salt in candidates:
        law = salt.solubility
        if law is not None and (limit := law.molality(temperature)) is not None:
            yield salt, law, limit


def _check_enemies(moles: Mapping[str, float], species: Mapping[str, float]) -> None:
    for first, second, what in ENEMIES:
        one = next((ion for ion in first if ion in species), None)
        other = next((ion for ion in second if ion in species), None)
        if one is None or other is None:
            continue
        with_one = [formula for formula in moles if one in salts[formula].ions]
        with_other = [formula for formula in moles if other in salts[formula].ions]
        if with_one == with_other:
            continue  # one salt that has both; its solubility says how much dissolves
        msg = (
            f"{', '.join(with_one)} and {', '.join(with_other)} cannot share a bottle: {what}. "
            "Make two solutions and dose them apart from each other, in place and in time"
        )
        raise DomainError(msg)


def _check_gypsum(molality: Mapping[str, float]) -> None:
    product = molality.get("Ca^2+", 0.0) * molality.get("SO4^2-", 0.0)
    if product > GYPSUM * GYPSUM:
        msg = (
            f"calcium and sulfate cannot share this bottle: gypsum falls out, since the product of "
            f"their molalities is {product / GYPSUM**2:.3g} times that of saturated gypsum in pure "
            "water. Put the sulfate into another solution"
        )
        raise DomainError(msg)


def _check_shared(molality: Mapping[str, float], temperature: float) -> None:
    """Refuse a mixture whose ions exceed the ion product of any saturated salt alone."""
    for salt, law, limit in _laws(salts.values(), temperature):
        if not salt.ions.keys() <= molality.keys():
            continue
        excess, order = 1.0, 0
        for ion, count in salt.ions.items():
            excess *= (molality[ion] / (count * limit)) ** count
            order += count
        if excess > 1.0:
            share = 100 / excess ** (1 / order) // 1  # rounded down, so that the advice holds
            msg = (
                f"{salt.name} ({salt.formula}) would fall out of this mixture at {temperature:g} "
                f"degC: its ions are {excess:.3g} times what its saturated solution holds"
                f" ({law.origin}), counted without activities. Dilute to "
                f"{share:.0f} % or less, or divide it between two bottles"
            )
            raise DomainError(msg)
