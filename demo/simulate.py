"""The truth behind the invented log, and the log that a keeper of such a tank might write.

``python -m demo.simulate`` writes ``log.csv`` anew; the seed is fixed, so it writes the same.
The plan never sees the truth; a test compares the two.
"""

from __future__ import annotations

import math
import random
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from pathlib import Path

__all__ = ["Truth", "simulated", "write_log"]

MEQ_PER_DKH = 0.356652
START = datetime(2025, 11, 3, 18, 30)  # noqa: DTZ001 - the clock on the wall
DAYS = 364
LOG = Path(__file__).parent / "log.csv"


@dataclass(frozen=True)
class Truth:
    """What only the simulation knows.

    Attributes
    ----------
    uptake
        By day, dKH/d: a young tank's, which grows and levels off.
    alkalinity
        By day at the time of reading, dKH.
    nitrate
        By day, mg/L.
    rows
        Of the log.
    """

    uptake: list[float] = field(default_factory=list)
    alkalinity: list[float] = field(default_factory=list)
    nitrate: list[float] = field(default_factory=list)
    rows: list[str] = field(default_factory=list)


VOLUME = 180.0
POTENCY = 75.0 / 84.006
SHARE = 0.1
FRESH_ALKALINITY = 7.0
SCATTER = 0.10
SLIP_DAY = 345
FED_MORE = 238
RATES = {0: 16.0, 49: 20.0, 91: 25.0, 119: 32.0, 147: 38.0, 196: 43.0, 245: 46.0, 315: 44.9}
"""mL of soda a day that the pump gives, from each day on."""


def uptake_on(day: float) -> float:
    """Return the uptake that the invented corals have on a day, dKH/d."""
    return 0.20 + 0.44 / (1 + math.exp(-(day - 130) / 38))


def simulated(seed: int = 1923) -> Truth:
    """Return a year of the invented tank."""
    draw = random.Random(seed)  # noqa: S311 - no secret is made
    truth = Truth()
    alkalinity, nitrate, calcium, rate = 7.9, 6.0, 428.0, 0.0
    for day in range(DAYS):
        when = START + timedelta(days=day)
        if day in RATES:
            rate = RATES[day]
            for stock in ("soda", "calcium chloride"):
                truth.rows.append(
                    _row(when, "dose", stock, f"{rate:g}", "mL/day", "", "pump set", 60)
                )
        reading = alkalinity + draw.gauss(0.0, SCATTER)
        truth.uptake.append(uptake_on(day))
        truth.alkalinity.append(alkalinity)
        truth.nitrate.append(nitrate)
        if day % 7 in {0, 2, 5}:
            note = ""
            if day == SLIP_DAY:
                reading, note = reading - 1.3, "in a hurry, drops counted twice?"
            truth.rows.append(
                _row(when, "reading", "alkalinity", f"{reading:.1f}", "dKH", "drop titration", note)
            )
        if day % 14 == 2:
            seen = max(0.0, nitrate + draw.gauss(0.0, 0.4))
            seen = 0.0 if seen < 0.5 else round(2 * seen) / 2
            truth.rows.append(
                _row(when, "reading", "nitrate", f"{seen:g}", "mg/L", "colour card", "")
            )
        if day % 28 == 5:
            seen = calcium + draw.gauss(0.0, 6.0)
            truth.rows.append(
                _row(
                    when,
                    "reading",
                    "calcium",
                    f"{5 * round(seen / 5)}",
                    "mg/L",
                    "drop titration",
                    "",
                )
            )
        if day % 28 == 6:
            wrong = 1.4 if day < 200 else 0.0
            seen = 35.0 + wrong + draw.gauss(0.0, 0.2)
            truth.rows.append(
                _row(when, "reading", "salinity", f"{seen:.1f}", "", "refractometer", "")
            )
        if day in EVENTS:
            truth.rows.append(_row(when, "event", "", "", "", "", EVENTS[day], 90))
        if day % 7 == 6:
            truth.rows.append(_row(when, "water change", "", "18", "L", "", "", 30))
            alkalinity += SHARE * (FRESH_ALKALINITY - alkalinity)
            nitrate *= 1 - SHARE
            calcium += SHARE * (425.0 - calcium)
        if day % 3 == 0:
            truth.rows.append(
                _row(when, "top-off", "", f"{5.4 + draw.random():.1f}", "L", "", "", 40)
            )
        brought = rate * POTENCY / VOLUME / MEQ_PER_DKH
        alkalinity += brought - uptake_on(day)
        calcium += (brought - uptake_on(day)) * 7.147
        nitrate = max(0.0, nitrate + 0.16 - 0.0030 * min(day, 200))
        if day > FED_MORE:
            nitrate += 0.52 - 0.05 * nitrate
    return truth


EVENTS = {
    40: "first green film on the glass; algae lights 9 h",
    150: "two frags broken by a snail, glued again",
    202: "refractometer checked with a 35 standard: it read 1.4 too high; corrected slowly",
    FED_MORE: "nitrate has read zero for months; a little more food from today",
    330: "museum closed for paint; windows open all day",
}


def _row(
    when: datetime, what: str, quantity: str, value: str, unit: str, method: str, note: str,
    later: int = 0,
) -> str:  # fmt: skip
    cells = [f"{when + timedelta(minutes=later):%Y-%m-%d %H:%M}", what, quantity, value, unit]
    note = f'"{note}"' if "," in note else note
    return ",".join([*cells, method, note])


def write_log(path: Path = LOG, seed: int = 1923) -> None:
    """Write the log of the invented tank."""
    head = (
        "# INVENTED. Nobody measured this: demo/simulate.py made it, with a fixed seed.",
        "when,what,quantity,value,unit,method,note",
    )
    path.write_text("\n".join([*head, *simulated(seed).rows]) + "\n", encoding="utf-8")


if __name__ == "__main__":
    write_log()
