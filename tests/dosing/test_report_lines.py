"""The lines of every report, as they are printed: labels are keys of the JSON, too."""

from __future__ import annotations

import pytest

from reefchem.dosing import (
    StockSolution,
    all_in_one,
    calcium_reactor,
    compare_methods,
    dose_effect,
    dose_plan,
    ionic_balance,
    limewater,
    two_part,
)

SODA = StockSolution({"NaHCO3": 84.006})


def lines_of(report):
    """Return value and unit by label, in the order of the report."""
    return {line.label: (line.value, line.unit) for line in report.lines()}


def near(expected, rel=1e-12):
    """Return numbers by hand, to be compared with; what is only named is taken as it is."""
    return {
        label: (pytest.approx(value, rel=rel, abs=1e-15), unit)
        for label, (value, unit) in expected.items()
    }


def test_lines_of_a_dose():
    """20 mL of 1 mol/L into 100 L are 0.2 mmol/L."""
    effect = dose_effect(SODA, 20.0, volume=100.0, ph_total=8.0)
    assert effect.title == "20 mL of NaHCO3 into 100 L"
    found = lines_of(effect)
    assert found == near(
        {
            "sodium": (0.2 * 22.990, "mg/L"),
            "inorganic carbon": (0.2 * 12.011, "mg/L"),
            "alkalinity, at once": (0.2, "meq/L"),
            "alkalinity, after oxidation": (0.2, "meq/L"),
            "salinity": (effect.salinity, ""),
            "oxygen taken": (0.0, "mg/L"),
            "pH before (total scale)": (8.0, ""),
            "pH at once": (effect.ph_at_once, ""),
            "pH when settled with the air": (effect.ph_settled, ""),
            "saturation of aragonite before": (effect.omega_before, ""),
            "saturation at once": (effect.omega_at_once, ""),
            "saturation when settled": (effect.omega_settled, ""),
            "saturation at the outlet": (effect.omega_at_outlet, ""),
        }
    )
    assert list(found)[:3] == ["sodium", "inorganic carbon", "alkalinity, at once"]


def test_lines_of_a_plan():
    """0.4 meq/L into 100 L in steps of at most 0.178: three doses of 40 / 3 mL of 1 meq/mL."""
    plan = dose_plan(SODA, "alkalinity", start=2.5, target=2.9, volume=100.0)
    assert plan.title == "alkalinity from 2.5 to 2.9 meq/L with NaHCO3"
    assert lines_of(plan) == near(
        {
            "doses, one a day": (3, ""),
            "each dose": (40 / 3, "mL"),
            "brings sodium": (0.4 / 3 * 22.990, "mg/L"),
            "brings inorganic carbon": (0.4 / 3 * 12.011, "mg/L"),
            "brings alkalinity in the end": (0.4 / 3, "meq/L"),
            "takes oxygen": (0.0, "mg/L"),
        }
    )
    nitrate = dose_plan(
        StockSolution({"KNO3": 20.0, "KCl": 1.0}), "nitrate", start=1.0, target=2.0, volume=100.0
    )
    assert nitrate.title == "nitrate from 1 to 2 mg/L with KNO3 + KCl"


def test_lines_of_limewater():
    """0.5 L of 40.6 meq/L into 100 L are 0.203 meq/L, a quarter of what is used."""
    lime = limewater(daily_uptake=0.812, evaporation=0.5, volume=100.0)
    assert lime.title == "limewater in place of top-off"
    assert lines_of(lime) == near(
        {
            "most alkalinity": (0.203, "meq/L a day"),
            "share of the uptake": (0.25, ""),
            "limewater to dose": (0.5, "L a day"),
            "lime in it": (0.5 * 0.0203 * 74.092, "g a day"),
            "calcium from it": (0.203 / 2 * 40.078, "mg/L a day"),
        }
    )


def test_lines_of_a_reactor():
    """40 meq a day from 8 meq/L are 5 L, or 5000 mL in 1440 minutes."""
    reactor = calcium_reactor(
        daily_uptake=0.2,
        volume=200.0,
        alkalinity=2.8,
        ph_total=8.0,
        effluent_alkalinity=10.8,
        effluent_ph_total=6.4,
    )
    assert reactor.title == "calcium reactor"
    assert lines_of(reactor) == near(
        {
            "drip rate": (5.0, "L a day"),
            "drip rate, by the minute": (5000 / 1440, "mL a minute"),
            "carbon dioxide in each litre of effluent": (reactor.carbon_dioxide, "mmol/L"),
            "carbon dioxide": (reactor.gas, "g a day"),
            "aragonite that dissolves": (0.020 * 100.086, "g a day"),
            "saturation of aragonite in the effluent": (reactor.omega, ""),
            "pH before (total scale)": (8.0, ""),
            "pH after a day's effluent, without air": (reactor.ph_mixed, ""),
        },
        rel=1e-5,
    )


