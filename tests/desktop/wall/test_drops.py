"""What comes from the shelf or from another window: blocks, fabrics, copied blocks, and things that are none."""

import pytest
from PySide6.QtCore import QMimeData

from piecewright.edit.pasting import clip_of
from piecewright.edit.registry import Cell, apply, call
from piecewright.model.quilt import Binding
from piecewright_qt.wall.mime import BLOCK, BLOCKS, FABRIC, block_mime, clip_mime, fabric_mime
from piecewright_qt.wall.recoloring import Target
from piecewright_qt.wall.view import WallView
from tests.desktop.wall import quilts
from tests.desktop.wall.conftest import Hang
from tests.desktop.wall.hands import (
    ALT,
    SHIFT,
    at,
    blocks,
    carried,
    cells,
    drag_away,
    drag_in,
    drag_over,
    drop,
    placed,
    selected,
    tag,
)


@pytest.fixture
def wall(hang: Hang) -> WallView:
    return hang(quilts.mixed())


def letters(wall: WallView, column: int, row: int) -> dict[str, tuple[str, ...]]:
    """The fabrics of a placed block by letter."""
    return dict(wall.document.design.letters(placed(wall.document.design)[(column, row)]))


def aimed_at(wall: WallView) -> Target | None:
    """What a fabric on the pointer would recolor."""
    return None if wall.drops.fabric is None else wall.drops.fabric.target


def test_a_block_of_the_shelf_is_previewed_and_laid_with_its_middle_at_the_pointer(wall: WallView) -> None:
    data = block_mime(quilts.MIDDLE)
    assert drag_in(wall, data, at(wall, 15, 10))
    drag_over(wall, data, at(wall, 16.2, 11.9))
    assert blocks(wall.document.shown)[(13, 9)] == quilts.MIDDLE
    assert wall.document.undo_stack.count() == 0
    drag_away(wall)
    assert wall.document.shown is wall.document.design
    assert drop(wall, data, at(wall, 16.2, 11.9))
    assert blocks(wall.document.design)[(13, 9)] == quilts.MIDDLE
    assert wall.document.undo_stack.count() == 1
    assert selected(wall) == [(13, 9)]


def test_a_block_brings_its_kind_and_layer(wall: WallView) -> None:
    assert drop(wall, block_mime(quilts.STACK, layer=3), at(wall, 16, 12))
    assert placed(wall.document.design)[(14, 10)].layer == 3


def test_alt_lets_a_block_from_the_shelf_follow_freely(wall: WallView) -> None:
    data = block_mime(quilts.RAIL)
    drag_in(wall, data, at(wall, 18, 12), ALT)
    drag_over(wall, data, at(wall, 18.3, 12.4), ALT)
    load = carried(wall)
    assert load is not None
    assert load.free
    assert blocks(wall.document.shown)[(17, 11)] == quilts.RAIL


def test_a_block_takes_the_place_of_one_that_covers_the_same_cells(wall: WallView) -> None:
    data = block_mime(quilts.FOUR)
    drag_in(wall, data, at(wall, 14, 2))
    assert tag(wall) == "Replace"
    assert drop(wall, data, at(wall, 14, 2))
    assert blocks(wall.document.design)[(12, 0)] == quilts.FOUR


def test_a_refused_drop_says_why_and_changes_nothing(wall: WallView) -> None:
    said: list[str] = []
    wall.status_changed.connect(said.append)
    before = wall.document.design
    assert not drop(wall, block_mime(quilts.MIDDLE), at(wall, 8, 8))
    assert wall.document.design == before
    assert '"Middle end for end" does not fit at column 6, row 6' in said[-1]
    assert "The nearest free place is" in said[-1]


def test_a_block_that_is_no_whole_number_of_cells_is_refused_with_a_grid_that_fits(hang: Hang) -> None:
    wall = hang(quilts.empty(unit=4))
    said: list[str] = []
    wall.status_changed.connect(said.append)
    assert not drop(wall, block_mime(quilts.RAIL), at(wall, 3, 3))
    assert "6 x 6 in finished" in said[-1]
    assert "A grid of 2 in would hold it." in said[-1]


def test_a_fabric_recolors_the_letter_of_the_patch_it_falls_on(wall: WallView) -> None:
    before = letters(wall, 9, 0)
    assert drop(wall, fabric_mime("f7"), at(wall, 10.5, 1.5))
    assert letters(wall, 9, 0) == {**before, "B": ("f7",)}
    assert letters(wall, 9, 3) == before
    assert wall.document.undo_stack.count() == 1


