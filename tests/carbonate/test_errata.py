"""Misprints in the sources: listed with their reason, and told apart by numbers."""

from __future__ import annotations

import math
import tomllib

import pytest
from conftest import PUBLISHED

from reefchem.carbonate import (
    aragonite_ksp_mucci1983,
    bisulfate_ks_dickson1990,
    water_kw_millero1995,
)
from reefchem.core.record import records
from reefchem.core.sources import entries

ERRATA = tomllib.loads((PUBLISHED / "errata.toml").read_text(encoding="utf-8"))["erratum"]


def entry(relation):
    (found,) = (erratum for erratum in ERRATA if erratum["relation"] == relation)
    return found


@pytest.mark.parametrize("erratum", ERRATA, ids=lambda e: f"{e['source']}, {e['at']}")
def test_an_erratum_says_where_what_and_why(erratum):
    assert erratum["source"] in entries()
    assert erratum["relation"] in records()
    assert erratum["printed"] != erratum["should_be"]
    assert erratum["at"]
    assert erratum["reason"]
    assert erratum["read"] in {"primary", "secondary", "memory"}


def test_hydroxide_at_ph_8_is_about_6_and_not_as_printed():
    erratum = entry("water_kw_millero1995")
    hydroxide = 1e6 * water_kw_millero1995(25.0, 35.0) / 1e-8
    assert hydroxide == pytest.approx(float(erratum["should_be"]), abs=0.5)
    assert abs(hydroxide - float(erratum["printed"])) > 4.0


def test_the_solubility_product_has_logarithms_of_base_ten():
    # Mucci (1983) measured 6.48e-7 at salinity 35 and 25 degC (check value, -6.19 in log10).
    assert entry("aragonite_ksp_mucci1983")["should_be"].startswith("log10")
    product = aragonite_ksp_mucci1983(25.0, 35.0)
    assert math.log10(product) == pytest.approx(-6.19, abs=0.005)
    assert math.exp(math.log10(product)) > 1000 * product


def test_the_equation_of_the_later_page_gives_the_check_value_of_the_handbook():
    assert entry("bisulfate_ks_dickson1990")["should_be"] == "as on p. 123"
    assert math.log(bisulfate_ks_dickson1990(25.0, 35.0)) == pytest.approx(-2.30, abs=0.005)
