"""Marks over the cloth read on any cloth, in both themes, and never by color alone."""

import pytest
from PySide6.QtCore import QPoint, QRectF, Qt
from PySide6.QtGui import QImage

from piecewright.colour.value import contrast
from piecewright_qt.theme.tokens import THEMES, Theme
from piecewright_qt.wall.overlay import _doubled
from tests.desktop.wall import quilts
from tests.desktop.wall.conftest import Hang
from tests.desktop.wall.hands import at, carried, cells, click, move, pull, tag

GRAYS = [f"#{value:02x}{value:02x}{value:02x}" for value in range(0, 256, 5)]
COLORS = ["#ff0000", "#00a000", "#0000ff", "#e0b25a", "#d59aa4", "#27566d", "#93c5db"]


@pytest.mark.parametrize("theme", THEMES.values(), ids=list(THEMES))
@pytest.mark.parametrize("cloth", [*GRAYS, *COLORS])
def test_one_line_of_an_outline_stands_out_by_three_to_one_on_any_cloth(theme: Theme, cloth: str) -> None:
    assert max(contrast(color, cloth) for color, _ in _doubled(theme)) >= 3


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_a_selection_is_seen_as_two_lines_round_all_selected(hang: Hang, theme: str) -> None:
    wall = hang(quilts.mixed(), theme)
    wall.selection.select(cells((9, 0), (9, 3)))
    image = wall.viewport().grab().toImage()
    look = wall.look.theme
    box = wall.camera.rect((18.0, 0.0, 24.0, 12.0))
    across = _colors(image, QRectF(box.left() - 5, box.center().y() - 30, 10, 1))
    assert {look.surface, look.on_accent_soft} <= across
    between = _colors(image, wall.camera.rect((19.0, 5.9, 23.0, 6.1)))
    assert look.on_accent_soft not in between, "no line between two selected neighbors"


def test_what_is_refused_bears_a_hatch_and_a_word(hang: Hang) -> None:
    wall = hang(quilts.mixed())
    pull(wall, at(wall, 17, 1), at(wall, 4, 3))
    assert tag(wall) == "Not here"
    inside = wall.camera.rect(wall.still.box(3, 2, 4, 4)).adjusted(12, 12, -12, -12).toAlignedRect()
    load = carried(wall)
    assert load is not None
    hatched = wall.viewport().grab(inside).toImage()
    load.refusal = None
    bare = wall.viewport().grab(inside).toImage()
    points = [(x, y) for x in range(inside.width()) for y in range(inside.height())]
    changed = sum(hatched.pixelColor(*point) != bare.pixelColor(*point) for point in points)
    assert 0.25 < changed / len(points) < 0.9, "lines with cloth between them"
    wall.escape()


def test_what_is_carried_is_larger_than_what_lies(hang: Hang) -> None:
    wall = hang(quilts.empty())
    wall.take_in_hand(quilts.RAIL)
    carried = wall.marks.carried_rect()
    cell = wall.camera.rect(wall.still.box(wall.cursor_cell.column, wall.cursor_cell.row, 3, 3))
    assert carried.contains(cell.adjusted(-2, -2, 2, 2))
    image = wall.viewport().grab().toImage()
    assert image.pixelColor((cell.topLeft().toPoint()) - QPoint(1, 1)).name() != wall.look.theme.flannel


def test_an_empty_wall_says_in_place_what_to_do_until_a_block_comes(hang: Hang) -> None:
    wall = hang(quilts.empty())
    ink = wall.look.theme.text
    middle = wall.camera.rect(wall.scene.center)
    assert ink in _colors(wall.viewport().grab().toImage(), middle)
    wall.take_in_hand(quilts.RAIL)
    lower = wall.camera.rect(wall.scene.box(0, 12, 24, 6))
    assert ink not in _colors(wall.viewport().grab().toImage(), lower)


def test_a_band_and_its_cells_are_drawn(hang: Hang) -> None:
    wall = hang(quilts.mixed())
    pull(wall, at(wall, 20.5, 12.5), at(wall, 12.5, 1.5))
    with_band = wall.viewport().grab().toImage()
    wall.escape()
    without = wall.viewport().grab().toImage()
    point = at(wall, 18, 10.5)
    assert with_band.pixelColor(point) != without.pixelColor(point)


def test_the_cursor_is_seen_while_keys_are_used_and_not_for_the_mouse(hang: Hang) -> None:
    wall = hang(quilts.mixed())
    wall.set_cursor_cell(cells((20, 12))[0], by_key=True)
    rect = wall.marks.cursor_rect()
    assert wall.look.theme.text in _colors(wall.viewport().grab().toImage(), rect)
    click(wall, at(wall, 1, 1))
    move(wall, at(wall, 2, 2), button=Qt.MouseButton.NoButton)
    assert wall.look.theme.text not in _colors(wall.viewport().grab().toImage(), rect)


def _colors(image: QImage, rect: QRectF) -> set[str]:
    ratio = image.devicePixelRatio()
    found = set()
    for x in range(round(rect.left() * ratio), round(rect.right() * ratio) + 1):
        for y in range(round(rect.top() * ratio), round(rect.bottom() * ratio) + 1):
            if image.valid(x, y):
                found.add(image.pixelColor(x, y).name())
    return found
