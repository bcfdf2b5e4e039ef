"""Names that leave: they warn for a release, with what to use instead, and then they are gone.

A name of a package is retired in its table: `lazily(..., retired={"old": ("new", "0.4")})`. A
method, an argument or an option calls `warn_of_retired` where it is used.
"""

from __future__ import annotations

import warnings

__all__ = ["warn_of_retired"]


def warn_of_retired(name: str, use: str, gone: str, *, above: int = 1) -> None:
    """Warn whoever uses a name that leaves.

    Parameters
    ----------
    name, use
        The name and what to use instead, as somebody would write them.
    gone
        The version that will not have it.
    above
        How many callers stand between this call and the user.

    Examples
    --------
    >>> import warnings
    >>> with warnings.catch_warnings(record=True) as caught:
    ...     warnings.simplefilter("always")
    ...     warn_of_retired("shape.edge", "shape.side", "0.4")
    >>> str(caught[0].message)
    'shape.edge will be gone in reefchem 0.4; use shape.side instead'
    """
    message = f"{name} will be gone in reefchem {gone}; use {use} instead"
    warnings.warn(message, DeprecationWarning, stacklevel=above + 2)
