"""A tank in which a week of doses, growth, salt correction and water change is one affine map.

The same code runs for floats, for arrays with a member in each place, and for complex arrays,
whose imaginary part carries an exact slope.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from reefchem.core.blocks import BLOCK
from reefchem.core.errors import DomainError
from reefchem.core.record import describe
from reefchem.dosing.balance import ions_of_seawater
from reefchem.dosing.catalogue import salts
from reefchem.dosing.drift import ion_settled, kept_share, share_replaced
from reefchem.dosing.species import component_mass
from reefchem.seawater.composition import reference_salinity
from reefchem.seawater.minor_elements import minor_elements

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

__all__ = ["ALKALINITY", "Carried", "Tank", "blocks", "carried_in_blocks", "reference"]

ALKALINITY = "alkalinity"


@dataclass(frozen=True)
class Carried:
    """What is the same for all ions: the shares of the map, and what is left after each count."""

    share: Any
    kept: Any
    left: Any

    def piece(self, piece: slice) -> Carried:
        """Return some of the members."""
        return Carried(self.share[piece], self.kept[piece], self.left[:, piece])


@dataclass(frozen=True)
class Tank:
    """The affine map of a tank, for floats, arrays and complex arrays alike."""

    doses: tuple[str, ...]
    reference: Mapping[str, float]
    litre: float
    skeleton: Mapping[str, float]
    period: float
    corrected: bool
    counts: Any

    def daily(self, ion: str, inputs: Mapping[str, Any]) -> Any:
        """Return what a day brings to each litre: doses, less growth, and other gains."""
        brought = inputs.get(f"gain {ion}", 0.0)
        for formula in self.doses:
            salt = salts[formula]
            if ion == ALKALINITY:
                moles, mass = float(salt.alkalinity_after_oxidation), 1.0
            else:
                moles = salt.components.get(ion, 0.0)
                mass = component_mass(ion) if moles else 0.0
            if moles:
                milligrams = inputs[f"dose {formula}"] * inputs[f"strength {formula}"]
                amount = milligrams / salt.molar_mass / inputs["volume"]
                brought = brought + amount * (moles * mass)
        taken = 1.0 if ion == ALKALINITY else self.skeleton.get(ion, 0.0)
        if taken:
            weight = 1.0 if ion == ALKALINITY else component_mass(ion)
            brought = brought - inputs["alkalinity_uptake"] * (taken * weight)
        return brought

    def carried(self, inputs: Mapping[str, Any]) -> Carried:
        """Return the shares of the map."""
        import numpy as np  # noqa: PLC0415 - NumPy is loaded only by those who use it

        share = inputs["change"] / inputs["volume"]
        if np.any(np.real(share) > 1):
            msg = f"years_ahead: a change of {np.max(np.real(share)):.4g} of the volume is too much"
            raise DomainError(msg)
        salt = _salt(inputs["salinity"], self.litre)
        gained = sum(self.daily(ion, inputs) for ion in self.reference) * (self.period / 1000)
        gained = np.where(np.real(gained) > 0, gained, 0.0) if self.corrected else 0.0 * share
        kept = describe(kept_share).kernel(share, describe(share_replaced).kernel(gained, salt))
        return Carried(share, kept, kept**self.counts)

    def course(self, ion: str, inputs: Mapping[str, Any], carried: Carried) -> Any:
        """Return an ion after each count of periods: one row for each."""
        import numpy as np  # noqa: PLC0415 - NumPy is loaded only by those who use it

        level, fresh = (self._level(ion, where, inputs) for where in ("start", "fresh"))
        gain = self.daily(ion, inputs) * self.period
        moving = np.real(carried.kept) < 1
        kept = np.where(moving, carried.kept, 0.5)
        settled = describe(ion_settled).kernel(fresh, gain, carried.share, kept)
        after = settled + (level - settled) * carried.left  # as `ion_after_periods`
        if moving.all():
            return after
        return np.where(moving, after, level + gain * self.counts)

    def _level(self, ion: str, where: str, inputs: Mapping[str, Any]) -> Any:
        if ion == ALKALINITY:
            return inputs[ALKALINITY if where == "start" else "fresh_alkalinity"]
        other = "fresh" if where == "start" else "start"
        if f"{where} {ion}" in inputs:
            return inputs[f"{where} {ion}"]
        if ion in self.reference:
            salinity = inputs["salinity" if where == "start" else "fresh_salinity"]
            return salinity * (self.reference[ion] / 35.0)
        return inputs.get(f"{other} {ion}", 0.0)


def blocks(sample: Mapping[str, Any], members: int) -> Iterator[tuple[slice, dict[str, Any]]]:
    """Yield where members are that are carried through the years together, and their inputs."""
    for begin in range(0, members, BLOCK):
        piece = slice(begin, begin + BLOCK)
        yield piece, {name: row[piece] if len(row) > 1 else row for name, row in sample.items()}


def carried_in_blocks(tank: Tank, sample: Mapping[str, Any], members: int) -> Carried:
    """Return the shares of the map for the whole sample, worked out block by block."""
    import numpy as np  # noqa: PLC0415 - NumPy is loaded only by those who use it

    whole = Carried(np.empty(members), np.empty(members), np.empty((len(tank.counts), members)))
    for piece, block in blocks(sample, members):
        made = tank.carried(block)
        whole.share[piece], whole.kept[piece], whole.left[:, piece] = (
            made.share,
            made.kept,
            made.left,
        )
    return whole


def _salt(salinity: Any, litre: float) -> Any:
    """Return the salt in a litre; the density is taken at 35, which it leans on but little."""
    return salinity * (float(reference_salinity(35.0)) / 35.0 * litre)


def reference(litre: float) -> dict[str, float]:
    """Return seawater of salinity 35 in mg/L: ions by name, then minor elements by symbol.

    A litre of it has that many kilograms.
    """
    minor = {
        symbol: element.content
        for symbol, element in minor_elements().items()
        if element.content is not None
    }
    return ions_of_seawater(35.0, litre) | minor
