"""The command line: each subcommand is a module that is loaded when it is asked for."""

from __future__ import annotations

import importlib
import importlib.util
import io
import sys

import click

__all__ = ["COMMANDS", "main"]

COMMANDS: dict[str, str] = {
    "plan": "reefchem.commands.plan",
    "work": "reefchem.commands.work",
    "export": "reefchem.commands.export",
    "check": "reefchem.commands.check",
}
"""Module by subcommand; each has a click command called `command`."""


class Lazy(click.Group):
    """A group whose subcommands are imported when they are asked for."""

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002 - click's signature
        """Return the names of the subcommands that are installed."""
        return [name for name in COMMANDS if importlib.util.find_spec(COMMANDS[name])]

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:  # noqa: ARG002 - click's signature
        """Return a subcommand."""
        module = COMMANDS.get(cmd_name)
        if module is None or importlib.util.find_spec(module) is None:
            return None
        command: click.Command = importlib.import_module(module).command
        return command


EPILOG = """\b
Exit codes: 0 all is done; 1 a file has to be mended, a name or a number
cannot be used, or a check differs; 2 the call is wrong, or there is nothing
to check. Errors go to the standard error.

\b
Completion of commands by the Tab key, for this session:
  eval "$(_REEFCHEM_COMPLETE=bash_source reefchem)"
and likewise zsh_source; in fish: _REEFCHEM_COMPLETE=fish_source reefchem | source
"""


@click.group(cls=Lazy, epilog=EPILOG, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="reefchem")
def main() -> None:
    """Chemistry of a small reef aquarium: plans, workings, exports, checks."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):  # a sign that it lacks is no reason to fail
            stream.reconfigure(errors="backslashreplace")
