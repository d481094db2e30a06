"""The quilt as painted tiles: made block by block in short slices, repaired where it changes, kept within bounds."""

from collections import OrderedDict
from collections.abc import Callable, Generator, Iterable, Iterator
from dataclasses import dataclass, field
from time import perf_counter
from typing import NamedTuple

from PySide6.QtCore import QPoint, QRect, Qt
from PySide6.QtGui import QPainter, QPixmap, QRegion

from piecewright_qt.wall.camera import Box, Camera

SIDE = 256
"""Device pixels that a tile is wide and high."""
_LEAST_KEPT = 96
_FULL = QRect(0, 0, SIDE, SIDE)
_MOST_REPAIRS = 12
"""Repairs of one tile that are cheaper than painting it whole."""
_OVERVIEW_SIDE = 600
"""Device pixels of the small picture of the whole quilt that stands in where nothing sharper is painted yet."""
_DONE = object()

PaintArea = Callable[[QPainter, Camera, QRect], Iterator[None]]
"""Paints an area of the quilt's device pixels block by block; the painter stands at the quilt's 0, 0."""


class Key(NamedTuple):
    """A tile by its level of zoom, column and row."""

    level: int
    x: int
    y: int

    @property
    def area(self) -> QRect:
        """The device pixels of the quilt that the tile shows."""
        return QRect(self.x * SIDE, self.y * SIDE, SIDE, SIDE)


@dataclass(slots=True)
class Tile:
    """A painted tile and what of it no longer is true, in its own pixels."""

    pixmap: QPixmap
    repairs: list[QRect] = field(default_factory=list)


@dataclass(slots=True)
class _Job:
    """A tile being painted into a pixmap that is shown when it is done."""

    key: Key
    pixmap: QPixmap
    steps: Generator[None, None, None]


@dataclass(frozen=True, slots=True)
class _Picture:
    """What was seen at another level, shown enlarged until the present one is sharp."""

    pixmap: QPixmap
    level: int
    area: QRect


