"""Prints as texture brushes, drawn beforehand at the scale they are seen at."""

from collections import OrderedDict
from dataclasses import dataclass
from functools import lru_cache
from math import ceil, isclose

from PySide6.QtCore import Qt
from PySide6.QtGui import QBrush, QColor, QImage, QPaintEngine, QPainter, QPainterPath, QPen, QTransform

from piecewright.model.fabric import Fabric, Print
from piecewright.render.affine import Affine
from piecewright.render.pen import ClothFill, Flat
from piecewright.render.prints import Tile, tile_motion, tile_of
from piecewright_qt.drawing.qt_shapes import qt_color, qt_path, qt_pen, qt_transform

_LEAST = 64  # pixels a texture should be wide: a repeat rounded to whole pixels is then true to a hundredth
_LARGE = 160  # pixels of the repeat that smaller ones are shrunk from
_REPEATS = 4  # repeats in a row at most
_MOST = 1024  # pixels a texture is wide at most: beyond this a large repeat is enlarged when it is painted
_NEAR = 0.02  # a texture this close to true scale is painted pixel for pixel
_MOST_FAR = 4096
_DETAIL = 300  # pixels to the inch of textures on paper


@dataclass(frozen=True, slots=True)
class _View:
    """How a print is seen: pixels to the inch, quarter turns clockwise (None: a slant), mirrored before."""

    scale: float
    quarters: int | None = None
    faced: bool = False


@dataclass(frozen=True, slots=True)
class _Texture:
    """Whole repeats of a print, `per_inch` pixels to the inch."""

    image: QImage
    per_inch: float


class Brushes:
    """A cache of textures by print and view, bounded in number and bytes; the one not used for longest goes first."""

    def __init__(self, limit: int = 256, most_bytes: int = 64_000_000) -> None:
        self._limit = limit
        self._most_bytes = most_bytes
        self._textures: OrderedDict[tuple[str, Print, _View], _Texture] = OrderedDict()
        self._far: dict[tuple[str, Print], QColor] = {}
        self.bytes = 0

    def __len__(self) -> int:
        return len(self._textures)

    def cloth(self, fill: ClothFill, painter: QPainter) -> QBrush:
        """The brush that shows cloth where the painter now stands.

        On screen, square to it, pixel for pixel from the pixel where the cloth begins; else smoothly.
        """
        if fill.fabric.print is None:
            return QBrush(QColor(fill.fabric.color))
        return self.laid(fill.fabric.color, fill.fabric.print, tile_frame(fill), painter)

    def laid(self, color: str, printed: Print, frame: QTransform, painter: QPainter) -> QBrush:
        """The same for a print whose upright tile `frame` carries to where the cloth lies."""
        world = painter.deviceTransform()
        here = frame * world
        raster = painter.paintEngine().type() == QPaintEngine.Type.Raster
        view = _view(here) if raster else _View(_DETAIL)
        texture = self._texture(color, printed, view)
        if raster and view.quarters is not None and isclose(texture.per_inch, view.scale, rel_tol=_NEAR):
            wanted = QTransform.fromTranslate(round(here.dx()), round(here.dy()))
        else:
            texture = self._texture(color, printed, _View(view.scale))
            wanted = QTransform.fromScale(1 / texture.per_inch, 1 / texture.per_inch) * here
        brush = QBrush(texture.image)
        brush.setTransform(wanted * world.inverted()[0])
        return brush

    def far(self, fabric: Fabric) -> QColor:
        """The one color that cloth is seen as from so far away that its print melts together."""
        printed = fabric.print
        if printed is None:
            return QColor(fabric.color)
        known = self._far.get((fabric.color, printed))
        if known is None:
            large = self._texture(fabric.color, printed, _View(_LARGE / tile_of(fabric.color, printed).size))
            known = _mean(large.image)
            if len(self._far) < _MOST_FAR:
                self._far[fabric.color, printed] = known
        return known

    def _texture(self, color: str, printed: Print, view: _View) -> _Texture:
        key = (color, printed, view)
        if key not in self._textures:
            self._keep(key, self._made(color, printed, view))
        self._textures.move_to_end(key)
        return self._textures[key]

    def _keep(self, key: tuple[str, Print, _View], texture: _Texture) -> None:
        """Keep a texture; the oldest go while there are too many, the newest never."""
        self._textures[key] = texture
        self.bytes += texture.image.sizeInBytes()
        while len(self._textures) > 1 and (
            len(self._textures) > self._limit or self.bytes > self._most_bytes
        ):
            _, oldest = self._textures.popitem(last=False)
            self.bytes -= oldest.image.sizeInBytes()

    def _made(self, color: str, printed: Print, view: _View) -> _Texture:
        """Drawn at its size, or, where a repeat is small, shrunk from one drawn larger: that is much quicker."""
        tile = tile_of(color, printed)
        true = tile.size * view.scale
        if true >= _LEAST:
            pixels = min(_MOST, round(true))
            return _Texture(_seen(_drawn(tile, pixels), view), pixels / tile.size)
        repeats = min(_REPEATS, ceil(_LEAST / true))
        pixels = max(1, round(true * repeats))
        large = self._texture(color, printed, _View(_LARGE / tile.size))
        return _Texture(_seen(_shrunk(large.image, repeats, pixels), view), pixels / (tile.size * repeats))


