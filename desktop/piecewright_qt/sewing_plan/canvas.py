"""The picture of one step on its sheet, painted off the window's thread, and where in the quilt its part lies."""

from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QImage, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QWidget

from piecewright.geometry.motion import Motion
from piecewright.render.layout import largest, room
from piecewright.render.sewing_picture import SewingPicture
from piecewright_qt.drawing.brushes import Brushes
from piecewright_qt.drawing.qt_pen import QtPen
from piecewright_qt.look import Look
from piecewright_qt.runner import Job, Runner
from piecewright_qt.sewing_table.paper import paper
from piecewright_qt.theme.tokens import RADIUS, SPACE_WIDE, Theme

_PAPER = 116.0  # pixels to the inch of paper at a text scale of 1
_MARGIN = 0.3  # inches of paper round the picture
_WHERE = 1.5  # inches of paper that the small picture of the whole top takes at most
_KEY = "sewing-step"


@dataclass(frozen=True)
class Sheet:
    """What a sheet shows: a step by its number, on so many device pixels."""

    picture: SewingPicture
    index: int
    size: QSize
    pixels: float
    theme: Theme


class StepCanvas(QWidget):
    """Shows one step; until it is painted, the one before."""

    def __init__(self, look: Look, runner: Runner) -> None:
        super().__init__()
        self._look, self._runner = look, runner
        self._image: QImage | None = None
        self._wanted: tuple[SewingPicture, int] | None = None
        self.setMinimumSize(240, 180)
        self.setAccessibleName(self.tr("Picture of the step"))
        look.changed.connect(self._paint_anew)

    @property
    def image(self) -> QImage | None:
        """What is shown."""
        return self._image

    def show_step(self, picture: SewingPicture, index: int) -> None:
        """Show a step of a top."""
        self._wanted = picture, index
        self._paint_anew()

    def show_nothing(self) -> None:
        """No step is there."""
        self._wanted = self._image = None
        self._runner.give_up(_KEY)
        self.update()

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802 - Qt's name
        """As large as there is room."""
        super().resizeEvent(event)
        self._paint_anew()

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: N802 - Qt's name
        """The sheet, and what is painted on it."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(paper(self._look.theme))
        painter.drawRoundedRect(self._sheet(), RADIUS, RADIUS)
        if self._image is not None:
            painter.drawImage(self._sheet().topLeft(), self._image)
        painter.end()

    def _sheet(self) -> QRectF:
        return QRectF(self.rect()).adjusted(SPACE_WIDE, SPACE_WIDE, -SPACE_WIDE, -SPACE_WIDE)

    def _paint_anew(self) -> None:
        if self._wanted is None or self._sheet().isEmpty():
            return
        ratio = self.devicePixelRatioF()
        size = (self._sheet().size() * ratio).toSize()
        pixels = _PAPER * ratio * max(1.0, self._look.scale.text) ** 0.5
        sheet = Sheet(*self._wanted, size, pixels, self._look.theme)

        def work(_job: Job) -> QImage:
            return paint_sheet(sheet)

        def show(image: QImage) -> None:
            image.setDevicePixelRatio(ratio)
            self._image = image
            self.update()

        self._runner.run(_KEY, work, show)


def paint_sheet(sheet: Sheet) -> QImage:
    """A step in the middle of a clear image, and in its corner where in the top its part lies."""
    image = QImage(sheet.size, QImage.Format.Format_ARGB32_Premultiplied)
    image.fill(Qt.GlobalColor.transparent)
    width, height = (side / sheet.pixels - 2 * _MARGIN for side in (sheet.size.width(), sheet.size.height()))
    step = sheet.picture.order.steps[sheet.index]
    has_corner = step.kind not in ("center", "border")
    corner = min(_WHERE, height / 3) if has_corner else 0.0
    figure, _ = largest(
        lambda scale: sheet.picture.step(sheet.index, scale), width, max(height - corner - _MARGIN, 0.5)
    )
    box = room(figure)
    painter = QPainter(image)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.save()
    middle = QPointF(sheet.size.width() / 2, (sheet.size.height() - corner * sheet.pixels) / 2)
    painter.translate(middle)
    pen = QtPen(painter, sheet.pixels, Brushes())
    with pen.framed(Motion(dx=-box.left - box.width / 2, dy=-box.top - box.height / 2)):
        figure(pen)
    painter.restore()
    if has_corner:
        _paint_where(painter, sheet, corner)
    painter.end()
    return image


def _paint_where(painter: QPainter, sheet: Sheet, side: float) -> None:
    """The whole top small, the part of the step marked, at the bottom left."""
    center = sheet.picture.laid.center
    scale = side / float(max(center.width, center.height))
    painter.translate(
        _MARGIN * sheet.pixels,
        sheet.size.height() - (_MARGIN + float(center.height) * scale) * sheet.pixels,
    )
    pen = QtPen(painter, sheet.pixels, Brushes())
    with pen.framed(scale, Motion(dx=-center.x, dy=-center.y)):
        sheet.picture.draw_where(pen, sheet.index, scale)
