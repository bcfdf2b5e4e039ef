"""``reefchem work``: the working of one relation for given numbers."""

from __future__ import annotations

import warnings
from typing import TYPE_CHECKING

import click

from reefchem.commands.print_json import json_option, print_answer, print_json
from reefchem.core.errors import DomainError, RangeWarning

if TYPE_CHECKING:
    from reefchem.core.record import Record
    from reefchem.export.every_part import EveryPart
    from reefchem.formula.working import Working

__all__ = ["command"]


@click.command("work", context_settings={"ignore_unknown_options": True})
@click.argument("relation")
@click.argument("inputs", nargs=-1, metavar="[NAME=VALUE]...")
@click.option("--digits", default=6, show_default=True, type=click.IntRange(1, 15))
@json_option
def command(relation: str, inputs: tuple[str, ...], digits: int, *, as_json: bool) -> None:
    """Print formula, numbers put in, result and source of RELATION.

    Without inputs it says which ones the relation takes, and their units. A value is a number in
    that unit, or a number with another unit of the same kind: temperature=77F. Other words than
    the name of a relation list those that are near.
    """
    from reefchem.core.record import calculations  # noqa: PLC0415 - heavy; not for --help
    from reefchem.export.asked_for import asked_for  # noqa: PLC0415
    from reefchem.export.every_part import every_part  # noqa: PLC0415
    from reefchem.export.typed_input import given_inputs  # noqa: PLC0415
    from reefchem.formula import work  # noqa: PLC0415

    name, _, part = relation.partition(".")
    whole = calculations().get(name)
    try:
        record = whole or asked_for(relation)
    except KeyError as error:
        raise click.ClickException(str(error.args[0])) from None
    if not inputs:
        if as_json:
            from reefchem.export.javascript import record_data  # noqa: PLC0415 - heavier still

            print_json(record_data(record))
        else:
            click.echo(_taken(record))
        return
    try:
        given = given_inputs(record, inputs)
        with warnings.catch_warnings(record=True) as caught:
            warnings.simplefilter("always", RangeWarning)
            worked: EveryPart | Working
            if whole:
                worked = every_part(whole, given, only=part, digits=digits)
            else:
                worked = work(relation, digits=digits, **given)
    except (DomainError, TypeError, ValueError) as error:
        raise click.ClickException(str(error)) from None
    print_answer(worked.text, worked.data, caught, as_json=as_json)


def _taken(record: Record) -> str:
    from reefchem.export.calculations import parts_of  # noqa: PLC0415 - heavy; not for --help

    unit = record.unit and f" ({record.unit})"
    lines = [f"{record.name}{unit}: {record.summary}"]
    for name, argument in record.arguments.items():
        low, high = argument.span
        kind = "valid" if argument.valid else "typical"
        default = record.defaults.get(name)
        told = f", default {default:g}" if default is not None else ""
        told = ", may be left out" if name in record.defaults and default is None else told
        lines.append(f"  {name} in {argument.unit}, {kind} {low:g} to {high:g}{told}")
    if not record.unit:
        lines.append(f"It gives {', '.join(parts_of(record))}.")
    return "\n".join(lines)
