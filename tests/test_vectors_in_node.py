"""The JavaScript module in Node gives what the vectors say, to twelve digits."""

import json
import os
import shutil
import subprocess

import pytest

from reefchem.core.record import records
from reefchem.export.javascript import module_source
from reefchem.export.vectors import as_json, vectors


def test_the_module_meets_every_vector(tmp_path, root):
    if shutil.which("node") is None:
        if os.environ.get("CI"):
            pytest.fail("CI is set, but there is no Node")
        pytest.skip("there is no Node to run the module")
    every = vectors()
    module, data = tmp_path / "reefchem.mjs", tmp_path / "vectors.json"
    module.write_text(module_source(records().values()), encoding="utf-8")
    data.write_text(json.dumps(as_json(every)), encoding="utf-8")
    script = root / "tests" / "export" / "run_vectors.mjs"
    done = subprocess.run(
        ["node", str(script), str(module), str(data)], capture_output=True, text=True, check=True
    )
    report = json.loads(done.stdout)
    assert not report["differing"]
    asked = [v for v in every if v.relation in records() and not v.options]
    assert report["compared"] == len(asked)
    assert {v.relation for v in asked} == set(records()), "every relation is compared"
