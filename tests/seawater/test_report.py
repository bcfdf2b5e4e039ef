"""A water analysis: read with every mistake named, judged against seawater and against itself."""

from __future__ import annotations

import math

import pytest
from phreeqpython import PhreeqPython

from reefchem.core.atoms import molar_mass
from reefchem.core.errors import DomainError
from reefchem.seawater import (
    SPECIES,
    AnalysisError,
    analysis_from_text,
    composition,
    read_analysis,
    water_report,
)

WATER = {"salinity": 35.0, "salinity_uncertainty": 0.3, "temperature": 25.0}
IONS = ("sodium", "magnesium", "calcium", "potassium", "strontium", "chloride", "sulfate")
IONS += ("bromide", "fluoride")

# Nordstrom et al. (1979), seawater, as example 1 of the PHREEQC manual prints it, in ppm.
NORDSTROM = {
    "calcium": 412.3,
    "magnesium": 1291.8,
    "sodium": 10768.0,
    "potassium": 399.1,
    "chloride": 19353.0,
    "sulfate": 2712.0,
}
NORDSTROM_ALKALINITY_AS_HCO3 = 141.682


def table(*rows):
    return "\n".join(["substance,value,unit,uncertainty", *rows])


def seawater_table(salinity=35.0, relative="1 %", **changed):
    water = composition(salinity)
    values = {n: 1000 * molar_mass(SPECIES[n]) * getattr(water, n) for n in IONS} | changed
    rows = [f"{name},{value!r},mg/kg,{relative}" for name, value in values.items()]
    return table(*rows, f"alkalinity,{water.alkalinity * 1e6!r},umol/kg,20")


def judged(text, **water):
    return water_report(analysis_from_text(text), **WATER | water)


@pytest.mark.parametrize("salinity", [30.0, 35.0, 38.0])
def test_seawater_is_like_seawater_and_contradicts_nothing(salinity):
    report = judged(seawater_table(salinity), salinity=salinity)
    assert [line.ratio for line in report.lines] == pytest.approx([1.0] * 10, rel=1e-12)
    assert report.charge == pytest.approx(0.0, abs=1e-9)
    assert report.contradictions == ()
    assert report.missing == report.without_uncertainty == ()
    assert report.chlorinity == pytest.approx(salinity / 1.80655, rel=1e-5)


def test_the_charge_balance_is_that_of_another_program():
    alkalinity = NORDSTROM_ALKALINITY_AS_HCO3 / molar_mass("HCO3-") * 1000
    rows = [f"{name},{value},mg/kg,1 %" for name, value in NORDSTROM.items()]
    report = judged(table(*rows, f"alkalinity,{alkalinity!r},umol/kg,1 %"))
    symbols = {"calcium": "Ca", "magnesium": "Mg", "sodium": "Na", "potassium": "K"}
    symbols |= {"chloride": "Cl", "sulfate": "S(6)"}
    lines = [f"{symbols[name]} {value}" for name, value in NORDSTROM.items()]
    program = PhreeqPython()
    program.ip.run_string(
        "SOLUTION 1\n units ppm\n pH 8.22\n temp 25\n density 1.023\n "
        + "\n ".join(lines)
        + f"\n Alkalinity {NORDSTROM_ALKALINITY_AS_HCO3} as HCO3\n"
        "SELECTED_OUTPUT\n -reset false\n -charge_balance true\nEND\n"
    )
    names, values = program.ip.get_selected_output_array()[:2]
    per_kilogram_of_water = values[names.index("charge(eq)")]
    salt = (sum(NORDSTROM.values()) + NORDSTROM_ALKALINITY_AS_HCO3) / 1e6
    assert report.charge / 1000 == pytest.approx(per_kilogram_of_water * (1 - salt), abs=1.2e-4)
    assert report.charge / 1000 == pytest.approx(7.9e-4, abs=3e-4)


def test_a_wrong_sodium_shows_in_charge_and_salt():
    true = composition(35.0).sodium * molar_mass("Na") * 1000
    report = judged(seawater_table(relative="0.5 %", sodium=1.06 * true))
    texts = [c.text for c in report.contradictions]
    assert len(texts) == 2
    assert "too many cations" in texts[0]
    assert "the ions add up to 35.81 g/kg of salt, the salinity says 35.17" in texts[1]
    assert "sodium" in report.contradictions[0].names


def test_the_uncertainty_of_the_balance_is_that_of_its_parts():
    report = judged(seawater_table())
    water = composition(35.0)
    charges = {"magnesium": 2, "calcium": 2, "strontium": 2, "sulfate": 2}
    parts = [0.01 * charges.get(n, 1) * getattr(water, n) * 1000 for n in IONS] + [0.02]
    assert report.charge_uncertainty == pytest.approx(math.hypot(*parts), rel=1e-9)
    assert report.charge_uncertainty == pytest.approx(7.3, abs=0.1)


def test_a_doubtful_analysis_hides_the_same_error():
    true = composition(35.0).sodium * molar_mass("Na") * 1000
    report = judged(seawater_table(relative="5 %", sodium=1.06 * true))
    assert report.contradictions == ()


def test_sulfur_and_sulfate_must_agree():
    fine = table("SO4,2712,mg/kg,1 %", "S,905,mg/kg,1 %")
    assert judged(fine).contradictions == ()
    bad = table("SO4,2712,mg/kg,1 %", "S,1000,mg/kg,1 %")
    (found,) = judged(bad).contradictions
    assert found.names == ("sulfate", "sulfur")
    assert "count the same atoms and differ" in found.text


