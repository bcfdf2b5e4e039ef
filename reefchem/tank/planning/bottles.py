"""Whether the stocks of a plan can dissolve at all."""

from __future__ import annotations

from typing import TYPE_CHECKING

from reefchem.tank.planning.figures import Given
from reefchem.tank.planning.text import Line, say
from reefchem.tank.reach import times_saturated

if TYPE_CHECKING:
    from reefchem.tank.planning.alkalinity import Alkalinity

__all__ = ["stock_lines"]

ROOM = 20.0
"""Temperature at which bottles are taken to stand, °C; common practice, no source."""


def stock_lines(account: Alkalinity) -> tuple[Line, ...]:
    """Return a line for each stock that holds more than water dissolves."""
    lines = []
    for index, stock in enumerate(account.description.stocks, 1):
        table = stock.salt.solubility
        molality = None if table is None else table.molality(ROOM)
        if table is None or molality is None:
            continue
        if stock.strength / stock.salt.molar_mass <= molality:
            continue
        times = account.ledger.work_out(
            f"saturated_{index}",
            f"what {stock.name} is to hold, over what water dissolves",
            times_saturated,
            strength=Given(stock.strength, f"{account.description.path.name}, stock {stock.name}"),
            molar_mass=Given(stock.salt.molar_mass, f"catalogue of salts, {stock.salt.formula}"),
            molality=Given(
                molality, f"catalogue of salts, solubility at {ROOM:g} °C ({table.source})"
            ),
        )
        lines.append(
            say(
                f"First make {stock.name} anew, weaker: as described it is to hold ",
                times,
                f" times what water dissolves at {ROOM:g} °C. The rest lies at the bottom and is "
                "never dosed, so every dose below would fall short.",
            )
        )
    return tuple(lines)
