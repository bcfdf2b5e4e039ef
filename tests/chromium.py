"""Chromium with the network off, for tests of the built pages."""

from __future__ import annotations

import os
import shutil
from contextlib import contextmanager

from absent import absent

ARGUMENTS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]


def chromium_path():
    """Return the path of Chromium; see `absent` where there is none."""
    return (
        os.environ.get("CHROMIUM")
        or shutil.which("chromium")
        or shutil.which("chromium-browser")
        or absent("there is no Chromium; install it, or set CHROMIUM to its path")
    )


@contextmanager
def started():
    """Give a browser; without one the test is skipped, except where CI promises one."""
    path = chromium_path()
    from playwright.sync_api import sync_playwright  # noqa: PLC0415 - only with a browser

    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=path, args=ARGUMENTS)
        yield browser
        browser.close()


@contextmanager
def opened(browser, page_file, *, fragment="", **options):
    """Give an open page; fail afterwards if it complained, or asked for anything but files."""
    context = browser.new_context(offline=True, **options)
    page = context.new_page()
    wrong = []
    page.on("console", lambda m: m.type in {"error", "warning"} and wrong.append(m.text))
    page.on("pageerror", lambda error: wrong.append(str(error)))
    page.on("request", lambda r: r.url.startswith(("file:", "data:")) or wrong.append(r.url))
    page.goto(page_file.as_uri() + fragment)
    yield page
    context.close()
    assert not wrong, wrong