def test_a_balance_without_chloride_is_not_made_up():
    text = "\n".join(r for r in seawater_table().splitlines() if not r.startswith("chloride"))
    report = judged(text)
    assert report.missing == ("chloride",)
    assert math.isnan(report.charge)
    assert math.isnan(report.chlorinity)


def test_rows_without_uncertainty_are_named():
    text = seawater_table().replace("mg/kg,1 %", "mg/kg,", 1)
    assert judged(text).without_uncertainty == ("sodium",)


@pytest.mark.parametrize(
    ("row", "expected"),
    [
        ("calcium,421.704,mg/L,", 0.0102821),
        ("calcium,412.084,mg/kg,", 0.0102821),
        ("calcium,10.2821,mmol/kg,", 0.0102821),
        ("calcium,10.5221,mmol/L,", 0.0102821),
        ("lithium,180,µg/kg,", 0.18e-3 / 6.94),
        ("lithium,180,ug/kg,", 0.18e-3 / 6.94),
        ("alkalinity,8,dKH,", 2788.14e-6),
        ("alkalinity,2.85322,meq/L,", 2788.14e-6),
        ("alkalinity,142.784,mg/L CaCO3,", 2788.14e-6),
        ("alkalinity,2788.14,umol/kg,", 2788.14e-6),
    ],
)
def test_every_unit_leads_to_the_same_amount(row, expected):
    (line,) = judged(table(row)).lines
    assert line.amount == pytest.approx(expected, rel=1e-5)


def test_below_a_limit_takes_no_part():
    report = judged(table("iodine,<5,ug/L,", "calcium,421.7,mg/L,"))
    assert report.line("iodine").measured.below
    assert math.isnan(report.line("iodine").ratio)
    assert report.line("calcium").ratio == pytest.approx(1.0, rel=1e-4)


def test_an_element_without_a_source_has_no_ratio():
    line = judged(table("zinc,5,ug/L,")).line("zinc")
    assert math.isnan(line.ratio)
    assert line.source == ""


def test_every_mistake_is_named_with_line_and_column():
    text = table(
        "# a remark",
        "calcium,431,mg/L,8",
        "unobtainium,1,mg/L,",
        'magnesium,"1,300",mg/L,',
        "potassium,400,ppm,",
        "strontium,,mg/L,",
        "boron,4.5,mg/L,high",
        "sodium,-1,mg/L,",
        "calcium,420,mg/L,",
        "alkalinity,8,mg/L,",
        "chloride,19800",
        '"bromide,68,mg/L',
        "fluoride,1e999,mg/L,",
        "iron,nan,mg/L,x %",
    )
    with pytest.raises(AnalysisError) as error:
        analysis_from_text(text, "water.csv")
    expected = [
        "line 4, column substance: 'unobtainium' is no substance of the list",
        "line 5, column value: '1,300' may be 1300 or 1.300",
        "line 6, column unit: 'ppm' may be mg/L or mg/kg; say one of mg/L, ug/L",
        "line 7, column value: a number is missing",
        "line 8, column uncertainty: 'high' is not a number",
        "line 9, column value: -1 is less than zero",
        "line 10, column substance: calcium stands in line 3 already",
        "line 11, column unit: 'mg/L' is no unit for it; say one of dKH, meq/L",
        "line 12, column unit: '' is no unit for it",
        "line 13: a quotation mark is not closed",
        "line 14, column value: '1e999' is too large for a number",
        "line 15, column value: 'nan' is not a number",
        "line 15, column uncertainty: 'x' is not a number",
    ]
    found = [str(fault).removeprefix("water.csv, ") for fault in error.value.faults]
    assert len(found) == len(expected)
    for message, start in zip(found, expected, strict=True):
        assert message.startswith(start)
    assert [row.substance.name for row in error.value.measured] == ["calcium"]


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "table, line 1: the file is empty"),
        ("# only a remark", "table, line 1: the file is empty"),
        ("element,value\nCa,4", "table, line 1: the first line names the columns substance, value"),
    ],
)
def test_a_table_without_its_columns_is_refused(text, message):
    with pytest.raises(AnalysisError, match=message):
        analysis_from_text(text)


def test_files_are_read_and_bad_ones_named(tmp_path):
    good = tmp_path / "good.csv"
    good.write_text("\ufeff" + seawater_table(), encoding="utf-8")
    assert len(read_analysis(good)) == 10
    latin = tmp_path / "latin.csv"
    latin.write_bytes(b"substance,value,unit\nlithium,180,\xb5g/L\n")
    with pytest.raises(
        AnalysisError, match=r"latin\.csv, line 2: it has bytes that are no UTF-8 text"
    ):
        read_analysis(latin)
    large = tmp_path / "large.csv"
    large.write_bytes(b"#" * 1_000_001)
    with pytest.raises(DomainError, match=r"large\.csv cannot be read: it has more than 1000000"):
        read_analysis(large)


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"salinity": -1.0}, "salinity is -1; 0 or more"),
        ({"salinity_uncertainty": -0.1}, "salinity_uncertainty is -0.1; 0 or more"),
        ({"salinity_uncertainty": math.nan}, "salinity_uncertainty is nan; 0 or more"),
        ({"temperature": math.inf}, "temperature is inf degC"),
    ],
)
def test_a_sample_that_cannot_be_is_refused(change, message):
    with pytest.raises(DomainError, match=message):
        judged(seawater_table(), **change)


def test_no_rows_are_no_report():
    with pytest.raises(DomainError, match="there are no rows"):
        water_report((), **WATER)


def test_a_line_that_is_not_there_is_named():
    with pytest.raises(DomainError, match="the analysis has no row for zinc"):
        judged(seawater_table()).line("zinc")
