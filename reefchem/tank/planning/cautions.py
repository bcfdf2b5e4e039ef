"""The cautions of a plan: of every stock, and of a tank in a house."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from reefchem.tank.description import Description

__all__ = ["ALWAYS", "BEFORE_A_DOSE", "IN_THE_HOUSE", "cautions_for"]

BEFORE_A_DOSE: tuple[str, ...] = (
    (
        "Measure the alkalinity again before the first dose; if it disagrees with the plan, "
        "find out why before anything is dosed."
    ),
    (
        "Fast swings harm corals and fish: keep to the largest change in a day, and never "
        "make up for a missed dose at once."
    ),
    ("Dose each stock apart from the others, into moving water, some minutes after the last."),
)
"""What is read first, whatever is dosed."""

IN_THE_HOUSE: tuple[str, ...] = (
    (
        "Label every bottle with its contents and date; keep them locked away from children "
        "and animals, and never in bottles made for food or drink."
    ),
    (
        "Electricity and salt water: unplug heaters, pumps and lamps before you reach in, keep a "
        "drip loop on every cable, and use a residual-current device."
    ),
    (
        "Some corals, zoanthids above all, carry a strong poison: wear gloves and eye "
        "protection, never boil, scrape or blast rock that bears them, and call a poison "
        "centre if in doubt."
    ),
    (
        "Make stocks with purified water; follow the product's safety data sheet and local "
        "rules, and leave what needs a licence to those who have one."
    ),
)
"""What holds for every tank in a house."""

ALWAYS = BEFORE_A_DOSE + IN_THE_HOUSE
"""What holds whatever is dosed."""


def cautions_for(description: Description) -> tuple[str, ...]:
    """Return what to mind before a dose, of every stock of a description, and in the house."""
    found = dict.fromkeys(BEFORE_A_DOSE)
    for stock in description.stocks:
        for caution in stock.salt.cautions():
            found.setdefault(f"{caution[:1].upper()}{caution[1:]}")
    for caution in IN_THE_HOUSE:
        found.setdefault(caution)
    return tuple(found)
