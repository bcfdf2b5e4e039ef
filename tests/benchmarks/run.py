"""Speed beside other libraries: ``python tests/benchmarks/run.py``, for about two minutes.

With ``--write`` the results also go to ``shared/benchmarks/latest.json``, which the book shows.

Each case runs here and in the other library by turns, in one process; what is printed is the median
of the ratios of neighbouring runs, which a busy machine moves little. Imports are timed in fresh
interpreters, less the time of an interpreter that does nothing. No test depends on a time.
"""

from __future__ import annotations

import argparse
import importlib.metadata
import json
import os
import platform
import statistics
import subprocess
import sys
import time
import warnings
from datetime import UTC, datetime
from pathlib import Path

import gsw
import numpy as np
import PyCO2SYS

from reefchem.carbonate import carbonate_system
from reefchem.core.quantity import registry
from reefchem.seawater import (
    salinity_from_conductivity,
    salinity_from_density,
    seawater_density,
)
from reefchem.tank import after_water_changes_with_gain

PAIRS = 15
WATER = {"salinity": 35.0, "temperature": 25.0}
ALKALINITY, CARBON, PH, PCO2 = 2300.0, 2000.0, 8.05, 420.0


def seconds(function, least=0.02):
    """Return the time of one call, from enough calls to be seen by the clock."""
    count, spent = 1, 0.0
    while True:
        start = time.perf_counter()
        for _ in range(count):
            function()
        spent = time.perf_counter() - start
        if spent >= least:
            return spent / count
        count = max(2 * count, int(1.2 * count * least / max(spent, 1e-9)))


def paired(ours, theirs, pairs=PAIRS):
    """Return our time, theirs, and the median of the ratios of neighbours."""
    ours(), theirs()
    runs = [(seconds(ours), seconds(theirs)) for _ in range(pairs)]
    mine, other = (statistics.median(column) for column in zip(*runs, strict=True))
    return mine, other, statistics.median(a / b for a, b in runs)


def fresh(code):
    """Return the time of a fresh interpreter that runs some code."""
    start = time.perf_counter()
    subprocess.run([sys.executable, "-I", "-c", code], check=True)
    return time.perf_counter() - start


def imports(ours, theirs):
    """Return times and ratio of two pieces of code in fresh interpreters, net of an empty one."""
    fresh(ours), fresh(theirs)
    runs = []
    for _ in range(PAIRS):
        empty = fresh("")
        runs.append((max(fresh(ours) - empty, 1e-4), max(fresh(theirs) - empty, 1e-4)))
    mine, other = (statistics.median(column) for column in zip(*runs, strict=True))
    return mine, other, mine / other


MEMORY = """
import tracemalloc, warnings
import numpy as np
warnings.simplefilter("ignore")
{setup}
def run(n):
    a = np.linspace(2000.0, 2600.0, n); c = np.linspace(1800.0, 2200.0, n)
    return {call}
run(10)
tracemalloc.start()
result = run(100_000)
print(tracemalloc.get_traced_memory()[1] // 1000)
"""


def growth(setup, call):
    """Return the growth of peak memory, in kilobytes."""
    code = MEMORY.format(setup=setup, call=call)
    made = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True)
    return max(int(made.stdout), 1)


def memory():
    """Return the growth of peak memory for the carbonate system of 1e5 samples, ours and theirs."""
    ours = growth(
        "from reefchem.carbonate import carbonate_system",
        "carbonate_system(total_alkalinity=a, dic=c, salinity=35.0, temperature=25.0).ph_total",
    )
    theirs = growth(
        "import PyCO2SYS",
        "PyCO2SYS.sys(a, c, 1, 2, salinity=35.0, temperature=25.0)['pH_total']",
    )
    return ours, theirs, ours / theirs


def state(**pair):
    """Return pH and saturation from a pair of measurements."""
    made = carbonate_system(**pair, **WATER)
    return made.ph_total, made.omega_aragonite


def peer(first, second, kinds):
    """Return what the peer makes of a pair of measurements."""
    return PyCO2SYS.sys(first, second, *kinds, **WATER)["pH_total"]


