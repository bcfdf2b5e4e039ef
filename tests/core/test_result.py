"""Results in several parts: bare numbers that know their units."""

from __future__ import annotations

from dataclasses import FrozenInstanceError, dataclass
from typing import ClassVar

import numpy as np
import pint
import pytest

from reefchem.core.quantity import quantity, registry
from reefchem.core.result import Result


@dataclass(frozen=True)
class Water(Result):
    UNITS: ClassVar = {"alkalinity": "meq/L", "temperature": "degC"}
    alkalinity: float
    temperature: float | None
    name: str = "tank"


def test_a_field_is_given_with_its_unit():
    assert Water(2.8, 25.0).quantity("temperature").to("degF").magnitude == pytest.approx(77.0)


def test_fields_with_units_become_quantities_and_the_others_stay():
    made = Water(2.8, None).with_units(quantity(1.0, "meq/L"))
    assert made.alkalinity == quantity(2.8, "meq/L")
    assert made.temperature is None
    assert made.name == "tank"


def test_the_registry_of_the_caller_is_kept():
    foreign = pint.UnitRegistry()
    made = Water(2.8, 25.0).with_units(foreign.Quantity(1.0, "degC"))
    assert isinstance(made.temperature, foreign.Quantity)
    assert made.temperature.to("kelvin").magnitude == pytest.approx(298.15)
    assert made.alkalinity.to("mmol/L").magnitude == pytest.approx(2.8)


def test_arrays_keep_their_shape():
    made = Water(np.array([2.8, 2.9]), 25.0).with_units(quantity(1.0, "meq/L"))
    assert made.alkalinity.units == registry().Unit("meq/L")
    assert made.alkalinity.magnitude.tolist() == [2.8, 2.9]


def test_a_field_without_a_unit_has_no_quantity():
    with pytest.raises(KeyError, match="name"):
        Water(2.8, 25.0).quantity("name")


def test_a_result_cannot_be_changed():
    with pytest.raises(FrozenInstanceError):
        Water(2.8, 25.0).alkalinity = 3.0
