"""``reefchem plan``: a description and its log in, a plan out."""

from __future__ import annotations

import shutil
import warnings
from pathlib import Path

import click

from reefchem.commands.print_json import json_option, print_json
from reefchem.core.errors import DomainError, RangeWarning

__all__ = ["command"]

BOOK = "book/_build/html"


@click.command("plan")
@click.argument("description", required=False, type=click.Path(path_type=Path))
@click.option(
    "--html", type=click.Path(path_type=Path), help="Also write the plan as a page, here."
)
@json_option
@click.option("--working", is_flag=True, help="Print the working of every number as well.")
@click.option("--book", default=BOOK, show_default=True, help="Where the links to the book lead.")
@click.option("--fields", is_flag=True, help="Explain what the two files may hold, and stop.")
def command(
    description: Path | None,
    html: Path | None,
    book: str,
    *,
    as_json: bool,
    working: bool,
    fields: bool,
) -> None:
    """Turn DESCRIPTION, a tank in TOML that names its log, into a reasoned plan.

    The plan says what to dose and change today, why, how sure that is, and what to beware of.
    Exit code 1 means that a file has to be mended; every fault is listed with its place.
    """
    if fields:
        click.echo(fields_text())
        return
    if description is None:
        msg = "name the description of a tank, or ask for --fields"
        raise click.UsageError(msg)
    from reefchem.tank.plan import plan_from_file  # noqa: PLC0415 - heavy; not for --help

    warnings.simplefilter("ignore", RangeWarning)  # the plan itself says what is out of range
    try:
        plan = plan_from_file(description)
    except DomainError as error:
        raise click.ClickException(str(error)) from None
    except ModuleNotFoundError as error:
        msg = f"{error.name} is not installed; a plan needs reefchem[plan]"
        raise click.ClickException(msg) from None
    from reefchem import report  # noqa: PLC0415 - heavy; not for --help

    if html is not None:
        try:
            html.parent.mkdir(parents=True, exist_ok=True)
            html.write_text(report.plan_page(plan, book=book), encoding="utf-8")
        except OSError as error:
            msg = f"{html} cannot be written: {error.strerror or error}"
            raise click.ClickException(msg) from None
    if as_json:
        print_json(report.plan_data(plan, book=book))
    else:
        width = max(40, min(100, shutil.get_terminal_size().columns))
        click.echo(report.plan_text(plan, width=width, working=working))
    if html is not None:
        click.echo(f"The page: {html}", err=True)


def fields_text() -> str:
    """Return what a description and a log may hold, as text."""
    from reefchem.tank.description import FIELDS  # noqa: PLC0415 - heavy; not for --help
    from reefchem.tank.log import COLUMNS, KINDS  # noqa: PLC0415 - heavy; not for --help

    lines = ["The description is a TOML file with these keys."]
    for table, keys in FIELDS.items():
        lines.append("")
        lines.append("[[stock]]  (once for each stock)" if table == "stock" else f"[{table}]")
        for key, field in keys.items():
            default = "must be given" if field.default is None else f"default {field.default!r}"
            default = "optional" if field.default == "" else default
            practice = ", common practice without a source" if field.practice else ""
            units = f"; in {field.measure.units()}" if field.measure else ""
            lines.append(f"  {key}: {field.meaning}{units} ({default}{practice})")
    lines += ["", "The log is a CSV file whose first line names these columns."]
    lines += [f"  {name}: {meaning}" for name, meaning in COLUMNS.items()]
    lines += ["", "In the column `what` stands one of these."]
    lines += [f"  {name}: {meaning}" for name, meaning in KINDS.items()]
    return "\n".join(lines)
