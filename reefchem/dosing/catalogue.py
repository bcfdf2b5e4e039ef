"""The catalogue of what is dosed: formula, ions, alkalinity, hazards, storage, solubility.

The facts stand in ``reefchem/data/salts.toml``, which is read when the catalogue is first asked.
Everything that follows from a formula (molar mass, water, alkalinity, oxygen demand) is worked
out here and typed nowhere.
"""

from __future__ import annotations

import difflib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cache
from itertools import pairwise
from pathlib import Path

from reefchem.core.atoms import atoms_in, molar_mass
from reefchem.core.errors import DomainError
from reefchem.dosing.species import (
    alkalinity_after_oxidation,
    alkalinity_of,
    components_of,
    oxygen_of,
)

__all__ = ["Hazard", "Salt", "Solubility", "UnknownSaltError", "salts"]

CATALOGUE = Path(__file__).parent.parent / "data" / "salts.toml"
SHEET = "The supplier's safety data sheet decides; local rules and licensed practice come first."


class UnknownSaltError(DomainError, KeyError):
    """The catalogue has no such substance; the message names those that are near."""

    def __str__(self) -> str:
        """Return the message, which `KeyError` would put into quotes."""
        return DomainError.__str__(self)


@dataclass(frozen=True)
class Hazard:
    """A GHS hazard statement.

    Attributes
    ----------
    read
        ``"secondary"`` when a classification was seen, ``"memory"`` when it is unverified.
    source
        Where it was seen, if that was recorded.
    """

    code: str
    text: str
    read: str
    source: str = ""

    def __str__(self) -> str:
        """Return code and text, and whether it is unverified."""
        unverified = " (from memory, unverified)" if self.read == "memory" else ""
        return f"{self.code} {self.text}{unverified}"


@dataclass(frozen=True)
class Solubility:
    """What 100 g of water dissolve, as a table.

    Attributes
    ----------
    points
        Grams of `formula` in 100 g of water, by °C, in the order of temperature.
    read, source, at
        Whether and where the values were read.
    """

    formula: str
    points: tuple[tuple[float, float], ...]
    read: str
    source: str
    at: str

    @property
    def origin(self) -> str:
        """The source, and whether the values are from memory."""
        return f"{self.source}, from memory" if self.read == "memory" else self.source

    def molality(self, temperature: float) -> float | None:
        """Return mol/kg of water at a temperature, or None outside the table.

        Between two temperatures of the table the value is interpolated linearly. A table of one
        temperature holds within 5 °C of it.
        """
        grams = self._grams(temperature)
        return None if grams is None else 10.0 * grams / molar_mass(self.formula)

    def _grams(self, temperature: float) -> float | None:
        first, last = self.points[0], self.points[-1]
        if len(self.points) == 1:
            return first[1] if abs(temperature - first[0]) <= 5.0 else None
        if not first[0] <= temperature <= last[0]:
            return None
        for (low, a), (high, b) in pairwise(self.points):
            if temperature <= high:
                return a + (b - a) * (temperature - low) / (high - low)
        return None


