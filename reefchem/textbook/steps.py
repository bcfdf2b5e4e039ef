"""Steps of an example or a solution as a page shows them: formula, numbers put in, values."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from reefchem.core.term import Call, Root, Symbol, Term
from reefchem.formula.digits import exact_text, significant
from reefchem.formula.equation import equation, evaluate
from reefchem.formula.latex import LatexPrinter, latex_block, latex_number, latex_summands
from reefchem.formula.names import latex_name
from reefchem.formula.units import plain_unit
from reefchem.textbook.mathml import math_block, math_inline, row_inside

if TYPE_CHECKING:
    from collections.abc import Iterable

    from reefchem.core.record import Record
    from reefchem.examples.model import Step
    from reefchem.examples.runner import StepOutcome
    from reefchem.formula.equation import Equation

__all__ = ["StepView", "ValueView", "details", "step_views"]

_TOKEN = re.compile(r"<mtext>@(\d+)@</mtext>")


@dataclass(frozen=True)
class ValueView:
    """A quantity named on the way, or another relation that was called, with its value."""

    label: str
    value: str
    unit: str
    relation: str = ""


@dataclass(frozen=True)
class StepView:
    """One step, ready for a template."""

    id: str
    text: str
    record: Record
    formula: str
    numbers: str
    values: tuple[ValueView, ...]
    symbol: str
    result: str
    unit: str


def details(traced: Equation) -> tuple[dict[str, Term], list[Call]]:
    """Return what a step shows beside its result: named quantities, and calls outside a root."""
    unknowns = {t.unknown.name for t in traced.result.walk() if isinstance(t, Root)}

    def known(term: Term) -> bool:
        return not any(isinstance(t, Symbol) and t.name in unknowns for t in term.walk())

    named = {name: term for name, term in traced.named.items() if known(term)}
    calls: list[Call] = []
    for call in traced.calls():
        same = any(
            other.record is call.record and other.arguments == call.arguments for other in calls
        )
        if known(call) and not same:
            calls.append(call)
    return named, calls


def step_views(
    outcomes: Iterable[StepOutcome], steps: Iterable[Step], digits: int
) -> list[StepView]:
    """Return the steps of an example for its template."""
    return [
        _view(outcome, step.text, digits) for outcome, step in zip(outcomes, steps, strict=True)
    ]


def _view(outcome: StepOutcome, text: str, digits: int) -> StepView:
    record, traced = outcome.record, equation(outcome.record)
    named, calls = details(traced)
    values = [
        ValueView(
            math_inline(latex_name(name)), significant(float(evaluate(term, outcome.inputs)), 6), ""
        )
        for name, term in named.items()
    ]
    for call in calls:
        values.append(_called(call, traced, outcome))
    return StepView(
        id=outcome.id,
        text=text,
        record=record,
        formula=math_block(latex_block(latex_summands(traced))),
        numbers=_numbers(traced, outcome),
        values=tuple(values),
        symbol=math_inline(record.symbol),
        result=significant(outcome.value, digits),
        unit=plain_unit(record.unit),
    )


def _called(call: Call, traced: Equation, outcome: StepOutcome) -> ValueView:
    def name_of(term: Term) -> str | None:
        name = traced.name_of(term)
        return None if name is None else latex_name(name)

    label = LatexPrinter(name_of, lambda symbol: symbol.latex).full(call)
    value = significant(float(evaluate(call, outcome.inputs)), 6)
    unit = plain_unit(call.record.unit)
    return ValueView(math_inline(label), value, unit, call.record.name)


def _numbers(traced: Equation, outcome: StepOutcome) -> str:
    """Return the main line with the numbers put in; each number can be changed by the page."""
    named, _ = details(traced)
    rows = [(f'data-argument="{name}"', _short(value)) for name, value in outcome.inputs.items()]
    for index, term in enumerate(named.values()):
        value = float(evaluate(term, outcome.inputs))
        rows.append((f'data-detail="{index}"', float(significant(value, 6))))
    tokens = [rf"\text{{@{index}@}}" for index in range(len(rows))]
    inputs = dict(zip(outcome.inputs, tokens, strict=False))
    values = dict(zip(named, tokens[len(inputs) :], strict=True))
    (left, parts), *_ = latex_summands(traced, inputs, values)
    if not any("@" in part for part in parts):
        return ""

    def put_in(match: re.Match[str]) -> str:
        mark, value = rows[int(match[1])]
        inner = row_inside(latex_number(exact_text(value)))
        inner = f"<mo>(</mo>{inner}<mo>)</mo>" if value < 0 else inner
        return f"<mrow {mark}>{inner}</mrow>"

    return _TOKEN.sub(put_in, math_block(latex_block([(left, parts)])))


def _short(value: float) -> float:
    """Return a number put in with at most ten digits, so that conversions stay readable."""
    return float(f"{value:.10g}")
