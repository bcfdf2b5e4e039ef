"""What a method leaves behind, month after month."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from reefchem.dosing.oxidation import oxygen_for_formate
from reefchem.dosing.residue import (
    salinity_gained,
    sodium_chloride_left,
    sodium_chloride_over_time,
)
from reefchem.tank.exchange import after_water_changes_with_gain, level_before_water_change
from reefchem.tank.holding import alkalinity_taken
from reefchem.tank.planning.alkalinity import MONTH
from reefchem.tank.planning.figures import Given
from reefchem.tank.planning.text import Line, say

if TYPE_CHECKING:
    from reefchem.tank.planning.alkalinity import Alkalinity

__all__ = ["YEAR", "Drift", "behind_lines", "drift"]

MONTHS = 12
YEAR = 365.0


@dataclass(frozen=True)
class Drift:
    """Sodium chloride left behind, mg/L at each month, for the plot.

    Attributes
    ----------
    months
        Of 30 days, from now.
    without, with_changes
        Two-part dosing at the present uptake, without and with the water changes.
    all_in_one
        The same for calcium formate or limewater: nothing stays.
    """

    months: tuple[float, ...]
    without: tuple[float, ...]
    with_changes: tuple[float, ...]
    all_in_one: tuple[float, ...]


def drift(account: Alkalinity) -> Drift:
    """Return what two-part dosing would leave behind over a year."""
    uptake = max(account.uptake.value, 0.0)
    share, every = account.share.value, account.every.value
    months = tuple(float(month) for month in range(MONTHS + 1))
    without = tuple(
        float(sodium_chloride_left(alkalinity_taken(uptake, month * MONTH))) for month in months
    )
    kept = without
    if share > 0:
        gain = sodium_chloride_left(alkalinity_taken(uptake, every))
        kept = tuple(
            float(after_water_changes_with_gain(0.0, 0.0, gain, share, month * MONTH / every))
            for month in months
        )
    return Drift(months, without, kept, tuple(0.0 for _ in months))


def behind_lines(account: Alkalinity) -> tuple[Line, ...]:
    """Return what the method of the description leaves behind."""
    if account.uptake.value <= 0:
        return (say("The readings show no uptake; nothing is used, so nothing is left behind."),)
    if account.stock.purpose == "all-in-one":
        return _all_in_one(account)
    return _two_part(account)


def _two_part(account: Alkalinity) -> tuple[Line, ...]:
    work_out = account.ledger.work_out
    month = work_out(
        "salt_month",
        "sodium chloride left in a month",
        sodium_chloride_left,
        alkalinity_used=account.taken(MONTH, "month"),
    )
    year = work_out(
        "salt_year",
        "sodium chloride left in a year without water changes",
        sodium_chloride_over_time,
        daily_uptake=account.uptake,
        time=Given(YEAR, "a year"),
    )
    gained = work_out(
        "salinity_year",
        "rise of practical salinity in that year, if only evaporated water is made up",
        salinity_gained,
        salt=year,
        salinity=account.given("tank.salinity"),
        temperature=account.given("tank.temperature"),
    )
    first = say(
        "Dosing in two parts leaves table salt behind: ",
        month,
        " of sodium chloride in a month. Without water changes that is ",
        year,
        " in a year, and a practical salinity higher by ",
        gained,
        "; bringing the salinity back with fresh water then thins out everything else.",
    )
    if account.share.value == 0:
        return (first,)
    between = work_out(
        "taken_between",
        "alkalinity that the corals take between two water changes",
        alkalinity_taken,
        uptake=account.uptake,
        days=account.every,
    )
    gain = work_out(
        "salt_between",
        "sodium chloride left between two water changes",
        sodium_chloride_left,
        alkalinity_used=between,
    )
    settled = work_out(
        "salt_settled",
        "sodium chloride in excess once it has settled, before a change",
        level_before_water_change,
        fresh=Given(0.0, "fresh seawater has no excess"),
        gain=gain,
        share=account.share,
    )
    second = say(
        "The water changes take it out again: in the long run it settles at ",
        settled,
        " above that of seawater.",
    )
    return (first, second)


def _all_in_one(account: Alkalinity) -> tuple[Line, ...]:
    lines = [
        say(
            "The stock brings calcium and alkalinity in the ratio of skeleton, and no chloride or "
            "sodium: nothing stays behind once the corals have used it."
        )
    ]
    if "formate" in account.stock.salt.components:
        oxygen = account.ledger.work_out(
            "oxygen",
            "oxygen that bacteria use in a month for the formate",
            oxygen_for_formate,
            alkalinity=account.taken(MONTH, "month"),
        )
        lines.append(
            say(
                "Bacteria turn the formate into hydrogencarbonate and use ",
                oxygen,
                " of oxygen in a month: keep the surface moving, and let a dose work before "
                "measuring.",
            )
        )
    return tuple(lines)
