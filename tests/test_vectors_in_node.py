"""The JavaScript module in Node gives what the vectors say, to twelve digits, and warns alike."""

import json
import subprocess

from absent import node

from reefchem.core.record import calculations, records
from reefchem.export.calculations import LEFT_OUT, exported_calculations
from reefchem.export.javascript import module_source
from reefchem.export.vectors import as_json, vectors


def test_the_module_meets_every_vector(tmp_path, root):
    every = vectors()
    module, data = tmp_path / "reefchem.mjs", tmp_path / "vectors.json"
    module.write_text(module_source(), encoding="utf-8")
    data.write_text(json.dumps(as_json(every)), encoding="utf-8")
    script = root / "tests" / "export" / "run_vectors.mjs"
    done = subprocess.run(
        [node(), str(script), str(module), str(data)], capture_output=True, text=True, check=True
    )
    report = json.loads(done.stdout)
    assert not report["differing"]
    known = records().keys() | {record.name for record in exported_calculations()}
    asked = {vector.id for vector in every if vector.relation in known}
    assert set(report["compared"]) == asked
    assert {v.relation for v in every if v.id in asked} == known, "everything is compared"


def test_what_the_module_does_not_have_is_named_in_it():
    head = module_source()[:3000]
    own = {record.name for record in exported_calculations()}
    assert own | LEFT_OUT.keys() == calculations().keys() | {"dose_effect"}
    assert all(f"// {name}: {reason}" in head for name, reason in LEFT_OUT.items())
