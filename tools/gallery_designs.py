"""What the gallery shows: the arches, the complete designs on them, and components close up."""

from __future__ import annotations

from dataclasses import dataclass, replace

from claspwright.framework import (
    Clasp,
    ClaspForm,
    DentureBase,
    End,
    Retainer,
    SplintBar,
    Wishes,
    default_clasp,
    default_connector,
)


@dataclass(frozen=True, slots=True)
class Shown:
    """One complete design: an arch and what its sheet asks for besides the missing teeth."""

    key: str
    title: str
    case: str  # name of an invented case
    crowns: str  # "demo1" for the builder's own with a seed, else a person's real crowns, "b1"
    connector: str = ""
    retention: str = ""
    retainers: tuple[Retainer, ...] = ()
    splints: tuple[SplintBar, ...] = ()
    not_replaced: tuple[int, ...] = ()  # besides what the case leaves out

    @property
    def person(self) -> str:
        """Whose crowns: "demo1", or a person's letter."""
        return self.crowns.rstrip("0123456789")

    @property
    def seed(self) -> int:
        """Seed of the arch."""
        return int(self.crowns[len(self.person) :])

    @property
    def arch(self) -> str:
        """Name of the arch, shared by several designs."""
        return f"{self.case}_{self.crowns}"

    def wishes(self, plain: Wishes) -> Wishes:
        """The plain sheet's wishes with what this design asks for."""
        out = plain
        if self.connector:
            out = replace(out, connector=default_connector(self.connector))  # type: ignore[arg-type]
        if self.retainers:
            out = replace(out, retainers=self.retainers)
        if self.splints or self.not_replaced:
            left_out = (*out.not_replaced, *self.not_replaced)
            out = replace(out, splints=self.splints, not_replaced=left_out)
        return out

    def bases(self, found: tuple[DentureBase, ...]) -> tuple[DentureBase, ...]:
        """The proposed bases, held by what this design asks for."""
        if not self.retention:
            return found
        return tuple(replace(b, retention=self.retention) for b in found)  # type: ignore[arg-type]


def clasped(tooth: int, form: ClaspForm, rests: tuple[str, ...], *plates: str) -> Retainer:
    """A retainer with its usual clasp of a form."""
    return Retainer(tooth, rests, plates, default_clasp(tooth, form))  # type: ignore[arg-type]


def shallow(retainer: Retainer) -> Retainer:
    """The same with no more undercut than a short arm is given."""
    assert retainer.clasp is not None
    return replace(retainer, clasp=replace(retainer.clasp, undercut_mm=0.15))


L1, L2, L3, L4 = (
    "mandible_class_1", "mandible_class_2_mod_1", "mandible_class_3_mod_1", "mandible_class_4",
)  # fmt: skip
U1, U2, U3, U4 = "maxilla_class_1", "maxilla_class_2", "maxilla_class_3_mod_1", "maxilla_class_4"

