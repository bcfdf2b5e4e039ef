"""What the words beside a figure say is what the figure shows."""

from __future__ import annotations

import re
import sys
import tomllib
from functools import cache
from importlib import import_module

import matplotlib as mpl
import matplotlib.pyplot as plt
import numpy as np
import pytest
from bare_numbers import (
    NUMBER,
    UNREAD,
    computed,
    half_a_unit,
    is_telling,
    size,
    with_expression,
)
from chapters import BOOK, ROLE, chapters
from conftest import ROOT

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
    return [" ".join(number[0].split()) for number in found if is_telling(number)]


def is_among(text: str, shown: frozenset[float]) -> bool:
    """Return whether a number is shown, to half a unit of its last digit."""
    number = size(NUMBER.match(text))
    return any(abs(float(number) - other) <= half_a_unit(number) for other in shown)


@pytest.mark.parametrize("name", FIGURES)
def test_the_words_beside_a_figure_tell_what_it_shows(name):
    vouched = VOUCHED.get(name, {})
    shown = drawn(name)
    unseen = [text for text in told(name) if not is_among(text, shown)]
    assert set(unseen) == set(vouched)


@pytest.mark.parametrize(
    ("name", "text", "entry"), with_expression(VOUCHED), ids=lambda p: str(p)[:20]
)
def test_what_a_figure_shows_between_its_points_is_computed(name, text, entry):
    assert name in FIGURES
    number = size(NUMBER.match(text))
    found = abs(computed(entry))
    assert abs(found - float(number)) <= entry.get("within", half_a_unit(number))


def test_every_figure_has_words():
    assert len(FIGURES) > 25
    assert set(VOUCHED) <= set(FIGURES)
