"""``python -m reefchem`` is the command line."""

from reefchem.cli import main

main(prog_name="reefchem")
