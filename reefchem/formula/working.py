"""The working of a calculation: formula, numbers put in, result, source."""

from __future__ import annotations

from dataclasses import dataclass
from html import escape
from typing import TYPE_CHECKING, Any

from reefchem.core.boundary import checked_values
from reefchem.core.record import describe
from reefchem.core.sources import citation
from reefchem.formula.digits import concise, significant
from reefchem.formula.equation import equation, evaluate
from reefchem.formula.latex import (
    latex_block,
    latex_number,
    latex_printer,
    latex_put_in,
    latex_summands,
)
from reefchem.formula.names import latex_name, plain_name
from reefchem.formula.plain import plain_lines, plain_number, plain_printer
from reefchem.formula.substituted import Slot, numbers, readable, substituted
from reefchem.formula.units import latex_unit, plain_unit

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping

    from reefchem.core.record import Record

__all__ = ["Working", "misnamed", "work"]

READ = 12
"""Digits of an input in text: a unit that was converted leaves noise behind these."""


@dataclass(frozen=True)
class Working:
    """How one result comes about.

    Attributes
    ----------
    record
        The relation.
    inputs
        Magnitude by argument, in the recorded units.
    value
        The result, in the recorded unit.
    named
        Value of each quantity that the body names on the way.
    parts
        The working of each other relation that was called, once for each set of inputs.
    digits
        Significant digits shown; the value itself is not rounded.
    """

    record: Record
    inputs: Mapping[str, float]
    value: float
    named: Mapping[str, float]
    parts: tuple[Working, ...]
    digits: int = 6

    def result(self) -> str:
        """Return the result as text with its unit."""
        unit = plain_unit(self.record.unit)
        return f"{plain_number(significant(self.value, self.digits))} {unit}".strip()

    def data(self) -> dict[str, Any]:
        """Return the working as dicts, lists, texts and numbers, as JSON has them."""
        arguments = self.record.arguments
        return {
            "relation": self.record.name,
            "inputs": {
                name: {"value": number, "unit": arguments[name].unit}
                for name, number in self.inputs.items()
            },
            "value": self.value,
            "unit": self.record.unit,
            "named": dict(self.named),
            "parts": [part.data() for part in self.parts],
            "source": self.record.source,
            "cited": citation(self.record.source),
            "at": self.record.at,
        }

    def text(self) -> str:
        """Return the working as text for a terminal."""
        return "\n".join(self._text_lines())

    def _text_lines(self) -> list[str]:
        lines = [f"{self.record.name}: {self.record.summary}"]
        for name, number in self.inputs.items():
            unit = plain_unit(self.record.arguments[name].unit)
            lines.append(f"  {name.replace('_', ' ')} = {concise(number, READ)} {unit}".rstrip())
        (left, formula), *others = plain_lines(equation(self.record))
        lines.append(f"  {left} = {formula}")
        lines += [f"    with {name} = {body}" for name, body in others]
        for name, body in self._plain_numbers():
            if name:
                value = plain_number(significant(self.named[name], self.digits))
                lines.append(f"    {plain_name(latex_name(name))} = {body} = {value}")
            else:
                lines.append(f"  {left} = {body}")
        lines.append(f"  {' ' * len(left)} = {self.result()}")
        lines.append(f"  source: {citation(self.record.source)}, {self.record.at}")
        for part in self.parts:
            lines += [f"    {line}" for line in part._text_lines()]  # noqa: SLF001 - the same class
        return lines

    def _plain_numbers(self) -> list[tuple[str, str]]:
        traced = equation(self.record)
        values = numbers(traced, self.inputs)

        def set_slot(slot: Slot) -> str:
            text = plain_number(readable(slot.kind, values[slot.kind, slot.key]))
            brackets = text.startswith("−") or (slot.tight and "·" in text)
            return f"({text})" if brackets else text

        lines = substituted(traced, plain_printer, set_slot)
        return [(line.name, " ".join(line.parts)) for line in lines]

    def latex(self) -> str:
        """Return formula, numbers and result as one aligned LaTeX block."""
        traced = equation(self.record)
        values = numbers(traced, self.inputs)
        rows = latex_block(latex_summands(traced)).splitlines()[1:-1]

        def set_slot(slot: Slot) -> str:
            return latex_put_in(readable(slot.kind, values[slot.kind, slot.key]), tight=slot.tight)

        for line in substituted(traced, latex_printer, set_slot):
            value = self.named[line.name] if line.name else self.value
            unit = "" if line.name else latex_unit(self.record.unit)
            result = f"= {latex_number(significant(value, self.digits))}"
            result += rf"\;{unit}" if unit else ""
            left = latex_name(line.name) if line.name else self.record.symbol
            rows[-1] = rows[-1].removesuffix(r" \\") + r" \\"
            rows += latex_block([(left, [*line.parts, result])]).splitlines()[1:-1]
        return "\n".join([r"\begin{aligned}", *rows, r"\end{aligned}"])

    def html(self, math: Callable[[str], str] | None = None) -> str:
        """Return the working as HTML.

        Parameters
        ----------
        math
            Turns LaTeX into markup, MathML say; without it the formulas are plain text.
        """
        pieces = [f"<p>{escape(self.record.summary)}</p>"]
        if math is None:
            for left, right in plain_lines(equation(self.record)):
                pieces.append(f"<p><code>{escape(f'{left} = {right}')}</code></p>")
            for local, body in self._plain_numbers():
                left = local or self.record.symbol
                shown = plain_name(latex_name(left) if local else left)
                pieces.append(f"<p><code>{escape(f'{shown} = {body}')}</code></p>")
        else:
            pieces.append(math(self.latex()))
        pieces.append(f"<p>= <strong>{escape(self.result())}</strong></p>")
        source = escape(f"{citation(self.record.source)}, {self.record.at}")
        pieces.append(f"<p><small>{source}</small></p>")
        pieces += [
            f"<details><summary>{escape(p.record.name)} = {escape(p.result())}</summary>"
            f"{p.html(math)}</details>"
            for p in self.parts
        ]
        return "\n".join(pieces)


