"""Names that are imported when they are first asked for."""

from __future__ import annotations

import importlib
import sys

import pytest


@pytest.fixture
def package(tmp_path, monkeypatch):
    """Return the importer of a small package of its own name."""
    home = tmp_path / "sleepy"
    home.mkdir()
    (home / "__init__.py").write_text(
        "from reefchem.core.lazy import lazily\n"
        "__getattr__, __dir__, __all__ = lazily(\n"
        "    __name__, {'one': ('one', 'uno'), 'two': ()}\n"
        ")\n"
    )
    (home / "one.py").write_text("def one(): return 1\ndef uno(): return 'uno'\n")
    (home / "two.py").write_text("VALUE = 2\n")
    monkeypatch.syspath_prepend(str(tmp_path))
    yield lambda: importlib.import_module("sleepy")
    for name in [name for name in sys.modules if name.partition(".")[0] == "sleepy"]:
        del sys.modules[name]


def test_nothing_is_imported_before_it_is_asked_for(package):
    module = package()
    assert "sleepy.one" not in sys.modules
    assert module.uno() == "uno"
    assert "sleepy.one" in sys.modules
    assert "sleepy.two" not in sys.modules
    assert module.two.VALUE == 2


def test_a_name_is_looked_up_once(package):
    module = package()
    assert module.uno is vars(module)["uno"]


@pytest.mark.parametrize("first", ["sleepy.one", "sleepy.two"])
def test_a_public_name_wins_over_the_module_of_that_name(package, first):
    module = package()
    importlib.import_module(first)
    assert module.one() == 1
    importlib.import_module("sleepy.one")
    assert module.one() == 1


def test_public_names_are_listed_before_they_are_loaded(package):
    module = package()
    assert module.__all__ == ["one", "two", "uno"]
    assert {"one", "two", "uno"} <= set(dir(module))


def test_an_unknown_name_is_an_attribute_error_that_names_it(package):
    with pytest.raises(AttributeError, match="module 'sleepy' has no attribute 'tres'"):
        package().tres  # noqa: B018 - the lookup is the test


def test_star_gives_all_public_names(package):
    package()
    space = {}
    exec("from sleepy import *", space)  # noqa: S102 - a star is only legal at module level
    assert {"one", "two", "uno"} <= space.keys()
