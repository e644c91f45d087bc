"""Intake: from an open scan to the closed master solid, its teeth and spans."""

from claspwright.arch.bite import (
    BASE_ROOM_MM,
    CONTACT_MM,
    SHOULDER_MM,
    Bite,
    bite_findings,
    read_bite,
)
from claspwright.arch.comparison import Change, Comparison, ToothChange, compare_scans
from claspwright.arch.intake import take_in
from claspwright.arch.kennedy import EdentulousArea, KennedyClass, classify
from claspwright.arch.marks import MarkProposal, propose_marks
from claspwright.arch.model import (
    DentalArch,
    Jaw,
    MasterScan,
    RestSeat,
    SeatPlace,
    Span,
    Tooth,
    patient_right,
)
from claspwright.arch.notation import (
    ARCH_ORDER,
    Notation,
    from_universal,
    in_arch_order,
    is_third_molar,
    jaw_of,
    kind_of,
    mirrored,
    neighbours,
    parse_tooth,
    position_of,
    present_teeth,
    side_of,
    to_universal,
)
from claspwright.arch.occlusion import occlusal_clearance
from claspwright.arch.opposing import align_opposing, bite_in_place
from claspwright.arch.planes import GuidingPlane, find_guiding_plane
from claspwright.arch.preparation import PlaneReading, SeatReading, read_plane, read_seat
from claspwright.arch.seats import find_rest_seat
from claspwright.arch.sizes import CrownSize, average_crown
from claspwright.arch.teeth import UNSURE, find_teeth
from claspwright.arch.units import UnitGuess, guess_unit

__all__ = [
    "CrownSize",
    "average_crown",
    "UNSURE",
    "ARCH_ORDER",
    "BASE_ROOM_MM",
    "CONTACT_MM",
    "SHOULDER_MM",
    "Bite",
    "Change",
    "Comparison",
    "DentalArch",
    "EdentulousArea",
    "GuidingPlane",
    "Jaw",
    "KennedyClass",
    "MarkProposal",
    "MasterScan",
    "Notation",
    "PlaneReading",
    "RestSeat",
    "SeatPlace",
    "SeatReading",
    "Span",
    "Tooth",
    "ToothChange",
    "UnitGuess",
    "align_opposing",
    "bite_in_place",
    "bite_findings",
    "classify",
    "compare_scans",
    "find_guiding_plane",
    "find_rest_seat",
    "find_teeth",
    "from_universal",
    "guess_unit",
    "in_arch_order",
    "is_third_molar",
    "jaw_of",
    "kind_of",
    "mirrored",
    "neighbours",
    "occlusal_clearance",
    "parse_tooth",
    "patient_right",
    "position_of",
    "present_teeth",
    "propose_marks",
    "read_bite",
    "read_plane",
    "read_seat",
    "side_of",
    "take_in",
    "to_universal",
]
