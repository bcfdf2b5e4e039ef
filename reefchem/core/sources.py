"""The bibliography: one BibTeX file for records, docstrings, examples and the book."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

__all__ = ["BIBLIOGRAPHY", "citation", "entries"]

BIBLIOGRAPHY = Path(__file__).parent.parent / "data" / "references.bib"
"""Path of the BibTeX file."""

_ENTRY = re.compile(r"@(\w+)\{([\w-]+),(.*?)\n\}", re.DOTALL)
_FIELD = re.compile(r"(\w+)\s*=\s*\{((?:[^{}]|\{[^{}]*\})*)\}")


@cache
def entries(bibliography: Path = BIBLIOGRAPHY) -> dict[str, dict[str, str]]:
    """Return the fields of every entry by key. Braces that protect capitals are taken away."""
    text = bibliography.read_text(encoding="utf-8")
    return {
        key: {
            name.lower(): re.sub(r"[{}]", "", " ".join(value.split()))
            for name, value in _FIELD.findall(body)
        }
        | {"kind": kind}
        for kind, key, body in _ENTRY.findall(text)
    }


def citation(key: str, bibliography: Path = BIBLIOGRAPHY) -> str:
    """Return author and year of an entry, as ``Millero and Poisson (1981)``.

    Raises
    ------
    KeyError
        When the bibliography has no such key.
    """
    entry = entries(bibliography).get(key)
    if entry is None:
        msg = f"the bibliography has no entry {key!r}"
        raise KeyError(msg)
    names = [_surname(author) for author in entry["author"].split(" and ")]
    who = " and ".join(names) if len(names) < 3 else f"{names[0]} et al."
    return f"{who} ({entry['year']})"


def _surname(author: str) -> str:
    return author.partition(",")[0].strip()
