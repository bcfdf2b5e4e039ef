"""One usual mistake, and the number that it leads to."""

from __future__ import annotations

import contextlib
import warnings
from dataclasses import dataclass
from typing import TYPE_CHECKING

from reefchem.core.errors import DomainError, RangeWarning

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from reefchem.core.record import Record

__all__ = ["Slip", "again", "changed"]


@dataclass(frozen=True)
class Slip:
    """A usual mistake and the number that it leads to."""

    name: str
    explanation: str
    value: float


def again(record: Record, inputs: Mapping[str, float], **other: float) -> float | None:
    """Return the result with some inputs changed, or None where there is none."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", RangeWarning)
        with contextlib.suppress(DomainError):
            return float(record.function(**{**inputs, **other}))
    return None


def changed(
    record: Record, inputs: Mapping[str, float], name: str, value: float, *said: str
) -> Iterator[Slip]:
    """Give the slip of having had another value for one input."""
    made = again(record, inputs, **{name: value})
    if made is not None:
        yield Slip(said[0], said[1], made)
