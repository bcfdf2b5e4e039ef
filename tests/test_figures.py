"""What the words beside a figure say is what the figure shows."""

from __future__ import annotations

import re
import sys
import tomllib
from decimal import Decimal
from functools import cache
from importlib import import_module

import matplotlib as mpl
import matplotlib.pyplot as plt
import numpy as np
import pytest
from bare_numbers import NUMBER
from chapters import BOOK, ROLE, chapters
from conftest import ROOT
from test_prose import UNREAD, names

mpl.use("Agg")
sys.path.insert(0, str(BOOK))  # the figures of the book

VOUCHED = tomllib.loads((ROOT / "tests" / "figure_numbers.toml").read_text(encoding="utf-8"))
FIGURE = re.compile(r"^```\{figure-from\} (\S+):(\w+)\n(.*?)^```", re.MULTILINE | re.DOTALL)
FEW = 15
"""So many points of a line, or fewer, are points that a reader can tell apart."""

FIGURES = {
    match[2]: (match[1], match[3])
    for chapter in chapters()
    if chapter.name not in UNREAD
    for match in FIGURE.finditer(chapter.text)
}


@cache
def drawn(name: str) -> frozenset[float]:
    """Return the numbers that a figure shows: ends, extremes, bars, ticks and labels."""
    module, _ = FIGURES[name]
    figure = getattr(import_module(module), name)()
    found = set()
    for axes in figure.axes:
        found.update(axes.get_xlim(), axes.get_ylim())
        for line in axes.lines:
            for data in line.get_data():
                found.update(telling(np.asarray(data, float)))
        for bar in axes.patches:
            if hasattr(bar, "get_height"):
                left, low, width, height = bar.get_bbox().bounds
                found.update((left, low, width, height, left + width, low + height))
        for collection in axes.collections:
            for path in collection.get_paths():
                found.update(*(telling(data) for data in path.vertices.T))
        labels = [*axes.get_xticklabels(), *axes.get_yticklabels(), *axes.findobj(mpl.text.Text)]
        found.update(float(n) for t in labels for n in re.findall(r"\d+(?:\.\d+)?", t.get_text()))
    plt.close(figure)
    return frozenset(abs(number) for number in found if np.isfinite(number))


def telling(data: np.ndarray) -> list[float]:
    """Return the ends and extremes of some data; all of it, when it is short."""
    data = data[np.isfinite(data)]
    if not data.size:
        return []
    return list(data) if data.size <= FEW else [data[0], data[-1], data.min(), data.max()]


def told(name: str) -> list[str]:
    """Return the numbers with three digits or a unit in the words beside a figure."""
    _, words = FIGURES[name]
    found = NUMBER.finditer(ROLE.sub("", words))
    return [
        " ".join(n[0].split())
        for n in found
        if n[2] or len(re.sub(r"\D", "", n[1]).lstrip("0")) >= 3
    ]


def size(text: str) -> tuple[float, float]:
    """Return a number without its sign, and half a unit of its last digit."""
    number = Decimal(re.sub(r"[ ,]", "", NUMBER.match(text)[1]))
    return float(number), float(Decimal(1).scaleb(number.as_tuple().exponent)) / 2 * (1 + 1e-9)


@pytest.mark.parametrize("name", FIGURES)
def test_the_words_beside_a_figure_tell_what_it_shows(name):
    vouched = VOUCHED.get(name, {})
    shown = drawn(name)
    unseen = [
        text
        for text in told(name)
        if not any(abs(size(text)[0] - number) <= size(text)[1] for number in shown)
    ]
    assert set(unseen) == set(vouched)


COMPUTED = [
    (name, text, entry)
    for name, entries in VOUCHED.items()
    for text, entry in entries.items()
    if "is" in entry
]


@pytest.mark.parametrize(("name", "text", "entry"), COMPUTED, ids=lambda p: str(p)[:20])
def test_what_a_figure_shows_between_its_points_is_computed(name, text, entry):
    assert name in FIGURES
    number, half = size(text)
    computed = abs(eval(entry["is"], {}, names()))  # noqa: S307 - our own list of expressions
    assert abs(computed - number) <= entry.get("within", half)


def test_every_figure_has_words():
    assert len(FIGURES) > 25
    assert set(VOUCHED) <= set(FIGURES)
