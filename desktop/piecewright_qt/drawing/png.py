"""Drawings as PNG bytes, without a window; a QGuiApplication must run."""

from math import ceil

from PySide6.QtCore import QBuffer, QIODevice
from PySide6.QtGui import QColor, QImage, QImageWriter, QPainter

from piecewright.geometry.motion import Motion
from piecewright.making.given import Given
from piecewright.making.recipe import Recipe
from piecewright.model.design import Design
from piecewright.render.cloth import Letters
from piecewright.render.layout import Draw, room
from piecewright.render.pictures import (
    EXACT,
    QUILT_MARGIN,
    RECIPE_MARGIN,
    quilt_drawing,
    quilt_scale,
    recipe_drawing,
)
from piecewright.units.measure import Measure
from piecewright_qt.drawing.qt_pen import QtPen

_METER = 1 / 0.0254  # inches


def recipe_png(
    recipe: Recipe,
    given: Given,
    fabrics: Letters | None = None,
    measure: Measure = EXACT,
    dots: float = 200.0,
) -> bytes:
    """Every step of a recipe, `dots` to the inch of paper. Raises RecipeError or MakingError."""
    return png_bytes(recipe_drawing(recipe, given, fabrics, measure), dots, RECIPE_MARGIN, dots)


def quilt_png(design: Design, dots: float = 200.0) -> bytes:
    """The arrangement in view, `dots` to the inch of paper."""
    return png_bytes(quilt_drawing(design), quilt_scale(design) * dots, QUILT_MARGIN, dots)


def png_bytes(
    draw: Draw, pixels: float, margin: float = 0.0, dots: float = 96.0, ground: str = "#ffffff"
) -> bytes:
    """A drawing with a margin, `pixels` to its inch; the file says `dots` to the inch of paper."""
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    image = painted(draw, pixels, margin, ground)
    image.setDotsPerMeterX(round(dots * _METER))
    image.setDotsPerMeterY(round(dots * _METER))
    if not QImageWriter(buffer, b"png").write(image):
        raise RuntimeError("Qt could not write a PNG.")
    return bytes(buffer.data().data())


def painted(draw: Draw, pixels: float, margin: float = 0.0, ground: str = "#ffffff") -> QImage:
    """A drawing as an image that holds all of it."""
    box = room(draw).grown(margin)
    size = (max(1, ceil(box.width * pixels)), max(1, ceil(box.height * pixels)))
    image = QImage(*size, QImage.Format.Format_RGB32)
    image.fill(QColor(ground))
    painter = QPainter(image)
    try:
        pen = QtPen(painter, pixels)
        with pen.framed(Motion(dx=-box.left, dy=-box.top)):
            draw(pen)
    finally:
        painter.end()
    return image
