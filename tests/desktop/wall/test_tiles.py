"""Tiles: only what changed is painted anew, what is repaired equals what is painted from nothing, within bounds."""

import gc
import weakref
from collections.abc import Iterator
from random import Random

import pytest
import shiboken6
from PySide6.QtCore import QEvent, QObject, QPoint, QPointF, QRect
from PySide6.QtGui import QAccessible, QImage, QPainter, QPaintEvent, QRegion
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from piecewright.edit.registry import Cell, EditCall, apply, call
from piecewright.errors import EditError
from piecewright.model.design import Design
from piecewright_qt.document import Document
from piecewright_qt.wall.camera import Camera
from piecewright_qt.wall.tiles import SIDE
from piecewright_qt.wall.view import WallView
from tests.core.edit_strategies import random_call
from tests.desktop.wall import quilts
from tests.desktop.wall.conftest import Hang
from tests.desktop.wall.hands import at, move, pull, release, wheel

RAIL_AT = (Cell(4, 4),)


class Recorder:
    """Writes down which of the quilt's device pixels are painted, by level of zoom."""

    def __init__(self, wall: WallView) -> None:
        self.regions: dict[int, QRegion] = {}
        self.pixels = 0
        self._paint_area = wall.tiles._paint_area
        wall.tiles._paint_area = self._recorded

    def _recorded(self, painter: QPainter, camera: Camera, area: QRect) -> Iterator[None]:
        self.regions[camera.level] = self.regions.get(camera.level, QRegion()) + area
        self.pixels += area.width() * area.height()
        yield from self._paint_area(painter, camera, area)


class Watch(QObject):
    """Adds up what Qt asks the view to paint."""

    def __init__(self, wall: WallView) -> None:
        super().__init__(wall)
        self.region = QRegion()
        wall.viewport().installEventFilter(self)

    def eventFilter(self, thing: QObject, event: QEvent) -> bool:  # noqa: N802 - Qt's name
        """Note a paint event; let it pass."""
        del thing
        if isinstance(event, QPaintEvent):
            self.region += event.region()
        return False


def picture(wall: WallView) -> QImage:
    """What the wall shows, without the marks over the cloth."""
    wall.selection.clear()
    wall.set_cursor_cell(Cell(0, 0))
    wall.settle()
    return wall.viewport().grab().toImage().convertToFormat(QImage.Format.Format_RGB32)


def let_it_paint() -> None:
    """Let timers run and what they ask for be painted."""
    for _ in range(5):
        QApplication.processEvents()


def area(region: QRegion) -> int:
    """The pixels of a region."""
    return sum(rect.width() * rect.height() for rect in region)  # type: ignore[attr-defined]


def random_walk(design: Design, random: Random, steps: int) -> Iterator[EditCall]:
    """Edits of every kind that a design takes, one after the other."""
    taken = 0
    while taken < steps:
        edit = random_call(random, design)
        try:
            after = apply(design, edit)
        except EditError:
            continue
        if after != design:
            yield edit
            design, taken = after, taken + 1


def test_a_drop_paints_just_the_rectangle_of_the_block(hang: Hang) -> None:
    wall = hang(quilts.rails(10, 11))
    wall.document.perform(call("remove-blocks", cells=RAIL_AT))
    wall.settle()
    recorded, drawn = Recorder(wall), wall.sprites.drawn
    wall.document.perform(call("place-block", block=quilts.RAIL, cell=RAIL_AT[0]))
    wall.settle()
    changed = wall.camera.device(wall.scene.box(4, 4))
    assert recorded.regions[wall.camera.level] == QRegion(changed)
    assert len(recorded.regions) <= 2, "the level in view and the overview"
    assert recorded.pixels < 2 * changed.width() * changed.height()
    assert wall.sprites.drawn == drawn, "one like it has been drawn already"


