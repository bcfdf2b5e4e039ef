"""The uptake of everything but alkalinity, as the log's readings show it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from reefchem.core.errors import DomainError
from reefchem.dosing.species import component_mass
from reefchem.seawater.reference_composition import composition
from reefchem.tank.dissolved import (
    bound_of_dissolved_uptake,
    dissolved_uptake,
    potency_of_ion,
    readings_to_see_dissolved,
)
from reefchem.tank.planning.alkalinity import SIDES
from reefchem.tank.planning.confidence import SEEN, listed
from reefchem.tank.planning.figures import Figure, Given
from reefchem.tank.planning.reasons import date_text
from reefchem.tank.planning.text import Line, bare, say
from reefchem.tank.uptake_fit import TAKEN, uptake

if TYPE_CHECKING:
    from reefchem.tank.planning.alkalinity import Alkalinity
    from reefchem.tank.uptake_fit import UptakeEstimate

__all__ = ["Ion", "ion_lines", "ions_of"]

ENOUGH = 6
"""Readings that count even when some are older than the description asks for."""

QUARTER = 0.25


@dataclass(frozen=True)
class Ion:
    """An ion whose uptake shows.

    Attributes
    ----------
    uptake, low, high
        Figures, mg/L a day; the interval is at 95 %.
    """

    name: str
    estimate: UptakeEstimate
    uptake: Figure
    low: Figure
    high: Figure

    @property
    def clear(self) -> bool:
        """Whether the readings tell the uptake from none."""
        return self.low.value > 0 or self.high.value < 0


def ions_of(account: Alkalinity) -> dict[str, Ion]:
    """Return every ion that was read often enough for an uptake, by name."""
    found = {}
    for name in TAKEN[1:]:
        estimate = _estimate(account, name)
        if estimate is not None:
            found[name] = _ion(account, name, estimate)
    return found


def ion_lines(account: Alkalinity, ions: dict[str, Ion]) -> tuple[Line, ...]:
    """Return what the readings of each ion show."""
    lines = [_line(account, ion) for ion in ions.values()]
    few = [name for name in TAKEN[1:] if name not in ions and account.log.readings(name)]
    if few:
        lines.append(
            say(
                f"Too little to tell an uptake: the readings of {' and '.join(few)} (fewer than "
                "four, or mostly zero)."
            )
        )
    return tuple(lines)


def _estimate(account: Alkalinity, name: str) -> UptakeEstimate | None:
    """Return the fit, or None when the readings cannot show an uptake."""
    description = account.description
    potencies = {
        stock.name: account.ledger.work_out(
            f"content_{index}_{name}",
            f"{name} in a millilitre of {stock.name}",
            potency_of_ion,
            digits=4,
            strength=Given(stock.strength, f"{description.path.name}, stock {stock.name}"),
            molar_mass=Given(stock.salt.molar_mass, f"catalogue of salts, {stock.salt.formula}"),
            moles=Given(stock.salt.components[name], f"catalogue of salts, {stock.salt.formula}"),
            ion_mass=Given(component_mass(name), "abridged standard atomic weights"),
            purity=Given(1.0, "taken as pure"),
        ).value
        for index, stock in enumerate(description.stocks, 1)
        if name in stock.salt.components and account.log.readings(name)
    }
    try:
        found = uptake(
            account.log,
            name,
            volume=account.volume.value,
            potencies=potencies,
            fresh=_fresh(account, name),
            top_off=description.number(f"top_off.{name}"),
            days=description.number("log.days"),
            at_least=ENOUGH,
        )
    except DomainError:
        return None
    zeros = sum(reading.entry.value == 0 for reading in found.readings)
    return None if 2 * zeros >= len(found.readings) else found


def _fresh(account: Alkalinity, name: str) -> float:
    """Return the level in fresh seawater: as described, else as in the sea."""
    key = f"water_change.{name}"
    if account.description.gives(key):
        return account.description.number(key)
    sea = composition(account.description.number("tank.salinity"))
    return float(sea.mass_concentrations(account.description.number("tank.temperature"))[name])


def _ion(account: Alkalinity, name: str, estimate: UptakeEstimate) -> Ion:
    fit = f"fit to {len(estimate.readings)} readings of {account.log.file}"
    log = account.log.file
    best = account.ledger.work_out(
        f"uptake_{name}",
        f"{name} that the tank takes in a day",
        dissolved_uptake,
        digits=3 if estimate.low * estimate.high > 0 else 2,
        first=Given(estimate.first, f"{fit}: {name} at the first reading"),
        kept=Given(estimate.kept, f"water changes in {log}"),
        added=Given(estimate.added, f"doses, water changes and top-off in {log}"),
        second=Given(estimate.last, f"{fit}: {name} at the last reading"),
        days=Given(estimate.days, f"{log}, weighted by the water still there"),
    )
    low, high = (
        account.ledger.work_out(
            f"uptake_{name}_{side}",
            f"{side} bound of the uptake of {name}",
            bound_of_dissolved_uptake,
            digits=2,
            estimate=best,
            standard_error=Given(estimate.standard_error, f"{fit}: standard error"),
            quantile=Given(
                sign * estimate.quantile,
                f"Student's distribution, 95 %, {estimate.freedom:.3g} degrees of freedom",
            ),
        )
        for side, sign in SIDES
    )
    return Ion(name, estimate, best, low, high)


def _line(account: Alkalinity, ion: Ion) -> Line:
    found = ion.estimate
    since = date_text(found.readings[0].entry.when)
    pieces: list[str | Figure] = [
        f"{ion.name.capitalize()}, {len(found.readings)} readings since {since}: "
    ]
    bounds = (" (95 %: ", bare(ion.low), " to ", ion.high, ")")
    if not ion.clear:
        pieces += ["no uptake that can be told from none, ", ion.uptake, *bounds, "."]
    elif ion.uptake.value > 0:
        pieces += ["the tank takes ", ion.uptake, *bounds, "."]
    else:
        pieces += ["more appears than is taken, ", ion.uptake, *bounds, "."]
    if found.changed:
        pieces.append(" It was not the same in the earlier and the later half.")
    if found.outliers:
        pieces.append(f" Far from the others: {listed(found.outliers)}.")
    if found.noisier:
        pieces.append(" The readings scatter more than their method says.")
    if ion.clear:
        pieces += _to_see(account, ion)
    return say(*pieces)


def _to_see(account: Alkalinity, ion: Ion) -> list[str | Figure]:
    """Say how many readings would show a change by a quarter."""
    found = ion.estimate
    needed = account.ledger.work_out(
        f"readings_to_see_{ion.name}",
        f"readings before and after a change of the uptake of {ion.name} by a quarter",
        readings_to_see_dissolved,
        digits=2,
        change=Given(QUARTER * abs(ion.uptake.value), "a quarter of the uptake", ion.uptake.id),
        scatter=Given(found.scatter, "fit: scatter of a reading"),
        days=Given(found.apart, f"{account.log.file}: mean time between readings"),
        quantile=Given(SEEN, "normal distribution: 1.96 + 0.84"),
    )
    count = max(2, math.ceil(needed.value))
    return [
        f" To see it change by a quarter takes {count} readings before and after (",
        needed,
        ", rounded up).",
    ]
