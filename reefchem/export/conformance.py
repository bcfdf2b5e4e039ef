"""A check of somebody else's calculation against the vectors.

>>> from reefchem.export import conformance
>>> def seawater_density(salinity, temperature):
...     return 1000 + 0.7 * salinity - 0.3 * (temperature - 20)
>>> report = conformance.run(seawater_density)
>>> report.agrees
False
"""

from __future__ import annotations

import inspect
import math
import warnings
from collections import Counter
from dataclasses import asdict, dataclass, replace
from typing import TYPE_CHECKING, Any

from reefchem.core.record import calculations, records
from reefchem.export.mistakes import Slip, likely_slips
from reefchem.export.vector import Expected, Vector
from reefchem.export.vectors import vectors as all_vectors
from reefchem.formula.digits import concise, prose_number
from reefchem.formula.units import plain_unit

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping

__all__ = ["Report", "Verdict", "judge", "loosened", "named_like_relations", "run"]


@dataclass(frozen=True)
class Verdict:
    """One vector and what was answered.

    Attributes
    ----------
    answer
        The number, or None where none was given.
    said
        The message of a refusal, or why the answer is no number.
    slips
        Usual mistakes that lead to the answer.
    missing
        Whether nothing was answered at all, not even a refusal.
    """

    vector: Vector
    answer: float | None
    said: str = ""
    slips: tuple[Slip, ...] = ()
    missing: bool = False

    def data(self) -> dict[str, Any]:
        """Return vector, answer and what was probably done, as JSON has them."""
        answer = self.answer
        return {
            "id": self.vector.id,
            "relation": self.vector.relation,
            "inputs": dict(self.vector.inputs),
            "expected": self.vector.expected and asdict(self.vector.expected),
            "answer": answer if answer is not None and math.isfinite(answer) else None,
            "said": self.said,
            "missing": self.missing,
            "perhaps": [slip.explanation for slip in self.slips],
        }

    @property
    def difference(self) -> float:
        """Answer minus expected value; NaN where one of them is missing."""
        if self.answer is None or self.vector.expected is None:
            return math.nan
        return self.answer - self.vector.expected.value

    @property
    def agrees(self) -> bool:
        """Whether the number agrees, or the impossible was refused."""
        if self.missing:
            return False
        if self.vector.expected is None:
            return self.answer is None
        return abs(self.difference) <= self.vector.expected.tolerance * (1 + 1e-9)

    def __str__(self) -> str:
        head = f"{self.vector.id}: {self._call()}"
        expected = self.vector.expected
        if self.missing:
            return f"{head}\n  {self.said}"
        if expected is None:
            verdict = f"answered {_shown(self.answer)}, but it is impossible: {self.vector.refusal}"
            return f"{head}\n  {'refused, as it should be' if self.agrees else verdict}"
        unit = plain_unit(expected.unit)
        right = f"{_shown(expected.value)} ± {concise(expected.tolerance, 3)} {unit}".strip()
        if self.answer is None:
            return f"{head}\n  expected {right}; no number: {self.said}"
        lines = [head, f"  expected {right}; answered {_shown(self.answer)}, {self._off()}"]
        lines += [f"  perhaps {slip.name}: {slip.explanation}" for slip in self.slips]
        lines += [f"  note: {flag}" for flag in self.vector.flags]
        return "\n".join([*lines, f"  explained at {self.vector.page}"])

    def _call(self) -> str:
        given = ", ".join(f"{name}={value:g}" for name, value in self.vector.inputs.items())
        part = f".{self.vector.part}" if self.vector.part else ""
        return f"{self.vector.relation}{part}({given})"

    def _off(self) -> str:
        expected = self.vector.expected
        share = 100 * self.difference / expected.value if expected and expected.value else math.nan
        percent = f" ({prose_number(concise(share, 2))} %)" if math.isfinite(share) else ""
        return f"off by {prose_number(concise(self.difference, 4))}{percent}"


@dataclass(frozen=True)
class Report:
    """The verdicts on every vector that was put."""

    verdicts: tuple[Verdict, ...]

    @property
    def agrees(self) -> bool:
        """Whether every answer agrees, and there was one."""
        return bool(self.verdicts) and not self.differing

    @property
    def differing(self) -> list[Verdict]:
        """The verdicts that differ, the largest share of its tolerance first."""
        return sorted((v for v in self.verdicts if not v.agrees), key=_severity, reverse=True)

    def text(self, *, most: int = 10) -> str:
        """Return the report as text: a count, then the worst of what differs."""
        differing = self.differing
        lines = [f"{len(self.verdicts)} vectors, {len(self.verdicts) - len(differing)} agree."]
        if not self.verdicts:
            lines.append("Every vector was passed over, so nothing was judged.")
        lines += self._common()
        lines += [str(verdict) for verdict in differing[:most]]
        if len(differing) > most:
            lines.append(f"and {len(differing) - most} more that differ")
        return "\n".join(lines)

    def _common(self) -> list[str]:
        """Return a line for each slip that explains most of what differs, before single points."""
        differing = self.differing
        counts = Counter(name for v in differing for name in {slip.name for slip in v.slips})
        lines = []
        for name, count in counts.most_common(2):
            if count > 1 and 2 * count > len(differing):
                told = next(s.explanation for v in differing for s in v.slips if s.name == name)
                lines.append(f"{count} of the {len(differing)} others: perhaps {name}, as {told}.")
        answered = [v for v in differing if v.vector.expected is None and v.answer is not None]
        if answered:
            lines.append(f"{_points(len(answered))} impossible and should be refused.")
        refused = [v for v in differing if v.vector.expected and v.answer is None]
        if refused:
            lines.append(f"{_points(len(refused))} possible and got no number.")
        return lines

    def data(self, *, most: int = 10) -> dict[str, Any]:
        """Return the report as dicts, lists, texts and numbers, as JSON has them."""
        differing = self.differing
        return {
            "agrees": self.agrees,
            "vectors": len(self.verdicts),
            "differ": len(differing),
            "differing": [verdict.data() for verdict in differing[:most]],
        }


