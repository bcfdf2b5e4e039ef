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
        (
            '"180 L"',
            "0x" + "f" * 5000,
            "line 4, tank.volume: a text in quotes is expected, such as",
        ),
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


@pytest.mark.parametrize(
    ("old", "new", "mistake"),
    [
        ('"180 L"', "180", 'volume: a text in quotes is expected, such as "10 L"; it is 180'),
        ('"7 dKH"', "7", 'alkalinity: a text in quotes is expected, such as "10 dKH"; it is 7'),
        ('"A tank"', "3", "tank.name: a text in quotes is expected; it is 3"),
        ('"A tank"', '" "', "tank.name: it is empty"),
        (
            '"180 L"',
            '"180 L"\nsalinity = true',
            'a text in quotes is expected, such as "35"; it is',
        ),
        ('"180 L"', '"180 L"\ntemperature = 25', 'such as "25 °C"; it is 25'),
        ('"180 L"', '"180 L"\nnote = ""', "tank.note: it is empty"),
        ('"180 L"', '"180 L"\nalkalinity_unit = "ppm"', "'ppm' is none of dKH, meq/L, mg/L CaCO3"),
        ('"7 dKH"', '"7 dKH"\ncalcium = ""', "water_change.calcium: "),
        ('"75 g/L"', '"0 g/L"', "stock 1.strength: it must be more than zero"),
        ('"75 g/L"', '"lots"', "stock 1.strength: "),
        ('name = "soda"', "", "stock 1.name: it is missing (what the log calls it)"),
        ('salt = "NaHCO3"', "", "stock 1.salt: it is missing (formula with its water, or its name"),
        ("[[stock]]", "[stock]", "write [[stock]], once for each"),
        ("[[stock]]", "stock = 3", "water_change.stock: unknown key"),
    ],
)
def test_a_mistake_says_what_is_expected(tmp_path, old, new, mistake):
    assert mistake in "\n".join(mistakes(tmp_path, LEAST.replace(old, new)))


def test_a_text_of_four_hundred_characters_is_the_longest(tmp_path):
    name = "a" * 400
    assert described(tmp_path, LEAST.replace("A tank", name)).texts["tank.name"] == name
    (mistake,) = mistakes(tmp_path, LEAST.replace("A tank", name + "a"))
    assert "line 3, tank.name: a text in quotes is expected" in mistake


def test_a_table_is_written_as_a_table(tmp_path):
    text = LEAST.replace("[tank]\n", "tank = 3\n").replace('name = "A tank"\n', "", 1)
    found = mistakes(tmp_path, text.replace('volume = "180 L"\n', ""))
    assert found == ["line 2: tank: write it as a table, [tank]"]
    text = LEAST.partition("[[stock]]")[0] + '[log]\nfile = "log.csv"\n'
    found = mistakes(tmp_path, 'stock = ["soda"]\n' + text)
    assert found == ["tank.toml: stock 1: write it as a table, [[stock]]"]


@pytest.mark.parametrize(
    ("table", "key", "unit"),
    [
        ("water_change", "every", "days"),
        ("limits", "alkalinity", "dKH per day"),
        ("limits", "nitrate", "mg/L per day"),
        ("limits", "single_dose", "dKH"),
        ("log", "days", "days"),
    ],
)
def test_what_a_plan_divides_by_is_more_than_nothing(tmp_path, table, key, unit):
    def with_value(value):
        line = f'{key} = "{value} {unit}"'
        if f"[{table}]" in LEAST:
            return LEAST.replace(f"[{table}]", f"[{table}]\n{line}")
        return f"{LEAST}[{table}]\n{line}\n"

    (mistake,) = mistakes(tmp_path, with_value(0))
    assert mistake.endswith(f", {table}.{key}: it must be more than zero")
    assert described(tmp_path, with_value(0.1)).number(f"{table}.{key}") > 0


def test_no_water_changes_at_all_can_be_described(tmp_path):
    tank = described(tmp_path, LEAST.replace('"7 dKH"', '"7 dKH"\nshare = "0 %"'))
    assert tank.number("water_change.share") == 0.0


def test_every_stock_is_read_although_one_before_it_has_a_mistake(tmp_path):
    second = '[[stock]]\nname = "chloride"\nsalt = "CaCl3"\nstrength = "75 g/L"\n'
    text = LEAST.replace("NaHCO3", "NaHCO") + second
    named = [mistake.partition(":")[0] for mistake in mistakes(tmp_path, text)]
    assert named == ["line 9, stock 1.salt", "line 15, stock 2.salt"]


def test_the_first_stock_for_a_purpose_is_taken(tmp_path):
    second = '[[stock]]\nname = "ash"\nsalt = "Na2CO3"\nstrength = "75 g/L"\n'
    tank = described(tmp_path, LEAST + second)
    assert tank.stock_for("alkalinity").name == "soda"
    assert tank.stock_for("calcium") is None
    assert [stock.uncertainty for stock in tank.stocks] == [0.03, 0.03]


def test_what_may_be_absent_gives_no_number(tmp_path):
    tank = described(tmp_path, LEAST)
    assert not tank.gives("water_change.calcium")
    assert tank.written["water_change.calcium"] == ""
    assert tank.texts["tank.note"] == ""
    told = described(tmp_path, LEAST.replace('"7 dKH"', '"7 dKH"\ncalcium = "420 mg/L"'))
    assert told.number("water_change.calcium") == 420.0
    assert tank.origin("tank.temperature") == "default"


def test_a_pure_number_may_stand_without_quotes(tmp_path):
    tank = described(tmp_path, LEAST.replace('"180 L"', '"180 L"\nsalinity = 34.5'))
    assert tank.number("tank.salinity") == 34.5
    assert tank.written["tank.salinity"] == "34.5"


@pytest.mark.parametrize(
    ("written", "litres"),
    [("1.8e2 L", 180.0), (" 180   L ", 180.0), ("+180L", 180.0), ("1.8E+2 L", 180.0)],
)
def test_a_number_and_its_unit_are_told_apart(tmp_path, written, litres):
    assert described(tmp_path, LEAST.replace("180 L", written)).number("tank.volume") == litres


def test_the_log_lies_beside_the_description(tmp_path):
    assert described(tmp_path, LEAST).log_path == tmp_path / "log.csv"


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
