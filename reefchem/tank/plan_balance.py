"""The part of a plan that says what the method leaves behind, month after month."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from reefchem.dosing.oxidation import oxygen_for_formate
from reefchem.dosing.residue import salinity_gained, sodium_chloride_left, sodium_chloride_over_time
from reefchem.tank.exchange import after_water_changes_with_gain, level_before_water_change
from reefchem.tank.figures import Figure, Given, Ledger
from reefchem.tank.holding import alkalinity_taken
from reefchem.tank.plan_alkalinity import MONTH, Alkalinity
from reefchem.tank.plan_text import Line

if TYPE_CHECKING:
    from reefchem.tank.description import Description

__all__ = ["Balance", "plan_balance"]

MONTHS = 12
YEAR = 365.0


@dataclass(frozen=True)
class Balance:
    """What stays behind.

    Attributes
    ----------
    lines
        For the plan.
    months
        Of the plot.
    without, with_changes
        Sodium chloride left in mg/L at each month, without and with the water changes.
    all_in_one
        The same for calcium formate or limewater: nothing stays.
    """

    lines: tuple[Line, ...]
    months: tuple[float, ...]
    without: tuple[float, ...]
    with_changes: tuple[float, ...]
    all_in_one: tuple[float, ...]


def plan_balance(ledger: Ledger, description: Description, alkalinity: Alkalinity) -> Balance:
    """Return what the method leaves behind, in words and for the plot."""
    share = description.number("water_change.share")
    every = description.number("water_change.every")
    taken = ledger.figures.get("taken_month") or _month(ledger, alkalinity)
    if alkalinity.uptake.value <= 0:
        lines: tuple[Line, ...] = (
            Line(("The readings show no uptake; nothing is used, so nothing is left behind.",)),
        )
    elif alkalinity.stock.purpose == "all-in-one":
        lines = _all_in_one(ledger, taken, alkalinity)
    else:
        lines = _two_part(ledger, description, taken, alkalinity)
    left = sodium_chloride_left
    used = alkalinity_taken
    gathered = after_water_changes_with_gain
    uptake = max(alkalinity.uptake.value, 0.0)
    months = tuple(float(month) for month in range(MONTHS + 1))
    without = tuple(left(used(uptake, month * MONTH)) for month in months)
    kept = without
    if share > 0:
        gain = left(used(uptake, every))
        kept = tuple(gathered(0.0, 0.0, gain, share, month * MONTH / every) for month in months)
    return Balance(lines, months, without, kept, tuple(0.0 for _ in months))


def _month(ledger: Ledger, alkalinity: Alkalinity) -> Figure:
    return ledger.work_out(
        "taken_month", "alkalinity that the corals take in a month", alkalinity_taken,
        uptake=alkalinity.uptake, days=Given(MONTH, "a month of 30 days"),
    )  # fmt: skip


def _two_part(
    ledger: Ledger, description: Description, taken: Figure, alkalinity: Alkalinity
) -> tuple[Line, ...]:
    month = ledger.work_out(
        "salt_month", "sodium chloride left in a month", sodium_chloride_left,
        alkalinity_used=taken,
    )  # fmt: skip
    year = ledger.work_out(
        "salt_year", "sodium chloride left in a year without water changes",
        sodium_chloride_over_time,
        daily_uptake=alkalinity.uptake, time=Given(YEAR, "a year"),
    )  # fmt: skip
    gained = ledger.work_out(
        "salinity_year", "rise of salinity in that year, if only evaporated water is made up",
        salinity_gained,
        salt=year,
        salinity=Given(description.number("tank.salinity"), description.origin("tank.salinity")),
        temperature=Given(
            description.number("tank.temperature"), description.origin("tank.temperature")
        ),
    )  # fmt: skip
    lines = [
        Line((
            "Dosing in two parts leaves table salt behind: ", month, " of sodium chloride in a "
            "month. Without water changes that is ", year, " in a year, and a practical salinity higher by ",
            gained, "; bringing the salinity back with fresh water then thins out everything else.",
        )),
    ]  # fmt: skip
    share = description.number("water_change.share")
    if share > 0:
        every = Given(
            description.number("water_change.every"), description.origin("water_change.every")
        )
        taken_between = ledger.work_out(
            "taken_between", "alkalinity that the corals take between two water changes",
            alkalinity_taken, uptake=alkalinity.uptake, days=every,
        )  # fmt: skip
        gain = ledger.work_out(
            "salt_between", "sodium chloride left between two water changes",
            sodium_chloride_left, alkalinity_used=taken_between,
        )  # fmt: skip
        settled = ledger.work_out(
            "salt_settled", "sodium chloride in excess once it has settled, before a change",
            level_before_water_change,
            fresh=Given(0.0, "fresh seawater has no excess"), gain=gain,
            share=Given(share, description.origin("water_change.share")),
        )  # fmt: skip
        lines.append(Line((
            "The water changes take it out again: in the long run it settles at ", settled,
            " above that of seawater.",
        )))  # fmt: skip
    return tuple(lines)


def _all_in_one(ledger: Ledger, taken: Figure, alkalinity: Alkalinity) -> tuple[Line, ...]:
    lines = [Line((
        "The stock brings calcium and alkalinity in the ratio of skeleton, and no chloride or "
        "sodium: nothing stays behind once the corals have used it.",
    ))]  # fmt: skip
    if "formate" in alkalinity.stock.salt.components:
        oxygen = ledger.work_out(
            "oxygen", "oxygen that bacteria use in a month for the formate", oxygen_for_formate,
            alkalinity=taken,
        )  # fmt: skip
        lines.append(Line((
            "Bacteria turn the formate into hydrogencarbonate and use ", oxygen, " of oxygen in a "
            "month: keep the surface moving, and let a dose work before measuring.",
        )))  # fmt: skip
    return tuple(lines)
