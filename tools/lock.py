"""Write the hashed requirement files from pyproject.toml; needs uv on the path.

The files name packages, versions and hashes only: no index address, no path.
"""

from __future__ import annotations

import re
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
HEAD = "# Written by tools/lock.py from pyproject.toml; do not edit.\n"
COMPILE = (
    "uv pip compile --quiet --no-config --universal --python-version 3.11 --generate-hashes "
    "--no-annotate --no-header --no-emit-index-url --no-emit-find-links"
)
UNLIKE = "python-dateutil"  # the one package of which an object store's client wants another


def main() -> int:
    """Write requirements/run.txt, then test.txt and object-store.txt in agreement with it."""
    run = _compiled("pyproject.toml", "--group", "build")
    target = ROOT / "requirements" / "run.txt"
    target.write_text(HEAD + run, encoding="utf-8")
    tested = ("pyproject.toml", "--group", "build", "--group", "test")
    test = _compiled(*tested, "--constraints", str(target))
    (ROOT / "requirements" / "test.txt").write_text(HEAD + test, encoding="utf-8")
    with tempfile.TemporaryDirectory() as folder:
        agreed = Path(folder) / "agreed.txt"
        agreed.write_text(re.sub(rf"(?m)^{UNLIKE}==(.*\\\n)*.*\n", "", test), encoding="utf-8")
        store = _compiled("--group", "object-store", "--constraints", str(agreed))
    (ROOT / "requirements" / "object-store.txt").write_text(HEAD + store, encoding="utf-8")
    return 0


def _compiled(*options: str) -> str:
    command = [*COMPILE.split(), *options]
    done = subprocess.run(command, cwd=ROOT, stdout=subprocess.PIPE, text=True, check=True)
    return done.stdout


if __name__ == "__main__":
    sys.exit(main())
