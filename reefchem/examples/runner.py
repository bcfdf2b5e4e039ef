"""Running worked examples: every step computed, the answer judged."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from reefchem.core.quantity import magnitude, quantity
from reefchem.core.record import Record, describe

if TYPE_CHECKING:
    from reefchem.examples.model import Example, Expected, Given

__all__ = ["Outcome", "StepOutcome", "run"]


@dataclass(frozen=True)
class StepOutcome:
    """One step with its inputs in the recorded units and its value in the recorded unit."""

    id: str
    record: Record
    inputs: dict[str, float]
    value: float
    text: str


@dataclass(frozen=True)
class Outcome:
    """What the package computed beside what somebody else printed.

    Attributes
    ----------
    computed
        The answer in the unit of the expected value.
    """

    example: Example
    steps: tuple[StepOutcome, ...]
    computed: float

    @property
    def expected(self) -> Expected:
        """The expected value."""
        return self.example.expected

    @property
    def deviation(self) -> float:
        """Computed minus printed, in the printed unit."""
        return self.computed - self.expected.number

    @property
    def agrees(self) -> bool:
        """Whether the difference is within the tolerance."""
        return abs(self.deviation) <= self.expected.tolerance * (1 + 1e-9)

    def __str__(self) -> str:
        verdict = "agrees" if self.agrees else "DISAGREES"
        return (
            f"{self.example.id}: computed {self.computed:.10g} {self.expected.unit}, "
            f"{self.expected.kind} {self.expected.value} ± {self.expected.tolerance:g}: {verdict}"
        )


def run(example: Example) -> Outcome:
    """Return the outcome of an example.

    Raises
    ------
    KeyError
        When a step names a relation that does not exist.
    TypeError
        When a step misses an input or has one too many.
    """
    done: dict[str, StepOutcome] = {}
    for step in example.steps:
        record = describe(step.relation)
        unknown = step.inputs.keys() - record.arguments.keys()
        missing = record.arguments.keys() - step.inputs.keys() - record.defaults.keys()
        if unknown or missing:
            msg = (
                f"{example.id}, {step.id}: {record.name} takes {list(record.arguments)}; "
                f"unknown {sorted(unknown)}, missing {sorted(missing)}"
            )
            raise TypeError(msg)
        inputs = {
            name: _input(step.inputs[name], done, record, name)
            if name in step.inputs
            else record.defaults[name]
            for name in record.arguments
        }
        value = float(record.function(**inputs))
        done[step.id] = StepOutcome(step.id, record, inputs, value, step.text)
    last = list(done.values())[-1]
    unit = example.expected.unit
    computed = last.value
    if unit != last.record.unit:
        computed = float(quantity(computed, last.record.unit).to(unit).magnitude)
    return Outcome(example, tuple(done.values()), computed)


def _input(given: Given, done: dict[str, StepOutcome], record: Record, name: str) -> float:
    recorded = record.arguments[name].unit
    where = f"{record.name}: {name}"
    if given.step:
        earlier = done[given.step]
        value, unit = earlier.value, earlier.record.unit
    else:
        value, unit = float(given.value), given.unit
    if unit == recorded:
        return value
    return float(magnitude(quantity(value, unit), recorded, where))
