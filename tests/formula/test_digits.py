import pytest
from hypothesis import given
from hypothesis import strategies as st

from reefchem.formula.digits import concise, exact_text, prose_number, significant

# Rounding up the largest double, or the few digits of the smallest, leaves what a float can hold.
FINITE = st.floats(-1e300, 1e300).filter(lambda value: value == 0 or abs(value) > 1e-300)


@pytest.mark.parametrize(
    ("value", "digits", "text"),
    [
        (1023.3412348, 7, "1023.341"),
        (0.02839188, 4, "0.02839"),
        (0.000012345, 3, "1.23e-5"),
        (123456789.0, 4, "1.235e8"),
        (2.5, 1, "3"),  # ties go away from zero
        (-2.5, 1, "-3"),
        (0.0, 5, "0"),
        (9.9996, 4, "10.00"),
        (float("nan"), 3, "not a number"),
        (float("-inf"), 3, "−∞"),
    ],
)
def test_so_many_digits_are_shown(value, digits, text):
    assert significant(value, digits) == text


@given(FINITE, st.integers(1, 15))
def test_the_text_is_the_number_rounded_to_those_digits(value, digits):
    shown = float(significant(value, digits))
    assert shown == pytest.approx(value, rel=0.5000001 * 10 ** (1 - digits))


@given(FINITE, st.integers(1, 15))
def test_zeros_at_the_end_go_and_the_number_stays(value, digits):
    short = concise(value, digits)
    assert float(short) == float(significant(value, digits))
    assert "." not in short or not short.partition("e")[0].endswith(("0", "."))


@given(FINITE)
def test_the_exact_text_reads_back_as_the_same_number(value):
    assert float(exact_text(value)) == value


def test_prose_has_a_minus_sign_and_raised_powers():
    assert prose_number("-1.5e-7") == "−1.5 × 10⁻⁷"
    assert prose_number("8.05") == "8.05"
