"""Which way seams are pressed: an arrow across each, or one to both sides where it is pressed open."""

from math import hypot

from piecewright.geometry.half import right_hand
from piecewright.making.cloth import Cloth, Seam
from piecewright.making.events import Pressed
from piecewright.render.cloth import fabric_of
from piecewright.render.marks import arrow
from piecewright.render.path import Spot, spot
from piecewright.render.pen import Pen
from piecewright.render.piece_picture import Look
from piecewright.render.tint import lightness

_WAYS: dict[str, Spot] = {"left": (-1, 0), "right": (1, 0), "up": (0, -1), "down": (0, 1)}
_REACH = 0.17  # inches of paper on either side of the seam


def draw_pressing(pen: Pen, cloth: Cloth, event: Pressed, look: Look) -> None:
    """Draw the arrows of one pressing over a piece that the seams' step sewed."""
    for seam in cloth.seams:
        if seam.step == event.seam and event.join in (None, seam.join):
            (x0, y0), (x1, y1) = look.on_paper(cloth, seam.line.start), look.on_paper(cloth, seam.line.end)
            middle = ((x0 + x1) / 2, (y0 + y1) / 2)
            if event.toward == "open":
                dx, dy = _across(seam)
                _draw(pen, middle, (dx, dy), both=True)
            else:
                _draw(pen, middle, _way(event.toward, seam, cloth, look), both=False)


def _draw(pen: Pen, middle: Spot, way: Spot, *, both: bool) -> None:
    ends = (
        (middle[0] - way[0] * _REACH, middle[1] - way[1] * _REACH),
        (middle[0] + way[0] * _REACH, middle[1] + way[1] * _REACH),
    )
    arrow(pen, *ends, 1.4, both)


def _across(seam: Seam) -> Spot:
    """The direction square to a seam, to the right of the way from its start to its end."""
    (x0, y0), (x1, y1) = spot(seam.line.start), spot(seam.line.end)
    length = hypot(x1 - x0, y1 - y0)
    return ((y0 - y1) / length, (x1 - x0) / length)


def _way(toward: str, seam: Seam, cloth: Cloth, look: Look) -> Spot:
    """Where the allowances go: a named direction, in or out of the piece, or the darker fabric's side."""
    if toward in _WAYS:
        return _WAYS[toward]
    across = _across(seam)
    if toward == "darker":
        right, left = _side_lightness(seam, cloth, look, 1), _side_lightness(seam, cloth, look, -1)
        return across if right <= left else (-across[0], -across[1])
    x, y = spot(seam.line.start)
    center = (float(cloth.box.left + cloth.box.right) / 2, float(cloth.box.top + cloth.box.bottom) / 2)
    inward = across[0] * (center[0] - x) + across[1] * (center[1] - y) >= 0
    return across if inward == (toward == "in") else (-across[0], -across[1])


def _side_lightness(seam: Seam, cloth: Cloth, look: Look, side: int) -> float:
    """How light the cloth is beside the middle of a seam."""
    (x0, y0), (x1, y1) = spot(seam.line.start), spot(seam.line.end)
    across = _across(seam)
    at = ((x0 + x1) / 2 + side * across[0] / 16, (y0 + y1) / 2 + side * across[1] / 16)
    for patch in cloth.patches:
        corners = patch.seen.points
        if all(
            right_hand(a, b).distance(at) <= 0
            for a, b in zip(corners, (*corners[1:], corners[0]), strict=True)
        ):
            return lightness(fabric_of(look.fabrics, patch.letter, patch.layer % look.stack).color)
    return 1.0
