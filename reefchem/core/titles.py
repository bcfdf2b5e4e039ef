"""Names of arguments spelt out, for those that mean the same in every relation.

A name that needs more words in one relation than in another has them in its record, as `title`.
"""

from __future__ import annotations

__all__ = ["spelt"]

_SPELT = {
    "acid_concentration": "concentration of the acid",
    "acid_mass": "mass of acid added",
    "air": "CO₂ in the air",
    "borate": "borate ion",
    "bulk_density": "bulk density of the powder",
    "calibration_temperature": "temperature at which the scale is true",
    "changes": "number of water changes",
    "coefficient": "temperature coefficient",
    "depth": "depth of the water",
    "dic": "dissolved inorganic carbon",
    "dic_per_alkalinity": "inorganic carbon for each unit of alkalinity dosed",
    "dic_per_co2": "change of inorganic carbon for each change of CO₂",
    "dilution": "mass of acid over mass of sample",
    "emf": "voltage of the electrode",
    "endpoint_ph": "pH of the end point",
    "gas_time": "exchange time of CO₂ gas",
    "half_life": "half-life",
    "hydrogen": "hydrogen ion",
    "hydrogen_free": "free hydrogen ion",
    "hydroxide": "hydroxide ion",
    "increment": "refractive index for each unit of the scale",
    "indicator_pk": "pK of the indicator",
    "k1": "first dissociation constant of carbonic acid",
    "k2": "second dissociation constant of carbonic acid",
    "kb": "dissociation constant of boric acid",
    "kw": "ion product of water",
    "oxygen_time": "exchange time of oxygen",
    "pco2": "partial pressure of CO₂",
    "ph": "pH",
    "ph_free": "pH on the free scale",
    "ph_nbs": "pH on the NBS scale",
    "ph_seawater": "pH on the seawater scale",
    "ph_total": "pH on the total scale",
    "pk": "pK of the acid",
    "pk1": "pK₁ of carbonic acid",
    "pk_pure": "pK in pure water",
    "quantile": "quantile of Student\N{RIGHT SINGLE QUOTATION MARK}s distribution",
    "room_temperature": "temperature of the room",
    "sample_mass": "mass of the sample",
    "scale_temperature": "temperature the scale was drawn for",
    "scatter": "standard deviation of single readings",
    "spoon_volume": "volume of a spoon",
    "spoons": "number of level spoons",
    "standard_emf": "standard voltage of the electrode",
    "start_ph": "pH at the start",
    "stock_alkalinity": "alkalinity of the dosed solution",
    "stock_dic": "inorganic carbon of the dosed solution",
    "surface": "surface open to the air",
    "time_constant": "exchange time",
    "wavelength": "wavelength of the light",
}


def spelt(name: str) -> str:
    """Return a name of an argument as a reader would say it.

    Examples
    --------
    >>> spelt("ph_total"), spelt("mean_depth")
    ('pH on the total scale', 'mean depth')
    """
    return _SPELT.get(name, name.replace("_", " "))