DESIGNS: tuple[Shown, ...] = (
    Shown("l3-real-b", "as proposed", L3, "b1"),
    Shown("l1-demo", "as proposed", L1, "demo1"),
    Shown("u1-real-b", "as proposed", U1, "b1"),
    Shown("l1-demo-plate", "lingual plate, fine mesh", L1, "demo1", "lingual plate", "fine mesh"),
    Shown("l3-real-b-labial", "labial bar", L3, "b1", "labial bar"),
    Shown("u1-real-b-u", "U-shaped connector", U1, "b1", "U-shaped palatal connector"),
    Shown("l1-real-a", "as proposed", L1, "a3"),
    Shown("u2-demo", "as proposed", U2, "demo1"),
    Shown("l4-demo", "as proposed", L4, "demo1"),
    Shown("u3-demo", "as proposed", U3, "demo1"),
    Shown("l3-real-b-posts", "metal bases with posts", L3, "b1",
          retention="metal base with posts"),
    Shown("l1-demo-sublingual", "sublingual bar", L1, "demo1", "sublingual bar"),
    Shown("u2-demo-plate", "full palatal plate", U2, "demo1", "full palatal plate"),
    Shown("l2-demo", "as proposed", L2, "demo1"),
    Shown("u4-demo", "as proposed", U4, "demo1"),
    Shown("l3-real-a", "as proposed", L3, "a2"),
    Shown("u1-real-b-plate", "full palatal plate, fine mesh", U1, "b1", "full palatal plate",
          "fine mesh"),
    Shown("l1-demo-cingulum", "cingulum bar", L1, "demo1", "cingulum bar"),
    Shown("u3-demo-aps", "anterior-posterior strap, fine mesh", U3, "demo1",
          "anterior-posterior strap", "fine mesh"),
    Shown("l4-demo-plate", "lingual plate", L4, "demo1", "lingual plate"),
    Shown("l3-demo", "as proposed", L3, "demo1"),
    Shown("l3-real-a-beads", "metal bases with beads", L3, "a2",
          retention="metal base with beads"),
    Shown("u1-demo", "as proposed", U1, "demo1"),
    Shown("l1-real-a-plate", "lingual plate", L1, "a3", "lingual plate"),
    Shown("u4-demo-u", "U-shaped connector", U4, "demo1", "U-shaped palatal connector"),
    Shown("l2-demo-extended", "extended rest on the lone molar", L2, "demo1", retainers=(
        clasped(47, "circumferential", ("mesial extended occlusal",), "mesial"),)),
    Shown("u2-real-b", "as proposed", U2, "b2"),
    Shown("u4-real-a", "as proposed", U4, "a3"),
    Shown("l2-real-a", "as proposed", L2, "a3"),
    Shown("u3-real-b", "as proposed", U3, "b2"),
    Shown("l4-real-b", "as proposed", L4, "b2"),
    Shown("l2-real-b", "as proposed", L2, "b2"),
    Shown("l3-real-b-splint", "splinting bars across a space and along front teeth", L3, "b1",
          retainers=(
              clasped(47, "circumferential", ("mesial occlusal",), "mesial"),
              shallow(clasped(45, "circumferential", ("distal occlusal",), "distal")),
              Retainer(44, ("mesial occlusal",)),
              shallow(clasped(34, "circumferential", ("distal occlusal", "mesial occlusal"),
                              "distal")),
          ),
          splints=(SplintBar((47, 45)), SplintBar((43, 42, 41, 31, 32, 33))),
          not_replaced=(46,)),
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Near:
    """One component close up: the design that brings it, and where to look."""

    key: str
    title: str
    shown: Shown
    part: str  # component id, or its beginning
    opposed: bool = True  # False: on an arch without an opposing one, which would leave no room


def _bar(form: ClaspForm) -> Retainer:
    """A bar clasp on 34, whose base lies behind it."""
    return Retainer(
        34,
        ("distal occlusal",),
        ("distal",),
        Clasp(form, "buccal", 0.2, 1.8, 1.1, reciprocal=False),
    )


def _towards(retainer: Retainer, end: End) -> Retainer:
    """The same with its clasp beginning at an end."""
    assert retainer.clasp is not None
    return replace(retainer, clasp=replace(retainer.clasp, origin=end))


_PLAIN = DESIGNS[0]
_RESTS = Shown("rests", "rests", L3, "b1", retainers=(
    clasped(47, "circumferential", ("mesial extended occlusal",), "mesial"),
    clasped(45, "I-bar", ("distal occlusal", "mesial embrasure"), "distal"),
    Retainer(33, ("mesial incisal",)),
    clasped(37, "circumferential", ("onlay",), "mesial"),
))  # fmt: skip
_CLASPS = Shown("clasps", "clasps", L3, "b1", retainers=(
    clasped(47, "ring", ("mesial occlusal", "distal occlusal")),
    clasped(45, "half-and-half", ("mesial occlusal", "distal occlusal"), "distal"),
    _bar("T-bar"),
))  # fmt: skip
_BACK = Shown("back", "back", L3, "b1", retainers=(
    clasped(45, "back-action", ("distal occlusal",)), _bar("Y-bar"),
))  # fmt: skip
_MODIFIED = Shown("modified", "modified", L3, "b1", retainers=(_bar("modified T-bar"),))
_EMBRASURE = Shown("embrasure", "embrasure", U2, "demo1", retainers=(
    _towards(clasped(16, "embrasure", ("mesial occlusal",)), "mesial"),
    _towards(clasped(15, "embrasure", ("distal occlusal",)), "distal"),
))  # fmt: skip


def _of(key: str) -> Shown:
    return next(shown for shown in DESIGNS if shown.key == key)


COMPONENTS: tuple[Near, ...] = (
    Near("rest-occlusal", "Occlusal rest", _PLAIN, "rest.47"),
    Near("plate", "Proximal plate", _PLAIN, "plate.37"),
    Near("clasp-circumferential", "Circumferential clasp", _PLAIN, "clasp.37"),
    Near("clasp-i-bar", "I-bar", _PLAIN, "clasp.34"),
    Near("lattice", "Open lattice", _PLAIN, "base.35-36.bar.2"),
    Near("finish-line", "Finish line", _PLAIN, "base.35-36.finish.1"),
    Near("lingual-bar", "Lingual bar", _PLAIN, "major_connector"),
    Near("rest-extended", "Extended occlusal rest", _RESTS, "rest.47", opposed=False),
    Near("rest-embrasure", "Embrasure rest", _RESTS, "rest.45.mesial-embrasure", opposed=False),
    Near("rest-incisal", "Incisal rest", _RESTS, "rest.33", opposed=False),
    Near("rest-onlay", "Onlay rest", _RESTS, "rest.37", opposed=False),
    Near("labial-bar", "Labial bar", _of("l3-real-b-labial"), "major_connector"),
    Near("metal-base-posts", "Metal base with posts", _of("l3-real-b-posts"), "base.35-36"),
    Near("minor", "Minor connector", _of("l1-demo"), "minor."),
    Near("tissue-stop", "Tissue stop", _of("l1-demo"), "base.36-37.stop"),
    Near("indirect", "Indirect retainer", _of("l1-demo"), "rest.44"),
    Near("fine-mesh", "Fine mesh", _of("l1-demo-plate"), "base.36-37.bar.3"),
    Near("lingual-plate", "Lingual plate", _of("l1-demo-plate"), "major_connector.apron"),
    Near("sublingual-bar", "Sublingual bar", _of("l1-demo-sublingual"), "major_connector"),
    Near("rest-cingulum", "Cingulum rest", _of("u1-real-b"), "rest.13"),
    Near("strap", "Anterior-posterior strap", _of("u1-real-b"), "major_connector"),
    Near("u-shaped", "U-shaped palatal connector", _of("u1-real-b-u"), "major_connector"),
    Near("metal-base-beads", "Metal base with beads", _of("l3-real-a-beads"), "base."),
    Near("clasp-ring", "Ring clasp", _CLASPS, "clasp.47"),
    Near("clasp-half-and-half", "Half-and-half clasp", _CLASPS, "clasp.45"),
    Near("clasp-t-bar", "T-bar", _CLASPS, "clasp.34"),
    Near("clasp-back-action", "Back-action clasp", _BACK, "clasp.45"),
    Near("clasp-y-bar", "Y-bar", _BACK, "clasp.34"),
    Near("clasp-modified-t-bar", "Modified T-bar", _MODIFIED, "clasp.34"),
    Near("splint-across", "Splinting bar across a space", _of("l3-real-b-splint"), "splint.47-45"),
    Near("splint-along", "Splinting bar along teeth", _of("l3-real-b-splint"), "splint.43-33"),
    Near("clasp-embrasure", "Embrasure clasp", _EMBRASURE, "clasp.16"),
)
