"""The wall in settings on point and with sashing: what the pointer finds, drags, bands and keys."""

import os
from fractions import Fraction

import pytest
from PySide6.QtCore import QPointF, Qt
from PySide6.QtTest import QTest

from piecewright.edit.registry import Cell
from piecewright.edit.setting import change_setting, set_coping, set_sashing, set_triangles
from piecewright.model.design import Design
from piecewright.model.setting import Sashing, Triangles
from piecewright_qt.wall.describing import describe_place
from piecewright_qt.wall.scene import Scene, differences
from piecewright_qt.wall.view import WallView
from tests.desktop.wall import quilts
from tests.desktop.wall.conftest import Hang
from tests.desktop.wall.hands import click, drag


def on_point() -> Design:
    """Thirteen rails on point."""
    found = change_setting(quilts.rails(4, 4), kind="on point", columns=3, rows=3)
    return set_triangles(found, triangles=Triangles(found.fabrics[0].id))


def sashed() -> Design:
    design = quilts.rails(4, 3)
    fabrics = [fabric.id for fabric in design.fabrics]
    return set_sashing(design, sashing=Sashing(fabrics[0], Fraction(2), Fraction(1), fabrics[1]))


DESIGNS = {"on point": on_point, "sashed": sashed}


def middle_of(wall: WallView, cell: Cell) -> QPointF:
    laid = wall.scene.at(cell.column, cell.row)
    columns, rows = (laid.columns, laid.rows) if laid else (1, 1)
    rect = wall.scene.layout.rect(cell.column, cell.row, columns, rows)
    place = (float(rect.x + rect.width / 2), float(rect.y + rect.height / 2))
    return wall.camera.point(wall.scene.outside(place))


@pytest.mark.parametrize("name", DESIGNS)
def test_every_block_is_found_under_its_middle(hang: Hang, name: str) -> None:
    wall = hang(DESIGNS[name]())
    for index in range(len(wall.items)):
        item = wall.items[index]
        found = wall.items.at(wall.camera.inches(middle_of(wall, item.id)))
        assert found is item
        spot = wall.items.spot(wall.camera.inches(middle_of(wall, item.id)))
        assert spot is not None
        assert spot.outline.containsPoint(
            QPointF(*wall.camera.inches(middle_of(wall, item.id))), Qt.FillRule.OddEvenFill
        )


@pytest.mark.parametrize("name", DESIGNS)
def test_a_block_is_dragged_onto_another_and_they_change_places(hang: Hang, name: str) -> None:
    wall = hang(DESIGNS[name]())
    one, other = wall.items[0], wall.items[len(wall.items) - 1]
    before = (wall.scene.at(*pair(one.id)), wall.scene.at(*pair(other.id)))
    assert before[0] is not None
    assert before[1] is not None
    drag(wall, middle_of(wall, one.id).toPoint(), middle_of(wall, other.id).toPoint())
    design = wall.document.design
    after = Scene(design)
    there = after.at(*pair(other.id))
    assert there is not None
    assert (there.placement.block, there.placement.turn) == (
        before[0].placement.block,
        before[0].placement.turn,
    )
    assert len(wall.items) == len(after.hung)


@pytest.mark.parametrize("name", DESIGNS)
def test_a_band_selects_what_it_touches_and_sashes_belong_to_no_block(hang: Hang, name: str) -> None:
    wall = hang(DESIGNS[name]())
    assert len(wall.items.in_box(wall.scene.whole)) == len(wall.items)
    click(wall, middle_of(wall, wall.items[0].id).toPoint())
    assert wall.selection.cells == (wall.items[0].id,)
    if name == "sashed":
        rect = wall.scene.layout.between[0].rect
        place = (float(rect.x) + 0.1, float(rect.y) + 0.1)
        assert wall.items.at(place) is None
        said = str(describe_place(wall.scene, wall.items, place))
        assert said == f"a cornerstone: {wall.scene.design.fabrics[1].name}"
    QTest.keyClick(wall, Qt.Key.Key_Right)
    assert wall.scene.is_cell(*pair(wall.cursor_cell))


@pytest.mark.parametrize("name", DESIGNS)
def test_what_differs_is_painted_anew_and_the_picture_shows_the_cloth(hang: Hang, name: str) -> None:
    design = DESIGNS[name]()
    wall = hang(design)
    picture = wall.grab().toImage()
    click(wall, middle_of(wall, wall.items[3].id).toPoint())
    if folder := os.environ.get("PIECEWRIGHT_PICTURES"):
        wall.grab().save(f"{folder}/wall-{name.replace(' ', '-')}.png")
    seen = {
        picture.pixelColor(middle_of(wall, wall.items[n].id).toPoint()).name() for n in range(len(wall.items))
    }
    fabrics = {fabric.color for fabric in design.fabrics}
    assert seen & fabrics
    coped = set_coping(design, fabric=design.fabrics[0].id)
    assert differences(Scene(design), Scene(coped)) is None


def pair(cell: Cell) -> tuple[int, int]:
    return cell.column, cell.row
