"""Subcommands of the command line, one module each, with a click command called `command`."""