YEARS, IONS, SHARE = 10, 20, 0.1


def day_by_day(level, fresh_water, gain):
    """Add something every day and change water every week, with a loop over days."""
    course = []
    for day in range(1, 364 * YEARS + 1):
        level = level + gain / 7
        if day % 7 == 0:
            level = level + SHARE * (fresh_water - level)
            course.append(level)
    return course


def cases():
    """Yield name, aim and a function that returns our time, the peer's and the ratio."""
    yield "import, net / import numpy", 0.10, lambda: imports("import reefchem", "import numpy")
    yield (
        "import and first density / gsw",
        0.20,
        lambda: imports(
            "from reefchem.seawater import seawater_density; seawater_density(35.0, 25.0)",
            "import gsw; gsw.rho(35.0, 25.0, 0.0)",
        ),
    )
    yield (
        "import and first pH and saturation / PyCO2SYS",
        0.08,
        lambda: imports(
            "from reefchem.carbonate import carbonate_system as s;"
            "r = s(total_alkalinity=2300.0, dic=2000.0, salinity=35.0, temperature=25.0);"
            "r.ph_total, r.omega_aragonite",
            "import PyCO2SYS; PyCO2SYS.sys(2300.0, 2000.0, 1, 2, salinity=35.0, temperature=25.0)",
        ),
    )
    yield (
        "density, one / gsw",
        0.5,
        lambda: paired(lambda: seawater_density(35.0, 25.0), lambda: gsw.rho(35.0, 25.0, 0.0)),
    )
    yield (
        "salinity from density, one / gsw",
        1.0,
        lambda: paired(
            lambda: salinity_from_density(1023.0, 25.0), lambda: gsw.SA_from_rho(1023.0, 25.0, 0.0)
        ),
    )
    yield (
        "salinity from conductivity, one / gsw",
        0.7,
        lambda: paired(
            lambda: salinity_from_conductivity(53.0, 25.0), lambda: gsw.SP_from_C(53.0, 25.0, 0.0)
        ),
    )
    yield (
        "carbonate state, one / PyCO2SYS",
        3e-4,
        lambda: paired(
            lambda: state(total_alkalinity=ALKALINITY, dic=CARBON),
            lambda: peer(ALKALINITY, CARBON, (1, 2)),
        ),
    )
    units = registry()
    warm = units.Quantity(25.0, "degC")

    @units.wraps("kg/m**3", (None, "degC"))
    def wrapped(salinity, temperature):
        return seawater_density(salinity, temperature)

    yield (
        "density with units, one / pint's own wraps",
        0.3,
        lambda: paired(lambda: seawater_density(35.0, warm), lambda: wrapped(35.0, warm)),
    )
    random = np.random.default_rng(1)
    million = {
        "salinity": random.uniform(30.0, 40.0, 10**6),
        "temperature": random.uniform(20.0, 30.0, 10**6),
    }
    salinity, temperature = million.values()
    density = seawater_density(salinity, temperature)
    conductivity = random.uniform(45.0, 55.0, 10**6)
    yield (
        "density, 1e6 / gsw",
        0.5,
        lambda: paired(
            lambda: seawater_density(salinity, temperature),
            lambda: gsw.rho(salinity, temperature, 0.0),
        ),
    )
    yield (
        "salinity from density, 1e6 / gsw",
        0.25,
        lambda: paired(
            lambda: salinity_from_density(density, temperature),
            lambda: gsw.SA_from_rho(density, temperature, 0.0),
            pairs=7,
        ),
    )
    yield (
        "salinity from conductivity, 1e6 / gsw",
        1.0,
        lambda: paired(
            lambda: salinity_from_conductivity(conductivity, temperature),
            lambda: gsw.SP_from_C(conductivity, temperature, 0.0),
            pairs=7,
        ),
    )
    many = {
        "total_alkalinity": random.uniform(2000.0, 2600.0, 10**5),
        "dic": random.uniform(1700.0, 1950.0, 10**5),
        "ph_total": random.uniform(7.7, 8.3, 10**5),
        "pco2": random.uniform(300.0, 900.0, 10**5),
    }
    kinds = {"total_alkalinity": 1, "dic": 2, "ph_total": 3, "pco2": 4}
    for first, second, aim in (
        ("total_alkalinity", "dic", 0.012),
        ("total_alkalinity", "ph_total", 0.008),
        ("dic", "ph_total", 0.008),
        ("total_alkalinity", "pco2", 0.012),
    ):
        pair = {first: many[first], second: many[second]}
        codes = (kinds[first], kinds[second])
        yield (
            f"carbonate, 1e5, {first} and {second} / PyCO2SYS",
            aim,
            lambda pair=pair, codes=codes: paired(
                lambda: state(**pair), lambda: peer(*pair.values(), codes), pairs=3
            ),
        )
    yield "carbonate, 1e5, growth of memory / PyCO2SYS (kB)", 0.02, memory
    ions = random.uniform(100.0, 1000.0, IONS)
    weeks = np.arange(1.0, 52 * YEARS + 1)[:, None]
    yield (
        "ten years of 20 ions / a loop over days",
        0.3,
        lambda: paired(
            lambda: after_water_changes_with_gain(ions, 400.0, 7.0, SHARE, weeks),
            lambda: day_by_day(ions, 400.0, 7.0),
            pairs=7,
        ),
    )
    members = random.uniform(1.0, 9.0, 10**5)
    yield (
        "ten years of 1e5 members / all of them day by day",
        0.01,
        lambda: paired(
            lambda: after_water_changes_with_gain(400.0, 400.0, members, SHARE, 52.0 * YEARS),
            lambda: day_by_day(np.full(10**5, 400.0), 400.0, members)[-1],
            pairs=7,
        ),
    )


