"""The working of a calculation: formula, numbers put in, result, source."""

from __future__ import annotations

from dataclasses import dataclass
from html import escape
from typing import TYPE_CHECKING, Any

from reefchem.core.boundary import checked_values
from reefchem.core.record import describe
from reefchem.core.sources import citation
from reefchem.core.term import Call
from reefchem.formula.digits import exact_text, significant
from reefchem.formula.equation import equation, evaluate
from reefchem.formula.latex import latex_lines, latex_number
from reefchem.formula.plain import plain_lines
from reefchem.formula.units import latex_unit, plain_unit

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from reefchem.core.record import Record

__all__ = ["Working", "work"]


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

    @property
    def put_in(self) -> dict[str, str]:
        """Text of each input."""
        return {name: exact_text(value) for name, value in self.inputs.items()}

    def formula(self) -> list[tuple[str, str]]:
        """Return the formula in LaTeX as pairs of left and right side."""
        return latex_lines(equation(self.record))

    def numbers(self) -> list[tuple[str, str]]:
        """Return the formula with the numbers put in."""
        return latex_lines(equation(self.record), self.put_in)

    def result(self) -> str:
        """Return the result as text with its unit."""
        unit = plain_unit(self.record.unit)
        return f"{significant(self.value, self.digits)} {unit}".strip()

    def text(self) -> str:
        """Return the working as text for a terminal."""
        return "\n".join(self._text_lines())

    def _text_lines(self) -> list[str]:
        traced = equation(self.record)
        lines = [f"{self.record.name}: {self.record.summary}"]
        for name, value in self.inputs.items():
            unit = plain_unit(self.record.arguments[name].unit)
            lines.append(f"  {name.replace('_', ' ')} = {exact_text(value)} {unit}".rstrip())
        symbols, numbers = plain_lines(traced), plain_lines(traced, self.put_in)
        (left, formula), (_, substituted) = symbols[0], numbers[0]
        lines.append(f"  {left} = {formula}")
        for (name, body), value in zip(symbols[1:], self.named.values(), strict=True):
            lines.append(f"    with {name} = {body} = {significant(value, self.digits)}")
        if substituted != formula:
            lines.append(f"  {' ' * len(left)} = {substituted}")
        lines.append(f"  {' ' * len(left)} = {self.result()}")
        lines.append(f"  source: {citation(self.record.source)}, {self.record.at}")
        for part in self.parts:
            lines += [f"    {line}" for line in part._text_lines()]  # noqa: SLF001 - the same class
        return lines

    def latex(self) -> str:
        """Return formula, numbers and result as one aligned LaTeX block."""
        rows: list[str] = []
        for (left, formula), (_, substituted), value in zip(
            self.formula(), self.numbers(), [self.value, *self.named.values()], strict=True
        ):
            unit = latex_unit(self.record.unit) if not rows else ""
            result = latex_number(significant(value, self.digits)) + (rf"\;{unit}" if unit else "")
            rows.append(rf"{left} &= {formula}")
            if substituted != formula:
                rows.append(rf"&= {substituted}")
            rows.append(rf"&= {result}")
        return "\\begin{aligned}\n" + " \\\\\n".join(rows) + "\n\\end{aligned}"

    def html(self, math: Callable[[str], str] | None = None) -> str:
        """Return the working as HTML.

        Parameters
        ----------
        math
            Turns LaTeX into markup, MathML say; without it the formulas are plain text.
        """
        traced = equation(self.record)
        pieces = [f"<p>{escape(self.record.summary)}</p>"]
        if math is None:
            for left, right in plain_lines(traced, self.put_in):
                pieces.append(f"<p><code>{escape(f'{left} = {right}')}</code></p>")
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
    unknown = [name for name in inputs if name not in record.arguments]
    missing = [n for n in record.arguments if n not in inputs and n not in record.defaults]
    if unknown or missing:
        msg = f"{record.name} takes {list(record.arguments)}; unknown {unknown}, missing {missing}"
        raise TypeError(msg)
    values = tuple(inputs.get(name, record.defaults.get(name)) for name in record.arguments)
    bare, _ = checked_values(record.name, record.arguments, values, record.defaults)
    if not all(isinstance(value, float) for value in bare):
        msg = f"{record.name}: the working is shown for single numbers, not for arrays"
        raise TypeError(msg)
    return _working(record, dict(zip(record.arguments, bare, strict=True)), digits)


def _working(record: Record, inputs: dict[str, float], digits: int) -> Working:
    traced = equation(record)
    value = float(record.function(**inputs))
    named = {
        name: float(evaluate(term, inputs))
        for name, term in traced.named.items()
        if not _leans_on_unknown(term, inputs)
    }
    parts: dict[tuple[str, tuple[float, ...]], Working] = {}
    for call in traced.calls():
        if any(_leans_on_unknown(argument, inputs) for argument in call.arguments):
            continue
        given = [float(evaluate(argument, inputs)) for argument in call.arguments]
        key = (call.record.name, tuple(given))
        if key not in parts and isinstance(call, Call):
            named_inputs = dict(zip(call.record.arguments, given, strict=True))
            parts[key] = _working(call.record, named_inputs, digits)
    return Working(record, inputs, value, named, tuple(parts.values()), digits)


def _leans_on_unknown(term: Any, inputs: Mapping[str, float]) -> bool:
    from reefchem.core.term import Symbol  # noqa: PLC0415 - keeps the module's head short

    return any(isinstance(t, Symbol) and t.name not in inputs for t in term.walk())
