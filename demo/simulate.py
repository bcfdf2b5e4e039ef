"""The truth behind the invented log, and the log that a keeper of such a tank might write.

``python -m demo.simulate`` writes two files anew. ``notebook.csv`` is what the keeper wrote down in
a year, slips of the pen included; a log like that is refused. ``log.csv`` is the same after it was
put right. The seed is fixed, so that both come out the same. The plan never sees the truth; tests
and `demo.judge` compare the two.
"""

from __future__ import annotations

import math
import random
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from pathlib import Path

from reefchem.dosing import share_replaced
from reefchem.seawater import nacl_scale_reading, salinity_from_nacl_scale
from reefchem.tank import nitrate_from_food, nitrogen_in_food

__all__ = ["Truth", "simulated", "write_logs"]

MEQ_PER_DKH = 0.356652
START = datetime(2025, 11, 3, 18, 30)  # noqa: DTZ001 - the clock on the wall
DAYS = 364
HERE = Path(__file__).parent

VOLUME = 180.0
POTENCY = 75.0 / 84.006
"""meq in a millilitre of the soda."""
CALCIUM_POTENCY = 65.0 / 147.008 * 40.078
"""mg of calcium in a millilitre of the calcium chloride."""
CHANGE, EVAPORATION = 18.0, 1.9
"""L in a week, and L in a day."""

FRESH = {"alkalinity": 7.0, "calcium": 422.0, "magnesium": 1314.0, "nitrate": 0.0, "salinity": 35.0}
"""Of new seawater at a true salinity of 35: dKH, mg/L."""
SCATTER = {"alkalinity": 0.10, "calcium": 6.0, "magnesium": 15.0, "nitrate": 0.4, "salinity": 0.15}
"""Standard deviation of a reading, in the same units."""

RATES = {
    0: 16.0, 49: 20.0, 91: 25.0, 119: 32.0, 147: 38.0, 196: 43.0, 245: 46.0,
    281: 0.0, 283: 56.0, 291: 46.0, 315: 45.0,
}  # fmt: skip
"""mL of soda a day that the pump gives, from each day on; and as much calcium chloride, whose
bottle was not the empty one."""
SODA_ONLY = {281, 283, 291}

STUCK = range(161, 165)
"""Days without top-off."""
REFILL = range(165, 167)
"""Days over which the missing water is put back."""
CHECKED = 202
"""The day on which the refractometer was held into a standard."""
SALTED = range(203, 207)
"""Days on which seawater replaces what evaporates, to bring the salinity up."""
LIGHTS = {0: 6.0, 40: 9.0, 238: 6.0}
"""Hours of light for the algae, from each day on."""
FOOD = {0: 0.25, 30: 0.5}
"""g a day, from each day on."""
PROTEIN, KEPT = 0.45, 0.2
SLIP_DAY = 345
UNIT_DAY = 254
EMPTY = range(281, 283)
"""Days on which the bottle of soda was empty; written into the log when it was found."""

EVENTS = {
    30: "two more fish; half a gram of food a day",
    40: "first green film on the glass; algae lights 9 h",
    150: "two frags broken by a snail, glued again",
    165: "home again: top-off pump stuck since the 13th, water 7 L low; filled up over two days",
    CHECKED: "refractometer held into a 35 standard: it reads 36.6; kitchen-salt scale",
    203: "top-off with seawater for four days, to bring the salinity up",
    238: "nitrate has read zero for months; algae lights 6 h instead of 9",
    283: "soda bottle was empty, perhaps for two days; no making up for it at once",
    330: "museum closed for paint; windows open all day",
}


@dataclass(frozen=True)
class Truth:
    """What only the simulation knows, by day at the time of reading; and what was written down.

    Attributes
    ----------
    uptake
        Of the corals, dKH in a day: a young tank's, which grows and levels off.
    alkalinity, calcium, magnesium, nitrate, salinity
        In dKH and mg/L.
    taken
        Nitrate that the algae take in a day, mg/L.
    rows, notebook
        Of the log that was put right, and of the one that was written.
    """

    uptake: list[float] = field(default_factory=list)
    alkalinity: list[float] = field(default_factory=list)
    calcium: list[float] = field(default_factory=list)
    magnesium: list[float] = field(default_factory=list)
    nitrate: list[float] = field(default_factory=list)
    salinity: list[float] = field(default_factory=list)
    taken: list[float] = field(default_factory=list)
    rows: list[str] = field(default_factory=list)
    notebook: list[str] = field(default_factory=list)


