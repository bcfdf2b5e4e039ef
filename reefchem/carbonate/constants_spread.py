"""How much a result leans on whose K1 and K2 are used."""

from __future__ import annotations

from reefchem.carbonate.constants import CARBONIC
from reefchem.carbonate.state import CarbonateState
from reefchem.carbonate.system import carbonate_system
from reefchem.core.functions import where

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Mapping
    from typing import Any

__all__ = ["Spread", "spread"]


class Spread:
    """The same water under every choice of K1 and K2.

    Attributes
    ----------
    states : dict
        `CarbonateState` by the name of the choice.
    """

    __slots__ = ("states",)

    def __init__(self, states: Mapping[str, CarbonateState]) -> None:
        self.states: Mapping[str, CarbonateState] = states

    def values(self, name: str) -> dict[str, Any]:
        """Return one part of the state by the name of the choice."""
        if name not in CarbonateState.UNITS:
            msg = f"a state has no part {name!r}; it has {', '.join(CarbonateState.UNITS)}"
            raise AttributeError(msg)
        return {choice: getattr(state, name) for choice, state in self.states.items()}

    def range(self, name: str) -> tuple[Any, Any]:
        """Return the smallest and the largest value of one part over the choices."""
        first, *others = self.values(name).values()
        smallest = largest = first
        for value in others:
            smallest = where(value < smallest, value, smallest)
            largest = where(value > largest, value, largest)
        return smallest, largest

    def __repr__(self) -> str:
        ends = {name: self.range(name) for name in ("ph_total", "omega_aragonite", "pco2")}
        parts = ", ".join(f"{name}: {low!r} to {high!r}" for name, (low, high) in ends.items())
        return f"Spread({parts})"


def spread(**inputs: Any) -> Spread:
    """Return the state of the same water under every choice of K1 and K2.

    Parameters
    ----------
    inputs
        As for `carbonate_system`, without `carbonic`.

    Notes
    -----
    The choices are of different age and quality; the spread shows what hangs on the choice, not
    an uncertainty with a probability.

    Examples
    --------
    >>> found = spread(salinity=35.0, temperature=25.0, total_alkalinity=2300.0, dic=2000.0)
    >>> low, high = found.range("ph_total")
    >>> round(high - low, 3)
    0.035
    """
    if "carbonic" in inputs:
        msg = "spread goes through every choice of carbonic; leave it out"
        raise TypeError(msg)
    return Spread({choice: carbonate_system(carbonic=choice, **inputs) for choice in CARBONIC})