@dataclass(frozen=True)
class Salt:
    """A substance that is dosed, as it is weighed.

    Attributes
    ----------
    formula
        With its water of crystallisation.
    ions
        Moles that a mole releases, by formula; the rest is water.
    purpose
        What keepers dose it for.
    signal
        GHS signal word, or an empty text.
    """

    formula: str
    name: str
    ions: Mapping[str, int]
    purpose: tuple[str, ...]
    also: str = ""
    signal: str = ""
    hazards: tuple[Hazard, ...] = ()
    wear: str = ""
    never_mix: str = ""
    heat: str = ""
    storage: str = ""
    local_rules: str = ""
    solubility: Solubility | None = field(default=None, repr=False)

    @property
    def molar_mass(self) -> float:
        """Grams in a mole of the substance as weighed."""
        return molar_mass(self.formula)

    @property
    def water(self) -> int:
        """Moles of water that a mole sets free; negative when it takes water up."""
        atoms = atoms_in(self.formula)
        released = sum(n * atoms_in(ion).get("O", 0) for ion, n in self.ions.items())
        return atoms.get("O", 0) - released

    @property
    def alkalinity(self) -> int:
        """Equivalents of alkalinity in a mole, at once (Dickson's definition)."""
        return int(alkalinity_of(self.ions))

    @property
    def alkalinity_after_oxidation(self) -> int:
        """Equivalents of alkalinity in a mole, once bacteria have burnt what is organic."""
        return int(alkalinity_after_oxidation(self.ions))

    @property
    def oxygen(self) -> float:
        """Moles of O2 that a mole takes up while it is burnt."""
        return oxygen_of(self.ions)

    @property
    def components(self) -> dict[str, float]:
        """Moles in a mole, by what an analysis reports."""
        return components_of(self.ions)

    @property
    def hazardous(self) -> bool:
        """Whether the substance carries a signal word or heats up."""
        return bool(self.signal or self.heat)

    def cautions(self) -> tuple[str, ...]:
        """Return what to know before the tin is opened, one sentence each.

        Empty for a substance that is not classified and neither heats nor reacts in the bottle.
        """
        said = []
        if self.hazards:
            statements = "; ".join(str(hazard) for hazard in self.hazards)
            said.append(f"{self.name}: {self.signal}. {statements}.")
        lines = (
            ("wear", self.wear),
            ("never mix with", self.never_mix),
            ("heat", self.heat),
            ("rules", self.local_rules),
        )
        said += [f"{self.name}, {label}: {text}." for label, text in lines if text]
        if said:
            said.append(f"{self.name}, keep: {self.storage}.")
        if self.hazards or self.heat:
            said.append(SHEET)
        return tuple(said)


class Catalogue(Mapping[str, Salt]):
    """Salts by formula; a name or another way to write the formula finds them too.

    Examples
    --------
    >>> salts["NaHCO3"].alkalinity
    1
    >>> salts["calcium formate"].formula
    'Ca(HCOO)2'
    >>> salts["CaCl2.2H2O"].water
    2
    """

    def __getitem__(self, key: str) -> Salt:
        known, names = _read()
        formula = key.strip().replace(".", "·").replace("*", "·")
        formula = names.get(key.strip().lower(), formula)
        if formula in known:
            return known[formula]
        near = difflib.get_close_matches(formula, [*known, *names], n=4, cutoff=0.5)
        others = [other for other in known if other.partition("·")[0] == formula.partition("·")[0]]
        hint = ", ".join(dict.fromkeys(others + near)) or ", ".join(known)
        msg = f"salts: {key!r} is not in the catalogue; near it are {hint}"
        raise UnknownSaltError(msg)

    def __iter__(self) -> Iterator[str]:
        return iter(_read()[0])

    def __len__(self) -> int:
        return len(_read()[0])

    def for_purpose(self, purpose: str) -> tuple[Salt, ...]:
        """Return the salts that are dosed for something, such as ``"calcium"``."""
        return tuple(salt for salt in self.values() if purpose in salt.purpose)


salts: Catalogue = Catalogue()
"""The catalogue."""


@cache
def _read() -> tuple[dict[str, Salt], dict[str, str]]:
    import tomllib  # noqa: PLC0415 - read once, when somebody asks

    data = tomllib.loads(CATALOGUE.read_text(encoding="utf-8"))
    statements: dict[str, str] = data["statements"]
    known = {}
    for entry in data["salt"]:
        seen = [entry.pop(f"hazards_{key}", "") for key in ("read", "source")]
        hazards = tuple(Hazard(c, statements[c], *seen) for c in entry.pop("hazards", ()))
        dry = entry.pop("solubility_as", entry["formula"])
        points = sorted((float(t), float(g)) for t, g in entry.pop("solubility", {}).items())
        place = [entry.pop(f"solubility_{key}", "") for key in ("read", "source", "at")]
        known[entry["formula"]] = Salt(
            **entry | {"purpose": tuple(entry["purpose"])},
            hazards=hazards,
            solubility=Solubility(dry, tuple(points), *place) if points else None,
        )
    names = {salt.name: salt.formula for salt in known.values()}
    names |= {salt.also.lower(): salt.formula for salt in known.values() if salt.also}
    return known, names
