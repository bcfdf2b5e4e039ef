"""What is wrong with a file that somebody wrote, and where.

A reader of such files notes a fault and goes on, so that all of them are told at once and the good
rows are still at hand.
"""

from __future__ import annotations

from dataclasses import dataclass

from reefchem.core.errors import DomainError

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Iterable

__all__ = ["Fault", "FaultyFileError"]

SHOWN = 40


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing to mend.

    Attributes
    ----------
    file
        Name of the file.
    line
        From 1; 0 when it is not about one line.
    column
        Name of the column, or a key with its table, as ``tank.volume``; empty when it is about the
        whole line.
    reason
        What is wrong, in words.
    """

    file: str
    line: int
    column: str
    reason: str

    def __str__(self) -> str:
        line = f", line {self.line}" if self.line else ""
        word = "" if "." in self.column else "column "
        column = f", {word}{self.column}" if self.column else ""
        return f"{self.file}{line}{column}: {self.reason}"


class FaultyFileError(DomainError):
    """A file cannot be used as it is.

    Attributes
    ----------
    faults
        Every one of them, in the order of the file. The message shows the first few.
    """

    def __init__(self, file: str, faults: Iterable[Fault]) -> None:
        self.faults: tuple[Fault, ...] = tuple(sorted(faults, key=lambda fault: fault.line))
        shown = [str(fault) for fault in self.faults[:SHOWN]]
        if len(self.faults) > SHOWN:
            shown.append(f"... and {len(self.faults) - SHOWN} more")
        places = "1 place" if len(self.faults) == 1 else f"{len(self.faults)} places"
        lines = "\n".join(shown)
        super().__init__(f"{file} cannot be used as it is; {places} to mend:\n{lines}")
