"""Whether a case may leave the laboratory, by all that the register holds of it."""

from __future__ import annotations

from typing import Any

from claspwright.app.before_after import FILM
from claspwright.app.calibration import calibrated
from claspwright.base import Finding, InfeasibleError, InputError
from claspwright.records import Register, Signed, made_from, trace

Row = tuple[str, dict[str, Any]]  # Any: a JSON object
SOURCE = "the laboratory's own register"


def open_stops(register: Register, case_id: str, *, on: str) -> tuple[Finding, ...]:
    """Everything that keeps a case from being dispatched, as stops.

    A case needs an approved revision, each framework a furnace run and an inspection that
    passed, powder whose lot has a certificate, no open non-conformity of it or of what it came
    from, instruments within their calibration, the altered cast where one is needed, and the
    statement that goes with the device.

    Args:
        register: the open register.
        case_id: the case.
        on: the day, YYYY-MM-DD.

    Raises:
        InputError: the case is not in the register.
    """
    if register.current("case", case_id) is None:
        raise InputError("this case is not in the register", place=case_id)
    subject = f"case:{case_id}"
    parts = made_from(register, subject, "part")
    found = [] if parts else [_stop("dispatch.part", "No framework is entered for the case.")]
    found += _approval(register, subject)
    for part, body in parts:
        if not _replaced(register, part):
            found += _of_part(register, part, body, on)
    found += _nonconformities(register, _behind(register, subject, parts))
    found += _altered_cast(register, subject)
    return (*found, *_statement(register, subject))


def dispatch(register: Register, case_id: str, signed: Signed) -> int:
    """Enter that a case has been sent.

    Returns:
        The number of the entry.

    Raises:
        InfeasibleError: a stop is open.
    """
    stops = open_stops(register, case_id, on=signed.at[:10])
    if stops:
        raise InfeasibleError(
            "the case must not leave: " + " ".join(stop.text for stop in stops).rstrip("."),
            place=case_id,
            remedy="Close every stop first.",
        )
    return register.add("dispatch", case_id, {"case": case_id, "sent": signed.at}, signed)


def _statement(register: Register, subject: str) -> list[Finding]:
    """A stop where no statement was made, or none for the revision as it is approved now."""
    made = [body for _, body in made_from(register, subject, "document")
            if "Statement" in body["title"]]  # fmt: skip
    if not made:
        return [_stop("dispatch.statement", "The statement for a custom-made device is not made "
                      "yet.")]  # fmt: skip
    now = approved_hash(register, subject.removeprefix("case:"))
    if now and all(body.get("revision_hash", now) != now for body in made):
        return [_stop("dispatch.statement", "The statement for a custom-made device was made for "
                      "another revision or before the approval: write it anew.")]  # fmt: skip
    return []


def approved_hash(register: Register, case_id: str) -> str:
    """Hash of the latest revision of a case, if the prescriber approved it as it is; else empty."""
    revisions = made_from(register, f"case:{case_id}", "revision")
    if not revisions:
        return ""
    revision, body = revisions[-1]
    given = made_from(register, f"revision:{revision}", "approval")[-1:]
    good = any(a["approved"] and a["hash"] == body["hash"] for _, a in given)
    return str(body["hash"]) if good else ""


def _approval(register: Register, subject: str) -> list[Finding]:
    revisions = made_from(register, subject, "revision")
    if not revisions:
        return [_stop("dispatch.revision", "No revision of the design is entered.")]
    revision = revisions[-1][0]
    if not approved_hash(register, subject.removeprefix("case:")):
        return [_stop("dispatch.approval", f"The prescriber has not approved revision {revision} "
                      "as it stands (the hash differs or there is no approval).")]  # fmt: skip
    return []


def _of_part(register: Register, part: str, body: dict[str, Any], on: str) -> list[Finding]:
    found = []
    build = f"build:{body['build']}"
    runs = made_from(register, build, "furnace_run")
    if not runs or not runs[-1][1]["passed"]:
        words = "failed its stress relief" if runs else "has no proof of stress relief"
        found.append(_stop("dispatch.furnace", f"Framework {part} {words}.", part))
    latest = {b.get("what", ""): b for _, b in made_from(register, f"part:{part}", "inspection")}
    judged = [what for what in latest if what != FILM]  # a film confirms, it is no inspection
    for what, seen in [*latest.items(), *([] if judged else [("", None)])]:
        if seen is None or not seen["passed"]:
            words = f"failed its inspection {what}".strip() if seen else "was not inspected"
            found.append(_stop("dispatch.inspection", f"Framework {part} {words}.", part))
    lots = trace(register, f"part:{part}").ids("lot")
    if not lots:
        found.append(_stop("dispatch.lot", f"No lot of powder is known for {part}.", part))
    for lot in lots:
        now = register.current("lot", lot)
        if now is None or not (now[1].get("certificate") or now[1].get("certificate_file")):
            found.append(_stop("dispatch.certificate", f"Lot {lot} has no certificate.", part))
        elif not now[1].get("certificate_passed", True):
            found.append(_stop("dispatch.certificate", f"Lot {lot} fails its specification.", part))
    return found + _instruments(register, part, [*(b for _, b in runs[-1:]), *latest.values()], on)


def _instruments(
    register: Register, part: str, used: list[dict[str, Any]], on: str
) -> list[Finding]:
    """Stops of instruments that are out of calibration, or were when they were used."""
    found = []
    for name in sorted({row["instrument"] for row in used if "instrument" in row}):
        then = all(row.get("calibrated", True) for row in used if row.get("instrument") == name)
        if not then or not calibrated(register, name, on)[0]:
            when = on if then else "the day it was used"
            found.append(_stop("dispatch.calibration", f"Instrument {name} is not calibrated on "
                               f"{when}.", part))  # fmt: skip
    return found


def _altered_cast(register: Register, subject: str) -> list[Finding]:
    flags = made_from(register, subject, "altered_cast")
    if flags and flags[-1][1]["needed"] and not flags[-1][1].get("done"):
        return [_stop("dispatch.altered_cast", "The altered cast of the free ends is not done.")]
    return []


def _behind(register: Register, subject: str, parts: list[Row]) -> list[str]:
    """The case, its parts, and the runs, builds, batches and lots that they came from."""
    out = [subject]
    for part, body in parts:
        if _replaced(register, part):
            continue
        out.append(f"part:{part}")
        found = trace(register, f"part:{part}").found
        out += [
            f"{kind}:{id_}" for kind in ("build", "batch", "lot") for id_ in found.get(kind, ())
        ]
        runs = made_from(register, f"build:{body['build']}", "furnace_run")
        out += [f"furnace_run:{id_}" for id_, _ in runs[-1:]]
    return list(dict.fromkeys(out))


def _replaced(register: Register, part: str) -> bool:
    """Whether a framework was made again and is out of use."""
    known = made_from(register, f"part:{part}", "nonconformity")
    return any(body.get("remake") and not body["open"] for _, body in known)


def _nonconformities(register: Register, subjects: list[str]) -> list[Finding]:
    return [
        _stop(
            "dispatch.nonconformity", f"Non-conformity {id_} is open: {body['cause'].rstrip('.')}."
        )
        for subject in subjects
        for id_, body in made_from(register, subject, "nonconformity")
        if body["open"]
    ]


def _stop(rule: str, text: str, component: str = "") -> Finding:
    return Finding(rule, "stop", text, SOURCE, component=component)
