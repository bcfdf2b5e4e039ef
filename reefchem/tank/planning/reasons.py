"""Why a plan says what it says."""

from __future__ import annotations

from typing import TYPE_CHECKING

from reefchem.dosing.calcification import calcium_carbonate_grown
from reefchem.tank.description import FIELDS
from reefchem.tank.holding import alkalinity_ahead, alkalinity_brought
from reefchem.tank.planning.alkalinity import AHEAD, MONTH
from reefchem.tank.planning.figures import Given
from reefchem.tank.planning.pump import dosed_of_late
from reefchem.tank.planning.text import Line, days_text, say

if TYPE_CHECKING:
    from datetime import datetime

    from reefchem.tank.description import Description
    from reefchem.tank.planning.alkalinity import Alkalinity

__all__ = ["assumed_lines", "date_text", "reason_lines"]


def reason_lines(account: Alkalinity) -> tuple[Line, ...]:
    """Return what the readings show, what the doses must bring, and where those of late lead."""
    readings = account.estimate.readings
    first, last = (date_text(readings[index].entry.when) for index in (0, -1))
    grown = account.ledger.work_out(
        "skeleton",
        "calcium carbonate that the corals build in 30 days",
        calcium_carbonate_grown,
        alkalinity_used=account.taken(MONTH, "month"),
        volume=account.volume,
    )
    return (
        say(
            f"From {first} to {last} there are {len(readings)} readings of alkalinity. With the "
            "doses and water changes of the log they show an uptake of ",
            account.uptake,
            ". That is ",
            grown,
            " of skeleton in a month.",
        ),
        say(
            "Beside what the water changes bring and take, the doses must bring ",
            account.need,
            ".",
        ),
        _at_the_doses_of_late(account),
    )


def _at_the_doses_of_late(account: Alkalinity) -> Line:
    readings = account.estimate.readings
    potencies = {name: figure.value for name, figure in account.potencies.items()}
    equivalents, span = dosed_of_late(
        account.log, potencies, readings[0].entry.when, readings[-1].entry.when
    )
    brought = account.ledger.work_out(
        "brought",
        "alkalinity that the doses brought in a day of late",
        alkalinity_brought,
        equivalents=Given(
            equivalents, f"doses in {account.log.file} over the last {days_text(span)}"
        ),
        volume=account.volume,
        days=Given(span, account.log.file),
    )
    ahead = account.ledger.work_out(
        "ahead",
        "alkalinity in a week at the doses of late, before a water change",
        alkalinity_ahead,
        alkalinity=account.level,
        brought=brought,
        uptake=account.uptake,
        days=Given(AHEAD, "one week"),
    )
    return say(
        "Of late the doses brought ",
        brought,
        ". With as much a day the alkalinity goes from ",
        account.level,
        " to ",
        ahead,
        " in a week, before a water change.",
    )


def assumed_lines(description: Description) -> tuple[Line, ...]:
    """Say which values the plan took because the description gives none."""
    taken = [
        f"{FIELDS[table][key].title} {written}"
        for name, written in description.written.items()
        for table, _, key in [name.partition(".")]
        if name in description.defaults and table in FIELDS and FIELDS[table][key].practice
    ]
    if "stock 1.uncertainty" in description.defaults:
        written = description.written["stock 1.uncertainty"]
        taken.append(f"standard uncertainty of a stock's strength {written}")
    if not taken:
        return ()
    listed = "; ".join(taken)
    return (say(f"Common practice, no source, where the description says nothing: {listed}."),)


def date_text(when: datetime) -> str:
    """Return a date as a reader writes it."""
    return f"{when.day} {when:%B %Y}"
