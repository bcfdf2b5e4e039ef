"""The engine makes a book on another subject, and stops each build that it should stop."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

PHOTOGRAPHY = Path(__file__).parent / "photography"


@pytest.fixture
def book(tmp_path):
    """Return a copy of the tiny book that a test may spoil."""
    return Path(shutil.copytree(PHOTOGRAPHY, tmp_path / "book"))


def build(book, *options):
    command = [sys.executable, "-m", "sphinx", "-q", "-W", "--keep-going", "-n"]
    return subprocess.run(
        [
            *command,
            "-d",
            str(book.parent / "doctrees"),
            *options,
            str(book),
            str(book.parent / "html"),
        ],
        capture_output=True,
        text=True,
        check=False,
        env={**os.environ, "SOURCE_DATE_EPOCH": "1767225600"},
    )


def change(path, old, new):
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new), encoding="utf-8")


def test_a_book_on_photography_is_made_without_a_word_of_chemistry(book):
    done = build(book)
    assert done.returncode == 0, done.stderr
    page = (book.parent / "html" / "index.html").read_text(encoding="utf-8")
    assert "the value is" in page
    assert "12.64" in page
    script = (book.parent / "html" / "_static" / "textbook-relations.js").read_text("utf-8")
    assert "exposure_value" in script
    assert "seawater" not in page + script


def test_a_printed_value_off_by_one_in_its_last_digit_stops_the_build(book):
    change(book / "examples" / "sunny.toml", '"14.64"', '"14.65"')
    done = build(book)
    assert done.returncode != 0
    assert "sunny" in done.stderr
    assert "14.65" in done.stderr
    assert not (book.parent / "html" / "index.html").exists()


def test_every_disagreement_is_listed_at_once(book):
    change(book / "examples" / "sunny.toml", '"14.64"', '"14.65"')
    change(book / "published" / "handbook.toml", '"8.000"', '"8.001"')
    done = build(book)
    assert done.returncode != 0
    assert "14.65" in done.stderr
    assert "8.001" in done.stderr


def test_a_wrong_value_stops_a_build_in_which_no_page_changed(book):
    assert build(book).returncode == 0
    change(book / "published" / "handbook.toml", '"8.000"', '"8.001"')
    assert build(book).returncode != 0


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("{worked-example} sunny", "{worked-example} cloudy", "cloudy"),
        ("{exercise} dusk", "{exercise} dawn", "dawn"),
        ("{relation} exposure_value", "{relation} exposure", "exposure"),
        ("{rel}`exposure_value`", "{rel}`exposures`", "exposures"),
        ("exposure_time=0.01)", "exposure=0.01)", "exposure"),
        ("{cite:t}`handbook`", "{cite:t}`manual`", "manual"),
        (
            "{worked-example} sunny\n```",
            "{worked-example} sunny\n```\n\n$\\notacommand{x}$",
            "notacommand",
        ),
    ],
)
def test_what_a_page_names_must_exist(book, old, new, said):
    change(book / "index.md", old, new)
    done = build(book)
    assert done.returncode != 0
    assert said in done.stderr


def test_a_relation_that_nobody_checks_stops_the_build(book):
    (book / "published" / "handbook.toml").unlink()
    done = build(book)
    assert done.returncode != 0
    assert "aperture_for" in done.stderr


def test_a_source_that_the_bibliography_lacks_stops_the_build(book):
    change(book / "light.bib", "@book{handbook,", "@book{handbuch,")
    done = build(book)
    assert done.returncode != 0
    assert "handbook" in done.stderr


def test_a_changed_relation_makes_its_pages_anew(book):
    assert build(book).returncode == 0
    page = book.parent / "html" / "relations.html"
    assert "the exposure value of an aperture" in page.read_text("utf-8").replace("The", "the")
    change(book / "exposure.py", "of an aperture and a time", "of a lens opening and a time")
    assert build(book).returncode == 0
    assert "a lens opening" in page.read_text("utf-8")


def test_two_builds_give_the_same_bytes(book):
    assert build(book, "-E").returncode == 0
    html = book.parent / "html"
    first = {path: path.read_bytes() for path in sorted(html.rglob("*.html"))}
    shutil.rmtree(html)
    assert build(book, "-E").returncode == 0
    assert {path: path.read_bytes() for path in sorted(html.rglob("*.html"))} == first
