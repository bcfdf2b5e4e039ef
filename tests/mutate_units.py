"""Exchange the unit of an argument or of a result in a record, and see whether some check notices.

Each recorded unit is exchanged for another of the same dimension that the package uses, or for
one of another dimension where there is none. Then the checks that reach the relation are run (see
`mutation_bench`) until one fails; ``tests/test_units.py``, which lists all units, is not asked
unless nothing else notices. Run it from the project's folder, with names of modules or without::

    python tests/mutate_units.py reefchem.dosing.dose

The exit status is 1 when something survives.
"""

from __future__ import annotations

import sys
from collections import Counter
from dataclasses import dataclass, field
from functools import cache, partial
from typing import TYPE_CHECKING

import mutation_bench
import pint
from mutate_coefficients import FOLDERS
from mutation_bench import TESTS, Bench

from reefchem.core.quantity import registry
from reefchem.core.record import Argument, Record, calculations, records

if TYPE_CHECKING:
    from pathlib import Path

LIST = "test_units.py"


@dataclass(frozen=True)
class Swap:
    """A unit of a record and what takes its place; the name is empty for the result."""

    record: Record = field(compare=False)
    name: str
    new: str

    def __str__(self) -> str:
        old = self.record.arguments[self.name].unit if self.name else self.record.unit
        return (
            f"{self.record.module}.{self.record.name} {self.name or 'result'}: {old} -> {self.new}"
        )

    def apply(self) -> None:
        """Exchange the unit. It is not undone."""
        if not self.name:
            self.record.unit = self.new
            return
        old = self.record.arguments[self.name]
        new = Argument(*(getattr(old, slot, "") for slot in parameters()))
        new.unit = self.new
        self.record.arguments[self.name] = new


@cache
def parameters() -> tuple[str, ...]:
    """Return the names of what makes an argument, in order."""
    code = Argument.__init__.__code__
    return code.co_varnames[1 : code.co_argcount]


@cache
def units() -> list[str]:
    """Return the units that records use, the most frequent first."""
    found: Counter[str] = Counter()
    for record in records().values():
        found.update(a.unit for a in record.arguments.values())
        found[record.unit] += 1
    return [unit for unit, _ in found.most_common()]


@cache
def another(unit: str) -> str:
    """Return a unit to take the place of one, of its dimension and another size if possible."""
    for other in units():
        if other in {unit, "1"} or unit == "1":
            continue
        try:
            ratio = registry().Quantity(1.0, other).to(unit).magnitude
        except pint.DimensionalityError:
            continue
        if abs(ratio - 1.0) > 1e-3:
            return other
    return "mg/L" if unit != "mg/L" else "g"


def swaps(names: list[str]) -> list[Swap]:
    """Return the exchanges for the records of some modules, or of all."""
    described = [*records().values(), *calculations().values()]
    chosen = [r for r in described if not names or r.module in names]
    found = []
    for record in chosen:
        found += [Swap(record, n, another(a.unit)) for n, a in record.arguments.items()]
        if record.unit:
            found.append(Swap(record, "", another(record.unit)))
    return found


def judge(found: list[Swap], bench: Bench) -> int:
    """Print what was noticed and what survived; return the exit status."""
    tally: Counter[str] = Counter()
    for swap in found:
        codes = [swap.record.kernel.__code__, swap.record.function.__code__]
        items = [i for i in bench.reaching(codes) if i.path.name != LIST]
        listed = [i for i in bench.cost if i.path.name == LIST]
        check = bench.noticed_by(swap.apply, items)
        tally["by a check"] += bool(check)
        if not check:
            check = bench.noticed_by(swap.apply, listed)
            tally["by the list alone"] += bool(check)
            print(f"{'listed only' if check else 'survives'}: {swap}", flush=True)  # noqa: T201
        tally["survive"] += not check
    print(f"{len(found)} exchanged: {dict(tally)}")  # noqa: T201
    return int(tally["survive"] > 0)


def checks() -> list[Path]:
    """Return the files of checks that may notice a unit."""
    files = [TESTS / name for name in ("test_published.py", "test_examples.py", LIST)]
    return [*files, *(TESTS / folder for folder in FOLDERS), TESTS / "test_contract.py"]


if __name__ == "__main__":
    sys.exit(mutation_bench.run(partial(judge, swaps(sys.argv[1:])), checks()))
