"""The box that a piece is said to be drawn in is the box that it is drawn in."""

from functools import partial

import pytest

from piecewright.making.given import Given
from piecewright.making.run import run
from piecewright.making.shipped import shipped_recipes
from piecewright.render.bounds_pen import BoundsPen, Box, bounds
from piecewright.render.piece_picture import Look, draw_pile


class Tracing(BoundsPen):
    """Measures by drawing all there is."""

    def enclose(self, _box: Box) -> bool:
        """Never content with a box."""
        return False


@pytest.mark.parametrize("name", shipped_recipes())
def test_known_boxes_are_those_of_the_lines_drawn(name: str) -> None:
    recipe = shipped_recipes()[name]
    making = run(recipe, Given())
    for number, pile in enumerate(pile for outcome in making.outcomes for pile in outcome.made.values()):
        look = Look({}, recipe.stack, 0.25, (1 / 3, 1 / 8, 1 / 48)[number % 3])
        traced = Tracing()
        draw_pile(traced, pile, look, grain=bool(number % 2))
        known = bounds(partial(draw_pile, pile=pile, look=look, grain=bool(number % 2)))
        assert traced.box is not None
        assert known is not None
        assert [corner for spot in known.corners for corner in spot] == pytest.approx(
            [corner for spot in traced.box.corners for corner in spot], abs=1e-9
        )