def work(function: Callable[..., Any] | str, *, digits: int = 6, **inputs: Any) -> Working:
    """Return the working of a relation for some inputs: formula, numbers put in, result, source.

    Parameters
    ----------
    function
        A relation or its name.
    digits
        Significant digits to show.
    inputs
        One number for each argument; bare numbers in the recorded units, or quantities.

    Examples
    --------
    >>> from reefchem.seawater import pure_water_density
    >>> print(work(pure_water_density, temperature=25.0).result())
    997.046 kg/m³
    """
    record = describe(function)
    if odd := misnamed(record, inputs):
        msg = f"{record.name}: {odd}. It takes {', '.join(record.arguments)}"
        raise TypeError(msg)
    values = tuple(inputs.get(name, record.defaults.get(name)) for name in record.arguments)
    bare, _ = checked_values(record.name, record.arguments, values, record.defaults)
    if not all(isinstance(value, float) for value in bare):
        msg = f"{record.name}: the working is shown for single numbers, not for arrays"
        raise TypeError(msg)
    known = dict(zip(record.arguments, map(float, bare), strict=True))
    return _working(record, known, float(record.function(**known)), digits)


def misnamed(record: Record, given: Iterable[str]) -> str:
    """Return which names a relation does not take and which it lacks, in words; "" if none."""
    names = list(given)
    unknown = [name for name in names if name not in record.arguments]
    missing = [n for n in record.arguments if n not in names and n not in record.defaults]
    found = ((unknown, "is not taken"), (missing, "is missing"))
    return ", ".join(f"{' and '.join(which)} {what}" for which, what in found if which)


def _working(record: Record, inputs: dict[str, float], value: float, digits: int) -> Working:
    traced = equation(record)
    named = {name: float(evaluate(term, inputs)) for name, term in traced.known_named()}
    parts: dict[tuple[str, tuple[float, ...]], Working] = {}
    for call in traced.known_calls():
        given = [float(evaluate(argument, inputs)) for argument in call.arguments]
        key = (call.record.name, tuple(given))
        if key not in parts:
            named_inputs = dict(zip(call.record.arguments, given, strict=True))
            part = float(evaluate(call, inputs))
            parts[key] = _working(call.record, named_inputs, part, digits)
    return Working(record, inputs, value, named, tuple(parts.values()), digits)
