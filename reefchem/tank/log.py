"""A keeper's log: readings, doses, water changes, top-off and events, as a CSV file of our own.

The first line names the columns; a line that begins with ``#`` is a remark::

    # an invented tank
    when,what,quantity,value,unit,method,note
    2026-03-01 18:30,reading,alkalinity,7.9,dKH,titration,
    2026-03-01 19:00,dose,soda,12,mL,,
    2026-03-02 08:00,dose,soda,25,mL/day,,pump set
    2026-03-02,water change,,18,L,,
    2026-03-03,event,,,,,a snail died

`COLUMNS` says what each holds and `KINDS` what may happen. Cells are parted by commas, semicolons
or tabs. The same in TOML, where a row is a table of those keys::

    [[row]]
    when = 2026-03-01 18:30:00
    what = "reading"
    quantity = "alkalinity"
    value = 7.9
    unit = "dKH"

A bad row is never dropped: all are reported at once, with file, line, column and reason, and the
good rows are still at hand in the error.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from reefchem.core.errors import DomainError
from reefchem.core.fault import Fault, FaultyFileError
from reefchem.core.table import contents, numbered_lines, table_rows
from reefchem.tank.entry import COLUMNS, KINDS, REQUIRED, Entry
from reefchem.tank.log_rows import Judge

if TYPE_CHECKING:
    from collections.abc import Callable, Collection, Iterator

__all__ = [
    "COLUMNS",
    "KINDS",
    "Entry",
    "Fault",
    "Log",
    "LogError",
    "log_from_frame",
    "log_from_text",
    "read_log",
]

MOST_BYTES = 100_000_000


@dataclass(frozen=True, slots=True)
class Log:
    """Good rows in the order of time."""

    file: str
    entries: tuple[Entry, ...]

    def __len__(self) -> int:
        return len(self.entries)

    def __iter__(self) -> Iterator[Entry]:
        return iter(self.entries)

    def readings(self, quantity: str) -> tuple[Entry, ...]:
        """Return the readings of one quantity."""
        return tuple(e for e in self.entries if e.what == "reading" and e.quantity == quantity)


class LogError(FaultyFileError):
    """A log has bad rows.

    Attributes
    ----------
    log
        The good rows, for those who want to go on without the bad ones.
    """

    def __init__(self, faults: list[Fault], log: Log) -> None:
        super().__init__(log.file, faults)
        self.log = log


def read_log(
    path: str | Path,
    *,
    time_zone: str | None = None,
    stocks: Collection[str] | None = None,
    progress: Callable[[float], None] | None = None,
) -> Log:
    """Return the log of a CSV file, or of a TOML file where the name ends so.

    Parameters
    ----------
    path
        The file.
    time_zone
        Name of the place's time zone (``"Europe/Dublin"``). With it, days across a change of
        the clock are counted right, and a time that the clock showed twice or never is refused.
    stocks
        Names that a dose may have; any name when None.
    progress
        Is told now and then which share of a long file is done, from 0 to 1.

    Raises
    ------
    LogError
        When there is any bad row; it carries all of them.
    DomainError
        When the file cannot be read at all.
    """
    path = Path(path)
    raw = contents(path, MOST_BYTES)
    if path.suffix.lower() == ".toml":
        from reefchem.tank.log_toml import judge_toml  # noqa: PLC0415 - only for such a file

        judge = Judge(path.name, time_zone, stocks)
        judge_toml(raw, judge)
        return _log(judge)
    return _from_table(raw, path.name, time_zone, stocks, progress)


def log_from_text(
    text: str,
    *,
    file: str = "log",
    time_zone: str | None = None,
    stocks: Collection[str] | None = None,
) -> Log:
    """Return the log that a text holds, in the form of the CSV file."""
    return _from_table(text, file, time_zone, stocks)


def log_from_frame(
    frame: Any,
    *,
    name: str = "frame",
    time_zone: str | None = None,
    stocks: Collection[str] | None = None,
) -> Log:
    """Return the log of a data frame that has the columns of the file.

    A pandas frame will do, or anything else with ``columns`` that can be taken by name. Lines are
    counted from 1.
    """
    names = [str(column) for column in frame.columns]
    unknown = [column for column in names if column not in COLUMNS]
    missing = [column for column in REQUIRED if column not in names]
    if unknown or missing or len(set(names)) < len(names):
        msg = f"{name}: unknown columns {unknown}, missing columns {missing}"
        msg += "; one stands there twice" if len(set(names)) < len(names) else ""
        raise DomainError(msg)
    judge = Judge(name, time_zone, stocks)
    absent = [""] * len(frame)
    columns = [frame[column] if column in names else absent for column in COLUMNS]
    for line, row in enumerate(zip(*columns, strict=True), 1):
        judge.cells(line, row)
    return _log(judge)


def _from_table(
    raw: bytes | str,
    file: str,
    time_zone: str | None,
    stocks: Collection[str] | None,
    progress: Callable[[float], None] | None = None,
) -> Log:
    judge = Judge(file, time_zone, stocks)
    for line, row in table_rows(
        numbered_lines(raw, progress), file, tuple(COLUMNS), REQUIRED, judge.faults
    ):
        judge.row(line, row)
    return _log(judge)


def _log(judge: Judge) -> Log:
    """Return the log of the good rows, or raise what is wrong with the others."""
    log = Log(judge.file, judge.in_order())
    if judge.faults:
        raise LogError(judge.faults, log)
    return log
