"""The aragonite saturations at which something falls out, as their sources give them."""

from __future__ import annotations

from reefchem.carbonate.saturation import (
    HOMOGENEOUS_MORSE1993,
    NO_PRECIPITATION_MORAS2022,
    ON_PARTICLES_MORAS2022,
    saturation_headroom,
)


def test_the_limits_on_particles_are_those_of_the_abstract():
    # Moras et al. (2022), abstract: none lost with an aragonite saturation up to 5, and aragonite
    # falling where it exceeds 7.
    assert NO_PRECIPITATION_MORAS2022 == 5.0
    assert ON_PARTICLES_MORAS2022 == 7.0


def test_the_limit_without_a_surface_is_the_remembered_one():
    # From memory of the literature on alkalinity enhancement, and not verified: 18.8.
    assert HOMOGENEOUS_MORSE1993 == 18.8


def test_headroom_ends_at_the_limit_and_falls_with_saturation():
    assert saturation_headroom(7.0) == 1.0
    assert saturation_headroom(3.5) == 2.0
    assert saturation_headroom(14.0) == 0.5
