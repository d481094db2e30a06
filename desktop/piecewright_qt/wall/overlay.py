"""What is painted over the cloth: selection, cursor, band, patch aimed at, what is carried, and words in place."""

from collections.abc import Iterable
from functools import lru_cache

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPainterPath, QPen, QPolygonF

from piecewright.edit.registry import Cell
from piecewright.plan.rects import corners
from piecewright_qt.theme.tokens import RADIUS, SPACE, SPACE_TIGHT, Scale, Theme
from piecewright_qt.wall.camera import Camera
from piecewright_qt.wall.scene import Scene

REACH = 4.0
"""Device-independent pixels that any outline reaches out beyond what it outlines."""
_HATCH = 9.0
_VEIL = 0.55
Side = tuple[int, int, int, int]


class Marks:
    """Paints marks in the colors of one theme at one text size, on any cloth: each line is doubled, light by dark."""

    def __init__(self, painter: QPainter, theme: Theme, scale: Scale) -> None:
        self._painter = painter
        self._theme = theme
        self._scale = scale

    def selection(self, scene: Scene, camera: Camera, cells: Iterable[Cell], area: QRectF) -> None:
        """The outline of all selected blocks together; with sashing or on point of each by itself."""
        if not scene.is_plain:
            self._each(scene, camera, cells)
            return
        lines = [
            QLineF(
                camera.rect(scene.box(x0, y0, 0, 0)).topLeft(), camera.rect(scene.box(x1, y1, 0, 0)).topLeft()
            )
            for x0, y0, x1, y1 in _outline(scene, tuple(cells))
        ]
        seen = area.adjusted(-REACH, -REACH, REACH, REACH)
        near = [line for line in lines if _touches(line, seen)]
        self._plain()
        for color, width in _doubled(self._theme):
            self._painter.setPen(_pen(color, width))
            self._painter.drawLines(near)

    def _each(self, scene: Scene, camera: Camera, cells: Iterable[Cell]) -> None:
        found = [scene.at(cell.column, cell.row) for cell in cells]
        for laid in found:
            if laid is not None:
                rect = scene.layout.rect(*laid[:4])
                places = [scene.outside((float(x), float(y))) for x, y in corners(rect)]
                self.outline(QPolygonF([camera.point(place) for place in places]))

    def cursor(self, rect: QRectF) -> None:
        """The cell that the keys are at: dashes of one color on a line of the other."""
        self._plain()
        inner = rect.adjusted(2.5, 2.5, -2.5, -2.5)
        self._painter.setPen(_pen(self._theme.surface, 3.0))
        self._painter.drawRect(inner)
        self._painter.setPen(_pen(self._theme.text, 1.5, (4.0, 3.0)))
        self._painter.drawRect(inner)

    def band(self, rect: QRectF) -> None:
        """The rectangle being drawn round blocks."""
        wash = QColor(self._theme.accent)
        wash.setAlphaF(0.10)
        self._painter.fillRect(rect, wash)
        self.dashed(rect)

    def dashed(self, rect: QRectF) -> None:
        """A rectangle of cells drawn round the selection."""
        self._plain()
        self._painter.setPen(_pen(self._theme.surface, 3.0))
        self._painter.drawRect(rect)
        self._painter.setPen(_pen(self._theme.accent, 1.5, (3.0, 3.0)))
        self._painter.drawRect(rect)

    def outline(self, polygon: QPolygonF) -> None:
        """A patch that a fabric is aimed at."""
        self._plain()
        self._painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        for color, width in _doubled(self._theme):
            self._painter.setPen(_pen(color, width))
            self._painter.drawPolygon(polygon)
        self._painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)  # noqa: FBT003 - Qt's own signature

    def shape(self, outline: QPolygonF, camera: Camera) -> None:
        """What is cut out of the sewn cloth: the line to cut along, and a veil over what falls off."""
        seen = QPolygonF([camera.point((point.x(), point.y())) for point in outline.toList()])
        around = QPainterPath()
        around.addRect(QRectF(self._painter.viewport()))
        inside = QPainterPath()
        inside.addPolygon(seen)
        inside.closeSubpath()
        veil = QColor(self._theme.flannel)
        veil.setAlphaF(_VEIL)
        self._painter.fillPath(around.subtracted(inside), veil)
        self.outline(seen)

    def refused(self, rect: QRectF) -> None:
        """Something carried that may not lie here: hatched, with a broken outline."""
        painter = self._painter
        painter.save()
        painter.setClipRect(rect, Qt.ClipOperation.IntersectClip)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        for color, width in ((self._theme.surface, 3.5), (self._theme.error, 1.5)):
            painter.setPen(_pen(color, width))
            painter.drawLines(_hatching(rect))
        painter.restore()
        self._plain()
        painter.setPen(_pen(self._theme.surface, 4.0))
        painter.drawRect(rect)
        painter.setPen(_pen(self._theme.error, 2.0, (4.0, 2.5)))
        painter.drawRect(rect)

    def tag_rect(self, words: str, rect: QRectF, within: QRectF) -> QRectF:
        """Where the word of a carried picture stands: above it, or wherever it is seen whole."""
        metrics = QFontMetricsF(self._font(bold=True))
        width = metrics.horizontalAdvance(words) + 2 * SPACE
        height = metrics.height() + 2 * SPACE_TIGHT
        left = min(max(rect.center().x() - width / 2, within.left()), within.right() - width)
        top = rect.top() - height - SPACE
        return QRectF(left, max(top, within.top()), width, height)

    def tag(self, words: str, rect: QRectF, is_refusal: bool) -> None:
        """A word on a small plate."""
        painter, theme = self._painter, self._theme
        ground, ink = (theme.error, theme.surface) if is_refusal else (theme.text, theme.surface)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(_pen(theme.surface, 1.5))
        painter.setBrush(QColor(ground))
        painter.drawRoundedRect(rect, RADIUS, RADIUS)
        painter.setFont(self._font(bold=True))
        painter.setPen(QColor(ink))
        painter.drawText(rect, Qt.AlignmentFlag.AlignCenter, words)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)  # noqa: FBT003 - Qt's own signature

    def invitation(self, words: str, rect: QRectF) -> None:
        """What to do on an empty wall, in its middle."""
        painter = self._painter
        font = self._font()
        font.setPixelSize(self._scale.lead)
        painter.setFont(font)
        wide = rect.adjusted(SPACE, SPACE, -SPACE, -SPACE)
        wide.setWidth(min(wide.width(), self._scale.lead * 22.0))
        wide.moveCenter(rect.center())
        flags = Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap
        box = painter.boundingRect(wide, flags, words).adjusted(-SPACE * 2, -SPACE, SPACE * 2, SPACE)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(self._theme.flannel))
        painter.drawRoundedRect(box, RADIUS, RADIUS)
        painter.setPen(QColor(self._theme.text))
        painter.drawText(wide, flags, words)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)  # noqa: FBT003 - Qt's own signature

    def _font(self, bold: bool = False) -> QFont:
        font = QFont(self._painter.font())
        font.setPixelSize(self._scale.body)
        font.setWeight(QFont.Weight.DemiBold if bold else QFont.Weight.Normal)
        return font

    def _plain(self) -> None:
        self._painter.setBrush(Qt.BrushStyle.NoBrush)
        self._painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)  # noqa: FBT003 - Qt's own signature


