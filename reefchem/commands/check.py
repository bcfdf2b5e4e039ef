"""``reefchem check``: compare a number, a function, a program or a table with the vectors."""

from __future__ import annotations

import importlib
import math
import sys
import warnings
from pathlib import Path
from typing import TYPE_CHECKING

import click

from reefchem.commands.print_json import json_option, print_answer, print_json
from reefchem.core.errors import DomainError, RangeWarning

if TYPE_CHECKING:
    from collections.abc import Callable

    from reefchem.export.conformance import Report
    from reefchem.export.vectors import Vector

__all__ = ["command"]

DIFFERS = 1
"""Exit status when something differs; 2 is for a wrong call."""


def _share(_context: click.Context, _option: click.Parameter, text: str) -> float:
    """Return a percentage as a share of one."""
    plain = text.strip()
    try:
        share = float(plain.removesuffix("%")) / 100 if plain.endswith("%") else math.nan
    except ValueError:
        share = math.nan
    if not 0 <= share < math.inf:
        msg = f'{text!r} is no percentage, such as "0.1 %"'
        raise click.BadParameter(msg)
    return share


@click.group("check")
def command() -> None:
    """Compare a calculation with documented, checked values.

    The exit status is 0 when all agree, 1 when something differs and 2 when the call is wrong or
    what was given cannot be judged.
    """


@command.command(context_settings={"ignore_unknown_options": True})
@click.argument("relation")
@click.argument("inputs", nargs=-1, metavar="NAME=VALUE...", required=True)
@click.option("--result", "claimed", required=True, help='The number to check, as "1023.3".')
@click.option("--within", help='What still agrees, as "0.5 %"; else half the last digit.')
@json_option
def value(
    relation: str, inputs: tuple[str, ...], claimed: str, within: str | None, *, as_json: bool
) -> None:
    """Check one number: reefchem check value RELATION NAME=VALUE... --result NUMBER.

    A value, or the result, may have a unit of its own: temperature=77F. One of several results is
    named after a point: carbonate_system.ph_total.
    """
    from reefchem.export.asked_for import asked_for  # noqa: PLC0415 - heavy; not for --help
    from reefchem.export.claim import check_claim  # noqa: PLC0415
    from reefchem.export.typed_input import given_inputs  # noqa: PLC0415

    try:
        with warnings.catch_warnings(record=True) as caught:
            warnings.simplefilter("always", RangeWarning)
            given = given_inputs(asked_for(relation), inputs)
            claim = check_claim(relation, given, claimed, within)
    except KeyError as error:
        raise click.UsageError(str(error.args[0])) from None
    except (DomainError, TypeError, ValueError) as error:
        raise click.UsageError(str(error)) from None
    print_answer(claim.__str__, claim.data, caught, as_json=as_json)
    sys.exit(0 if claim.agrees else DIFFERS)


_relations = click.option("--relation", "names", multiple=True, help="Only this one; repeatable.")
_within = click.option(
    "--within", callback=_share, default="0 %", help='Share that still agrees, as "0.1 %".'
)
_most = click.option("--most", default=10, show_default=True, help="How many to list.")


@command.command()
@click.argument("function", metavar="MODULE[:FUNCTION]")
@click.option("--relation", help="What it computes; its own name when left out.")
@_within
@_most
@json_option
def function(
    function: str, relation: str | None, within: float, most: int, *, as_json: bool
) -> None:
    """Check a Python function that takes the arguments of a relation by name.

    With MODULE alone, every function of it that is called like a relation is checked.
    """
    from reefchem.export.conformance import named_like_relations, run  # noqa: PLC0415 - heavy

    module, colon, name = function.partition(":")
    sys.path.insert(0, str(Path.cwd()))
    try:
        found = importlib.import_module(module)
        one = getattr(found, name) if colon else named_like_relations(vars(found))
        report = run(one, relation=relation, within=within)
    except (ImportError, AttributeError, TypeError) as error:
        raise click.UsageError(str(error)) from None
    _end(report, most, as_json=as_json)


@command.command()
@click.argument("program")
@_relations
@_within
@_most
@json_option
def program(
    program: str, names: tuple[str, ...], within: float, most: int, *, as_json: bool
) -> None:
    """Check a program that reads a line of JSON for each vector and writes one.

    It reads {"id": ..., "relation": ..., "inputs": {...}} with numbers in the recorded units, and
    writes {"id": ..., "value": number}, or {"id": ..., "error": "why"} to refuse, or
    {"id": ..., "skip": true} for what it does not know.
    """
    from reefchem.export.answers import from_command  # noqa: PLC0415 - heavy; not for --help

    _judged(lambda vectors: from_command(program, vectors), names, within, most, as_json=as_json)


@command.command()
@click.argument("file", type=click.Path(exists=True, dir_okay=False, path_type=Path))
@_relations
@_within
@_most
@json_option
def results(file: Path, names: tuple[str, ...], within: float, most: int, *, as_json: bool) -> None:
    """Check a CSV file with the columns id and value; ids are those of the exported vectors."""
    from reefchem.export.answers import from_csv  # noqa: PLC0415 - heavy; not for --help

    _judged(lambda vectors: from_csv(file, vectors), names, within, most, as_json=as_json)


def _judged(
    judge: Callable[[list[Vector]], Report],
    names: tuple[str, ...],
    within: float,
    most: int,
    *,
    as_json: bool,
) -> None:
    from reefchem.export.conformance import loosened  # noqa: PLC0415 - heavy; not for --help
    from reefchem.export.vectors import vectors  # noqa: PLC0415

    try:
        report = judge(loosened(vectors(names or None), within))
    except KeyError as error:
        raise click.UsageError(str(error.args[0])) from None
    except DomainError as error:
        raise click.UsageError(str(error)) from None
    _end(report, most, as_json=as_json)


def _end(report: Report, most: int, *, as_json: bool) -> None:
    if as_json:
        print_json(report.data(most=most))
    else:
        click.echo(report.text(most=most))
    sys.exit(0 if report.agrees else DIFFERS)
