"""A book on another topic is built by the engine, and the build stops when it should."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys

import pytest
from conftest import SECOND

from reefchem.textbook.catalogue import DisagreementError


@pytest.fixture
def copied(tmp_path):
    """A copy of the little book, to be spoilt."""
    return shutil.copytree(SECOND, tmp_path / "book", ignore=shutil.ignore_patterns("__pycache__"))


def spoil(folder, file, old, new):
    path = folder / file
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")


def built(folder, *options):
    """Build as an author does; return the exit status and what was said."""
    command = [sys.executable, "-m", "sphinx", "-q", "-W", "--keep-going", "-n", *options]
    done = subprocess.run(
        [*command, "-d", str(folder / "_doctrees"), str(folder), str(folder / "_pages")],
        capture_output=True,
        text=True,
        check=False,
        env={**os.environ, "NO_COLOR": "1"},
    )
    return done.returncode, done.stderr


def test_the_page_has_every_part(second_book):
    page = (second_book / "index.html").read_text(encoding="utf-8")
    for part in ("worked-example", "exercise", "relation", "drawn-figure"):
        assert f'class="{part}' in page
    assert "331.3\N{NO-BREAK SPACE}m/s" in page, "the value that a role computed"
    assert 'href="relations.html#sound_speed"' in page
    assert "Ag<sup>+</sup>" in page
    assert 'aria-label="The speed of sound rises' in page
    assert '<span class="equation-number">(1)</span>' in page
    assert "<script" not in re.findall(r"<math.*?</math>", page, re.DOTALL)[0]


def test_the_page_of_relations_has_an_anchor_and_the_uses_of_each(second_book):
    page = (second_book / "relations.html").read_text(encoding="utf-8")
    for name in ("exposure_time", "exposure_value", "sound_speed", "trigger_delay"):
        assert f'id="{name}"' in page
    assert 'href="index.html#example-clap-in-a-cold-room"' in page
    assert 'href="index.html#exercise-wait-for-the-clap"' in page
    assert 'href="index.html#relation-exposure_value">Exposure (relation)</a>' in page
    assert "seawater_density" not in page


def test_checks_are_counted_with_their_largest_difference(second_book):
    page = (second_book / "traceability.html").read_text(encoding="utf-8")
    assert "5 relations" in page
    row = re.search(r"sound_speed</code>.*?</tr>", page, re.DOTALL)[0]
    assert "0.00" in row


@pytest.mark.parametrize(
    ("file", "old", "new", "said"),
    [
        pytest.param(
            "relations.md", "{all-relations}", "{all-relations} another_module",
            "sound_speed: no page lists it", id="a relation that no page lists",
        ),
        pytest.param(
            "examples/speed-at-twenty.toml", '"343.2"', '"343.3"',
            "index.md:20: speed-at-twenty: computed 343.2 m/s, printed 343.3 ± 0.05: DISAGREES",
            id="a printed answer altered by one unit of its last digit",
        ),
        pytest.param(
            "published/iso1993.toml", '"343.2"', '"343.1"',
            "sound_speed(temperature=20)=343.1: computed 343.2",
            id="a published value altered by one unit of its last digit",
        ),
        pytest.param(
            "examples/sunny-sixteen.toml", '"exposure_value"', '"exposure"',
            "index.md:8: sunny-sixteen: no relation is called 'exposure'",
            id="an example of no relation",
        ),
        pytest.param(
            "examples/sunny-sixteen.toml", "aperture =", "width =",
            "unknown ['width'], missing ['aperture']",
            id="an example with a wrong input",
        ),
        pytest.param(
            "examples/clap-in-a-cold-room.toml", '"20"', '"-300"',
            "temperature is -300 degC; -273.15 or more is possible",
            id="an impossible input",
        ),
        pytest.param(
            "exercises/wait-for-the-clap.toml", "{distance}", "{length}",
            "index.md:24: exercise wait-for-the-clap: ", id="a question without its number",
        ),
        pytest.param(
            "examples/speed-at-twenty.toml", '"iso1993"', '"iso1994"',
            "speed-at-twenty: the bibliography has no entry 'iso1994'",
            id="an answer whose source is missing",
        ),
        pytest.param(
            "sources.bib", "@book{ray2002,", "@book{ray2003,",
            "exposure_value: the bibliography has no entry 'ray2002'",
            id="a relation whose source is missing",
        ),
        pytest.param(
            "examples/sunny-sixteen.toml", "reasoning", "raisoning",
            "unknown key ['raisoning']", id="a misspelt key",
        ),
    ],
)  # fmt: skip
def test_no_page_is_made_when_a_check_fails(copied, file, old, new, said):
    spoil(copied, file, old, new)
    status, told = built(copied)
    assert status
    assert DisagreementError.category in told
    assert said in told
    assert not list((copied / "_pages").glob("*.html"))


ERRATUM = """
[[erratum]]
source = "iso1993"
at = "invented for this test"
relation = "sound_speed"
inputs = {{ temperature = "20" }}
printed = "{printed}"
should_be = "{right}"
read = "memory"
reason = "Invented."
"""


@pytest.mark.parametrize(
    ("printed", "right", "said"),
    [
        ("334.2", "343.2", ""),
        ("343.2", "334.2", "computes 343.2, as printed (343.2); that is no misprint"),
        ("334.2", "343.3", "computes 343.2, not 343.3 as it is said to be right"),
    ],
)
def test_a_misprint_that_agrees_after_all_stops_the_build(copied, printed, right, said):
    text = ERRATUM.format(printed=printed, right=right)
    (copied / "published" / "errata.toml").write_text(text, encoding="utf-8")
    status, told = built(copied)
    assert bool(status) == bool(said)
    assert said in told


def test_all_disagreements_are_listed_at_once(copied):
    spoil(copied, "examples/speed-at-twenty.toml", '"343.2"', '"343.3"')
    spoil(copied, "examples/sunny-sixteen.toml", '"15"', '"16"')
    spoil(copied, "published/iso1993.toml", '"343.2"', '"343.1"')
    _, told = built(copied)
    assert "3 of the book's checks failed" in told


def test_a_disagreement_stops_the_build_when_no_page_has_changed(copied):
    assert built(copied) == (0, "")
    spoil(copied, "published/iso1993.toml", '"343.2"', '"343.1"')
    status, told = built(copied)
    assert status
    assert "343.1" in told


def test_a_relation_without_a_check_stops_a_strict_book(copied):
    option = ("-D", "textbook_require_checks=1")
    assert built(copied, *option)[0] == 0
    (copied / "examples" / "sunny-sixteen.toml").unlink()
    (copied / "examples" / "time-for-a-value.toml").unlink()
    _, told = built(copied, *option)
    assert "exposure_time: no published value and no worked example checks it" in told


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("{worked-example} sunny", "{worked-example} funny", "index.md:8: ERROR: no worked exam"),
        ("{relation} exposure", "{relation} composure", "no relation is called"),
        ("{exercise} wait", "{exercise} weight", "no exercise is called"),
        ("{rel}`sound", "{rel}`round", "no relation is called 'round_speed'"),
        ("{value}`sound_speed(temperature=0) to 4`", "{value}`sound_speed(0) to 4`", "name every"),
        ("{value}`sound_speed(temperature=0) to 4`", "{value}`round(x=0)`", "cannot be computed"),
        (":alt: The speed", ":alt:\n\nThe speed", "a figure needs its text alternative"),
        ("figures:speed", "figures:haste", "figures has no function 'haste'"),
        ("$E = I\\,t$", "$E = \\ce{I}$", "formula"),
        ("{worked-example} sunny-sixteen", "{derivation} exposure_value",
         "exposure_value has no derivation"),
        ("{cite:t}`iso1993`", "{cite:t}`iso1994`", "could not find bibtex key"),
    ],
)  # fmt: skip
def test_a_mistake_in_a_page_is_an_error_of_that_page(copied, old, new, said):
    spoil(copied, "index.md", old, new)
    status, told = built(copied)
    assert status
    assert said in told


def test_a_changed_example_changes_its_page(copied):
    assert built(copied) == (0, "")
    spoil(copied, "examples/sunny-sixteen.toml", "The rule of", "A rule of")
    assert built(copied) == (0, "")
    assert "A rule of sunny sixteen" in (copied / "_pages" / "index.html").read_text("utf-8")


def test_links_follow_an_entry_that_moves_to_another_page(copied):
    assert built(copied) == (0, "")
    (copied / "relations.md").rename(copied / "entries.md")
    spoil(copied, "index.md", "\nrelations\n", "\nentries\n")
    assert built(copied) == (0, "")
    assert 'href="entries.html#sound_speed"' in (copied / "_pages" / "traceability.html").read_text(
        "utf-8"
    )


def test_a_changed_relation_changes_what_leans_on_it(copied):
    assert built(copied) == (0, "")
    spoil(copied, "exposure_relations.py", "343.2 * sqrt", "343.20001 * sqrt")
    assert built(copied) == (0, "")
    page = (copied / "_pages" / "index.html").read_text("utf-8")
    assert "<mn>343.20001</mn>" in page
    script = (copied / "_pages" / "_static" / "textbook-relations.js").read_text("utf-8")
    assert "343.20001" in script
