"""Where the little book on exposure lies."""

from pathlib import Path

SECOND = Path(__file__).parent / "textbook" / "second_book"
