"""The wall in every setting, by hand: each thing that is done with mouse or keys comes out where it was aimed."""

from collections.abc import Callable
from fractions import Fraction

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QAccessible

from piecewright.edit.registry import Cell, apply, call
from piecewright.model.design import Design
from piecewright.model.setting import Sashing, Triangles
from piecewright_qt.wall.items import Item
from piecewright_qt.wall.mime import block_mime, fabric_mime
from piecewright_qt.wall.view import WallView
from tests.desktop.wall import quilts
from tests.desktop.wall.conftest import Hang
from tests.desktop.wall.hands import (
    CTRL,
    SHIFT,
    blocks,
    carried,
    cells,
    click,
    drag,
    drop,
    key,
    move,
    placed,
    press,
    pull,
    release,
    selected,
)

KEY = Qt.Key


def straight() -> Design:
    """Four columns and three rows, two cells empty."""
    return apply(quilts.rails(4, 3), call("remove-blocks", cells=tuple(cells((1, 1), (3, 2)))))


def sashed(design: Design, columns: int = 2, rows: int = 1) -> Design:
    one, other = (fabric.id for fabric in design.fabrics[:2])
    return apply(design, call("set-sashing", sashing=Sashing(one, Fraction(columns), Fraction(rows), other)))


def on_point() -> Design:
    """Rails on point, with triangles and room to spare."""
    found = apply(straight(), call("change-setting", kind="on point", columns=3, rows=3))
    return apply(found, call("set-triangles", triangles=Triangles(found.fabrics[0].id)))


def spaced() -> Design:
    """Sashing round spaces of two by two small cells."""
    return sashed(apply(quilts.rails(4, 3), call("set-unit", unit=Fraction(3))))


def columns() -> Design:
    """Blocks of unlike heights, closed up in columns."""
    return apply(quilts.mixed(), call("stack-columns", width=12, at="spread"))


DESIGNS: dict[str, Callable[[], Design]] = {
    "straight": straight,
    "sashed": lambda: sashed(straight()),
    "on point": on_point,
    "on point with sashing": lambda: sashed(on_point(), 1, 1),
    "spaces": spaced,
    "columns": columns,
    "medallion": lambda: apply(quilts.rails(3, 3), call("lay-medallion", cell=Cell(1, 1))),
}
EVERY = pytest.mark.parametrize("name", DESIGNS)
ROOMY = pytest.mark.parametrize(
    "name", [name for name in DESIGNS if name not in ("spaces", "medallion", "columns")]
)


def place_in(wall: WallView, item: Item, across: float = 0.5, down: float = 0.5) -> QPoint:
    """A point of the view inside a block, by shares of its sides as it lies."""
    rect = wall.scene.layout.rect(item.laid.column, item.laid.row, item.laid.columns, item.laid.rows)
    inside = (float(rect.x) + float(rect.width) * across, float(rect.y) + float(rect.height) * down)
    return wall.camera.point(wall.scene.outside(inside)).toPoint()


def middle_of(wall: WallView, cell: Cell) -> QPoint:
    """The middle of a cell."""
    rect = wall.scene.layout.rect(cell.column, cell.row)
    return wall.camera.point(
        wall.scene.outside((float(rect.x + rect.width / 2), float(rect.y + rect.height / 2)))
    ).toPoint()


def free_cell(wall: WallView) -> Cell:
    """A cell without a block."""
    column, row = wall.scene.layout.empty_cells()[0]
    return Cell(column, row)


def all_items(wall: WallView) -> list[Item]:
    return [wall.items[index] for index in range(len(wall.items))]


@EVERY
def test_a_block_is_hit_to_its_very_edge_and_its_outline_lies_round_it(hang: Hang, name: str) -> None:
    wall = hang(DESIGNS[name]())
    for item in all_items(wall):
        for across, down in ((0.5, 0.5), (0.06, 0.06), (0.94, 0.06), (0.06, 0.94), (0.94, 0.94)):
            click(wall, place_in(wall, item, across, down))
            assert wall.selection.cells == (item.id,), (item.id, across, down)
    item = wall.items[0]
    click(wall, place_in(wall, item))
    press(wall, QPoint(2, 2))
    release(wall, QPoint(2, 2))
    assert wall.selection.cells == ()


