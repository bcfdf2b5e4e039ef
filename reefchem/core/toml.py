"""A TOML file that somebody wrote: its data, or what is wrong with it."""

from __future__ import annotations

import re
import tomllib

from reefchem.core.fault import Fault

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

__all__ = ["lines_of_keys", "shown", "toml_data"]

_AT = re.compile(r" \(at line ([0-9]+), column [0-9]+\)$")
_HEADER = re.compile(r"\s*(\[\[?)\s*([^\[\]]+?)\s*\]")
_KEY = re.compile(r"\s*([A-Za-z0-9_-]+)\s*=")


def toml_data(raw: bytes, file: str, faults: list[Fault]) -> tuple[str, dict[str, Any] | None]:
    """Return text and data of a TOML file; data is None after a fault has been noted."""
    try:
        text = raw.decode("utf-8-sig").replace("\r\n", "\n")
    except UnicodeDecodeError as error:
        line = raw[: error.start].count(b"\n") + 1
        faults.append(Fault(file, line, "", "it has bytes that are no UTF-8 text"))
        return "", None
    try:
        return text, tomllib.loads(text)
    except RecursionError:
        faults.append(Fault(file, 0, "", "brackets stand too deep inside each other"))
        return text, None
    except ValueError as error:  # of tomllib; of int too, for a number of thousands of digits
        digits = str(error).startswith("Exceeds the limit")
        reason = "a number has thousands of digits" if digits else str(error)
        at = _AT.search(reason)
        faults.append(Fault(file, int(at[1]) if at else 0, "", reason[: at.start() if at else 200]))
        return text, None


def lines_of_keys(text: str) -> dict[str, int]:
    """Return the line of each key ``table.key`` that stands on a line of its own, and each table.

    The n-th ``[[table]]`` is called ``table n``.
    """
    lines: dict[str, int] = {}
    counts: dict[str, int] = {}
    table, inside = "", ""
    for number, line in enumerate(text.split("\n"), 1):
        if not inside:
            header, key = _HEADER.match(line), _KEY.match(line)
            if header:
                table = header[2]
                if header[1] == "[[":
                    counts[table] = counts.get(table, 0) + 1
                    table = f"{table} {counts[table]}"
                lines.setdefault(table, number)
            elif key:
                lines.setdefault(f"{table}.{key[1]}" if table else key[1], number)
        for mark in re.findall(r'"""|\'\'\'', line):
            inside = "" if inside == mark else inside or mark
    return lines


def shown(value: Any) -> str:
    """Return a value as text for a message; Python writes no number of thousands of digits."""
    try:
        return repr(value)[:40]
    except ValueError:
        return "(thousands of digits)"
