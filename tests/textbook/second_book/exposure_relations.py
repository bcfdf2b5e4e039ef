"""Relations of photography, for a book that knows no chemistry."""

from __future__ import annotations

from reefchem.core.functions import Num, log, sqrt
from reefchem.core.record import arg, describe, relation
from reefchem.core.roots import find_root

LN2 = 0.6931471805599453


@relation(
    unit="1",
    symbol=r"E_v",
    source="ray2002",
    at="chapter on exposure, exposure value",
    aperture=arg("1", "N", typical=(1.0, 32.0)),
    time=arg("s", "t", typical=(0.001, 30.0)),
)
def exposure_value(aperture: Num, time: Num) -> Num:
    """Return the exposure value of an aperture and a time."""
    light = aperture * aperture / time
    return log(light) / LN2


@relation(
    unit="s",
    symbol="t",
    source="ray2002",
    at="chapter on exposure, solved for the time",
    exposure=arg("1", "E_v", typical=(-4.0, 18.0), possible=(-100.0, 100.0)),
    aperture=arg("1", "N", typical=(1.0, 32.0)),
)
def exposure_time(exposure: Num, aperture: Num) -> Num:
    """Return the time that an exposure value asks for."""
    return find_root(
        lambda time: exposure_value(aperture, time) - exposure,
        1e-40,
        1e40,
        unknown="time",
        symbol="t",
        like=(exposure, aperture),
    )


@relation(
    unit="m/s",
    symbol="c",
    source="iso1993",
    at="part 1, annex A, eq. A.5",
    temperature=arg("degC", r"\theta", valid=(-20.0, 50.0)),
)
def sound_speed(temperature: Num) -> Num:
    """Return the speed of sound in air, which a trigger by sound has to wait for."""
    return 343.2 * sqrt((temperature + 273.15) / 293.15)


@relation(
    unit="ms",
    symbol=r"\Delta t",
    source="iso1993",
    at="part 1, annex A, eq. A.5; a distance over a speed",
    distance=arg("m", "d", title="way of the sound", typical=(0.1, 10.0)),
    temperature=arg("degC", r"\theta", valid=(-20.0, 50.0)),
)
def trigger_delay(distance: Num, temperature: Num) -> Num:
    """Return how long a sound takes to a trigger."""
    return 1000 * distance / sound_speed(temperature)


@relation(
    unit="degC",
    symbol=r"\theta",
    source="iso1993",
    at="part 1, annex A, eq. A.5, solved for the temperature",
    speed=arg("m/s", "c", typical=(310.0, 370.0)),
)
def temperature_of_sound(speed: Num) -> Num:
    """Return the temperature of air in which sound has a speed."""
    ratio = speed / 343.2
    return 293.15 * ratio * ratio - 273.15


def records() -> dict:
    """Return the relations of this book by name."""
    every = (exposure_time, exposure_value, sound_speed, temperature_of_sound, trigger_delay)
    return {describe(function).name: describe(function) for function in every}


def derivations(name: str) -> list:
    """Return the derivations of a relation; this book has none."""
    return []
