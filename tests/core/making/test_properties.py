"""What holds for every recipe that can be sewn; areas are checked against shapely."""

import json
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import replace
from fractions import Fraction
from math import atan2, degrees, hypot

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely import Polygon, STRtree, box, intersection, union_all  # type: ignore[import-untyped] # it ships without types

from piecewright.errors import MakingError
from piecewright.geometry.motion import STILL, Motion, Point
from piecewright.geometry.shapes import Rect
from piecewright.making.cloth import Cloth, Patch, Pile, spread
from piecewright.making.facts import Facts, SeenPatch
from piecewright.making.finishing import finish
from piecewright.making.ledger import laid_in
from piecewright.making.report import report
from piecewright.making.run import Making, facts, run, steps_as_sentences
from piecewright.making.verbs.shuffle import restacked
from tests.core.making.building import forget, turn
from tests.core.making.strategies import Sewable, sewable_recipes

CLOSE = 1e-6
GRID = 1e-9  # without a grid an overlay loses or invents whole slivers where corners touch all but exactly
HIDES_A_PATCH = "making.no-seen-width"


def made(sewable: Sewable, scale: int = 1) -> Facts:
    """The facts of a random recipe; one whose slices leave a patch too small to be sewn is passed over."""
    given = replace(sewable.given, usable=sewable.given.usable * scale)
    try:
        return facts(sewable.recipe(scale), given)
    except MakingError as fault:
        assume(fault.message.code != HIDES_A_PATCH)
        raise


def polygon(patch: SeenPatch) -> Polygon:
    return Polygon([(float(x), float(y)) for x, y in patch.points])


@given(sewable_recipes())
def test_blocks_have_the_size_that_plain_sums_give(sewable: Sewable) -> None:
    found = made(sewable)
    assert float(found.unfinished.width) == pytest.approx(float(sewable.width), abs=CLOSE)
    assert float(found.unfinished.height) == pytest.approx(float(sewable.height), abs=CLOSE)
    assert found.finished.width == found.unfinished.width - 2 * found.seam


@given(sewable_recipes())
def test_laid_is_seen_and_allowance_and_waste(sewable: Sewable) -> None:
    found = made(sewable)
    ledger = found.ledger
    total = ledger.seen + ledger.allowance + ledger.waste
    if isinstance(total, Fraction):
        assert total == ledger.laid
    assert float(total) == pytest.approx(float(ledger.laid), abs=CLOSE)
    area = found.finished.width * found.finished.height
    assert float(ledger.seen) == pytest.approx(float(area * found.blocks / found.stack), abs=CLOSE)
    assert ledger.allowance > 0
    assert ledger.waste >= 0


@given(sewable_recipes())
def test_patches_tile_each_finished_block(sewable: Sewable) -> None:
    found = made(sewable)
    block = box(0, 0, float(found.finished.width), float(found.finished.height))
    for kind in found.kinds:
        shapes = [polygon(patch) for patch in kind.patches]
        assert all(shape.is_valid for shape in shapes)
        assert sum(shape.area for shape in shapes) == pytest.approx(block.area, abs=CLOSE)
        assert union_all(shapes, grid_size=GRID).symmetric_difference(block, grid_size=GRID).area < CLOSE
        assert overlap(shapes) < CLOSE
        assert float(sum(kind.area_by_fabric.values())) == pytest.approx(block.area, abs=CLOSE)


def overlap(shapes: list[Polygon]) -> float:
    """The area that any two of some shapes share."""
    pairs = STRtree(shapes).query(shapes, predicate="intersects").T
    return float(
        sum(
            intersection(shapes[one], shapes[other], grid_size=GRID).area
            for one, other in pairs
            if one < other
        )
    )


