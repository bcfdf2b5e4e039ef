"""Claims as somebody types them at a terminal: what is recognised, and what is said of a slip."""

import pytest
from click.testing import CliRunner

from reefchem.cli import main

SEA = "S=35 t=25"
RISE = "alkalinity_rise=1~dKH volume=100"
STATE = "salinity=35 temperature=25C total_alkalinity=2300 dic=2000"
FLOAT = "specific_gravity=1.0264 temperature=25 reference_temperature"


def said(text):
    result = CliRunner().invoke(main, ["check", "value", *text.split("|")])
    return result.exit_code, result.output


def claim(relation, inputs, result):
    # a unit after a number stands behind a tilde here, since blanks part the inputs
    given = [text.replace("~", " ") for text in inputs.split()]
    return said("|".join([relation, *given, "--result", result]))


@pytest.mark.parametrize(
    ("relation", "inputs", "result", "told"),
    [
        # 1.0264 is 35.0 on a 25/25 scale and 37.4 on one for 60 °F; see book/parts/specific_gravity
        ("salinity_from_specific_gravity", f"{FLOAT}=25", "37.4", "glass hydrometer for 60 °F"),
        ("salinity_from_specific_gravity", f"{FLOAT}=60F", "35.0", "reference temperature was 25"),
        ("alkalinity_from_german_degrees", "degrees=8", "2.857", "2.8 dKH to a meq/L was used"),
        ("alkalinity_as_calcium_carbonate", "alkalinity=8~dKH", "143.2", "17.9 mg/L CaCO3 to"),
        ("alkalinity_from_french_degrees", "degrees=14.3", "5.1", "was taken for dKH"),
        ("alkalinity_as_calcium_carbonate", "alkalinity=2.5~meq/L", "152.5", "in mg/L HCO3"),
        ("seawater_density", "salinity=35 temperature=78F", "1.0232", "a thousand times too small"),
        ("oxygen_saturation", SEA, "6.77", "oxygen_mass_saturation, in mg/L"),
        ("conductivity", SEA, "53.065", "on the scale of 1968"),
        ("per_litre", f"value=2300 {SEA}", "2247.5", "the density divided"),
        ("sodium_hydrogencarbonate_mass", RISE, "1.89", "Na2CO3 was"),
        ("sodium_hydrogencarbonate_mass", RISE, "11.34", "US gallons"),
        ("calcium_chloride_mass", "calcium_rise=20 volume=100", "5.54", "CaCl2 was weighed for"),
        ("nitrate_from_nitrogen", "nitrogen=10", "10.0", "the result is N alone"),
        ("nitrate_from_nitrogen", "nitrogen=10", "2.259", "done the other way round"),
        ("phosphate_from_phosphorus", "phosphorus=0.03", "30", "P alone, in µg/L"),
        ("after_water_changes", "level=40 fresh=0 share=0.05 changes=10", "20", "added up"),
        ("ph_nbs_from_total", f"ph_total=8.05 {SEA}", "7.916", "the wrong way round"),
        ("us_gallons", "litres=100", "22.0", "imperial_gallons"),
        ("calcium_as_calcium_carbonate", "calcium=420", "420.0", "the result is Ca, not CaCO3"),
        ("salt_mass", "alkalinity_rise=1 volume=100 molar_mass=84 equivalents=1 purity=0.8", "8.4",
         "the purity was left out"),
        ("carbonate_system.ph_total", STATE, "8.18", "this is ph_nbs, not ph_total"),
        ("carbonate_system.pco2", STATE, "395.8", "this is fco2, not pco2"),
        ("carbonate_system.ph_total", STATE, "8.0402", "boron=lee2010 was chosen"),
    ],
)  # fmt: skip
def test_a_usual_slip_is_told(relation, inputs, result, told):
    status, output = claim(relation, inputs, result)
    assert status == 1, output
    assert told in output


@pytest.mark.parametrize(
    ("relation", "inputs", "result"),
    [
        ("seawater_density", "salinity=35 temperature=77F", "1023.3"),
        ("seawater_density", SEA, "1.0233 g/cm3"),
        ("seawater_density", SEA, "1,0233 g/mL"),
        ("carbonate_system.ph_total", STATE, "8.0458"),
        ("carbonate_system.ph_total", f"{STATE} boron=lee2010", "8.0402"),
        ("alkalinity_from_german_degrees", "d=8~dKH", "2.853 meq/L"),
    ],
)
def test_numbers_units_and_symbols_are_read_as_they_are_written(relation, inputs, result):
    status, output = claim(relation, inputs, result)
    assert status == 0, output
    assert "agrees, within" in output


@pytest.mark.parametrize(
    ("relation", "inputs", "result", "told"),
    [
        ("milliequivalents_from_dkh", "dkh=8", "2.86", "  alkalinity_from_german_degrees: "),
        ("seawater_density", "sal=35 temperature=25", "1023", "did you mean salinity? It takes"),
        ("seawater_density", "salinity=35", "1023", "temperature is missing. It takes salinity"),
        ("seawater_density", "salinity=35ppt temperature=25", "1023", "write 35 without 'ppt'"),
        ("seawater_density", "salinity=35 temperature=25Q8", "1023", "'Q8' is no unit"),
        ("seawater_density", "salinity=35 temperature=25kg", "1023", "is expected in degC"),
        ("seawater_density", "S=35 salinity=35 t=25", "1023", "salinity is given twice"),
        ("seawater_density", "salinity:35", "1023", "is not of the form name=value"),
        ("seawater_density", SEA, "1,023.3", "write 1023.3 without a comma"),
        ("seawater_density", SEA, "1,023", "may be 1023 or 1.023"),
        ("seawater_density", SEA, "about", "'about' is not a number"),
        ("carbonate_system", STATE, "8.05", "name one, as carbonate_system.ph_total"),
        ("carbonate_system.acidity", STATE, "8.05", "no part is called 'acidity'"),
        ("carbonate_system.ph_total", f"{STATE} boron=mine", "8.05", "there is uppstrom1974"),
    ],
)
def test_what_cannot_be_read_is_refused_with_what_would_do(relation, inputs, result, told):
    status, output = claim(relation, inputs, result)
    assert status == 2, output
    assert told in output
