"""Arrays in pieces that stay in the processor's cache."""

from __future__ import annotations

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any
    from collections.abc import Callable

__all__ = ["BLOCK", "in_blocks"]

BLOCK = 8192
"""Doubles in a piece. Past the cache the same arithmetic runs at a third of the speed."""


def in_blocks(function: Callable[..., Any], values: list[Any]) -> Any:
    """Return the function of the values, computed piece by piece.

    Parameters
    ----------
    function
        Called with floats where floats came and with one-dimensional pieces where arrays came.
    values
        Floats and float arrays that broadcast against each other; at least one array. A float
        is never broadcast, so what depends on floats alone is computed with floats.

    Returns
    -------
    numpy.ndarray
        Of the broadcast shape.
    """
    import numpy as np  # noqa: PLC0415 - only where somebody brought an array

    arrays = [value for value in values if isinstance(value, np.ndarray)]
    shape = np.broadcast_shapes(*(array.shape for array in arrays))
    flat = [
        np.broadcast_to(value, shape).reshape(-1) if isinstance(value, np.ndarray) else value
        for value in values
    ]
    size = int(np.prod(shape))
    result = np.empty(size)
    for start in range(0, size, BLOCK):
        piece = slice(start, min(start + BLOCK, size))
        result[piece] = function(
            *(value[piece] if isinstance(value, np.ndarray) else value for value in flat)
        )
    return result.reshape(shape)
