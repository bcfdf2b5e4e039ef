"""What one relation makes of a number, its inverse takes back, for every pair there is.

``tests/inverses.txt`` lists them: a relation and its argument, the inverse and its argument. It is
found anew from the records: where units and the other arguments fit, the two are tried. After
adding a relation, write it anew::

    python tests/test_inverses.py > tests/inverses.txt
"""

from __future__ import annotations

import math
import warnings
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import given, reject, settings
from hypothesis import strategies as st
from test_contract import inputs

from reefchem.core.errors import DomainError, NoRootError
from reefchem.core.record import Record, records

LISTED = Path(__file__).with_name("inverses.txt")
RECORDS = records()
PAIRS = [tuple(line.split()) for line in LISTED.read_text(encoding="utf-8").splitlines()]

pytestmark = pytest.mark.filterwarnings("ignore::reefchem.core.errors.RangeWarning")


def there_and_back(record: Record, name: str, inverse: Record, given: str, point):
    """Return what the inverse makes of the result, the other arguments being the same."""
    result = record.function(**point)
    others = {other: value for other, value in point.items() if other != name}
    return inverse.function(**{given: result}, **others)


def candidates() -> Iterator[tuple[Record, str, Record, str]]:
    """Go through the pairs whose units and other arguments fit."""
    for record in RECORDS.values():
        for name, argument in record.arguments.items():
            others = record.arguments.keys() - {name}
            for inverse in RECORDS.values():
                more = inverse.arguments.keys() - others
                if (
                    inverse.unit != argument.unit
                    or len(more) != 1
                    or others - inverse.arguments.keys()
                ):
                    continue
                (given_back,) = more
                if inverse.arguments[given_back].unit == record.unit:
                    yield record, name, inverse, given_back


def undoes(record: Record, name: str, inverse: Record, given_back: str) -> bool:
    """Return whether one undoes the other at every point tried."""
    tried = 0
    for share in range(8):
        point = inputs(record, share / 8)
        try:
            back = there_and_back(record, name, inverse, given_back, point)
        except (ValueError, ArithmeticError):
            continue
        if not math.isclose(back, point[name], rel_tol=1e-6, abs_tol=1e-9):
            return False
        tried += 1
    return tried > 0


def found() -> list[tuple[str, str, str, str]]:
    """Return all pairs, each once."""
    pairs = []
    for record, name, inverse, given_back in candidates():
        one = (record.name, name, inverse.name, given_back)
        other = (inverse.name, given_back, record.name, name)
        if other not in pairs and undoes(record, name, inverse, given_back):
            pairs.append(one)
    return pairs


@pytest.mark.parametrize("pair", PAIRS, ids="-".join)
@given(fraction=st.floats(0.0, 0.999))
@settings(max_examples=max(settings().max_examples // 5, 1))
def test_an_inverse_takes_back_what_a_relation_made(pair, fraction):
    record, name, inverse, given_back = pair
    point = inputs(RECORDS[record], fraction)
    try:
        back = there_and_back(RECORDS[record], name, RECORDS[inverse], given_back, point)
    except (DomainError, NoRootError):
        reject()
    assert back == pytest.approx(point[name], rel=1e-9, abs=1e-9)


def test_every_pair_of_inverses_is_listed():
    assert found() == PAIRS


if __name__ == "__main__":
    warnings.simplefilter("ignore")
    print("\n".join(" ".join(pair) for pair in found()))  # noqa: T201
