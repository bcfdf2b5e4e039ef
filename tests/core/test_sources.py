"""The bibliography is read as a reader of BibTeX reads it."""

from __future__ import annotations

import pybtex.database
import pytest

from reefchem.core.sources import BIBLIOGRAPHY, citation, entries

OTHER = pybtex.database.parse_file(str(BIBLIOGRAPHY)).entries


def test_no_entry_is_lost_or_invented():
    assert list(entries()) == list(OTHER)


@pytest.mark.parametrize("key", OTHER)
def test_an_entry_has_the_fields_that_another_reader_finds(key):
    mine = entries()[key]
    assert mine["kind"] == OTHER[key].original_type
    for name, value in OTHER[key].fields.items():
        assert mine[name.lower()] == " ".join(value.replace("{", "").replace("}", "").split())


@pytest.mark.parametrize("key", OTHER)
def test_every_entry_can_be_cited(key):
    names = [" ".join(person.last_names) for person in OTHER[key].persons["author"]]
    cited = citation(key)
    assert cited.endswith(f"({OTHER[key].fields['year']})")
    assert names[0].replace("{", "").replace("}", "").split()[-1] in cited


@pytest.mark.parametrize(
    ("key", "text"),
    [("millero1981", "Millero and Poisson (1981)"), ("dickson1981", "Dickson (1981)")],
)
def test_a_citation_names_authors_and_year(key, text):
    assert citation(key) == text


def test_three_authors_and_more_are_cited_by_the_first():
    many = [key for key in OTHER if len(OTHER[key].persons["author"]) > 2]
    assert many
    assert all(" et al. (" in citation(key) for key in many)


def test_an_unknown_key_is_named():
    with pytest.raises(KeyError, match="no entry 'nobody1900'"):
        citation("nobody1900")
