"""Running worked examples: every step computed, the answer judged."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from reefchem.core.quantity import magnitude, quantity
from reefchem.core.record import Record, describe

if TYPE_CHECKING:
    from collections.abc import Iterable

    from reefchem.examples.model import Example, Expected, Given, Step

__all__ = ["Outcome", "StepOutcome", "in_unit", "run", "run_steps"]


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
    def last(self) -> StepOutcome:
        """The step that gives the answer."""
        return self.steps[-1]

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
    steps = run_steps(example.id, example.steps)
    last, unit = steps[-1], example.expected.unit
    return Outcome(example, steps, in_unit(last, unit))


def in_unit(step: StepOutcome, unit: str) -> float:
    """Return the value of a step in a unit."""
    if unit == step.record.unit:
        return step.value
    return float(quantity(step.value, step.record.unit).to(unit).magnitude)


def run_steps(name: str, steps: Iterable[Step]) -> tuple[StepOutcome, ...]:
    """Return what each step computes.

    Parameters
    ----------
    name
        Of the example or exercise, for messages.
    steps
        In order; an input may be the result of an earlier one.
    """
    done: dict[str, StepOutcome] = {}
    for step in steps:
        record = describe(step.relation)
        unknown = step.inputs.keys() - record.arguments.keys()
        missing = record.arguments.keys() - step.inputs.keys() - record.defaults.keys()
        if unknown or missing:
            msg = (
                f"{name}, {step.id}: {record.name} takes {list(record.arguments)}; "
                f"unknown {sorted(unknown)}, missing {sorted(missing)}"
            )
            raise TypeError(msg)
        inputs = {
            argument: _input(step.inputs[argument], done, record, argument)
            if argument in step.inputs
            else record.defaults[argument]
            for argument in record.arguments
        }
        value = float(record.function(**inputs))
        done[step.id] = StepOutcome(step.id, record, inputs, value, step.text)
    return tuple(done.values())


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
