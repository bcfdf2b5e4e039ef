"""A keeper's log: readings, doses, water changes, top-off and events, as a CSV file of our own.

The first line names the columns; a line that begins with ``#`` is a remark::

    # an invented tank
    when,what,quantity,value,unit,method,note
    2026-03-01 18:30,reading,alkalinity,7.9,dKH,titration,
    2026-03-01 19:00,dose,soda,12,mL,,
    2026-03-02 08:00,dose,soda,25,mL/day,,pump set
    2026-03-02,water change,,18,L,,
    2026-03-03,event,,,,,a snail died

`COLUMNS` says what each holds and `KINDS` what may happen. Columns are parted by commas,
semicolons or tabs. A bad row is never dropped: all are reported at once, with file, line, column
and reason, and the good rows are still at hand in the error.
"""

from __future__ import annotations

import csv
import re
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, tzinfo
from typing import TYPE_CHECKING, Any
from zoneinfo import ZoneInfo

from reefchem.core.errors import DomainError
from reefchem.tank.quantities import AMOUNTS, READINGS, amount_from_text

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Iterator, Mapping
    from pathlib import Path

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

COLUMNS: dict[str, str] = {
    "when": "date, or date and time: 2026-03-01 or 2026-03-01 18:30, with +01:00 or Z if wanted",
    "what": "reading, dose, water change, top-off or event",
    "quantity": "what was read, or which stock was dosed; empty otherwise",
    "value": "the number, with a decimal point (a decimal comma is understood where it is clear)",
    "unit": "its unit, always written",
    "method": "how it was read; optional",
    "note": "free text; optional, but an event needs one",
}
"""Meaning of each column. `method` and `note` may be left out."""

KINDS: dict[str, str] = {
    "reading": "a test result: " + ", ".join(READINGS),
    "dose": (
        "a volume of a stock of the description, in mL or L; or what a pump gives from then on, "
        "in mL/day, until another such row (0 when it stops)"
    ),
    "water change": "water replaced by fresh seawater: in L, US gal or % of the tank",
    "top-off": "fresh water added for what evaporated, in L or US gal",
    "event": "anything worth a line; it enters no calculation",
}
"""What may stand in the column `what`."""

MOST_BYTES = 100_000_000
MOST_ROWS = 1_000_000
LONGEST_LINE = 4_000
SHOWN_FAULTS = 40

_REQUIRED = ("when", "what", "quantity", "value", "unit")
_WHEN = re.compile(r"\d{4}-\d\d-\d\d(?:[ T]\d\d:\d\d(?::\d\d)?(?:Z|[+-]\d\d:\d\d)?)?")
_NOON = time(12)


@dataclass(frozen=True, slots=True)
class Entry:
    """One good row.

    Attributes
    ----------
    line
        Where it stands in the file.
    when
        In coordinated universal time; a date without a time stands for noon.
    what, quantity
        As in the file, lower case where it is a word of ours.
    value, unit
        In the unit that the package works in; ``nan`` and empty for an event.
    written
        Number and unit as the keeper wrote them.
    """

    line: int
    when: datetime
    what: str
    quantity: str
    value: float
    unit: str
    written: str
    method: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class Fault:
    """What is wrong with one row, and where."""

    file: str
    line: int
    column: str
    reason: str

    def __str__(self) -> str:
        column = f", column {self.column}" if self.column else ""
        return f"{self.file}, line {self.line}{column}: {self.reason}"


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


class LogError(DomainError):
    """A log has bad rows.

    Attributes
    ----------
    faults
        Every one of them, in the order of the file.
    log
        The good rows, for those who want to go on without the bad ones.
    """

    def __init__(self, faults: list[Fault], log: Log) -> None:
        self.faults = tuple(sorted(faults, key=lambda fault: fault.line))
        self.log = log
        shown = [str(fault) for fault in self.faults[:SHOWN_FAULTS]]
        if len(self.faults) > SHOWN_FAULTS:
            shown.append(f"... and {len(self.faults) - SHOWN_FAULTS} more")
        rows = "1 row" if len(self.faults) == 1 else f"{len(self.faults)} places"
        super().__init__(
            f"{log.file} cannot be used as it is; {rows} to mend:\n" + "\n".join(shown)
        )


def read_log(
    path: Path, *, time_zone: str | None = None, stocks: Collection[str] | None = None
) -> Log:
    """Return the log of a CSV file.

    Parameters
    ----------
    path
        The file.
    time_zone
        Name of the place's time zone (``"Europe/Dublin"``). With it, days across a change of
        the clock are counted right, and a time that the clock showed twice or never is refused.
    stocks
        Names that a dose may have; any name when None.

    Raises
    ------
    LogError
        When there is any bad row; it carries all of them.
    DomainError
        When the file cannot be read at all.
    """
    try:
        size = path.stat().st_size
        if size > MOST_BYTES:
            msg = f"{path.name} has {size} bytes; at most {MOST_BYTES} are read"
            raise DomainError(msg)
        raw = path.read_bytes()
    except OSError as error:
        msg = f"{path} cannot be read: {error.strerror or error}"
        raise DomainError(msg) from None
    return _from_lines(_decoded(raw), path.name, time_zone, stocks)


