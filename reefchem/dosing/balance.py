"""Months of dosing for every ion: drift, settled state and the time it takes."""

from __future__ import annotations

from dataclasses import dataclass
from math import copysign
from typing import TYPE_CHECKING, ClassVar

from reefchem.core.boundary import checked_values
from reefchem.core.record import INFINITY, arg
from reefchem.dosing.drift import (
    ion_after_periods,
    ion_settled,
    kept_share,
    settling_time,
    share_replaced,
)
from reefchem.dosing.report import Line, Report
from reefchem.dosing.residue import salinity_gained
from reefchem.dosing.species import COMPONENTS, component_mass
from reefchem.seawater.composition import reference_salinity
from reefchem.seawater.density import seawater_density
from reefchem.seawater.reference_composition import composition

if TYPE_CHECKING:
    from collections.abc import Mapping
    from typing import Any

__all__ = ["IonicBalance", "ionic_balance", "ions_of_seawater"]

ARGUMENTS = {
    "daily_uptake": arg("meq/L/day", "u", typical=(0.05, 1.0)),
    "share": arg("1", "f", typical=(0.0, 0.3), possible=(0.0, 1.0)),
    "period": arg("day", "p", typical=(1.0, 30.0), possible=(1e-6, INFINITY)),
    "time": arg("day", "t", typical=(0.0, 730.0)),
    "salinity": arg("1", "S", valid=(20.0, 42.0)),
    "temperature": arg("degC", "t", valid=(15.0, 32.0)),
}

DEFAULTS = {"period": 7.0, "temperature": 25.0}


@dataclass(frozen=True)
class IonicBalance(Report):
    """How the ions have moved.

    Attributes
    ----------
    start, end, settled
        Of each ion, mg/L, by name. Without water change and correction nothing settles, and
        `settled` is infinite for what is gained.
    gain
        What the doses leave in a period, mg/L, by ion.
    replaced
        Share of the volume that gives way to fresh water in each period, for the salinity.
    kept
        Share of what was there that is kept through a period.
    settling
        Time in which the distance from the settled state falls to 37 %; infinite when all is kept.
    salinity_end
        Salinity at the end, when it is not corrected.
    """

    title_text: str
    start: Mapping[str, float]
    end: Mapping[str, float]
    settled: Mapping[str, float]
    gain: Mapping[str, float]
    replaced: float
    kept: float
    settling: float
    salinity_end: float
    cautions: tuple[str, ...]

    UNITS: ClassVar[Mapping[str, str]] = {"settling": "day"}

    @property
    def title(self) -> str:
        """What was dosed for how long."""
        return self.title_text

    def change(self, ion: str) -> float:
        """Return the relative change of an ion from start to end."""
        return self.end[ion] / self.start[ion] - 1

    def lines(self) -> list[Line]:
        """Return every ion at the end, then the shares and times."""
        ions = [
            Line(f"{name}, {100 * self.change(name):+.2f} % to", value, "mg/L")
            for name, value in self.end.items()
        ]
        return [
            *ions,
            Line("replaced for the salinity, each period", 100 * self.replaced, "%"),
            Line("time constant", self.settling, "days"),
            Line("salinity at the end", self.salinity_end, ""),
        ]


def ionic_balance(
    left: Mapping[str, float],
    *,
    daily_uptake: Any,
    time: Any,
    share: Any = 0.0,
    period: Any = DEFAULTS["period"],
    correct_salinity: bool = True,
    salinity: Any = 35.0,
    temperature: Any = DEFAULTS["temperature"],
    cautions: tuple[str, ...] = (),
) -> IonicBalance:
    """Return how every ion of the tank moves over months of dosing.

    Parameters
    ----------
    left
        What the method leaves for each equivalent of growth, mol by component: the `left` of
        `two_part` or `all_in_one`; an empty mapping for limewater or a calcium reactor.
    daily_uptake
        Alkalinity that the tank uses in a day, all of it replaced by the method.
    time
        Of dosing; counted in whole and broken periods alike.
    share
        Of the volume, at each water change, with seawater of the reference composition.
    period
        From one water change to the next; the salinity is set right just before each.
    correct_salinity
        Whether tank water gives way to fresh water to hold the salinity.
    salinity, temperature
        Of the tank at the start, and of the fresh seawater.
    cautions
        To print with the result, such as those of the recipe.

    Notes
    -----
    Evaporated water is replaced by water without salt and changes nothing. Calcium is balanced by
    the doses, but what dilution takes of it is not dosed again: a keeper who holds calcium by a
    kit sees less of it fall. Alkalinity is held by the keeper and is not listed.

    Examples
    --------
    >>> balance = ionic_balance(
    ...     {"sodium": 1.0, "chloride": 1.0}, daily_uptake=0.35665, time=365.0, share=0.1
    ... )
    >>> round(100 * balance.change("magnesium"), 1), round(balance.settling)
    (-3.5, 64)
    """
    given = (daily_uptake, share, period, time, salinity, temperature)
    (uptake, f, p, t, s, warmth), like = checked_values("ionic_balance", ARGUMENTS, given, DEFAULTS)
    litre = float(seawater_density(s, warmth)) / 1000
    start = ions_of_seawater(s, litre)
    gain = {
        name: uptake * p * moles * component_mass(name)
        for name, moles in left.items()
        if name != "alkalinity"
    }
    salt = float(reference_salinity(s)) * litre
    gained = sum(gain.values()) / 1000
    replaced = float(share_replaced(max(gained, 0.0), salt)) if correct_salinity else 0.0
    kept = float(kept_share(f, replaced))
    periods = t / p
    end, settled = {}, {}
    for name, level in start.items():
        g = gain.get(name, 0.0)
        if kept == 1.0:
            end[name] = level + g * periods
            settled[name] = level if g == 0 else copysign(INFINITY, g)
        else:
            end[name] = float(ion_after_periods(level, level, g, f, kept, periods))
            settled[name] = float(ion_settled(level, g, f, kept))
    excess = sum(end[name] - start[name] for name in start) / 1000
    at_once_or_never = {0.0: 0.0, 1.0: INFINITY}
    result = IonicBalance(
        title_text=f"{t:g} days at {uptake:g} meq/L a day, {100 * f:g} % every {p:g} days",
        start=start,
        end=end,
        settled=settled,
        gain=gain,
        replaced=replaced,
        kept=kept,
        settling=at_once_or_never[kept]
        if kept in at_once_or_never
        else float(settling_time(kept, p)),
        salinity_end=s if replaced > 0 else s + float(salinity_gained(excess, s, warmth)),
        cautions=cautions,
    )
    return result if like is None else result.with_units(like)


def ions_of_seawater(salinity: float, litre: float) -> dict[str, float]:
    """Return mg/L of each ion that stays an ion: carbonates and hydroxide follow alkalinity."""
    amounts = composition(salinity).amounts
    ions = {
        name: 1000 * amount * component_mass(name) * litre
        for name, amount in amounts.items()
        if name in COMPONENTS
    }
    boron = amounts["borate"] + amounts["boric_acid"]
    return ions | {"boron": 1000 * boron * component_mass("boron") * litre}
