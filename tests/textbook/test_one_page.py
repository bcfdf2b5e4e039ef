"""The little book as one page, and that page on paper."""

from __future__ import annotations

import importlib.util
import re

import pytest
from book_building import build_book
from chromium import chromium_path
from conftest import ROOT, SECOND


@pytest.fixture(scope="module")
def one_page(tmp_path_factory):
    folder = tmp_path_factory.mktemp("one")
    built = build_book(SECOND, folder / "book", folder / "doctrees", "-b", "singlehtml")
    return built / "index.html"


def test_every_link_and_every_id_is_of_that_page(one_page):
    text = one_page.read_text(encoding="utf-8")
    ids = re.findall(r'\bid="([^"]+)"', text)
    links = re.findall(r'<a [^>]*href="([^"]*)"', text)
    inside = [link for link in links if not re.match(r"https?:|index\.html$|#$", link)]
    assert len(inside) > 30
    assert [link for link in inside if link[1:] not in ids] == []
    entries = [name for name in ids if name in {"sound_speed", "exposure_value", "trigger_delay"}]
    assert len(entries) == 3


def test_it_is_printed_without_script_or_network(one_page, tmp_path, monkeypatch):
    monkeypatch.setenv("CHROMIUM", chromium_path())
    spec = importlib.util.spec_from_file_location("print_pdf", ROOT / "book" / "print_pdf.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    target = tmp_path / "book.pdf"
    module.print_page(one_page, target)
    made = target.read_bytes()
    assert made.startswith(b"%PDF-")
    assert len(re.findall(rb"/Type\s*/Page\b", made)) >= 4
    assert b"/Outlines" in made