def test_a_drop_asks_the_screen_for_just_that_rectangle(hang: Hang) -> None:
    wall = hang(quilts.rails(10, 11))
    watch = Watch(wall)
    wall.document.perform(call("turn-blocks", cells=RAIL_AT, by=90))
    let_it_paint()
    block = wall.camera.rect(wall.scene.box(4, 4)).toAlignedRect()
    assert (QRegion(block) - watch.region).isEmpty()
    assert area(watch.region) <= (block.width() + 4) * (block.height() + 4)


def test_a_drag_repaints_only_where_the_block_was_and_is(hang: Hang) -> None:
    wall = hang(quilts.empty())
    wall.document.perform(call("place-block", block=quilts.RAIL, cell=Cell(1, 1)))
    wall.settle()
    pull(wall, at(wall, 2, 2), at(wall, 8, 8))
    let_it_paint()
    before = wall.marks.carried_rect()
    watch = Watch(wall)
    move(wall, at(wall, 10, 8))
    let_it_paint()
    allowed = QRegion(before.united(wall.marks.carried_rect()).toAlignedRect().adjusted(-2, -2, 2, 2))
    assert not watch.region.isEmpty()
    assert (watch.region - allowed).isEmpty()
    release(wall, at(wall, 10, 8))


def test_a_move_within_the_cell_paints_nothing_new_in_the_tiles(hang: Hang) -> None:
    wall = hang(quilts.mixed())
    pull(wall, at(wall, 17, 1), at(wall, 17, 9))
    wall.settle()
    painted = wall.tiles.pixels_painted
    for step in range(10):
        move(wall, at(wall, 17, 9) + QPoint(step, 0))
    wall.settle()
    assert wall.tiles.pixels_painted == painted


@pytest.mark.parametrize("seed", range(6))
def test_what_is_repaired_equals_what_is_painted_from_nothing(hang: Hang, seed: int) -> None:
    random = Random(seed)
    design = random.choice((quilts.mixed(), quilts.rails(5, 4), quilts.empty()))
    wall = hang(design, size=(640, 480))
    for edit in random_walk(design, random, 12):
        wall.document.perform(edit)
        if random.random() < 0.3:
            wall.settle()
    fresh = hang(wall.document.design, size=(640, 480))
    wall.fit()
    assert picture(wall) == picture(fresh)


def test_undo_brings_the_very_same_picture_back(hang: Hang) -> None:
    wall = hang(quilts.mixed())
    before = picture(wall)
    wall.document.perform(call("move-blocks", cells=(Cell(16, 0),), columns=2, rows=9))
    wall.document.perform(call("recolor-letter", cells=(Cell(0, 0),), letter="A", fabric="f7"))
    assert picture(wall) != before
    wall.document.undo()
    wall.document.undo()
    assert picture(wall) == before


def test_a_preview_that_is_dropped_leaves_no_trace(hang: Hang) -> None:
    wall = hang(quilts.mixed())
    before = picture(wall)
    pull(wall, at(wall, 17, 1), at(wall, 17, 9))
    wall.settle()
    wall.escape()
    assert picture(wall) == before


