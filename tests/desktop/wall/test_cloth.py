"""Cloth on the wall runs with the thread: the direction of a rendered stripe is that of the patch's thread, turned."""

from fractions import Fraction

import numpy as np
import pytest
from PySide6.QtCore import QRect
from PySide6.QtGui import QImage, QPainter

from piecewright.model.fabric import Fabric, Print
from piecewright_qt.wall.looks import Look
from piecewright_qt.wall.scene import Scene
from piecewright_qt.wall.sprites import Sprites, turned_frame
from tests.desktop.drawing.pixels import apart, direction
from tests.desktop.drawing.pixels import pixels as pixels_of
from tests.desktop.wall import quilts

pytestmark = pytest.mark.usefixtures("qapp")
STRIPED = Fabric("f1", "Stripes", "#202020", Print("stripes", ("#f0f0f0",), Fraction(1, 2)))
PLAIN = Fabric("f2", "Plain", "#808080")


def look_of(block: str, index: int) -> Look:
    """A block of the mixed quilt in which the letter of one patch alone is striped."""
    scene = Scene(quilts.mixed())
    found = next(look for laid, look in scene.hung if laid.placement.block == block)
    assert found is not None
    striped = found.kind.patches[index]
    fabrics = tuple(
        STRIPED if (patch.fabric, patch.layer) == (striped.fabric, striped.layer) else PLAIN
        for patch in found.kind.patches
    )
    return Look(found.kind, fabrics, found.width, found.height)


def rendered(look: Look, turn: int, pixels: float) -> QImage:
    """The block as painted."""
    wide, high = (look.height, look.width) if turn in (90, 270) else (look.width, look.height)
    image = QImage(round(wide * pixels), round(high * pixels), QImage.Format.Format_RGB32)
    painter = QPainter(image)
    Sprites().paint(painter, look, turn, QRect(0, 0, image.width(), image.height()), pixels)
    painter.end()
    return image


@pytest.mark.parametrize("turn", [0, 90, 180, 270])
@pytest.mark.parametrize(
    ("block", "index"),
    [(quilts.RAIL, 0), (quilts.MIDDLE, 7), (quilts.SLANT, 0), (quilts.SLANT, 5), (quilts.STACK, 2)],
)
def test_stripes_run_with_the_thread_after_every_turn(block: str, index: int, turn: int) -> None:
    look, pixels = look_of(block, index), 24.0
    patch = look.kind.patches[index]
    frame = turned_frame(look.width, look.height, turn, pixels)
    polygon = Sprites().shape(look.kind).polygons[index]
    box = frame.map(polygon).boundingRect()
    middle = frame.map(polygon.boundingRect().center())
    reach = min(box.width(), box.height()) / 2 - 0.35 * pixels
    window = pixels_of(rendered(look, turn, pixels))[
        round(middle.y() - reach) : round(middle.y() + reach),
        round(middle.x() - reach) : round(middle.x() + reach),
    ]
    assert window.std() > 5, "the window shows the stripes"
    wanted = (patch.grain_deg + turn) % 180
    assert apart(direction(window), wanted) < 3


def test_pictures_are_shared_by_all_that_look_alike() -> None:
    sprites, look = Sprites(), look_of(quilts.RAIL, 0)
    image = QImage(400, 400, QImage.Format.Format_RGB32)
    painter = QPainter(image)
    for x in range(0, 300, 60):
        sprites.paint(painter, look, 90, QRect(x, 0, 60, 60), 10.0)
    painter.end()
    assert sprites.drawn == 1


def test_a_block_drawn_straight_onto_a_tile_equals_its_picture() -> None:
    """Very large blocks are not kept as pictures; a tile shows the same of them all the same."""
    look, pixels = look_of(quilts.SLANT, 0), 60.0
    side = round(look.width * pixels)
    whole, part = (QImage(side, side, QImage.Format.Format_RGB32) for _ in range(2))
    sprites = Sprites()
    painter = QPainter(whole)
    sprites.paint(painter, look, 90, QRect(0, 0, side, side), pixels)
    painter.end()
    painter = QPainter(part)
    sprites._paint_directly(painter, look, 90, QRect(0, 0, side, side), pixels)
    painter.end()
    one, other = (np.frombuffer(image.constBits(), np.uint8).astype(np.int64) for image in (whole, part))
    assert np.abs(one - other).mean() < 1.5
    assert (np.abs(one - other) > 40).mean() < 0.01


def test_the_cache_of_pictures_stays_within_its_bytes() -> None:
    sprites, look = Sprites(limit=200_000), look_of(quilts.RAIL, 0)
    image = QImage(100, 100, QImage.Format.Format_RGB32)
    painter = QPainter(image)
    for number in range(60):
        sprites.paint(painter, look, 0, QRect(0, 0, 60 + number, 60 + number), 10.0 + number / 6)
        assert sprites.bytes <= 200_000
    painter.end()
