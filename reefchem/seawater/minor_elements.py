"""Minor elements of seawater, each with its source or with none.

Which of them keep their ratio to the salinity follows Quinby-Hunt and Wilde (1987), abstract.
"""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from reefchem.core.errors import DomainError
from reefchem.core.functions import Num
from reefchem.core.record import arg, relation

__all__ = ["MinorElement", "minor_concentration", "minor_element", "minor_elements"]

_DATA = Path(__file__).parent.parent / "data" / "minor_elements.toml"

_POSSIBLE = (0.0, float("inf"))


@dataclass(frozen=True)
class MinorElement:
    """A minor element as average seawater has it.

    Attributes
    ----------
    symbol
        Of the element.
    content
        mg/L at a salinity of 35, or None where no source was read.
    conservative
        Whether it keeps its ratio to the salinity.
    source, at, note
        Key of the bibliography and place in it, both empty where there is none; what else to know.
    """

    symbol: str
    content: float | None
    conservative: bool
    source: str
    at: str
    note: str

    def at_salinity(self, salinity: Num) -> Num:
        """Return the mg/L at a salinity.

        Raises
        ------
        DomainError
            When no source gives a content, or the element does not follow the salinity.
        """
        if self.content is None:
            msg = f"minor_element: no source was read for {self.symbol} in seawater"
            raise DomainError(msg)
        if not self.conservative:
            msg = (
                f"minor_element: {self.symbol} varies with place and depth and does not follow "
                f"the salinity; its average is {self.content:g} mg/L"
            )
            raise DomainError(msg)
        return minor_concentration(self.content, salinity)


@relation(
    unit="mg/L",
    symbol=r"\rho",
    source="quinbyhunt1987",
    at="abstract: elements in proportion to salinity",
    content=arg(
        "mg/L",
        r"\rho_{35}",
        title="concentration at a salinity of 35",
        typical=(0.0, 1.0),
        possible=_POSSIBLE,
    ),
    salinity=arg("1", "S", typical=(1.0, 45.0)),
)
def minor_concentration(content: Num, salinity: Num) -> Num:
    """Return a minor element at a salinity, from what it is at 35.

    Parameters
    ----------
    content
        Concentration at a salinity of 35.
    salinity
        Practical salinity; any shape.

    Examples
    --------
    >>> round(minor_concentration(0.18, 33.0), 3)
    0.17
    """
    return content * salinity / 35


@cache
def minor_elements() -> dict[str, MinorElement]:
    """Return every minor element of the list by its symbol."""
    data = tomllib.loads(_DATA.read_text(encoding="utf-8"))
    return {
        symbol: MinorElement(
            symbol=symbol,
            content=float(entry["content"]) if "content" in entry else None,
            conservative=entry["behaviour"] == "conservative",
            source=entry.get("source", ""),
            at=entry.get("at", ""),
            note=entry.get("note", ""),
        )
        for symbol, entry in data.items()
    }


def minor_element(symbol: str) -> MinorElement:
    """Return a minor element by its symbol.

    Raises
    ------
    DomainError
        When it is not on the list.

    Examples
    --------
    >>> minor_element("I").content
    0.058
    """
    known = minor_elements()
    if symbol not in known:
        msg = f"minor_element: {symbol!r} is not on the list; it has {', '.join(known)}"
        raise DomainError(msg)
    return known[symbol]
