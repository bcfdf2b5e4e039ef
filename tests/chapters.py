"""Reading the chapters of the book as text, for the tests of the prose.

What is not prose is blanked, character by character, so that every position and line number of what
is left is that of the file.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

BOOK = Path(__file__).resolve().parent.parent / "book"

PROSE_FENCES = {"note", "warning", "figure-from", "container", "glossary", "list-table", "dropdown"}
"""Directives whose content is prose. What stands in any other fence is code or data."""

FENCE = re.compile(r"^(`{3,}|:{3,})(?:\{([\w-]+)\})?(.*)$")
OPTION = re.compile(r"^:[\w-]+:.*$", re.MULTILINE)
ROLE = re.compile(r"\{([\w:-]+)\}(`+)(.+?)\2(?!`)", re.DOTALL)
CODE = re.compile(r"(`+)(?!`)(.+?)(?<!`)\1(?!`)", re.DOTALL)
MATH = re.compile(r"\$\$.+?\$\$|\$[^$\n]+?\$", re.DOTALL)
LINK = re.compile(r"\[[^\]]*\]\([^)]*\)", re.DOTALL)
HEADING = re.compile(r"^#+ .*$", re.MULTILINE)


@dataclass(frozen=True)
class Role:
    """A role as it stands in a chapter, such as ``{value}`…` ``."""

    name: str
    content: str
    start: int

    @property
    def shown(self) -> str:
        """The words that a reader sees of a link."""
        named = re.fullmatch(r"(.*?)\s*<[^>]*>", self.content, re.DOTALL)
        return " ".join((named[1] if named else self.content).split())

    @property
    def target(self) -> str:
        """What a link leads to."""
        named = re.search(r"<([^>]*)>$", self.content)
        return " ".join((named[1] if named else self.content).split())


@dataclass(frozen=True)
class Chapter:
    """A page of the book."""

    path: Path

    @property
    def name(self) -> str:
        """The name of the file, without what it ends in."""
        return self.path.stem

    @cached_property
    def text(self) -> str:
        """The file."""
        return self.path.read_text(encoding="utf-8")

    @cached_property
    def directives(self) -> list[tuple[str, str]]:
        """Name and argument of every directive, in order."""
        found = [FENCE.match(line) for line in self.text.splitlines()]
        return [(match[2], match[3].strip()) for match in found if match and match[2]]

    @cached_property
    def unfenced(self) -> str:
        """The text without code, data and the options of directives."""
        lines, open_fences = [], []
        for line in self.text.splitlines(keepends=True):
            match = FENCE.match(line.rstrip("\n"))
            closes = open_fences and match and match[1] == open_fences[-1][0] and not match[2]
            if closes and not match[3].strip():
                open_fences.pop()
                lines.append(blanked(line))
            elif match and (match[2] or match[3].strip() or match[1][0] == "`"):
                open_fences.append((match[1], match[2] in PROSE_FENCES))
                lines.append(blanked(line))
            else:
                hidden = any(not shown for _, shown in open_fences)
                lines.append(blanked(line) if hidden else line)
        assert not open_fences, f"{self.path.name}: a fence is left open: {open_fences}"
        return OPTION.sub(lambda match: blanked(match[0]), "".join(lines))

    @cached_property
    def roles(self) -> list[Role]:
        """The roles in the prose."""
        return [Role(m[1], m[3], m.start()) for m in ROLE.finditer(self.unfenced)]

    @cached_property
    def written(self) -> str:
        """Prose with its headings: no roles, code, formulas or links."""
        text = self.unfenced
        for pattern in (ROLE, CODE, MATH, LINK):
            text = pattern.sub(lambda match: blanked(match[0]), text)
        return text

    @cached_property
    def prose(self) -> str:
        """What is written, without the headings."""
        return HEADING.sub(lambda match: blanked(match[0]), self.written)

    def line(self, position: int) -> int:
        """Return the line in which a character stands."""
        return self.text.count("\n", 0, position) + 1

    def section(self, heading: str) -> str:
        """Return the text below a heading of the second level, or nothing."""
        parts = re.split(r"^## (.+)$", self.text, flags=re.MULTILINE)
        return dict(zip(parts[1::2], parts[2::2], strict=True)).get(heading, "")


def blanked(text: str) -> str:
    """Return spaces in place of everything but the ends of lines."""
    return re.sub(r"[^\n]", " ", text)


def table_of_contents() -> list[str]:
    """Return the pages in the order in which a reader meets them."""
    index = (BOOK / "index.md").read_text(encoding="utf-8")
    trees = re.findall(r"^```\{toctree\}\n(.*?)^```$", index, re.MULTILINE | re.DOTALL)
    lines = "\n".join(trees).splitlines()
    return [line.strip() for line in lines if line.strip() and not line.startswith(":")]


def pages() -> list[Chapter]:
    """Return every page, the front page first."""
    return [Chapter(BOOK / "index.md")] + [
        Chapter(BOOK / f"{name}.md") for name in table_of_contents()
    ]


def chapters() -> list[Chapter]:
    """Return the chapters that teach: those with a section of exercises or of limits."""
    return [page for page in pages() if page.section("Limits")]
