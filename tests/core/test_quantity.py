"""Units at the boundary, with pint's own registry and with others."""

from __future__ import annotations

import numpy as np
import pint
import pytest

from reefchem.conversion import alkalinity_from_german_degrees, per_kilogram
from reefchem.core.errors import UnitError
from reefchem.core.quantity import definitions, quantity, registry
from reefchem.seawater import salinity_from_density, seawater_density

FOREIGN = pint.UnitRegistry()
DENSITY = 1023.34306  # UNESCO 44, p. 23, at t68 = 25


def test_the_class_and_registry_that_come_in_go_out():
    warm = FOREIGN.Quantity(25.0, "degC")
    density = seawater_density(35.0, warm)
    assert density.__class__ is warm.__class__
    assert density.units == FOREIGN.Unit("kg/m**3")
    assert density.magnitude == pytest.approx(DENSITY, abs=2e-3)
    assert density + FOREIGN.Quantity(1.0, "g/L") > density


def test_another_registry_that_lacks_the_unit_still_works():
    reading = FOREIGN.Quantity(2.853219680, "mmol/L")
    result = per_kilogram(reading, 35.0, FOREIGN.Quantity(25.0, "degC"))
    assert result.to("umol/kg").magnitude == pytest.approx(2788.141, abs=1e-3)
    assert result.__class__ is reading.__class__


@pytest.mark.parametrize("make", [FOREIGN.Quantity, pint.Quantity])
def test_a_result_in_a_unit_that_a_registry_lacks_comes_in_its_base_units(make):
    from reefchem.conversion import german_degrees  # noqa: PLC0415 - beside its only use

    acid = make(2.853219680, "mmol/L")
    degrees = german_degrees(acid)
    assert degrees.to("mmol/L").magnitude == pytest.approx(2.853219680, rel=1e-9)
    with pytest.raises(pint.UndefinedUnitError):
        degrees.to("dKH")


def test_a_registry_with_our_definitions_speaks_our_units():
    mine = pint.UnitRegistry()
    for name, text in definitions().items():
        mine.define(f"{name} = {text}")
    result = alkalinity_from_german_degrees(mine.Quantity(8.0, "dKH"))
    assert result.to("meq/L").magnitude == pytest.approx(2.85322, abs=5e-6)


# As water tables print them: 50.04 mg of CaCO3 to a milliequivalent; degrees in ppm of CaCO3.
@pytest.mark.parametrize(
    ("name", "ppm", "digits"),
    [
        ("meq/L", "50.04", 2),
        ("dKH", "17.848", 3),
        ("French_degree", "10.00", 2),
        ("Clark_degree", "14.254", 3),
        ("grain_per_US_gallon_CaCO3", "17.118", 3),
    ],
)
def test_degrees_are_what_water_tables_print(name, ppm, digits):
    mine = pint.UnitRegistry()
    for unit, text in definitions().items():
        mine.define(f"{unit} = {text}")
    assert f"{mine.Quantity(1.0, name).to('ppm_CaCO3').magnitude:.{digits}f}" == ppm


def test_a_unit_may_have_a_hundred_characters_and_a_middle_dot():
    assert quantity(1.0, "mol·kg").units == registry().Unit("mol * kg")
    assert quantity(1.0, "m".rjust(100)).units == registry().Unit("m")
    with pytest.raises(UnitError, match="a unit of 101 characters; at most 100 are allowed"):
        quantity(1.0, "m".rjust(101))


@pytest.mark.parametrize("unit", ["degF", "kelvin", "degC"])
def test_a_temperature_is_read_on_every_scale(unit):
    warm = quantity(25.0, "degC").to(unit)
    assert seawater_density(35.0, warm).magnitude == pytest.approx(
        seawater_density(35.0, 25.0), rel=1e-12
    )


def test_an_array_of_quantities_keeps_its_shape():
    warm = FOREIGN.Quantity(np.array([[20.0], [25.0]]), "degC")
    density = seawater_density(np.array([33.0, 35.0]), warm)
    assert density.magnitude.shape == (2, 2)
    assert density.magnitude[1, 1] == pytest.approx(seawater_density(35.0, 25.0), rel=1e-12)


@pytest.mark.parametrize("unit", ["g/kg", "permille", "percent", "ppm"])
def test_a_salinity_with_a_unit_is_refused_because_it_would_be_converted(unit):
    with pytest.raises(UnitError, match=r"salinity is a pure number; .* converted silently"):
        seawater_density(quantity(35.0, unit), quantity(25.0, "degC"))


def test_a_dimensionless_salinity_is_welcome():
    density = seawater_density(quantity(35.0, ""), quantity(25.0, "degC"))
    assert density.magnitude == pytest.approx(seawater_density(35.0, 25.0))


def test_units_for_some_arguments_only_are_refused():
    with pytest.raises(UnitError, match=r"temperature needs a unit \(degC\), since other"):
        salinity_from_density(quantity(1023.0, "kg/m**3"), 25.0)


def test_a_difference_of_temperature_is_no_temperature():
    with pytest.raises(UnitError, match="temperature is expected in degC, not in delta_degree"):
        seawater_density(35.0, quantity(25.0, "delta_degC"))


@pytest.mark.parametrize("unit", ["meter", "kg/m**3", "degC/m"])
def test_a_wrong_dimension_is_refused_with_both_units(unit):
    with pytest.raises(UnitError, match="seawater_density: temperature is expected in degC, not"):
        seawater_density(35.0, quantity(1.0, unit))


def test_equivalents_and_degrees_are_defined_once():
    units = registry()
    assert units.Quantity(1.0, "eq").to("mol").magnitude == 1.0
    assert units.Quantity(1.0, "German_degree") == units.Quantity(1.0, "dKH")
    assert set(definitions()) == {
        "equivalent",
        "dKH",
        "ppm_CaCO3",
        "French_degree",
        "Clark_degree",
        "grain_per_US_gallon_CaCO3",
    }


@pytest.mark.parametrize(
    "unit", ["mL per day", "mol·kg", "m^2", "µmol/kg", "μmol/kg", "°C", "%", ""]
)
def test_a_unit_may_be_written_in_several_ways(unit):
    assert quantity(1.0, unit).magnitude == 1.0


@pytest.mark.parametrize(
    "unit",
    [
        "furlong//s",
        "m**999999999",
        "m**2**9",
        "9**9**9**9",
        "m⁹⁹⁹⁹",
        "1e999",
        "1000 mL",
        "((((",
        "m.__class__",
        "m/0",
        "nan",
        "m" * 101,
        "(" * 1_000_000,
    ],
)
def test_a_text_that_is_no_unit_is_refused_at_once(unit):
    with pytest.raises(UnitError, match=r"is no unit that is known here|at most 100"):
        quantity(1.0, unit)


def test_a_quantity_has_a_number():
    with pytest.raises(UnitError, match="has a number, not the text '9"):
        quantity("9**9**9", "m")
