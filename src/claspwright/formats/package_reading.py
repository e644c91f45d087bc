"""3MF packages to meshes (3MF Core Specification), through the consortium's own library."""

from __future__ import annotations

import zipfile
from pathlib import Path
from typing import Any

import lib3mf
import numpy as np
from numpy.typing import NDArray

from claspwright.base import InputError
from claspwright.formats.text import RawMesh, too_many

LIBRARY: Any = lib3mf  # the library carries no types
AGAIN = "The file is damaged or was cut off; export or copy it again, or save it as STL."
MAX_UNPACKED = 1_500_000_000  # bytes; about 10 million triangles as XML
MM = {0: 0.001, 1: 1.0, 2: 10.0, 3: 25.4, 4: 304.8, 5: 1000.0}  # micron .. meter (J30)


def is_3mf(path: Path) -> bool:
    """Whether a zip archive holds a 3MF model; False also where it cannot be opened."""
    try:
        with zipfile.ZipFile(path) as archive:
            return any(name.lower().endswith(".model") for name in archive.namelist())
    except zipfile.BadZipFile:
        return False


def read_3mf(path: Path) -> RawMesh:
    """Every build item of a package as one mesh in mm, placed as the package says.

    Raises:
        InputError: the package is broken, too large unpacked, asks for an extension that is not
            known (J31), or builds no mesh.
    """
    _check_size(path)
    model = LIBRARY.get_wrapper().CreateModel()
    reader = model.QueryReader("3mf")
    reader.SetStrictModeActive(False)
    try:
        reader.ReadFromFile(str(path))
    except lib3mf.ELib3MFException as error:
        raise InputError(
            f"the 3MF package cannot be read ({error})", place=path.name, remedy=AGAIN
        ) from error
    factor = MM[int(model.GetUnit())]
    vertices: list[NDArray[np.float64]] = []
    faces: list[NDArray[np.int32]] = []
    items = model.GetBuildItems()
    while items.MoveNext():
        item = items.GetCurrent()
        _gather(item.GetObjectResource(), _matrix(item.GetObjectTransform()), (vertices, faces))
    if not faces:
        raise InputError(
            "the 3MF package builds no mesh", place=path.name, remedy="Save the scan as STL."
        )
    shift = np.cumsum([0, *(len(v) for v in vertices)])
    joined = [f + n for f, n in zip(faces, shift[:-1], strict=True)]
    too_many(sum(len(f) for f in faces), path.name)
    return RawMesh(factor * np.concatenate(vertices), np.concatenate(joined).astype(np.int32))


def _check_size(path: Path) -> None:
    with zipfile.ZipFile(path) as archive:
        unpacked = sum(entry.file_size for entry in archive.infolist())
    if unpacked > MAX_UNPACKED:
        raise InputError(
            f"the package holds {unpacked / 1e6:,.0f} MB, the limit is {MAX_UNPACKED / 1e6:,.0f}",
            place=path.name,
            remedy="Thin the mesh in the scanning program; 0.1 to 0.2 mm edges are enough.",
        )


def _matrix(transform: Any) -> NDArray[np.float64]:
    """(4, 4) matrix for column vectors; Any: the library carries no types."""
    rows = np.array([[transform.Fields[i][j] for j in range(3)] for i in range(4)])
    out = np.eye(4)
    out[:3, :3] = rows[:3].T
    out[:3, 3] = rows[3]
    return out


def _gather(
    resource: Any,
    place: NDArray[np.float64],
    into: tuple[list[NDArray[np.float64]], list[NDArray[np.int32]]],
) -> None:
    """Add the meshes of an object, and of the parts that it is put together from.

    Any: the library carries no types.
    """
    if resource.IsMeshObject():
        points = np.array([v.Coordinates[:] for v in resource.GetVertices()], dtype=np.float64)
        corners = np.array([t.Indices[:] for t in resource.GetTriangleIndices()], dtype=np.int32)
        if len(corners):
            into[0].append(points.reshape(-1, 3) @ place[:3, :3].T + place[:3, 3])
            turned = np.linalg.det(place[:3, :3]) < 0  # a mirroring transform turns the faces
            into[1].append(corners[:, ::-1] if turned else corners)
    elif resource.IsComponentsObject():
        for k in range(resource.GetComponentCount()):
            component = resource.GetComponent(k)
            inner = _matrix(component.GetTransform()) if component.HasTransform() else np.eye(4)
            _gather(component.GetObjectResource(), place @ inner, into)
