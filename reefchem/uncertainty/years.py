"""Years of dosing with inputs that nobody knows exactly: every ion, daily doses, water changes.

Each week of doses, growth, correction of the salinity and water change is one affine map, so that
any number of weeks has a closed form (`reefchem.dosing.drift`). A hundred thousand tanks over ten
years then take seconds, and the slopes of the result are exact.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from reefchem.core.errors import DomainError
from reefchem.dosing.growth import skeleton
from reefchem.seawater.density import seawater_density
from reefchem.uncertainty.affine_tank import (
    ALKALINITY,
    Tank,
    blocks,
    carried_in_blocks,
    reference,
)
from reefchem.uncertainty.draws import check_correlation, normal_draws, ranks_of_bounds, spread_of

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    Uncertain = float | tuple[float, float]

__all__ = ["YearsAhead", "years_ahead"]

YEARS = tuple(365.0 * year for year in range(1, 11))
TINY = 1e-30
"""Step along the imaginary axis: the slope it gives has no rounding error of a difference."""


@dataclass(frozen=True)
class YearsAhead:
    """Where a tank may be after years, member by member of a large sample.

    Attributes
    ----------
    days
        At which the tank is told, each just after a water change.
    members
        Size of the sample.
    units
        ``"meq/L"`` of the alkalinity and ``"mg/L"`` of everything else, by name.
    value, straight
        With every input at its best value, and the standard uncertainty from exact slopes; by
        name, one number for each of `days`.
    mean, standard
        Mean and standard deviation of the sample, likewise.
    low, middle, high
        Quantiles of the sample: 95 members in 100 lie between the first and the last.
    parts, shares
        Of the last day: what one standard uncertainty of each input does, with its sign, and what
        part of the variance it carries; see `Propagated`.
    emptied
        Share of the members in which something would be used up, and below zero, at one of the
        days: there the corals would have stopped before. Such members are not mended.
    """

    days: tuple[float, ...]
    members: int
    units: Mapping[str, str]
    value: Mapping[str, Any]
    straight: Mapping[str, Any]
    mean: Mapping[str, Any]
    standard: Mapping[str, Any]
    low: Mapping[str, Any]
    middle: Mapping[str, Any]
    high: Mapping[str, Any]
    parts: Mapping[str, Mapping[str, float]]
    shares: Mapping[str, Mapping[str, float]]
    emptied: Mapping[str, float]


def years_ahead(
    doses: Mapping[str, tuple[Uncertain, Uncertain]],
    *,
    volume: Uncertain,
    alkalinity_uptake: Uncertain,
    alkalinity: Uncertain,
    fresh_alkalinity: Uncertain,
    change: Uncertain,
    period: float = 7.0,
    salinity: Uncertain = 35.0,
    fresh_salinity: Uncertain = 35.0,
    temperature: float = 25.0,
    start: Mapping[str, Uncertain] | None = None,
    fresh: Mapping[str, Uncertain] | None = None,
    gains: Mapping[str, Uncertain] | None = None,
    magnesium_per_calcium: float = 0.0,
    strontium_per_calcium: float = 0.0,
    correct_salinity: bool = True,
    days: Sequence[float] = YEARS,
    members: int = 100_000,
    seed: int = 0,
    correlation: Mapping[tuple[str, str], float] | None = None,
    progress: Callable[[int, int], None] | None = None,
) -> YearsAhead:
    """Return where every ion of a tank goes when its doses stay as they are for years.

    Each uncertain input is a number, or a pair of value and standard uncertainty. Its name in
    `correlation`, and in the shares of the result, is that of the argument; for the mappings it is
    ``"dose NaHCO3"``, ``"strength NaHCO3"``, ``"start calcium"``, ``"fresh calcium"``,
    ``"gain nitrate"``.

    Parameters
    ----------
    doses
        By formula of the salt: what is dosed in a day, mL, and what a litre of it holds, g.
    volume
        Of the tank's water, L.
    alkalinity_uptake
        What the corals take in a day, meq/L; calcium goes with it in equal equivalents.
    alkalinity, fresh_alkalinity
        Of the tank now, and of the fresh seawater, meq/L.
    change, period
        Litres of a water change, and days from one to the next.
    salinity, fresh_salinity, temperature
        Ions that nobody measured are those of seawater of this salinity. The temperature only
        turns kilograms into litres.
    start, fresh
        Measured values in the tank and in the fresh seawater, mg/L, by name (``"calcium"``). Of
        an ion of seawater that is measured in one only, the other has what its salinity says;
        anything else is the same in both.
    gains
        What else is gained in a day, mg/L, by name; negative for what is used.
    magnesium_per_calcium, strontium_per_calcium
        Of the skeleton, mmol/mol.
    correct_salinity
        Whether tank water gives way to fresh water before each change, to hold the salinity that
        the doses raise.
    days
        At which the tank is told. Each is brought to the last water change before it.
    members, seed
        Size of the sample, and of its random numbers.
    correlation
        Correlation coefficient by pair of inputs. Volume and uptake hang together wherever the
        uptake was found from doses; see `plan_uncertainty`.
    progress
        Called with the number of ions that are done, and of all.

    Notes
    -----
    The sample needs about eight bytes for each member, times the number of uncertain inputs and
    twice the number of days; nothing grows with the number of ions. Doses of one day to the next
    scatter too; over years that averages out, and it is not in here.

    Raises
    ------
    DomainError
        When an input is impossible, or a member of the sample is (a volume below zero, say): a
        normal distribution that wide is the wrong description of that input.

    Examples
    --------
    >>> made = years_ahead(
    ...     {"NaHCO3": (40.0, 75.0), "CaCl2·2H2O": (40.0, 65.0)},
    ...     volume=(180.0, 4.0), alkalinity_uptake=0.2, alkalinity=2.7, fresh_alkalinity=2.7,
    ...     change=18.0, members=1000,
    ... )
    >>> len(made.units), round(float(made.value["magnesium"][-1]))
    (20, 1288)
    """
    import numpy as np  # noqa: PLC0415 - NumPy is loaded only by those who use it

    inputs = Inputs(
        {
            "volume": volume,
            "alkalinity_uptake": alkalinity_uptake,
            "change": change,
            "salinity": salinity,
            "fresh_salinity": fresh_salinity,
            "alkalinity": alkalinity,
            "fresh_alkalinity": fresh_alkalinity,
        }
        | {f"dose {formula}": dose for formula, (dose, _) in doses.items()}
        | {f"strength {formula}": strength for formula, (_, strength) in doses.items()}
        | {f"start {name}": given for name, given in (start or {}).items()}
        | {f"fresh {name}": given for name, given in (fresh or {}).items()}
        | {f"gain {name}": given for name, given in (gains or {}).items()}
    )
    check_correlation("years_ahead", inputs.values, correlation)
    if members < 2 or not period > 0:
        msg = f"years_ahead: {members} members and a period of {period} d; 2 and more than 0 needed"
        raise DomainError(msg)
    counts = [math.floor(day / period + 1e-9) for day in days]
    names = list(inputs.spreads)
    litre = float(seawater_density(35.0, temperature)) / 1000
    tank = Tank(
        doses=tuple(doses),
        reference=reference(litre),
        litre=litre,
        skeleton=skeleton(magnesium_per_calcium, strontium_per_calcium),
        period=period,
        corrected=correct_salinity,
        counts=np.array(counts, dtype=float)[:, None],
    )
    ions = [ALKALINITY, *tank.reference, *(start or {}), *(fresh or {}), *(gains or {})]
    ions = list(dict.fromkeys(ions))

    point: dict[str, Any] = {name: np.array([value]) for name, value in inputs.values.items()}
    nearby = {name: array + 0j for name, array in point.items()}
    for index, name in enumerate(names):
        nearby[name] = np.full(len(names), inputs.values[name], dtype=complex)
        nearby[name][index] += TINY * 1j
    sample = point | inputs.drawn(correlation, members, seed)
    carried = carried_in_blocks(tank, sample, members)
    at_point, at_nearby = tank.carried(point), tank.carried(nearby)
    found: dict[str, dict[str, Any]] = {field: {} for field in FIELDS}
    for done, ion in enumerate(ions, 1):
        value = tank.course(ion, point, at_point)[:, 0]
        slopes = tank.course(ion, nearby, at_nearby).imag / TINY
        slopes = np.broadcast_to(slopes, (len(counts), len(names)))
        pieces = slopes * np.array(list(inputs.spreads.values()))
        found["value"][ion] = value
        made = [
            spread_of(dict(zip(names, map(float, row), strict=True)), correlation, ion)
            for row in pieces
        ]
        found["straight"][ion] = np.array([spread for spread, _ in made])
        found["parts"][ion] = dict(zip(names, map(float, pieces[-1]), strict=True))
        found["shares"][ion] = made[-1][1]
        course = np.empty((len(counts), members))
        for piece, block in blocks(sample, members):
            course[:, piece] = tank.course(ion, block, carried.piece(piece))
        found["mean"][ion], found["standard"][ion] = course.mean(axis=1), course.std(axis=1)
        found["emptied"][ion] = float((course.min(axis=0) < 0).mean())
        ranks = ranks_of_bounds(members)
        course.partition(ranks, axis=1)
        for name, rank in zip(("low", "middle", "high"), ranks, strict=True):
            found[name][ion] = course[:, rank].copy()
        if progress is not None:
            progress(done, len(ions))
    return YearsAhead(
        days=tuple(count * period for count in counts),
        members=members,
        units={ion: "meq/L" if ion == ALKALINITY else "mg/L" for ion in ions},
        **found,
    )


FIELDS = (
    "value", "straight", "mean", "standard", "low", "middle", "high", "parts", "shares", "emptied"
)  # fmt: skip


class Inputs:
    """Best values and standard uncertainties by name; what is certain has no entry in `spreads`."""

    def __init__(self, given: Mapping[str, Uncertain]) -> None:
        self.values: dict[str, float] = {}
        self.spreads: dict[str, float] = {}
        for name, one in given.items():
            value, spread = one if isinstance(one, tuple) else (one, 0.0)
            if not (value >= 0 or _signed(name)) or math.isinf(value) or math.isnan(value):
                msg = f"years_ahead: {name} is {value}; it is finite, and 0 or more"
                raise DomainError(msg)
            if not 0 <= spread < math.inf:
                msg = (
                    f"years_ahead: {name} has a standard uncertainty of {spread}; "
                    "it is 0 or more and finite"
                )
                raise DomainError(msg)
            self.values[name] = float(value)
            if spread:
                self.spreads[name] = float(spread)
        if self.values["volume"] == 0:
            msg = "years_ahead: volume is 0; more than 0 is possible"
            raise DomainError(msg)

    def drawn(
        self, correlation: Mapping[tuple[str, str], float] | None, members: int, seed: int
    ) -> dict[str, Any]:
        """Return a draw of every uncertain input for each member."""
        draws = normal_draws("years_ahead", list(self.spreads), correlation, members, seed)
        sample: dict[str, Any] = {}
        for index, (name, spread) in enumerate(self.spreads.items()):
            draws[index] *= spread
            draws[index] += self.values[name]
            lowest = draws[index].min()
            if lowest < 0 and not _signed(name):
                msg = (
                    f"years_ahead: {name} is {lowest:.4g} in a member of the sample; a standard "
                    f"uncertainty of {spread:g} is too wide for {self.values[name]:g}"
                )
                raise DomainError(msg)
            sample[name] = draws[index]
        return sample


def _signed(name: str) -> bool:
    return name.startswith("gain ")
