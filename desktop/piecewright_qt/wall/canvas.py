"""The canvas under the wall: shows the design from tiles, zooms, pans and fits; knows nothing of gestures."""

from collections.abc import Callable, Iterable, Iterator
from math import log2
from time import monotonic
from typing import cast

from PySide6.QtCore import QEvent, QPoint, QPointF, QRect, QRectF, Qt, QTimer, Signal
from PySide6.QtGui import (
    QColor,
    QImage,
    QInputDevice,
    QNativeGestureEvent,
    QPainter,
    QPaintEvent,
    QResizeEvent,
    QShowEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import QAbstractScrollArea, QFrame

from piecewright.model.design import Design
from piecewright.render.gray import grayed
from piecewright_qt.document import Document
from piecewright_qt.look import Look as Dress
from piecewright_qt.wall.camera import NOTCH, STEPS, Camera, fitting
from piecewright_qt.wall.ground import paint_ground, paint_unmade
from piecewright_qt.wall.scene import Scene, differences
from piecewright_qt.wall.sprites import Sprites
from piecewright_qt.wall.tiles import Tiles

_SLICE, _BURST_SLICE = 0.005, 0.0035
"""Seconds of painting between two looks at the user's hands, and while the wheel turns."""
_BURST = 0.15
"""Seconds after a step of the wheel in which another may come."""
_AT_ONCE = 0.008
"""Seconds of painting that a change may take before the frame that shows it."""
_MARGIN = 32
"""Device-independent pixels left free round a quilt that is fitted into the view."""
_NEAR = 6
"""Device-independent pixels kept free round what is brought into view."""
_MOST_RECTS = 48
SQUINT = 12
"""Device-independent pixels that run into one spot when one squints."""


class Canvas(QAbstractScrollArea):
    """Shows what a document shows. `zoom_changed(percent)` follows each change of zoom, 100 being true size."""

    zoom_changed = Signal(int)

    def __init__(self, document: Document, look: Dress) -> None:
        super().__init__()
        self.document = document
        self.look = look
        self.sprites = Sprites()
        self.tiles = Tiles(self._paint_area)
        self.camera = Camera(ratio=self.devicePixelRatioF())
        self.is_gray = False
        self.squints = False
        self._scene = Scene(document.shown)
        self._still = self._scene
        self._fits = True
        self._setting = False
        self._wheeled = -1.0
        self._levels = 0.0
        self._late = self._timer(self._catch_up)
        self._painting = self._timer(self._go_on)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.viewport().setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        for bar in (self.horizontalScrollBar(), self.verticalScrollBar()):
            bar.valueChanged.connect(self._follow_bars)
        document.changed.connect(self._expect_change)
        document.previewed.connect(self._expect_change)
        look.changed.connect(self.set_look)

    # What is shown --------------------------------------------------------------------------------------------

    @property
    def scene(self) -> Scene:
        """What is shown, previews included."""
        if self._scene.design is not self._toned(self.document.shown):
            self._catch_up()
        return self._scene

    @property
    def still(self) -> Scene:
        """The design as it stands, without previews."""
        design = self._toned(self.document.design)
        if self._still.design is not design:
            self._still = self._scene if self._scene.design is design else Scene(design)
        return self._still

    def set_look(self) -> None:
        """Paint in the colors of the look in force."""
        self.tiles.clear()
        self._look_again()
        self.viewport().update()

    def show_values(self, *, gray: bool, squint: bool) -> None:
        """Show cloth in grays as light as it is measured, or as one sees it with half-closed eyes."""
        self.is_gray, self.squints = gray, squint
        self._catch_up()
        self.viewport().update()

    def settle(self) -> None:
        """Paint all that is missing before anything else happens: for pictures and tests."""
        self._catch_up()
        self.tiles.finish()
        self.viewport().update()

    @property
    def edge(self) -> int:
        """Device-independent pixels at the view's edges that something else lies on."""
        return 0

    # Zoom and pan ---------------------------------------------------------------------------------------------

    @property
    def percent(self) -> int:
        """The zoom, 100 being true size."""
        return self.camera.percent

    def fit(self) -> None:
        """Show the whole quilt, and keep doing so while the window or the quilt changes its size."""
        self._fits = True
        size = self.maximumViewportSize()
        margin = _MARGIN + self.edge
        self._see(fitting(self.scene.whole, size.width(), size.height(), margin, self.camera.ratio))

    def zoom_100(self) -> None:
        """Show cloth at its true size."""
        self.zoom_to(0)

    def zoom_in(self) -> None:
        """A step closer to what is in the middle."""
        self.zoom_to(self.camera.level + NOTCH)

    def zoom_out(self) -> None:
        """A step farther."""
        self.zoom_to(self.camera.level - NOTCH)

    def zoom_to(self, level: int, around: QPointF | None = None) -> None:
        """Go to a level of zoom; the place under `around` (None: the middle of the view) stays where it is."""
        middle = QRectF(self.viewport().rect()).center()
        self._fits = False
        self._see(self.camera.zoomed(level, middle if around is None else around))

    def pan(self, by: QPointF) -> None:
        """Move the quilt by so many pixels, as far as some of it stays in view."""
        self._fits = False
        self._see(self._within(self.camera.moved(by)))

    def reveal(self, rect: QRectF) -> None:
        """Pan just as far as a rectangle of the view needs to be seen."""
        near = _NEAR + self.edge
        view = QRectF(self.viewport().rect()).adjusted(near, near, -_NEAR, -_NEAR)
        across = min(0.0, view.right() - rect.right()) or max(0.0, view.left() - rect.left())
        down = min(0.0, view.bottom() - rect.bottom()) or max(0.0, view.top() - rect.top())
        if across or down:
            self.pan(QPointF(across, down))

    # Qt's own calls -------------------------------------------------------------------------------------------

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802 - Qt's name
        """A fitted quilt stays fitted."""
        super().resizeEvent(event)
        self._arrange()

    def showEvent(self, event: QShowEvent) -> None:  # noqa: N802 - Qt's name
        """The screen may be sharper than expected."""
        super().showEvent(event)
        self._arrange()

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: N802 - Qt's name
        """Tiles first, then whatever lies over them."""
        if self.camera.ratio != self.devicePixelRatioF():
            self._arrange()
        painter = QPainter(self.viewport())
        rects = list(cast("Iterable[QRect]", event.region()))
        if self.squints:
            self._paint_squinted(painter)
        else:
            self._paint_cloth(painter, rects, 1.0)
        self.paint_over(painter, QRectF(event.rect()))
        painter.end()

    def paint_over(self, painter: QPainter, area: QRectF) -> None:
        """Paint what lies over the quilt, in device-independent pixels of the view."""

    def wheelEvent(self, event: QWheelEvent) -> None:  # noqa: N802 - Qt's name
        """A wheel zooms at the pointer; a trackpad pans, and zooms with Ctrl; Shift and wheel go sideways."""
        event.accept()
        control = bool(event.modifiers() & Qt.KeyboardModifier.ControlModifier)
        if control or not _is_panning(event):
            notches = (event.angleDelta().y() or event.angleDelta().x()) / 120
            self._zoom_by(notches * NOTCH, event.position())
        elif not event.pixelDelta().isNull():
            self.pan(QPointF(event.pixelDelta()))
        else:
            self.pan(QPointF(_sideways(event)) / 2)

    def viewportEvent(self, event: QEvent) -> bool:  # noqa: N802 - Qt's name
        """Pinch to zoom at the fingers; two taps fit."""
        if isinstance(event, QNativeGestureEvent):
            return self._pinch(event)
        return super().viewportEvent(event)

    # Inside ---------------------------------------------------------------------------------------------------

    def scene_changed(self, before: Scene, after: Scene) -> None:
        """Called when another design is shown; for what stands on the canvas."""

    def update_rect(self, rect: QRectF) -> None:
        """Ask for a rectangle of the view to be painted anew."""
        self.viewport().update(rect.toAlignedRect().adjusted(-1, -1, 1, 1))

    def update_device(self, rects: list[QRect]) -> None:
        """Ask for rectangles of the quilt's device pixels to be painted anew."""
        if len(rects) > _MOST_RECTS:
            self.viewport().update()
            return
        for rect in rects:
            self.update_rect(self.camera.view_rect(rect))

    def _paint_cloth(self, painter: QPainter, rects: Iterable[QRect], scale: float) -> None:
        """Flannel and tiles in rectangles of the view, so many times as large."""
        flannel = QColor(self.look.theme.flannel)
        painter.save()
        painter.scale(scale, scale)
        for rect in rects:
            painter.fillRect(rect, flannel)
        painter.scale(1 / self.camera.ratio, 1 / self.camera.ratio)
        painter.translate(-self.camera.corner)
        for rect in rects:
            self.tiles.paint(painter, self.camera.seen(QRectF(rect)))
        painter.restore()

    def _paint_squinted(self, painter: QPainter) -> None:
        """The whole view reduced to few spots and drawn large again: small differences run together."""
        view = self.viewport().rect()
        small = QImage(
            max(1, view.width() // SQUINT), max(1, view.height() // SQUINT), QImage.Format.Format_RGB32
        )
        inside = QPainter(small)
        inside.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        self._paint_cloth(inside, [view], small.width() / view.width())
        inside.end()
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        half = small.scaled(small.size() * 3, mode=Qt.TransformationMode.SmoothTransformation)
        painter.drawImage(view, half)
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform, False)  # noqa: FBT003 - Qt's own signature

    def _toned(self, design: Design) -> Design:
        """The design as it is to be seen: in color, or in grays."""
        return grayed(design) if self.is_gray else design

    def _expect_change(self, *_designs: object) -> None:
        self._late.start()

    def _timer(self, run: Callable[[], None]) -> QTimer:
        timer = QTimer(self)
        timer.setSingleShot(True)
        timer.timeout.connect(run)
        return timer

    def _catch_up(self) -> None:
        """Show the design the document shows now: only what differs is painted anew, if there is time in this frame."""
        before = self._scene
        wanted = self._toned(self.document.shown)
        if before.design is wanted:
            return
        self._scene = after = Scene(wanted)
        boxes = differences(before, after)
        changed = self.tiles.repair(boxes)
        if boxes is None and self._fits and before.whole != after.whole:
            self.fit()
        elif boxes is None:
            self._look_again()
        self.update_device(changed)
        self._work(_AT_ONCE)
        if boxes is None:
            self.viewport().update()
        self.scene_changed(before, after)

    def _go_on(self) -> None:
        self._work(_BURST_SLICE if monotonic() - self._wheeled < _BURST else _SLICE)

    def _work(self, seconds: float) -> None:
        self.update_device(self.tiles.work(seconds))
        if not self.tiles.is_idle:
            self._painting.start()

    def _paint_area(self, painter: QPainter, camera: Camera, area: QRect) -> Iterator[None]:
        """Paint an area of the quilt's device pixels, block by block."""
        scene, pixels = self._scene, camera.pixels
        paint_ground(painter, scene, self.look.theme, camera, area, self.sprites)
        yield
        box = (
            area.left() / pixels,
            area.top() / pixels,
            (area.left() + area.width()) / pixels,
            (area.top() + area.height()) / pixels,
        )
        for laid, look in scene.blocks_in(box):
            target = camera.device(scene.box_of(laid))
            if not target.intersects(area):
                continue
            if look is None:
                paint_unmade(painter, self.look.theme, target, camera.ratio)
            else:
                self.sprites.paint(painter, look, laid.placement.turn, target, pixels, slanted=scene.on_point)
            yield

    def _see(self, camera: Camera) -> None:
        """Look through another camera."""
        if camera == self.camera:
            return
        zoomed = camera.level != self.camera.level
        self.camera = camera
        self._look_again()
        self.viewport().update()
        if zoomed:
            self.zoom_changed.emit(self.percent)

    def _look_again(self) -> None:
        area = self.camera.seen(QRectF(self.viewport().rect()))
        pointer = self.viewport().mapFromGlobal(self.cursor().pos())
        inside = self.viewport().rect().contains(pointer)
        focus = self.camera.seen(QRectF(pointer, pointer)).topLeft() if inside else area.center()
        self.tiles.look(self.camera, area, focus, self._scene.whole)
        self._set_bars()
        if not self.tiles.is_idle:
            self._painting.start()

    def _arrange(self) -> None:
        """After the view's size or the screen's sharpness changed."""
        ratio = self.devicePixelRatioF()
        if ratio != self.camera.ratio:
            self.sprites.clear()
            self._see(self.camera.with_ratio(ratio))
        if self._fits:
            self.fit()
        self._look_again()

    def _within(self, camera: Camera) -> Camera:
        """A camera held so that a quarter of the view at least shows the quilt or what is just round it."""
        size, whole = self.maximumViewportSize(), self.scene.whole
        wide, high = size.width() * camera.ratio, size.height() * camera.ratio
        left = _between(camera.left, whole[0] * camera.pixels, whole[2] * camera.pixels, wide)
        top = _between(camera.top, whole[1] * camera.pixels, whole[3] * camera.pixels, high)
        return Camera(camera.level, left, top, camera.ratio)

    def _set_bars(self) -> None:
        """Bars only while some of the quilt is out of view; they never move what is seen."""
        if self._setting:
            return
        self._setting = True
        view, seen = self.maximumViewportSize(), self.camera.rect(self._scene.whole)
        whole = QRectF(QPointF(0, 0), view).contains(seen)
        policy = Qt.ScrollBarPolicy
        self.setHorizontalScrollBarPolicy(policy.ScrollBarAlwaysOff if whole else policy.ScrollBarAsNeeded)
        self.setVerticalScrollBarPolicy(policy.ScrollBarAlwaysOff if whole else policy.ScrollBarAsNeeded)
        port = self.viewport().size()
        for bar, at, low, high, page in (
            (self.horizontalScrollBar(), self.camera.left, seen.left(), seen.right(), port.width()),
            (self.verticalScrollBar(), self.camera.top, seen.top(), seen.bottom(), port.height()),
        ):
            value = round(at / self.camera.ratio)
            first, last = round(value + low - _MARGIN), round(value + high + _MARGIN - page)
            bar.setPageStep(page)
            bar.setSingleStep(max(1, page // 20))
            bar.setRange(min(first, last, value), max(first, last, value))
            bar.setValue(value)
        self._setting = False

    def _follow_bars(self) -> None:
        if self._setting:
            return
        ratio = self.camera.ratio
        across, down = self.horizontalScrollBar().value() * ratio, self.verticalScrollBar().value() * ratio
        self._fits = False
        self._see(Camera(self.camera.level, across, down, ratio))

    def _zoom_by(self, levels: float, at: QPointF) -> None:
        """Zoom by parts of a level too: what is less than one is kept for the next time."""
        self._wheeled = monotonic()
        self._levels += levels
        steps = int(self._levels)
        self._levels -= steps
        if steps:
            self.zoom_to(self.camera.level + steps, at)

    def _pinch(self, event: QNativeGestureEvent) -> bool:
        kinds = Qt.NativeGestureType
        if event.gestureType() == kinds.ZoomNativeGesture:
            self._zoom_by(log2(1 + max(event.value(), -0.9)) * STEPS, event.position())
        elif event.gestureType() == kinds.SmartZoomNativeGesture:
            self.fit() if not self._fits else self.zoom_to(0, event.position())
        elif event.gestureType() == kinds.PanNativeGesture:
            self.pan(event.delta())
        else:
            return False
        event.accept()
        return True


def _is_panning(event: QWheelEvent) -> bool:
    """Whether a wheel event comes from a trackpad, or asks for sideways with Shift."""
    device = event.device()
    pad = device is not None and device.type() == QInputDevice.DeviceType.TouchPad
    phased = event.phase() != Qt.ScrollPhase.NoScrollPhase
    shifted = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
    return pad or phased or shifted or not event.pixelDelta().isNull()


def _sideways(event: QWheelEvent) -> QPoint:
    delta = event.angleDelta()
    if event.modifiers() & Qt.KeyboardModifier.ShiftModifier and not delta.x():
        return QPoint(delta.y(), 0)
    return delta


def _between(at: float, low: float, high: float, view: float) -> float:
    """The start of a view between two ends, so that a quarter of it overlaps them."""
    return min(max(at, low - 0.75 * view), high - 0.25 * view)