def run(
    function: Callable[..., Any] | Mapping[str, Callable[..., Any]],
    vectors: Iterable[Vector] | None = None,
    *,
    relation: str | None = None,
    within: float = 0.0,
) -> Report:
    """Return how a function answers the vectors of a relation.

    Parameters
    ----------
    function
        Takes the arguments of the relation by name, as numbers in the recorded units, and returns
        a number in the recorded unit. It refuses the impossible by raising an exception or by
        returning None or NaN. Several functions come as a mapping from relation to function.
    vectors
        What to put; every vector of the relation when left out.
    relation
        Name of the relation; the function's own name when left out.
    within
        Share of each expected value that still agrees, where that is more than its tolerance.

    Raises
    ------
    TypeError
        When the function does not take the arguments of the relation.
    """
    if callable(function):
        own = str(getattr(function, "__name__", ""))
        functions: Mapping[str, Callable[..., Any]] = {relation or own: function}
    else:
        functions = function
    known = records() | calculations()
    for name, one in functions.items():
        if name not in known:
            msg = f"{name!r} is no relation; give its name with relation="
            raise TypeError(msg)
        _takes(one, name, list(known[name].arguments))
    put = loosened(all_vectors(functions) if vectors is None else vectors, within)
    return Report(tuple(_ask(functions[v.relation], v) for v in put if v.relation in functions))


def loosened(vectors: Iterable[Vector], within: float) -> list[Vector]:
    """Return vectors whose tolerance is at least a share of the expected value."""
    return [
        vector
        if vector.expected is None
        else replace(vector, expected=_wider(vector.expected, within))
        for vector in vectors
    ]


def _wider(expected: Expected, within: float) -> Expected:
    return replace(expected, tolerance=max(expected.tolerance, within * abs(expected.value)))


def named_like_relations(names: Mapping[str, Any]) -> dict[str, Callable[..., Any]]:
    """Return what can be called and is named like a relation or calculation.

    Raises
    ------
    TypeError
        When there is nothing of the kind.
    """
    known = records() | calculations()
    found = {name: one for name, one in names.items() if name in known and callable(one)}
    if not found:
        msg = "no function is named like a relation; give one as module:function, with --relation"
        raise TypeError(msg)
    return found


def judge(vector: Vector, answer: object, said: str = "") -> Verdict:
    """Return the verdict on an answer to a vector; what is no finite number is a refusal."""
    number = float(answer) if isinstance(answer, int | float) else math.nan
    if not math.isfinite(number):
        return Verdict(vector, None, said or f"the answer is {answer!r}")
    verdict = Verdict(vector, number)
    record = records().get(vector.relation)
    if verdict.agrees or vector.expected is None or record is None:
        return verdict
    found = likely_slips(
        record, vector.inputs, vector.expected.value, number, vector.expected.tolerance
    )
    return Verdict(vector, number, slips=tuple(found))


def _ask(function: Callable[..., Any], vector: Vector) -> Verdict:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        try:
            answer = function(**vector.inputs, **vector.options)
        except Exception as error:  # noqa: BLE001 - whatever it raises is its way to refuse
            return judge(vector, None, f"{type(error).__name__}: {error}")
    if vector.part and not isinstance(answer, int | float):
        answer = _part(answer, vector.part)
    return judge(vector, _plain(answer))


def _part(answer: Any, part: str) -> object:
    if isinstance(answer, dict):
        return answer.get(part)
    return getattr(answer, part, None)


def _plain(answer: Any) -> object:
    """Return a number of another kind, such as one of NumPy, as a float."""
    if answer is None or isinstance(answer, str | int | float):
        return answer
    try:
        return float(answer)
    except (TypeError, ValueError):
        return answer


def _takes(function: Callable[..., Any], relation: str, wanted: list[str]) -> None:
    """Refuse a function whose arguments have other names, before it fails at every vector."""
    try:
        signature = inspect.signature(function)
    except (TypeError, ValueError):
        return
    kinds = {p.kind for p in signature.parameters.values()}
    needed = [
        name
        for name, p in signature.parameters.items()
        if p.default is p.empty and p.kind in {p.POSITIONAL_OR_KEYWORD, p.KEYWORD_ONLY}
    ]
    missing = [name for name in wanted if name not in signature.parameters]
    unknown = [name for name in needed if name not in wanted]
    if unknown or (missing and inspect.Parameter.VAR_KEYWORD not in kinds):
        msg = f"{relation} takes {', '.join(wanted)} by name; the function takes {signature}"
        raise TypeError(msg)


def _points(count: int) -> str:
    return "1 point is" if count == 1 else f"{count} points are"


def _severity(verdict: Verdict) -> float:
    expected = verdict.vector.expected
    if expected is None or verdict.answer is None:
        return math.inf
    return abs(verdict.difference) / (expected.tolerance or 1e-300)


def _shown(value: float | None) -> str:
    return "no number" if value is None else prose_number(concise(value, 10))
