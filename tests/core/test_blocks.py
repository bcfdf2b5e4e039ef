"""Arrays in pieces: the same values as in one piece, whatever the shape and the order in memory."""

from __future__ import annotations

import tracemalloc

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from reefchem.core.blocks import BLOCK, in_blocks, place_in_whole


def product(x, y):
    return x * y + 1.0


@given(rows=st.integers(0, 40), columns=st.integers(0, 700), shared=st.booleans())
def test_pieces_give_what_the_whole_gives(rows, columns, shared):
    x = np.arange(float(rows * columns)).reshape(rows, columns)
    y = np.arange(float(columns)) if shared else 2.5
    assert np.array_equal(in_blocks(product, [x, y]), product(x, y))


@pytest.mark.parametrize(
    "array",
    [
        np.arange(3.0 * BLOCK)[::2],
        np.arange(2.0 * BLOCK)[::-1],
        np.arange(2.0 * BLOCK).reshape(2, -1).T,
        np.asfortranarray(np.arange(2.0 * BLOCK).reshape(2, -1)),
        np.broadcast_to(np.arange(5.0), (BLOCK, 5)),
        np.array(3.0),
    ],
    ids=["every second", "backwards", "transposed", "Fortran order", "broadcast", "no dimension"],
)
def test_the_order_in_memory_does_not_matter(array):
    result = in_blocks(product, [array, 2.0])
    assert result.shape == array.shape
    assert np.array_equal(result, array * 2.0 + 1.0)


def test_pieces_stay_in_the_cache_and_floats_stay_floats():
    sizes = []

    def body(x, y):
        assert type(y) is float
        assert x.ndim == 1
        sizes.append(x.size)
        return x * y

    in_blocks(body, [np.ones((3, BLOCK)), 2.0])
    assert sum(sizes) == 3 * BLOCK
    assert max(sizes) <= BLOCK


def test_broadcasting_makes_no_copy_of_the_whole():
    column, row = np.ones((2000, 1)), np.ones((1, 1000))
    tracemalloc.start()
    result = in_blocks(product, [column, row])
    _, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert peak < 1.2 * result.nbytes


def test_inputs_are_left_as_they_are():
    x = np.arange(2.0 * BLOCK)
    x.flags.writeable = False
    in_blocks(product, [x, x])
    assert np.array_equal(x, np.arange(2.0 * BLOCK))


@given(place=st.integers(0, 3 * 7000 - 1))
def test_a_place_in_a_piece_is_a_place_in_the_whole(place):
    whole = np.zeros((3, 7000))
    whole.flat[place] = 1.0
    found = []

    def body(x):
        found.extend(place_in_whole((int(i),)) for i in np.flatnonzero(x))
        return x

    in_blocks(body, [whole])
    assert found == [np.unravel_index(place, whole.shape)]


def test_outside_of_pieces_a_place_is_itself():
    with pytest.raises(ZeroDivisionError):
        in_blocks(lambda _x: 1 / 0, [np.ones(3)])
    assert place_in_whole((4,)) == (4,)
