"""The dose that does what is wanted, and the days that a bound asks for."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from reefchem.core.boundary import checked_values
from reefchem.core.errors import DomainError
from reefchem.core.record import INFINITY, arg
from reefchem.dosing.effect import DOSE
from reefchem.dosing.report import Line, Report
from reefchem.dosing.species import COMPONENTS

if TYPE_CHECKING:
    from collections.abc import Mapping

    from reefchem.dosing.solutions import StockSolution

__all__ = ["DosePlan", "Doses", "dose_for", "dose_plan", "doses_for"]

MOST_ALKALINITY = 0.178
"""Largest rise of alkalinity from one dose, meq/L: half a degree. Common practice, no source."""

MEASURE = "Measure before each dose, and stop when the reading is at the target."
BREATH = (
    "Bacteria take oxygen for this dose: keep the pumps running, above all at night, and start "
    "with a small part of it."
)

WANTED = {"rise": arg("1", r"\Delta", typical=(0.0, 10.0)), "volume": DOSE["volume"]}


class Doses(tuple[float, ...]):  # noqa: SLOT001 - a tuple can have none of its own
    """Doses in mL, one for each day, and what to know before the bottle is opened.

    Attributes
    ----------
    cautions
        Of everything in the bottle, and of the dosing.
    """

    cautions: tuple[str, ...] = ()

    @classmethod
    def of(cls, doses: tuple[float, ...], solution: StockSolution) -> Doses:
        """Return doses with the cautions of a solution."""
        made = cls(doses)
        breath = (BREATH,) if solution.oxygen > 0 else ()
        made.cautions = (*solution.cautions(), MEASURE, *breath)
        return made

    def __str__(self) -> str:
        days = f"{len(self)} doses of {self[0]:.5g} mL, one a day"
        return "\n".join([days, *(f"  ! {caution}" for caution in self.cautions)])


def dose_for(
    solution: StockSolution,
    rise: float,
    of: str = "alkalinity",
    *,
    volume: float,
    most: float | None = None,
) -> float:
    """Return the dose in mL that makes a rise: the inverse of `dose_effect`.

    Parameters
    ----------
    solution
        What is dosed.
    rise
        Wanted: meq/L of alkalinity (in the end, after oxidation), or mg/L of anything else.
    of
        ``"alkalinity"`` or what an analysis reports, such as ``"calcium"`` or ``"nitrate"``.
    volume
        Of the tank's water, L.
    most
        Largest rise from one dose. Without it, the dose may bring at most 0.178 meq/L (half a
        degree) of alkalinity, up or down, whatever it is dosed for; anything else is not bounded.
        With it, only the rise that is asked for is bounded; ``float("inf")`` lifts the bound.

    Raises
    ------
    DomainError
        When the solution brings none of what is wanted, and when the rise is past the bound; the
        message says in how many doses to divide it.

    Examples
    --------
    >>> from reefchem.dosing import StockSolution
    >>> round(dose_for(StockSolution({"NaHCO3": 84.006}), 0.1, volume=100.0), 9)
    10.0
    """
    limit = _limit(of, most)
    (wanted, tank), _ = checked_values("dose_for", WANTED, (rise, volume), {})
    if tank == 0:
        msg = "dose_for: volume is 0 L; more than 0 is possible"
        raise DomainError(msg)
    if of != "alkalinity" and of not in COMPONENTS:
        msg = f"dose_for: of is {of!r}; known are alkalinity, {', '.join(COMPONENTS)}"
        raise DomainError(msg)
    alkaline = of == "alkalinity"
    potency = solution.alkalinity_after_oxidation if alkaline else solution.potency(of)
    if not potency > 0:
        msg = f"dose_for: {' + '.join(solution.contents)} brings no {of}; take another solution"
        raise DomainError(msg)
    if wanted > limit * (1 + 1e-12):
        doses = _times(wanted, limit) if limit > 0 else 0
        unit = "meq/L" if alkaline else "mg/L"
        advice = f"divide it into {doses} doses on as many days" if doses else "allow some rise"
        msg = (
            f"dose_for: rise is {wanted:g} {unit} of {of}; at most {limit:g} {unit} from one dose. "
            f"To go there, {advice}"
        )
        raise DomainError(msg)
    dose = float(wanted * tank / potency)
    if most is None:
        _check_companion(solution, dose / tank, of)
    return dose


def doses_for(
    solution: StockSolution,
    rise: float,
    of: str = "alkalinity",
    *,
    volume: float,
    most: float | None = None,
) -> Doses:
    """Return the fewest equal doses in mL, one for each day, that make a rise within the bound.

    They are a tuple that carries the cautions of the bottle, and prints them.

    Parameters
    ----------
    solution, rise, of, volume, most
        As in `dose_for`; `most` is the largest rise in a day. Without it, the alkalinity that
        comes along keeps to its bound too.

    Examples
    --------
    >>> from reefchem.dosing import StockSolution
    >>> doses_for(StockSolution({"KNO3": 101.102}), 3.1002, "nitrate", volume=100.0, most=1.0)
    (1.25, 1.25, 1.25, 1.25)
    """
    limit = _limit(of, most)
    whole = dose_for(solution, rise, of, volume=volume, most=INFINITY)
    if not limit > 0:
        msg = f"doses_for: most is {limit:g}; more than 0 is possible"
        raise DomainError(msg)
    days = max(1, _times(rise, limit))
    if most is None:
        days = max(days, _times(abs(_companion(solution, whole / volume)), MOST_ALKALINITY))
    return Doses.of((whole / days,) * days, solution)


@dataclass(frozen=True)
class DosePlan(Report):
    """Equal doses, one for each day, and what they do beside.

    Attributes
    ----------
    of
        What it is about.
    days
        How many doses, one a day.
    dose
        Each, mL.
    start, target
        mg/L, or meq/L for alkalinity.
    daily
        What each dose brings, mg/L, by what an analysis reports.
    alkalinity
        That comes with each dose in the end, meq/L.
    oxygen
        That bacteria take from the water for each dose, mg/L.
    """

    of: str
    name: str
    days: int
    dose: float
    start: float
    target: float
    daily: Mapping[str, float]
    alkalinity: float
    oxygen: float
    cautions: tuple[str, ...]

    UNITS: ClassVar[Mapping[str, str]] = {
        "dose": "mL",
        "alkalinity": "meq/L",
        "oxygen": "mg/L",
    }

    @property
    def title(self) -> str:
        """What goes from where to where."""
        unit = "meq/L" if self.of == "alkalinity" else "mg/L"
        return f"{self.of} from {self.start:g} to {self.target:g} {unit} with {self.name}"

    def lines(self) -> list[Line]:
        """Return the dose, the days, and what each dose brings."""
        return [
            Line("doses, one a day", self.days, ""),
            Line("each dose", self.dose, "mL"),
            *(Line(f"brings {name}", amount, "mg/L") for name, amount in self.daily.items()),
            Line("brings alkalinity in the end", self.alkalinity, "meq/L"),
            Line("takes oxygen", self.oxygen, "mg/L"),
        ]


def dose_plan(
    solution: StockSolution,
    of: str,
    *,
    start: float,
    target: float,
    volume: float,
    most: float | None = None,
) -> DosePlan:
    """Return the fewest daily doses from a reading to a target, with what comes along.

    Parameters
    ----------
    solution, of, volume, most
        As in `doses_for`.
    start, target
        Level now and wanted, mg/L, or meq/L for alkalinity.

    Raises
    ------
    DomainError
        When the target is not above the start; a dose takes nothing out.

    Examples
    --------
    >>> from reefchem.dosing import StockSolution
    >>> plan = dose_plan(
    ...     StockSolution({"KNO3": 20.0}), "nitrate", start=1.0, target=5.0, volume=180.0, most=1.0
    ... )
    >>> plan.days, round(plan.dose, 2)
    (4, 14.68)
    """
    if not target > start:
        msg = (
            f"dose_plan: target is {target:g} and start {start:g}; a dose raises {of} and takes "
            "nothing out. Change water, or let it be used up"
        )
        raise DomainError(msg)
    doses = doses_for(solution, target - start, of, volume=volume, most=most)
    share = doses[0] / volume
    oxygen = share * solution.oxygen
    return DosePlan(
        of=of,
        name=" + ".join(solution.contents),
        days=len(doses),
        dose=doses[0],
        start=start,
        target=target,
        daily={name: share * amount for name, amount in solution.components.items()},
        alkalinity=share * solution.alkalinity_after_oxidation,
        oxygen=oxygen,
        cautions=doses.cautions,
    )


def _companion(solution: StockSolution, share: float) -> float:
    """Return the alkalinity that comes with a dose: at once or later, whichever is more."""
    return share * max(solution.alkalinity, solution.alkalinity_after_oxidation, key=abs)


def _times(change: float, limit: float) -> int:
    return int(-(-change // (limit * (1 + 1e-12))))


def _check_companion(solution: StockSolution, share: float, of: str) -> None:
    """Refuse a dose for something else that moves the alkalinity past its bound."""
    moved = _companion(solution, share)
    if abs(moved) > MOST_ALKALINITY * (1 + 1e-12):
        msg = (
            f"dose_for: so much {of} brings {moved:+.3g} meq/L of alkalinity with it; at most "
            f"{MOST_ALKALINITY:g} meq/L from one dose. Divide it into "
            f"{_times(abs(moved), MOST_ALKALINITY)} doses on as many days, take a solution "
            "without alkalinity, or give `most` to say that it is meant"
        )
        raise DomainError(msg)


def _limit(of: str, most: float | None) -> float:
    if most is not None:
        return most
    return MOST_ALKALINITY if of == "alkalinity" else INFINITY
