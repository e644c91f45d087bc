"""Whether a case may leave the laboratory, by all that the register holds of it."""

from __future__ import annotations

from typing import Any

from claspwright.base import Finding, InfeasibleError, InputError
from claspwright.records import Register, Signed, made_from, trace

Row = tuple[str, dict[str, Any]]  # Any: a JSON object
SOURCE = "the laboratory's own register"


def open_stops(register: Register, case_id: str, *, on: str) -> tuple[Finding, ...]:
    """Everything that keeps a case from being dispatched, as stops.

    A case needs an approved revision, each framework a furnace run and an inspection that
    passed, powder whose lot has a certificate, no open non-conformity, instruments within
    their calibration, and the statement that goes with the device.

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
    found += _nonconformities(register, [subject, *(f"part:{part}" for part, _ in parts)])
    titles = {body["title"] for _, body in made_from(register, subject, "document")}
    if not any("Statement" in title for title in titles):
        found.append(_stop("dispatch.statement", "The statement for a custom-made device is not "
                           "made yet."))  # fmt: skip
    return tuple(found)


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
            "the case must not leave: " + " ".join(stop.text for stop in stops),
            place=case_id,
            remedy="Close every stop first.",
        )
    return register.add("dispatch", case_id, {"case": case_id, "sent": signed.at}, signed)


def _approval(register: Register, subject: str) -> list[Finding]:
    revisions = made_from(register, subject, "revision")
    if not revisions:
        return [_stop("dispatch.revision", "No revision of the design is entered.")]
    revision, body = revisions[-1]
    given = made_from(register, f"revision:{revision}", "approval")
    if not any(a["approved"] and a["hash"] == body["hash"] for _, a in given[-1:]):
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
    inspections = made_from(register, f"part:{part}", "inspection")
    if not inspections or not inspections[-1][1]["passed"]:
        words = "failed its inspection" if inspections else "was not inspected"
        found.append(_stop("dispatch.inspection", f"Framework {part} {words}.", part))
    lots = trace(register, f"part:{part}").ids("lot")
    if not lots:
        found.append(_stop("dispatch.lot", f"No lot of powder is known for {part}.", part))
    for lot in lots:
        now = register.current("lot", lot)
        if now is None or not (now[1].get("certificate") or now[1].get("certificate_file")):
            found.append(_stop("dispatch.certificate", f"Lot {lot} has no certificate.", part))
    used = [row["instrument"] for _, row in (*runs[-1:], *inspections[-1:]) if "instrument" in row]
    for instrument in sorted(set(used)):
        found += _calibration(register, instrument, part, on)
    return found


def _calibration(register: Register, instrument: str, part: str, on: str) -> list[Finding]:
    done = made_from(register, f"instrument:{instrument}", "calibration")
    if not done or not done[-1][1]["passed"] or done[-1][1]["due"] < on:
        return [_stop("dispatch.calibration", f"Instrument {instrument} is not calibrated on "
                      f"{on}.", part)]  # fmt: skip
    return []


def _replaced(register: Register, part: str) -> bool:
    """Whether a framework was made again and is out of use."""
    known = made_from(register, f"part:{part}", "nonconformity")
    return any(body.get("remake") and not body["open"] for _, body in known)


def _nonconformities(register: Register, subjects: list[str]) -> list[Finding]:
    return [
        _stop("dispatch.nonconformity", f"Non-conformity {id_} is open: {body['cause']}.")
        for subject in subjects
        for id_, body in made_from(register, subject, "nonconformity")
        if body["open"]
    ]


def _stop(rule: str, text: str, component: str = "") -> Finding:
    return Finding(rule, "stop", text, SOURCE, component=component)