@given(sewable_recipes())
def test_every_patch_is_its_own_part_of_the_strip_it_came_from(sewable: Sewable) -> None:
    """All cloth of all blocks, taken back to the strips as laid, lies inside them and never twice on one place."""
    making = making_of(sewable)
    laid = {event.strip: event for event in laid_in(making.outcomes)}
    finished = finish(making.recipe, making.table, making.names, claimed=True)
    back: dict[tuple[int, int], list[Polygon]] = {}
    for name in finished.names:
        for layer, cloth in enumerate(spread(making.table.piles[name], sewable.stack)):
            for patch in cloth.patches:
                ring = Polygon([as_laid(patch.came, point) for point in patch.raw.points])
                back.setdefault((patch.strip, (layer + patch.layer) % sewable.stack), []).append(ring)
    for (strip, _), shapes in back.items():
        cloth_laid = box(0, 0, float(laid[strip].length), float(laid[strip].width)).buffer(CLOSE)
        assert all(cloth_laid.covers(shape) for shape in shapes)
        assert overlap(shapes) < CLOSE


def making_of(sewable: Sewable) -> Making:
    made(sewable)
    return run(sewable.recipe(), sewable.given)


def as_laid(came: Motion, point: Point) -> tuple[float, float]:
    """Where a point of the cloth lay in its strip."""
    assert not came.faced
    back = Motion(quarters=-came.quarters % 4, degrees=-came.degrees)
    x, y = back.direction((point[0] - came.dx, point[1] - came.dy))
    return float(x), float(y)


@given(sewable_recipes())
def test_threads_turn_with_the_cloth(sewable: Sewable) -> None:
    threads = {"crosswise": 90, "lengthwise": 0, "bias": 45}
    making = making_of(sewable)
    as_cut = {event.strip: threads[event.grain] for event in laid_in(making.outcomes)}
    for kind in made(sewable).kinds:
        for patch in kind.patches:
            assert 0 <= patch.grain_deg < 360
            turned = 90 * patch.came.quarters + patch.came.degrees
            assert patch.grain_deg == pytest.approx((as_cut[patch.strip] + turned) % 360)


@given(sewable_recipes())
def test_seams_lie_where_patches_meet(sewable: Sewable) -> None:
    """Every edge of a patch that is not the block's own is sewn to another patch, so seams are half of those edges."""
    found = made(sewable)
    around = 2 * float(found.finished.width + found.finished.height)
    for kind in found.kinds:
        edges = sum(polygon(patch).length for patch in kind.patches)
        assert sum(float(seam.length) for seam in kind.seams) == pytest.approx((edges - around) / 2, abs=1e-5)


@given(sewable_recipes())
def test_bias_edges_are_the_edges_off_the_thread(sewable: Sewable) -> None:
    """Reckoned anew from the points: each edge, its angle to both threads, and whether it is the block's own."""
    found = made(sewable)
    width, height = float(found.finished.width), float(found.finished.height)
    for kind in found.kinds:
        expected = []
        for patch in kind.patches:
            for (x1, y1), (x2, y2) in edges_of(patch):
                off = min(
                    abs((degrees(atan2(y2 - y1, x2 - x1)) - patch.grain_deg - turn + 180) % 360 - 180)
                    for turn in (0, 90, 180, 270)
                )
                if off >= 2:
                    inside = [(x1, x2, 0), (x1, x2, width), (y1, y2, 0), (y1, y2, height)]
                    outer = any(abs(a - c) < CLOSE and abs(b - c) < CLOSE for a, b, c in inside)
                    expected.append((patch.fabric, round(hypot(x2 - x1, y2 - y1), 4), round(off, 4), outer))
        told = [
            (edge.fabric, round(float(edge.length), 4), round(edge.degrees, 4), edge.outer)
            for edge in kind.bias_edges
        ]
        assert sorted(told) == sorted(expected)
        assert all(2 <= edge.degrees <= 45 for edge in kind.bias_edges)


def edges_of(patch: SeenPatch) -> list[tuple[tuple[float, float], tuple[float, float]]]:
    points = [(float(x), float(y)) for x, y in patch.points]
    return list(zip(points, points[1:] + points[:1], strict=True))


