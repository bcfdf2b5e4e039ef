"""``reefchem plan``: a description and its log in, a plan out."""

from __future__ import annotations

import shutil
import warnings
from pathlib import Path

import click

from reefchem.commands.print_json import json_option, print_json
from reefchem.commands.progress import progress_bar
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
        with progress_bar("reading the log") as progress:
            plan = plan_from_file(description, progress=progress)
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
    from reefchem.tank.fields import FILE_TABLES, file_table  # noqa: PLC0415 - heavy; not for --help

    lines: list[str] = []
    for name, (sentence, headings) in FILE_TABLES.items():
        lines += ["", sentence, ""] if lines else [sentence, ""]
        for key, meaning, *more in file_table(name):
            lines.append(f"  {key}: {meaning}")
            lines += [
                f"      {heading}: {told}"
                for heading, told in zip(headings[2:], more, strict=True)
                if told
            ]
    return "\n".join(lines)
