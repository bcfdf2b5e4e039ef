"""Pages that the book makes from data: tables for printing, and how to cite."""

from __future__ import annotations

import re
import sys
import tomllib

import periodictable
import pytest
from conftest import ROOT

from reefchem.dosing import calcium_chloride_mass, potassium_nitrate_mass
from reefchem.seawater import minor_elements

sys.path.insert(0, str(ROOT / "book"))  # the directives of the book alone

from reefchem_pages.citing import bibtex, in_words
from reefchem_pages.minor_elements import NAMES
from reefchem_pages.print_tables import (
    SALINITIES,
    SCALES,
    alkalinity_rows,
    dose_rows,
    hydrometer_rows,
)

# Specific gravity at salinity 35 by the EOS-80 of the reference library `seawater`, at the
# temperature of each scale, where glass has nothing to correct.
AT_35 = {
    "60/60 °F": "1.0269",
    "20/20 °C": "1.0266",
    "25/25 °C": "1.0264",
    "20/4 °C": "1.0248",
    "25/4 °C": "1.0234",
}


@pytest.mark.parametrize("scale", SCALES)
def test_glass_at_its_own_temperature_shows_the_specific_gravity(scale):
    sample, reference = SCALES[scale]
    column = 1 + SALINITIES.index(35)
    rows = {row[0]: row[column] for row in hydrometer_rows(sample, reference)}
    if scale == "60/60 °F":  # between two rows, and close to the first
        assert float(rows["18 °C"]) == pytest.approx(float(AT_35[scale]), abs=7e-4)
        assert float(rows["18 °C"]) < float(AT_35[scale])
    else:
        assert rows[f"{sample:g} °C"] == AT_35[scale]


def test_a_reading_of_the_first_chapter_is_in_the_table_of_its_scale():
    rows = {row[0]: row for row in hydrometer_rows(*SCALES["25/25 °C"])}
    assert rows["25 °C"][1 + SALINITIES.index(35)] == "1.0264"
    rows = {row[0]: row for row in hydrometer_rows(*SCALES["60/60 °F"])}
    assert rows["25 °C"][1 + SALINITIES.index(37)] < "1.0264" < rows["25 °C"][-1]


def test_a_line_of_alkalinity_is_one_water():
    rows = {row[0]: row for row in alkalinity_rows()}
    # 10 mg of CaO (56.077 g/mol) in a litre for each degree, by hand; 1.02334 kg in a litre.
    assert rows["8.0"] == ("8.0", "2.85", "143", "174", "14.3", "2788")
    assert len(rows) == 19


def test_a_salt_weighs_what_its_own_relation_says():
    grams = {(row[0], row[1]): float(row[3]) for row in dose_rows()}
    chloride = grams["10 mg/L of calcium", "{chem}`CaCl2·2H2O`"]
    assert chloride == pytest.approx(calcium_chloride_mass(10.0, 100.0), rel=2e-3)
    nitrate = grams["1 mg/L of nitrate", "{chem}`KNO3`"]
    assert nitrate == pytest.approx(potassium_nitrate_mass(1.0, 100.0), rel=4e-3)
    # A degree is 0.35665 meq/L: in 100 L 35.665 meq of 84.006 mg each.
    assert grams["1 dKH of alkalinity", "{chem}`NaHCO3`"] == 3.00


def test_what_comes_along_with_a_salt_balances_its_charge():
    (row,) = [row for row in dose_rows() if "CaCl2·2H2O" in row[1]]
    assert float(row[4].split()[0]) == pytest.approx(2 * 35.45 * 10 / 40.078, rel=0.03)


def test_the_version_that_is_cited_is_that_of_the_project():
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    (author,) = [author["name"] for author in project["authors"]]
    entry = bibtex(author, "2026")
    assert f"version = {{{project['version']}}}" in entry
    assert f"author = {{{{{author}}}}}" in entry
    assert entry.count("{") == entry.count("}")
    assert re.match(r"@software\{reefchem,\n", entry)
    assert in_words(author, "2026").endswith(f"Version {project['version']}.")


def test_every_minor_element_has_the_name_of_its_symbol():
    assert set(NAMES) == set(minor_elements())
    for symbol, name in NAMES.items():
        assert periodictable.elements.symbol(symbol).name in {
            name,
            name.replace("ae", "e", 1),
            "aluminum",
        }


def test_a_word_that_leads_to_the_glossary_carries_its_entry(built_book):
    page = (built_book / "parts" / "alkalinity.html").read_text(encoding="utf-8")
    links = re.findall(r'<a [^>]*href="\.\./glossary\.html#term-[^>]*>', page)
    assert len(links) > 10
    assert all(re.search(r'title="[^"]{20,}"', link) for link in links)
    assert not any("parts/" in link.partition("title=")[2] for link in links)


def test_the_tables_of_the_book_are_light_and_scroll_by_keyboard(built_book):
    page = (built_book / "tables.html").read_text(encoding="utf-8")
    assert page.count('class="wide computed-table" tabindex="0"') == len(SCALES) + 2
    assert page.count("<td") > 10 * 9 * len(SCALES)
