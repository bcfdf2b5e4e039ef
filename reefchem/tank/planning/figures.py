"""Numbers that can be followed: a value with the relation it came from and the inputs it took."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from reefchem.conversion.alkalinity import alkalinity_as_calcium_carbonate, german_degrees
from reefchem.core.record import describe

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from reefchem.core.record import Record

__all__ = ["Figure", "Given", "Ledger", "Shown"]


@dataclass(frozen=True)
class Given:
    """An input of a figure.

    Attributes
    ----------
    value
        In the unit that the relation records for it.
    origin
        Where it comes from, in words: a key of the description, rows of the log, the fit.
    figure
        Id of the figure that it is the value of; empty otherwise.
    """

    value: float
    origin: str
    figure: str = ""


@dataclass(frozen=True)
class Shown:
    """How a figure is shown to the keeper: in the unit of the description.

    Attributes
    ----------
    relation
        The relation that converts; empty when the unit is that of the figure.
    """

    value: float
    unit: str
    relation: str = ""


@dataclass(frozen=True)
class Figure:
    """A number of the plan.

    Attributes
    ----------
    id
        Unique in the plan.
    label
        What it is, in a few words.
    record
        Of the relation.
    inputs
        What the relation was given.
    value, unit
        As the relation returns it.
    digits
        Significant digits that the keeper can use.
    """

    id: str
    label: str
    record: Record
    inputs: Mapping[str, Given]
    value: float
    unit: str
    shown: Shown
    digits: int

    @property
    def relation(self) -> str:
        """Name of the relation."""
        return self.record.name

    def recomputed(self) -> float:
        """Return what the relation gives for the inputs, computed anew."""
        numbers = {name: given.value for name, given in self.inputs.items()}
        return float(self.record.function(**numbers))


_ALKALINITY = {
    "dKH": (german_degrees, "dKH"),
    "mg/L CaCO3": (alkalinity_as_calcium_carbonate, "mg/L CaCO₃"),
}
_PLAIN = {
    "1": "",
    "delta_degC": "°C",
    "day": "days",
    "mL/day": "mL a day",
    "meq/L/day": "meq/L a day",
    "mg/L/day": "mg/L a day",
}


class Ledger:
    """The figures of one plan, in the order in which they were worked out."""

    def __init__(self, alkalinity_unit: str) -> None:
        self.alkalinity_unit = alkalinity_unit
        self.figures: dict[str, Figure] = {}

    def work_out(
        self,
        name: str,
        label: str,
        relation: Callable[..., Any],
        *,
        digits: int = 3,
        **inputs: Given | Figure,
    ) -> Figure:
        """Return a new figure: the relation of its inputs.

        An input that is a figure keeps its id, so that a reader can go back step by step.
        """
        record = describe(relation)
        given = {key: self._given(value, record, key) for key, value in inputs.items()}
        value = float(record.function(**{key: item.value for key, item in given.items()}))
        figure = Figure(
            name,
            label,
            record,
            given,
            value,
            record.unit,
            self.show(value, record.unit),
            digits,
        )
        if name in self.figures:
            msg = f"two figures are called {name}"
            raise ValueError(msg)
        self.figures[name] = figure
        return figure

    def _given(self, value: Given | Figure, record: Any, key: str) -> Given:
        if isinstance(value, Given):
            return value
        expected = record.arguments[key].unit
        if value.unit != expected:
            msg = f"{record.name}: {key} is in {expected}, the figure {value.id} in {value.unit}"
            raise ValueError(msg)
        return Given(value.value, value.label, value.id)

    def show(self, value: float, unit: str) -> Shown:
        """Return how a number is shown to the keeper."""
        if unit in {"meq/L", "meq/L/day"} and self.alkalinity_unit in _ALKALINITY:
            relation, shown = _ALKALINITY[self.alkalinity_unit]
            suffix = " a day" if unit.endswith("/day") else ""
            return Shown(float(relation(value)), shown + suffix, describe(relation).name)
        return Shown(value, _PLAIN.get(unit, unit))
