"""Numbers in the prose of the book, and which of them somebody has to vouch for."""

from __future__ import annotations

import math
import re
import tomllib
from dataclasses import dataclass
from decimal import Decimal
from functools import cache
from importlib import import_module
from typing import Any

from chapters import BOOK, Chapter

from reefchem.carbonate import carbonate_system, spread
from reefchem.core.atoms import molar_mass
from reefchem.core.record import records
from reefchem.seawater import composition

UNREAD = {
    "a_tank_of_our_own": "tests/test_demo.py reads it beside the plan and the simulation",
    "relations": "made from the records",
    "sources": "made from the bibliography",
    "symbols": "made from the records",
    "traceability": "made from the checks",
    "writing_a_chapter": "shows how numbers are written",
}
"""Pages whose numbers are not read here, and why."""

UNIT = (
    r"(?:[kmµn]?(?:g|mol|L|m|eq|S|atm)(?:/(?:kg|L|mL|cm|m³|h))?|meq|ppm|dKH|hPa|µatm|[km]?mol/kg|cm(?:/h)?"
    r"|K|days?|hours?|weeks?|months?|minutes?|cents?)(?![\w/])|%|°[CF]?"
)
NUMBER = re.compile(
    rf"(?<![\w.,:])[+−-]?(\d+(?:[ ,]\d{{3}})*(?:\.\d+)?)(?![\w.]*\d)(?:[ \n]?({UNIT}))?"
)
YEAR = re.compile(r"(?:of|in|since) (?:1[89]|20)\d\d$")


@dataclass(frozen=True)
class Bare:
    """A number in prose that no role computes."""

    text: str
    value: Decimal
    line: int


def bare_numbers(page: Chapter) -> list[Bare]:
    """Return the numbers with three digits or a unit that the prose of a page tells by itself.

    Not among them are years, what the sources print, and what is an input, an answer or an argument
    elsewhere on the page: those are given, or computed when the book is built.
    """
    end = page.text.find("\n## Sources")
    prose = page.written[:end] if end > 0 else page.written
    known = given_on(page)
    found = []
    for match in NUMBER.finditer(prose):
        value = size(match)
        dated = YEAR.search(prose[max(0, match.start() - 6) : match.end(1)])
        if is_telling(match) and not dated and value not in known:
            found.append(Bare(" ".join(match[0].split()), value, page.line(match.start())))
    return found


def is_telling(number: re.Match[str]) -> bool:
    """Return whether a number has three digits or a unit."""
    return bool(number[2]) or len(re.sub(r"\D", "", number[1]).lstrip("0")) >= 3


def size(number: re.Match[str]) -> Decimal:
    """Return a number without its sign, with the digits that are printed."""
    return Decimal(re.sub(r"[ ,]", "", number[1]))


def given_on(page: Chapter) -> set[Decimal]:
    """Return the numbers that the roles, examples and exercises of a page hold."""
    known = set()
    for role in page.roles:
        if role.name == "value":
            known |= decimals(re.sub(r" to \d+$", "", role.content))
    for name, argument in page.directives:
        folder = {"worked-example": "examples", "exercise": "exercises"}.get(name)
        if folder:
            path = BOOK / folder / f"{argument}.toml"
            known |= decimals(*texts(tomllib.loads(path.read_text(encoding="utf-8"))))
    return known


def texts(data):
    """Yield the texts in a file of data, whatever it nests."""
    if isinstance(data, dict):
        for key, value in data.items():
            if key not in {"title", "at", "question", "note", "reason", "hint", "formula"}:
                yield from texts(value)
    elif isinstance(data, list):
        for value in data:
            yield from texts(value)
    else:
        yield str(data)


def decimals(*words: str) -> set[Decimal]:
    """Return the numbers in some texts, without their signs."""
    found = (re.findall(r"\d+(?:\.\d+)?(?:e[+-]?\d+)?", word) for word in words)
    return {Decimal(number) for numbers in found for number in numbers}


def half_a_unit(number: Decimal) -> float:
    """Return half a unit of the last digit of a number, and a rounding error more."""
    return float(Decimal(1).scaleb(int(number.as_tuple().exponent)) / 2) * (1 + 1e-9)


Entries = dict[str, dict[str, dict[str, Any]]]
"""What a list vouches for: by page or figure, and by the text of the number, how."""


def with_expression(vouched: Entries) -> list[tuple[str, str, dict[str, Any]]]:
    """Return page or figure, text and entry of the numbers that an expression vouches for."""
    return [
        (place, text, entry)
        for place, entries in vouched.items()
        for text, entry in entries.items()
        if "is" in entry
    ]


def computed(entry: dict[str, Any]) -> float:
    """Return what the expression of an entry gives."""
    return eval(entry["is"], {}, names())  # noqa: S307 - our own list of expressions


@cache
def names() -> dict[str, object]:
    """Return what an expression may use: every relation, and a few functions."""
    relations = {
        name: getattr(import_module(record.module), name) for name, record in records().items()
    }
    several = {f.__name__: f for f in (carbonate_system, composition, molar_mass, spread)}
    return relations | several | {"exp": math.exp, "sqrt": math.sqrt}