def _doubled(theme: Theme) -> tuple[tuple[str, float], tuple[str, float]]:
    """The two colors of an outline, wider first: on any cloth one of them stands out by 3:1 at least."""
    return ((theme.surface, 6.0), (theme.on_accent_soft, 3.0))


def _pen(color: str, width: float, dash: tuple[float, ...] = ()) -> QPen:
    pen = QPen(QColor(color), width)
    pen.setCapStyle(Qt.PenCapStyle.FlatCap if dash else Qt.PenCapStyle.SquareCap)
    pen.setJoinStyle(Qt.PenJoinStyle.MiterJoin)
    if dash:
        pen.setDashPattern([length / width for length in dash])
    return pen


def _hatching(rect: QRectF) -> list[QLineF]:
    """Slanted lines over a rectangle, in step with the view and not with the rectangle."""
    first = int((rect.left() - rect.height()) // _HATCH)
    last = int(rect.right() // _HATCH) + 1
    return [
        QLineF(QPointF(n * _HATCH, rect.bottom()), QPointF(n * _HATCH + rect.height(), rect.top()))
        for n in range(first, last)
    ]


def _touches(line: QLineF, area: QRectF) -> bool:
    across = min(line.x1(), line.x2()) <= area.right() and max(line.x1(), line.x2()) >= area.left()
    return across and min(line.y1(), line.y2()) <= area.bottom() and max(line.y1(), line.y2()) >= area.top()


@lru_cache(maxsize=4)
def _outline(scene: Scene, cells: tuple[Cell, ...]) -> tuple[Side, ...]:
    """The sides of cells with a selected block on one side only, as lines from column, row to column, row."""
    sides: set[Side] = set()
    for cell in cells:
        laid = scene.at(cell.column, cell.row)
        if laid is not None:
            sides ^= set(_sides(*laid[:4]))
    return (*_joined(sides, along=0), *_joined(sides, along=1))


def _sides(column: int, row: int, columns: int, rows: int) -> Iterable[Side]:
    for x in range(column, column + columns):
        yield (x, row, x + 1, row)
        yield (x, row + rows, x + 1, row + rows)
    for y in range(row, row + rows):
        yield (column, y, column, y + 1)
        yield (column + columns, y, column + columns, y + 1)


def _joined(sides: set[Side], along: int) -> Iterable[Side]:
    """Sides that run across (0) or down (1), those that follow each other as one."""
    other = 1 - along
    run: list[int] | None = None
    for side in sorted(
        (side for side in sides if side[other] == side[other + 2]),
        key=lambda side: (side[other], side[along]),
    ):
        if run is not None and run[other] == side[other] and run[along + 2] == side[along]:
            run[along + 2] = side[along + 2]
            continue
        if run is not None:
            yield (run[0], run[1], run[2], run[3])
        run = list(side)
    if run is not None:
        yield (run[0], run[1], run[2], run[3])
