"""Fitted numbers: frozen, named, replaced one by one."""

from __future__ import annotations

import copy
import pickle

import pytest

from reefchem.core.fit import Fit


class Line(Fit):
    intercept: float = 1.5
    slope: float = 0.25


class Bent(Line):
    bend: float = 2.0


def test_an_instance_without_arguments_is_the_published_fit():
    assert (Line().intercept, Line().slope) == (1.5, 0.25)


def test_one_number_can_be_replaced_and_the_others_stay():
    changed = Line(slope=0.5)
    assert (changed.intercept, changed.slope) == (1.5, 0.5)
    assert Line().slope == 0.25


def test_names_stand_in_the_order_of_the_source_also_in_a_subclass():
    assert Line.names() == ("intercept", "slope")
    assert Bent.names() == ("intercept", "slope", "bend")
    assert list(Bent(bend=3.0)) == [1.5, 0.25, 3.0]


def test_equal_numbers_are_an_equal_fit():
    assert Line(slope=0.5) == Line(slope=0.5)
    assert hash(Line(slope=0.5)) == hash(Line(slope=0.5))
    assert Line() != Line(slope=0.5)
    assert Line() != Bent()
    assert Line() != (1.5, 0.25)


def test_a_fit_cannot_be_changed():
    fit = Line()
    with pytest.raises(AttributeError, match=r"Line is frozen; make another with slope=2\.0"):
        fit.slope = 2.0
    with pytest.raises(AttributeError, match="slope cannot be taken away"):
        del fit.slope


def test_a_misspelt_number_is_refused_by_name():
    with pytest.raises(TypeError, match=r"Line has no fitted number 'slop'; it has .*slope"):
        Line(slop=1.0)


def test_it_shows_how_to_make_it():
    assert repr(Line(slope=0.5)) == "Line(intercept=1.5, slope=0.5)"


def test_copies_are_equal():
    fit = Line(slope=0.5)
    assert copy.deepcopy(fit) == fit
    assert pickle.loads(pickle.dumps(fit)) == fit  # noqa: S301 - our own bytes


def test_a_symbol_can_stand_in_the_place_of_a_number():
    assert Line(slope="m").slope == "m"
