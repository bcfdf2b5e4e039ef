"""Results in several parts: frozen dataclasses of bare numbers that know their units."""

from __future__ import annotations

from dataclasses import fields, replace
from typing import TYPE_CHECKING, Any, ClassVar, Self

from reefchem.core.quantity import quantity, with_unit

if TYPE_CHECKING:
    from collections.abc import Mapping

__all__ = ["Result"]


class Result:
    """Base of a frozen dataclass whose fields are numbers in the units of `UNITS`.

    A field without an entry in `UNITS` has no unit and is left as it is.
    """

    UNITS: ClassVar[Mapping[str, str]] = {}

    def quantity(self, name: str) -> Any:
        """Return one field as a quantity of the project's registry."""
        return quantity(getattr(self, name), self.UNITS[name])

    def with_units(self, like: Any) -> Self:
        """Return the result with its fields as quantities of the registry of `like`."""
        changed = {
            field.name: with_unit(getattr(self, field.name), self.UNITS[field.name], like)
            for field in fields(self)  # type: ignore[arg-type]  # every subclass is a dataclass
            if field.name in self.UNITS and getattr(self, field.name) is not None
        }
        return replace(self, **changed)  # type: ignore[type-var]  # every subclass is a dataclass
