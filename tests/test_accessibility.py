"""No page breaks a rule of axe-core, the usual checker of accessibility, in light or in dark."""

from __future__ import annotations

import os
import shutil
import subprocess
from pathlib import Path

import chromium
import pytest
from absent import absent
from conftest import ROOT

RUN = "axe.run({ resultTypes: ['violations'], preload: false })"
"""Without asking for the style sheets once more, which a page from a file may not."""

AXE = "axe-core@4.14.1"
"""The version that npm is asked for."""


@pytest.fixture(scope="module")
def axe(tmp_path_factory):
    """The script of axe-core: from $AXE, from node_modules, or fetched by npm."""
    for known in (os.environ.get("AXE"), ROOT / "node_modules" / "axe-core" / "axe.min.js"):
        if known and Path(known).exists():
            return Path(known).read_text(encoding="utf-8")
    folder = tmp_path_factory.mktemp("axe")
    npm = shutil.which("npm")
    if npm:
        options = ["--no-audit", "--no-fund", "--silent", "--prefix", str(folder)]
        subprocess.run([npm, "install", AXE, *options], capture_output=True, check=False)
    script = folder / "node_modules" / "axe-core" / "axe.min.js"
    if not script.exists():
        absent(f"npm could not fetch {AXE}; set AXE to the path of its axe.min.js")
    return script.read_text(encoding="utf-8")


def page_names():
    book = ROOT / "book"
    sources = (*book.glob("parts/*.md"), *book.glob("relations/*.md"), *book.glob("*.md"))
    pages = sorted(path.relative_to(book).with_suffix("").as_posix() for path in sources)
    return [*pages, "search", "genindex"]


@pytest.mark.parametrize("name", page_names())
def test_no_page_breaks_a_rule_of_accessibility(browser, built_book, axe, name):
    # Every other page in the dark, and the larger share on a desk: the style is the same on all.
    scheme = "dark" if len(name) % 2 else "light"
    with chromium.opened(browser, built_book / f"{name}.html", color_scheme=scheme) as page:
        page.evaluate("document.querySelectorAll('details').forEach(d => { d.open = true })")
        page.evaluate(axe)
        broken = page.evaluate(RUN)["violations"]
        told = [(v["id"], v["help"], v["nodes"][0]["html"][:200]) for v in broken]
        assert not told


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_the_little_book_breaks_none_either(browser, second_book, axe, scheme):
    for file in sorted(second_book.glob("*.html")):
        with chromium.opened(browser, file, color_scheme=scheme) as page:
            page.evaluate(axe)
            broken = page.evaluate(RUN)["violations"]
            assert not [(v["id"], v["nodes"][0]["html"][:200]) for v in broken], file.name
