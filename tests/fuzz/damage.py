"""Texts that nobody means to write, and good files with something wrong in them."""

from __future__ import annotations

import re
from pathlib import Path

from hypothesis import strategies as st

_DEMO = Path(__file__).parents[2] / "demo"
TANK = (_DEMO / "tank.toml").read_bytes()
LOG = (_DEMO / "log.csv").read_bytes()
"""The two files of the invented tank, whole."""

ABSURD = [
    b"0", b"-1", b"1e308", b"1e999", b"1e-999", b"nan", b"inf", b"9" * 5000, b"0x" + b"f" * 5000,
    b"1,250", b"1,25", b"1.2.3", b"1_000", "٣".encode(), "½".encode(), "−5".encode(),
    b"0000-00-00", b"9999-12-31 23:59", b"0001-01-01 00:00+14:00", b"2026-02-30", b"24:00",
    b"'", b'"', b'"""', b";", b",", b"\t", b"#", b"\n", b"\r", b"\x00", b"\x1b[2J", b"\xff",
    b"\xe9", b"\xef\xbb\xbf", "\u2028".encode(), "\u202e".encode(), b"[" * 3000, b"{a=" * 300,
    b"a." * 3000, b"x" * 5000, b"%s%n", b"=cmd|'/c calc'!A0", b"../../../etc/passwd",
    b"/dev/null", b"true",
]  # fmt: skip
"""What a slip of the hand, a program or ill will puts into a file."""

_PIECE = re.compile(rb"[^\s,;=\"\[\]]+|[,;=\"\[\]\n]")


@st.composite
def damaged(draw, raw):
    """Return a good file with one to four pieces replaced, cut, doubled or swapped."""
    for _ in range(draw(st.integers(1, 4))):
        spans = [match.span() for match in _PIECE.finditer(raw)] or [(0, 0)]
        first, last = spans[draw(st.integers(0, len(spans) - 1))]
        how = draw(st.sampled_from(["replace", "insert", "remove", "cut", "double", "noise"]))
        put = draw(st.sampled_from(ABSURD))
        if how == "replace":
            raw = raw[:first] + put + raw[last:]
        elif how == "insert":
            raw = raw[:first] + put + raw[first:]
        elif how == "remove":
            raw = raw[:first] + raw[last:]
        elif how == "cut":
            raw = raw[:first]
        elif how == "double":
            raw = raw[:last] + raw[first:]
        else:
            raw = raw[:first] + draw(st.binary(max_size=12)) + raw[last:]
    return raw


def pieces_of(alphabet, most=40):
    """Return texts that are put together from the pieces of a small language, and any text."""
    return st.one_of(
        st.lists(st.sampled_from(alphabet), max_size=most).map("".join),
        st.text(max_size=most),
        st.sampled_from(alphabet).map(lambda piece: piece * 20_000),
    )


def rows_of(raw):
    """Return the numbers of the lines that are rows, read in another way than the package does."""
    text = raw.decode("utf-16" if raw[:2] in {b"\xff\xfe", b"\xfe\xff"} else "utf-8-sig", "replace")
    lines = re.split(r"\r\n|\r|\n", text)
    told = {n for n, line in enumerate(lines, 1) if not re.match(r'\s*(\Z|#|"#)', line)}
    return told - {min(told, default=0)}
