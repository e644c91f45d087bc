"""What is true of a scan: holes, resolution, folds, coverage, and what was assumed about it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from embreex import rtcore_scene
from embreex.mesh_construction import TriangleMesh
from scipy.spatial import cKDTree

from claspwright.arch.close import Closed
from claspwright.arch.holes import Hole
from claspwright.arch.model import Jaw
from claspwright.arch.orient import ArchFrame
from claspwright.arch.repair import BIG_PIECE, Cleaning
from claspwright.arch.scan_kind import kind_findings
from claspwright.arch.units import UnitGuess
from claspwright.base import Finding, Floats, Severity
from claspwright.geometry import Mesh, face_areas

PRACTICE = "common practice, no source"
OWN = "own measurement on research scans of whole arches"
COARSE_MM = 0.3  # longer edges cannot show undercuts of hundredths of a millimetre
NOISY_UM = 30.0  # rougher places cannot show them either
TOOTH_ZONE_MM = 6.0  # holes less deep than this below the occlusal plane are on teeth
SULCUS_MM = 9.0  # crowns are 7 to 11 mm long; a border higher than that shows hardly any gum
SHORT_TIPS_MM = 12.0  # tooth tips closer together from front to back do not fix a plane


@dataclass(frozen=True, slots=True, eq=False)
class ScanRecord:
    """What the steps of intake found, before it is put into words."""

    unit: UnitGuess
    cleaning: Cleaning
    holes: tuple[Hole, ...]  # in the arch frame
    frame: ArchFrame
    closed: Closed
    edge_mm: float


@dataclass(frozen=True, slots=True)
class Middle:
    """What lies between the two sides of the arch."""

    covered: float  # share of the space between the sides that the scan shows
    vaulted: bool  # it is curved like a palate, not flat like a trimmed tongue space


def scan_findings(record: ScanRecord, jaw: Jaw | None) -> tuple[Jaw, tuple[Finding, ...]]:
    """The jaw that is worked with, and the findings of the scan."""
    middle = _middle(record)
    palate = middle.covered > 0.5 and middle.vaulted
    which: Jaw = jaw if jaw is not None else ("maxilla" if palate else "mandible")
    findings = [
        *_unit(record.unit),
        *_jaw(jaw, which, middle),
        *_cleaning(record),
        *_holes(record),
        *_resolution(record),
        *_folds(record.closed),
        *_border(record),
        *_plane(record.frame),
        *kind_findings(
            record.closed.surface,
            max((h.area_mm2 for h in (*record.holes, *record.closed.holes)), default=0.0),
            record.cleaning.doubled_mm2,
        ),
    ]
    return which, tuple(findings)


def _point(at: Floats) -> tuple[float, float, float]:
    return float(at[0]), float(at[1]), float(at[2])


def _unit(unit: UnitGuess) -> list[Finding]:
    doubt = f"; in {' or '.join(unit.others)} it could be an arch too" if unit.others else ""
    severity: Severity = "look" if unit.others or unit.unit != "mm" else "note"
    text = (
        f"The scan file carries no unit; {unit.unit} was assumed, because the scan is then "
        f"{unit.longest_mm:.1f} mm long{doubt}."
    )
    return [Finding("scan.unit", severity, text, OWN, unit.longest_mm, None, "mm")]


def _jaw(asked: Jaw | None, which: Jaw, middle: Middle) -> list[Finding]:
    out = []
    palate = middle.covered > 0.5 and middle.vaulted
    if asked is None:
        text = f"No jaw was named; the shape of the scan was taken to be a {which}. Confirm it."
        out.append(Finding("scan.jaw", "look", text, PRACTICE))
    elif asked == "mandible" and palate:
        text = (
            "The sheet says mandible, but the space between the sides of the arch is vaulted "
            "like a palate. Check that the right scan was given."
        )
        out.append(Finding("scan.jaw", "look", text, PRACTICE, middle.covered, 0.5, "share"))
    if which == "maxilla" and middle.covered < 0.6:
        text = (
            f"The scan shows {middle.covered:.0%} of the space between the sides of the arch: "
            "a palatal connector cannot be laid where the palate is missing. Scan the palate."
        )
        out.append(Finding("scan.coverage", "look", text, PRACTICE, middle.covered, 0.6, "share"))
    return out


def _middle(record: ScanRecord) -> Middle:
    """Look down on the strip along the midline, from behind the front teeth to the back."""
    curve = record.frame.curve
    half = float(np.percentile(np.abs(curve[:, 0]), 90))
    front = float(curve[:, 1].max()) - 12.0
    back = float(np.percentile(curve[:, 1], 5)) + 5.0
    x, y = np.meshgrid(np.linspace(-0.4, 0.4, 9) * half, np.linspace(back, front, 15))
    z = hit_from_above(record.closed.surface, np.column_stack([x.ravel(), y.ravel()]))
    there = np.isfinite(z)
    if there.sum() < 12:
        return Middle(float(there.mean()), False)
    rows = np.column_stack([x.ravel(), y.ravel(), np.ones(x.size)])[there]
    rest = z[there] - rows @ np.linalg.lstsq(rows, z[there], rcond=None)[0]
    return Middle(float(there.mean()), bool(np.abs(rest).mean() > 0.6))


def hit_from_above(mesh: Mesh, places: Floats) -> Floats:
    """(P,) height of the highest surface over (P, 2) places [mm]; inf where there is none."""
    scene = rtcore_scene.EmbreeScene()
    TriangleMesh(scene, mesh.vertices.astype(np.float32), np.array(mesh.faces))
    top = float(mesh.vertices[:, 2].max()) + 1.0
    start = np.column_stack([places, np.full(len(places), top)]).astype(np.float32)
    down = np.tile(np.array([0.0, 0.0, -1.0], dtype=np.float32), (len(places), 1))
    hit = scene.run(start, down, output=True)
    return np.where(hit["primID"] >= 0, top - hit["tfar"].astype(np.float64), np.inf)


def _cleaning(record: ScanRecord) -> list[Finding]:
    done, out = record.cleaning, []
    if done.island_faces:
        total = sum(done.island_area_mm2)
        whole = float(face_areas(record.closed.surface).sum())
        big = done.island_area_mm2[0] > BIG_PIECE * whole
        text = (
            f"{len(done.island_faces)} loose pieces with {total:.1f} mm2 were left out; "
            f"the largest has {done.island_area_mm2[0]:.1f} mm2."
        )
        if big:
            text += " It may be a tooth that the scan lost hold of: scan that place again."
        at = _point(record.frame.to_arch.apply(done.island_at[0]))
        severity: Severity = "look" if big else "note"
        out.append(Finding("scan.islands", severity, text, PRACTICE, total, None, "mm2", at))
    if record.frame.winding_reversed or done.turned:
        text = (
            "All faces were turned over"
            if record.frame.winding_reversed
            else (f"{done.turned} faces were turned over")
        )
        text += ", so that the visible side looks outwards."
        if record.frame.winding_reversed:
            text += " Mirroring turns them too: check right and left against the prescription."
        severity = "look" if record.frame.winding_reversed else "note"
        out.append(Finding("scan.winding", severity, text, PRACTICE, float(done.turned)))
    removed = done.degenerate + done.one_sided
    if removed or done.non_manifold:
        text = (
            f"{removed} faces without area, doubled or one-sided were removed and "
            f"{done.non_manifold} edges with more than two faces were opened."
        )
        out.append(Finding("scan.repair", "note", text, PRACTICE, float(removed)))
    return out


def _holes(record: ScanRecord) -> list[Finding]:
    holes = sorted((*record.holes, *record.closed.holes), key=lambda hole: -hole.span_mm)
    if not holes:
        return []
    biggest = holes[0]
    text = f"{len(holes)} holes were filled; the biggest is {biggest.span_mm:.1f} mm across."
    severity: Severity = "look" if biggest.span_mm > 2.0 else "note"
    at = _point(biggest.at)
    out = [Finding("scan.holes", severity, text, PRACTICE, biggest.span_mm, 2.0, "mm", at)]
    on_teeth = [hole for hole in holes if hole.at[2] > -TOOTH_ZONE_MM]
    if on_teeth:
        text = (
            f"{len(on_teeth)} of the filled holes lie on teeth, the biggest "
            f"{on_teeth[0].span_mm:.1f} mm across; the surface there is made up."
        )
        severity = "look" if on_teeth[0].span_mm > 0.5 else "note"
        at = _point(on_teeth[0].at)
        out.append(
            Finding("scan.holes_on_teeth", severity, text, PRACTICE,
                    on_teeth[0].span_mm, 0.5, "mm", at)
        )  # fmt: skip
    return out


def _resolution(record: ScanRecord) -> list[Finding]:
    edge = record.edge_mm
    text = f"The median edge of the mesh is {edge:.2f} mm"
    coarse = edge > COARSE_MM
    text += (
        ": too coarse for undercuts of hundredths of a millimetre; treat them as rough, or scan "
        "finer."
        if coarse
        else "."
    )
    out = [
        Finding("scan.resolution", "look" if coarse else "note", text, PRACTICE,
                edge, COARSE_MM, "mm")
    ]  # fmt: skip
    noise = noise_um(record.closed.surface)
    text = f"The smoothest places of the scan are rough by {noise:.0f} um or less."
    severity: Severity = "look" if noise > NOISY_UM and not coarse else "note"
    out.append(Finding("scan.noise", severity, text, PRACTICE, noise, NOISY_UM, "um"))
    return out


def noise_um(surface: Mesh, samples: int = 300, neighbours: int = 24) -> float:
    """Roughness of the smoothest fifth of a surface [um]: an upper bound of scanner noise.

    Root mean square distance of vertices from a quadratic surface fitted to their neighbours.
    """
    points = surface.vertices
    chosen = points[:: max(1, len(points) // samples)]
    near = cKDTree(points).query(chosen, k=min(neighbours, len(points)))[1]
    rough = []
    for patch in points[near]:
        centred = patch - patch.mean(axis=0)
        axes = np.linalg.svd(centred, full_matrices=False)[2]
        u, v, w = (centred @ axes.T).T
        rows = np.column_stack([np.ones_like(u), u, v, u * u, u * v, v * v])
        rest = w - rows @ np.linalg.lstsq(rows, w, rcond=None)[0]
        free = max(1, len(w) - rows.shape[1])
        rough.append(np.sqrt((rest @ rest) / free))
    return 1000.0 * float(np.percentile(rough, 20))


def _folds(closed: Closed) -> list[Finding]:
    if not closed.crossings:
        return []
    text = (
        f"The scan passes through itself at {closed.crossings} places; undercuts and blockout "
        "near them are not to be trusted. Scan that place again if it carries the framework."
    )
    at = _point(closed.crossing_at)
    return [Finding("scan.folds", "look", text, PRACTICE, float(closed.crossings), 0.0, "", at)]


def _border(record: ScanRecord) -> list[Finding]:
    closed = record.closed
    out = []
    if closed.trimmed_mm2 > 0:
        share = closed.trimmed_mm2 / float(face_areas(closed.surface).sum())
        text = (
            f"{closed.trimmed_mm2:.0f} mm2 ({share:.1%}) of the ragged edge were cut off before "
            "the scan was closed."
        )
        severity: Severity = "look" if share > 0.08 else "note"
        out.append(Finding("scan.edge", severity, text, PRACTICE, share, 0.08, "share"))
    if closed.border_depth_mm is not None:
        text = (
            f"The edge of the scan lies {closed.border_depth_mm:.1f} mm below the occlusal plane "
            "(median); what lies deeper is not known."
        )
        short = closed.border_depth_mm < SULCUS_MM
        if short:
            text += " The sulcus is missing: bases, bars and approach arms have no room on it."
        out.append(
            Finding("scan.border", "look" if short else "note", text, PRACTICE,
                    closed.border_depth_mm, SULCUS_MM, "mm")
        )  # fmt: skip
    return out


def _plane(frame: ArchFrame) -> list[Finding]:
    text = (
        f"The occlusal plane was laid through {len(frame.tips)} places on tooth tips, "
        f"{frame.tip_depth_mm:.0f} mm from front to back."
    )
    weak = frame.tip_depth_mm < SHORT_TIPS_MM
    if weak:
        text += " So few teeth do not fix its tilt; check the path of placement."
    return [
        Finding("scan.occlusal_plane", "look" if weak else "note", text, PRACTICE,
                frame.tip_depth_mm, SHORT_TIPS_MM, "mm")
    ]  # fmt: skip
