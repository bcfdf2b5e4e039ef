"""Print the book to one PDF with a headless Chromium; nothing of it comes from a network.

Run ``python book/print_pdf.py [OUT.pdf]`` where the package is installed with its extra for
development. It builds the book as one page, opens it with the network off, and prints it.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

from playwright.sync_api import sync_playwright

BOOK = Path(__file__).resolve().parent
BUILD = BOOK / "_build"
FOOT = (
    '<div style="width: 100%; font: 8px sans-serif; text-align: center;">'
    '<span class="pageNumber"></span></div>'
)


def one_page(target: Path, doctrees: Path) -> Path:
    """Build the whole book as one page and return it."""
    command = [sys.executable, "-m", "sphinx", "-q", "-b", "singlehtml", "-d", str(doctrees)]
    subprocess.run([*command, str(BOOK), str(target)], check=True)
    return target / "index.html"


def print_page(page_file: Path, target: Path) -> None:
    """Print a page as A4, with an outline of its headings and a number on each sheet."""
    browser_path = os.environ.get("CHROMIUM") or shutil.which("chromium")
    with sync_playwright() as started:
        browser = started.chromium.launch(executable_path=browser_path, args=["--no-sandbox"])
        context = browser.new_context(offline=True, java_script_enabled=False)
        page = context.new_page()
        page.goto(page_file.as_uri())
        page.emulate_media(media="print", color_scheme="light")
        page.pdf(
            path=target,
            format="A4",
            margin={"top": "18mm", "bottom": "20mm", "left": "18mm", "right": "18mm"},
            display_header_footer=True,
            header_template="<span></span>",
            footer_template=FOOT,
            outline=True,
            tagged=True,
        )
        browser.close()


def main() -> None:
    """Build, print, and say where it is and how large."""
    target = Path(sys.argv[1] if sys.argv[1:] else BUILD / "reefchem.pdf")
    target.parent.mkdir(parents=True, exist_ok=True)
    page_file = one_page(BUILD / "singlehtml", BUILD / "doctrees-one-page")
    print_page(page_file, target)
    sys.stdout.write(f"{target}: {target.stat().st_size / 1e6:.1f} MB\n")


if __name__ == "__main__":
    main()
