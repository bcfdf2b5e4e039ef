"""Everything a book is made from, read and checked before any page is made."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Any

from sphinx.errors import ExtensionError
from sphinx.util import import_object

from reefchem.examples.exercise import Exercise, read_exercises
from reefchem.examples.model import read_examples
from reefchem.examples.published import PublishedValue, published_values
from reefchem.examples.runner import Outcome, run

if TYPE_CHECKING:
    from collections.abc import Mapping

    from sphinx.application import Sphinx
    from sphinx.config import Config

    from reefchem.core.record import Record

__all__ = ["Catalogue", "Mention", "load"]


@dataclass(frozen=True)
class Mention:
    """A page that uses an example, an exercise or a relation, by the name of the directive."""

    page: str
    kind: str
    name: str


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
    mentions
        Where directives and roles of the pages name something.
    """

    records: Mapping[str, Record]
    outcomes: Mapping[str, Outcome]
    exercises: Mapping[str, Exercise]
    published: list[PublishedValue]
    mentions: list[Mention]
    examples_folder: Path
    exercises_folder: Path

    def pages(self, kind: str, name: str) -> list[str]:
        """Return the pages on which a directive names something, in order."""
        found = [m.page for m in self.mentions if m.kind == kind and m.name == name]
        return list(dict.fromkeys(found))

    def examples_of(self, relation: str) -> list[Outcome]:
        """Return the worked examples that use a relation."""
        return [made for made in self.outcomes.values() if relation in made.example.relations]

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
_ROLE = re.compile(r"\{(rel|value)\}`([a-z]\w*)")


def load(app: Sphinx) -> Catalogue:
    """Read and check everything; stop the build with all disagreements at once.

    Raises
    ------
    ExtensionError
        Listing every example and published value that disagrees or cannot be run.
    """
    config, source = app.config, Path(app.srcdir)
    records = import_object(config.textbook_records.replace(":", "."), "textbook_records")()
    examples_folder = source / config.textbook_examples
    exercises_folder = source / config.textbook_exercises
    faults: list[str] = []
    outcomes: dict[str, Outcome] = {}
    exercises: dict[str, Exercise] = {}
    values: list[PublishedValue] = []
    try:
        for name, example in read_examples(examples_folder).items():
            outcomes[name] = _ran(example, faults)
        exercises = read_exercises(exercises_folder)
        values = published_values(source / config.textbook_published)
    except (ValueError, KeyError, TypeError) as error:
        faults.append(str(error))
    faults += [str(made) for made in outcomes.values() if made and not made.agrees]
    for exercise in exercises.values():
        try:
            exercise.asked()
            exercise.answer()
        except (ValueError, KeyError, TypeError) as error:
            faults.append(f"exercise {exercise.id}: {error}")
    for value in values:
        if not value.agrees():
            faults.append(
                f"{value}: computed {value.computed():.10g}, ± {value.tolerance:g} allowed"
            )
    catalogue = Catalogue(
        records,
        {name: made for name, made in outcomes.items() if made},
        exercises,
        values,
        _mentions(source, app.config),
        examples_folder,
        exercises_folder,
    )
    if config.textbook_require_checks:
        faults += _unchecked(catalogue)
    if faults:
        listed = "\n".join(f"  {fault}" for fault in faults)
        msg = f"{len(faults)} of the book's checks failed:\n{listed}"
        raise ExtensionError(msg)
    return catalogue


def _ran(example: Any, faults: list[str]) -> Any:
    try:
        return run(example)
    except (ValueError, KeyError, TypeError) as error:
        faults.append(f"{example.id}: {error}")
        return None


def _unchecked(catalogue: Catalogue) -> list[str]:
    """Return a fault for each relation that nothing outside the package checks."""
    return [
        f"{name}: no published value and no worked example checks it"
        for name in catalogue.records
        if not catalogue.checks_of(name) and not catalogue.examples_of(name)
    ]


def _mentions(source: Path, config: Config) -> list[Mention]:
    found = []
    for path in sorted(source.rglob("*.md")):
        page = path.relative_to(source).with_suffix("").as_posix()
        if any(part.startswith(("_", ".")) for part in path.relative_to(source).parts):
            continue
        if page in config.exclude_patterns:
            continue
        text = path.read_text(encoding="utf-8")
        found += [Mention(page, kind, name) for kind, name in _DIRECTIVE.findall(text)]
        found += [Mention(page, kind, name) for kind, name in _ROLE.findall(text)]
    return found
