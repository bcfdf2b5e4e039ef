"""A name that leaves says what to use instead, until the version without it."""

from __future__ import annotations

import importlib
import sys
import types
from importlib.metadata import version

import pytest
from test_public_names import PACKAGES

from reefchem.core.lazy import lazily
from reefchem.core.retired import warn_of_retired


@pytest.fixture
def shapes(monkeypatch):
    """A package with one name, `side` of its module `square`, that was `edge` before."""
    square = types.ModuleType("shapes.square")
    square.side = 3.0
    package = types.ModuleType("shapes")
    monkeypatch.setitem(sys.modules, "shapes", package)
    monkeypatch.setitem(sys.modules, "shapes.square", square)
    package.__getattr__, package.__dir__, package.__all__ = lazily(
        "shapes", {"square": ("side",)}, retired={"edge": ("side", "0.4")}
    )
    return package


def test_a_retired_name_warns_at_the_users_line_and_still_works(shapes):
    with pytest.warns(DeprecationWarning, match="gone") as caught:
        assert shapes.edge == 3.0
    (said,) = caught
    assert str(said.message) == (
        "shapes.edge will be gone in reefchem 0.4; use shapes.side instead"
    )
    assert said.filename == __file__


def test_it_warns_when_it_is_imported_from_the_package_too(shapes):
    with pytest.warns(DeprecationWarning, match="use shapes.side instead") as caught:
        from shapes import edge  # noqa: PLC0415
    assert edge == 3.0
    assert {said.filename for said in caught} == {__file__}


def test_it_warns_each_time(shapes):
    for _ in range(2):
        with pytest.warns(DeprecationWarning, match="gone"):
            assert shapes.edge


def test_it_is_no_public_name_any_more(shapes):
    assert shapes.__all__ == ["side"]
    assert "edge" not in dir(shapes)


def test_the_name_to_use_does_not_warn(shapes):
    assert shapes.side == 3.0


def test_a_function_may_warn_for_its_caller():
    def old():
        warn_of_retired("old", "new", "0.4")

    with pytest.warns(DeprecationWarning, match="old will be gone in reefchem 0.4") as caught:
        old()
    assert caught[0].filename == __file__


@pytest.mark.parametrize("package", PACKAGES)
def test_no_name_stays_longer_than_was_said(package):
    module = importlib.import_module(package)
    now = tuple(map(int, version("reefchem").split(".")))
    for name, (use, gone) in getattr(type(module), "RETIRED", {}).items():
        assert use in module.__all__, f"{name} sends to {use}, which is not public"
        assert tuple(map(int, gone.split("."))) > now, f"{package}.{name} should be gone"
