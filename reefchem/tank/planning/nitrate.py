"""The part of a plan that brings the nitrate to its target: a dose, or water changes."""

from __future__ import annotations

import math
from dataclasses import dataclass
from statistics import median
from typing import TYPE_CHECKING

from reefchem.dosing.dose import days_to_change
from reefchem.dosing.nutrients import (
    potassium_nitrate_volume,
    sodium_nitrate_volume,
    sodium_with_nitrate,
)
from reefchem.tank.exchange import after_water_changes, water_changes_needed
from reefchem.tank.nutrients import nitrate_rise, potassium_with_nitrate
from reefchem.tank.planning.figures import Given, Ledger
from reefchem.tank.planning.text import Line, days_text, say

if TYPE_CHECKING:
    from reefchem.tank.description import Description, Stock
    from reefchem.tank.log import Log

__all__ = ["Nitrate", "plan_nitrate"]

COUNTED = 3
"""Last readings whose median is taken as the level: one slip among them does no harm."""

NEAR = 0.25
"""Share of the target within which nothing is done; a test kit sees no less."""

VOLUME_RELATIONS = {
    "KNO3": (potassium_nitrate_volume, potassium_with_nitrate, "potassium"),
    "NaNO3": (sodium_nitrate_volume, sodium_with_nitrate, "sodium"),
}


@dataclass(frozen=True)
class Nitrate:
    """Lines for today, and why."""

    today: tuple[Line, ...]
    why: tuple[Line, ...]


def plan_nitrate(ledger: Ledger, log: Log, description: Description) -> Nitrate:
    """Return the part of a plan that brings the nitrate to its target."""
    readings = log.readings("nitrate")[-COUNTED:]
    if not readings:
        return Nitrate((say("Nitrate: the log has no reading; measure it before dosing any."),), ())
    value = median(entry.value for entry in readings)
    lines = ", ".join(str(entry.line) for entry in readings)
    word = "line" if len(readings) == 1 else "lines"
    level = Given(value, f"{log.file}, {word} {lines}; the median")
    target = Given(description.number("targets.nitrate"), description.origin("targets.nitrate"))
    count = len(readings)
    read = f"the median of the last {count} readings" if count > 1 else "one reading"
    why = say(
        f"Nitrate reads {value:.3g} mg/L ({read}; {log.file}, {word} {lines}). The target is "
        f"{description.written['targets.nitrate']}."
    )
    near = NEAR * target.value
    if abs(value - target.value) <= near:
        return Nitrate((say("Nitrate is near its target: dose none."),), (why,))
    if value > target.value:
        return Nitrate((_lower(ledger, description, level, target),), (why,))
    stock = next((s for s in description.stocks if s.salt.formula in VOLUME_RELATIONS), None)
    if stock is None:
        line = say(
            "Nitrate is below its target and no stock of potassium or sodium nitrate is "
            "described: feed more, or run the algae lights less."
        )
        return Nitrate((line,), (why,))
    return Nitrate((_raise(ledger, description, level, target, stock),), (why,))


def _raise(
    ledger: Ledger, description: Description, level: Given, target: Given, stock: Stock
) -> Line:
    relation, beside, ion = VOLUME_RELATIONS[stock.salt.formula]
    exact = ledger.work_out(
        "nitrate_days",
        "days over which the rise of nitrate is spread",
        days_to_change,
        start=level,
        target=target,
        most=Given(description.number("limits.nitrate"), description.origin("limits.nitrate")),
    )
    days = float(max(1, math.ceil(exact.value - 1e-9)))
    rise = ledger.work_out(
        "nitrate_rise",
        "rise of nitrate in a day",
        nitrate_rise,
        level=level,
        target=target,
        days=Given(days, "the next whole number of days", exact.id),
    )
    dose = ledger.work_out(
        "nitrate_dose",
        f"dose of {stock.name} on each of these days",
        relation,
        nitrate_rise=rise,
        volume=Given(description.number("tank.volume"), description.origin("tank.volume")),
        strength=Given(stock.strength, f"{description.path.name}, stock {stock.name}"),
    )
    comes = ledger.work_out(
        "nitrate_beside", f"{ion} that comes with it", beside, nitrate_rise=rise
    )
    return say(
        f"For the next {days_text(days)}, dose ",
        dose,
        f" of {stock.name} a day: the nitrate rises by ",
        rise,
        f" each time (and the {ion} by ",
        comes,
        "). Then measure again: what the algae take meanwhile is not counted here.",
    )


def _lower(ledger: Ledger, description: Description, level: Given, target: Given) -> Line:
    fresh = Given(
        description.number("water_change.nitrate"), description.origin("water_change.nitrate")
    )
    share = Given(
        description.number("water_change.share"), description.origin("water_change.share")
    )
    after = ledger.work_out(
        "nitrate_after_change",
        "nitrate after the next water change",
        after_water_changes,
        level=level,
        fresh=fresh,
        share=share,
        changes=Given(1.0, "one change"),
    )
    if fresh.value >= target.value or not 0 < share.value < 1:
        return say(
            "Nitrate is above its target. The next water change brings it to ",
            after,
            "; these water changes alone cannot bring it to the target.",
        )
    needed = ledger.work_out(
        "nitrate_changes",
        "water changes until the nitrate is at its target, if none is added",
        water_changes_needed,
        level=level,
        target=target,
        fresh=fresh,
        share=share,
    )
    return say(
        "Nitrate is above its target: dose none. The next water change brings it to ",
        after,
        "; without any new nitrate it would take ",
        needed,
        " such changes to the target.",
    )