@EVERY
def test_a_small_band_within_a_block_takes_that_one_alone(hang: Hang, name: str) -> None:
    wall = hang(DESIGNS[name]())
    for item in all_items(wall)[:6]:
        wall.selection.clear()
        drag(wall, place_in(wall, item, 0.4, 0.4), place_in(wall, item, 0.6, 0.6), SHIFT)
        assert wall.selection.cells == (item.id,)
    drag(wall, QPoint(1, 1), QPoint(wall.viewport().width() - 2, wall.viewport().height() - 2))
    assert len(wall.selection.cells) == len(wall.items)


@ROOMY
def test_a_block_of_the_shelf_falls_on_the_cell_under_the_pointer(hang: Hang, name: str) -> None:
    wall = hang(DESIGNS[name]())
    cell, before = free_cell(wall), len(wall.items)
    spot = middle_of(wall, cell)
    assert drop(wall, block_mime(quilts.RAIL), spot)
    assert len(wall.items) == before + 1
    assert blocks(wall.document.design)[cell.column, cell.row] == quilts.RAIL
    assert selected(wall) == [(cell.column, cell.row)]


@ROOMY
def test_a_drag_shows_its_ghost_under_the_pointer_and_ends_there(hang: Hang, name: str) -> None:
    wall = hang(DESIGNS[name]())
    item, cell = wall.items[0], free_cell(wall)
    start, end = place_in(wall, item), middle_of(wall, cell)
    pull(wall, start, end)
    now = carried(wall)
    assert now is not None
    assert (now.cell, now.refusal) == (cell, None)
    ghost = wall.marks.landing_rect()
    assert abs(ghost.center().x() - end.x()) < 4
    assert abs(ghost.center().y() - end.y()) < 4
    release(wall, end)
    assert blocks(wall.document.design)[cell.column, cell.row] == item.laid.placement.block
    assert (item.id.column, item.id.row) not in placed(wall.document.design)
    assert wall.document.undo_stack.count() == 1
    key(wall, KEY.Key_Escape)
    wall.document.undo()
    drag(wall, start, end, CTRL)
    assert len(wall.items) == len(placed(wall.document.design))
    assert (item.id.column, item.id.row) in placed(wall.document.design)


@EVERY
def test_beside_the_cells_nothing_is_set_down_and_it_is_said(hang: Hang, name: str) -> None:
    wall = hang(DESIGNS[name]())
    item, before = wall.items[0], wall.document.design
    corner = wall.camera.point((wall.scene.whole[0] + 0.2, wall.scene.whole[1] + 0.2)).toPoint()
    pull(wall, place_in(wall, item), corner - QPoint(60, 60))
    release(wall, corner - QPoint(60, 60))
    assert wall.document.design == before
    assert carried(wall) is None


@EVERY
def test_arrow_keys_reach_every_block_and_stay_on_the_quilt(hang: Hang, name: str) -> None:
    wall = hang(DESIGNS[name]())
    reached: set[Cell] = set()
    seen: set[Cell] = set()
    click(wall, place_in(wall, wall.items[0]))
    waiting = [wall.cursor_cell]
    while waiting:
        at = waiting.pop()
        if at in seen:
            continue
        seen.add(at)
        for arrow in (KEY.Key_Right, KEY.Key_Down, KEY.Key_Left, KEY.Key_Up):
            wall.set_cursor_cell(at, by_key=True)
            key(wall, arrow)
            assert wall.scene.is_cell(wall.cursor_cell.column, wall.cursor_cell.row)
            item = wall.items.at_cell(wall.cursor_cell.column, wall.cursor_cell.row)
            if item is not None:
                reached.add(item.id)
                assert wall.selection.cells == (item.id,)
            waiting.append(wall.cursor_cell)
    assert reached == {item.id for item in all_items(wall)}


