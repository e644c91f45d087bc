"""Rules on denture bases: lattice, relief, tissue stops, finish lines."""

from __future__ import annotations

import numpy as np

from claspwright.arch import Span
from claspwright.base import Finding, Floats
from claspwright.framework import Component, DentureBase
from claspwright.geometry import arc_lengths, distance_to_line
from claspwright.limits import limit
from claspwright.rules.context import Finished
from claspwright.rules.judging import judged, point

NEAR = 12.0  # mm from the crest within which a part belongs to a base


def parts_of_base(context: Finished, base: DentureBase, *kinds: str) -> list[Component]:
    """The components of one base, by their id."""
    name = "base." + "-".join(map(str, base.teeth))
    return [
        c
        for c in context.framework.components
        if c.kind in kinds and (c.id == name or c.id.startswith(name + "."))
    ]


def lattice_coverage(context: Finished) -> tuple[Finding, ...]:
    """The lattice covers the share of the ridge that its kind of base asks for."""
    found = []
    for base, span in context.based_spans:
        struts = parts_of_base(context, base, "lattice")
        component = "denture_base." + "-".join(map(str, base.teeth))
        share = covered_share(span, [c.line for c in struts])
        key = "lattice.coverage_bounded"
        if None in span.ends:
            key = f"lattice.coverage_{context.facts.jaw}"
        text = f"The lattice over {', '.join(map(str, base.teeth))} covers {100 * share:.0f} % "
        text += "of the length of its ridge"
        remedy = "Lengthen the lattice; check that the scan shows the ridge to its end."
        found.append(
            judged("lattice.coverage", key, share, text, remedy=remedy,
                   at=span.crest[len(span.crest) // 2], component=component)
        )  # fmt: skip
    return tuple(found)


def covered_share(span: Span, lines: list[Floats]) -> float:
    """Share of a span's crest that the lattice covers.

    From the abutment to the farthest strut where the span ends free, else from the first strut
    to the last.
    """
    if not lines:
        return 0.0
    gap, along = distance_to_line(span.crest, np.concatenate(lines))
    along = along[gap < NEAR]
    if not len(along):
        return 0.0
    total = arc_lengths(span.crest)[-1]
    first = 0.0 if span.ends[1] is None else float(along.min())
    last = total if span.ends[0] is None else float(along.max())
    return float((last - first) / total)


def lattice_section(context: Finished) -> tuple[Finding, ...]:
    """Sizes of a base: struts and relief of a lattice or mesh, thickness of a metal base."""
    found = []
    for base, span in context.based_spans:
        component = "denture_base." + "-".join(map(str, base.teeth))
        at = span.crest[len(span.crest) // 2]
        parts = parts_of_base(context, base, "lattice")
        struts = [c for c in parts if ".rail." in c.id or ".bar." in c.id]
        sizes = [
            ("lattice.strut_thickness", base.thickness_mm),
            ("lattice.relief", base.relief_mm),
        ]
        if base.metal:
            plates = [c for c in parts if c.id.endswith(".plate")]
            sizes = [("metal_base.thickness", float(c.thickness_mm.min())) for c in plates]
        elif struts:
            key = "mesh" if base.retention == "fine mesh" else "lattice"
            width = min(float(c.width_mm.min()) for c in struts)
            sizes.append((f"{key}.strut_width", width))
        for key, size in sizes:
            text = f"{limit(key).title}: {size:.2f} mm"
            remedy = "Change the base in the sheet; the acrylic needs metal and room."
            found.append(judged(key, key, size, text, remedy=remedy, at=at, component=component))
    return tuple(found)


def tissue_stop(context: Finished) -> tuple[Finding, ...]:
    """A base that ends free stands on a tissue stop, so that it holds still in processing."""
    found = []
    for base, span in context.based_spans:
        if None not in span.ends or base.metal:
            continue
        component = "denture_base." + "-".join(map(str, base.teeth))
        stops = parts_of_base(context, base, "tissue stop")
        if not stops:
            end = span.crest[0 if span.ends[0] is None else -1]
            found.append(
                Finding(
                    "base.tissue_stop",
                    "stop",
                    f"The base over {', '.join(map(str, base.teeth))} ends free without a tissue "
                    "stop: it would bend under packing. Add one at the end of the lattice.",
                    limit("stop.size").cited,
                    measured="none",
                    limit=limit("stop.size").value,
                    unit="mm",
                    at_mm=point(end),
                    component=component,
                )
            )
        for stop in stops:
            size = float(stop.width_mm.min())
            text = f"The tissue stop of {component} measures {size:.1f} mm"
            remedy = "Enlarge it, so that it does not sink into the model."
            found.append(
                judged("base.tissue_stop", "stop.size", size, text, remedy=remedy,
                       at=stop.line.mean(axis=0), component=stop.id)
            )  # fmt: skip
    return tuple(found)


def finish_lines(context: Finished) -> tuple[Finding, ...]:
    """Each base has a finish line where its acrylic ends on the metal."""
    found = []
    for base, span in context.based_spans:
        if parts_of_base(context, base, "finish line"):
            continue
        found.append(
            Finding(
                "base.finish_line",
                "look",
                f"No finish line for the base over {', '.join(map(str, base.teeth))}: the acrylic "
                "would run out thin on the metal. Add one, or cut it in the wax.",
                limit("finish.height").cited,
                measured="none",
                limit=limit("finish.height").value,
                unit="mm",
                at_mm=point(span.crest[len(span.crest) // 2]),
                component="denture_base." + "-".join(map(str, base.teeth)),
            )
        )
    return tuple(found)
