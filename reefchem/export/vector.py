"""One test vector: a relation, its inputs, and what a right implementation answers or refuses."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from reefchem.core.errors import RangeWarning
from reefchem.core.record import records

if TYPE_CHECKING:
    from collections.abc import Mapping
    from warnings import WarningMessage

__all__ = ["CLOSE", "Expected", "Vector", "near", "page_of", "range_flags"]

CLOSE = 1e-6
"""Share of a computed value that still counts as agreement."""

CHAPTERS: Mapping[str, str] = {
    "alkalinity_from_titration": "alkalinity_test",
    "calcium_reactor": "limewater",
    "carbonate_system": "alkalinity",
    "composition": "composition",
    "daily_swing": "co2_and_room_air",
    "drop_kit": "alkalinity_test",
    "electrode_endpoint": "alkalinity_test",
    "limewater": "limewater",
    "nutrient_budget": "nitrogen_and_phosphorus",
    "photometer": "alkalinity_test",
    "raise_alkalinity": "alkalinity",
    "titration_curve": "alkalinity_test",
}
"""The chapter that explains a calculation with several parts, by its name."""


@dataclass(frozen=True)
class Expected:
    """The answer, in the recorded unit, and how far off still agrees."""

    value: float
    unit: str
    tolerance: float


@dataclass(frozen=True)
class Vector:
    """One point.

    Attributes
    ----------
    kind
        ``"published"``, ``"example"``, ``"step"``, ``"interior"``, ``"edge"``, ``"outside"`` or
        ``"refusal"``.
    inputs
        Number by argument, in the recorded units.
    taken_from
        Id of the vector whose result an input is, by argument: the steps of a longer problem.
    part
        Field of the result, where the relation is a calculation with several.
    expected
        None where a right implementation gives no number.
    computed
        What this package computes, to the last digit.
    refusal
        Why no number is given.
    flags
        What a reader should know, such as that an input is outside the source's range.
    source, at, printed
        Who printed the number, where, and its digits.
    """

    id: str
    kind: str
    relation: str
    inputs: dict[str, float]
    expected: Expected | None
    computed: float | None = None
    refusal: str = ""
    part: str = ""
    options: dict[str, Any] = field(default_factory=dict)
    flags: tuple[str, ...] = ()
    source: str = ""
    at: str = ""
    printed: str = ""
    taken_from: dict[str, str] = field(default_factory=dict)

    @property
    def page(self) -> str:
        """Where the book explains the relation."""
        return page_of(self.relation)


def page_of(relation: str) -> str:
    """Return where the book explains a relation or a calculation."""
    if relation in records():
        return f"relations.html#{relation}"
    return f"parts/{CHAPTERS[relation]}.html"


def near(value: float, unit: str) -> Expected:
    """Return what is expected where this package computed the value itself."""
    return Expected(value, unit, max(CLOSE * abs(value), 1e-12))


def range_flags(caught: list[WarningMessage]) -> tuple[str, ...]:
    """Return what was said about ranges, each once, without its last sentence."""
    said = (str(one.message) for one in caught if issubclass(one.category, RangeWarning))
    return tuple(dict.fromkeys(text.rpartition(". ")[0] for text in said))
