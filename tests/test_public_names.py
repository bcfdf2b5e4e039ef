"""Public names are a promise: a change of them shows here, in ``tests/public_names.txt``.

Write the list anew with ``python tests/test_public_names.py``.
"""

from __future__ import annotations

import importlib
from pathlib import Path
from types import ModuleType

import pytest

from reefchem.core.record import calculations, records

LIST = Path(__file__).parent / "public_names.txt"
PACKAGES = (
    "reefchem",
    *(
        f"reefchem.{part}"
        for part in (
            "seawater",
            "conversion",
            "carbonate",
            "dosing",
            "tank",
            "uncertainty",
            "formula",
            "derive",
            "examples",
            "export",
        )
    ),
)


def public_names():
    """Return every public name with its package, in alphabetical order."""
    return sorted(
        f"{package}.{name}"
        for package in PACKAGES
        for name in getattr(importlib.import_module(package), "__all__", ())
    )


def test_the_public_names_are_those_of_the_list():
    assert public_names() == LIST.read_text(encoding="utf-8").split()


@pytest.mark.parametrize("package", PACKAGES)
def test_every_public_name_is_there_and_documented(package):
    module = importlib.import_module(package)
    for name in getattr(module, "__all__", ()):
        value = getattr(module, name)
        if callable(value) or isinstance(value, ModuleType):
            assert value.__doc__, f"{package}.{name} has no docstring"


@pytest.mark.parametrize("package", PACKAGES)
def test_the_table_of_a_package_offers_only_what_its_modules_offer(package):
    module = importlib.import_module(package)
    for name in getattr(module, "__all__", ()):
        value = getattr(module, name)
        home = getattr(value, "__module__", None)
        if (
            not isinstance(value, ModuleType)
            and isinstance(home, str)
            and home.startswith(f"{package}.")
        ):
            assert name in importlib.import_module(home).__all__, f"{home} keeps {name} to itself"


def test_a_relation_is_offered_by_one_package_only():
    seen = {}
    for full in public_names():
        package, _, name = full.rpartition(".")
        value = getattr(importlib.import_module(package), name)
        if hasattr(value, "__relation__"):
            assert seen.setdefault(name, value) is value, f"{name} means two things"


def test_every_relation_is_public():
    offered = {name.rpartition(".")[2] for name in public_names()}
    assert not (records() | calculations()).keys() - offered


if __name__ == "__main__":
    LIST.write_text("\n".join(public_names()) + "\n", encoding="utf-8")
