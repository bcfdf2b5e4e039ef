"""``{minor-element-table}``: the minor elements that the package knows, typed in no page."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from reefchem.seawater import minor_elements
from reefchem_pages.computed_table import ComputedTable

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sphinx.application import Sphinx

__all__ = ["NAMES", "setup"]

NAMES = {
    "Li": "lithium",
    "Rb": "rubidium",
    "I": "iodine",
    "Ba": "barium",
    "Mo": "molybdenum",
    "V": "vanadium",
    "As": "arsenic",
    "Fe": "iron",
    "Al": "aluminium",
    "Cr": "chromium",
    "Mn": "manganese",
    "Co": "cobalt",
    "Ni": "nickel",
    "Cu": "copper",
    "Zn": "zinc",
    "Se": "selenium",
    "Cs": "caesium",
}


class MinorElementTable(ComputedTable):
    """Every minor element, with its content where a source was read."""

    LABEL = "Minor elements of seawater"
    HEAD = ("element", "mg/L at salinity 35", "follows the salinity")
    WORDS = frozenset({"element", "follows the salinity"})

    def rows(self) -> Iterator[tuple[str, ...]]:
        """Return a row for each element."""
        for symbol, element in minor_elements().items():
            content = "no source read" if element.content is None else f"{element.content:g}"
            yield NAMES[symbol], content, "yes" if element.conservative else "no"


def setup(app: Sphinx) -> dict[str, Any]:
    """Register the directive."""
    app.add_directive("minor-element-table", MinorElementTable)
    return {"version": "1", "parallel_read_safe": True, "parallel_write_safe": True}