def test_the_patch_aimed_at_is_outlined_and_previewed(wall: WallView) -> None:
    data = fabric_mime("f7")
    drag_in(wall, data, at(wall, 10.5, 0.5))
    target = aimed_at(wall)
    assert target is not None
    assert target.outline is not None
    outline = target.outline.boundingRect()
    assert (outline.x(), outline.y(), outline.width(), outline.height()) == (18, 0, 6, 2)
    assert wall.document.shown is not wall.document.design
    drag_over(wall, data, at(wall, 20, 16))
    assert aimed_at(wall) is None
    assert wall.document.shown is wall.document.design
    drag_away(wall)


def test_shift_recolors_all_like_fabric_of_the_block(hang: Hang) -> None:
    design = apply(
        quilts.mixed(), call("recolor-letter", cells=tuple(cells((9, 0))), letter="C", fabric="f1")
    )
    wall = hang(design)
    assert drop(wall, fabric_mime("f7"), at(wall, 10.5, 0.5), SHIFT)
    assert letters(wall, 9, 0) == {"A": ("f7",), "B": ("f2",), "C": ("f7",)}


def test_on_a_selected_block_a_fabric_recolors_all_selected(wall: WallView) -> None:
    other = letters(wall, 12, 0)
    wall.selection.select(cells((9, 0), (9, 3), (16, 0)))
    assert drop(wall, fabric_mime("f8"), at(wall, 10.5, 0.5))
    for place in ((9, 0), (9, 3), (16, 0)):
        assert letters(wall, *place)["A"] == ("f8",)
    assert letters(wall, 12, 0) == other
    assert wall.document.undo_stack.count() == 1


def test_of_a_stack_only_the_fabric_that_the_patch_shows_is_changed(wall: WallView) -> None:
    before = letters(wall, 6, 6)["A"]
    assert drop(wall, fabric_mime("f8"), at(wall, 6.2, 6.2))
    after = letters(wall, 6, 6)["A"]
    assert sum(one != other for one, other in zip(before, after, strict=True)) == 1


def test_a_fabric_falls_on_a_border_and_on_the_binding(hang: Hang) -> None:
    wall = hang(quilts.rails(4, 4))
    inside, outside = at(wall, -0.1, 1), at(wall, -0.6, 1)
    assert drop(wall, fabric_mime("f7"), inside)
    assert [border.fabric for border in wall.document.design.quilt.borders] == ["f7", "f1"]
    assert drop(wall, fabric_mime("f8"), outside)
    assert [border.fabric for border in wall.document.design.quilt.borders] == ["f7", "f8"]
    edge = wall.camera.rect(wall.scene.whole).topLeft().toPoint()
    assert drop(wall, fabric_mime("f5"), edge)
    assert wall.document.design.quilt.binding == Binding("f5")


def test_beside_all_cloth_a_fabric_says_where_it_may_fall(wall: WallView) -> None:
    said: list[str] = []
    wall.status_changed.connect(said.append)
    assert not drop(wall, fabric_mime("f7"), at(wall, 20, 16))
    assert said[-1].startswith("There is no patch here.")


def test_copied_blocks_come_in_from_another_window(wall: WallView) -> None:
    clip = clip_of(quilts.rails(3, 3), (Cell(0, 0), Cell(1, 0)))
    assert drop(wall, clip_mime(clip), at(wall, 18, 12))
    there = [place for place, block in blocks(wall.document.design).items() if place[1] >= 9 and place[0] > 9]
    assert len(there) == 2
    assert selected(wall) == sorted(there)


@pytest.mark.parametrize(
    ("kind", "data"),
    [
        ("text/plain", b"b20"),
        (BLOCK, b"not json"),
        (BLOCK, b'{"block": "b999"}'),
        (BLOCK, b'{"block": 3}'),
        (FABRIC, b"f999"),
        (FABRIC, b"\xff\xfe"),
        (BLOCKS, b"{}"),
        (BLOCKS, b"[" * 10_000),
    ],
)
def test_what_is_nothing_for_this_design_is_not_taken(wall: WallView, kind: str, data: bytes) -> None:
    strange = QMimeData()
    strange.setData(kind, data)
    before = wall.document.design
    assert not drag_in(wall, strange, at(wall, 18, 12))
    drag_away(wall)
    assert wall.document.design == before
    assert carried(wall) is None
