"""A description is read whole, and every mistake is named by its key."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reefchem.core.errors import DomainError
from reefchem.tank.description import FIELDS, DescriptionError, read_description
from reefchem.tank.log import read_log

LEAST = """
[tank]
name = "A tank"
volume = "180 L"
[water_change]
alkalinity = "7 dKH"
[[stock]]
name = "soda"
salt = "NaHCO3"
strength = "75 g/L"
[log]
file = "log.csv"
"""


def described(tmp_path, text):
    path = tmp_path / "tank.toml"
    path.write_text(text, encoding="utf-8")
    return read_description(path)


def mistakes(tmp_path, text):
    with pytest.raises(DescriptionError) as caught:
        described(tmp_path, text)
    return [str(fault).removeprefix("tank.toml, ") for fault in caught.value.faults]


def test_what_is_left_out_is_common_practice_and_says_so(tmp_path):
    tank = described(tmp_path, LEAST)
    assert tank.number("targets.alkalinity") == pytest.approx(7.5 * 0.356653, rel=1e-5)
    assert tank.origin("targets.alkalinity") == "common practice, no source"
    assert tank.origin("tank.volume") == "tank.toml, tank.volume"
    assert tank.number("water_change.share") == 0.1
    assert tank.number("targets.nitrate") == 5.0


def test_every_mistake_is_named_at_once(tmp_path):
    text = LEAST.replace('"180 L"', '"180"').replace('"NaHCO3"', '"NaHCO"').replace('"7 dKH"', "7")
    named = mistakes(tmp_path, text + 'colour = "blue"\n[fish]\n')
    assert [mistake.partition(":")[0] for mistake in named] == [
        "line 4, tank.volume",
        "line 6, water_change.alkalinity",
        "line 9, stock 1.salt",
        "line 13, log.colour",
        "line 14",
    ]


def test_a_stock_is_known_by_formula_or_name(tmp_path):
    tank = described(tmp_path, LEAST.replace("NaHCO3", "sodium hydrogencarbonate"))
    assert tank.stocks[0].salt.formula == "NaHCO3"
    assert tank.stocks[0].purpose == "alkalinity"


@pytest.mark.parametrize(
    ("salt", "purpose"),
    [
        ("Na2CO3", "alkalinity"),
        ("CaCl2·2H2O", "calcium"),
        ("Ca(HCOO)2", "all-in-one"),
        ("Ca(OH)2", "all-in-one"),
        ("KNO3", "nitrate"),
        ("KCl", "other"),
    ],
)
def test_what_a_stock_is_for_follows_from_its_ions(tmp_path, salt, purpose):
    assert described(tmp_path, LEAST.replace("NaHCO3", salt)).stocks[0].purpose == purpose


def test_two_stocks_of_one_name_are_refused(tmp_path):
    stock = '\n[[stock]]\nname = "soda"\nsalt = "NaHCO3"\nstrength = "75 g/L"\n'
    (mistake,) = mistakes(tmp_path, LEAST + stock)
    assert "is the name of another stock" in mistake


def test_a_volume_of_nothing_is_refused(tmp_path):
    (mistake,) = mistakes(tmp_path, LEAST.replace("180 L", "0 L"))
    assert mistake == "line 4, tank.volume: it must be more than zero"


def test_broken_toml_is_named_with_its_line(tmp_path):
    (mistake,) = mistakes(tmp_path, "[tank\n")
    assert "line 1" in mistake


@pytest.mark.parametrize(
    ("old", "new", "mistake"),
    [
        ('"180 L"', '"180 L"\nnote = "\\u001b[2J"', r"line 5, tank.note: '\x1b[2J' has characters"),
        ('"180 L"', "[" * 5000, "brackets stand too deep inside each other"),
        ('"180 L"', "0x" + "f" * 5000, "line 4, tank.volume: a text is expected, such as"),
        ('"180 L"', "9" * 5000, "a number has thousands of digits"),
        (
            'name = "soda"\nsalt = "NaHCO3"',
            'name = """\nsalt = 1\n"""\nsalt = "NaHCO"',
            "line 11, stock 1.salt",
        ),
        ('file = "log.csv"', "", "line 11, log.file: it is missing"),
        ("[tank]", "tank.depth = 1\n[other]", "unknown table"),
        ('"NaHCO3"', '"' + "(" * 1_000_000 + '"', "it has more than 1000000 bytes"),
    ],
)
def test_what_nobody_means_to_write_is_named_with_its_line(tmp_path, old, new, mistake):
    with pytest.raises(DomainError) as caught:
        described(tmp_path, LEAST.replace(old, new))
    assert mistake in str(caught.value)


def test_the_log_may_not_have_an_impossible_name(tmp_path):
    path = described(tmp_path, LEAST.replace("log.csv", "l\\u0009og.csv")).log_path
    with pytest.raises(DomainError, match=r"'.*l\\tog\.csv' cannot be read"):
        read_log(path)


@given(st.binary(max_size=200))
def test_any_bytes_give_a_description_error(tmp_path_factory, raw):
    path = tmp_path_factory.mktemp("fuzz") / "tank.toml"
    path.write_bytes(raw)
    with pytest.raises(DomainError):
        read_description(path)


KEYS = [(t, k) for t in FIELDS for k in FIELDS[t] if t != "stock"]
VALUES = st.one_of(st.text(max_size=20), st.integers(), st.floats(), st.booleans())


@given(key=st.sampled_from(KEYS), value=VALUES)
def test_any_value_of_any_key_is_taken_or_named(tmp_path_factory, key, value):
    table, name = key
    shown = repr(value).lower() if isinstance(value, bool) else repr(value)
    if isinstance(value, str):
        shown = '"' + "".join(c for c in value if c.isprintable() and c not in '"\\') + '"'
    lines = LEAST.splitlines()
    lines = [line for line in lines if not line.startswith(f"{name} =")]
    if f"[{table}]" not in lines:
        lines.append(f"[{table}]")
    lines.insert(lines.index(f"[{table}]") + 1, f"{name} = {shown}")
    path = tmp_path_factory.mktemp("fuzz") / "tank.toml"
    path.write_text("\n".join(lines), encoding="utf-8")
    try:
        assert read_description(path).stocks
    except DescriptionError as error:
        assert error.faults  # noqa: PT017 - either outcome is right