def log_from_text(
    text: str,
    *,
    file: str = "log",
    time_zone: str | None = None,
    stocks: Collection[str] | None = None,
) -> Log:
    """Return the log that a text holds, in the form of the file."""
    return _from_lines(text.splitlines(), file, time_zone, stocks)


def log_from_frame(
    frame: Any,
    *,
    name: str = "frame",
    time_zone: str | None = None,
    stocks: Collection[str] | None = None,
) -> Log:
    """Return the log of a data frame that has the columns of the file.

    Anything with ``to_dict("records")`` will do, as a pandas frame. Lines are counted from 1.
    """
    rows = Rows(name, time_zone, stocks)
    unknown = [str(column) for column in frame.columns if column not in COLUMNS]
    missing = [column for column in _REQUIRED if column not in list(frame.columns)]
    if unknown or missing:
        msg = f"{name}: unknown columns {unknown}, missing columns {missing}"
        raise DomainError(msg)
    for line, row in enumerate(frame.to_dict("records"), 1):
        rows.add(line, {key: _cell(value) for key, value in row.items()})
    return rows.log()


def _cell(value: Any) -> str:
    if value is None or value != value:
        return ""
    if isinstance(value, datetime):
        return value.isoformat(sep=" ", timespec="seconds")
    return value.isoformat() if isinstance(value, date) else str(value).strip()


def _decoded(raw: bytes) -> Iterator[str]:
    for line in raw.removeprefix(b"\xef\xbb\xbf").splitlines():
        yield line.decode("utf-8", errors="replace")


def _from_lines(
    lines: Iterable[str], file: str, time_zone: str | None, stocks: Collection[str] | None
) -> Log:
    rows = Rows(file, time_zone, stocks)
    header: list[str] | None = None
    delimiter = ","
    for number, line in enumerate(lines, 1):
        if not line.strip() or line.lstrip().startswith("#"):
            continue
        if header is None:
            delimiter = max(",;\t", key=line.count)
            header = rows.header(number, line, delimiter)
            if header is None:
                break
            continue
        if rows.count >= MOST_ROWS:
            rows.fault(number, "", f"more than {MOST_ROWS} rows; nothing is read from here on")
            break
        cells = rows.cells(number, line, delimiter, len(header))
        if cells is not None:
            rows.add(number, dict(zip(header, cells, strict=False)))
    else:
        if header is None:
            rows.fault(1, "", "the file is empty; the first line names the columns")
    return rows.log()


