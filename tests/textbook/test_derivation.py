"""Derivations on a page: long sums in rows, decimals as printed, nothing too long to read."""

from __future__ import annotations

import sympy

from reefchem.textbook.closed_form import LONGEST_ROW, _width, formula, formula_of_result
from reefchem.textbook.templating import rendered

a, x, y = sympy.symbols("a x y")


def test_a_long_sum_goes_on_in_further_rows_with_every_term():
    names = sympy.symbols([f"term_{n}" for n in range(40)])
    made = formula(sympy.Eq(y, sum(names)))
    rows = made.count("<mtr>")
    assert rows > 2
    assert made.count("<mo>+</mo>") == 39
    assert made.count("<msub>") == 40


def test_a_short_sum_stays_in_one_row():
    assert "<mtr>" not in formula(sympy.Eq(y, a + x))


def test_the_width_of_a_fraction_is_that_of_one_line():
    assert _width(r"\frac{abcd}{efgh}") == 4
    assert _width(r"\beta + \left(x\right)") == 5
    assert LONGEST_ROW > 40


def test_a_closed_form_full_of_decimals_is_not_printed():
    few = sum(sympy.Float(f"1.{n}5") * x**n for n in range(1, 4))
    many = sum(sympy.Float(f"1.{n}5") * x**n for n in range(1, 9))
    assert "<math" in formula_of_result(few)
    assert formula_of_result(many) == ""


def test_what_is_not_printed_is_said():
    values = {"anchor": "d", "title": "t", "stages": [], "name": "f", "entry": lambda name: name}
    form = rendered("derivation.html", result="", residual=False, **values)
    zero = rendered("derivation.html", result="", residual=True, **values)
    assert "which is what <code>f</code> computes, is the last line with every number" in form
    assert "What must be zero is the last line" in zero


def test_words_of_a_stage_have_true_minus_signs_and_code():
    stage = {"text": "Formic acid counts -1, not `-1` or CO2-3: 5 - 4", "formulas": []}
    values = {"anchor": "d", "title": "t", "name": "f", "entry": lambda name: name}
    made = rendered("derivation.html", stages=[stage], result="", residual=False, **values)
    assert "counts −1, not <code>-1</code> or CO2-3: 5 − 4" in made