def uptake_on(day: float) -> float:
    """Return the uptake that the invented corals have on a day, dKH/d."""
    return 0.20 + 0.44 / (1 + math.exp(-(day - 130) / 38))


def algae_on(day: float) -> float:
    """Return the nitrate that the invented algae take in an hour of light, mg/L."""
    return 0.1105 / (1 + math.exp(-(day - 45) / 8))


def since(table: dict[int, float], day: int) -> float:
    """Return what holds on a day of a table of changes."""
    return next(value for start, value in reversed(table.items()) if start <= day)


def fresh_on(day: int) -> dict[str, float]:
    """Return the new seawater of a day, as it truly is.

    Until the refractometer was checked it was mixed to a reading of 35. It is mixed a little
    thinner than the tank, so that the salt which the doses leave does not raise the salinity.
    """
    salinity = salinity_from_nacl_scale(35.0) if day <= CHECKED else 35.0
    left = uptake_on(day) * MEQ_PER_DKH * 7 * 58.44 / 1000
    thinner = 1 - share_replaced(left, 36.0) * VOLUME / CHANGE
    share = salinity / 35.0
    made = {name: value * share * thinner for name, value in FRESH.items()}
    return made | {"alkalinity": FRESH["alkalinity"] * share, "salinity": salinity}


def simulated(seed: int = 1923) -> Truth:
    """Return a year of the invented tank."""
    draw = random.Random(seed)  # noqa: S311 - no secret is made
    truth = Truth()
    book = Notebook(truth, draw)
    start = salinity_from_nacl_scale(35.0) / 35.0
    litre = {"alkalinity": 7.9, "calcium": 428.0 * start, "magnesium": 1314.0 * start,
             "nitrate": 4.0, "salinity": 35.0 * start}  # fmt: skip
    water = VOLUME
    for day in range(DAYS):
        here = {name: amount * VOLUME / water for name, amount in litre.items()}
        for name, value in here.items():
            getattr(truth, name).append(value)
        truth.uptake.append(uptake_on(day))
        book.write(day, here)
        new = fresh_on(day)
        if day % 7 == 6:
            for name, amount in litre.items():
                litre[name] += CHANGE * (new[name] / VOLUME - amount / water)
        if day in STUCK:
            water -= EVAPORATION
        elif day in REFILL:
            water += EVAPORATION * len(STUCK) / len(REFILL)
        elif day in SALTED:
            for name in litre:
                litre[name] += EVAPORATION / VOLUME * new[name]
        rate = since(RATES, day)
        other = since({d: given for d, given in RATES.items() if d not in SODA_ONLY}, day)
        litre["alkalinity"] += rate * POTENCY / VOLUME / MEQ_PER_DKH - uptake_on(day)
        litre["calcium"] += other * CALCIUM_POTENCY / VOLUME
        litre["calcium"] -= uptake_on(day) * MEQ_PER_DKH / 2 * 40.078
        food = since(FOOD, day) * (1 - KEPT)
        came = litre["nitrate"] + nitrate_from_food(nitrogen_in_food(food, PROTEIN), VOLUME)
        taken = min(came, algae_on(day) * since(LIGHTS, day))
        truth.taken.append(taken)
        litre["nitrate"] = came - taken
    return truth


