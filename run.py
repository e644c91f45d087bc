"""Set up and run Claspwright with nothing but a Python: `python run.py demo`, `test` or `setup`.

Makes `.venv` beside this file, installs the locked packages into it, compiles the kernels once
and does what was asked. A second run finds everything in place and starts at once.
"""

from __future__ import print_function

import sys

if not ((3, 11) <= sys.version_info[:2] < (3, 15)):
    sys.exit(
        "Claspwright needs Python 3.11 to 3.14; this one is %d.%d (%s).\n"
        "Start run.py with a newer one, for instance: python3.12 run.py demo"
        % (sys.version_info[0], sys.version_info[1], sys.executable)
    )

import hashlib
import os
import shutil
import subprocess
from pathlib import Path

ROOT = Path(__file__).resolve().parent
VENV = ROOT / ".venv"
BIN = VENV / ("Scripts" if os.name == "nt" else "bin")
PYTHON = BIN / ("python.exe" if os.name == "nt" else "python")
CHECKS = (
    ("style", ["ruff", "check", "."]),
    ("layout", ["ruff", "format", "--check", "."]),
    ("types", ["mypy"]),
    ("layers", ["lint-imports"]),
    ("file sizes and locks", ["python", "tools/check_files.py"]),
    ("generated pages", ["python", "tools/make_docs.py", "--check"]),
    ("built page of the bench", ["python", "tools/frontend.py", "--check"]),
    ("rule book", ["python", "tools/rule_book.py", "--check"]),
    ("tests", ["python", "-m", "pytest", "--durations=15"]),
)
HELP = """python run.py setup    make .venv and install; the command is then %s
python run.py demo     an invented case from scan to print-ready framework
python run.py test     all checks and tests; further words go to pytest""" % (
    BIN.relative_to(ROOT) / "claspwright"
)


def main(words):
    """Do what the first word says."""
    task = words[0] if words else ""
    if task == "setup":
        install("run")
        print("Ready: %s" % (BIN / "claspwright"))
        return 0
    if task == "demo":
        install("run")
        return run([str(PYTHON), "-m", "claspwright.cli", "demo"] + words[1:])
    if task == "test":
        install("test")
        install_beside("object-store")
        return test(words[1:])
    print(HELP)
    return 0 if task in ("-h", "--help", "help") else 2


def install(purpose):
    """Make .venv hold the locked packages for a purpose, "run" or "test"."""
    make_venv()
    # What the tests need includes what a run needs.
    if not any(read(stamp(name)) == wanted(name) for name in {purpose, "test"}):
        print("Installing the locked packages into .venv; this takes a minute or two.", flush=True)
        pip = [str(PYTHON), "-m", "pip", "install", "-qq", "--disable-pip-version-check"]
        if purpose == "run":
            # Python compiles what it imports: a part of it all, in a quarter of the time. For
            # the tests all is compiled here, where a compiler's warning is no error.
            pip.append("--no-compile")
        locked = ["--require-hashes", "-r", "requirements/%s.txt" % purpose]
        must(pip + locked, "The locked packages could not be installed.")
        own = ["--no-deps", "--no-build-isolation", "--editable", "."]
        must(pip + own, "Claspwright itself could not be installed.")
        stamp(purpose).write_text(wanted(purpose))
    warm_up()


def install_beside(purpose):
    """Put locked packages that would not agree with the others into a folder within .venv."""
    if read(stamp(purpose)) == wanted(purpose):
        return
    shutil.rmtree(str(VENV / purpose), ignore_errors=True)
    pip = [str(PYTHON), "-m", "pip", "install", "-qq", "--disable-pip-version-check", "--no-deps"]
    locked = ["--require-hashes", "-r", "requirements/%s.txt" % purpose]
    target = ["--no-compile", "--target", str(VENV / purpose)]
    must(pip + locked + target, "Locked packages of the tests could not be installed.")
    stamp(purpose).write_text(wanted(purpose))


def make_venv():
    """Make .venv, or make it anew where its Python is gone or of another version."""
    if PYTHON.exists():
        ask = [str(PYTHON), "-c", "import sys, pip; print('%d.%d' % sys.version_info[:2])"]
        found = subprocess.run(ask, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL)
        if found.returncode == 0:
            return
    try:
        import ensurepip
        import venv
    except ImportError:
        sys.exit(
            "This Python lacks the venv and ensurepip modules.\n"
            "On Debian and Ubuntu they come with: sudo apt install python3-venv"
        )
    del ensurepip
    print("Making .venv with Python %d.%d." % sys.version_info[:2], flush=True)
    try:
        venv.EnvBuilder(with_pip=True, clear=VENV.exists(), symlinks=os.name != "nt").create(VENV)
    except (OSError, subprocess.CalledProcessError) as error:
        sys.exit(".venv could not be made in %s: %s" % (ROOT, error))


def stamp(purpose):
    """File that says for which locks .venv was filled."""
    return VENV / (".installed-%s" % purpose)


def wanted(purpose):
    """What that file holds when nothing has changed since."""
    return digest([ROOT / "pyproject.toml", ROOT / "requirements" / (purpose + ".txt")])


def warm_up():
    """Compile the number-crunching kernels into the cache, once for each state of their code."""
    sources = sorted((ROOT / "src").rglob("*_kernels.py"))
    types = sorted((ROOT / "src").rglob("kernel_types.*"))  # what they are compiled for
    done = VENV / ".compiled"
    state = digest(sources + types + [ROOT / "requirements/run.txt"])
    if read(done) == state:
        return
    print("Compiling the kernels; this is done once and takes about a minute.", flush=True)
    compiler = [str(PYTHON), "-m", "claspwright.app.warm_up"]
    must(compiler, "The kernels could not be compiled.")
    done.write_text(state)


def test(words):
    """Every check in turn; all are run, so that one run shows all that fails."""
    failed = []
    for name, command in CHECKS:
        print("== %s" % name, flush=True)
        program = str(PYTHON) if command[0] == "python" else str(BIN / command[0])
        more = words if "pytest" in command else []
        if run([program] + command[1:] + more):
            failed.append(name)
    print("Failed: %s" % ", ".join(failed) if failed else "All checks passed.", flush=True)
    return 1 if failed else 0


def digest(paths):
    """Hash of some files, of this folder's place and of this Python."""
    total = hashlib.sha256(("%s %s" % (sys.version, ROOT)).encode())
    for path in paths:
        total.update(path.read_bytes())
    return total.hexdigest()


def read(path):
    """Text of a file, or nothing."""
    return path.read_text() if path.exists() else ""


def must(command, complaint):
    """Run a command that has to succeed."""
    if run(command):
        sys.exit("%s The lines above say why; a network is needed the first time." % complaint)


def run(command):
    """Exit code of a command run in the project's folder."""
    try:
        return subprocess.call(command, cwd=str(ROOT))
    except KeyboardInterrupt:
        return 130


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
