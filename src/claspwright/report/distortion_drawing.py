"""Where a part is expected to lie beside its design, from three sides."""

from __future__ import annotations

import numpy as np

from claspwright.base import Floats
from claspwright.geometry import Mesh
from claspwright.report.legend import draw_legend
from claspwright.report.render import Stage, contact_sheet, png
from claspwright.report.scene import Item, Scene
from claspwright.report.views import View

SIZE = (640, 480)
LOOKS = (
    View("from above", np.array([0.0, 0.0, 1.0]), np.array([0.0, 1.0, 0.0])),
    View("from below", np.array([0.0, 0.0, -1.0]), np.array([0.0, 1.0, 0.0])),
    View("oblique", np.array([0.5, -0.7, 0.5]), np.array([0.0, 0.0, 1.0])),
    View("from the side", np.array([0.0, -1.0, 0.0]), np.array([0.0, 0.0, 1.0])),
)


def distortion_png(part: Mesh, moved: Floats, most_mm: float, *, finish: int = 2) -> bytes:
    """PNG of a part coloured by the length of its expected displacement.

    Args:
        part: as it stands on the platform.
        moved: (V, 3) displacement of its vertices [mm].
        most_mm: what is allowed; a contour line marks it.
        finish: samples a pixel along each direction.
    """
    far = np.linalg.norm(moved, axis=1)
    high = max(2.0 * most_mm, float(np.percentile(far, 99.5)))
    item = Item(part, values=far, low=0.0, high=high, levels=(most_mm,))
    sheet = contact_sheet(Stage(Scene((item,))), LOOKS, columns=2, size=SIZE, finish=finish)
    draw_legend(sheet, item, "expected displacement", "mm")
    return png(sheet)
