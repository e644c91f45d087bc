"""The commands: exit codes, what goes where, and quick answers."""

from __future__ import annotations

import json
import signal
import subprocess
import sys
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest

from claspwright import __version__
from claspwright.app.folder import RESULT_NAMES
from claspwright.cli import main


@dataclass(frozen=True)
class Ended:
    """How a command ended."""

    returncode: int
    stdout: str
    stderr: str


Command = Callable[..., Ended]


@pytest.fixture
def command(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Command:
    """Run the command as a user does, but in this process."""

    def run(*words: str) -> Ended:
        monkeypatch.setattr(sys, "argv", ["claspwright", *words])
        handlers = {n: signal.getsignal(n) for n in (signal.SIGINT, signal.SIGTERM)}
        try:
            main()
            code = 0
        except SystemExit as end:
            code = int(end.code or 0)
        finally:
            for number, handler in handlers.items():
                signal.signal(number, handler)
        told = capsys.readouterr()
        return Ended(code, told.out, told.err)

    return run


def test_help_and_version(command: Command) -> None:
    assert command("--version").stdout.strip() == __version__
    shown = command("--help").stdout
    for name in ("run", "new", "marks", "classify", "demo-arch", "demo"):
        assert name in shown


@pytest.mark.reference("check-values A: worked Kennedy cases K1, K4, K7, K10, K13, K15")
@pytest.mark.parametrize(
    ("arch", "missing", "more", "kennedy", "modifications"),
    [
        ("mandible", "35,36,37,38,45,46,47,48", (), "I", 0),
        ("maxilla", "11,21", (), "IV", 0),
        ("mandible", "36,37,45", (), "II", 1),
        ("maxilla", "16,26,11,21", (), "III", 2),
        ("mandible", "35,36,37", ("--present-abutment", "38"), "III", 0),
        ("mandible", "37,46", ("--not-replaced", "37"), "III", 0),
    ],
)
def test_classify_answers_as_json(
    command: Command,
    arch: str,
    missing: str,
    more: tuple[str, ...],
    kennedy: str,
    modifications: int,
) -> None:
    done = command("classify", "--arch", arch, "--missing", missing, *more, "--json")
    assert (done.returncode, done.stderr) == (0, "")
    assert json.loads(done.stdout) == {"kennedy_class": kennedy, "modifications": modifications}


@pytest.mark.parametrize(
    ("words", "reason"),
    [
        (("--arch", "mandible", "--missing", "36,99"), "99 is no tooth in ISO 3950"),
        (("--arch", "mandible", "--missing", "16"), "stands in the maxilla"),
        (("--arch", "mandible", "--missing", ""), "nothing is to be replaced"),
        (("--arch", "mandible", "--missing", "3x"), "no tooth code"),
        (("--arch", "jaw", "--missing", "36"), "--arch"),
        (("--missing", "36"), "--arch"),
    ],
)
def test_classify_refuses_with_the_reason(
    command: Command, words: tuple[str, ...], reason: str
) -> None:
    done = command("classify", *words, "--json")
    assert done.returncode == 2
    assert done.stdout == "" and reason in done.stderr
    assert "Traceback" not in done.stderr


def test_classify_reads_universal_numbers(command: Command) -> None:
    words = ("--arch", "mandible", "--missing", "19 18", "--notation", "universal", "--json")
    done = command("classify", *words)
    assert json.loads(done.stdout) == {"kennedy_class": "II", "modifications": 0}


def test_new_makes_a_case_folder(command: Command, tmp_path: Path) -> None:
    scan = tmp_path / "lower.stl"
    scan.write_bytes(b"scan")
    folder = tmp_path / "B-9"
    words = ("--master", str(scan), "--missing", "36,37", "--anterior-tilt-deg", "-3.5")
    done = command("new", str(folder), *words, "--due", "2026-12-04")
    assert (done.returncode, done.stderr) == (0, "")
    sheet = (folder / "case.toml").read_text("utf-8")
    assert 'arch = "mandible"' in sheet and "anterior_tilt_deg = -3.5" in sheet
    assert (folder / "scans" / "lower.stl").read_bytes() == b"scan"
    again = command("new", str(folder), *words)
    assert again.returncode == 2 and "in use" in again.stderr


@pytest.mark.parametrize("where", ["nowhere", "case"])
def test_a_bad_case_is_told_on_stderr(command: Command, tmp_path: Path, where: str) -> None:
    (tmp_path / "case").mkdir()
    (tmp_path / "case" / "case.toml").write_text("claspwright = 1\n[case]\naloy = 3\n")
    done = command("run", str(tmp_path / where), "--out", str(tmp_path / "out"))
    assert done.returncode == 2
    assert "case.toml" in done.stderr and "Traceback" not in done.stderr
    assert not (tmp_path / "out").exists()


@pytest.mark.slow
def test_an_arch_with_an_allergy_ends_with_a_stop_and_all_results(
    command: Command, tmp_path: Path
) -> None:
    made = command(
        *("demo-arch", "--arch", "maxilla", "--missing", "15,16,24,25", "--edge-mm", "0.5"),
        *("--out", str(tmp_path / "case"), "--seed", "2"),
    )
    assert (made.returncode, made.stderr) == (0, "")
    sheet = tmp_path / "case" / "case.toml"
    text = sheet.read_text("utf-8").replace("alloy =", 'allergies = ["cobalt"]\nalloy =')
    sheet.write_text(text, "utf-8")
    done = command("run", str(sheet), "--out", str(tmp_path / "out"))
    assert done.returncode == 1, done.stderr
    assert "allergy.metal" in done.stdout
    names = {file.name for file in (tmp_path / "out").iterdir()}
    assert names == RESULT_NAMES - {"wires.stl", "framework_to_build.stl"}  # not asked for


def test_quick_commands_do_not_load_what_they_do_not_need() -> None:
    code = "import sys, claspwright.cli; print([m for m in ('numba', 'numpy', 'rich.progress', "
    code += "'pydantic', 'typst', 'manifold3d') if m in sys.modules])"
    line = [sys.executable, "-c", code]
    done = subprocess.run(line, capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
