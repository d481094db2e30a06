"""The one list of items: hit test by arithmetic against trying every block, patches against their polygons."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Point, Polygon  # type: ignore[import-untyped]

from piecewright.edit.registry import Cell, apply, call
from piecewright.geometry.motion import Motion
from piecewright.model.design import Design
from piecewright_qt.wall.camera import box_of
from piecewright_qt.wall.describing import describe_block, describe_place
from piecewright_qt.wall.items import Items
from piecewright_qt.wall.scene import Scene, differences, room_near
from piecewright_qt.wall.selection import Selection, alike, all_cells
from tests.core.strategies import designs
from tests.desktop.wall import quilts
from tests.desktop.wall.hands import cells

PLACES = st.tuples(st.floats(-5, 60), st.floats(-5, 50))


@given(designs(), PLACES)
def test_the_block_under_a_place_is_the_one_whose_box_holds_it(
    design: Design, place: tuple[float, float]
) -> None:
    items = Items(Scene(design))
    holding = [
        items[index].id
        for index in range(len(items))
        if items[index].box[0] <= place[0] < items[index].box[2]
        and items[index].box[1] <= place[1] < items[index].box[3]
    ]
    found = items.at(place)
    assert ([] if found is None else [found.id]) == holding


@given(PLACES)
def test_the_patch_under_a_place_is_the_one_whose_outline_holds_it(place: tuple[float, float]) -> None:
    items = Items(Scene(quilts.mixed()))
    spot = items.spot(place)
    assert (spot is None) == (items.at(place) is None)
    if spot is not None:
        outline = Polygon([(point.x(), point.y()) for point in spot.outline.toList()])
        assert outline.buffer(1e-6).covers(Point(place))
        assert outline.area == pytest.approx(Polygon(spot.patch.points).area)


def test_patches_lie_turned_as_their_block() -> None:
    """Against the core's own exact motion of a turned block."""
    scene = Scene(quilts.mixed())
    items = Items(scene)
    item = items.at_cell(10, 4)
    assert item is not None
    look = items.hung(item.id)
    assert look is not None
    assert look[1] is not None
    turned = Motion(quarters=1, dx=Fraction(18 + 6), dy=Fraction(6))
    for patch in look[1].kind.patches:
        points = [turned.apply(point) for point in patch.points]
        x = float(sum(x for x, _ in points)) / len(points)
        y = float(sum(y for _, y in points)) / len(points)
        spot = items.spot((x, y))
        assert spot is not None
        assert spot.patch is patch


def test_names_say_column_row_and_turn() -> None:
    items = Items(Scene(quilts.mixed()))
    assert str(items[4].name) == "Rail fence of four, column 17 row 1, turned 90"
    assert str(items[0].name) == "Middle end for end, column 1 row 1"


def test_a_block_that_can_not_be_made_says_why() -> None:
    design = quilts.unmade()
    scene = Scene(design)
    items = Items(scene)
    item = items.at_cell(12, 0)
    assert item is not None
    said = str(describe_block(scene, items, item))
    assert said.startswith("Slanted exchange, column 13 row 1 · can not be made: ")
    assert items.size(item) is None
    assert items.spot((24.5, 0.5)) is None


def test_borders_and_binding_are_told_apart() -> None:
    scene = Scene(quilts.rails(3, 3))
    items = Items(scene)
    said = [str(describe_place(scene, items, place)) for place in ((5.5, 9), (1, 9), (-0.1, 9), (-3, 9))]
    assert said == [
        "Border 1 from the inside, 1 1/2 in wide finished: Cloth 2",
        "Border 2 from the inside, 5 in wide finished: Cloth 1",
        "Binding: Cloth 3",
        "Beside the quilt",
    ]


def test_a_patch_without_a_fabric_says_so() -> None:
    design = quilts.mixed()
    bare = design.changed(
        blocks=tuple(block.changed(fabrics=block.fabrics.without("A")) for block in design.blocks)
    )
    scene = Scene(bare)
    assert str(describe_place(scene, Items(scene), (18.5, 0.5))).endswith("A: no fabric chosen")


def test_differences_are_the_boxes_of_what_changed_and_no_more() -> None:
    before = quilts.mixed()
    moved = apply(before, call("move-blocks", cells=(Cell(16, 0),), columns=0, rows=8))
    assert differences(Scene(before), Scene(moved)) == sorted((box_of(32, 0, 8, 8), box_of(32, 16, 8, 8)))
    recolored = apply(before, call("recolor-letter", cells=(Cell(9, 3),), letter="A", fabric="f7"))
    assert differences(Scene(before), Scene(recolored)) == [box_of(18, 6, 6, 6)]
    assert differences(Scene(before), Scene(apply(before, call("set-columns", columns=30)))) is None
    assert differences(Scene(before), Scene(apply(before, call("set-name", name="Other")))) == []


def test_a_changed_fabric_changes_just_the_blocks_that_show_it() -> None:
    before = quilts.mixed()
    fabric = before.shelf.fabrics["f4"].changed(color="#101010")
    after = apply(before, call("change-fabric", fabric=fabric))
    boxes = differences(Scene(before), Scene(after))
    assert boxes is not None
    named = {
        Scene(before).box_of(laid)
        for laid, _ in Scene(before).hung
        if "f4" in before.letters(laid.placement).ids()
    }
    assert set(boxes) <= named
    assert boxes


def test_the_nearest_room_is_free_and_as_near_as_can_be() -> None:
    scene = Scene(quilts.mixed())
    for columns, rows, near in ((3, 3, Cell(0, 0)), (6, 6, Cell(12, 3)), (4, 4, Cell(23, 17))):
        found = room_near(scene, columns, rows, near)
        free = [
            Cell(column, row)
            for row in range(18 - rows + 1)
            for column in range(24 - columns + 1)
            if not Items(scene).in_cells(column, row, columns, rows)
        ]
        assert found in free

        def away(cell: Cell, near: Cell = near) -> int:
            return (cell.column - near.column) ** 2 + (cell.row - near.row) ** 2

        assert away(found) == min(map(away, free))
    assert room_near(Scene(quilts.rails(3, 3)), 1, 1, Cell(1, 1)) == Cell(1, 1)
    assert room_near(scene, 30, 2, Cell(1, 1)) == Cell(1, 1)


def test_alike_is_the_same_block_or_the_same_block_in_the_same_fabrics() -> None:
    design = apply(quilts.mixed(), call("recolor-letter", cells=(Cell(9, 3),), letter="A", fabric="f7"))
    assert alike(design, cells((9, 0))) == cells((9, 0), (9, 3))
    assert alike(design, cells((9, 0)), same_fabrics=True) == cells((9, 0))
    assert alike(design, cells((9, 0), (0, 0))) == cells((0, 0), (9, 0), (9, 3))
    assert len(all_cells(design)) == 8


def test_a_selection_tells_only_of_changes() -> None:
    selection, told = Selection(), []
    selection.changed.connect(lambda: told.append(selection.cells))
    selection.select(cells((1, 1), (2, 2)))
    selection.select(cells((1, 1), (2, 2)))
    selection.add(cells((2, 2), (3, 3)))
    selection.toggle(Cell(1, 1))
    selection.keep(lambda cell: cell.column > 2)
    selection.keep(lambda cell: cell.column > 2)
    selection.clear()
    selection.clear()
    assert [len(one) for one in told] == [2, 3, 2, 1, 0]
    assert Cell(3, 3) not in selection
