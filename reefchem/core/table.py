"""A table in a CSV file that somebody wrote: its rows, and what is wrong with those that are none.

The first line names the columns; a line that begins with ``#`` is a remark. Cells are parted by
commas, semicolons or tabs. A row is one line: a quotation mark that is not closed on its line is a
fault of that line alone, so that it cannot swallow the good rows below. The text is UTF-8, or
UTF-16 with its mark at the start, as spreadsheets write it.
"""

from __future__ import annotations

import csv
import io
import re
from operator import itemgetter

from reefchem.core.errors import DomainError
from reefchem.core.fault import Fault

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Callable, Collection, Iterator
    from pathlib import Path
    from typing import Any

__all__ = ["contents", "numbered_lines", "table_rows", "unreadable"]

MOST_ROWS = 1_000_000
LONGEST_LINE = 4_000
EACH = 5_000
"""Lines between two words about the progress."""

_NO_TEXT = re.compile("[\x00-\x08\x0b-\x1f\x7f\ufffd]")


def contents(path: Path, most: int) -> bytes:
    """Return what a file holds.

    Raises
    ------
    DomainError
        When it cannot be read, or has more than `most` bytes.
    """
    try:
        with path.open("rb") as file:
            raw = file.read(most + 1)
    except (OSError, ValueError) as error:
        msg = f"{str(path)!r} cannot be read: {getattr(error, 'strerror', None) or error}"
        raise DomainError(msg) from None
    if len(raw) > most:
        msg = f"{path.name} cannot be read: it has more than {most} bytes"
        raise DomainError(msg)
    return raw


def numbered_lines(
    raw: bytes | str, progress: Callable[[float], None] | None = None
) -> Iterator[tuple[int, str]]:
    """Give the lines of a text with their numbers from 1, without what ends them.

    Bytes that are no text become U+FFFD. `progress` is told now and then which share is done.
    """
    done, total = 0, len(raw)
    for number, line in enumerate(_text(raw), 1):
        done += len(line)
        if progress is not None and number % EACH == 0:
            progress(done / total)
        yield number, line.rstrip("\n")


def _text(raw: bytes | str) -> io.TextIOBase:
    if isinstance(raw, str):
        return io.StringIO(raw.removeprefix("\ufeff"), newline=None)
    wide = raw.startswith((b"\xff\xfe", b"\xfe\xff"))
    encoding = "utf-16" if wide else "utf-8-sig"
    return io.TextIOWrapper(io.BytesIO(raw), encoding=encoding, errors="replace", newline=None)


def unreadable(line: str) -> str:
    """Return why a line is no text to be read, or an empty text."""
    if len(line) > LONGEST_LINE:
        return f"{len(line)} characters; at most {LONGEST_LINE} are read"
    found = _NO_TEXT.search(line)
    if found is None:
        return ""
    if found[0] == "\ufffd":
        return "it has bytes that are no UTF-8 text; save the file as UTF-8"
    return f"it has the control character {found[0]!r}; save the file as plain UTF-8 text"


def table_rows(
    lines: Iterator[tuple[int, str]],
    file: str,
    columns: Collection[str],
    required: Collection[str],
    faults: list[Fault],
    *,
    others: bool = False,
) -> Iterator[tuple[int, tuple[str, ...]]]:
    """Give each row with its line; its cells in the order of `columns`, empty where there is none.

    A line that is no row is added to `faults`; every line below the first is one or the other.
    Columns of other names are refused, or passed over where `others` are allowed.
    """
    told = (pair for pair in lines if not _is_remark(pair[1]))
    number, line = next(told, (1, ""))
    if not line:
        reason = "the file is empty; the first line names the columns " + ", ".join(columns)
        faults.append(Fault(file, number, "", reason))
        return
    delimiter = max(",;\t", key=line.count)
    names = line.rstrip(f" {delimiter}").split(delimiter)
    header = [name.strip().strip('"').lower() for name in names]
    allowed = {*columns, *header} if others else columns
    reason = unreadable(line) or _header_fault(header, allowed, columns, required)
    if reason:
        faults.append(Fault(file, number, "", f"{reason}; no row is read"))
        return
    expected = len(header)
    places = [header.index(name) if name in header else expected for name in columns]
    pick: itemgetter[Any] = itemgetter(*places)
    for count, (number, line) in enumerate(told, 1):
        if count > MOST_ROWS:
            reason = f"more than {MOST_ROWS} rows; nothing is read from here on"
            faults.append(Fault(file, number, "", reason))
            return
        cells = unreadable(line) or _cells(line, delimiter, expected)
        if isinstance(cells, str):
            faults.append(Fault(file, number, "", cells))
        else:
            yield number, pick(cells)


def _is_remark(line: str) -> bool:
    start = line.lstrip()
    return not start or start.startswith(("#", '"#'))


def _header_fault(
    names: list[str],
    allowed: Collection[str],
    columns: Collection[str],
    required: Collection[str],
) -> str:
    unknown = [name[:30] for name in names if name not in allowed]
    missing = [name for name in required if name not in names]
    twice = len(set(names)) < len(names)
    if not unknown and not missing and not twice:
        return ""
    reason = f"the first line names the columns {', '.join(columns)}"
    if missing:
        reason += f"; missing: {', '.join(missing)}"
    if unknown:
        reason += f"; unknown: {', '.join(map(repr, unknown[:5]))}"
    return reason + ("; one stands there twice" if twice else "")


def _cells(line: str, delimiter: str, expected: int) -> list[str] | str:
    """Return the cells of a line and an empty one, or why there are none."""
    if '"' in line:
        try:
            cells = next(csv.reader([line], delimiter=delimiter, strict=True))
        except csv.Error:
            return "a quotation mark is not closed on this line, or stands inside a cell"
    else:
        cells = line.split(delimiter)
    cells = [cell.strip() for cell in cells]
    while cells and not cells[-1]:
        cells.pop()
    if len(cells) > expected:
        hint = " (a decimal comma? put the number in quotes)" if delimiter == "," else ""
        return f"{len(cells)} cells for {expected} columns{hint}"
    cells += [""] * (expected + 1 - len(cells))
    return cells
