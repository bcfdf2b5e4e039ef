"""Steps of an example or a solution as a page shows them: formula, numbers put in, values."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from reefchem.formula.digits import concise, prose_number, significant
from reefchem.formula.equation import equation
from reefchem.formula.latex import latex_block, latex_number, latex_printer, latex_summands
from reefchem.formula.names import latex_name
from reefchem.formula.substituted import Slot, numbers, readable, substituted
from reefchem.formula.units import plain_unit
from reefchem.textbook.mathml import math_block, math_inline, row_inside

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from reefchem.core.record import Record
    from reefchem.examples.model import Step
    from reefchem.examples.runner import StepOutcome
    from reefchem.formula.equation import Equation

__all__ = ["CalledView", "StepView", "called_slots", "formula_of", "step_views"]

_TOKEN = re.compile(r"<mtext>@(\d+)@</mtext>")


@dataclass(frozen=True)
class CalledView:
    """Another relation that a step uses, with the value that it gave."""

    slot: str
    label: str
    value: str
    unit: str
    relation: str


@dataclass(frozen=True)
class StepView:
    """One step, ready for a template."""

    id: str
    text: str
    record: Record
    formula: str
    numbers: str
    called: tuple[CalledView, ...]
    symbol: str
    result: str
    unit: str
    outside: str


def formula_of(record: Record) -> str:
    """Return the formula of a relation as MathML."""
    return math_block(latex_block(latex_summands(equation(record))))


def step_views(
    outcomes: Iterable[StepOutcome], steps: Iterable[Step], digits: int
) -> list[StepView]:
    """Return the steps of an example for its template."""
    return [_view(outcome, step, digits) for outcome, step in zip(outcomes, steps, strict=True)]


def called_slots(traced: Equation) -> list[str]:
    """Return the slots of what `details_source` computes, in its order."""
    named = [f"named {name}" for name, _ in traced.known_named()]
    return [*named, *(f"call {index}" for index, _ in enumerate(traced.known_calls()))]


def _outside(outcome: StepOutcome, step: Step) -> str:
    """Say which results of earlier steps lie outside a range, as the page's script does.

    What is given says so beside its field.
    """
    said = []
    for name, value in outcome.inputs.items():
        valid = outcome.record.arguments[name].valid
        if name in step.inputs and step.inputs[name].step and valid:
            low, high = valid
            if not low <= value <= high:
                span = f"{_bare(low)} to {_bare(high)}"
                said.append(
                    f"{outcome.record.title(name)}: outside the source's range, {span}; "
                    "the value is used as given"
                )
    return "; ".join(said)


def _bare(value: float) -> str:
    return prose_number(concise(value, 10))


def _view(outcome: StepOutcome, step: Step, digits: int) -> StepView:
    record, traced = outcome.record, equation(outcome.record)
    values = numbers(traced, outcome.inputs)
    printer = latex_printer(traced)
    called = tuple(
        CalledView(
            f"call {index}",
            math_inline(printer.full(call)),
            prose_number(concise(values["call", str(index)], 6)),
            plain_unit(call.record.unit),
            call.record.name,
        )
        for index, call in enumerate(traced.known_calls())
    )
    return StepView(
        id=outcome.id,
        text=step.text,
        record=record,
        formula=formula_of(record),
        numbers=_numbers(traced, values),
        called=called,
        symbol=math_inline(record.symbol),
        result=prose_number(significant(outcome.value, digits)),
        unit=plain_unit(record.unit),
        outside=_outside(outcome, step),
    )


def _numbers(traced: Equation, values: dict[tuple[str, str], float]) -> str:
    """Return every line with the numbers put in; the page's script can change each number."""
    slots: list[Slot] = []

    def set_slot(slot: Slot) -> str:
        slots.append(slot)
        return rf"\text{{@{len(slots) - 1}@}}"

    rows = []
    for line in substituted(traced, latex_printer, set_slot):
        if line.name:
            result = set_slot(Slot("named", line.name, alone=True))
            rows.append((latex_name(line.name), [*line.parts, f"= {result}"]))
        else:
            rows.append((traced.record.symbol, line.parts))
    made = math_block(latex_block(rows))
    return _TOKEN.sub(_filled(slots, values), made)


def _filled(
    slots: list[Slot], values: dict[tuple[str, str], float]
) -> Callable[[re.Match[str]], str]:
    def put_in(match: re.Match[str]) -> str:
        slot = slots[int(match[1])]
        text = readable(slot.kind, values[slot.kind, slot.key])
        inner = row_inside(latex_number(text))
        if not slot.alone and (text.startswith("-") or (slot.tight and "e" in text)):
            inner = f"<mo>(</mo>{inner}<mo>)</mo>"
        guard = ' data-tight=""' if slot.tight else ' data-alone=""' if slot.alone else ""
        return f'<mrow data-slot="{slot.kind} {slot.key}"{guard}>{inner}</mrow>'

    return put_in
