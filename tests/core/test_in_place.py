"""Large arrays through a body without new memory at each operation."""

from __future__ import annotations

import math
import warnings

import numpy as np
import pytest

import reefchem
from reefchem.core.blocks import IN_PLACE_BLOCK
from reefchem.core.errors import DomainError, RangeWarning
from reefchem.core.in_place import in_place
from reefchem.core.record import arg, describe, records, relation
from reefchem.seawater import (
    pure_water_density,
    salinity_from_conductivity,
    salinity_from_density,
    seawater_density,
)
from reefchem.seawater.density import EOS80, MilleroPoisson1981

SIZE = 300


def sample(record, floats):
    """Return numbers inside the span of each argument, some of them floats."""
    random = np.random.default_rng(len(record.name))
    values = []
    for argument, is_float in zip(record.arguments.values(), floats, strict=True):
        low, high = argument.valid or argument.typical or argument.possible
        low, high = (bound if math.isfinite(bound) else 1.0 for bound in (low, high))
        drawn = random.uniform(low, high, SIZE)
        values.append(float(drawn[0]) if is_float else drawn)
    return values


def patterns(record):
    """Return which arguments are floats: none, all but the first, all but the last."""
    count = len(record.arguments)
    return {(False,) * count, (False, *[True] * (count - 1)), (*[True] * (count - 1), False)}


def test_every_relation_gives_the_bits_of_its_body():
    written = 0
    for record in records().values():
        for floats in patterns(record) if record.arguments else ():
            values = sample(record, floats)
            program = in_place(record, values, SIZE)
            result = np.empty(SIZE)
            with np.errstate(all="ignore"), warnings.catch_warnings():
                warnings.simplefilter("ignore", RangeWarning)
                if program is None or not program(result, *values):
                    continue
                named = dict(zip(record.arguments, values, strict=True))
                body = np.broadcast_to(record.kernel(**named), SIZE)
            np.testing.assert_array_equal(result, body, err_msg=record.name)
            written += 1
    assert written > 600


def test_a_search_is_left_to_the_body():
    values = [np.array([1020.0, 1025.0]), 25.0]
    assert in_place(describe(salinity_from_density), values, 2) is None


def test_inputs_are_left_as_they_were():
    salinity, temperature = np.full(IN_PLACE_BLOCK + 5, 35.0), np.full(IN_PLACE_BLOCK + 5, 25.0)
    seawater_density(salinity, temperature)
    assert (salinity == 35.0).all()
    assert (temperature == 25.0).all()


def test_one_that_is_out_of_range_is_told_and_used_as_given():
    temperature = np.full(3 * IN_PLACE_BLOCK, 25.0)
    temperature[
        IN_PLACE_BLOCK + 7
    ] = -1.0  # seawater is described here, the equation of pure water is not
    result = seawater_density(35.0, temperature)
    assert result[IN_PLACE_BLOCK + 7] == seawater_density(35.0, -1.0)
    assert (np.delete(result, IN_PLACE_BLOCK + 7) == result[0]).all()


@pytest.mark.parametrize(
    ("possible", "usual", "bad"), [((0.0, 99.0), 25.0, 60.0), ((-99.0, 40.0), 25.0, -1.0)]
)
def test_what_a_part_does_not_cover_is_told_where_the_whole_has_no_source(
    possible, usual, bad, own_relations
):
    @relation(
        unit="kg/m**3",
        symbol="x",
        source="nobody",
        at="nowhere",
        water=arg("degC", "t", typical=(0.0, 40.0), possible=possible),
    )
    def twice_pure(water):
        """Return twice the density of pure water, whose source covers 0 to 40 °C."""
        return 2.0 * pure_water_density(water)

    water = np.full(3 * IN_PLACE_BLOCK, usual)
    twice_pure(water)
    water[-2] = bad
    with pytest.warns(RangeWarning, match=rf"is {bad:g} degC at \[{water.size - 2}\]"):
        twice_pure(water)


def test_a_result_that_the_scale_does_not_cover_is_told():
    conductivity = np.full(2 * IN_PLACE_BLOCK, 53.0)
    conductivity[-1] = 1.0
    with pytest.warns(RangeWarning, match="salinity is 0.49"):
        result = salinity_from_conductivity(conductivity, 25.0)
    with reefchem.strict(), pytest.raises(DomainError, match="covers 2 to 42"):
        salinity_from_conductivity(conductivity, 25.0)
    assert result[0] == pytest.approx(salinity_from_conductivity(53.0, 25.0), rel=1e-14)


def test_what_holds_for_many_pieces_is_said_once():
    conductivity = np.full(3 * IN_PLACE_BLOCK, 1.0)
    conductivity[IN_PLACE_BLOCK:] = 1.1
    with pytest.warns(RangeWarning) as said:
        salinity_from_conductivity(conductivity, 25.0)
    assert len(said) == 1
    assert (
        said[0].message.args[0].startswith("salinity_from_conductivity_ratio: the salinity is 0.49")
    )
    with pytest.warns(RangeWarning, match="salinity is 0.49"):  # in the next call again
        salinity_from_conductivity(conductivity, 25.0)


def test_what_is_not_a_number_passes_through():
    temperature = np.full(2 * IN_PLACE_BLOCK, 25.0)
    temperature[3] = np.nan
    result = seawater_density(35.0, temperature)
    assert np.isnan(result[3])
    assert np.isfinite(np.delete(result, 3)).all()


def test_a_changed_option_is_used():
    other = MilleroPoisson1981(a0=EOS80.a0 + 0.01)
    salinity = np.full(2 * IN_PLACE_BLOCK, 35.0)
    more = seawater_density(salinity, 25.0, fit=other) - seawater_density(salinity, 25.0)
    assert more == pytest.approx(0.35, abs=1e-9)
