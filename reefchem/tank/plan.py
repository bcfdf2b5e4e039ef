"""A plan for a tank: what to do today, why, how sure it is, what it leaves behind, and cautions.

Every number of a plan is a `Figure`: the value of a relation for inputs whose origin is named.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from reefchem.tank.cautions import cautions_for
from reefchem.tank.description import FIELDS
from reefchem.tank.figures import Figure, Ledger
from reefchem.tank.log import read_log
from reefchem.tank.plan_alkalinity import Alkalinity, plan_alkalinity
from reefchem.tank.plan_balance import Balance, plan_balance
from reefchem.tank.plan_nitrate import plan_nitrate
from reefchem.tank.plan_text import Line, Section

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from reefchem.tank.description import Description
    from reefchem.tank.log import Log
    from reefchem.tank.uptake_fit import UptakeEstimate

__all__ = ["Plan", "dosing_plan", "plan_from_file"]


@dataclass(frozen=True)
class Plan:
    """Decisions in the order in which a keeper needs them.

    Attributes
    ----------
    sections
        What to do today, why, what stays behind, how sure.
    cautions
        Always part of the plan, in every form it is printed in.
    figures
        Every number by its id, in the order in which it was worked out.
    estimate
        The fit behind the uptake.
    balance
        Level of the salt left behind by month, for the plot.
    """

    description: Description
    log: Log
    sections: tuple[Section, ...]
    cautions: tuple[str, ...]
    figures: Mapping[str, Figure]
    estimate: UptakeEstimate
    balance: Balance


def plan_from_file(path: Path) -> Plan:
    """Return the plan for a description file and the log that it names.

    Raises
    ------
    DomainError
        When either cannot be used; the message lists every fault.
    """
    from reefchem.tank.description import read_description  # noqa: PLC0415 - only for files

    description = read_description(path)
    log = read_log(
        description.log_path,
        time_zone=description.texts["tank.time_zone"] or None,
        stocks={stock.name for stock in description.stocks},
    )
    return dosing_plan(log, description)


def dosing_plan(log: Log, description: Description) -> Plan:
    """Return the plan that a log and a description lead to.

    Parameters
    ----------
    log
        Readings, doses and water changes.
    description
        The tank, its targets, limits and stocks.

    Raises
    ------
    DomainError
        When no stock brings alkalinity, or the log holds too few readings of it.
    """
    ledger = Ledger(description.texts["tank.alkalinity_unit"])
    alkalinity: Alkalinity = plan_alkalinity(ledger, log, description)
    nitrate = plan_nitrate(ledger, log, description)
    balance = plan_balance(ledger, description, alkalinity)
    sections = (
        Section("today", "What to do today", (*alkalinity.today, *nitrate.today)),
        Section("why", "Why", (*alkalinity.why, *nitrate.why, *_assumed(description))),
        Section("behind", "What the method leaves behind", balance.lines),
        Section("sure", "How sure this is", (*alkalinity.sure, *_remarks(log))),
    )
    return Plan(
        description,
        log,
        sections,
        cautions_for(description),
        ledger.figures,
        alkalinity.estimate,
        balance,
    )


def _assumed(description: Description) -> tuple[Line, ...]:
    """Say which values the plan took because the description gives none."""
    taken = [
        f"{FIELDS[table][key].title} {description.written[name]}"
        for name in description.written
        for table, _, key in [name.partition(".")]
        if name in description.defaults and table in FIELDS and FIELDS[table][key].practice
    ]
    if not taken:
        return ()
    listed = "; ".join(taken)
    return (
        Line((f"Common practice, no source, taken since the description is silent: {listed}.",)),
    )


def _remarks(log: Log) -> tuple[Line, ...]:
    events = [entry for entry in log if entry.what == "event"]
    if not events:
        return ()
    last = events[-1]
    return (
        Line(
            (
                "The log's last remark, of ",
                f"{last.when:%d %B %Y}".lstrip("0"),
                ": ",
                last.note,
                ".",
            )
        ),
    )
