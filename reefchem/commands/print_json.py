"""Answers on standard output, as text or as JSON, the same for every subcommand."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable
    from typing import Any
    from warnings import WarningMessage

__all__ = ["json_option", "print_answer", "print_json"]

json_option: Callable[[Callable[..., Any]], Callable[..., Any]] = click.option(
    "--json", "as_json", is_flag=True, help="Print JSON instead of text."
)


def print_json(data: object) -> None:
    """Print dicts, lists, texts and finite numbers as indented JSON."""
    click.echo(json.dumps(data, indent=2, ensure_ascii=False, allow_nan=False))


def print_answer(
    text: Callable[[], str],
    data: Callable[[], dict[str, Any]],
    caught: Iterable[WarningMessage],
    *,
    as_json: bool,
) -> None:
    """Print an answer as text or JSON, with each warning on the way to it as a note, once."""
    notes = list(dict.fromkeys(str(one.message) for one in caught))
    if as_json:
        print_json(data() | {"notes": notes})
        return
    click.echo(text())
    for message in notes:
        click.echo(f"note: {message}", err=True)
