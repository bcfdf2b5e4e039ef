"""Worked examples: ``book/examples/<id>.toml``, data that names relations and a printed answer.

One step::

    title = "How salty is water that floats a hydrometer at 1.0264?"
    question = "A glass hydrometer for 25 °C ..."
    relation = "salinity_from_specific_gravity"

    [inputs]
    specific_gravity = { value = "1.0264", unit = "1" }

    [printed]            # or [exact], or [common]
    value = "35.0"
    unit = "1"
    source = "millero1981"
    at = "..."

Several steps: a list ``[[steps]]`` with an `id`, a `relation` and `inputs` each; an input may be
``{ step = "other" }``. The answer is the last step. `[exact]` has a `reasoning` that can be done by
hand; `[common]` is common practice with a `note` and no source. Each may have `tolerance` and
`reason`; otherwise half a unit of the last digit counts.
"""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from reefchem.core.errors import DomainError
from reefchem.examples.printed import half_last_digit, parse_printed

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

__all__ = [
    "Example",
    "Expected",
    "Given",
    "Step",
    "needed_text",
    "only_known",
    "read_example",
    "read_examples",
]

_KINDS = ("printed", "exact", "common")


@dataclass(frozen=True)
class Given:
    """An input as text with its unit, or the result of an earlier step."""

    value: str
    unit: str
    step: str = ""


@dataclass(frozen=True)
class Step:
    """One relation with its inputs."""

    id: str
    relation: str
    inputs: Mapping[str, Given]
    text: str = ""


@dataclass(frozen=True)
class Expected:
    """The answer that somebody else gave.

    Attributes
    ----------
    kind
        ``"printed"`` (with `source` and `at`), ``"exact"`` (with `reasoning`) or ``"common"``
        (common practice, no source; with a `note` in `reasoning`).
    """

    kind: str
    value: str
    unit: str
    tolerance: float
    source: str = ""
    at: str = ""
    reasoning: str = ""
    reason: str = ""

    @property
    def number(self) -> float:
        """The printed number."""
        return parse_printed(self.value, self.source or self.kind)


@dataclass(frozen=True)
class Example:
    """A worked example."""

    id: str
    title: str
    question: str
    steps: tuple[Step, ...]
    expected: Expected
    digits: int

    @property
    def relations(self) -> tuple[str, ...]:
        """Names of the relations that the steps use, each once."""
        return tuple(dict.fromkeys(step.relation for step in self.steps))


def read_examples(folder: Path) -> dict[str, Example]:
    """Return every example of a folder by its id."""
    return {path.stem: read_example(path) for path in sorted(folder.glob("*.toml"))}


def read_example(path: Path) -> Example:
    """Return the example of a file.

    Raises
    ------
    DomainError
        When something is missing, misspelt or not text; the message names file and key.
    """
    where = path.name
    data = tomllib.loads(path.read_text(encoding="utf-8"))
    only_known(data, {"title", "question", "relation", "inputs", "steps", "digits", *_KINDS}, where)
    raw = data.get("steps") or [{"id": "result", **_pick(data, ("relation", "inputs"), where)}]
    steps = tuple(_step(entry, where) for entry in raw)
    ids = [step.id for step in steps]
    for index, step in enumerate(steps):
        for name, given in step.inputs.items():
            if given.step and given.step not in ids[:index]:
                msg = f"{where}: {step.id}.{name} names {given.step!r}, which is no earlier step"
                raise DomainError(msg)
    expected = _expected(data, where)
    digits = data.get("digits", max(4, len(expected.value.strip("-0.").replace(".", "")) + 1))
    return Example(
        path.stem,
        needed_text(data, "title", where),
        data.get("question", ""),
        steps,
        expected,
        digits,
    )


def _expected(data: dict[str, Any], where: str) -> Expected:
    kinds = [kind for kind in _KINDS if kind in data]
    if len(kinds) != 1:
        msg = f"{where}: one of {_KINDS} is needed; there are {kinds}"
        raise DomainError(msg)
    kind, entry = kinds[0], data[kinds[0]]
    needs = {"printed": ("source", "at"), "exact": ("reasoning",), "common": ("note",)}[kind]
    only_known(entry, {"value", "unit", "tolerance", "reason", *needs}, f"{where}, {kind}")
    if ("tolerance" in entry) != ("reason" in entry):
        msg = f"{where}: a tolerance of its own needs a reason, and the other way round"
        raise DomainError(msg)
    text = {key: needed_text(entry, key, f"{where}, {kind}") for key in ("value", "unit", *needs)}
    tolerance = (
        parse_printed(entry["tolerance"], where)
        if "tolerance" in entry
        else half_last_digit(text["value"], where)
    )
    return Expected(
        kind=kind,
        value=text["value"],
        unit=text["unit"],
        tolerance=tolerance,
        source=text.get("source", ""),
        at=text.get("at", ""),
        reasoning=text.get("reasoning", text.get("note", "")),
        reason=entry.get("reason", ""),
    )


def _step(entry: dict[str, Any], where: str) -> Step:
    only_known(entry, {"id", "relation", "inputs", "text"}, where)
    name = needed_text(entry, "id", where)
    inputs = {}
    for key, given in entry.get("inputs", {}).items():
        place = f"{where}, {name}.{key}"
        only_known(given, {"value", "unit", "step"}, place)
        if "step" in given:
            inputs[key] = Given("", "", given["step"])
        else:
            parse_printed(needed_text(given, "value", place), place)
            inputs[key] = Given(given["value"], needed_text(given, "unit", place))
    return Step(name, needed_text(entry, "relation", where), inputs, entry.get("text", ""))


def _pick(data: dict[str, Any], keys: tuple[str, ...], where: str) -> dict[str, Any]:
    missing = [key for key in keys if key not in data]
    if missing:
        msg = f"{where}: {missing} is missing (or give a list of steps)"
        raise DomainError(msg)
    return {key: data[key] for key in keys}


def needed_text(entry: dict[str, Any], key: str, where: str) -> str:
    """Return a text that must be there."""
    value = entry.get(key)
    if not isinstance(value, str):
        msg = f"{where}: {key} is needed, as text; it is {value!r}"
        raise DomainError(msg)
    return value


def only_known(entry: dict[str, Any], known: set[str], where: str) -> None:
    """Refuse keys that nobody reads: a misspelt key must not be ignored."""
    unknown = entry.keys() - known
    if unknown:
        msg = f"{where}: unknown key {sorted(unknown)}; known are {sorted(known)}"
        raise DomainError(msg)
