"""What to ask of the dentist where no tooth of a side can hold a sound clasp as it stands."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from claspwright.arch import DentalArch, side_of
from claspwright.base import Finding
from claspwright.framework.casting import unheld_side
from claspwright.framework.courses import KEEP, Bench, Course, courses_of
from claspwright.framework.design import Retainer
from claspwright.framework.rescue import candidates
from claspwright.framework.roles import arm_origin, neighbour_at
from claspwright.framework.wishes import Wishes
from claspwright.limits import limit
from claspwright.survey import Survey

SOURCE = (
    "a shallow retentive depression in sound enamel, about 4 mm along the tooth and 2 mm high, "
    "and room for arms in the occlusal embrasure are mouth preparation: McCracken's Removable "
    "Partial Prosthodontics [memory]"
)
SHAPED = 1.0  # cost of shaping a face, in mm of room to be made
SAME = 0.006  # mm
TOO_STIFF = (
    "none of its teeth holds a sound one as it stands, and an arm would be too short and stiff "
    "on each, however it was shaped"
)


@dataclass(frozen=True, slots=True)
class _Ask:
    """One way to a sound clasp."""

    retainer: Retainer
    course: Course
    lacks_mm: float  # undercut
    room_mm: float  # under the opposing teeth

    @property
    def cost(self) -> float:
        """How much is asked of the tooth."""
        shaped = SHAPED + self.lacks_mm if self.lacks_mm > 0 else 0.0
        return shaped + 2.0 * self.room_mm


def shaping_findings(
    arch: DentalArch,
    survey: Survey,
    wishes: Wishes,
    planned: Sequence[Retainer],
    retainers: Sequence[Retainer],
    bench: Bench | None,
) -> list[Finding]:
    """For each side that was to have a clasp and has none: the least that would give it one.

    Where nothing would, that is said.

    Args:
        arch: the arch.
        survey: its survey.
        wishes: what the sheet decides; teeth that it names stay as they are.
        planned: retainers before the survey.
        retainers: those of the design.
        bench: charts and seats, where the survey allows them.
    """
    found = []
    by_tooth = {r.tooth: r for r in retainers}
    for side in ("right", "left"):
        asked = any(r.clasp and side_of(r.tooth) == side for r in planned)
        held = any(r.clasp and side_of(r.tooth) == side for r in retainers)
        if asked and not held:
            free = candidates(arch, wishes, side, set(), by_tooth, bench)
            if not free:  # the sheet speaks for every tooth
                continue
            ask = _least(arch, survey, free, bench)
            found.append(unheld_side(side, TOO_STIFF) if ask is None else _finding(arch, ask))
    return found


def _least(
    arch: DentalArch, survey: Survey, free: Sequence[Retainer], bench: Bench | None
) -> _Ask | None:
    asks = []
    for bare in free:
        tried = courses_of(arch, survey, bench, bare, [("circumferential", "buccal", None)])
        for course in tried:
            short = course.clasp.undercut_mm - course.offers_mm
            room = max(KEEP - course.kept, 0.0) * course.clasp.thickness_mm
            if course.strain <= 1.0:
                asks.append(_Ask(bare, course, short if short > SAME else 0.0, room))
    return min(asks, key=lambda ask: ask.cost, default=None)  # the first of equals: molars first


def _finding(arch: DentalArch, ask: _Ask) -> Finding:
    tooth, course = ask.retainer.tooth, ask.course
    wants = []
    if ask.lacks_mm > 0:
        place = (course.at - arch.teeth[tooth].centre) @ arch.teeth[tooth].mesial
        end = "mesial" if place > 0 else "distal"
        wants.append(
            f"shape a shallow retentive depression, {course.clasp.undercut_mm:.2f} mm deep along "
            f"the path, in the {end} third of the buccal face of {tooth} (it offers "
            f"{max(course.offers_mm, 0.0):.2f} mm there), if the enamel allows"
        )
    if ask.room_mm > 0:
        end = arm_origin(ask.retainer)
        beside = neighbour_at(tooth, end)
        where = f"between {tooth} and {beside}" if beside in arch.teeth else f"{end} of {tooth}"
        wants.append(
            f"make {np.ceil(10 * ask.room_mm) / 10:.1f} mm more room under the opposing teeth in "
            f"the embrasure {where}, where the arms cross"
        )
    if not wants:  # an arm would hold; its rest is what has no place
        wants.append(
            f"prepare a seat for the rest of {tooth} that has room under the opposing teeth"
        )
    rule = limit("clasp.undercut")
    x, y, z = (float(v) for v in course.at)
    return Finding(
        "proposal.shape_tooth",
        "look",
        f"No tooth on the patient's {side_of(tooth)} side holds a sound clasp as it stands. The "
        f"least that would do: ask the dentist to {' and to '.join(wants)}; then scan anew.",
        SOURCE,
        measured=round(max(course.offers_mm, 0.0), 3),
        limit=rule.look_below,
        unit="mm",
        at_mm=(x, y, z),
        component=f"retainer.{tooth}",
    )
