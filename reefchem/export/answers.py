"""Answers of other programs: a command that reads JSON lines, or a CSV file of results."""

from __future__ import annotations

import json
import shlex
import subprocess
from pathlib import Path
from typing import TYPE_CHECKING, Any

from reefchem.core.errors import DomainError
from reefchem.core.fault import Fault, FaultyFileError
from reefchem.core.table import contents, numbered_lines, table_rows
from reefchem.core.written_number import short
from reefchem.export.conformance import Report, Verdict, judge

if TYPE_CHECKING:
    from collections.abc import Iterable

    from reefchem.export.vectors import Vector

__all__ = ["from_command", "from_csv", "questions"]

MOST_BYTES = 100_000_000


def questions(vectors: Iterable[Vector]) -> str:
    """Return the vectors as JSON lines, each with `id`, `relation` and `inputs` as bare numbers."""
    return "".join(
        json.dumps(
            {"id": v.id, "relation": v.relation, "inputs": v.inputs}
            | ({"part": v.part} if v.part else {})
            | ({"options": v.options} if v.options else {})
        )
        + "\n"
        for v in vectors
    )


def from_command(command: str, vectors: list[Vector], *, seconds: float = 60.0) -> Report:
    """Return the report on a command that answers each line of JSON with one.

    It reads ``{"id": ..., "relation": ..., "inputs": {...}}`` and writes
    ``{"id": ..., "value": number}``, or ``{"id": ..., "error": "why"}`` to refuse. A relation that
    it does not know is passed over with ``{"id": ..., "skip": true}``.

    Raises
    ------
    DomainError
        When it cannot be started, takes too long, or writes what cannot be read.
    """
    try:
        done = subprocess.run(  # noqa: S603 - the user's own command, without a shell
            shlex.split(command),
            input=questions(vectors),
            capture_output=True,
            text=True,
            timeout=seconds,
            check=False,
        )
    except (OSError, subprocess.TimeoutExpired) as error:
        msg = f"{command}: {error}"
        raise DomainError(msg) from error
    if done.returncode:
        last = done.stderr.strip().splitlines()[-1:] or ["nothing was said"]
        msg = f"{command} ended with status {done.returncode}: {last[0]}"
        raise DomainError(msg)
    answers: dict[str, Any] = {}
    for number, line in enumerate(done.stdout.splitlines(), 1):
        if not line.strip():
            continue
        try:
            entry = json.loads(line)
            value = entry.get("value")
            value = float(value) if isinstance(value, int | float) else value
            answers[entry["id"]] = entry | {"value": value}
        except (ValueError, KeyError, TypeError, AttributeError, OverflowError, RecursionError):
            msg = f"{command}, line {number} of its output is no answer: {line[:80]!r}"
            raise DomainError(msg) from None
    return _judged(vectors, answers, command)


def from_csv(path: str | Path, vectors: list[Vector]) -> Report:
    """Return the report on a CSV file with the columns `id` and `value`; others are passed over.

    An empty value is a refusal. Vectors that the file leaves out are not judged.

    Raises
    ------
    FaultyFileError
        When a column is missing, or lines name no vector or hold no number; it lists them all.
    DomainError
        When the file cannot be read at all.
    """
    path = Path(path)
    known = {vector.id: vector for vector in vectors}
    answers: dict[str, Any] = {}
    faults: list[Fault] = []
    columns = ("id", "value")
    lines = numbered_lines(contents(path, MOST_BYTES))
    for line, (name, text) in table_rows(lines, path.name, columns, columns, faults, others=True):
        if name not in known:
            faults.append(Fault(path.name, line, "id", f"no vector is called {short(name)}"))
            continue
        try:
            answers[name] = {"value": float(text)} if text else {"error": "empty"}
        except ValueError:
            faults.append(Fault(path.name, line, "value", f"{short(text)} is no number"))
    if faults:
        raise FaultyFileError(path.name, faults)
    return _judged([known[name] for name in answers], answers, path.name)


def _judged(vectors: list[Vector], answers: dict[str, Any], who: str) -> Report:
    verdicts = []
    for vector in vectors:
        entry = answers.get(vector.id)
        if entry is None:
            verdicts.append(Verdict(vector, None, f"{who} gave no answer", missing=True))
        elif not entry.get("skip"):
            verdicts.append(judge(vector, entry.get("value"), str(entry.get("error", ""))))
    return Report(tuple(verdicts))
