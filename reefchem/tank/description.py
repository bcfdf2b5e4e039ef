"""A keeper's description of a tank, as a TOML file of our own.

::

    [tank]
    name = "The reading room"
    volume = "180 L"
    salinity = 35
    temperature = "25 °C"

    [targets]
    alkalinity = "7.5 dKH"

    [water_change]
    share = "10 %"
    every = "7 days"
    alkalinity = "7.2 dKH"

    [[stock]]
    name = "soda"
    salt = "NaHCO3"
    strength = "70 g/L"

    [log]
    file = "log.csv"

`FIELDS` lists every key with its meaning. All faults are reported at once, by line and key.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from reefchem.core.errors import DomainError
from reefchem.core.fault import Fault, FaultyFileError
from reefchem.core.table import contents
from reefchem.core.toml import lines_of_keys, shown, toml_data
from reefchem.core.written_number import short
from reefchem.dosing.catalogue import Salt, salts
from reefchem.tank.quantities import AMOUNTS, READINGS, Measure, amount_from_text

__all__ = ["FIELDS", "Description", "DescriptionError", "Field", "Stock", "read_description"]

MOST_BYTES = 1_000_000


@dataclass(frozen=True)
class Field:
    """One key of the description.

    Attributes
    ----------
    measure
        The units it may be written in; None for a text.
    default
        As a keeper would write it; None when the key must be given, empty when it may be absent
        (then `Description.gives` says whether there is a number).
    practice
        Whether the default is common practice without a source.
    title
        What the plan calls the value when it is such a default.
    """

    meaning: str
    measure: Measure | None = None
    default: str | None = None
    practice: bool = False
    title: str = ""


FIELDS: dict[str, dict[str, Field]] = {
    "tank": {
        "name": Field("what the plan calls the tank"),
        "volume": Field("net volume of water, rock and sand taken off", AMOUNTS["volume"]),
        "salinity": Field("practical salinity", AMOUNTS["salinity"], "35"),
        "temperature": Field("of the water", AMOUNTS["temperature"], "25 °C"),
        "volume_uncertainty": Field(
            "standard uncertainty of the volume",
            AMOUNTS["share"],
            "5 %",
            practice=True,
            title="standard uncertainty of the volume",
        ),
        "alkalinity_unit": Field("dKH, meq/L or mg/L CaCO3, for the plan", None, "dKH"),
        "time_zone": Field("name of the place's time zone, such as Europe/Dublin", None, ""),
        "note": Field("free text, printed under the name", None, ""),
    },
    "targets": {
        "alkalinity": Field(
            "to hold", READINGS["alkalinity"], "7.5 dKH", practice=True, title="alkalinity to hold"
        ),
        "nitrate": Field(
            "to hold", READINGS["nitrate"], "5 mg/L", practice=True, title="nitrate to hold"
        ),
    },
    "limits": {
        "alkalinity": Field(
            "largest change in a day",
            AMOUNTS["alkalinity per day"],
            "0.5 dKH per day",
            practice=True,
            title="largest change of alkalinity",
        ),
        "nitrate": Field(
            "largest rise in a day",
            AMOUNTS["dissolved per day"],
            "1 mg/L per day",
            practice=True,
            title="largest rise of nitrate",
        ),
        "single_dose": Field(
            "largest rise of alkalinity from one dose",
            READINGS["alkalinity"],
            "0.3 dKH",
            practice=True,
            title="largest rise of alkalinity from one dose",
        ),
    },
    "water_change": {
        "share": Field(
            "of the volume that is changed",
            AMOUNTS["share"],
            "10 %",
            practice=True,
            title="water changed each time",
        ),
        "every": Field(
            "time between two changes",
            AMOUNTS["time"],
            "7 days",
            practice=True,
            title="water changed every",
        ),
        "alkalinity": Field("of the fresh seawater", READINGS["alkalinity"]),
        "nitrate": Field("of the fresh seawater", READINGS["nitrate"], "0 mg/L"),
        "phosphate": Field("of the fresh seawater", READINGS["phosphate"], "0 mg/L"),
        "calcium": Field("of the fresh seawater; else as in the sea", READINGS["calcium"], ""),
        "magnesium": Field("of the fresh seawater; else as in the sea", READINGS["magnesium"], ""),
        "potassium": Field("of the fresh seawater; else as in the sea", READINGS["potassium"], ""),
    },
    "top_off": {
        "alkalinity": Field("of the top-off water", READINGS["alkalinity"], "0 dKH"),
        "calcium": Field("of the top-off water", READINGS["calcium"], "0 mg/L"),
        "magnesium": Field("of the top-off water", READINGS["magnesium"], "0 mg/L"),
        "potassium": Field("of the top-off water", READINGS["potassium"], "0 mg/L"),
        "nitrate": Field("of the top-off water", READINGS["nitrate"], "0 mg/L"),
        "phosphate": Field("of the top-off water", READINGS["phosphate"], "0 mg/L"),
    },
    "stock": {
        "name": Field("what the log calls it"),
        "salt": Field("formula with its water, or its name in the catalogue of salts"),
        "strength": Field("mass of the salt in a litre of the stock", AMOUNTS["strength"]),
        "uncertainty": Field(
            "standard uncertainty of the strength", AMOUNTS["share"], "3 %", practice=True
        ),
    },
    "log": {
        "file": Field("the log, relative to the description"),
        "days": Field("how far back readings count", AMOUNTS["time"], "42 days"),
    },
}
"""Every key of each table, in the order of the file. ``[[stock]]`` may stand several times."""


@dataclass(frozen=True)
class Stock:
    """A solution that is dosed.

    Attributes
    ----------
    strength
        g/L of the salt as weighed.
    uncertainty
        Standard uncertainty of the strength, as a share of it.
    """

    name: str
    salt: Salt
    strength: float
    uncertainty: float = 0.0

    @property
    def purpose(self) -> str:
        """What it is dosed for.

        ``"all-in-one"`` brings alkalinity and calcium, at once or after bacteria have burnt it;
        the others are ``"alkalinity"``, ``"calcium"``, ``"nitrate"`` and ``"other"``.
        """
        components = self.salt.components
        if self.salt.alkalinity_after_oxidation > 0:
            return "all-in-one" if "calcium" in components else "alkalinity"
        return next((name for name in ("nitrate", "calcium") if name in components), "other")


@dataclass(frozen=True)
class Description:
    """A tank as its keeper describes it; numbers in the units that the package works in.

    Attributes
    ----------
    numbers, texts
        By ``table.key``.
    written
        What the keeper wrote, or the default, by ``table.key``.
    defaults
        Keys that were not given.
    stocks
        In the order of the file.
    """

    path: Path
    numbers: dict[str, float]
    texts: dict[str, str]
    written: dict[str, str]
    defaults: frozenset[str]
    stocks: tuple[Stock, ...]

    @property
    def log_path(self) -> Path:
        """Path of the log."""
        return self.path.parent / self.texts["log.file"]

    def number(self, key: str) -> float:
        """Return a number by ``table.key``."""
        return self.numbers[key]

    def gives(self, key: str) -> bool:
        """Return whether the description gives a number that may be absent."""
        return key in self.numbers

    def origin(self, key: str) -> str:
        """Return where a number comes from, for the plan."""
        if key not in self.defaults:
            return f"{self.path.name}, {key}"
        table, _, name = key.partition(".")
        practice = FIELDS[table][name].practice
        return "common practice, no source" if practice else "default"

    def stock_for(self, purpose: str) -> Stock | None:
        """Return the first stock with a purpose."""
        return next((stock for stock in self.stocks if stock.purpose == purpose), None)


class DescriptionError(FaultyFileError):
    """A description has faults; `faults` lists them all."""


def read_description(path: str | Path) -> Description:
    """Return the description in a TOML file.

    Raises
    ------
    DescriptionError
        With every fault, by line and key.
    DomainError
        When the file cannot be read at all.
    """
    path = Path(path)
    faults: list[Fault] = []
    text, data = toml_data(contents(path, MOST_BYTES), path.name, faults)
    if data is None:
        raise DescriptionError(path.name, faults)
    return _described(data, path, Reader(path.name, lines_of_keys(text)))


def _described(data: dict[str, Any], path: Path, reader: Reader) -> Description:
    for table in data.keys() - FIELDS.keys():
        reader.fault(table, f"unknown table {short(table)}; known are {', '.join(FIELDS)}")
    for table, fields in FIELDS.items():
        if table != "stock":
            reader.table(table, data.get(table, {}), fields, table)
    stocks = _stocks(data.get("stock", []), reader)
    reader.choice("tank.alkalinity_unit", ("dKH", "meq/L", "mg/L CaCO3"))
    for key in (
        "tank.volume",
        "water_change.every",
        "limits.alkalinity",
        "limits.nitrate",
        "limits.single_dose",
        "log.days",
    ):
        if reader.numbers.get(key) == 0.0:
            reader.fault(key, "it must be more than zero")
    if reader.faults:
        raise DescriptionError(path.name, reader.faults)
    return Description(
        path, reader.numbers, reader.texts, reader.written, frozenset(reader.defaults), stocks
    )


def _stocks(raw: Any, reader: Reader) -> tuple[Stock, ...]:
    if not isinstance(raw, list):
        reader.fault("stock", "write [[stock]], once for each")
        return ()
    stocks: list[Stock] = []
    for index, entry in enumerate(raw, 1):
        key = f"stock {index}"
        before = len(reader.faults)
        reader.table(key, entry, FIELDS["stock"], "[stock]")
        salt = _salt(reader, f"{key}.salt")
        if salt is None or len(reader.faults) > before:
            continue
        stock = Stock(
            reader.texts[f"{key}.name"],
            salt,
            reader.numbers[f"{key}.strength"],
            reader.numbers[f"{key}.uncertainty"],
        )
        if stock.strength == 0.0:
            reader.fault(f"{key}.strength", "it must be more than zero")
        if any(other.name == stock.name for other in stocks):
            reader.fault(f"{key}.name", f"{short(stock.name)} is the name of another stock")
        stocks.append(stock)
    return tuple(stocks)


def _salt(reader: Reader, key: str) -> Salt | None:
    """Return the salt of a stock, or None where none is named that is known."""
    name = reader.texts.get(key)
    if not name:
        return None
    try:
        return salts[name]
    except DomainError as error:
        reader.fault(key, str(error))
        return None


class Reader:
    """Keys as they are read: good ones and faults."""

    def __init__(self, file: str, lines: dict[str, int]) -> None:
        self.file = file
        self.lines = lines
        self.numbers: dict[str, float] = {}
        self.texts: dict[str, str] = {}
        self.written: dict[str, str] = {}
        self.defaults: set[str] = set()
        self.faults: list[Fault] = []

    def fault(self, key: str, reason: str) -> None:
        """Note a fault, at the line of its key or else at that of its table."""
        line = self.lines.get(key) or self.lines.get(key.partition(".")[0], 0)
        self.faults.append(Fault(self.file, line, key if "." in key else "", reason))

    def table(self, name: str, raw: Any, fields: dict[str, Field], label: str) -> None:
        """Read one table."""
        if not isinstance(raw, dict):
            self.fault(name, f"{name}: write it as a table, [{label}]")
            return
        for key in raw.keys() - fields.keys():
            self.fault(f"{name}.{key}", f"unknown key; known are {', '.join(fields)}")
        for key, field in fields.items():
            self._field(f"{name}.{key}", raw.get(key, field.default), field, given=key in raw)

    def choice(self, key: str, allowed: tuple[str, ...]) -> None:
        """Note a text that is none of those allowed."""
        if key in self.texts and self.texts[key] not in allowed:
            self.fault(key, f"{short(self.texts[key])} is none of {', '.join(allowed)}")

    def _field(self, key: str, raw: Any, field: Field, *, given: bool) -> None:
        if raw is None:
            self.fault(key, f"it is missing ({field.meaning})")
            return
        if not given:
            self.defaults.add(key)
        pure = field.measure is not None and field.measure.unit == "1"
        if pure and isinstance(raw, int | float) and not isinstance(raw, bool):
            raw = shown(raw)
        if not isinstance(raw, str) or len(raw) > 400:
            example = field.default or (field.measure and f"10 {next(iter(field.measure.written))}")
            such = f', such as "{example}"' if example else ""
            self.fault(key, f"a text in quotes is expected{such}; it is {shown(raw)}")
            return
        if not "".join(raw.split()).isprintable():
            self.fault(key, f"{short(raw)} has characters that cannot be printed")
            return
        self.written[key] = raw
        if field.measure is not None and not given and not raw:
            return
        if field.measure is None:
            if given and not raw.strip():
                self.fault(key, "it is empty")
            self.texts[key] = raw.strip()
            return
        number, unit = _split(raw)
        try:
            self.numbers[key] = amount_from_text(number, unit, field.measure, "it")
        except DomainError as error:
            self.fault(key, str(error))


def _split(text: str) -> tuple[str, str]:
    """Return a number and its unit."""
    match = re.fullmatch(r"\s*([+-]?[0-9.,]+(?:[eE][+-]?[0-9]+)?)\s*(.*?)\s*", text, re.DOTALL)
    return (match[1], match[2]) if match else (text.strip(), "")
