"""The search for the path of placement."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from claspwright.arch import DentalArch
from claspwright.base import Finding, Floats, Progress, part, silent
from claspwright.geometry import DistanceTree
from claspwright.survey.judge import GUIDING_DEG, PathJudge, ways_of
from claspwright.survey.model import PathOfPlacement
from claspwright.survey.path import path_from_tilts
from claspwright.survey.reasons import Rivals, findings_of, reasons_of
from claspwright.survey.scored import Cone, GuidingFace, PathScore
from claspwright.survey.zones import Zone

WIDEST_TILT_DEG = 20.0  # of the cone that is looked at
COARSE_DEG = 1.0
FINE_DEG = ((0.5, 1.0), (0.2, 0.4), (0.1, 0.1))  # step and reach of each refinement
ENOUGH = 0.05  # points that a tilt must win to be taken
DISTINCT_DEG = 5.0  # between two paths that are called distinct


@dataclass(frozen=True, slots=True)
class PathChoice:
    """The chosen path, its score, that of zero tilt, and all paths that were tried."""

    path: PathOfPlacement
    score: PathScore
    untilted: PathScore
    tried: tuple[PathScore, ...]
    findings: tuple[Finding, ...]
    second: PathScore | None = None  # the best at least 5 degrees off; the best beside a named one
    reasons: tuple[str, ...] = ()  # the choice in sentences
    cone: Cone | None = None  # the whole map
    named: bool = False  # the path was named, not searched


def search_path(
    arch: DentalArch,
    zones: Sequence[Zone],
    *,
    named: PathOfPlacement | None = None,
    tree: DistanceTree | None = None,
    progress: Progress = silent,
) -> PathChoice:
    """The path of placement with the fewest points, out of a cone of 20 degrees.

    All tilts 1 degree apart are scored by the table of scores, then the best is refined to 0.1
    degree. A zone's undercut counts only as far as it exists at zero tilt too, because food
    pulls across the occlusal plane. Zero tilt stays unless a tilt does clearly better. Depths
    are read as a lower bound of the gauge.

    Args:
        arch: the arch with its teeth and spans.
        zones: (tooth, "buccal" or "lingual", undercut wanted in mm) of each clasp.
        named: the path that the prescription names: it is the choice, whatever it costs.
        tree: of the arch's closed solid; made here if missing.
        progress: told of the fraction done.

    Raises:
        InputError: a zone names a tooth that does not stand.

    Source:
        check-values B11 to B13, B16, B17, B20 for what is weighed; the points are an own choice.
    """
    judge = PathJudge(arch, zones, tree, part(progress, 0.0, 0.3))
    tilts = disc(COARSE_DEG, WIDEST_TILT_DEG)
    tried = _Tried(judge)
    tried.add(tilts, part(progress, 0.3, 0.9))
    cone = tried.cone()
    untilted = tried.scores[(0.0, 0.0)]
    best = _refined(tried, min(tried.scores.values(), key=lambda score: score.total))
    progress(0.95, "path of placement")
    chosen = best if best.total < untilted.total - ENOUGH else untilted
    second: PathScore | None = chosen
    if named is not None:
        chosen = scored(judge, [named])[0]
    else:
        other = _second(tried, cone, chosen)
        second = None if other is None else _refined(tried, other, chosen.path)
    progress(1.0, "path of placement")
    rivals = Rivals(chosen, untilted, second, named=named is not None)
    reasons = reasons_of(judge, rivals)
    return PathChoice(
        path=chosen.path,
        score=chosen,
        untilted=untilted,
        tried=tuple(tried.scores.values()),
        findings=findings_of(judge, chosen, cone, reasons),
        second=second,
        reasons=reasons,
        cone=cone,
        named=rivals.named,
    )


def disc(step: float, radius: float) -> Floats:
    """(D, 2) tilts in a disc, the small ones first [deg]."""
    count = int(radius / step + 1e-9)
    found = [
        (step * i, step * j)
        for i in range(-count, count + 1)
        for j in range(-count, count + 1)
        if np.hypot(i, j) * step <= radius + 1e-9
    ]
    return np.array(sorted(found, key=lambda tilt: (round(np.hypot(*tilt), 9), tilt)))


class _Tried:
    """Scores by tilt, each read once."""

    def __init__(self, judge: PathJudge) -> None:
        self.judge = judge
        self.scores: dict[tuple[float, float], PathScore] = {}

    def add(self, tilts: Floats, progress: Progress = silent) -> None:
        """Score the tilts that are new."""
        keys = [(round(float(a), 3) + 0.0, round(float(b), 3) + 0.0) for a, b in tilts]
        new = [key for key in dict.fromkeys(keys) if key not in self.scores]
        if new:
            paths = [path_from_tilts(self.judge.arch.scan.jaw, *key) for key in new]
            self.scores |= zip(new, scored(self.judge, paths, progress), strict=True)

    def cone(self) -> Cone:
        """The map of all that was tried so far."""
        scores = list(self.scores.values())
        tilts = np.array(list(self.scores))
        return Cone(
            step_deg=COARSE_DEG,
            tilts_deg=tilts,
            totals=np.array([score.total for score in scores]),
            points=np.array([score.points for score in scores]).T,
            usable_mm=np.array([score.undercut_mm for score in scores]).T.reshape(-1, len(scores)),
            at_path_mm=np.array([score.at_path_mm for score in scores]).T.reshape(-1, len(scores)),
            guiding_height_mm=np.array(
                [[face.height_mm for face in score.guiding] for score in scores]
            ).T.reshape(-1, len(scores)),
        )


def scored(
    judge: PathJudge, paths: Sequence[PathOfPlacement], progress: Progress = silent
) -> list[PathScore]:
    """The score of each path."""
    amounts = judge.amounts(np.array([path.direction for path in paths]), progress)
    points = judge.points(amounts)
    found = []
    for n, path in enumerate(paths):
        faces = tuple(
            GuidingFace(
                face.tooth, face.where, face.free_end,
                float(amounts.guiding_grade[p, n] * amounts.guiding_height_mm[p, n]),
                float(amounts.guiding_grade[p, n] * amounts.guiding_mm2[p, n]),
                float(GUIDING_DEG * (1.0 - amounts.guiding_grade[p, n])),
            )
            for p, face in enumerate(judge.proximal)
        )  # fmt: skip
        found.append(
            PathScore(
                path=path,
                total=float(points[:, n].sum()),
                undercut_mm=tuple(amounts.usable_mm[:, n].tolist()),
                tissue_mm3=float(amounts.tissue_mm3[n]),
                proximal_mm3=float(amounts.proximal_mm3[n]),
                guiding_mm2=sum(face.area_mm2 for face in faces),
                tilt_deg=float(amounts.tilt_deg[n]),
                at_path_mm=tuple(amounts.at_path_mm[:, n].tolist()),
                across_mm=tuple(judge.across_mm.tolist()),
                opposite_mm3=float(amounts.opposite_mm3[n]),
                guiding=faces,
                line_height=tuple(amounts.line_height[:, n].tolist()),
                points=tuple(points[:, n].tolist()),
            )
        )
    return found


def _refined(tried: _Tried, start: PathScore, away: PathOfPlacement | None = None) -> PathScore:
    """The best tilt near one, to 0.1 degree; distinct from the path `away`, if one is given."""
    best = start
    for step, reach in FINE_DEG:
        at = np.array([best.path.anterior_tilt_deg, best.path.right_lateral_tilt_deg])
        near = at + _square(step, reach)
        near = near[np.hypot(*near.T) <= WIDEST_TILT_DEG + 1e-9]
        if away is not None:
            near = near[_off(tried.judge.arch, near, away) >= DISTINCT_DEG]
        tried.add(near)
        keys = [(round(float(a), 3) + 0.0, round(float(b), 3) + 0.0) for a, b in near]
        best = min((tried.scores[key] for key in keys), key=lambda score: score.total, default=best)
    return best


def _square(step: float, reach: float) -> Floats:
    count = round(reach / step)
    ticks = step * np.arange(-count, count + 1)
    found = np.stack(np.meshgrid(ticks, ticks, indexing="ij"), axis=-1).reshape(-1, 2)
    return found[np.argsort(np.hypot(*found.T), kind="stable")]


def _off(arch: DentalArch, tilts: Floats, path: PathOfPlacement) -> Floats:
    """(D,) angle between the paths of (D, 2) tilts and a path [deg]."""
    ways = ways_of(arch, tilts).reshape(-1, 3)
    return np.asarray(np.degrees(np.arccos(np.clip(ways @ path.direction, -1.0, 1.0))))


def _second(tried: _Tried, cone: Cone, chosen: PathScore) -> PathScore | None:
    """The best path of the cone that is distinct from the chosen one: a dip of its own.

    Where the map has one dip only, the best path at least 5 degrees off.
    """
    far = _off(tried.judge.arch, cone.tilts_deg, chosen.path) >= DISTINCT_DEG
    dips = far & cone.dips()
    some = np.flatnonzero(dips if dips.any() else far)
    if not len(some):
        return None
    n = int(some[np.argmin(cone.totals[some])])
    a, b = cone.tilts_deg[n].tolist()
    return tried.scores[(round(a, 3) + 0.0, round(b, 3) + 0.0)]
