"""The prose of the book: terms are explained, chapters are whole, and the language is one."""

from __future__ import annotations

import re
import tomllib
from functools import cache
from itertools import pairwise
from pathlib import Path

import pytest
from bare_numbers import (
    NUMBER,
    UNREAD,
    bare_numbers,
    computed,
    half_a_unit,
    size,
    with_expression,
)
from chapters import BOOK, Chapter, chapters, pages

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


NO_CHAPTER = {"index", "glossary", "relations", "traceability", "symbols", "sources", "changes"}
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


@cache
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


@cache
def first_uses(page: Chapter) -> list[tuple[str, re.Match[str] | None, int]]:
    """Return each entry that a page uses: its first bare word, and its first link or definition."""
    found = []
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
            found.append((entry, bare, min(linked + defined, default=len(page.text))))
    return found


def inside_longer(page, match, longer):
    """Tell whether a word is part of a longer term, such as salinity in practical salinity."""
    around = longer.finditer(page.prose, max(0, match.start() - 40), match.end() + 40)
    return any(
        m.start() <= match.start() and match.end() <= m.end() and len(m[0]) > len(match[0])
        for m in around
    )


@pytest.mark.parametrize(
    "page", [p for p in pages() if p.name not in NO_CHAPTER], ids=lambda p: p.name
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


@pytest.mark.parametrize("page", [p for p in pages() if p.name not in UNREAD], ids=lambda p: p.name)
def test_every_number_in_the_prose_is_computed_or_vouched_for(page):
    vouched = VOUCHED.get(page.name, {})
    bare = bare_numbers(page)
    unknown = [f"{page.path.name}:{n.line}: {n.text}" for n in bare if n.text not in vouched]
    assert not unknown, "\n".join(unknown)
    stale = set(vouched) - {number.text for number in bare}
    assert not stale, f"no longer in {page.path.name}: {stale}"


@pytest.mark.parametrize(
    ("page", "text", "entry"), with_expression(VOUCHED), ids=lambda p: str(p)[:20]
)
def test_a_number_that_can_be_computed_is_the_one_that_is_printed(page, text, entry):
    printed = size(NUMBER.match(text))
    assert abs(computed(entry) - float(printed)) <= entry.get("within", half_a_unit(printed))


def test_every_entry_says_either_what_computes_it_or_who_vouches():
    for page, entries in VOUCHED.items():
        assert page in {p.name for p in pages()}
        assert all(("is" in entry) != ("why" in entry) for entry in entries.values()), page


# ---- the shape of a chapter


SECTIONS = ("The idea", "What goes wrong in practice", "Exercises", "Limits", "Sources")

CASE = "a_tank_of_our_own"
"""Works one case through with the relations of other chapters; it has no idea of its own."""

NOTHING_PRINTED = {
    "evaporation_and_salinity": "balances; its examples rest on densities that a source prints",
    "holding_a_young_tank": "balances, derived and worked by hand",
    "how_sure": "the rules of a guide; its numbers are worked by hand",
    "nitrogen_and_phosphorus": "balances; the ratios of its sources are put in, not compared",
    "uptake": "balances; quantiles that tables print are put in, not compared",
    "water_changes": "balances, derived and worked by hand",
}
"""Chapters whose examples no source prints, and why."""

taught = pytest.mark.parametrize(
    "chapter", [c for c in chapters() if c.name != CASE], ids=lambda c: c.name
)


def named(chapter: Chapter, directive: str) -> list[str]:
    return [argument for name, argument in chapter.directives if name == directive]


def data(folder: str, name: str) -> dict:
    return tomllib.loads((BOOK / folder / f"{name}.toml").read_text(encoding="utf-8"))


@taught
def test_a_chapter_begins_with_a_question_and_goes_the_usual_way(chapter):
    opening = chapter.text.partition("\n## ")[0]
    assert "?" in opening
    assert opening.count("\n\n") >= 2, "what is the answer used for?"
    headings = re.findall(r"^## (.+)$", chapter.text, re.MULTILINE)
    assert [heading for heading in headings if heading in SECTIONS] == list(SECTIONS)


@taught
def test_a_chapter_has_a_figure_a_derivation_and_a_live_example(chapter):
    assert named(chapter, "figure-from")
    assert named(chapter, "derivation") or chapter.name == "how_sure"  # its rules are a guide's
    assert ":static:" not in chapter.text
    assert named(chapter, "worked-example")


@taught
def test_a_chapter_holds_itself_against_a_printed_value(chapter):
    examples = [data("examples", name) for name in named(chapter, "worked-example")]
    printed = [example for example in examples if "printed" in example]
    assert bool(printed) != (chapter.name in NOTHING_PRINTED)


@taught
def test_a_chapter_has_three_exercises_of_rising_level(chapter):
    levels = [data("exercises", name)["level"] for name in named(chapter, "exercise")]
    assert len(levels) >= 3
    assert set(levels) == {1, 2, 3}


@taught
def test_a_chapter_tells_with_numbers_what_goes_wrong(chapter):
    told = chapter.section("What goes wrong in practice")
    assert len(re.findall(r"\*\*[^*]+\*\*", told)) >= 3
    assert len(NUMBER.findall(re.sub(r"\{value\}`[^`]+`", "1.000", told))) >= 3


@pytest.mark.parametrize("chapter", chapters(), ids=lambda c: c.name)
def test_the_sources_of_a_chapter_are_cited_or_said_to_be_missing(chapter):
    sources = chapter.section("Sources")
    assert "{cite:" in sources or chapter.name == CASE
    for claim in re.finditer(r"[Cc]ommon practice(?!,\s+no\s+source)", chapter.prose):
        around = chapter.text[claim.start() - 40 : claim.end() + 60]
        assert re.search(r"no\s+source|without a\s+source", around), around


MISREADINGS = {
    "the reference temperature of a specific gravity": ("specific_gravity", "The scale is guessed"),
    "a scale for kitchen salt": ("refraction", "Zero is right, so all is right"),
    "mg/kg for mg/L": ("composition", "mg/kg for mg/L"),
    "µmol/kg for µmol/L": ("alkalinity_units", "mg/kg read as mg/L, µmol/kg as µmol/L"),
    "NBS for total pH": ("alkalinity", "Taking a pen's reading for the total scale"),
    "one hydrate for another": ("two_part", "The wrong water in the salt"),
    "nitrogen for nitrate": ("quantities_and_units", "Nitrogen for nitrate"),
    "a kit for the definition": ("alkalinity_test", "A kit is believed about organic salts"),
    "alkalinity against a low pH": ("alkalinity", "Chasing pH with alkalinity"),
}


@pytest.mark.parametrize("misreading", MISREADINGS)
def test_a_usual_misreading_is_told_with_what_it_costs(misreading):
    name, lead = MISREADINGS[misreading]
    chapter = next(c for c in chapters() if c.name == name)
    told = chapter.section("What goes wrong in practice").partition(f"**{lead}.**")[2]
    first = re.split(r"\n\n|\n- ", told.strip())[0]
    assert re.search(r"\d", first), "no number"


# ---- language and Markdown


AMERICAN = (
    "aluminum anesthetic behavior canceled center centers color colored colors defense"
    " esthetic favor favorite fiber fibers flavor gray harbor honor humor labeled labeling"
    " labor leveled liter liters milliliter milliliters modeled modeling"
    " mold molt neighbor neighbors odor organization oxidize oxidized oxidizer plow"
    " realize realized recognize recognized signaled skeptical sulphate sulphur sulphide sulphuric"
    " tire traveled tumor vapor analyze analyzed neutralize neutralized crystallize crystallized"
    " minimize maximize summarize emphasize stabilize stabilized characterize millimeter centimeter"
    " millimeters centimeters kilometer gasoline faucet"
).split()
"""Forms that are not of this book. Sulfur and its like are spelt as IUPAC spells them."""


def read_by_people() -> list[tuple[str, str]]:
    """Return name and text of all that a reader of the book meets in words."""
    found = [(page.path.name, page.text) for page in pages()]
    found += [(p.name, p.read_text("utf-8")) for p in sorted((BOOK / "changes").glob("*.md"))]
    for folder in ("examples", "exercises"):
        for path in sorted((BOOK / folder).glob("*.toml")):
            told = data(folder, path.stem)
            found.append((path.name, " ".join(str(told.get(key, "")) for key in WORDS)))
    return found


WORDS = ("title", "question", "hint", "exact", "common", "steps")


def test_the_spelling_is_british():
    words = re.compile(rf"(?<![\w_`])(?:{'|'.join(AMERICAN)})(?![\w_`(])", re.IGNORECASE)
    found = [
        f"{name}: {match[0]}"
        for name, text in read_by_people()
        for match in words.finditer(re.sub(r"`[^`]*`|\{[\w:-]+\}`[^`]*`", "", text))
    ]
    assert not found


@pytest.mark.parametrize("page", pages(), ids=lambda p: p.name)
def test_a_minus_is_a_minus(page):
    alts = "\n".join(re.findall(r"^:alt:.*$", page.text, re.MULTILINE))
    hyphens = re.findall(r"(?<![\w`/–-])-\d[\d.]*|\d - \d|\d--\d", page.written + alts)
    assert not hyphens


@pytest.mark.parametrize("page", pages(), ids=lambda p: p.name)
def test_the_markdown_is_clean(page):
    lines = page.text.splitlines()
    assert page.text.endswith("\n")
    assert not page.text.endswith("\n\n")
    assert "\n\n\n" not in page.text
    assert not [n for n, line in enumerate(lines, 1) if line != line.rstrip() or "\t" in line]
    headings = [(n, line) for n, line in enumerate(lines) if re.match(r"#+ ", line)]
    fenced = {
        n for n, line in enumerate(page.unfenced.splitlines()) if not line.strip() and lines[n]
    }
    levels = [len(line.split()[0]) for n, line in headings if n not in fenced]
    assert levels.count(1) == 1
    assert levels[0] == 1
    assert all(after <= before + 1 for before, after in pairwise(levels))
    for n, _ in headings:
        if n and n not in fenced:
            assert not lines[n - 1].strip(), f"line {n + 1}: no empty line above the heading"
            assert not lines[n + 1].strip(), f"line {n + 1}: no empty line below the heading"


@pytest.mark.parametrize("page", pages(), ids=lambda p: p.name)
def test_a_link_between_pages_leads_to_a_page(page):
    for target in re.findall(r"\]\(([^)#:]+\.md)(?:#[^)]*)?\)", page.text):
        assert (page.path.parent / target).is_file(), target


@pytest.mark.parametrize("page", pages(), ids=lambda p: p.name)
def test_a_figure_is_told_in_a_sentence(page):
    alts = re.findall(r"^:alt: (.*)$", page.text, re.MULTILINE)
    assert len(alts) == len(named(page, "figure-from"))
    assert all(len(alt) > 60 and alt.endswith(".") for alt in alts)
