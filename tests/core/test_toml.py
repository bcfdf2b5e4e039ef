"""A TOML file says the line of each of its keys."""

from __future__ import annotations

from reefchem.core.toml import lines_of_keys, shown, toml_data

TEXT = """top = 1
[tank]
name = '''
[not.a.table]
volume = 3
'''
volume = 5  # a remark
[[stock]]
name = "one"
[[ stock ]]
name = "two"
"""


def test_each_key_has_its_line():
    assert lines_of_keys(TEXT) == {
        "top": 1,
        "tank": 2,
        "tank.name": 3,
        "tank.volume": 7,
        "stock 1": 8,
        "stock 1.name": 9,
        "stock 2": 10,
        "stock 2.name": 11,
    }


def test_a_mark_of_utf_8_and_the_ends_of_lines_of_windows_are_no_fault():
    faults = []
    text, data = toml_data(b"\xef\xbb\xbf" + TEXT.replace("\n", "\r\n").encode(), "x.toml", faults)
    assert not faults
    assert text == TEXT
    assert [stock["name"] for stock in data["stock"]] == ["one", "two"]


def test_what_stands_inside_a_long_text_is_no_key():
    text = 'a = """\nb = 1\n\'\'\'\nc = 2\n"""\nd = 3\na = 4\n'
    assert lines_of_keys(text) == {"a": 1, "d": 6}


def test_a_fault_of_syntax_has_its_line_once():
    faults = []
    toml_data(b"a = 1\nb =\n", "x.toml", faults)
    (fault,) = faults
    assert fault.line == 2
    assert "line" not in fault.reason


def test_a_value_is_shown_in_forty_characters_however_long():
    assert shown("x" * 100) == "'" + "x" * 39
    assert shown([1, 2]) == "[1, 2]"
    assert shown(10**5000) == "(thousands of digits)"