@EVERY
@pytest.mark.parametrize("keys", [Qt.KeyboardModifier.NoModifier, CTRL])
def test_home_and_end_lead_to_cells_of_the_quilt(hang: Hang, name: str, keys: Qt.KeyboardModifier) -> None:
    wall = hang(DESIGNS[name]())
    click(wall, place_in(wall, wall.items[len(wall.items) // 2]))
    row = wall.cursor_cell.row
    for which in (KEY.Key_Home, KEY.Key_End):
        key(wall, which, keys)
        assert wall.scene.is_cell(wall.cursor_cell.column, wall.cursor_cell.row)
        assert keys == CTRL or wall.cursor_cell.row == row


@ROOMY
def test_a_block_in_hand_goes_by_arrows_and_enter_sets_it_down(hang: Hang, name: str) -> None:
    wall = hang(DESIGNS[name]())
    wall.take_in_hand(quilts.RAIL)
    assert carried(wall) is not None
    target = free_cell(wall)
    for _ in range(40):
        now = carried(wall)
        assert now is not None
        assert now.cell is not None
        across, down = target.column - now.cell.column, target.row - now.cell.row
        if not across and not down:
            break
        key(
            wall,
            (KEY.Key_Right if across > 0 else KEY.Key_Left)
            if across
            else (KEY.Key_Down if down > 0 else KEY.Key_Up),
        )
    key(wall, KEY.Key_Return)
    assert blocks(wall.document.design)[target.column, target.row] == quilts.RAIL


@EVERY
def test_copied_blocks_are_pasted_where_the_pointer_is(hang: Hang, name: str) -> None:
    wall = hang(DESIGNS[name]())
    item, other = wall.items[0], wall.items[len(wall.items) - 1]
    if item.laid[2:4] != other.laid[2:4]:
        pytest.skip("blocks of unlike size")
    click(wall, place_in(wall, item))
    wall.copy()
    move(wall, place_in(wall, other), button=Qt.MouseButton.NoButton)
    before = wall.document.undo_stack.count()
    wall.paste()
    assert wall.document.undo_stack.count() in (before, before + 1)
    assert blocks(wall.document.design)[other.id.column, other.id.row] == item.laid.placement.block


@EVERY
def test_a_fabric_falls_on_the_patch_under_the_pointer(hang: Hang, name: str) -> None:
    wall = hang(DESIGNS[name]())
    item = wall.items[len(wall.items) // 2]
    fabric = wall.document.design.fabrics[-1].id
    point = place_in(wall, item, 0.5, 0.5)
    spot = wall.items.spot(wall.camera.inches(QPointF(point)))
    assert spot is not None
    assert spot.item.id == item.id
    assert drop(wall, fabric_mime(fabric), point)
    changed = placed(wall.document.design)[item.id.column, item.id.row]
    assert fabric in wall.document.design.letters(changed)[spot.patch.fabric]


@EVERY
def test_a_screen_reader_finds_each_block_where_it_is_seen(hang: Hang, name: str) -> None:
    wall = hang(DESIGNS[name]())
    voice = QAccessible.queryAccessibleInterface(wall)
    children = [voice.child(index) for index in range(voice.childCount())]
    rects = {child.text(QAccessible.Text.Name): child.rect() for child in children if child is not None}
    for item in all_items(wall):
        seen = wall.viewport().mapToGlobal(place_in(wall, item))
        said = str(item.name)
        found = [rect for text, rect in rects.items() if text.startswith(said)]
        assert any(rect.contains(seen) for rect in found), (said, list(rects)[:3])


@pytest.mark.parametrize("kind", ["straight", "on point"])
def test_an_empty_wall_invites_in_every_setting(hang: Hang, kind: str) -> None:
    bare = quilts.empty(8, 8)
    wall = hang(
        bare
        if kind == "straight"
        else apply(bare, call("change-setting", kind="on point", columns=3, rows=3))
    )
    picture = wall.grab().toImage()
    filled = hang(quilts.rails(4, 4)).grab().toImage()
    assert picture != filled
    voice = QAccessible.queryAccessibleInterface(wall)
    assert "shelf" in voice.text(QAccessible.Text.Name) + voice.text(QAccessible.Text.Description)


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_triangles_not_chosen_yet_look_like_the_wall_and_not_like_cloth(hang: Hang, theme: str) -> None:
    bare = apply(straight(), call("change-setting", kind="on point", columns=3, rows=3))
    wall = hang(bare, theme)
    triangle = next(part for part in wall.scene.layout.between if part.part == "side-triangle")
    x, y = (sum(float(point[axis]) for point in triangle.points) / len(triangle.points) for axis in (0, 1))
    seen = wall.grab().toImage().pixelColor(wall.camera.point((x, y)).toPoint())
    assert seen.name() == wall.look.theme.flannel
