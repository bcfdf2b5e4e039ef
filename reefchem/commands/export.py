"""``reefchem export``: a JavaScript module of all relations, and test vectors."""

from __future__ import annotations

import json
from pathlib import Path

import click

from reefchem.core.errors import DomainError

__all__ = ["command"]


@click.group("export")
def command() -> None:
    """Write what other programs can use."""


@command.command()
@click.argument("folder", type=click.Path(file_okay=False, path_type=Path), default=".")
def javascript(folder: Path) -> None:
    """Write reefchem.mjs, and its types reefchem.d.mts, into FOLDER.

    The module runs in browsers and in Node. Each relation is a function that takes numbers in the
    recorded units, by position or as one object, and refuses the impossible.
    """
    from reefchem.core.record import records  # noqa: PLC0415 - heavy; not for --help
    from reefchem.export.calculations import LEFT_OUT, exported_calculations  # noqa: PLC0415
    from reefchem.export.javascript import declarations, module_source  # noqa: PLC0415

    folder.mkdir(parents=True, exist_ok=True)
    _write(folder / "reefchem.mjs", module_source())
    _write(folder / "reefchem.d.mts", declarations())
    whole = ", ".join(record.name for record in exported_calculations())
    click.echo(f"{folder / 'reefchem.mjs'}: {len(records())} relations, with types beside it")
    click.echo(f"and what gives several numbers at once: {whole}")
    click.echo(f"without {', '.join(LEFT_OUT)}; the head of the module says why")


@command.command()
@click.argument("file", type=click.Path(dir_okay=False, path_type=Path), default="vectors.json")
@click.option("--relation", "names", multiple=True, help="Only this one; may be given again.")
@click.option("--schema", is_flag=True, help="Write the JSON schema beside FILE, too.")
@click.option("--published", is_flag=True, help="Only what somebody else printed.")
def vectors(file: Path, names: tuple[str, ...], schema: bool, published: bool) -> None:
    """Write test vectors as JSON to FILE: inputs with units, what is right, what is refused.

    A FILE that ends in .csv becomes a table of one relation for a spreadsheet; fill its column
    `value` and let `reefchem check results` judge it.
    """
    from importlib.resources import files  # noqa: PLC0415 - heavy; not for --help

    from reefchem.export.vectors import as_json, as_table  # noqa: PLC0415
    from reefchem.export.vectors import vectors as made_of  # noqa: PLC0415

    try:
        made = made_of(names or None)
    except KeyError as error:
        raise click.ClickException(str(error.args[0])) from None
    if published:
        made = [vector for vector in made if vector.kind in {"published", "example"}]
    try:
        table = as_table(made) if file.suffix == ".csv" else ""
    except DomainError as error:
        raise click.ClickException(str(error)) from None
    _write(file, table or json.dumps(as_json(made), ensure_ascii=False, indent=1) + "\n")
    if schema:
        text = files("reefchem.export").joinpath("vectors.schema.json").read_text(encoding="utf-8")
        _write(file.with_name("vectors.schema.json"), text)
    click.echo(f"{file}: {len(made)} vectors")


def _write(path: Path, text: str) -> None:
    try:
        path.write_text(text, encoding="utf-8", newline="\n")
    except OSError as error:
        msg = f"{path}: {error.strerror}"
        raise click.ClickException(msg) from None