def test_lines_of_two_bottles_with_magnesium_of_the_skeleton():
    """Half a mole of calcium and magnesium goes: 0.5 / 1.25 and 0.1, which nobody doses."""
    pair = two_part(potency=0.4, bottle=500.0, magnesium_per_calcium=250.0)
    assert pair.title == "two bottles of 500 mL, 0.4 meq of growth in each mL"
    assert lines_of(pair) == near(
        {
            "calcium bottle, CaCl2·2H2O": (0.2 * 0.4 * 147.008, "g"),
            "alkalinity bottle, NaHCO3": (0.2 * 84.006, "g"),
            "left for 1 meq/L of growth, sodium": (22.990, "mg/L"),
            "left for 1 meq/L of growth, chloride": (0.8 * 35.45, "mg/L"),
            "left for 1 meq/L of growth, magnesium": (-0.1 * 24.305, "mg/L"),
            "of that sea salt": (0.0, "mg/L"),
        }
    )


def test_lines_of_three_bottles():
    three = two_part(third=("MgCl2·6H2O", "MgSO4·7H2O", "KCl"), bottle=2000.0)
    assert three.title == "three bottles of 2000 mL, 0.5 meq of growth in each mL"
    found = lines_of(three)
    assert [label for label in found if "bottle" in label] == [
        "calcium bottle, CaCl2·2H2O",
        "alkalinity bottle, NaHCO3",
        "third bottle, MgCl2·6H2O",
        "third bottle, MgSO4·7H2O",
        "third bottle, KCl",
    ]
    assert found["third bottle, KCl"] == (2 * three.third.contents["KCl"], "g")
    assert found["of that sea salt"] == (three.sea_salt, "mg/L")
    assert not any("alkalinity" in label for label in found if label.startswith("left"))


def test_lines_of_an_all_in_one():
    """Ca(HCOO)2 + O2: 65.056 g, 15.999 mg of O2 and 12.011 mg of C for an equivalent."""
    bottle = all_in_one(bottle=500.0)
    assert bottle.title == "a bottle of 500 mL of Ca(HCOO)2, 1 meq in each mL"
    assert lines_of(bottle) == near(
        {
            "Ca(HCOO)2": (32.528, "g"),
            "oxygen for 1 meq/L": (15.999, "mg/L"),
            "organic carbon for 1 meq/L": (12.011, "mg/L"),
            "two-part would leave, NaCl for 1 meq/L": (58.440, "mg/L"),
        }
    )
    both = all_in_one(magnesium_salt="Mg(HCOO)2·2H2O", magnesium_per_calcium=40.0)
    assert both.title == "a bottle of 1000 mL of Ca(HCOO)2 + Mg(HCOO)2·2H2O, 1 meq in each mL"


def test_lines_of_a_balance():
    balance = ionic_balance(
        {"sodium": 1.0, "chloride": 1.0}, daily_uptake=0.3, time=70.0, share=0.1
    )
    assert balance.title == "70 days at 0.3 meq/L a day, 10 % every 7 days"
    found = lines_of(balance)
    ions = {
        f"{ion}, {100 * (end / balance.start[ion] - 1):+.2f} % to": (end, "mg/L")
        for ion, end in balance.end.items()
    }
    assert len(ions) == len(balance.end)
    assert found == near(
        ions
        | {
            "replaced for the salinity, each period": (100 * balance.replaced, "%"),
            "time constant": (balance.settling, "days"),
            "salinity at the end": (35.0, ""),
        }
    )


def test_lines_of_a_comparison():
    comparison = compare_methods(daily_uptake=0.3, volume=100.0, evaporation=0.1)
    assert comparison.title == "methods for 100 L that use 0.3 meq/L a day"
    found = lines_of(comparison)
    assert len(found) == 8 * len(comparison.methods)
    for method in comparison.methods:
        told = {label: entry for label, entry in found.items() if label.startswith(method.name)}
        assert told == near(
            {
                f"{method.name}: carries": (100 * method.carries, "% of the uptake"),
                f"{method.name}: salt gathers": (method.salt, "mg/L a day"),
                f"{method.name}: magnesium": (100 * method.magnesium, "%"),
                f"{method.name}: potassium": (100 * method.potassium, "%"),
                f"{method.name}: water change for the bound": (100 * method.water_change, "%"),
                f"{method.name}: oxygen taken": (method.oxygen, "mg/L a day"),
                f"{method.name}: organic carbon": (method.carbon, "mg/L a day"),
                f"{method.name}: CO2 to leave": (method.carbon_dioxide, "mmol/L a day"),
            }
        )
