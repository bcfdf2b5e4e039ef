"""A log in TOML: each row a table ``[[row]]`` with the columns of the CSV file as keys."""

from __future__ import annotations

import re
from datetime import date, datetime
from typing import TYPE_CHECKING, Any

from reefchem.core.toml import shown, toml_data
from reefchem.tank.entry import COLUMNS

if TYPE_CHECKING:
    from reefchem.tank.log_rows import Judge

__all__ = ["judge_toml"]

_ROW = re.compile(r"\s*\[\[\s*row\s*\]\]")


def judge_toml(raw: bytes, judge: Judge) -> None:
    """Judge every row of a TOML log.

    A value may be a number or a text, and a time a TOML date or a text.
    """
    text, data = toml_data(raw, judge.file, judge.faults)
    if data is None:
        return
    judge.prefix = "row."
    lines = [number for number, line in enumerate(text.split("\n"), 1) if _ROW.match(line)]
    rows = data.pop("row", [])
    for key in data:
        judge.fault(0, "", f"unknown key {key!r:.40}; each row is written as [[row]]")
    if not isinstance(rows, list) or len(rows) != len(lines):
        judge.fault(0, "", "each row is written as [[row]] on a line of its own; no row is read")
        return
    if not rows:
        judge.fault(0, "", "there is no row; each is written as [[row]]")
    for line, row in zip(lines, rows, strict=True):
        _judge_row(line, row, judge)


def _judge_row(line: int, row: dict[str, Any], judge: Judge) -> None:
    before = len(judge.faults)
    for key, value in row.items():
        if key not in COLUMNS:
            judge.fault(line, "", f"unknown key {key!r:.40}; known are {', '.join(COLUMNS)}")
        elif isinstance(value, bool) or not isinstance(value, str | int | float | date | datetime):
            judge.fault(line, key, f"a text, a number or a date is expected; it is {shown(value)}")
    if len(judge.faults) == before:
        cells = (row.get(key) for key in COLUMNS)
        judge.cells(line, (shown(c) if isinstance(c, int | float) else c for c in cells))
