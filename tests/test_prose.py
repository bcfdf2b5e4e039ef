"""The prose of the book: terms are explained, chapters are whole, and the language is one."""

from __future__ import annotations

import math
import re
import tomllib
from decimal import Decimal
from functools import cache
from importlib import import_module
from pathlib import Path

import pytest
from bare_numbers import NUMBER, bare_numbers
from chapters import BOOK, Chapter, pages

from reefchem.carbonate import carbonate_system, spread
from reefchem.core.atoms import molar_mass
from reefchem.core.record import records
from reefchem.seawater import composition

# ---- the glossary


EVERYDAY = {
    "amount": "also said of anything",
    "equivalent": "also an adjective",
    "ion": "school chemistry, and in nearly every paragraph of some chapters",
    "relation": "the book's own word, explained in its introduction",
    "standard": "also standard seawater, a standard of 1980, a standard error",
    "tested": "also of a keeper's tests",
}
"""Words of the glossary that are not looked for in the chapters, and why."""

NOT_YET = {
    "a_tank_of_our_own",
    "checking_a_calculation",
    "holding_a_young_tank",
    "how_sure",
    "nitrogen_and_phosphorus",
    "uptake",
    "using_the_package",
    "water_changes",
}
"""Pages that are being rewritten and get their links last."""

NO_CHAPTER = {"index", "glossary", "relations", "traceability", "symbols", "sources"}
"""Pages that are doors or lists, where a link at each first word would be in the way."""


@cache
def glossary() -> dict[str, tuple[list[str], set[str]]]:
    """Return all names of each entry and the chapters that explain it, by its first name."""
    text = (BOOK / "glossary.md").read_text(encoding="utf-8")
    block = re.search(r"^```\{glossary\}\n(.*?)^```$", text, re.MULTILINE | re.DOTALL)[1]
    found = {}
    for entry in re.findall(r"(?:^\w.*\n)+(?:^  .*\n)+", block, re.MULTILINE):
        names = re.findall(r"^\w.*$", entry, re.MULTILINE)
        found[names[0]] = names, set(re.findall(r"\]\(parts/(\w+)\.md\)", entry))
    return found


def sought() -> dict[str, re.Pattern[str]]:
    """Return what to look for in a chapter, by the first name of the entry."""
    patterns = {}
    for names, _ in glossary().values():
        words = sorted((n for n in names if n not in EVERYDAY), key=len, reverse=True)
        if words:
            spaced = "|".join(re.escape(word).replace(r"\ ", r"\s+") for word in words)
            flags = 0 if names[0].isupper() else re.IGNORECASE
            patterns[names[0]] = re.compile(rf"(?<![\w-])(?:{spaced})(?:s|es)?(?![\w-])", flags)
    return patterns


def first_uses(page: Chapter):
    """Yield each entry that a page uses: its first bare word, and its first link or definition."""
    end = page.text.find("\n## Sources")
    prose = page.prose[:end] if end > 0 else page.prose
    words = sorted((n for names, _ in glossary().values() for n in names), key=len, reverse=True)
    longer = re.compile("|".join(word.replace(" ", r"\s+") for word in words), re.IGNORECASE)
    for entry, pattern in sought().items():
        bare = next(
            (m for m in pattern.finditer(prose) if not inside_longer(page, m, longer)), None
        )
        named, explained_in = glossary()[entry]
        names = {name.lower() for name in named}
        linked = [
            role.start
            for role in page.roles
            if role.name == "term" and role.target.lower() in names
        ]
        defined = [
            m.start()
            for m in re.finditer(r"(\*{1,2})([^*]+)\1", page.prose)
            if page.name in explained_in and pattern.fullmatch(" ".join(m[2].split()).strip(" .,:"))
        ]
        if bare or linked:
            yield entry, bare, min(linked + defined, default=len(page.text))


def inside_longer(page, match, longer):
    """Tell whether a word is part of a longer term, such as salinity in practical salinity."""
    around = longer.finditer(page.prose, max(0, match.start() - 40), match.end() + 40)
    return any(
        m.start() <= match.start() and match.end() <= m.end() and len(m[0]) > len(match[0])
        for m in around
    )


@pytest.mark.parametrize(
    "page", [p for p in pages() if p.name not in NO_CHAPTER | NOT_YET], ids=lambda p: p.name
)
def test_a_term_of_the_glossary_is_linked_where_a_chapter_first_uses_it(page):
    late = [
        f"{page.path.name}:{page.line(bare.start())}: {bare[0]!r} ({entry}) comes before its link"
        for entry, bare, explained in first_uses(page)
        if bare and bare.start() < explained
    ]
    assert not late, "\n".join(late)


def test_the_glossary_leads_to_chapters_that_use_the_term():
    used = {
        page.name: {entry for entry, _, _ in first_uses(page)}
        for page in pages()
        if page.name not in NO_CHAPTER
    }
    lost = [
        f"{entry} -> {name}"
        for entry, (_, explained_in) in glossary().items()
        for name in explained_in or {"no chapter"}
        if entry in sought() and entry not in used.get(name, ())
    ]
    assert not lost


def test_no_term_stands_in_the_glossary_twice():
    names = [name.lower() for names, _ in glossary().values() for name in names]
    assert len(names) > 100
    assert sorted(names) == sorted(set(names))


# ---- numbers


VOUCHED = tomllib.loads((Path(__file__).parent / "bare_numbers.toml").read_text(encoding="utf-8"))
LISTS = {"relations", "traceability", "symbols", "sources", "writing_a_chapter"}


@cache
def names() -> dict[str, object]:
    """Return what an expression may use: every relation, and a few functions."""
    relations = {
        name: getattr(import_module(record.module), name) for name, record in records().items()
    }
    several = {f.__name__: f for f in (carbonate_system, composition, molar_mass, spread)}
    return relations | several | {"exp": math.exp, "sqrt": math.sqrt}


@pytest.mark.parametrize("page", [p for p in pages() if p.name not in LISTS], ids=lambda p: p.name)
def test_every_number_in_the_prose_is_computed_or_vouched_for(page):
    vouched = VOUCHED.get(page.name, {})
    bare = bare_numbers(page)
    unknown = [f"{page.path.name}:{n.line}: {n.text}" for n in bare if n.text not in vouched]
    assert not unknown, "\n".join(unknown)
    stale = set(vouched) - {number.text for number in bare}
    assert not stale, f"no longer in {page.path.name}: {stale}"


COMPUTED = [
    (page, text, entry)
    for page, entries in VOUCHED.items()
    for text, entry in entries.items()
    if "is" in entry
]


@pytest.mark.parametrize(("page", "text", "entry"), COMPUTED, ids=lambda p: str(p)[:20])
def test_a_number_that_can_be_computed_is_the_one_that_is_printed(page, text, entry):
    printed = NUMBER.match(text)[1]
    half = Decimal(1).scaleb(Decimal(printed).as_tuple().exponent) / 2
    computed = eval(entry["is"], {}, names())  # noqa: S307 - our own list of expressions
    assert abs(computed - float(printed)) <= entry.get("within", float(half) * (1 + 1e-9))


def test_every_entry_says_either_what_computes_it_or_who_vouches():
    for page, entries in VOUCHED.items():
        assert page in {p.name for p in pages()}
        assert all(("is" in entry) != ("why" in entry) for entry in entries.values()), page
