"""``reefchem work``: the working of one relation for given numbers."""

from __future__ import annotations

import warnings

import click

from reefchem.commands.print_json import json_option, print_json
from reefchem.core.errors import DomainError, RangeWarning

__all__ = ["command", "given_input"]


@click.command("work", context_settings={"ignore_unknown_options": True})
@click.argument("relation")
@click.argument("inputs", nargs=-1, metavar="[NAME=VALUE]...")
@click.option("--digits", default=6, show_default=True, type=click.IntRange(1, 15))
@json_option
def command(relation: str, inputs: tuple[str, ...], digits: int, *, as_json: bool) -> None:
    """Print formula, numbers put in, result and source of RELATION.

    Without inputs it says which ones the relation takes, and their units. A value is a number in
    that unit, or a number with another unit of the same kind in quotes: "temperature=77 degF".
    """
    from reefchem.core.record import describe  # noqa: PLC0415 - heavy; not for --help
    from reefchem.export.javascript import record_data  # noqa: PLC0415 - heavy; not for --help
    from reefchem.formula import work  # noqa: PLC0415 - heavy; not for --help

    try:
        record = describe(relation)
    except KeyError as error:
        raise click.ClickException(str(error.args[0])) from None
    if not inputs:
        if as_json:
            print_json(record_data(record))
        else:
            click.echo(_taken(record))
        return
    try:
        given = dict(given_input(text) for text in inputs)
        with warnings.catch_warnings(record=True) as caught:
            warnings.simplefilter("always", RangeWarning)
            worked = work(relation, digits=digits, **given)
    except (DomainError, TypeError, ValueError) as error:
        raise click.ClickException(str(error)) from None
    notes = list(dict.fromkeys(str(w.message) for w in caught))
    if as_json:
        print_json(worked.data() | {"notes": notes})
        return
    click.echo(worked.text())
    for message in notes:
        click.echo(f"note: {message}", err=True)


def _taken(record: object) -> str:
    from reefchem.core.record import Record  # noqa: PLC0415 - heavy; not for --help

    assert isinstance(record, Record)  # noqa: S101 - for the type checker
    lines = [f"{record.name} ({record.unit}): {record.summary}"]
    for name, argument in record.arguments.items():
        low, high = argument.span
        kind = "valid" if argument.valid else "typical"
        default = f", default {record.defaults[name]:g}" if name in record.defaults else ""
        lines.append(f"  {name} in {argument.unit}, {kind} {low:g} to {high:g}{default}")
    return "\n".join(lines)


def given_input(text: str) -> tuple[str, object]:
    """Return name and value of ``name=value``; the value is a number, or one with a unit."""
    from reefchem.core.written_number import number_from_text  # noqa: PLC0415 - heavy; not for --help

    name, equals, value = text.partition("=")
    if not equals:
        msg = f"{text!r} is not of the form name=value"
        raise DomainError(msg)
    number, _, unit = value.strip().partition(" ")
    if not unit:
        return name.strip(), number_from_text(number)
    from reefchem.core.quantity import quantity  # noqa: PLC0415 - heavy; not for --help

    size = number_from_text(number)
    try:
        return name.strip(), quantity(size, unit.strip())
    except Exception:  # noqa: BLE001 - pint lets through whatever its tokeniser raises
        msg = f"{name.strip()}: {unit.strip()!r} is no unit that is known here"
        raise DomainError(msg) from None
