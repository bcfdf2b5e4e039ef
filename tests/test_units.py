"""The unit of every argument and result, listed: an exchanged unit shows in a review.

Most exchanges are noticed by a worked example, a dimension or a published value (see
``tests/mutate_units.py``); the list notices them all. After a change, write it anew::

    python tests/test_units.py > tests/units.txt
"""

from __future__ import annotations

from pathlib import Path

from reefchem.core.record import calculations, records

LISTED = Path(__file__).with_name("units.txt")


def lines() -> list[str]:
    """Return a line for each relation and calculation: its result, then its arguments."""
    found = []
    for record in (records() | calculations()).values():
        given = ", ".join(f"{name} {argument.unit}" for name, argument in record.arguments.items())
        found.append(f"{record.name} {record.unit or 'parts'}: {given}".rstrip())
    return sorted(found)


def test_units_are_those_listed():
    assert lines() == LISTED.read_text(encoding="utf-8").splitlines()


if __name__ == "__main__":
    print("\n".join(lines()))  # noqa: T201