@given(sewable_recipes())
def test_beds_account_for_all_cloth_laid(sewable: Sewable) -> None:
    found = made(sewable)
    areas = [bed.count * bed.length * sum(lane.width for lane in bed.lanes) for bed in found.beds]
    assert sum(areas) == found.ledger.laid
    assert sum(strip.count * strip.width * strip.length for strip in found.strips) == found.ledger.laid
    lanes = Counter[tuple[str, Fraction, Fraction]]()
    for bed in found.beds:
        assert sum(bed.cuts) <= bed.length
        for lane in bed.lanes:
            lanes[(lane.fabric, lane.width, bed.length)] += bed.count
    strips = Counter[tuple[str, Fraction, Fraction]]()
    for strip in found.strips:
        strips[(strip.fabric, strip.width, strip.length)] += strip.count
    assert lanes == strips


@given(sewable_recipes())
def test_a_turn_by_180_twice_is_nothing(sewable: Sewable) -> None:
    assume(not sewable.block[0].endswith("*"))
    found = made(sewable)
    once, twice = turn("once", sewable.block[0], 180), turn("twice", "once", 180)
    again = made(replace(sewable, steps=(*sewable.steps, once, twice), block=("twice",)))
    assert looks(again) == looks(found)
    for key in ("laid", "seen", "allowance", "waste"):
        assert float(getattr(again.ledger, key)) == pytest.approx(
            float(getattr(found.ledger, key)), abs=CLOSE
        )


def looks(found: Facts) -> list[list[tuple[object, ...]]]:
    return [
        [
            (patch.fabric, patch.layer, rounded(patch.points), patch.grain_deg, patch.strip)
            for patch in kind.patches
        ]
        for kind in found.kinds
    ]


def rounded(points: Iterable[Point]) -> list[tuple[float, float]]:
    """To six places, a little aside, so that no fraction lies where rounding goes either way."""
    return [(round(float(x) + 1.7e-7, 6) + 0.0, round(float(y) + 1.7e-7, 6) + 0.0) for x, y in points]


@given(sewable_recipes(), st.sampled_from([90, 180, 270]))
def test_a_turned_block_shows_every_point_turned(sewable: Sewable, by: int) -> None:
    assume(not sewable.block[0].endswith("*"))
    found = made(sewable)
    turned = made(
        replace(sewable, steps=(*sewable.steps, turn("turned", sewable.block[0], by)), block=("turned",))
    )
    across, down = float(found.finished.width), float(found.finished.height)
    for before, after in zip(found.kinds, turned.kinds, strict=True):
        expected = sorted(
            (
                patch.fabric,
                patch.layer,
                round((patch.grain_deg + by) % 360, 9),
                sorted(rounded(turned_points(patch, by, across, down))),
            )
            for patch in before.patches
        )
        told = sorted(
            (patch.fabric, patch.layer, round(patch.grain_deg, 9), sorted(rounded(patch.points)))
            for patch in after.patches
        )
        assert [row[:3] for row in told] == [row[:3] for row in expected]
        assert flat(row[3] for row in told) == pytest.approx(flat(row[3] for row in expected), abs=1e-5)


def turned_points(patch: SeenPatch, by: int, across: float, down: float) -> Iterator[Point]:
    """The points of a patch in a block this large, turned clockwise on screen with it."""
    for x, y in ((float(x), float(y)) for x, y in patch.points):
        yield {90: (down - y, x), 180: (across - x, down - y), 270: (y, across - x)}[by]


def flat(rings: Iterable[Iterable[Point]]) -> list[float]:
    return [float(value) for ring in rings for point in ring for value in point]


