"""Which total of boron: the choices that a calculation offers, by name."""

from __future__ import annotations

from reefchem.seawater.composition import boron_lee2010, boron_uppstrom1974

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Callable
    from typing import Any

__all__ = ["BORON"]

BORON: dict[str, Callable[..., Any]] = {
    "uppstrom1974": boron_uppstrom1974,
    "lee2010": boron_lee2010,
}
"""Relations from salinity to total boron, by the name of the choice; the first is the default."""
