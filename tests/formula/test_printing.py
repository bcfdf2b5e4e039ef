"""Formulas as they are printed, of made-up relations that each show one thing."""

import pytest

from reefchem.core.constants import LN10
from reefchem.core.functions import exp, kelvin, log, sqrt, where
from reefchem.core.record import arg, describe, relation
from reefchem.core.roots import find_root
from reefchem.formula.equation import equation
from reefchem.formula.latex import latex_block, latex_lines, latex_number, latex_put_in
from reefchem.formula.names import latex_name, plain_name
from reefchem.formula.plain import plain_lines

pytestmark = pytest.mark.usefixtures("own_relations")


def printed(body, **symbols):
    """Return plain text and LaTeX of the main line of a body of x, or of x and y."""
    arguments = {
        name: arg("1", symbol, typical=(1.0, 2.0))
        for name, symbol in (symbols or {"x": "x"}).items()
    }
    body.__name__ = "made_up"
    record = describe(relation(unit="1", symbol="y", source="none", at="", **arguments)(body))
    return plain_lines(equation(record)), latex_lines(equation(record))


def main_line(body, **symbols):
    plain, latex = printed(body, **symbols)
    return plain[0][1], latex[0][1]


def test_a_nested_polynomial_is_printed_as_the_source_has_it():
    plain, latex = main_line(lambda x: 1.5 + x * (-2.0 + x * (3e-7 + x * -4.25)))
    assert plain == "1.5 − 2·x + 3·10⁻⁷·x² − 4.25·x³"
    assert latex == r"1.5 - 2 \, x + 3 \times 10^{-7} \, {x}^{2} - 4.25 \, {x}^{3}"


def test_a_polynomial_without_constant_joins_its_sum():
    plain, _ = main_line(lambda x, y: y + x * (-2.0 + x * 3.0), x="x", y="z")
    assert plain == "z − 2·x + 3·x²"


def test_repeated_factors_become_a_power_and_a_root_a_root():
    plain, latex = main_line(lambda x: 0.5 * x * x * sqrt(x))
    assert plain == "0.5·x²·√(x)"
    assert latex == r"0.5 \, {x}^{2} \, \sqrt{x}"


def test_a_power_of_ten_and_a_decimal_logarithm_are_recognised():
    plain, latex = main_line(lambda x: exp(-LN10 * x) + log(x) / LN10 - -log(x) / LN10)
    assert plain == "10^(−x) + log10(x) − (−log10(x))"
    assert latex.startswith("{10}^{-x}")
    assert r"\log_{10}\left( x \right)" in latex


def test_fractions_of_fractions_become_one():
    _, latex = main_line(lambda x, y: x / 1000 / y, x="x", y="z")
    assert latex == r"\frac{x}{1000 \, z}"


def test_a_negative_factor_gives_its_sign_to_the_product():
    plain, latex = main_line(lambda x, y: y * (-2 * x) - 3 * (-1.5 * y), x="x", y="z")
    assert plain == "z·(−2)·x − 3·(−1.5)·z"
    plain, latex = main_line(lambda x: -2 * x)
    assert (plain, latex) == ("−2·x", r"-2 \, x")


def test_brackets_stand_only_where_the_tree_needs_them():
    plain, _ = main_line(lambda x, y: (x + y) * (x - (y - 1)) / (x * y), x="x", y="z")
    assert plain == "(x + z)·(x − (z − 1)) / (x·z)"


def test_names_of_the_body_become_lines_of_their_own():
    def body(x):
        t68 = 1.00024 * x
        rho_w = 2 + t68
        return rho_w * t68

    plain, latex = printed(body)
    assert plain[0] == ("y", "ρ_w·t_68")
    assert dict(plain)["t_68"] == "1.00024·x"
    assert dict(latex)[r"\rho_{w}"] == r"2 + t_{68}"


def test_a_choice_is_set_with_a_brace():
    plain, latex = main_line(lambda x: where(x <= 2, x, 2 * x))
    assert plain == "(x if x ≤ 2, otherwise 2·x)"
    assert latex.startswith(r"\begin{cases} x & \text{if } x \le 2")


def test_a_root_is_said_in_words():
    plain, latex = main_line(
        lambda x: find_root(lambda s: s * s - x, 0.0, 9.0, unknown="side", symbol="a", like=(x,))
    )
    assert plain == "the a for which a² − x = 0"
    assert latex == r"\text{the } a \text{ for which}\; {a}^{2} - x = 0"


def test_another_relation_is_named_by_its_symbol():
    from reefchem.seawater import pure_water_density  # noqa: PLC0415

    plain, _ = main_line(lambda x: 2 * pure_water_density(kelvin(x)))
    assert plain == "2·ρ_w(x + 273.15)"


def test_a_sum_breaks_where_it_grows_too_wide_and_nowhere_else():
    block = latex_block([("y", ["aaaa", "+ bbbb", "+ cccc"])], width=12)
    assert block.count(r"\\") == 1
    assert r"&\quad + cccc" in block


def test_numbers_put_in_have_the_brackets_they_need():
    assert latex_number("-1.5e-07") == r"-1.5 \times 10^{-7}"
    assert latex_number("1e-06") == "10^{-6}"
    assert latex_number("1000000") == "10^{6}"
    assert latex_put_in("-2", tight=False) == r"\left( -2 \right)"
    assert latex_put_in("2e5", tight=True) == r"\left( 2 \times 10^{5} \right)"
    assert latex_put_in("2e5", tight=False) == r"2 \times 10^{5}"


@pytest.mark.parametrize(
    ("name", "latex", "plain"),
    [
        ("t68", "t_{68}", "t_68"),
        ("rho_w", r"\rho_{w}", "ρ_w"),
        ("ionic", r"\mathrm{ionic}", "ionic"),
        ("pk1", r"\mathrm{p}K_{1}", "pK_1"),
        ("acid_over", r"\mathrm{acid}_{\mathrm{over}}", "acid_over"),
    ],
)
def test_a_name_in_code_is_written_as_in_a_formula(name, latex, plain):
    assert latex_name(name) == latex
    assert plain_name(latex) == plain
