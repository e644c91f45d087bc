"""Build the bench's page into the package, or check that what lies there is built from this.

``python tools/frontend.py`` needs Node 20.19 or later with npm, for developers alone: the built
page lies in the package, so that installing and running needs Python only.
``python tools/frontend.py --check`` needs no Node: it compares the hash of the sources.
"""

from __future__ import annotations

import hashlib
import json
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
FRONTEND = ROOT / "frontend"
STATIC = ROOT / "src" / "claspwright" / "web" / "static"
STAMP = "sources.sha256"


def main(words: list[str]) -> int:
    """Build, or check; returns the exit code."""
    wanted = sources_hash()
    if words == ["--check"]:
        stamp = STATIC / STAMP
        if stamp.is_file() and stamp.read_text(encoding="utf-8").strip() == wanted:
            return 0
        print("The page in the package is not built from frontend/: run tools/frontend.py.")
        return 1
    npm = shutil.which("npm")
    if npm is None:
        print("Building the page needs Node 20.19 or later with npm.")
        return 2
    if not (FRONTEND / "node_modules").is_dir():
        subprocess.run([npm, "ci", "--ignore-scripts"], cwd=FRONTEND, check=True)
    write_schema(FRONTEND / "src" / "api" / "schema.d.ts", npm)
    subprocess.run([npm, "run", "--silent", "check"], cwd=FRONTEND, check=True)
    subprocess.run([npm, "run", "--silent", "build"], cwd=FRONTEND, check=True)
    write_licences(STATIC / "licences.txt")
    (STATIC / STAMP).write_text(sources_hash() + "\n", encoding="utf-8")
    return 0


def write_schema(target: Path, npm: str) -> None:
    """Types of the server's routes, from its OpenAPI description."""
    from claspwright.web import create_app

    class NoJobs:
        """Stands in for the jobs; nothing is asked of it."""

    with tempfile.TemporaryDirectory() as name:
        from claspwright.app.bench.laboratory import Laboratory

        app = create_app(Laboratory(Path(name)), NoJobs(), "")
        described = Path(name) / "openapi.json"
        described.write_text(json.dumps(app.openapi()), encoding="utf-8")
        target.parent.mkdir(parents=True, exist_ok=True)
        run = [npm, "exec", "--", "openapi-typescript", str(described), "-o", str(target)]
        subprocess.run(run, cwd=FRONTEND, check=True, stdout=subprocess.DEVNULL)


def write_licences(target: Path) -> None:
    """The licence texts of the libraries that the built page contains."""
    listed = json.loads((FRONTEND / "package-lock.json").read_text(encoding="utf-8"))["packages"]
    texts = []
    for place, facts in sorted(listed.items()):
        if not place or facts.get("dev"):
            continue
        folder = FRONTEND / place
        found = sorted(folder.glob("LICEN[CS]E*"))
        text = found[0].read_text(encoding="utf-8") if found else facts.get("license", "")
        name = place.removeprefix("node_modules/")
        texts.append(f"{name} {facts['version']} ({facts.get('license', '')})\n\n{text.strip()}\n")
    target.write_text(("\n" + "-" * 70 + "\n\n").join(texts), encoding="utf-8")


def sources_hash() -> str:
    """Hash of everything that the page is built from."""
    total = hashlib.sha256()
    names = ("package.json", "package-lock.json", "tsconfig.json", "vite.config.ts", "index.html")
    files = [FRONTEND / name for name in names] + sorted((FRONTEND / "src").rglob("*"))
    for path in files:
        if path.is_file():
            total.update(path.relative_to(FRONTEND).as_posix().encode() + b"\0")
            total.update(path.read_bytes().replace(b"\r\n", b"\n"))
    return total.hexdigest()


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
