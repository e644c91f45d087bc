"""DICOM encapsulated STL (PS3.3 A.85.1, Supplement 205): only the mesh is taken out.

Nothing of the patient, study or maker that such a file also carries is read into the case.
"""

from __future__ import annotations

import io
from pathlib import Path

import numpy as np

from claspwright.base import InputError
from claspwright.formats.stl import FACET, welded
from claspwright.formats.text import RawMesh, too_many

ENCAPSULATED_STL = "1.2.840.10008.5.1.4.1.1.104.3"  # check-values J50
MIME = ("model/stl", "application/sla")  # the second stands in public code (J51)
AGAIN = "Export the scan again as encapsulated STL, or as a plain STL file."


def read_dicom(path: Path) -> RawMesh:
    """The binary STL in a DICOM encapsulated STL file.

    Raises:
        InputError: the file is damaged, another kind of DICOM object, or holds no binary STL.
    """
    import pydicom  # slow to import
    from pydicom.errors import InvalidDicomError

    try:
        with pydicom.config.disable_value_validation():
            held = pydicom.dcmread(io.BytesIO(path.read_bytes()))
            kind = str(held.get("SOPClassUID", ""))
            mime = str(held.get("MIMETypeOfEncapsulatedDocument", "")).strip("\0 ").lower()
            payload = bytes(held.get("EncapsulatedDocument", b"") or b"")
    except (InvalidDicomError, EOFError, OSError, ValueError, AttributeError) as error:
        raise InputError(
            f"the DICOM file cannot be read ({error})", place=path.name, remedy=AGAIN
        ) from error
    if kind != ENCAPSULATED_STL:
        named = pydicom.uid.UID(kind).name if kind else "none"
        raise InputError(
            f"the DICOM object is {named}, not an encapsulated STL",
            place=f"{path.name}, (0008,0016)",
            remedy="Give the surface scan, not pictures or volumes.",
        )
    if mime and mime not in MIME:
        raise InputError(
            f"the encapsulated document is {mime!r}, not model/stl",
            place=f"{path.name}, (0042,0012)",
            remedy=AGAIN,
        )
    return _mesh(payload, path.name)


def _mesh(payload: bytes, name: str) -> RawMesh:
    """A binary STL; DICOM pads odd lengths by one byte."""
    place = f"{name}, (0042,0011)"
    n = int.from_bytes(payload[80:84], "little") if len(payload) >= 84 else -1
    if n >= 0:
        too_many(n, place)
    if n < 0 or len(payload) not in (84 + 50 * n, 85 + 50 * n):
        raise InputError(
            f"the encapsulated document has {len(payload):,} bytes, which is no whole binary STL",
            place=place,
            remedy=AGAIN,
        )
    facets = np.frombuffer(payload, dtype=FACET, count=n, offset=84)
    with np.errstate(invalid="ignore"):
        return welded(facets["corners"].astype(np.float64))
