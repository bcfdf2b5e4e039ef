"""Exchange the unit of an argument or of a result in a record, and see whether some check notices.

Each recorded unit is exchanged for another of the same dimension that the package uses, or for
one of another dimension where there is none. A body that keeps dimensions notices it (see
``tests/homogeneous.txt``), or a worked example, whose inputs and answer carry units; the list
``tests/units.txt`` is asked when nothing else notices. Run it from the project's folder, with
names of modules or without::

    python tests/mutate_units.py reefchem.dosing.dose

The exit status is 1 when something survives.
"""

from __future__ import annotations

import contextlib
import copy
import sys
import warnings
from collections import Counter
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

import pint
import pytest
from test_contract import raw
from test_units import LISTED, lines

from reefchem.core.quantity import registry
from reefchem.core.record import Record, calculations, records
from reefchem.examples import read_examples, run

if TYPE_CHECKING:
    from collections.abc import Iterator

    from reefchem.examples.model import Example

TESTS = Path(__file__).resolve().parent
ROOT = TESTS.parent


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

    @contextlib.contextmanager
    def applied(self) -> Iterator[None]:
        """Exchange the unit inside the context."""
        record, unit = self.record, self.record.unit
        arguments = dict(record.arguments)
        if self.name:
            changed = copy.copy(arguments[self.name])
            changed.unit = self.new
            record.arguments = {**arguments, self.name: changed}
        else:
            record.unit = self.new
        try:
            yield
        finally:
            record.unit, record.arguments = unit, arguments


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


@cache
def examples() -> list[Example]:
    """Return the worked examples, whose inputs and answers carry units."""
    return [*read_examples(ROOT / "book" / "examples").values()]


@cache
def homogeneous() -> set[str]:
    """Return the relations whose bodies are run with raw quantities by the contract."""
    return set((TESTS / "homogeneous.txt").read_text(encoding="utf-8").split())


def noticed_by(swap: Swap) -> str:
    """Return which check notices an exchange, or nothing."""
    name = swap.record.name
    if name in homogeneous():
        found = raw(swap.record)
        if found is None or found[0] != pytest.approx(found[1], rel=1e-12):
            return "dimension"
    for example in examples():
        if any(step.relation == name for step in example.steps):
            try:
                if not run(example).agrees:
                    return f"example {example.id}"
            except (TypeError, ValueError):
                return f"example {example.id}"
    return "" if lines() == LISTED.read_text(encoding="utf-8").splitlines() else "list"


def main(names: list[str]) -> int:
    """Print what notices the exchanges; return the exit status."""
    warnings.simplefilter("ignore")
    tally: Counter[str] = Counter()
    for swap in swaps(names):
        with swap.applied():
            check = noticed_by(swap)
        tally[check.split(" ")[0] or "survives"] += 1
        if check in {"", "list"}:
            print(f"{check or 'survives'}: {swap}", flush=True)  # noqa: T201
    print(f"{sum(tally.values())} exchanged, noticed by {dict(tally)}")  # noqa: T201
    return int(tally["survives"] > 0)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
