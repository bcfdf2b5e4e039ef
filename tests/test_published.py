"""Every printed value of ``shared/published`` against the package."""

from __future__ import annotations

import pytest
from conftest import PUBLISHED

from reefchem.core.sources import entries
from reefchem.examples import published_values

VALUES = published_values(PUBLISHED)


@pytest.mark.parametrize("printed", VALUES, ids=str)
def test_agrees_with_the_printed_value(printed):
    assert printed.agrees(), (
        f"computed {printed.computed():.10g}, printed {printed.printed} ± {printed.tolerance:g}"
    )


def test_every_published_source_is_in_the_bibliography():
    assert {value.source for value in VALUES} <= entries().keys()
