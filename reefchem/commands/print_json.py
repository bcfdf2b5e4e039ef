"""JSON on standard output, the same for every subcommand."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from collections.abc import Callable
    from typing import Any

__all__ = ["json_option", "print_json"]

json_option: Callable[[Callable[..., Any]], Callable[..., Any]] = click.option(
    "--json", "as_json", is_flag=True, help="Print JSON instead of text."
)


def print_json(data: object) -> None:
    """Print dicts, lists, texts and finite numbers as indented JSON."""
    click.echo(json.dumps(data, indent=2, ensure_ascii=False, allow_nan=False))
