"""Everything a book is made from, read and checked before any page is made."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from sphinx.errors import SphinxError
from sphinx.util import import_object

from reefchem.core.sources import citation, entries
from reefchem.examples.errata import Erratum, errata
from reefchem.examples.exercise import Exercise, read_exercises
from reefchem.examples.model import read_examples
from reefchem.examples.published import PublishedValue, published_values
from reefchem.examples.runner import Outcome, run
from reefchem.textbook.entries import entry_page, pages_of

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from sphinx.application import Sphinx
    from sphinx.config import Config

    from reefchem.core.record import Record
    from reefchem.examples.model import Example

T = TypeVar("T")

__all__ = ["Catalogue", "DisagreementError", "Mention", "load"]


class DisagreementError(SphinxError):
    """A number of the book is not what its source says, or something of it is missing."""

    category = "The book disagrees with its sources"


@dataclass(frozen=True)
class Mention:
    """A page that uses an example, an exercise or a relation, by the name of the directive."""

    page: str
    line: int
    kind: str
    name: str

    def __str__(self) -> str:
        return f"{self.page}:{self.line}"


@dataclass(frozen=True)
class Catalogue:
    """The records, examples, exercises and published values of a book.

    Attributes
    ----------
    records
        Relation by name.
    outcomes
        What each worked example gave, by its id.
    exercises
        Exercise by its id.
    published
        Every printed value.
    misprints
        What a source prints in error.
    mentions
        Where directives and roles of the pages name something.
    titles
        First heading of each page.
    """

    records: Mapping[str, Record]
    outcomes: Mapping[str, Outcome]
    exercises: Mapping[str, Exercise]
    published: list[PublishedValue]
    misprints: list[Erratum]
    mentions: list[Mention]
    titles: Mapping[str, str]
    examples_folder: Path
    exercises_folder: Path
    published_folder: Path
    bibliographies: tuple[Path, ...]

    def citation(self, key: str) -> str:
        """Return author and year of an entry of the book's bibliography.

        Raises
        ------
        KeyError
            When no bibliography has such a key.
        """
        for bibliography in self.bibliographies:
            if key in entries(bibliography):
                return citation(key, bibliography)
        msg = f"the bibliography has no entry {key!r}"
        raise KeyError(msg)

    def pages(self, kind: str, name: str) -> list[str]:
        """Return the pages on which a directive names something, in order."""
        found = [
            m.page.rpartition(".")[0] for m in self.mentions if (m.kind, m.name) == (kind, name)
        ]
        return list(dict.fromkeys(found))

    def examples_of(self, relation: str) -> list[Outcome]:
        """Return the worked examples that use a relation."""
        return [made for made in self.outcomes.values() if relation in made.example.relations]

    def exercises_of(self, relation: str) -> list[Exercise]:
        """Return the exercises that use a relation."""
        return [
            exercise
            for exercise in self.exercises.values()
            if any(step.relation == relation for step in exercise.steps)
        ]

    def checks_of(self, relation: str) -> list[PublishedValue]:
        """Return the published values of a relation."""
        return [value for value in self.published if value.relation == relation]

    @cached_property
    def live_records(self) -> dict[str, Record]:
        """The relations whose code the pages need."""
        names = {step.record.name for made in self.outcomes.values() for step in made.steps}
        for exercise in self.exercises.values():
            names |= {step.relation for step in exercise.steps}
        return {name: self.records[name] for name in sorted(names)}


_DIRECTIVE = re.compile(
    r"^[`:]{3,}\{(worked-example|exercise|relation|derivation)\}[ \t]+([\w.-]+)", re.MULTILINE
)
_HEADING = re.compile(r"^# +(.+)$", re.MULTILINE)
_ROLE = re.compile(r"\{(rel|value)\}`([a-z]\w*)")


def load(app: Sphinx) -> Catalogue:
    """Read and check everything; stop the build with all disagreements at once.

    Raises
    ------
    DisagreementError
        Listing every example, exercise and published value that disagrees or cannot be run, with
        the pages and lines that show it, and every source that the bibliography lacks.
    """
    config, source = app.config, Path(app.srcdir)
    pages = pages_of(source, config)
    records = import_object(config.textbook_records.replace(":", "."), "textbook_records")()
    faults: list[tuple[str, str, str]] = []
    examples = _read(read_examples, source / config.textbook_examples, faults) or {}
    exercises = _read(read_exercises, source / config.textbook_exercises, faults) or {}
    values = _read(published_values, source / config.textbook_published, faults) or []
    misprints = _read(errata, source / config.textbook_published, faults) or []
    catalogue = Catalogue(
        records,
        {name: made for name, example in examples.items() if (made := _ran(example, faults))},
        exercises,
        values,
        misprints,
        _mentions(pages),
        _titles(pages),
        source / config.textbook_examples,
        source / config.textbook_exercises,
        source / config.textbook_published,
        tuple(source / name for name in config.bibtex_bibfiles),
    )
    for exercise in exercises.values():
        try:
            exercise.asked()
            exercise.answer()
        except _WRONG as error:
            faults.append(("exercise", exercise.id, f"exercise {exercise.id}: {_said(error)}"))
    faults += [("relation", v.relation, _missed(v)) for v in values if not v.agrees()]
    faults += [("relation", e.relation, said) for e in misprints for said in e.faults()]
    faults += _without_source(catalogue)
    faults += _unlisted(catalogue, config)
    if config.textbook_require_checks:
        faults += _unchecked(catalogue)
    if faults:
        listed = "\n".join(
            f"  {_places(catalogue, kind, name)}{said}" for kind, name, said in faults
        )
        msg = f"{len(faults)} of the book's checks failed:\n{listed}"
        raise DisagreementError(msg)
    return catalogue


_WRONG = (ValueError, KeyError, TypeError)


def _read(
    reader: Callable[[Path], T], folder: Path, faults: list[tuple[str, str, str]]
) -> T | None:
    try:
        return reader(folder)
    except _WRONG as error:
        faults.append(("", "", _said(error)))
        return None


def _missed(value: PublishedValue) -> str:
    return f"{value}: computed {value.computed():.10g}, ± {value.tolerance:g} allowed"


def _ran(example: Example, faults: list[tuple[str, str, str]]) -> Outcome | None:
    try:
        outcome = run(example)
    except _WRONG as error:
        faults.append(("worked-example", example.id, f"{example.id}: {_said(error)}"))
        return None
    if not outcome.agrees:
        faults.append(("worked-example", example.id, str(outcome)))
    return outcome


def _said(error: Exception) -> str:
    return str(error.args[0]) if isinstance(error, KeyError) and error.args else str(error)


def _places(catalogue: Catalogue, kind: str, name: str) -> str:
    """Return the pages and lines that show something, ready to stand before a message."""
    found = [str(m) for m in catalogue.mentions if (m.kind, m.name) == (kind, name)]
    return ", ".join(found) + ": " if found else ""


def _without_source(catalogue: Catalogue) -> list[tuple[str, str, str]]:
    """Return a fault for each source that a relation, an example or a value names in vain."""
    named = [("relation", r.name, r.source) for r in catalogue.records.values()]
    named += [
        ("worked-example", made.example.id, made.expected.source)
        for made in catalogue.outcomes.values()
        if made.expected.source
    ]
    named += [("relation", value.relation, value.source) for value in catalogue.published]
    named += [("relation", erratum.relation, erratum.source) for erratum in catalogue.misprints]
    known = {key for bibliography in catalogue.bibliographies for key in entries(bibliography)}
    return [
        (kind, name, f"{name}: the bibliography has no entry {source!r}")
        for kind, name, source in dict.fromkeys(named)
        if source not in known
    ]


def _unchecked(catalogue: Catalogue) -> list[tuple[str, str, str]]:
    """Return a fault for each relation that nothing outside the package checks."""
    return [
        ("relation", name, f"{name}: no published value and no worked example checks it")
        for name in catalogue.records
        if not catalogue.checks_of(name) and not catalogue.examples_of(name)
    ]


def _unlisted(catalogue: Catalogue, config: Config) -> list[tuple[str, str, str]]:
    """Return a fault for each relation that no page lists, so that links to it lead nowhere."""
    return [
        ("relation", name, f"{name}: no page lists it; {{all-relations}} {record.module} would")
        for name, record in catalogue.records.items()
        if entry_page(config, record) is None
    ]


def _titles(pages: list[tuple[str, Path]]) -> dict[str, str]:
    """Return the first heading of each page."""
    found = {page: _HEADING.search(path.read_text(encoding="utf-8")) for page, path in pages}
    return {page: match[1].strip() if match else page for page, match in found.items()}


def _mentions(pages: list[tuple[str, Path]]) -> list[Mention]:
    found = []
    for page, path in pages:
        text = path.read_text(encoding="utf-8")
        for match in (*_DIRECTIVE.finditer(text), *_ROLE.finditer(text)):
            line = text.count("\n", 0, match.start()) + 1
            found.append(Mention(page + path.suffix, line, match[1], match[2]))
    return found