class Notebook:
    """What the keeper writes down: readings with their scatter, doses, changes, and slips."""

    def __init__(self, truth: Truth, draw: random.Random) -> None:
        self.truth = truth
        self.draw = draw

    def write(self, day: int, here: dict[str, float]) -> None:
        """Write the rows of a day."""
        if day in RATES:
            self.pump(day)
        seen = {name: value + self.draw.gauss(0.0, SCATTER[name]) for name, value in here.items()}
        if day % 7 in {0, 2, 5}:
            self.alkalinity(day, seen["alkalinity"])
        if day % 7 == 2:
            nitrate = max(0.0, seen["nitrate"])
            nitrate = 0.0 if nitrate < 0.5 else round(2 * nitrate) / 2
            self.row(day, "reading", "nitrate", f"{nitrate:g}", "mg/L", "colour card")
        if day % 28 == 5:
            self.reading(day, "calcium", f"{5 * round(seen['calcium'] / 5)}")
        if day % 28 == 12:
            self.reading(day, "magnesium", f"{10 * round(seen['magnesium'] / 10)}")
        if day % 28 == 6 or day in {165, CHECKED, 204, 207, 211}:
            self.salinity(day, seen["salinity"], here["salinity"])
        if day in EVENTS:
            self.row(day, "event", note=EVENTS[day], later=90)
        if day % 7 == 6:
            self.row(day, "water change", "", f"{CHANGE:g}", "L", later=30)
        if day % 3 == 0 and day not in {*STUCK, *SALTED}:
            amount = 3 * EVAPORATION + self.draw.uniform(-0.3, 0.3)
            self.row(day, "top-off", "", f"{amount:.1f}", "L", later=40)

    def pump(self, day: int) -> None:
        """Write what the pump gives from now on; the empty bottle is written in afterwards."""
        stocks = ("soda",) if day in SODA_ONLY else ("soda", "calcium chloride")
        notes = {EMPTY[0]: "bottle empty", 283: "bottle full again"}
        for stock in stocks:
            rate = f"{RATES[day]:g}"
            self.row(day, "dose", stock, rate, "mL/day", note=notes.get(day, "pump set"), later=60)

    def alkalinity(self, day: int, seen: float) -> None:
        """Write a reading of alkalinity, with the slips that were made at some of them."""
        note, wrong = "", None
        if day == SLIP_DAY:
            seen, note = seen - 1.3, "in a hurry, drops counted twice?"
        value = f"{seen:.1f}"
        if day == 21:
            wrong = self.cells(day, "alkalinity", value.replace(".", ","), "dKH", note)
        if day == 112:
            wrong = self.cells(day, "alkalinity", f"{17.848 * seen:.0f}", "dKH", note)
        if day == UNIT_DAY:
            value = f"{seen * MEQ_PER_DKH:.1f}"  # in meq/L, and nobody noticed
        right = self.cells(day, "alkalinity", value, "dKH", note)
        self.truth.rows.append(right)
        self.truth.notebook.append(wrong or right)
        if day == 184:
            self.truth.notebook.append(right)

    def salinity(self, day: int, seen: float, true: float) -> None:
        """Write a reading of the refractometer; it is put right once its scale is known."""
        if day > CHECKED:
            self.reading(day, "salinity", f"{seen:.1f}", "", "refractometer, set with a standard")
            return
        shown = round(nacl_scale_reading(true) + seen - true, 1)
        method = "refractometer"
        self.truth.notebook.append(self.line(day, "reading", "salinity", f"{shown}", "", method))
        put_right = f"{salinity_from_nacl_scale(shown):.1f}"
        note = f"showed {shown} on a kitchen-salt scale"
        self.truth.rows.append(self.line(day, "reading", "salinity", put_right, "", method, note))

    def reading(
        self, day: int, name: str, value: str, unit: str = "mg/L", method: str = "drop titration"
    ) -> None:
        """Write a reading, the same into both."""
        self.row(day, "reading", name, value, unit, f'"{method}"' if "," in method else method)

    def row(self, day: int, what: str, *cells: str, note: str = "", later: int = 0) -> None:
        """Write the same row into both; a slip of the pen or two is in the notebook only."""
        right = self.line(day, what, *cells, note=note, later=later)
        self.truth.rows.append(right)
        if what == "dose" and day == 147 and cells[0] == "soda":
            right = right.replace(",soda,", ",sodda,")
        if what == "water change" and day == 230:
            right = right.replace("2026-06-21", "2026-06-31")
        self.truth.notebook.append(right)

    def cells(self, day: int, name: str, value: str, unit: str, note: str) -> str:
        """Return the row of a drop titration."""
        return self.line(day, "reading", name, value, unit, "drop titration", note)

    def line(self, day: int, what: str, *cells: str, note: str = "", later: int = 0) -> str:
        """Return a row of the file."""
        quantity, value, unit, method, *rest = [*cells, "", "", "", ""][: max(4, len(cells))]
        note = note or (rest[0] if rest else "")
        note = f'"{note}"' if "," in note else note
        when = START + timedelta(days=day, minutes=later)
        return f"{when:%Y-%m-%d %H:%M},{what},{quantity},{value},{unit},{method},{note}"


COLUMNS = "when,what,quantity,value,unit,method,note"
HEADS = {
    "log.csv": "# INVENTED. Nobody measured this: demo/simulate.py made it, with a fixed seed.",
    "notebook.csv": "# INVENTED, slips of the pen included: demo/simulate.py made it. See log.csv.",
}


def write_logs(folder: Path = HERE, seed: int = 1923) -> None:
    """Write the notebook of the invented tank, and the log that was made of it."""
    truth = simulated(seed)
    for name, rows in (("log.csv", truth.rows), ("notebook.csv", truth.notebook)):
        text = "\n".join([HEADS[name], COLUMNS, *rows]) + "\n"
        (folder / name).write_text(text, encoding="utf-8")


if __name__ == "__main__":
    write_logs()
