"""Numbers as people write them: with a point, with a comma, and what may mean two things."""

from __future__ import annotations

import pytest

from reefchem.core.errors import DomainError
from reefchem.core.written_number import number_from_text, short


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("7,4", 7.4),
        ("+7.", 7.0),
        (",5", 0.5),
        ("-.5e-3", -0.0005),
        ("0,123", 0.123),
        ("1234,567", 1234.567),
        ("1,5e3", 1500.0),
        ("1.000", 1.0),
        ("1" * 40, float("1" * 40)),
    ],
)
def test_a_number_has_a_decimal_point_or_a_decimal_comma(text, number):
    assert number_from_text(text) == number


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "a number is missing"),
        ("1,234", "'1,234' may be 1234 or 1.234; write it with a decimal point"),
        ("-12,345", "'-12,345' may be -12345 or -12.345; write it with a decimal point"),
        ("1e999", "'1e999' is too large for a number"),
        ("-1e999", "'-1e999' is too large for a number"),
        ("1_000", "'1_000' is not a number"),
        ("1.2.3", "'1.2.3' is not a number"),
        (" 7", "' 7' is not a number"),
        ("1" * 41, f"'{'1' * 29}…' is not a number"),
    ],
)
def test_what_is_no_number_or_may_be_two_is_refused(text, said):
    with pytest.raises(DomainError) as refused:
        number_from_text(text)
    assert str(refused.value) == said


def test_a_text_of_thirty_characters_is_shown_whole():
    assert short("x" * 30) == repr("x" * 30)
    assert short("x" * 31) == repr("x" * 29 + "…")
