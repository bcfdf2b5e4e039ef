"""What a plan says first: what to dose and to change today."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from reefchem.dosing.calcification import calcium_used
from reefchem.tank.exchange import alkalinity_after_water_changes, volume_to_change
from reefchem.tank.holding import daily_dose, doses_in_a_day
from reefchem.tank.planning.alkalinity import AHEAD
from reefchem.tank.planning.bottles import stock_lines
from reefchem.tank.planning.figures import Figure, Given
from reefchem.tank.planning.text import Line, days_text, say

if TYPE_CHECKING:
    from reefchem.tank.planning.alkalinity import Alkalinity, Way

__all__ = ["today_lines"]

CALCIUM_EQUIVALENTS = 2.0
"""Of a mole of calcium."""


def today_lines(account: Alkalinity) -> tuple[Line, ...]:
    """Return what to dose and to change, the dose first."""
    return (
        *stock_lines(account),
        *_dose(account),
        *_calcium(account),
        *_water_change(account),
    )


def _dose(account: Alkalinity) -> tuple[Line, ...]:
    stock, hold, way = account.stock.name, account.hold, account.way
    if account.need.value <= 0:
        return (
            say(
                f"Dose no {stock}: the water changes alone bring what is used (",
                account.need,
                " would be needed from doses).",
            ),
        )
    if account.pump is not None:
        return (
            say(
                f"Leave the pump of {stock} at {account.pump.written}. The alkalinity, ",
                account.level,
                ", is as near the target as the readings can tell, and the dose that holds it, ",
                hold,
                ", differs from the pump's by less than they can tell.",
                *_split(account, account.held),
            ),
        )
    if way is None:
        return (
            say(
                "Dose ",
                hold,
                f" of {stock}. The alkalinity, ",
                account.level,
                ", is as near the target as the readings can tell.",
                *_split(account, account.need),
            ),
        )
    then = say("Then, or sooner if a reading reaches the target, dose ", hold,
               f" of {stock} to hold it.")  # fmt: skip
    return (_on_the_way(account, way), then)


def _on_the_way(account: Alkalinity, way: Way) -> Line:
    stock = account.stock.name
    target = f"the target of {account.written('targets.alkalinity')}"
    span = f"For the next {days_text(way.days)}"
    if way.dosed is None:
        return say(
            f"{span}, dose no {stock}: the alkalinity, ",
            account.level,
            f", is above {target}, and the corals bring it down by themselves.",
        )
    need, dose = way.dosed
    rises = account.level.value < account.target.value
    return say(
        f"{span}, dose {'' if rises else 'only '}",
        dose,
        f" of {stock}: the alkalinity {'rises' if rises else 'falls'} from ",
        account.level,
        f" to {target}, no faster than {account.written('limits.alkalinity')}.",
        *_split(account, need),
    )


def _split(account: Alkalinity, need: Figure) -> tuple[str | Figure, ...]:
    """Say into how many doses a day's need is split, when one would raise it too far."""
    exact = account.ledger.work_out(
        "doses",
        "doses in a day so that none raises the alkalinity too far",
        doses_in_a_day,
        need=need,
        single=account.given("limits.single_dose"),
        days=Given(1.0, "one day"),
    )
    single = account.written("limits.single_dose")
    if exact.value <= 1:
        return (
            " One dose a day will do: it brings ",
            exact,
            f" times the {single} that one may raise it.",
        )
    return (
        f" Split it into at least {math.ceil(exact.value)} equal doses a day: ",
        exact,
        f", rounded up, so that none raises it by more than {single}.",
    )


def _calcium(account: Alkalinity) -> tuple[Line, ...]:
    """Say how much of the calcium stock goes with the dose, for a method in two parts."""
    if account.stock.purpose == "all-in-one" or account.need.value <= 0:
        return ()
    taken = account.ledger.work_out(
        "calcium",
        "calcium that goes into skeletons in a week",
        calcium_used,
        alkalinity_used=account.taken(AHEAD, "week"),
    )
    other = account.description.stock_for("calcium")
    if other is None:
        return (
            say(
                "No calcium stock is described: the corals also take calcium, ",
                taken,
                " in a week, which the water changes must bring.",
            ),
        )
    dose = account.ledger.work_out(
        "dose_calcium",
        f"daily dose of {other.name} that goes with it",
        daily_dose,
        need=account.held,
        volume=account.volume,
        potency=account.potency(other, CALCIUM_EQUIVALENTS, "_calcium"),
    )
    return (
        say(
            "With it, at another time of the day, dose ",
            dose,
            f" of {other.name}: as many equivalents of calcium as the dose that holds the target "
            "brings of alkalinity, since skeletons take both alike (",
            taken,
            " of calcium in a week).",
        ),
    )


def _water_change(account: Alkalinity) -> tuple[Line, ...]:
    litres = account.ledger.work_out(
        "water_change",
        "volume of a water change",
        volume_to_change,
        share=account.share,
        volume=account.volume,
    )
    after = account.ledger.work_out(
        "after_change",
        "alkalinity after a water change at the target",
        alkalinity_after_water_changes,
        alkalinity=account.target,
        fresh=account.fresh,
        share=account.share,
        changes=Given(1.0, "one change"),
    )
    if account.share.value == 0:
        return ()
    lines = [
        say(
            f"Every {days_text(account.every.value)}, change ",
            litres,
            " of the water. At the target this moves the alkalinity to ",
            after,
            ", and the daily dose above allows for it.",
        )
    ]
    if abs(after.value - account.target.value) > account.given("limits.single_dose").value:
        lines.append(
            say(
                "That is more than a single dose may do: bring the fresh seawater nearer the "
                "tank's alkalinity first, or change less at a time and more often."
            )
        )
    return tuple(lines)