def test_tiles_are_bounded_whatever_is_looked_at(hang: Hang) -> None:
    wall = hang(quilts.rails(40, 40), size=(800, 600))
    most = 0
    for turn in range(60):
        wheel(wall, at(wall, 10 + turn % 20, 20), 3 if turn % 7 < 4 else -4)
        wall.pan(QPointF(-300, 170 if turn % 2 else -170))
        wall.settle()
        most = max(most, len(wall.tiles))
    visible = (800 // SIDE + 2) * (600 // SIDE + 2)
    assert most <= max(96, 2 * visible) + 2 * visible + 16
    assert wall.sprites.bytes <= 32_000_000


def test_until_it_is_sharp_the_old_picture_is_shown_at_the_new_size(hang: Hang) -> None:
    wall = hang(quilts.rails(10, 11))
    middle = wall.camera.rect(wall.scene.box(5, 5)).center()
    flannel = wall.look.theme.flannel
    wheel(wall, middle.toPoint(), 3)
    assert not wall.tiles.is_sharp
    image = wall.viewport().grab().toImage()
    colors = {
        image.pixelColor(x, y).name()
        for x in range(200, image.width() - 200, 37)
        for y in range(200, image.height() - 200, 37)
    }
    assert flannel not in colors
    assert len(colors) > 3
    wall.settle()
    assert wall.tiles.is_sharp


def test_zooming_out_far_shows_the_whole_quilt_at_once(hang: Hang) -> None:
    wall = hang(quilts.rails(10, 11))
    wall.zoom_100()
    wall.settle()
    wall.fit()
    assert not wall.tiles.is_sharp or wall.tiles.is_idle
    image = wall.viewport().grab().toImage()
    ratio = wall.camera.ratio
    for column, row in ((0, 0), (9, 0), (0, 10), (9, 10), (5, 5)):
        point = wall.camera.rect(wall.scene.box(column, row)).center() * ratio
        assert image.pixelColor(point.toPoint()).name() != wall.look.theme.flannel


def test_painting_goes_in_slices_that_other_work_can_come_between(hang: Hang) -> None:
    wall = hang(quilts.unlike(30, 20), size=(1000, 800))
    wall.zoom_in()
    slices = 0
    while not wall.tiles.is_sharp:
        painted = wall.sprites.drawn
        wall.tiles.work(0.0)
        assert wall.sprites.drawn - painted <= 1
        slices += 1
    assert slices > 100


def test_a_change_while_tiles_are_painted_is_not_lost(hang: Hang) -> None:
    wall = hang(quilts.rails(10, 11))
    wall.zoom_in()
    wall.tiles.work(0.002)
    wall.document.perform(call("remove-blocks", cells=(Cell(5, 5),)))
    wall.settle()
    after = picture(wall)
    wall.tiles.clear()
    wall.set_look()
    assert picture(wall) == after


def test_another_theme_paints_everything_anew(hang: Hang) -> None:
    wall = hang(quilts.mixed())
    wall.look.prefer(theme="dark")
    image = picture(wall)
    assert image.pixelColor(3, 3).name() == wall.look.theme.flannel
    wall.look.prefer(theme="light")


def test_seams_between_blocks_do_not_leak_what_is_behind(hang: Hang) -> None:
    """Every pixel of a filled quilt is cloth, at every zoom: nowhere does the flannel shine through."""
    wall = hang(quilts.unlike(6, 4, seed=3))
    cloth = {fabric.color for fabric in wall.scene.design.fabrics}
    assert wall.look.theme.flannel not in cloth
    for _ in range(9):
        wall.zoom_to(wall.camera.level + 7)
        image = picture(wall)
        inside = wall.camera.rect(wall.scene.center).toAlignedRect() & wall.viewport().rect()
        for y in range(inside.top() + 1, inside.bottom(), 3):
            row = {image.pixelColor(x, y).name() for x in range(inside.left() + 1, inside.right())}
            assert wall.look.theme.flannel not in row
            assert wall.look.theme.flannel_line not in row


def test_a_block_that_can_not_be_made_is_a_crossed_out_cell(hang: Hang) -> None:
    wall = hang(quilts.unmade())
    box = wall.camera.rect(wall.scene.box(12, 0)).toAlignedRect().adjusted(3, 3, -3, -3)
    image = wall.viewport().grab(box).toImage()
    colors = {image.pixelColor(x, y).name() for x in range(box.width()) for y in range(box.height())}
    assert wall.look.theme.flannel in colors
    assert len(colors) > 3


def test_a_wall_that_is_closed_goes_with_all_its_pictures(hang: Hang, qtbot: QtBot) -> None:
    document = Document(quilts.mixed())
    look = hang(quilts.empty()).look
    wall = WallView(document, look)
    wall.resize(300, 300)
    wall.show()
    wall.settle()
    wall.take_in_hand(quilts.RAIL)
    wall.select_all()
    QAccessible.queryAccessibleInterface(wall)
    gone = weakref.ref(wall)
    wall.close()
    shiboken6.delete(wall)
    del wall
    gc.collect()
    assert gone() is None
    assert document.perform(call("remove-blocks", cells=(Cell(0, 0),))), "nobody who is gone is told"
