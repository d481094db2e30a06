"""Drawings put beside and below each other, and made as large as a place on the page allows."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from piecewright.geometry.motion import Motion
from piecewright.render.bounds_pen import BoundsPen, Box, bounds
from piecewright.render.pen import Pen

Draw = Callable[[Pen], None]

SCALES = tuple(1 / n for n in (3, 4, 5, 6, 7, 8, 10, 12, 16, 20, 24, 32, 48))
_NOTHING = Box(0.0, 0.0, 0.0, 0.0)


@dataclass(frozen=True, slots=True, eq=False)
class Measured:
    """A drawing whose box is known, so that nobody need draw it to find it."""

    draw: Draw
    box: Box

    def __call__(self, pen: Pen) -> None:
        """Draw it, or let a pen that only measures have the box."""
        if not (isinstance(pen, BoundsPen) and pen.enclose(self.box)):
            self.draw(pen)


def room(draw: Draw) -> Box:
    """The box of a drawing; nothing drawn takes no room."""
    return draw.box if isinstance(draw, Measured) else bounds(draw) or _NOTHING


def measured(draw: Draw) -> Draw:
    """A drawing with its box found once."""
    box = None if isinstance(draw, Measured) else bounds(draw)
    return draw if box is None else Measured(draw, box)


def beside(draws: Sequence[Draw], gap: float) -> Draw:
    """Drawings from left to right, `gap` apart, their middles level."""
    draws = [measured(draw) for draw in draws]
    boxes = [room(draw) for draw in draws]
    height = max((box.height for box in boxes), default=0.0)
    moves: list[Motion] = []
    x = 0.0
    for box in boxes:
        moves.append(Motion(dx=x - box.left, dy=(height - box.height) / 2 - box.top))
        x += box.width + gap
    return _placed(draws, moves)


def below(draws: Sequence[Draw], gap: float) -> Draw:
    """Drawings from the top down, `gap` apart, their left ends under each other as they were drawn."""
    moves: list[Motion] = []
    y = 0.0
    draws = [measured(draw) for draw in draws]
    for draw in draws:
        box = room(draw)
        moves.append(Motion(dy=y - box.top))
        y += box.height + gap
    return _placed(draws, moves)


def largest(build: Callable[[float], Draw], width: float, height: float) -> tuple[Draw, float]:
    """The drawing at the largest usual scale at which it fits, or smaller than all of them; and its scale.

    What a drawing takes grows evenly with its scale, but for words: so the scale is guessed and then tried.
    """
    small, large = room(build(SCALES[-1])), room(build(SCALES[0]))
    run = SCALES[0] - SCALES[-1]

    def fits(scale: float) -> bool:
        share = (scale - SCALES[-1]) / run
        guess = (
            small.width + (large.width - small.width) * share,
            small.height + (large.height - small.height) * share,
        )
        return guess[0] <= width and guess[1] <= height

    scales = [scale for scale in SCALES if fits(scale)] + [SCALES[-1] / 2**n for n in range(12)]
    for scale in scales:
        draw = build(scale)
        box = room(draw)
        if box.width <= width and box.height <= height:
            break
    return draw, scale


def _placed(draws: Sequence[Draw], moves: Sequence[Motion]) -> Draw:
    def draw_all(pen: Pen) -> None:
        for draw, move in zip(draws, moves, strict=True):
            with pen.framed(move):
                draw(pen)

    return draw_all