def tile_frame(fill: ClothFill) -> QTransform:
    """What carries the upright tile of a print to where the cloth lies."""
    return qt_transform(Affine.of(tile_motion(fill)))


def _view(here: QTransform) -> _View:
    """How a print is seen through a transform to pixels."""
    scale = abs(here.determinant()) ** 0.5
    a, b, faced = here.m11() / scale, here.m12() / scale, here.determinant() < 0
    if faced:
        a, b = -a, -b
    for quarters, (x, y) in enumerate(((1, 0), (0, 1), (-1, 0), (0, -1))):
        if isclose(a, x, abs_tol=1e-6) and isclose(b, y, abs_tol=1e-6):
            return _View(round(scale, 3), quarters, faced)
    return _View(round(scale, 3))


def _drawn(tile: Tile, pixels: int) -> QImage:
    """One repeat, `pixels` wide and high."""
    image = QImage(pixels, pixels, QImage.Format.Format_RGB32)
    image.fill(QColor(tile.ground))
    painter = QPainter(image)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.scale(pixels / tile.size, pixels / tile.size)
    for path, brush, pen in _motifs(tile):
        painter.setBrush(brush)
        painter.setPen(pen)
        painter.drawPath(path)
    painter.end()
    return image


@lru_cache(maxsize=256)
def _motifs(tile: Tile) -> tuple[tuple[QPainterPath, QBrush, QPen], ...]:
    """What one repeat is drawn with: the same at every size."""
    none = QBrush(Qt.BrushStyle.NoBrush)
    return tuple(
        (
            qt_path(motif.path),
            QBrush(qt_color(flat.color, flat.opacity)) if isinstance(flat := motif.fill, Flat) else none,
            qt_pen(motif.stroke),
        )
        for motif in tile.repeated()
    )


def _mean(image: QImage) -> QColor:
    """The mean of all its pixels."""
    smooth = Qt.TransformationMode.SmoothTransformation
    return image.scaled(1, 1, Qt.AspectRatioMode.IgnoreAspectRatio, smooth).pixelColor(0, 0)


def _shrunk(image: QImage, repeats: int, pixels: int) -> QImage:
    """`repeats` x `repeats` copies of one repeat, together `pixels` wide and high."""
    field = QImage(image.width() * repeats, image.height() * repeats, image.format())
    painter = QPainter(field)
    painter.fillRect(field.rect(), QBrush(image))
    painter.end()
    smooth = Qt.TransformationMode.SmoothTransformation
    return field.scaled(pixels, pixels, Qt.AspectRatioMode.IgnoreAspectRatio, smooth)


def _seen(image: QImage, view: _View) -> QImage:
    """Mirrored and turned as a view has it."""
    if view.faced:
        image = image.flipped(Qt.Orientation.Horizontal)
    return image.transformed(QTransform().rotate(90 * view.quarters)) if view.quarters else image
