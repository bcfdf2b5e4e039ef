"""Numbers in the prose of the book, and which of them somebody has to vouch for."""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass
from decimal import Decimal

from chapters import BOOK, Chapter

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
        digits = re.sub(r"\D", "", match[1]).lstrip("0")
        value = Decimal(re.sub(r"[ ,]", "", match[1]))
        dated = YEAR.search(prose[max(0, match.start() - 6) : match.end(1)])
        if (match[2] or len(digits) >= 3) and not dated and value not in known:
            found.append(Bare(" ".join(match[0].split()), value, page.line(match.start())))
    return found


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
