"""The major connector by jaw, class and the room that the dentist probed."""

from __future__ import annotations

from dataclasses import replace
from typing import get_args

from claspwright.arch import Jaw, position_of, side_of
from claspwright.base import InfeasibleError
from claspwright.framework.areas import Area
from claspwright.framework.design import ConnectorForm, MajorConnector, Reason, jaw_of_form
from claspwright.framework.rulebook import default_connector, proposal_rules
from claspwright.framework.spare import SOURCE, plate_for
from claspwright.framework.wishes import Wishes
from claspwright.limits import limit


def proposed_connector(
    jaw: Jaw, areas: tuple[Area, ...], wishes: Wishes
) -> tuple[MajorConnector, Reason | None]:
    """The sheet's connector, or one by jaw and spans with the reason for it.

    Raises:
        InfeasibleError: the sheet asks for a connector of the other jaw.
    """
    if wishes.connector is not None:
        if jaw_of_form(wishes.connector.form) != jaw:
            raise InfeasibleError(
                f"a {wishes.connector.form} cannot be made in the {jaw}",
                place="major_connector",
                remedy="Choose a form for this jaw, or correct the arch.",
            )
        return wishes.connector, None
    form = proposed_form(jaw, areas, wishes.functional_depth_mm)
    doubtful = wishes.doubtful
    if form == "lingual bar" and plate_for(jaw, doubtful):
        named = ", ".join(map(str, doubtful))
        text = f"lingual plate, so that teeth can be added to it: {named} will probably be lost"
        plate = _fitted(default_connector("lingual plate"), wishes.functional_depth_mm)
        return plate, Reason("major_connector", text, SOURCE)
    row = proposal_rules().connectors[form]
    connector = _fitted(default_connector(form), wishes.functional_depth_mm)
    return connector, Reason("major_connector", row["text"], row["source"])


def proposed_form(
    jaw: Jaw, areas: tuple[Area, ...], depth_mm: float | None = None
) -> ConnectorForm:
    """Below a lingual bar, or a plate where the floor of the mouth leaves no room for a bar.

    Above, one strap for short tooth-borne spans on both sides, else two.
    """
    if jaw == "mandible":
        least = limit("bar.functional_depth").stop_below or 0.0
        return "lingual plate" if depth_mm is not None and depth_mm < least else "lingual bar"
    short = proposal_rules().numbers["short_span_teeth"]
    posterior = all(min(position_of(c) for c in area.teeth) >= 4 for area in areas)
    tooth_borne = all(not area.free_end and len(area.teeth) <= short for area in areas)
    sides = {side_of(code) for area in areas for code in area.teeth}
    if posterior and tooth_borne and len(sides) == 2:
        return "palatal strap"
    return "anterior-posterior strap"


def _fitted(connector: MajorConnector, depth_mm: float | None) -> MajorConnector:
    """Move a bar towards the margins where the probed depth asks for it.

    The bar of a lingual plate may come as near as the depth asks: its apron covers the margins.
    """
    if depth_mm is None:
        return connector
    if connector.form == "lingual plate":
        room = max(depth_mm - connector.height_mm, 0.5)
        return replace(connector, margin_distance_mm=min(connector.margin_distance_mm, room))
    if connector.form == "sublingual bar":  # it lies as low as the floor allows
        return replace(connector, margin_distance_mm=max(depth_mm - connector.height_mm, 0.5))
    if connector.form != "lingual bar":
        return connector
    least = limit("bar.margin").stop_below or 0.0
    room = depth_mm - connector.height_mm
    return replace(
        connector, margin_distance_mm=min(connector.margin_distance_mm, max(room, least))
    )


def connectors_of(jaw: Jaw) -> tuple[ConnectorForm, ...]:
    """The forms of major connector that can be made in a jaw."""
    return tuple(form for form in get_args(ConnectorForm) if jaw_of_form(form) == jaw)
