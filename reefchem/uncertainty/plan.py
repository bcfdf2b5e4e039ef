"""How sure a whole plan is: every number of it, from the doubt in what the keeper measured.

A plan is worked out anew with each input one standard uncertainty higher and lower; half the
difference is what that input does to a number of the plan (JCGM 100:2008, 5.1.3, note 2). That
goes through the robust fit as well, which no formula does.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from reefchem.core.errors import DomainError
from reefchem.tank.log import Log
from reefchem.tank.plan import dosing_plan
from reefchem.uncertainty.draws import check_correlation
from reefchem.uncertainty.propagation import Propagated, propagated
from reefchem.uncertainty.years import YEARS, YearsAhead, years_ahead

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from reefchem.tank.description import Description
    from reefchem.tank.plan import Plan

__all__ = ["PlanUncertainty", "plan_ahead", "plan_uncertainty"]

READINGS = "readings."
STOCK = "stock."


@dataclass(frozen=True)
class PlanUncertainty:
    """Every number of a plan with its uncertainty, and what the doubt comes from.

    Attributes
    ----------
    plan
        The plan at the best values.
    figures
        A `Propagated` by id of the figure. Its shares are by input; readings of one quantity
        count together, as ``"readings.alkalinity"``.
    standard
        The standard uncertainties that were taken, by input.
    """

    plan: Plan
    figures: Mapping[str, Propagated]
    standard: Mapping[str, float]

    def first(self, figure: str) -> str:
        """Return the input to measure better first, for the sake of one number of the plan.

        Examples
        --------
        ``made.first("dose")`` may be ``"tank.volume"``.
        """
        shares = self.figures[figure].shares
        if not shares:
            msg = f"{figure} leans on none of {', '.join(self.standard)}"
            raise DomainError(msg)
        return max(shares, key=lambda name: shares[name])


def plan_uncertainty(
    plan: Plan,
    standard: Mapping[str, float] | None = None,
    *,
    correlation: Mapping[tuple[str, str], float] | None = None,
    progress: Callable[[int, int], None] | None = None,
) -> PlanUncertainty:
    """Return how sure every number of a plan is.

    Parameters
    ----------
    plan
        As `dosing_plan` returns it.
    standard
        Standard uncertainty by input, in the unit that the package works in: a key of the
        description (``"tank.volume"``, L; ``"water_change.alkalinity"``, meq/L), the strength of
        a stock (``"stock.soda"``, g/L), or a single reading of a quantity
        (``"readings.alkalinity"``, meq/L). When it is left out, the volume and the stocks are as
        sure as the description says, and the readings of alkalinity scatter as they did about the
        fit.
    correlation
        By pair of inputs; readings are independent of everything.
    progress
        Called with the number of plans that have been worked out, and of all.

    Raises
    ------
    DomainError
        When an input is unknown or its uncertainty impossible, or when the plan cannot be made
        with the input that much off.
    """
    if standard is None:
        standard = _described(plan)
    moves = [(name, move) for name in standard for move in _moves(plan, name, standard[name])]
    check_correlation("plan_uncertainty", standard, correlation)
    for pair in correlation or {}:
        for name in pair:
            if name.startswith(READINGS):
                msg = f"{name}: readings are independent of everything"
                raise DomainError(msg)
    squares: dict[str, dict[str, float]] = {figure: {} for figure in plan.figures}
    signed: dict[str, dict[str, float]] = {figure: {} for figure in plan.figures}
    for done, (name, (up, down)) in enumerate(moves, 1):
        above, below = dosing_plan(*up).figures, dosing_plan(*down).figures
        for figure in plan.figures:
            if figure in above and figure in below:
                half = (above[figure].value - below[figure].value) / 2
                squares[figure][name] = squares[figure].get(name, 0.0) + half * half
                signed[figure][name] = signed[figure].get(name, 0.0) + half
        if progress is not None:
            progress(done, len(moves))
    figures: dict[str, Propagated] = {}
    for figure, known in plan.figures.items():
        parts = {
            name: square**0.5 if signed[figure][name] >= 0 else -(square**0.5)
            for name, square in squares[figure].items()
        }
        figures[figure] = propagated(
            known.value, parts, known.unit, correlation, f"plan_uncertainty: {figure}"
        )
    return PlanUncertainty(plan, figures, dict(standard))


def _described(plan: Plan) -> dict[str, float]:
    """Return what the description and the fit say of their own doubt."""
    given = plan.description.number
    found = {"tank.volume": given("tank.volume") * given("tank.volume_uncertainty")}
    for stock in plan.description.stocks:
        found[f"{STOCK}{stock.name}"] = stock.strength * stock.uncertainty
    found[f"{READINGS}alkalinity"] = plan.estimate.scatter
    return {name: spread for name, spread in found.items() if spread > 0}


def _moves(plan: Plan, name: str, spread: float) -> list[tuple[Any, Any]]:
    """Return pairs of log and description with an input one standard uncertainty off."""
    if not 0 < spread < float("inf"):
        msg = f"{name} has a standard uncertainty of {spread}; it is more than 0 and finite"
        raise DomainError(msg)
    log, description = plan.log, plan.description
    if name.startswith(READINGS):
        quantity = name.removeprefix(READINGS)
        used = [
            index
            for index, entry in enumerate(log.entries)
            if entry.what == "reading" and entry.quantity == quantity
        ]
        if not used:
            msg = f"{name}: the log has no reading of {quantity}"
            raise DomainError(msg)
        used = _within(log, used, description.number("log.days"))
        return [
            ((_moved(log, i, spread), description), (_moved(log, i, -spread), description))
            for i in used
        ]
    return [
        (
            (log, moved_description(description, name, spread)),
            (log, moved_description(description, name, -spread)),
        )
    ]


def _within(log: Log, used: list[int], days: float) -> list[int]:
    """Return the readings that the plan looks at; the last few of a quantity always count."""
    last = log.entries[used[-1]].when
    return [
        i
        for i in used
        if (last - log.entries[i].when).total_seconds() <= days * 86400 or i in used[-3:]
    ]


def _moved(log: Log, index: int, by: float) -> Log:
    entry = log.entries[index]
    entries = list(log.entries)
    entries[index] = replace(entry, value=entry.value + by)
    return replace(log, entries=tuple(entries))


def moved_description(description: Description, name: str, by: float) -> Description:
    """Return a description with one of its numbers, or the strength of a stock, moved."""
    if name.startswith(STOCK):
        wanted = name.removeprefix(STOCK)
        if wanted not in {stock.name for stock in description.stocks}:
            msg = f"{name}: no stock has that name"
            raise DomainError(msg)
        stocks = tuple(
            replace(stock, strength=stock.strength + by) if stock.name == wanted else stock
            for stock in description.stocks
        )
        return replace(description, stocks=stocks)
    if name not in description.numbers:
        msg = f"{name}: no input of the plan; there are {', '.join(description.numbers)}"
        raise DomainError(msg)
    return replace(
        description, numbers={**description.numbers, name: description.numbers[name] + by}
    )


def plan_ahead(
    sure: PlanUncertainty,
    *,
    days: Sequence[float] = YEARS,
    members: int = 100_000,
    seed: int = 0,
    progress: Callable[[int, int], None] | None = None,
    **more: Any,
) -> YearsAhead:
    """Return where the tank goes when the doses of a plan stay as they are for years.

    Parameters
    ----------
    sure
        The plan with its uncertainty. An uptake that was found from doses leans on the volume and
        on the strength of the stock, and is wrong together with them: that is taken into account.
    days, members, seed, progress
        As for `years_ahead`.
    more
        What else is known, by argument of `years_ahead`: ``start``, ``fresh``, ``gains``,
        ``fresh_salinity``; these stand before what the plan says.

    Notes
    -----
    The dose that holds the target is dosed from the first day; the days on the way are left out.
    """
    plan, figures = sure.plan, sure.plan.figures
    description = plan.description
    standard, given = sure.standard, description.number
    stock = description.stock_for("alkalinity") or description.stock_for("all-in-one")
    if stock is None:
        msg = "plan_ahead: the plan doses no alkalinity"
        raise DomainError(msg)
    dosed = {"dose": stock}
    calcium = description.stock_for("calcium")
    if calcium is not None and "dose_calcium" in figures:
        dosed["dose_calcium"] = calcium
    doses = {
        one.salt.formula: (
            figures[figure].value,
            (one.strength, standard.get(f"{STOCK}{one.name}", 0.0)),
        )
        for figure, one in dosed.items()
    }
    uptake = sure.figures["uptake"]
    names = {
        "tank.volume": "volume",
        "water_change.alkalinity": "fresh_alkalinity",
        **{f"{STOCK}{one.name}": f"strength {one.salt.formula}" for one in dosed.values()},
    }
    together = {
        ("alkalinity_uptake", names[name]): part / uptake.standard
        for name, part in uptake.parts.items()
        if name in names and uptake.standard > 0
    }
    level = figures["level"].value, sure.figures["level"].standard
    inputs: dict[str, Any] = {
        "volume": (given("tank.volume"), standard.get("tank.volume", 0.0)),
        "alkalinity_uptake": (uptake.value, uptake.standard),
        "alkalinity": level,
        "fresh_alkalinity": (
            given("water_change.alkalinity"),
            standard.get("water_change.alkalinity", 0.0),
        ),
        "change": given("water_change.share") * given("tank.volume"),
        "period": given("water_change.every"),
        "salinity": (given("tank.salinity"), standard.get("tank.salinity", 0.0)),
        "fresh_salinity": given("tank.salinity"),
        "temperature": given("tank.temperature"),
    }
    return years_ahead(
        doses,
        **(inputs | more),
        days=days,
        members=members,
        seed=seed,
        correlation=together,
        progress=progress,
    )
