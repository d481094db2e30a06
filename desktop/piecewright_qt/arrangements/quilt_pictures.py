"""Small pictures of whole quilts, painted in slices once edits have settled; the newest wish wins."""

from collections import OrderedDict
from collections.abc import Hashable, Iterator
from contextlib import contextmanager

from PySide6.QtCore import QElapsedTimer, QObject, QSize, Qt, QTimer, Signal
from PySide6.QtGui import QPainter, QPixmap

from piecewright.model.design import Design
from piecewright_qt.theme.tokens import Theme
from piecewright_qt.wall.camera import Camera, fitting
from piecewright_qt.wall.ground import paint_ground, paint_unmade
from piecewright_qt.wall.scene import Scene
from piecewright_qt.wall.sprites import Sprites

SETTLED = 250
"""Milliseconds without a new wish after which painting begins."""
_SLICE = 4
"""Milliseconds of painting before the window is heard again."""
_MOST = 96
_SPRITE_BYTES = 8_000_000


class QuiltPictures(QObject):
    """Pictures by slot: one place of the window that shows one quilt. `arrived` tells which slot has a new one.

    `painted` counts pictures painted, for tests.
    """

    arrived = Signal(object)

    def __init__(self, settled: int = SETTLED, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._kept: OrderedDict[Hashable, QPixmap] = OrderedDict()
        self._last: dict[Hashable, QPixmap] = {}
        self._wishes: dict[Hashable, tuple[Hashable, Iterator[QPixmap | None]]] = {}
        self._sprites = Sprites(_SPRITE_BYTES)
        self._waiting = QTimer(self)
        self._waiting.setSingleShot(True)
        self._waiting.setInterval(settled)
        self._working = QTimer(self)
        self._working.setInterval(0)
        self._waiting.timeout.connect(self._working.start)
        self._working.timeout.connect(self._work)
        self.painted = 0

    @property
    def is_idle(self) -> bool:
        """Whether every wish has been met."""
        return not self._wishes

    def picture(
        self, slot: Hashable, design: Design, size: QSize, theme: Theme, ratio: float
    ) -> QPixmap | None:
        """The quilt in view of a design, within `size` device-independent pixels.

        Until it is painted, what the slot showed last; None where it has shown nothing yet.
        """
        shelf = (design.fabrics, design.recipes, design.blocks, design.settings)
        key = (design.quilt, shelf, size.width(), size.height(), theme.name, ratio)
        found = self._kept.get(key)
        if found is not None:
            self._kept.move_to_end(key)
            self._last[slot] = found
            self._wishes.pop(slot, None)
            return found
        if slot not in self._wishes or self._wishes[slot][0] != key:
            self._wishes[slot] = (key, _painting(design, size, theme, ratio, self._sprites))
            self._working.stop()
            self._waiting.start()
        return self._last.get(slot)

    def forget(self, slot: Hashable) -> None:
        """A slot is there no longer."""
        self._last.pop(slot, None)
        self._wishes.pop(slot, None)

    def _work(self) -> None:
        clock = QElapsedTimer()
        clock.start()
        while self._wishes and clock.elapsed() < _SLICE:
            slot, (key, steps) = next(iter(self._wishes.items()))
            pixmap = next(steps)
            if pixmap is not None:
                del self._wishes[slot]
                self._keep(slot, key, pixmap)
        if not self._wishes:
            self._working.stop()

    def _keep(self, slot: Hashable, key: Hashable, pixmap: QPixmap) -> None:
        self.painted += 1
        self._kept[key] = self._last[slot] = pixmap
        while len(self._kept) > _MOST:
            self._kept.popitem(last=False)
        self.arrived.emit(slot)


def _painting(
    design: Design, size: QSize, theme: Theme, ratio: float, sprites: Sprites
) -> Iterator[QPixmap | None]:
    """Paints block by block: None after each, the picture at last."""
    scene = Scene(design)
    camera = fitting(scene.whole, size.width(), size.height(), 0, ratio)
    whole = camera.device(scene.whole)
    pixmap = QPixmap(size * ratio)
    pixmap.fill(Qt.GlobalColor.transparent)
    yield None
    with _brush(pixmap, camera) as painter:
        painter.setClipRect(whole)
        paint_ground(painter, scene, theme, camera, whole, sprites)
    for laid, look in scene.hung:
        yield None
        with _brush(pixmap, camera) as painter:
            target = camera.device(scene.box_of(laid))
            if look is None:
                paint_unmade(painter, theme, target, ratio)
            else:
                turn, slanted = laid.placement.turn, scene.on_point
                sprites.paint(painter, look, turn, target, camera.pixels, slanted=slanted)
    pixmap.setDevicePixelRatio(ratio)
    yield pixmap


@contextmanager
def _brush(pixmap: QPixmap, camera: Camera) -> Iterator[QPainter]:
    """A painter that stands at the quilt's top left, and is put away before the window is heard again."""
    painter = QPainter(pixmap)
    painter.translate(-camera.corner)
    yield painter
    painter.end()
