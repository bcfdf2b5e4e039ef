"""Exercises: ``book/exercises/<id>.toml``, a question whose numbers are drawn from a seed.

A file has `title`, `question` (with ``{name}`` where a number goes), `level` (1 to 3), `seed`, and
steps as in a worked example, in which an input may be drawn::

    salinity = { from = "33", to = "37", step = "0.5", unit = "1" }

`[answer]` has a `unit` and the range ``within`` which an answer is right, as ``"0.5 %"``. A `hint`
is optional.
"""

from __future__ import annotations

import tomllib
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import TYPE_CHECKING, Any

from reefchem.core.errors import DomainError
from reefchem.examples.model import Given, Step, needed_text, only_known
from reefchem.examples.printed import parse_printed
from reefchem.examples.runner import StepOutcome, in_unit, run_steps
from reefchem.formula.units import plain_unit

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping
    from pathlib import Path

__all__ = ["Draw", "Exercise", "read_exercise", "read_exercises"]


@dataclass(frozen=True)
class Draw:
    """A number to be drawn: from `low` in steps of `step`, `count` choices in all."""

    low: Decimal
    step: Decimal
    count: int
    unit: str

    def pick(self, share: float) -> str:
        """Return the text of the choice at a share of the way, 0 to below 1."""
        return str(self.low + self.step * int(share * self.count))


@dataclass(frozen=True)
class Exercise:
    """A question with drawn numbers.

    Attributes
    ----------
    draws
        `Draw` by ``(step, argument)``, in the order of the file.
    within
        Largest relative difference that counts as right.
    """

    id: str
    title: str
    question: str
    level: int
    seed: int
    steps: tuple[Step, ...]
    draws: Mapping[tuple[str, str], Draw]
    unit: str
    within: float
    hint: str

    def drawn(self, seed: int | None = None) -> tuple[Step, ...]:
        """Return the steps with numbers drawn from a seed; by default the exercise's own."""
        shares = random_shares(self.seed if seed is None else seed)
        steps = {step.id: step for step in self.steps}
        for (step, argument), draw in self.draws.items():
            given = Given(draw.pick(next(shares)), draw.unit)
            inputs = {**steps[step].inputs, argument: given}
            steps[step] = replace(steps[step], inputs=inputs)
        return tuple(steps.values())

    def asked(self, seed: int | None = None) -> str:
        """Return the question with its numbers and their units."""
        numbers = {
            name: f"{given.value.replace('-', '−')} {plain_unit(given.unit)}".strip()
            for step in self.drawn(seed)
            for name, given in step.inputs.items()
            if not given.step
        }
        try:
            return self.question.format_map(numbers)
        except (KeyError, IndexError, ValueError) as error:
            msg = f"{self.id}: the question asks for {error}; there is {sorted(numbers)}"
            raise DomainError(msg) from error

    def solved(self, seed: int | None = None) -> tuple[StepOutcome, ...]:
        """Return what each step computes."""
        return run_steps(self.id, self.drawn(seed))

    def answer(self, seed: int | None = None) -> float:
        """Return the answer in the unit of the exercise."""
        return in_unit(self.solved(seed)[-1], self.unit)


def random_shares(seed: int) -> Iterator[float]:
    """Yield numbers from 0 to below 1, the same from one seed in Python and in the page.

    The generator is Mulberry32 (public domain), which needs 32-bit integers only.
    """
    mask = 0xFFFFFFFF
    state = seed & mask
    while True:
        state = (state + 0x6D2B79F5) & mask
        mixed = ((state ^ (state >> 15)) * (state | 1)) & mask
        mixed ^= (mixed + (((mixed ^ (mixed >> 7)) * (mixed | 61)) & mask)) & mask
        yield (mixed ^ (mixed >> 14)) / 4294967296


def read_exercises(folder: Path) -> dict[str, Exercise]:
    """Return every exercise of a folder by its id."""
    return {path.stem: read_exercise(path) for path in sorted(folder.glob("*.toml"))}


def read_exercise(path: Path) -> Exercise:
    """Return the exercise of a file.

    Raises
    ------
    DomainError
        When something is missing, misspelt or not text; the message names file and key.
    """
    where = path.name
    data = tomllib.loads(path.read_text(encoding="utf-8"))
    known = {"title", "question", "level", "seed", "relation", "inputs", "steps", "answer", "hint"}
    only_known(data, known, where)
    level, seed = data.get("level"), data.get("seed")
    if level not in {1, 2, 3} or not isinstance(seed, int):
        msg = f"{where}: level is 1, 2 or 3 and seed a whole number; they are {level!r}, {seed!r}"
        raise DomainError(msg)
    raw: list[dict[str, Any]] = data.get("steps") or [
        {"id": "result", "relation": data.get("relation"), "inputs": data.get("inputs", {})}
    ]
    steps, draws = [], {}
    for entry in raw:
        only_known(entry, {"id", "relation", "inputs", "text"}, where)
        name = needed_text(entry, "id", where)
        inputs = {}
        for key, given in entry.get("inputs", {}).items():
            place = f"{where}, {name}.{key}"
            if "from" in given:
                draws[name, key] = _draw(given, place)
            inputs[key] = _given(given, place)
        relation = needed_text(entry, "relation", where)
        steps.append(Step(name, relation, inputs, entry.get("text", "")))
    answer = data.get("answer", {})
    only_known(answer, {"unit", "within"}, f"{where}, answer")
    within = needed_text(answer, "within", where)
    if not within.endswith("%"):
        msg = f"{where}: within is a percentage such as '0.5 %', not {within!r}"
        raise DomainError(msg)
    return Exercise(
        id=path.stem,
        title=needed_text(data, "title", where),
        question=needed_text(data, "question", where),
        level=level,
        seed=seed,
        steps=tuple(steps),
        draws=draws,
        unit=needed_text(answer, "unit", where),
        within=parse_printed(within.removesuffix("%").strip(), where) / 100,
        hint=data.get("hint", ""),
    )


def _given(given: dict[str, Any], place: str) -> Given:
    if "step" in given and "from" not in given and "value" not in given:
        return Given("", "", given["step"])
    text = needed_text(given, "from" if "from" in given else "value", place)
    parse_printed(text, place)
    return Given(text, needed_text(given, "unit", place))


def _draw(given: dict[str, Any], place: str) -> Draw:
    only_known(given, {"from", "to", "step", "unit"}, place)
    texts = [needed_text(given, key, place) for key in ("from", "to", "step")]
    for text in texts:
        parse_printed(text, place)
    low, high, step = (Decimal(text) for text in texts)
    if step <= 0 or high <= low:
        msg = f"{place}: from {low} to {high} in steps of {step} leaves nothing to draw"
        raise DomainError(msg)
    return Draw(low, step, int((high - low) / step) + 1, needed_text(given, "unit", place))
