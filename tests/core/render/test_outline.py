"""Raw edges and allowances of every piece of every recipe, with shapely as the reference."""

from itertools import pairwise
from math import atan, degrees

import pytest
from shapely import Point, Polygon, unary_union  # type: ignore[import-untyped]

from piecewright.making.cloth import Cloth
from piecewright.making.given import Given
from piecewright.making.partial_seams import laid_flat
from piecewright.making.run import run
from piecewright.render.outline import allowance, raw_edges, straight_runs
from piecewright.render.piece_lines import degrees_off_thread
from tests.core.render.recipes import RECIPES

DEPTH = 0.25


def _pieces(name: str) -> list[Cloth]:
    making = run(RECIPES[name], Given())
    return [cloth for outcome in making.outcomes for pile in outcome.made.values() for cloth in pile]


def _polygon(cloth: Cloth) -> Polygon:
    shapes = [
        Polygon([(float(x), float(y)) for x, y in patch.seen.points]) for patch in laid_flat(cloth).patches
    ]
    return unary_union([shape.buffer(1e-9, join_style="mitre") for shape in shapes])


def _sewn_ends(cloth: Cloth) -> float:
    """How much of a tube's outline, as it lies flat, is sewn: both its ends."""
    if cloth.loop is None:
        return 0
    return 2 * float(cloth.box.height if cloth.loop == "across" else cloth.box.width)


@pytest.mark.parametrize("name", RECIPES)
def test_raw_edges_are_the_outline(name: str) -> None:
    for cloth in _pieces(name):
        outline = _polygon(cloth).exterior
        edges = raw_edges(cloth)
        length = sum(((e.end[0] - e.start[0]) ** 2 + (e.end[1] - e.start[1]) ** 2) ** 0.5 for e in edges)
        assert length == pytest.approx(outline.length - _sewn_ends(cloth), abs=1e-5)
        for edge in edges:
            middle = ((edge.start[0] + edge.end[0]) / 2, (edge.start[1] + edge.end[1]) / 2)
            assert outline.distance(Point(middle)) < 1e-6


@pytest.mark.parametrize("name", RECIPES)
def test_the_cloth_has_its_edges_on_its_left_hand_and_itself_on_its_right(name: str) -> None:
    for cloth in _pieces(name):
        whole = _polygon(cloth)
        for edge in raw_edges(cloth):
            ux, uy = edge.along
            x, y = (edge.start[0] + edge.end[0]) / 2, (edge.start[1] + edge.end[1]) / 2
            assert whole.contains(Point((x - uy * 1e-4, y + ux * 1e-4)))
            assert not whole.contains(Point((x + uy * 1e-4, y - ux * 1e-4)))


@pytest.mark.parametrize("name", RECIPES)
def test_the_shaded_allowance_is_what_an_inset_of_a_rectangle_leaves(name: str) -> None:
    checked = 0
    for cloth in _pieces(name):
        if not cloth.whole:
            continue
        bands = [band for edge in raw_edges(cloth) if (band := allowance(edge, DEPTH))]
        shaded = unary_union([Polygon(corners) for corners, _ in bands])
        width, height = float(cloth.box.width), float(cloth.box.height)
        from_ends, from_sides = 0 if cloth.loop == "across" else DEPTH, 0 if cloth.loop == "down" else DEPTH
        inset = width * height - (width - 2 * from_ends) * (height - 2 * from_sides)
        assert shaded.area == pytest.approx(inset, abs=1e-6)
        checked += 1
    assert checked


@pytest.mark.parametrize("name", RECIPES)
def test_straight_runs_hold_every_edge_once(name: str) -> None:
    for cloth in _pieces(name):
        edges = raw_edges(cloth)
        runs = straight_runs(edges, lambda edge: round(degrees_off_thread(edge), 6))
        assert sorted(map(id, edges)) == sorted(id(edge) for run_ in runs for edge in run_)
        for run_ in runs:
            for before, after in pairwise(run_):
                assert before.end == pytest.approx(after.start, abs=1e-6)
        if cloth.whole and len({round(degrees_off_thread(edge), 6) for edge in edges}) == 1:
            assert len(runs) == (2 if cloth.loop else 4)


def test_edges_of_the_slanted_exchange_run_off_the_thread_as_the_facts_say() -> None:
    """13.24 degrees: atan(2 / 8.5), the slant of the check value for two 8 1/2 in blocks sliced from 3 to 5."""
    offs = {
        round(degrees_off_thread(edge), 6)
        for cloth in _pieces("slanted-exchange")
        for edge in raw_edges(cloth)
    }
    assert offs == {0.0, round(degrees(atan(2 / 8.5)), 6)}
