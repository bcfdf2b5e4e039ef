"""No number makes a relation hang, or answer quietly with what is no number."""

from __future__ import annotations

import math
import re
import signal
import warnings

import numpy as np
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from test_contract import RECORDS, every, inputs, some_point

from reefchem.core.boundary import strict
from reefchem.core.errors import DomainError, NoRootError, RangeWarning

LONGEST = 10.0
"""Seconds; a scalar takes less than a thousandth of one, and this is no benchmark."""

LARGEST = 1e30
"""No amount of anything is larger; far beyond, products leave the doubles and are infinite."""

few = settings(max_examples=max(settings().max_examples // 5, 1))


@pytest.fixture(autouse=True, scope="module")
def _alarm():
    """Stop a search that does not end."""

    def stop(_signal, _frame):
        pytest.fail(f"no answer within {LONGEST:g} s")

    before = signal.signal(signal.SIGALRM, stop)
    yield
    signal.setitimer(signal.ITIMER_REAL, 0.0)
    signal.signal(signal.SIGALRM, before)


def answer(record, point):
    """Return what a relation gives within the time, or the error it refuses with."""
    signal.setitimer(signal.ITIMER_REAL, LONGEST)
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", RangeWarning)
            return record.function(**point)
    except (DomainError, NoRootError) as error:
        return error
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0.0)


def possible(record, share, far):
    """Return a point anywhere in what is possible: near the span, or very far from it."""
    point = inputs(record, share)
    for index, (name, argument) in enumerate(record.arguments.items()):
        low, high = max(argument.possible[0], -LARGEST), min(argument.possible[1], LARGEST)
        low = max(low, 1 / LARGEST) if low > 0.0 else low
        part = math.modf(far * (1 + 1.618034 * index))[0]
        if part < 0.25:
            continue
        if part < 0.5:
            value = point[name] * 10.0 ** (24.0 * (part - 0.375))
        elif part < 0.6:
            value = low
        elif part < 0.7:
            value = high
        else:
            value = 10.0 ** (200.0 * (part - 0.85))
        point[name] = min(max(value, low), high)
    return point


@every
@given(share=st.floats(0.0, 0.999), far=st.floats(0.0, 1.0))
@example(share=0.3, far=0.55)
@example(share=0.3, far=0.65)
@few
def test_any_possible_number_gives_a_finite_number_or_a_refusal(record, share, far):
    found = answer(record, possible(record, share, far))
    if not isinstance(found, ValueError):
        assert type(found) is float
        assert math.isfinite(found)
        return
    named = re.match(r"\w+", str(found))
    assert named is not None
    assert named[0] in RECORDS, "a refusal names the relation, or one that it calls"


@every
def test_an_array_refuses_what_a_number_refuses(record):
    point = some_point(record)
    for name, argument in record.arguments.items():
        for bound, beyond in zip(argument.possible, (-1.0, 1.0), strict=True):
            if math.isinf(bound):
                continue
            outside = bound + beyond * max(abs(bound), 1e-300) * 1e-6
            if outside == bound:
                continue
            for kind in (float, lambda v: np.array([v, v])):
                with pytest.raises(DomainError, match=rf"{record.name}: {name} is .*possible"):
                    record.function(**{**point, name: kind(outside)})


@every
def test_infinity_is_refused_as_number_and_in_an_array(record):
    point = some_point(record)
    for name in record.arguments:
        for infinite in (math.inf, -math.inf):
            for kind in (float, lambda v, b=point[name]: np.array([b, v])):
                with pytest.raises(DomainError, match=rf"{record.name}: {name} is "):
                    record.function(**{**point, name: kind(infinite)})


@every
def test_outside_a_source_a_number_is_used_as_given_and_said_aloud(record):
    point = some_point(record)
    for name, argument in record.arguments.items():
        if argument.valid is None:
            continue
        low, high = argument.valid
        for bound, step in ((low, low - high), (high, high - low)):
            outside = bound + 1e-3 * step
            if not argument.possible[0] <= outside <= argument.possible[1]:
                continue
            given_point = {**point, name: outside}
            with warnings.catch_warnings(record=True) as said:
                warnings.simplefilter("always")
                try:
                    value = record.function(**given_point)
                except NoRootError:
                    continue
            assert any(
                w.category is RangeWarning and f"{record.name}: {name} is" in str(w.message)
                for w in said
            ), f"{name} = {outside} is outside {argument.valid} and nothing was said"
            assert math.isfinite(value)
            with strict(), pytest.raises(DomainError, match="the source covers"):
                record.function(**given_point)


def refusal(record, point):
    """Return why a relation refuses a point, or nothing."""
    try:
        record.function(**point)
    except (DomainError, NoRootError) as error:
        return str(error)
    return ""


@every
def test_the_bounds_themselves_are_inside(record):
    point = some_point(record)
    for name, argument in record.arguments.items():
        for bound in argument.valid or argument.possible:
            if abs(bound) > LARGEST:
                continue
            for kind in (float, lambda v: np.array([v, v])):
                with warnings.catch_warnings(record=True) as said:
                    warnings.simplefilter("always")
                    heard = refusal(record, {**point, name: kind(bound)})
                heard += " ".join(str(w.message) for w in said)
                assert f"{record.name}: {name} is" not in heard


@pytest.mark.filterwarnings("ignore::reefchem.core.errors.RangeWarning")
@every
def test_every_kind_of_whole_number_gives_the_same(record):
    point = {name: float(round(value)) for name, value in some_point(record).items()}
    expected = answer(record, point)
    if isinstance(expected, ValueError):
        return
    for kind in (int, np.int64, np.float32, np.float64):
        found = record.function(**{name: kind(value) for name, value in point.items()})
        assert type(found) is float
        assert found == expected
    assert record.function(**{name: np.array(value) for name, value in point.items()}) == expected
