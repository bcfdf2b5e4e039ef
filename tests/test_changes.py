"""The changelog collects what the fragments say, and numbers come first."""

from __future__ import annotations

import importlib.util
import sys
from datetime import date

import pytest
from conftest import ROOT

HOME = ROOT / "book" / "reefchem_pages" / "changes.py"


@pytest.fixture(scope="module")
def changes():
    spec = importlib.util.spec_from_file_location("changes_of_the_book", HOME)
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    assert "docutils" not in vars(module)
    yield module
    sys.modules.pop("changes_of_the_book", None)


@pytest.fixture
def book(tmp_path):
    (tmp_path / "changes").mkdir()
    (tmp_path / "changes.md").write_text(
        "# Changes\n\n<!-- releases: the newest first -->\n\n## 0.1.0, 2026-01-01\n", "utf-8"
    )
    for name, text in {
        "air.added.md": "The air\nof a room.\n",
        "water.added.md": "Water.\n",
        "gas.numbers.md": "K0 was 0.0284, is 0.0285 (Weiss, 1974).\n",
    }.items():
        (tmp_path / "changes" / name).write_text(text, encoding="utf-8")
    return tmp_path


def test_fragments_are_lists_by_kind_and_numbers_come_first(changes, book):
    assert changes.collected(book / "changes") == (
        "### Numbers\n\n- K0 was 0.0284, is 0.0285 (Weiss, 1974).\n\n"
        "### Added\n\n- The air\n  of a room.\n- Water."
    )


def test_that_no_number_has_changed_is_said(changes, book):
    (book / "changes" / "gas.numbers.md").unlink()
    assert "### Numbers\n\nNo result has changed." in changes.collected(book / "changes")


@pytest.mark.parametrize("name", ["air.md", "air.new.md", "air.added.txt"])
def test_a_fragment_of_another_name_is_refused(changes, book, name):
    (book / "changes" / name).write_text("What?", encoding="utf-8")
    with pytest.raises(ValueError, match="a fragment is called <topic>"):
        changes.collected(book / "changes")


def test_a_release_moves_the_fragments_above_the_last_one(changes, book):
    changes.release(book, "0.2.0", date(2026, 12, 1))
    text = (book / "changes.md").read_text(encoding="utf-8")
    assert text.index("## 0.2.0, 2026-12-01") < text.index("K0 was") < text.index("## 0.1.0")
    assert list((book / "changes").iterdir()) == []


def test_every_fragment_of_the_project_is_collected(changes):
    folder = ROOT / "book" / "changes"
    text = changes.collected(folder)
    assert all(
        path.read_text(encoding="utf-8").splitlines()[0] in text for path in folder.iterdir()
    )


def test_the_page_shows_every_fragment(built_book):
    page = (built_book / "changes.html").read_text(encoding="utf-8")
    assert page.count("<h3>") >= 2
    assert page.index("<h3>Numbers") < page.index("<h3>Added")
