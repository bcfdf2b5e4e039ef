"""JSON on standard output, the same for every subcommand."""

from __future__ import annotations

import json

import click

__all__ = ["json_option", "print_json"]

json_option = click.option("--json", "as_json", is_flag=True, help="Print JSON instead of text.")


def print_json(data: object) -> None:
    """Print dicts, lists, texts and finite numbers as indented JSON."""
    click.echo(json.dumps(data, indent=2, ensure_ascii=False, allow_nan=False))
