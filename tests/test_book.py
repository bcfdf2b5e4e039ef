"""The book as it is built: links lead somewhere, numbers are traced, and bytes repeat."""

from __future__ import annotations

import doctest
import hashlib
import re
import xml.etree.ElementTree as ET
from html.parser import HTMLParser

import pytest
from book_building import build_book

from reefchem.core.record import records
from reefchem.core.sources import entries
from reefchem.examples import read_examples, read_exercises

HEAVIEST = 300_000
"""Bytes of a page without what all pages share."""


class Page(HTMLParser):
    """Collects the ids and the links of a page."""

    def __init__(self, text):
        super().__init__()
        self.ids, self.links, self.repeated = set(), [], set()
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        named = dict(attrs)
        if "id" in named:
            (self.repeated if named["id"] in self.ids else self.ids).add(named["id"])
        if tag == "a" and "href" in named:
            self.links.append(named["href"])


@pytest.fixture(scope="module")
def pages(built_book):
    files = [p for p in sorted(built_book.rglob("*.html")) if "_static" not in p.parts]
    return {path: Page(path.read_text(encoding="utf-8")) for path in files}


def test_every_link_inside_the_book_leads_somewhere(pages, built_book):
    dangling = []
    for path, page in pages.items():
        for link in page.links:
            if re.match(r"[a-z]+:", link) or link == "#":
                continue
            target, _, fragment = link.partition("#")
            there = (path.parent / target).resolve() if target else path
            known = pages[there].ids if there in pages else None
            if not there.exists() or (fragment and known is not None and fragment not in known):
                dangling.append(f"{path.relative_to(built_book)} -> {link}")
    assert not dangling


def test_no_page_uses_an_id_twice(pages):
    assert {path.name: page.repeated for path, page in pages.items() if page.repeated} == {}


def test_every_relation_has_its_entry_its_anchor_and_its_row(pages, built_book):
    relations = pages[built_book / "relations.html"]
    assert set(records()) <= relations.ids, "what names a relation may link here"
    for name, record in records().items():
        package = record.module.split(".")[1]
        assert f"relations/{package}.html#{name}" in relations.links
        assert name in pages[built_book / "relations" / f"{package}.html"].ids
    traced = (built_book / "traceability.html").read_text(encoding="utf-8")
    assert all(f"<code>{name}</code>" in traced for name in records())


def test_every_relation_is_checked_by_a_number_of_somebody_else(built_book):
    traced = (built_book / "traceability.html").read_text(encoding="utf-8")
    assert "not checked by a printed number" not in traced


def test_every_example_and_exercise_is_shown_in_a_chapter(pages, root):
    shown = set().union(*(page.ids for page in pages.values()))
    examples = {f"example-{name}" for name in read_examples(root / "book" / "examples")}
    exercises = {f"exercise-{name}" for name in read_exercises(root / "book" / "exercises")}
    assert examples - shown == set()
    assert exercises - shown == set()


def test_every_chapter_is_in_the_table_of_contents(pages, root, built_book):
    index = pages[built_book / "index.html"].links
    for chapter in (root / "book" / "parts").glob("*.md"):
        assert f"parts/{chapter.stem}.html" in index, chapter.name


def test_every_source_is_listed(pages, built_book):
    listed = pages[built_book / "sources.html"].ids
    assert {f"cite-{key}" for key in entries()} <= listed


def test_pages_are_light(pages, built_book):
    sizes = {path.name: path.stat().st_size for path in pages}
    assert {name: size for name, size in sizes.items() if size > HEAVIEST} == {}


def test_formulas_are_well_formed_mathml(built_book):
    count = 0
    for path in (built_book / "parts").glob("*.html"):
        for formula in re.findall(r"<math.*?</math>", path.read_text("utf-8"), re.DOTALL):
            ET.fromstring(formula)  # noqa: S314 - our own text
            count += 1
    assert count > 500


def test_nothing_in_a_page_comes_from_elsewhere(built_book):
    for path in built_book.rglob("*.html"):
        text = path.read_text(encoding="utf-8")
        assert not re.findall(r'<(?:script|img|link)[^>]*(?:src|href)="https?:', text), path.name


def test_two_builds_give_the_same_bytes(built_book, root, tmp_path):
    again = build_book(root / "book", tmp_path / "again", tmp_path / "doctrees", "-j", "2")
    first, second = fingerprints(built_book), fingerprints(again)
    assert first.keys() == second.keys()
    assert [name for name in first if first[name] != second[name]] == []


def fingerprints(folder):
    return {
        path.relative_to(folder).as_posix(): hashlib.sha256(path.read_bytes()).hexdigest()
        for path in folder.rglob("*")
        if path.is_file() and path.name != ".buildinfo"
    }


BLOCK = re.compile(r"^```python\n(>>>.*?)^```$", re.MULTILINE | re.DOTALL)


def prose(root):
    return [p for p in sorted((root / "book").rglob("*.md")) if BLOCK.search(p.read_text("utf-8"))]


def test_the_code_in_the_prose_runs(root):
    files = prose(root)
    assert len(files) >= 2
    for path in files:
        blocks = BLOCK.findall(path.read_text(encoding="utf-8"))
        test = doctest.DocTestParser().get_doctest("\n".join(blocks), {}, path.name, str(path), 0)
        said = []
        doctest.DocTestRunner(optionflags=doctest.IGNORE_EXCEPTION_DETAIL).run(
            test, out=said.append
        )
        assert not said, "".join(said)
