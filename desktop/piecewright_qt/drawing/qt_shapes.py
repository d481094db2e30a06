"""Colors, strokes, polygons, paths and frames of the core as Qt has them."""

from collections.abc import Sequence

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QColor, QPainterPath, QPen, QPolygonF, QTransform

from piecewright.geometry.motion import Point
from piecewright.render.affine import Affine
from piecewright.render.path import Path
from piecewright.render.pen import Stroke


def qt_color(color: str, opacity: float = 1.0) -> QColor:
    """A color of the core for Qt."""
    made = QColor(color)
    made.setAlphaF(opacity)
    return made


def qt_pen(stroke: Stroke | None) -> QPen:
    """A stroke of the core for Qt, its dashes in inches turned into widths of the line."""
    if stroke is None:
        return QPen(Qt.PenStyle.NoPen)
    pen = QPen(qt_color(stroke.color, stroke.opacity), stroke.width)
    round_ends = not stroke.square and not stroke.dash
    pen.setCapStyle(Qt.PenCapStyle.RoundCap if round_ends else Qt.PenCapStyle.FlatCap)
    pen.setJoinStyle(Qt.PenJoinStyle.MiterJoin if stroke.square else Qt.PenJoinStyle.RoundJoin)
    if stroke.dash:
        pen.setDashPattern([length / stroke.width for length in stroke.dash])
    return pen


def qt_transform(frame: Affine) -> QTransform:
    """An affine map of the core for Qt."""
    return QTransform(frame.a, frame.b, frame.c, frame.d, frame.e, frame.f)


def qt_polygon(points: Sequence[Point]) -> QPolygonF:
    """Points of the core for Qt."""
    return QPolygonF([QPointF(float(x), float(y)) for x, y in points])


def qt_path(path: Path) -> QPainterPath:
    """A path of the core for Qt; overlapping loops fill together."""
    made = QPainterPath()
    made.setFillRule(Qt.FillRule.WindingFill)
    for verb, points in path:
        if verb == "M":
            made.moveTo(*points[0])
        elif verb == "L":
            made.lineTo(*points[0])
        elif verb == "C":
            (a, b), (c, d), (e, f) = points
            made.cubicTo(a, b, c, d, e, f)
        else:
            made.closeSubpath()
    return made