@given(sewable_recipes())
def test_shuffles_are_permutations(sewable: Sewable) -> None:
    """Where no layer is turned alone, every strip's fabrics are all used, equally much, whatever is shuffled."""
    assume(not any("layers" in step for step in sewable.steps))
    found = made(sewable)
    seen: Counter[tuple[str, int]] = Counter()
    for kind in found.kinds:
        for patch in kind.patches:
            for layer in kind.layers:
                fabric = (layer + patch.layer) % found.stack
                seen[(patch.fabric, fabric)] += round(polygon(patch).area * 1e6) * len(kind.blocks)
    for letter in {letter for letter, _ in seen}:
        areas = [seen[(letter, layer)] for layer in range(found.stack)]
        assert max(areas) - min(areas) < 1e3


@given(st.integers(2, 6), st.data())
def test_a_shuffled_pile_holds_every_cloth_once_n_layers_higher(stack: int, data: st.DataObject) -> None:
    """Cloths are told apart by their letter and the fabric that each shows, counted from its layer."""
    by = data.draw(st.integers(0, stack - 1))
    depths = data.draw(st.lists(st.integers(0, stack - 1), min_size=stack, max_size=stack))
    rect = Rect(Fraction(0), Fraction(0), Fraction(4), Fraction(3))
    pile = tuple(
        Cloth((Patch("ABCDEF"[layer], depth, 0, 90, rect, rect, STILL),), (), rect)
        for layer, depth in enumerate(depths)
    )
    before, after = shown(pile), shown(restacked(pile, by, stack))
    assert after == before[by:] + before[:by]
    assert shown(restacked(restacked(pile, by, stack), (stack - by) % stack, stack)) == before


def shown(pile: Pile) -> list[tuple[str, int]]:
    """The letter and the fabric (counted from the top of the stack) of each one-patch cloth of a pile."""
    patches = [cloth.patches[0] for cloth in pile]
    return [(patch.letter, (layer + patch.layer) % len(pile)) for layer, patch in enumerate(patches)]


@given(sewable_recipes(), st.integers(2, 3))
def test_everything_scales(sewable: Sewable, scale: int) -> None:
    found, larger = made(sewable), made(sewable, scale)
    assert float(larger.unfinished.width) == pytest.approx(scale * float(found.unfinished.width), abs=CLOSE)
    assert float(larger.ledger.waste) == pytest.approx(scale**2 * float(found.ledger.waste), abs=1e-4)
    for kind, large in zip(found.kinds, larger.kinds, strict=True):
        points = [value * scale for value in flat(patch.points for patch in kind.patches)]
        assert points == pytest.approx(flat(patch.points for patch in large.patches), abs=1e-5)
        assert [edge.degrees for edge in kind.bias_edges] == pytest.approx(
            [edge.degrees for edge in large.bias_edges], abs=1e-6
        )


@given(sewable_recipes())
@settings(max_examples=40)
def test_a_making_from_the_middle_is_the_making_from_the_start(sewable: Sewable) -> None:
    """Steps that did not change are not done again, and the facts are those of a making from nothing."""
    before = making_of(sewable)
    last = len(sewable.steps) - 1
    edited = replace(
        sewable, steps=(*sewable.steps[:last], {**sewable.steps[last], "note": "Mind the iron."})
    )
    warm = run(edited.recipe(), edited.given)
    assert all(one is other for one, other in zip(before.outcomes[:last], warm.outcomes[:last], strict=True))
    assert warm.outcomes[last] is not before.outcomes[last]
    warm_report = report(facts(edited.recipe(), edited.given))
    forget()
    assert report(facts(edited.recipe(), edited.given)) == warm_report


@given(sewable_recipes())
def test_the_report_is_json_and_every_step_is_said(sewable: Sewable) -> None:
    found = report(made(sewable))
    assert json.loads(json.dumps(found, allow_nan=False)) == found
    sentences = [str(sentence) for sentence in steps_as_sentences(making_of(sewable))]
    assert len(sentences) == len(sewable.steps)
    assert all(sentence.endswith(".") and "{" not in sentence for sentence in sentences)
