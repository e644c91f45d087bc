"""The teeth of a scan from one mark each: regions, margins, directions, sizes, spans."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

import numpy as np

from claspwright.arch.margins import gingival_margin
from claspwright.arch.marks import top_point
from claspwright.arch.model import DentalArch, MasterScan, Tooth
from claspwright.arch.notation import in_arch_order, is_third_molar, present_teeth, side_of
from claspwright.arch.partition import partition
from claspwright.arch.region_doubt import region_findings, region_steadiness
from claspwright.arch.regions import grow_regions, refined, tidied
from claspwright.arch.seeds import crown_boxes, region_seeds
from claspwright.arch.sheet_check import reach_findings, sheet_findings
from claspwright.arch.sizes import average_crown
from claspwright.arch.sketch import ArchSketch, sketch
from claspwright.arch.spans import find_spans
from claspwright.base import Finding, Floats, InputError, Ints, Point, Progress, silent
from claspwright.geometry import DistanceTree, closest_points

BAND = 2.0  # mm round the first borders in which the strongest crease is looked for
UNSURE = 0.7  # a proposal with less confidence is called unsure
MARK_REACH = 3.0  # mm a mark may lie off the surface


def find_teeth(
    scan: MasterScan,
    marks: Mapping[int, Floats],
    missing: Iterable[int] = (),
    *,
    replaced: Iterable[int] = (),
    progress: Progress = silent,
) -> DentalArch:
    """Find crown regions, margins and edentulous spans from one mark a tooth.

    A present tooth without a mark gets a proposed one, with a finding; a third molar that is
    neither missing nor marked is taken as absent, with a finding.

    Args:
        scan: the master scan, arch frame.
        marks: (3,) point on each present tooth's crown, arch frame [mm].
        missing: codes of the absent teeth.
        replaced: missing teeth that a base carries; a third molar alone makes a span only so.
        progress: called with the fraction done.

    Raises:
        InputError: a mark is on a missing tooth, of the other jaw, or off the surface; or no
            tooth is present.
        GeometryError: the surface holds no arch, or a region has no border.
    """
    absent = set(in_arch_order(missing, scan.jaw))
    marked = in_arch_order(marks, scan.jaw)
    _check(marked, absent)
    tree = DistanceTree(scan.surface)
    points = _on_surface(tree, {code: marks[code] for code in marked})
    progress(0.1, "line of the arch")
    seen = sketch(scan)
    codes = tuple(
        c for c in present_teeth(scan.jaw, absent) if c in points or not is_third_molar(c)
    )
    if not codes:
        raise InputError("no tooth is present", remedy="Check the list of missing teeth.")
    progress(0.3, "crown regions")
    marks_mm = {c: float(seen.line.coordinates(p)[0][0]) for c, p in points.items()}
    stretches = partition(seen.profile, codes, marks_mm).stretches
    boxes = crown_boxes(seen.graph, seen.along, seen.across, stretches)
    findings = _assumptions(scan, codes, absent, points)
    if not set(codes) <= set(points):  # who set every mark by hand has answered these doubts
        findings += sheet_findings(seen.profile, scan.jaw, codes, absent)
    for code in codes:
        if code not in points:
            points[code] = top_point(seen, boxes[code])
            findings.append(_proposed(code, points[code], stretches[code].confidence))
    seeds = region_seeds(seen.graph, seen.along, seen.across, boxes, points)
    first = grow_regions(seen.graph, seeds)
    crowns = tidied(seen.graph, refined(seen.graph, first, BAND))
    progress(0.5, "how sure the regions are")
    sure = region_steadiness(seen.graph, seeds, crowns, BAND)
    progress(0.6, "gingival margins")
    teeth = {code: _tooth(scan, seen, tree, crowns, code, points[code]) for code in codes}
    findings += [f for tooth in teeth.values() for f in _size_findings(tooth)]
    findings += region_findings(sure, {code: tooth.centre for code, tooth in teeth.items()})
    findings += reach_findings(scan, teeth, absent)
    progress(0.8, "ridge crests")
    spans = find_spans(scan, seen, tree, teeth, crowns, replaced=replaced)
    progress(1.0, "teeth")
    return DentalArch(scan, teeth, spans, crowns, findings=tuple(findings))


def _check(marked: tuple[int, ...], absent: set[int]) -> None:
    both = [code for code in marked if code in absent]
    if both:
        raise InputError(
            f"tooth {', '.join(map(str, both))} is listed as missing and has a mark",
            remedy="Take it off the list of missing teeth, or remove its mark.",
        )


def _on_surface(tree: DistanceTree, marks: Mapping[int, Floats]) -> dict[int, Floats]:
    out: dict[int, Floats] = {}
    for code, point in marks.items():
        near = closest_points(tree, np.asarray(point, np.float64)[None])
        gap = float(np.linalg.norm(near.points[0] - point))
        if gap > MARK_REACH:
            raise InputError(
                f"the mark of tooth {code} lies {gap:.1f} mm off the scan, "
                f"more than {MARK_REACH:.0f} mm",
                place=f"mark {code}",
                remedy="Give marks in the frame of the scan file, on the crown.",
            )
        out[code] = near.points[0]
    return out


def _tooth(
    scan: MasterScan, seen: ArchSketch, tree: DistanceTree, crowns: Ints, code: int, mark: Floats
) -> Tooth:
    region = crowns == code
    faces = np.flatnonzero(region).astype(np.int32)
    if len(faces) < 8:
        raise InputError(
            f"tooth {code} has no crown at its mark",
            place=f"mark {code}",
            remedy="Set the mark on the crown, or list the tooth as missing.",
        )
    centres, areas = seen.graph.centres[faces], seen.graph.areas[faces]
    centre = np.average(centres, axis=0, weights=areas)
    where, _ = seen.line.coordinates(centre[None])
    buccal = np.append(seen.line.outward_at(where)[0], 0.0)
    ahead = np.append(seen.line.tangent_at(where)[0], 0.0)
    mesial = ahead if side_of(code) == "right" else -ahead
    mesial = mesial - (mesial @ buccal) * buccal
    mesial /= np.linalg.norm(mesial)
    corners = scan.surface.vertices[np.unique(scan.surface.faces[faces])]
    margin = gingival_margin(scan.surface, region, tree)
    return Tooth(
        code,
        mark,
        faces,
        margin,
        centre,
        mesial,
        buccal,
        float(np.ptp(corners @ mesial)),
        float(np.ptp(corners @ buccal)),
        float(corners[:, 2].max() - margin[:, 2].mean()),
    )


def _assumptions(
    scan: MasterScan, codes: tuple[int, ...], absent: set[int], points: Mapping[int, Floats]
) -> list[Finding]:
    thirds = [c for c in present_teeth(scan.jaw, absent) if is_third_molar(c) and c not in points]
    return [
        Finding(
            "tooth.third_molar_absent",
            "note",
            f"Third molar {code} is neither listed as missing nor marked; it is taken as absent.",
            "common practice, no source",
            component=f"tooth.{code}",
        )
        for code in thirds
        if code not in codes
    ]


def _proposed(code: int, point: Floats, confidence: float) -> Finding:
    return Finding(
        "tooth.mark_proposed",
        "look",
        f"The mark of tooth {code} was proposed by the program; check that it lies on {code}."
        + ("" if confidence >= UNSURE else " It is not sure of it: set the mark by hand."),
        "common practice, no source",
        measured=round(confidence, 2),
        limit=UNSURE,
        unit="probability",
        at_mm=_as_point(point),
        component=f"tooth.{code}",
    )


def _size_findings(tooth: Tooth) -> list[Finding]:
    average = average_crown(tooth.code)
    out = []
    for name, measured, usual in (
        ("mesiodistal", tooth.mesiodistal_mm, average.mesiodistal_mm),
        ("buccolingual", tooth.buccolingual_mm, average.buccolingual_mm),
    ):
        if not 0.6 * usual <= measured <= 1.6 * usual:
            out.append(
                Finding(
                    "tooth.size",
                    "look",
                    f"The crown found for tooth {tooth.code} has an unusual {name} width; "
                    "check its mark and region.",
                    "Wheeler's Dental Anatomy, Table 1-1 averages, 0.6 to 1.6 times",
                    measured=round(measured, 2),
                    limit=f"{0.6 * usual:.1f} to {1.6 * usual:.1f}",
                    unit="mm",
                    at_mm=_as_point(tooth.centre),
                    component=f"tooth.{tooth.code}",
                )
            )
    return out


def _as_point(point: Floats) -> Point:
    x, y, z = (round(float(v), 3) for v in point)
    return (x, y, z)