class Rows:
    """Rows as they are read: good ones, faults, and what was seen before."""

    def __init__(self, file: str, time_zone: str | None, stocks: Collection[str] | None) -> None:
        self.file = file
        self.zone = _zone(time_zone)
        self.stocks = stocks
        self.count = 0
        self.entries: list[Entry] = []
        self.faults: list[Fault] = []
        self._seen: dict[tuple[Any, ...], int] = {}
        self._offsets: set[bool] = set()

    def fault(self, line: int, column: str, reason: str) -> None:
        """Note a fault."""
        self.faults.append(Fault(self.file, line, column, reason))

    def header(self, line: int, text: str, delimiter: str) -> list[str] | None:
        """Return the names of the columns, or None after noting what is wrong with them."""
        names = [name.strip().strip('"').lower() for name in text.split(delimiter)]
        unknown = [name[:30] for name in names if name not in COLUMNS]
        missing = [name for name in _REQUIRED if name not in names]
        if not unknown and not missing and len(set(names)) == len(names):
            return names
        reason = f"the first line names the columns {', '.join(COLUMNS)}"
        if missing:
            reason += f"; missing: {', '.join(missing)}"
        if unknown:
            reason += f"; unknown: {', '.join(map(repr, unknown[:5]))}"
        if len(set(names)) != len(names):
            reason += "; one stands there twice"
        self.fault(line, "", reason)
        return None

    def cells(self, line: int, text: str, delimiter: str, expected: int) -> list[str] | None:
        """Return the cells of a line, or None after noting why there are none."""
        self.count += 1
        if len(text) > LONGEST_LINE:
            self.fault(line, "", f"{len(text)} characters; at most {LONGEST_LINE} are read")
            return None
        if "\ufffd" in text or "\x00" in text:
            self.fault(line, "", "it has bytes that are no UTF-8 text")
            return None
        try:
            cells = next(csv.reader([text], delimiter=delimiter, strict=True))
        except csv.Error:
            self.fault(line, "", "a quotation mark is not closed on this line")
            return None
        while len(cells) > expected and not cells[-1].strip():
            cells.pop()
        if len(cells) > expected:
            hint = " (a decimal comma? put the number in quotes)" if delimiter == "," else ""
            self.fault(line, "", f"{len(cells)} cells for {expected} columns{hint}")
            return None
        return [cell.strip() for cell in cells] + [""] * (expected - len(cells))

    def add(self, line: int, row: Mapping[str, str]) -> None:
        """Judge a row; keep it or note every fault it has."""
        before = len(self.faults)
        when = self._when(line, row["when"])
        what = " ".join(row["what"].lower().replace("_", " ").split())
        what = {"topoff": "top-off", "top off": "top-off", "water-change": "water change"}.get(
            what, what
        )
        if what not in KINDS:
            self.fault(line, "what", f"{row['what'][:30]!r} is none of {', '.join(KINDS)}")
            return
        amount = self._amount(line, what, row)
        if when is None or amount is None or len(self.faults) > before:
            return
        quantity, value, unit = amount
        written = f"{row['value']} {row['unit']}".strip()
        key = (when, what, quantity, written, row.get("method", ""), row.get("note", ""))
        if key in self._seen:
            self.fault(line, "", f"it repeats line {self._seen[key]} word for word")
            return
        self._seen[key] = line
        method, note = row.get("method", ""), row.get("note", "")
        self.entries.append(Entry(line, when, what, quantity, value, unit, written, method, note))

    def log(self) -> Log:
        """Return the log, or raise what is wrong with it."""
        if self.zone is None and len(self._offsets) > 1:
            self.fault(
                self.entries[0].line if self.entries else 1,
                "when",
                "some times have an offset and others have none; give the tank a time_zone",
            )
        log = Log(self.file, tuple(sorted(self.entries, key=lambda entry: entry.when)))
        if self.faults:
            raise LogError(self.faults, log)
        return log

    def _amount(
        self, line: int, what: str, row: Mapping[str, str]
    ) -> tuple[str, float, str] | None:
        quantity, text, unit = row["quantity"], row["value"], row["unit"]
        if what == "event":
            if not row.get("note"):
                self.fault(line, "note", "an event needs a note")
            if text or unit:
                self.fault(line, "value", "an event has no value; write a reading or a dose")
            return quantity, float("nan"), ""
        if what == "reading":
            quantity = quantity.lower()
            if quantity not in READINGS:
                hint = ""
                if "gravity" in quantity:
                    hint = "; a specific gravity depends on two temperatures, so log the salinity"
                self.fault(
                    line, "quantity", f"{quantity[:30]!r} is none of {', '.join(READINGS)}{hint}"
                )
                return None
            measure, name = READINGS[quantity], quantity
        elif what == "dose":
            if not quantity or (self.stocks is not None and quantity not in self.stocks):
                known = ", ".join(sorted(self.stocks or [])) or "none"
                self.fault(
                    line, "quantity", f"{quantity[:30]!r} is no stock of the description ({known})"
                )
                return None
            rate = unit in AMOUNTS["dose rate"].written
            measure, name = AMOUNTS["dose rate" if rate else "dose"], "the dose"
        else:
            share = what == "water change" and unit == "%"
            measure, name = AMOUNTS["share" if share else "volume"], f"the {what}"
        try:
            return quantity, amount_from_text(text, unit, measure, name), measure.unit
        except DomainError as error:
            column = "unit" if "accepted are" in str(error) else "value"
            self.fault(line, column, str(error))
            return None

    def _when(self, line: int, text: str) -> datetime | None:
        if not _WHEN.fullmatch(text):
            self.fault(
                line, "when", f"{text[:30]!r} is not written as 2026-03-01 or 2026-03-01 18:30"
            )
            return None
        try:
            stamp = datetime.fromisoformat(text)
        except ValueError:
            self.fault(line, "when", f"{text!r} is no date or time of the calendar")
            return None
        if len(text) == 10:
            stamp = datetime.combine(stamp.date(), _NOON)
        if stamp.tzinfo is not None:
            self._offsets.add(True)
        elif self.zone is None:
            if len(text) > 10:
                self._offsets.add(False)
            return stamp.replace(tzinfo=UTC)
        else:
            reason = _clock_change(stamp, self.zone)
            if reason:
                self.fault(line, "when", f"{text!r} {reason}")
                return None
            stamp = stamp.replace(tzinfo=self.zone)
        try:
            return stamp.astimezone(UTC)
        except OverflowError:
            self.fault(line, "when", f"{text!r} is no date or time of the calendar")
            return None


def _zone(name: str | None) -> tzinfo | None:
    if name is None:
        return None
    try:
        return ZoneInfo(name)
    except (KeyError, OSError, ValueError) as error:
        msg = f"time_zone {name!r} is not known here; write a name such as Europe/Dublin"
        raise DomainError(msg) from error


def _clock_change(stamp: datetime, zone: tzinfo) -> str:
    """Return why a wall-clock time is not one moment there, or an empty text."""
    first, second = (stamp.replace(tzinfo=zone, fold=fold) for fold in (0, 1))
    if first.utcoffset() == second.utcoffset():
        return ""
    back = first.astimezone(UTC).astimezone(zone).replace(tzinfo=None)
    if back == stamp:
        return "was shown twice by the clock that night; add the offset, as in 02:30+01:00"
    return "was never shown: the clock was put forward over it"
