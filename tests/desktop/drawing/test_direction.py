"""Stripes on the screen run along the thread: in every quarter turn, past a slant, turned over, and on the wall."""

from fractions import Fraction
from functools import partial
from itertools import pairwise

import numpy as np
import pytest
from PySide6.QtGui import QGuiApplication

from piecewright.geometry.motion import Motion
from piecewright.making.facts import Kind, SeenPatch
from piecewright.making.given import Given
from piecewright.making.run import facts
from piecewright.plan.rects import Rect
from piecewright.render.block_picture import draw_block, stamp_block
from piecewright.render.cloth import laid_fill
from piecewright.render.pen import Pen
from piecewright.render.wall_picture import block_motion
from piecewright_qt.drawing.png import painted
from tests.core.render.fabrics import STRIPED
from tests.core.render.recipes import RECIPES
from tests.desktop.drawing.pixels import Pixels, apart, direction, pixels

PER_INCH = 48.0


@pytest.mark.parametrize("quarters", range(4))
@pytest.mark.parametrize("degrees", [0.0, 13.24, 45.0, 61.0])
@pytest.mark.parametrize("laid", [0, 45, 90])
@pytest.mark.parametrize("faced", [False, True])
def test_a_striped_piece_runs_along_its_thread(
    qapp: QGuiApplication, quarters: int, degrees: float, laid: int, faced: bool
) -> None:
    came = Motion(quarters=quarters, degrees=degrees, faced=faced, dx=Fraction(1, 3), dy=Fraction(5, 7))
    square = ((0, 0), (4, 0), (4, 4), (0, 4))
    image = painted(lambda pen: pen.polygon(square, laid_fill(STRIPED, laid, came)), PER_INCH)
    thread = ((180 - laid if faced else laid) + came.turn_degrees) % 180
    assert apart(direction(pixels(image)), thread) < (0.05 if (laid + degrees) % 90 == 0 else 0.6)


def _inside(patch: SeenPatch, motion: Motion, picture: Pixels) -> Pixels | None:
    """A square of the picture well inside a patch; None where there is no room for one."""
    corners = [motion.apply(point) for point in patch.points]
    middle = [sum(float(corner[axis]) for corner in corners) / len(corners) for axis in (0, 1)]
    x, y, half = round(middle[0] * PER_INCH), round(middle[1] * PER_INCH), 30
    found = picture[y - half : y + half, x - half : x + half]
    return found if found.shape[:2] == (2 * half, 2 * half) else None


@pytest.mark.parametrize(
    "name", ["rail-fence-of-three", "cut-turn-sew", "slanted-exchange", "framed-four-patch"]
)
@pytest.mark.parametrize("turn", [0, 90, 180, 270])
def test_every_patch_of_a_turned_block_runs_along_its_thread(
    qapp: QGuiApplication, name: str, turn: int
) -> None:
    made = facts(RECIPES[name], Given())
    across, down = Fraction(made.finished.width), Fraction(made.finished.height)
    rect = Rect(Fraction(0), Fraction(0), *((down, across) if turn % 180 else (across, down)))
    for kind in made.kinds:
        motion = block_motion(made, turn, rect)
        picture = pixels(painted(partial(_stamp, kind, motion), PER_INCH))
        seen = 0
        for patch in kind.patches:
            part = _inside(patch, motion, picture)
            if part is not None and np.ptp(part.mean(axis=2)) > 60:
                assert apart(direction(part), patch.grain_deg + turn) < 3
                seen += 1
        assert seen >= min(3, len(kind.patches))


def _stamp(kind: Kind, motion: Motion, pen: Pen) -> None:
    stamp_block(kind, (STRIPED,) * len(kind.patches), pen, motion)


def test_cloth_is_unbroken_over_what_was_one_piece(qapp: QGuiApplication) -> None:
    """A rail drawn in three pieces that lie where they were cut has the pixels of the rail drawn whole."""
    came = Motion(quarters=1, dx=Fraction(7, 3), dy=Fraction(1, 5))

    def rail(pen: Pen, *levels: int) -> None:
        for left, right in pairwise(levels):
            pen.polygon(((left, 0), (right, 0), (right, 3), (left, 3)), laid_fill(STRIPED, 0, came))

    whole = pixels(painted(lambda pen: rail(pen, 0, 9), PER_INCH))
    pieces = pixels(painted(lambda pen: rail(pen, 0, 2, 5, 9), PER_INCH))
    assert np.array_equal(whole, pieces)


def test_neighboring_slanted_patches_let_no_ground_through(qapp: QGuiApplication) -> None:
    """On a ground of pure red, no pixel of a block in grays turns reddish."""
    made = facts(RECIPES["slanted-exchange"], Given())
    (kind,) = made.kinds
    gray = STRIPED.changed(color="#808080", print=None)
    ground = "#ff0000"
    image = painted(lambda pen: draw_block(kind, (gray,) * len(kind.patches), pen), 37.0, ground=ground)
    inner = pixels(image)[8:-8, 8:-8]
    assert float((inner[:, :, 0] - inner[:, :, 1]).max()) < 8
