"""The lowest temperature, in degrees Fahrenheit."""

from __future__ import annotations

import pytest

from reefchem import conversion as c
from reefchem.core.errors import DomainError


def test_absolute_zero_is_where_the_scales_end():
    # NIST SP 811, B.8: 0 K is -459.67 °F, exactly.
    assert c.celsius_from_fahrenheit(-459.67) == pytest.approx(-273.15, abs=1e-12)
    with pytest.raises(DomainError, match=r"fahrenheit is -459\.671 degF; -459\.67 or more"):
        c.celsius_from_fahrenheit(-459.671)
