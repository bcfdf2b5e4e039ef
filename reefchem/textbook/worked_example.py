"""The directive ``worked-example``: a problem, its working, and what somebody else printed."""

from __future__ import annotations

import json
import sys
from typing import TYPE_CHECKING, Any, ClassVar

from docutils.parsers.rst import directives

from reefchem.formula.digits import prose_number, significant
from reefchem.formula.equation import equation
from reefchem.formula.javascript import needed
from reefchem.formula.units import plain_unit
from reefchem.textbook.live import argument_data, possible_data, unit_choices
from reefchem.textbook.mathml import math_inline
from reefchem.textbook.steps import step_views
from reefchem.textbook.templating import TextbookDirective

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from pathlib import Path

    from docutils import nodes
    from sphinx.util.typing import OptionSpec

    from reefchem.core.record import Record
    from reefchem.examples.model import Step
    from reefchem.examples.runner import StepOutcome

__all__ = ["WorkedExample", "code_behind", "input_views", "steps_data"]


class WorkedExample(TextbookDirective):
    """Show an example of the examples folder.

    The argument is the id of the example. With the option `static` its numbers cannot be changed.
    """

    required_arguments = 1
    option_spec: ClassVar[OptionSpec | None] = {"static": directives.flag}

    def run(self) -> Sequence[nodes.Node]:
        """Return the example as part of the page."""
        outcome = self.found("worked example", self.catalogue.outcomes)
        example = outcome.example
        name = example.id
        records = [step.record for step in outcome.steps]
        self.depend_on(self.catalogue.examples_folder / f"{name}.toml", *code_behind(records))
        data = {
            "id": f"example-{name}",
            "digits": example.digits,
            **steps_data(example.steps, outcome.steps, self.config.textbook_units, once=True),
            "answer": _answer_data(outcome),
        }
        return self.html(
            "worked_example.html",
            example=example,
            outcome=outcome,
            inputs=input_views(example.steps, outcome.steps, once=True),
            steps=step_views(outcome.steps, example.steps, example.digits),
            computed=prose_number(significant(outcome.computed, example.digits)),
            converted=example.expected.unit != outcome.steps[-1].record.unit,
            live="static" not in self.options,
            data=json.dumps(data, ensure_ascii=False).replace("</", r"<\/"),
        )


def _answer_data(outcome: Any) -> dict[str, Any]:
    recorded, unit = outcome.steps[-1].record.unit, outcome.expected.unit
    choice = unit_choices(unit, (), recorded)[0]
    return {"unit": plain_unit(unit), "factor": choice["factor"], "offset": choice["offset"]}


def input_views(
    steps: Sequence[Step], outcomes: Sequence[StepOutcome], *, once: bool = False
) -> list[dict[str, Any]]:
    """Return the inputs that are given, not computed, for a template."""
    found = []
    keys = _keys(steps, outcomes, once=once)
    labels = _labels(outcomes, keys)
    for step, outcome in zip(steps, outcomes, strict=True):
        for name, given in step.inputs.items():
            key = f"{step.id}.{name}"
            if given.step or keys[key] != key:
                continue
            argument = outcome.record.arguments[name]
            found.append(
                {
                    "key": key,
                    "name": labels[key],
                    "symbol": math_inline(argument.symbol),
                    "value": given.value,
                    "unit": plain_unit(given.unit),
                    "argument": argument,
                }
            )
    return found


def steps_data(
    steps: Sequence[Step],
    outcomes: Sequence[StepOutcome],
    groups: Iterable[Iterable[str]],
    *,
    once: bool = False,
) -> dict[str, Any]:
    """Return what the page's script needs to compute the steps again.

    With `once`, what two steps are given alike is one input: who changes it changes both.
    """
    inputs, listed = [], []
    keys = _keys(steps, outcomes, once=once)
    labels = _labels(outcomes, keys)
    for step, outcome in zip(steps, outcomes, strict=True):
        arguments: dict[str, Any] = {}
        for name in outcome.record.arguments:
            given = step.inputs.get(name)
            if given is None:
                arguments[name] = {"value": outcome.inputs[name]}
            elif given.step:
                earlier = next(o for o in outcomes if o.id == given.step)
                choice = unit_choices(earlier.record.unit, (), outcome.record.arguments[name].unit)
                arguments[name] = {
                    "step": given.step,
                    "name": outcome.record.title(name),
                    **_affine(choice[0]),
                    **possible_data(outcome.record, name),
                }
            else:
                key = f"{step.id}.{name}"
                arguments[name] = {"input": keys[key]}
                if keys[key] != key:
                    continue
                units = unit_choices(given.unit, groups, outcome.record.arguments[name].unit)
                inputs.append(
                    {
                        "key": key,
                        "name": labels[key],
                        "value": given.value,
                        "unit": given.unit,
                        "units": units,
                        **argument_data(outcome.record, name),
                    }
                )
        listed.append({"id": step.id, "relation": outcome.record.name, "arguments": arguments})
    return {"inputs": inputs, "steps": listed}


def _keys(steps: Iterable[Step], outcomes: Iterable[StepOutcome], *, once: bool) -> dict[str, str]:
    """Return the input that feeds each given argument of the steps."""
    keys: dict[str, str] = {}
    first: dict[Any, str] = {}
    for step, outcome in zip(steps, outcomes, strict=True):
        for name, given in step.inputs.items():
            if given.step:
                continue
            key = f"{step.id}.{name}"
            about, title = outcome.record.arguments[name], outcome.record.title(name)
            alike = (title, given.value, given.unit, about.unit, about.valid, about.possible)
            keys[key] = first.setdefault(alike, key) if once else key
    return keys


def _labels(outcomes: Iterable[StepOutcome], keys: dict[str, str]) -> dict[str, str]:
    """Return what each input is called; two that are called alike are told apart by their step."""
    found = {}
    for number, outcome in enumerate(outcomes, 1):
        for name in outcome.record.arguments:
            key = f"{outcome.id}.{name}"
            if keys.get(key) == key:
                found[key] = (outcome.record.title(name), number)
    titles = [title for title, _ in found.values()]
    return {
        key: title if titles.count(title) == 1 else f"{title}, step {number}"
        for key, (title, number) in found.items()
    }


def _affine(choice: dict[str, object]) -> dict[str, object]:
    return {"factor": choice["factor"], "offset": choice["offset"]}


def code_behind(records: Iterable[Record]) -> list[Path | str]:
    """Return the files whose change changes how these relations compute or print."""
    modules = {record.module for record in needed(records)}
    modules |= {equation.__module__, "reefchem.formula.latex", "reefchem.formula.printer"}
    modules |= {"reefchem.formula.digits", "reefchem.formula.units", __name__}
    files = (getattr(sys.modules.get(name), "__file__", None) for name in sorted(modules))
    return [name for name in files if name]
