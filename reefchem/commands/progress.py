"""A bar that shows how far something long is, on a terminal only."""

from __future__ import annotations

import sys
import time
from contextlib import ExitStack, contextmanager
from typing import TYPE_CHECKING, Any

import click

if TYPE_CHECKING:
    from collections.abc import Callable, Generator

__all__ = ["progress_bar"]

PATIENCE = 1.0
"""Seconds before a bar is shown: what is done sooner needs none."""

STEPS = 1000


@contextmanager
def progress_bar(label: str) -> Generator[Callable[[float], None], None, None]:
    """Give a function that is told which share is done, from 0 to 1.

    The bar is drawn on the standard error, so that it stays out of what is printed, and only where
    that is a terminal.
    """
    begin = time.monotonic()
    terminal = sys.stderr.isatty()
    with ExitStack() as stack:
        bars: list[Any] = []

        def tell(share: float) -> None:
            if not bars and terminal and time.monotonic() - begin > PATIENCE:
                bar = click.progressbar(length=STEPS, label=label, file=sys.stderr)
                bars.append(stack.enter_context(bar))
            for bar in bars:
                bar.update(int(STEPS * share) - bar.pos)

        yield tell
