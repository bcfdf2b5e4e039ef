"""A plan for a tank: what to do today, why, how sure it is, what it leaves behind, and cautions.

Every number of a plan is a `Figure`: the value of a relation for inputs whose origin is named.
"""

from __future__ import annotations

import warnings
from dataclasses import dataclass
from typing import TYPE_CHECKING

from reefchem.core.errors import RangeWarning
from reefchem.tank.log import read_log
from reefchem.tank.planning.alkalinity import Alkalinity
from reefchem.tank.planning.behind import Drift, behind_lines, drift
from reefchem.tank.planning.cautions import cautions_for
from reefchem.tank.planning.confidence import confidence_lines, remark_lines
from reefchem.tank.planning.consistency import calcium_lines, magnesium_lines
from reefchem.tank.planning.figures import Figure, Ledger
from reefchem.tank.planning.ions import ion_lines, ions_of
from reefchem.tank.planning.methods import method_lines
from reefchem.tank.planning.nitrate import plan_nitrate
from reefchem.tank.planning.reasons import assumed_lines, reason_lines
from reefchem.tank.planning.text import Section, say
from reefchem.tank.planning.today import today_lines

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
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
        What to do today, why, how sure, what the other readings say, which method could hold
        the tank, what stays behind.
    cautions
        Always part of the plan, in every form it is printed in.
    figures
        Every number by its id, in the order in which it was worked out.
    estimate
        The fit behind the uptake.
    drift
        Salt left behind by month, for the plot.
    """

    description: Description
    log: Log
    sections: tuple[Section, ...]
    cautions: tuple[str, ...]
    figures: Mapping[str, Figure]
    estimate: UptakeEstimate
    drift: Drift


def plan_from_file(path: str | Path, *, progress: Callable[[float], None] | None = None) -> Plan:
    """Return the plan for a description file and the log that it names.

    Parameters
    ----------
    path
        The description.
    progress
        Is told now and then which share of a long log is read, from 0 to 1.

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
        progress=progress,
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

    Notes
    -----
    A value outside the range of a source is used as given, and the plan says so in the section on
    how sure it is.

    Raises
    ------
    DomainError
        When no stock brings alkalinity, or the log holds too few readings of it.
    """
    ledger = Ledger(description.texts["tank.alkalinity_unit"])
    with warnings.catch_warnings(record=True) as caught:
        warnings.simplefilter("always", RangeWarning)
        account = Alkalinity(ledger, log, description)
        today = today_lines(account)
        nitrate = plan_nitrate(ledger, log, description)
        why = (*reason_lines(account), *nitrate.why, *assumed_lines(description))
        ions = ions_of(account)
        others = (
            *ion_lines(account, ions),
            *calcium_lines(account, ions),
            *magnesium_lines(account, ions),
        )
        behind = behind_lines(account)
        methods = method_lines(account)
        sure = confidence_lines(account)
        left = drift(account)
    outside = tuple(say(f"{text}.") for text in dict.fromkeys(str(w.message) for w in caught))
    sections = (
        Section("today", "What to do today", (*today, *nitrate.today)),
        Section("why", "Why", why),
        Section("sure", "How sure this is", (*sure, *outside, *remark_lines(log))),
        Section("others", "What the other readings say", others),
        Section("methods", "Which method could hold this tank", methods),
        Section("behind", "What the method leaves behind", behind),
    )
    return Plan(
        description,
        log,
        sections,
        cautions_for(description),
        ledger.figures,
        account.estimate,
        left,
    )