RESULTS = Path(__file__).resolve().parents[2] / "shared" / "benchmarks" / "latest.json"


def processor():
    """Return the kind of processor, which is all that is said of a machine."""
    known = Path("/proc/cpuinfo")
    lines = known.read_text(encoding="utf-8").splitlines() if known.is_file() else []
    models = [line.partition(":")[2].strip() for line in lines if line.startswith("model name")]
    return models[0] if models else platform.machine()


def setting():
    """Return what the times depend on: day, machine, versions."""
    versions = {n: importlib.metadata.version(n) for n in ("numpy", "gsw", "PyCO2SYS", "Pint")}
    return {
        "command": "python tests/benchmarks/run.py --write",
        "day": datetime.now(UTC).date().isoformat(),
        "processor": processor(),
        "cores": os.cpu_count(),
        "system": platform.system(),
        "python": platform.python_version(),
        "versions": {"reefchem": importlib.metadata.version("reefchem"), **versions},
    }


def main():
    """Print a table of all cases, and write it where that is asked."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--write", action="store_true", help=f"also write {RESULTS.name}")
    chosen = parser.parse_args()
    warnings.simplefilter("ignore")
    made = setting()
    named = ", ".join(f"{name} {version}" for name, version in made["versions"].items())
    print(f"Python {made['python']}, {named}, {made['processor']}\n")  # noqa: T201
    print("| case | here | there | ratio | at most |")  # noqa: T201
    print("|---|---|---|---|---|")  # noqa: T201
    rows = []
    for name, aim, run in cases():
        mine, other, ratio = run()
        unit = "kB" if "(kB)" in name else "s"
        scale = (1, "") if unit == "kB" else (1e6, " µs")
        shown = [f"{value * scale[0]:.4g}{scale[1]}" for value in (mine, other)]
        verdict = "" if ratio <= aim else " (missed)"
        row = f"| {name} | {shown[0]} | {shown[1]} | {ratio:.2g}{verdict} | {aim:g} |"
        print(row, flush=True)  # noqa: T201
        digits = [float(f"{value:.4g}") for value in (mine, other, ratio)]
        keys = ("here", "there", "ratio")
        rows.append(
            {"case": name, "unit": unit, **dict(zip(keys, digits, strict=True)), "at_most": aim}
        )
    if chosen.write:
        RESULTS.parent.mkdir(exist_ok=True)
        text = json.dumps({**made, "cases": rows}, indent=1, ensure_ascii=False)
        RESULTS.write_text(text + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
