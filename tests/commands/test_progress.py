"""A bar appears on a terminal, after a second, and nowhere else."""

from __future__ import annotations

import io
import sys
from types import SimpleNamespace

import pytest

from reefchem.commands import progress


class Terminal(io.StringIO):
    def isatty(self):
        return True


@pytest.fixture
def clock(monkeypatch):
    now = [0.0]
    monkeypatch.setattr(progress, "time", SimpleNamespace(monotonic=lambda: now[0]))
    return now


def shown(monkeypatch, stream, clock, seconds):
    monkeypatch.setattr(sys, "stderr", stream)
    with progress.progress_bar("reading") as tell:
        for step in range(1, 5):
            clock[0] = seconds * step / 4
            tell(step / 4)
    return stream.getvalue()


def test_what_takes_long_shows_a_bar_on_a_terminal(monkeypatch, clock):
    assert "100%" in shown(monkeypatch, Terminal(), clock, 8.0)


def test_what_is_soon_done_shows_none(monkeypatch, clock):
    assert shown(monkeypatch, Terminal(), clock, 0.9) == ""


def test_where_there_is_no_terminal_nothing_is_written(monkeypatch, clock):
    assert shown(monkeypatch, io.StringIO(), clock, 8.0) == ""