class Tiles:
    """Tiles of one scene. `paint` shows what there is, `work` paints what is missing, `repair` what has changed.

    `pixels_painted` counts the device pixels painted, for tests and benches.
    """

    def __init__(self, paint_area: PaintArea) -> None:
        self._paint_area = paint_area
        self._tiles: OrderedDict[Key, Tile] = OrderedDict()
        self._queue: list[Key] = []
        self._camera = Camera()
        self._area = QRect()
        self._visible: frozenset[Key] = frozenset()
        self._overview: tuple[Key, ...] = ()
        self._overview_level = 0
        self._job: _Job | None = None
        self._old: _Picture | None = None
        self.pixels_painted = 0

    def __len__(self) -> int:
        return len(self._tiles)

    @property
    def bytes(self) -> int:
        """Bytes of all tiles kept."""
        return len(self._tiles) * SIDE * SIDE * 4

    @property
    def is_sharp(self) -> bool:
        """Whether all that is seen is painted at the present zoom and true."""
        return all(key in self._tiles and not self._tiles[key].repairs for key in self._visible)

    @property
    def is_idle(self) -> bool:
        """Whether nothing is left to paint, the surroundings and the overview included."""
        return self._job is None and self._next() is None

    def clear(self) -> None:
        """Forget everything: another theme, another sharpness."""
        self._stop()
        self._tiles.clear()
        self._old = None

    def look(self, camera: Camera, area: QRect, focus: QPoint, whole: Box) -> None:
        """See an area of the quilt's device pixels; what lies nearest to `focus` is painted first."""
        if camera.ratio != self._camera.ratio:
            self.clear()
        if camera.level != self._camera.level:
            self._keep_picture()
        self._camera, self._area = camera, area
        seen = _keys(camera.level, area)
        self._visible = frozenset(seen)
        self._overview = self._overview_keys(camera, whole)
        ring = _keys(camera.level, area.adjusted(-SIDE, -SIDE, SIDE, SIDE))
        useful = camera.device(whole).adjusted(-SIDE // 2, -SIDE // 2, SIDE // 2, SIDE // 2)
        near = [key for key in ring if key not in self._visible and key.area.intersects(useful)]
        self._queue = [*_by_distance(seen, focus), *_by_distance(near, focus), *self._overview]
        if self._job is not None and self._job.key not in self._queue:
            self._stop()
        self._bound()

    def repair(self, boxes: Iterable[Box] | None) -> list[QRect]:
        """Mark what changed as no longer true (None: everything).

        Gives the changed device pixels at the present zoom; empty for everything.
        """
        self._old = None
        if boxes is None:
            self._stop()
            self._drop_others()
            for tile in self._tiles.values():
                tile.repairs = [_FULL]
            return []
        here = []
        for box in boxes:
            here.append(self._camera.device(box))
            for level in {self._camera.level, self._overview_level}:
                self._mark(level, Camera(level, ratio=self._camera.ratio).device(box))
        self._drop_others(here)
        return here

    def work(self, seconds: float) -> list[QRect]:
        """Paint for so long, one step at least; gives the areas at the present zoom that became true."""
        until = perf_counter() + seconds
        done: list[QRect] = []
        while self._job is not None or self._begin(done):
            job = self._job
            if job is not None and next(job.steps, _DONE) is _DONE:
                self._finish(job, done)
            if perf_counter() >= until:
                break
        if self._old is not None and self.is_sharp:
            self._old = None
        return done

    def finish(self) -> list[QRect]:
        """Paint all that is missing, however long it takes."""
        done: list[QRect] = []
        while not self.is_idle:
            done += self.work(1.0)
        return done

    def paint(self, painter: QPainter, area: QRect) -> None:
        """Show an area of the quilt's device pixels; the painter stands at their 0, 0, unscaled."""
        missing = QRegion()
        for key in _keys(self._camera.level, area):
            tile = self._tiles.get(key)
            if tile is None:
                missing += key.area & area
            else:
                part = key.area & area
                painter.drawPixmap(part, tile.pixmap, part.translated(-key.area.topLeft()))
        if not missing.isEmpty():
            self._paint_old(painter, missing)

    def _paint_old(self, painter: QPainter, missing: QRegion) -> None:
        """Fill what is not painted yet with what is known at other levels, enlarged or reduced."""
        painter.save()
        painter.setClipRegion(missing, Qt.ClipOperation.IntersectClip)
        for key in self._overview:
            tile = self._tiles.get(key)
            if tile is not None and key.level != self._camera.level:
                painter.drawPixmap(self._scaled(key.area, key.level), tile.pixmap)
        if self._old is not None:
            painter.drawPixmap(self._scaled(self._old.area, self._old.level), self._old.pixmap)
        painter.restore()

    def _scaled(self, area: QRect, level: int) -> QRect:
        """Device pixels of another level in those of the present one."""
        factor = self._camera.pixels / Camera(level, ratio=self._camera.ratio).pixels
        left, top = round(area.left() * factor), round(area.top() * factor)
        right, bottom = (
            round((area.left() + area.width()) * factor),
            round((area.top() + area.height()) * factor),
        )
        return QRect(left, top, right - left, bottom - top)

    def _keep_picture(self) -> None:
        """Before the zoom changes: keep what is seen, unless what is seen is itself enlarged."""
        if not self._visible or not self.is_sharp:
            return
        pixmap = QPixmap(self._area.size())
        painter = QPainter(pixmap)
        painter.translate(-self._area.topLeft())
        for key in self._visible:
            painter.drawPixmap(key.area.topLeft(), self._tiles[key].pixmap)
        painter.end()
        self._old = _Picture(pixmap, self._camera.level, self._area)

    def _overview_keys(self, camera: Camera, whole: Box) -> tuple[Key, ...]:
        """The tiles of the small picture of all; its level follows the quilt's size, not the view's."""
        level = 0
        while max(_extent(Camera(level, ratio=1.0).device(whole))) > _OVERVIEW_SIDE:
            level -= 32
        self._overview_level = level
        return tuple(_keys(level, Camera(level, ratio=camera.ratio).device(whole)))

    def _mark(self, level: int, changed: QRect) -> None:
        for key in _keys(level, changed):
            tile = self._tiles.get(key)
            if self._job is not None and self._job.key == key:
                self._stop()
            if tile is not None:
                tile.repairs.append((changed & key.area).translated(-key.area.topLeft()))
                if len(tile.repairs) > _MOST_REPAIRS:
                    tile.repairs = [_FULL]

    def _drop_others(self, changed: list[QRect] | None = None) -> None:
        """Forget tiles of other levels that show what changed: they are painted anew when they are seen again."""
        for key in [
            key for key in self._tiles if key.level not in (self._camera.level, self._overview_level)
        ]:
            there = changed is None or any(
                self._scaled(key.area, key.level).intersects(box) for box in changed
            )
            if there:
                del self._tiles[key]

    def _next(self) -> Key | None:
        return next((key for key in self._queue if key not in self._tiles or self._tiles[key].repairs), None)

    def _begin(self, done: list[QRect]) -> bool:
        """Take up the next tile: small repairs are done at once, a whole tile becomes a job. False: none is left."""
        key = self._next()
        if key is None:
            return False
        tile = self._tiles.get(key)
        if tile is None or tile.repairs[0] == _FULL:
            pixmap = QPixmap(SIDE, SIDE)
            self._job = _Job(key, pixmap, self._painted(pixmap, key, _FULL))
            return True
        for part in tile.repairs:
            for _ in self._painted(tile.pixmap, key, part):
                pass
            self._tell(key, part, done)
        tile.repairs.clear()
        return True

    def _painted(self, pixmap: QPixmap, key: Key, part: QRect) -> Generator[None, None, None]:
        """Paint part of a tile, block by block; the painter ends even when the job is dropped."""
        area = part.translated(key.area.topLeft())
        painter = QPainter(pixmap)
        try:
            painter.setClipRect(part)
            painter.translate(-key.area.topLeft())
            yield from self._paint_area(painter, Camera(key.level, ratio=self._camera.ratio), area)
        finally:
            painter.end()
        self.pixels_painted += part.width() * part.height()

    def _finish(self, job: _Job, done: list[QRect]) -> None:
        self._job = None
        self._tiles[job.key] = Tile(job.pixmap)
        self._tell(job.key, _FULL, done)
        self._bound()

    def _tell(self, key: Key, part: QRect, done: list[QRect]) -> None:
        if key in self._visible:
            done.append(part.translated(key.area.topLeft()))
        elif key.level == self._overview_level and not self.is_sharp:
            done.append(self._scaled(key.area, key.level))

    def _stop(self) -> None:
        """Drop the tile being painted, closing its painter."""
        job, self._job = self._job, None
        if job is not None:
            job.steps.close()

    def _bound(self) -> None:
        """Forget the tiles not seen for longest; those in view and the overview stay."""
        wanted = set(self._queue)
        limit = max(_LEAST_KEPT, 2 * len(self._visible)) + len(self._overview)
        for key in self._queue:
            if key in self._tiles:
                self._tiles.move_to_end(key)
        for key in [key for key in self._tiles if key not in wanted]:
            if len(self._tiles) <= limit:
                break
            del self._tiles[key]


def _keys(level: int, area: QRect) -> list[Key]:
    """The tiles that an area touches."""
    if area.isEmpty():
        return []
    return [
        Key(level, x, y)
        for y in range(area.top() // SIDE, area.bottom() // SIDE + 1)
        for x in range(area.left() // SIDE, area.right() // SIDE + 1)
    ]


def _by_distance(keys: Iterable[Key], focus: QPoint) -> list[Key]:
    def distance(key: Key) -> float:
        away = key.area.center() - focus
        return float(away.x() ** 2 + away.y() ** 2)

    return sorted(keys, key=distance)


def _extent(area: QRect) -> tuple[int, int]:
    return (area.width(), area.height())
