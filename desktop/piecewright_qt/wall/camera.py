"""Which part of the quilt is seen and how large: between inches of the quilt and pixels of the wall."""

from dataclasses import dataclass
from math import ceil, floor, log2

from PySide6.QtCore import QPoint, QPointF, QRect, QRectF

from piecewright.geometry.motion import Number

Inches = tuple[float, float]
Box = tuple[float, float, float, float]
"""Left, top, right and bottom in inches from the quilt's finished top left."""

STEPS = 64
"""Levels of zoom to a doubling; level 0 shows an inch of cloth as an inch of screen."""
TRUE_SIZE = 96
"""Device-independent pixels of an inch of screen, as Qt and the web count them."""
NEAREST, FARTHEST = 2 * STEPS, -12 * STEPS
NOTCH = STEPS // 4
"""Levels that one notch of a wheel goes."""


def scale_of(level: int) -> float:
    """Device-independent pixels to an inch at a level of zoom."""
    return float(TRUE_SIZE * 2 ** (level / STEPS))


@dataclass(frozen=True, slots=True)
class Camera:
    """`left` and `top` say where the quilt's finished top left lies, in device pixels left of and above the view.

    `ratio` is the number of device pixels to a device-independent one. A camera is a value: moves give another.
    """

    level: int = -3 * STEPS
    left: float = 0.0
    top: float = 0.0
    ratio: float = 1.0

    @property
    def pixels(self) -> float:
        """Device pixels to an inch."""
        return scale_of(self.level) * self.ratio

    @property
    def percent(self) -> int:
        """The zoom, 100 being true size."""
        return round(100 * 2 ** (self.level / STEPS))

    @property
    def corner(self) -> QPoint:
        """The view's top left in whole device pixels of the quilt: what everything is painted by."""
        return QPoint(round(self.left), round(self.top))

    def inches(self, point: QPointF) -> Inches:
        """The place of the quilt under a point of the view."""
        return (
            (point.x() * self.ratio + self.left) / self.pixels,
            (point.y() * self.ratio + self.top) / self.pixels,
        )

    def point(self, place: Inches) -> QPointF:
        """Where a place of the quilt is seen in the view."""
        return QPointF(
            (place[0] * self.pixels - self.left) / self.ratio,
            (place[1] * self.pixels - self.top) / self.ratio,
        )

    def device(self, box: Box) -> QRect:
        """A box of the quilt in whole device pixels, counted from the quilt's top left; neighbors share edges."""
        left, top, right, bottom = (round(value * self.pixels) for value in box)
        return QRect(left, top, right - left, bottom - top)

    def view_rect(self, device: QRect) -> QRectF:
        """Device pixels of the quilt as a rectangle of the view, exactly where they are painted."""
        moved = device.translated(-self.corner)
        return QRectF(
            moved.x() / self.ratio,
            moved.y() / self.ratio,
            moved.width() / self.ratio,
            moved.height() / self.ratio,
        )

    def rect(self, box: Box) -> QRectF:
        """A box of the quilt as a rectangle of the view, snapped to device pixels."""
        return self.view_rect(self.device(box))

    def seen(self, area: QRectF) -> QRect:
        """The device pixels of the quilt under an area of the view."""
        left, top = floor(area.left() * self.ratio), floor(area.top() * self.ratio)
        right, bottom = ceil(area.right() * self.ratio), ceil(area.bottom() * self.ratio)
        return QRect(left, top, right - left, bottom - top).translated(self.corner)

    def moved(self, by: QPointF) -> "Camera":
        """The quilt shifted by so many device-independent pixels."""
        return Camera(self.level, self.left - by.x() * self.ratio, self.top - by.y() * self.ratio, self.ratio)

    def zoomed(self, level: int, around: QPointF) -> "Camera":
        """At another level, the place under `around` kept there."""
        level = min(max(level, FARTHEST), NEAREST)
        x, y = self.inches(around)
        other = Camera(level, 0.0, 0.0, self.ratio)
        return Camera(
            level,
            x * other.pixels - around.x() * self.ratio,
            y * other.pixels - around.y() * self.ratio,
            self.ratio,
        )

    def with_ratio(self, ratio: float) -> "Camera":
        """The same view on a sharper or less sharp screen."""
        return Camera(self.level, self.left * ratio / self.ratio, self.top * ratio / self.ratio, ratio)


def fitting(box: Box, width: float, height: float, margin: float, ratio: float) -> Camera:
    """The camera that shows a box of the quilt whole, in the middle of a view with a margin round it."""
    wide, high = box[2] - box[0], box[3] - box[1]
    room = max(min((width - 2 * margin) / wide, (height - 2 * margin) / high), 1e-9)
    level = min(max(floor(STEPS * log2(room / TRUE_SIZE)), FARTHEST), 0)
    return centered(box, width, height, level, ratio)


def centered(box: Box, width: float, height: float, level: int, ratio: float) -> Camera:
    """The camera at a level that has the middle of a box in the middle of the view."""
    pixels = scale_of(level) * ratio
    return Camera(
        level,
        (box[0] + box[2]) / 2 * pixels - width * ratio / 2,
        (box[1] + box[3]) / 2 * pixels - height * ratio / 2,
        ratio,
    )


def box_of(x: Number, y: Number, width: Number, height: Number) -> Box:
    """A rectangle in inches as a box of floats."""
    return (float(x), float(y), float(x + width), float(y + height))
