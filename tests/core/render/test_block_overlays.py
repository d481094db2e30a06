"""What lies over a finished block: an arrow for every seam on its own stretch, a disc for every place seams meet."""

from math import dist

import pytest

from piecewright.making.given import Given
from piecewright.making.open_edges import waiting_edges
from piecewright.making.pressing_plan import plan_of
from piecewright.making.run import facts, run
from piecewright.making.shipped import shipped_recipes
from piecewright.render.block_overlays import draw_layers, draw_plan, draw_waits
from piecewright.render.recording_pen import Drawn, RecordingPen, Written
from piecewright.render.style import ACCENT

GIVEN = Given()


def middles(pen: RecordingPen) -> list[tuple[float, float]]:
    """The middles of the arrows' shafts."""
    found = []
    for drawn in pen.steps:
        if isinstance(drawn, Drawn) and drawn.stroke is not None and drawn.stroke.color == ACCENT:
            (_, (start,)), (_, (end,)) = drawn.path
            found.append(((start[0] + end[0]) / 2, (start[1] + end[1]) / 2))
    return found


def discs(pen: RecordingPen) -> list[str]:
    return [drawn.words for drawn in pen.steps if isinstance(drawn, Written)]


@pytest.mark.parametrize("name", shipped_recipes())
def test_every_seam_has_its_arrow_on_itself_and_none_covers_another(name: str) -> None:
    recipe = shipped_recipes()[name]
    plan = plan_of(recipe, GIVEN)
    for block in plan.blocks[:2]:
        pen = RecordingPen()
        draw_plan(pen, plan, block, 0.5)
        found = middles(pen)
        lines = [
            line
            for line in block.work.lines
            if plan.signs[line.seam] or plan.seams[line.seam].toward == "open"
        ]
        assert len(found) == len(lines)
        for (x, y), line in zip(found, lines, strict=True):
            start, end = ((at[0] * 0.5, at[1] * 0.5) for at in (line.start, line.end))
            assert dist(start, (x, y)) + dist((x, y), end) == pytest.approx(dist(start, end))
        assert all(dist(one, other) > 0.05 for number, one in enumerate(found) for other in found[:number])


@pytest.mark.parametrize("name", ["middle-end-for-end", "slanted-exchange", "framed-four-patch"])
def test_every_place_where_seams_meet_has_its_layers(name: str) -> None:
    plan = plan_of(shipped_recipes()[name], GIVEN)
    for block, lumps in plan.lumps():
        pen = RecordingPen()
        draw_layers(pen, plan, block, 0.5)
        assert discs(pen) == [str(lump.pressed) for lump in lumps]


def test_every_waiting_edge_says_how_long_it_lay_open() -> None:
    recipe = shipped_recipes()["slanted-exchange"]
    (kind, *_) = facts(recipe, GIVEN).kinds
    found = waiting_edges(run(recipe, GIVEN), kind)
    pen = RecordingPen()
    draw_waits(pen, found, 0.8)
    assert discs(pen) == ["open 1 step"] * len(found)
