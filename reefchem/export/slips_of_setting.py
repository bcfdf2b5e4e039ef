"""Slips in what surrounds a number: temperature, reference temperature, pH scale."""

from __future__ import annotations

from typing import TYPE_CHECKING

from reefchem.core.record import records
from reefchem.export.slip import Slip, again, changed

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from reefchem.core.record import Record

__all__ = ["of_ph_scale", "of_reference", "of_temperature"]

REFERENCES = {"4 °C": 3.98, "15 °C": 15.0, "60 °F": 15.5556, "20 °C": 20.0, "25 °C": 25.0}
"""Reference temperatures of hydrometers and tables."""


def of_temperature(record: Record, inputs: Mapping[str, float]) -> Iterator[Slip]:
    """Give °F for °C and the other way round, kelvins, and the older scale."""
    for name, argument in record.arguments.items():
        if argument.unit != "degC" or name not in inputs:
            continue
        t, shown = inputs[name], name.replace("_", " ")
        for value, said in (
            (1.8 * t + 32, f"the {shown} was given in °F where °C is expected"),
            ((t - 32) / 1.8, f"the {shown} was taken for °F and converted"),
            (t + 273.15, f"the {shown} was given in kelvins where °C is expected"),
            (t - 273.15, f"the {shown} was taken for kelvins and converted"),
            (t / 1.00024, f"the {shown} was on the scale of 1968, not on that of 1990"),
            (t * 1.00024, f"the {shown} on the scale of 1990 was converted to it once more"),
        ):
            yield from changed(record, inputs, name, value, "temperature unit", said)


def of_reference(record: Record, inputs: Mapping[str, float]) -> Iterator[Slip]:
    """Give another reference temperature, two that were swapped, and glass that is warm."""
    names = [name for name in record.arguments if name.endswith("_temperature") and name in inputs]
    for name in names:
        for label, value in REFERENCES.items():
            said = f"the {name.replace('_', ' ')} was {label}, not {inputs[name]:g} °C"
            yield from changed(record, inputs, name, value, "reference temperature", said)
    if names and "temperature" in inputs:
        swapped = {"temperature": inputs[names[0]], names[0]: inputs["temperature"]}
        made = again(record, inputs, **swapped)
        if made is not None:
            yield Slip("reference temperature", "the two temperatures were swapped", made)
    if record.name == "salinity_from_specific_gravity" and "temperature" in inputs:
        yield from _hydrometer(inputs)


def _hydrometer(inputs: Mapping[str, float]) -> Iterator[Slip]:
    """Give what a glass hydrometer for one temperature says in water of another."""
    glass = records()["hydrometer_salinity"]
    given = {"reading": inputs["specific_gravity"], "temperature": inputs["temperature"]}
    for label, value in REFERENCES.items():
        made = again(glass, given, calibration_temperature=value, reference_temperature=value)
        if made is not None:
            said = f"the number was read off a glass hydrometer for {label}"
            yield Slip("reference temperature", f"{said} (hydrometer_salinity)", made)


def of_ph_scale(record: Record, inputs: Mapping[str, float], right: float) -> Iterator[Slip]:
    """Give one pH scale for another, in an input or in the result."""
    scales = {
        name.removeprefix("ph_").removesuffix("_from_total"): other
        for name, other in records().items()
        if name.startswith("ph_") and name.endswith("_from_total")
    }
    ways = [name for name in inputs if name.startswith("ph_")]
    if len(ways) == 1 and record.symbol.startswith(r"\mathrm{pH}"):
        said = "one scale was converted to the other the wrong way round"
        yield Slip("pH scale", said, 2 * inputs[ways[0]] - right)
    water = {
        "salinity": inputs.get("salinity", 35.0),
        "temperature": inputs.get("temperature", 25.0),
    }
    for scale, other in scales.items():
        pH = next((inputs[n] for n in inputs if n.startswith("ph")), right)
        given = [name for name in other.arguments if name.startswith("ph")]
        if not given or not 2 < pH < 12:
            continue
        known = {name: value for name, value in water.items() if name in other.arguments}
        made = again(other, {given[0]: pH, **known})
        if made is None:
            continue
        step = made - pH
        if record.symbol.startswith(r"\mathrm{pH}"):
            said = f"the result is on the {scale} scale, {step:+.3f} from the total scale"
            yield Slip("pH scale", said, right + step)
            yield Slip("pH scale", said.replace("is on", "was taken from"), right - step)
        for name in record.arguments:
            if name.startswith("ph") and name in inputs:
                said = f"{name} was on the {scale} scale, {abs(step):.3f} away"
                for value in (inputs[name] - step, inputs[name] + step):
                    yield from changed(record, inputs, name, value, "pH scale", said)
