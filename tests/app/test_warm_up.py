"""Set-up compiles every kernel that a build calls, for the very types that it hands them."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

WORK = """
import json, pickle, sys
from concurrent.futures import Executor, Future
from contextlib import contextmanager
from pathlib import Path
import numpy as np
from numba.core.dispatcher import Dispatcher
from claspwright.app import build_platform
from claspwright.app.slice_solid import SliceWishes, slice_file
from claspwright.app.warm_up import warm_build
from claspwright.formats import write_ply, write_stl
from claspwright.geometry import DistanceTree, box, closest_points, union

def compiled():
    return {
        (module, name): set(kernel.signatures)
        for module in sorted(sys.modules)
        if module.startswith("claspwright.") and module.endswith("_kernels")
        for name, kernel in vars(sys.modules[module]).items()
        if isinstance(kernel, Dispatcher)
    }

class Sent(Executor):  # what a crew does: values go through pickles and files
    def submit(self, work, /, *given):
        told = Future()
        told.set_result(pickle.loads(pickle.dumps(work(*pickle.loads(pickle.dumps(given))))))
        return told

@contextmanager
def crew(*asked):
    yield Sent()

folder = Path(sys.argv[1])
(folder / "warm").mkdir()
warm_build(folder / "warm")
# the coarse case of the main job has asked for nearest points before
tree = DistanceTree(box(np.zeros(3), np.ones(3)))
closest_points(tree, np.zeros((1, 3)))
before = compiled()

results = folder / "results"
results.mkdir()
solid = union(box(np.zeros(3), np.array([9.0, 3.0, 1.5])), box(np.zeros(3), np.array([1, 3, 6.0])))
write_stl(solid, results / "framework.stl")
model = box(np.array([-1.0, -1.0, -5.0]), np.array([10.0, 4.0, 0.0]))
write_ply(model, results / "blocked_out.ply")
(results / "summary.json").write_text(json.dumps({"case_id": "W-1", "path": [0.0, 0.0, 1.0]}))
other = folder / "other.stl"
write_stl(box(np.zeros(3), np.array([5.0, 4.0, 2.0])), other)
wishes = build_platform.BuildWishes("rectangular-250", processes=1)
build_platform.build_platforms([results], folder / "one", wishes)
build_platform._crew = crew
build_platform.build_platforms([results, other], folder / "two", wishes)
for binary in (False, True):
    slice_file(other, folder / "other.cli", SliceWishes(25.0, 80.0, binary=binary))
fresh = [
    f"{module}.{name}{types}"
    for (module, name), kernels in compiled().items()
    for types in kernels - before.get((module, name), set())
]
print(json.dumps([sum(map(len, before.values())), sorted(fresh)]))
"""


def test_a_build_meets_no_kernel_that_set_up_has_not_compiled(tmp_path: Path) -> None:
    told = subprocess.run(
        [sys.executable, "-c", WORK, str(tmp_path)], capture_output=True, text=True, check=False
    )
    assert told.returncode == 0, told.stderr
    known, fresh = json.loads(told.stdout)
    assert known > 30
    assert fresh == []
