"""The rows of a log judged: each becomes an entry, or a fault that says what is wrong with it."""

from __future__ import annotations

import re
from datetime import UTC, date, datetime, time, timedelta, tzinfo
from typing import TYPE_CHECKING, Any
from zoneinfo import ZoneInfo

from reefchem.core.errors import DomainError
from reefchem.core.fault import Fault
from reefchem.core.table import unreadable
from reefchem.core.written_number import short
from reefchem.tank.entry import AMOUNTS_OF, COLUMNS, KINDS, Entry
from reefchem.tank.quantities import AMOUNTS, READINGS, amount_from_text, difference_from_text

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable

__all__ = ["Judge"]

_WHEN = re.compile(
    "[0-9]{4}-[0-9]{2}-[0-9]{2}(?:[ T][0-9]{2}:[0-9]{2}(?::[0-9]{2})?(?:Z|[+-][0-9]{2}:[0-9]{2})?)?"
)
MOST_KNOWN = 100_000
"""Amounts that are remembered, since most of a long log was written before."""

_WORDS = ("what", "quantity", "written", "method", "note", "uncertainty")
_NOON = time(12)
_ALSO = {"topoff": "top-off", "top off": "top-off", "water-change": "water change"}


class Judge:
    """Rows as they are read: the good ones are kept, the others noted.

    Attributes
    ----------
    faults
        What is wrong so far; a reader adds what it finds before a row can be judged.
    """

    def __init__(self, file: str, time_zone: str | None, stocks: Collection[str] | None) -> None:
        self.file = file
        self.faults: list[Fault] = []
        self.prefix = ""
        self._zone = _zone(time_zone)
        self._stocks = stocks
        self._entries: list[Entry] = []
        self._with_offset: set[bool] = set()
        self._whole_days: dict[date, timedelta | None] = {}
        self._known: dict[tuple[str, ...], tuple[str, float, str, str]] = {}
        self._whats = {kind: kind for kind in KINDS}

    def fault(self, line: int, column: str, reason: str) -> None:
        """Note a fault."""
        self.faults.append(Fault(self.file, line, column and self.prefix + column, reason))

    def cells(self, line: int, values: Iterable[Any]) -> None:
        """Judge a row of values of any type, in the order of the columns."""
        row = tuple(map(_cell, values))
        bad = [(name, reason) for name, cell in zip(COLUMNS, row, strict=True)
               if (reason := unreadable(cell))]  # fmt: skip
        for name, reason in bad:
            self.fault(line, name, reason)
        if not bad:
            self.row(line, row)

    def row(self, line: int, row: tuple[str, ...]) -> None:
        """Judge a row of texts in the order of the columns; note every fault it has."""
        before = len(self.faults)
        when_text, what_text, quantity, text, unit, method, note, doubt = row
        when = self._when(line, when_text)
        what = self._whats.get(what_text) or self._what(line, what_text)
        if not what:
            return
        if what == "event":
            value, measured, written = float("nan"), "", ""
            if not note:
                self.fault(line, "note", "an event needs a note")
            if text or unit:
                self.fault(line, "value", "an event has no value; write a reading or a dose")
        else:
            key = (what, quantity, text, unit)
            known = self._known.get(key)
            if known is None:
                known = self._amount(line, what, quantity, text, unit)
                if known is None:
                    return
                if len(self._known) < MOST_KNOWN:
                    self._known[key] = known
            quantity, value, measured, written = known
        uncertainty = None
        if doubt and len(self.faults) == before:
            uncertainty = self._uncertainty(line, what, quantity, doubt, unit)
        if when is not None and len(self.faults) == before:
            self._entries.append(
                Entry(
                    line, when, what, quantity, value, measured, written, method, note, uncertainty
                )
            )

    def in_order(self) -> tuple[Entry, ...]:
        """Return the good rows in the order of time; what repeats another is noted as a fault."""
        if self._zone is None and len(self._with_offset) > 1:
            reason = "some times have an offset and others have none; give the tank a time_zone"
            self.fault(0, "when", reason)
        self._entries.sort(key=lambda entry: entry.when)
        kept: list[Entry] = []
        moment, seen = None, dict[tuple[object, ...], int]()
        for entry in self._entries:
            if entry.when != moment:
                moment, seen = entry.when, {}
            key = tuple(getattr(entry, name) for name in _WORDS)
            first = seen.setdefault(key, entry.line)
            if first == entry.line:
                kept.append(entry)
            else:
                reason = f"it repeats line {first} word for word; a note can tell two apart"
                self.fault(entry.line, "", reason)
        return tuple(kept)

    def _what(self, line: int, text: str) -> str:
        plain = " ".join(text.lower().replace("_", " ").split())
        what = _ALSO.get(plain, plain)
        if what in KINDS:
            self._whats[text] = what
            return what
        self.fault(line, "what", f"{short(text)} is none of {', '.join(KINDS)}")
        return ""

    def _amount(
        self, line: int, what: str, quantity: str, text: str, unit: str
    ) -> tuple[str, float, str, str] | None:
        """Return quantity, value, unit, and the two as written; None once a fault is noted."""
        written = f"{text} {unit}".strip()
        if what == "reading":
            quantity = quantity.lower()
            if quantity not in READINGS:
                hint = ""
                if "gravity" in quantity:
                    hint = "; a specific gravity depends on two temperatures, so log the salinity"
                known = ", ".join(READINGS)
                self.fault(line, "quantity", f"{short(quantity)} is none of {known}{hint}")
                return None
            measure, name = READINGS[quantity], quantity
        else:
            if what == "dose" and not self._has_stock(quantity):
                known = ", ".join(sorted(self._stocks or [])) or "none"
                reason = f"{short(quantity)} is no stock of the description ({known})"
                self.fault(line, "quantity", reason)
                return None
            first, *others = (AMOUNTS[amount] for amount in AMOUNTS_OF[what])
            measure = next((other for other in others if unit in other.written), first)
            name = f"the {what}"
        try:
            return quantity, amount_from_text(text, unit, measure, name), measure.unit, written
        except DomainError as error:
            column = "unit" if "accepted are" in str(error) else "value"
            self.fault(line, column, str(error))
            return None

    def _has_stock(self, name: str) -> bool:
        return bool(name) and (self._stocks is None or name in self._stocks)

    def _uncertainty(
        self, line: int, what: str, quantity: str, text: str, unit: str
    ) -> float | None:
        """Return what a reading states, in the unit of its value; any fault is noted."""
        if what != "reading":
            self.fault(line, "uncertainty", f"a {what} states none; only a reading does")
            return None
        try:
            value = difference_from_text(text, unit, READINGS[quantity])
        except DomainError as error:
            self.fault(line, "uncertainty", str(error))
            return None
        if not value > 0:
            self.fault(line, "uncertainty", f"{short(text)} is not more than zero; leave it empty")
            return None
        return value

    def _when(self, line: int, text: str) -> datetime | None:
        if not _WHEN.fullmatch(text):
            reason = f"{short(text)} is not written as 2026-03-01 or 2026-03-01 18:30"
            self.fault(line, "when", reason)
            return None
        try:
            stamp = datetime.fromisoformat(text)
            if stamp.tzinfo is not None:
                self._with_offset.add(True)
                return stamp.astimezone(UTC)
            if len(text) == 10:
                stamp = datetime.combine(stamp, _NOON)
            else:
                self._with_offset.add(False)
            if self._zone is None:
                return stamp.replace(tzinfo=UTC)
            offset = self._offset(stamp, self._zone)
            if offset is not None:
                return (stamp - offset).replace(tzinfo=UTC)
            reason = _clock_change(stamp, self._zone)
            if not reason:
                return stamp.replace(tzinfo=self._zone).astimezone(UTC)
        except (ValueError, OverflowError):
            reason = "is no date or time of the calendar"
        self.fault(line, "when", f"{text!r} {reason}")
        return None

    def _offset(self, stamp: datetime, zone: tzinfo) -> timedelta | None:
        """Return the offset of a day that has one throughout, None where the clock is changed."""
        day = stamp.date()
        if day not in self._whole_days:
            start = datetime.combine(day, time())
            offsets = {
                moment.replace(tzinfo=zone, fold=fold).utcoffset()
                for moment in (start, start + timedelta(days=1))
                for fold in (0, 1)
            }
            self._whole_days[day] = offsets.pop() if len(offsets) == 1 else None
        return self._whole_days[day]


def _cell(value: Any) -> str:
    if value is None or type(value).__name__ in {"NAType", "NaTType"} or value != value:
        return ""
    if isinstance(value, datetime):
        return value.isoformat(sep=" ", timespec="seconds")
    return value.isoformat() if isinstance(value, date) else str(value).strip()


def _zone(name: str | None) -> tzinfo | None:
    if name is None:
        return None
    try:
        return ZoneInfo(name)
    except (KeyError, OSError, ValueError) as error:
        msg = f"time_zone {short(name)} is not known here; write a name such as Europe/Dublin"
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
