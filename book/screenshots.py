"""Make the pictures of the README: a plan, and a page of the book, as a browser shows them.

Run ``python book/screenshots.py`` when the book has been built. It needs Chromium,
on the path or named by CHROMIUM.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

from playwright.sync_api import Page, sync_playwright

ROOT = Path(__file__).resolve().parent.parent
PICTURES = ROOT / "demo" / "pictures"
BOOK = ROOT / "book" / "_build" / "html"
WIDTH, HEIGHT = 1180, 860


def take(page: Page, path: Path, name: str, place: str | None = None) -> None:
    """Open a file, go to a place on it, and take its picture."""
    page.goto(path.as_uri())
    page.wait_for_load_state("networkidle")
    if place is not None:
        page.locator(place).first.evaluate("e => e.scrollIntoView({block: 'start'})")
        page.wait_for_timeout(300)
    page.screenshot(path=PICTURES / name)


def main() -> None:
    """Make the plan of the demonstration tank, and take the pictures."""
    PICTURES.mkdir(parents=True, exist_ok=True)
    subprocess.run([sys.executable, "-m", "demo"], cwd=ROOT, check=True, stdout=subprocess.DEVNULL)
    browser_path = os.environ.get("CHROMIUM") or shutil.which("chromium")
    with sync_playwright() as started:
        browser = started.chromium.launch(executable_path=browser_path)
        page = browser.new_page(viewport={"width": WIDTH, "height": HEIGHT})
        take(page, ROOT / "demo" / "build" / "plan.html", "plan.png")
        take(page, BOOK / "parts" / "specific_gravity.html", "book.png", ".worked-example")
        browser.close()


if __name__ == "__main__":
    main()
