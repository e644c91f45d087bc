"""Off-screen pictures of meshes, without a display or a graphics driver."""

from __future__ import annotations

import io
from copy import copy
from dataclasses import dataclass, replace

import numpy as np
from PIL import Image

from claspwright.base import Floats, Singles
from claspwright.geometry import Mesh
from claspwright.report._picture_kernels import reduce_samples
from claspwright.report.drawing import draw_caption, draw_labels, draw_lines, draw_scale_bar
from claspwright.report.hits import Hits, first_hits
from claspwright.report.scene import Label, Line, Scene
from claspwright.report.shading import corner_normals, shaded
from claspwright.report.views import SIDES, Side, View, view

Size = tuple[int, int]
NOTHING = Mesh(np.zeros((0, 3)), np.zeros((0, 3), dtype=np.int32))


@dataclass(frozen=True, slots=True, eq=False)
class Camera:
    """Where the picture's pixels lie: x right, y up, z towards the eye, all in mm."""

    rotation: Floats  # (3, 3) world -> picture
    middle: tuple[float, float]  # picture x and y of the centre of the image [mm]
    pixel_mm: float
    size: Size  # width, height in pixels

    def project(self, points: Floats) -> Floats:
        """(N, 3) pixel column, pixel row and height towards the eye [px, px, mm]."""
        inside = np.atleast_2d(points) @ self.rotation.T
        out = np.empty_like(inside)
        out[:, 0] = (inside[:, 0] - self.middle[0]) / self.pixel_mm + (self.size[0] - 1) / 2
        out[:, 1] = (self.middle[1] - inside[:, 1]) / self.pixel_mm + (self.size[1] - 1) / 2
        out[:, 2] = inside[:, 2]
        return out

    def rows_and_columns(self) -> tuple[Floats, Floats]:
        """Across: x of the columns and y of the rows [mm]."""
        across: Floats = (np.arange(float(self.size[0])) - (self.size[0] - 1) / 2) * self.pixel_mm
        down: Floats = (np.arange(float(self.size[1])) - (self.size[1] - 1) / 2) * self.pixel_mm
        return self.middle[0] + across, self.middle[1] - down


def camera_for(scene: Scene, look: View, size: Size, margin: float = 0.05) -> Camera:
    """A camera that shows the whole scene, or what the view asks for."""
    rotation = np.stack(look.axes())
    low, high = _extent(scene, rotation)
    middle = (low + high) / 2 if look.centre is None else rotation @ look.centre
    if look.width_mm is not None:
        pixel = look.width_mm / size[0]
    else:
        span = np.maximum(high - low, 1e-3) * (1 + 2 * margin)
        pixel = float(max(span[0] / size[0], span[1] / size[1]))
    return Camera(rotation, (float(middle[0]), float(middle[1])), pixel, size)


def _extent(scene: Scene, rotation: Floats) -> tuple[Floats, Floats]:
    scene.bounds()  # refuses an empty scene
    boxes = [
        (turned.min(axis=1), turned.max(axis=1))
        for turned in (rotation @ i.mesh.vertices.T for i in scene.items if len(i.mesh.vertices))
    ]
    return np.min([b[0] for b in boxes], axis=0), np.max([b[1] for b in boxes], axis=0)


class Stage:
    """A scene made ready once, to be drawn from many sides."""

    def __init__(self, scene: Scene) -> None:
        """Make the normals of the meshes ready for the light."""
        self.scene = scene
        self.normals = tuple(corner_normals(item.mesh) for item in scene.items)

    def showing(self, lines: tuple[Line, ...], labels: tuple[Label, ...]) -> Stage:
        """The same meshes with other lines and labels."""
        other = copy(self)
        other.scene = replace(self.scene, lines=lines, labels=labels)
        return other


def render(
    scene: Scene | Stage,
    look: View | Side,
    size: Size = (900, 700),
    *,
    finish: int = 2,
    outlines: bool = True,
    scale_bar: bool = True,
) -> Image.Image:
    """A picture of the scene.

    Args:
        scene: what to show; a stage is quicker when it is drawn more than once.
        look: from where; the name of a side means that side of a mandible.
        size: width and height [px].
        finish: samples a pixel along each direction (2: four samples a pixel).
        outlines: draw a thin dark line where a nearer surface ends.
        scale_bar: draw a bar of a round length with its length in mm.

    Returns:
        An RGB image; the same arguments give the same bytes on one platform.
    """
    stage = scene if isinstance(scene, Stage) else Stage(scene)
    look = look if isinstance(look, View) else view(look)
    fine = camera_for(stage.scene, look, (size[0] * finish, size[1] * finish))
    colours, depth = _drawn(stage, fine, outlines=outlines)
    draw_lines(colours, depth, stage.scene.lines, fine.project, finish)
    image = _reduced(colours, finish)
    coarse = Camera(fine.rotation, fine.middle, fine.pixel_mm * finish, size)
    draw_labels(image, depth[::finish, ::finish], stage.scene.labels, coarse.project)
    if scale_bar:
        draw_scale_bar(image, coarse.pixel_mm)
    return image


def _drawn(stage: Stage, camera: Camera, *, outlines: bool) -> tuple[Singles, Floats]:
    """Colours and depth of the surfaces; see-through items are mixed with what lies behind."""
    items = stage.scene.items
    across, down = camera.rows_and_columns()

    def seen(meshes: tuple[Mesh, ...]) -> tuple[Singles, Hits]:
        hits = first_hits(meshes, camera.rotation, across, down)
        colours = shaded(
            items, stage.normals, hits, camera.rotation, camera.pixel_mm, outlines=outlines
        )
        return colours, hits

    colours, hits = seen(tuple(item.mesh for item in items))
    if any(item.opacity < 1 for item in items):
        behind, _ = seen(tuple(item.mesh if item.opacity == 1 else NOTHING for item in items))
        opacity = np.array([*(item.opacity for item in items), 1.0], dtype=np.float32)
        share = opacity[hits.item][..., None]
        colours = share * colours + (1 - share) * behind
    return colours, hits.depth


def _reduced(colours: Singles, finish: int) -> Image.Image:
    height, width = colours.shape[0] // finish, colours.shape[1] // finish
    out = np.empty((height, width, 3), dtype=np.uint8)
    reduce_samples(colours, finish, out)
    return Image.fromarray(out)


def png(image: Image.Image) -> bytes:
    """The image as PNG, without any time stamp."""
    out = io.BytesIO()
    image.save(out, format="PNG", optimize=False, compress_level=6)
    return out.getvalue()


def contact_sheet(
    scene: Scene | Stage,
    looks: tuple[View | Side, ...] = SIDES,
    *,
    columns: int = 3,
    size: Size = (560, 440),
    finish: int = 2,
) -> Image.Image:
    """Several views of one scene on one sheet, each with its name."""
    rows = -(-len(looks) // columns)
    stage = scene if isinstance(scene, Stage) else Stage(scene)
    sheet = Image.new("RGB", (columns * size[0], rows * size[1]), (255, 255, 255))
    for index, look in enumerate(looks):
        look = look if isinstance(look, View) else view(look)
        picture = render(stage, look, size, finish=finish)
        draw_caption(picture, look.name)
        sheet.paste(picture, ((index % columns) * size[0], (index // columns) * size[1]))
    return sheet
