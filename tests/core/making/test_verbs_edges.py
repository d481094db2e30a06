"""Sewing along edges cut last, at any slant, and trimming ends even."""

import itertools
from fractions import Fraction
from math import cos, hypot, radians, sin, sqrt, tan

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely import Polygon, union_all  # type: ignore[import-untyped]  # it ships without types

from piecewright.errors import MakingError
from piecewright.making.cloth import Cloth
from piecewright.making.events import Joined, first
from piecewright.making.given import Given
from piecewright.making.run import run
from piecewright.making.verbs.sew import SEW
from tests.core.making.building import (
    Plain,
    cut,
    facts,
    lay,
    leveled,
    press,
    rails,
    recipe,
    refusal,
    sew,
    shuffle,
    sliced,
    square,
    the_kind,
    turn,
)

SEAM = 0.25
SET = rails(3, "24")
DIAMONDS = [*SET, cut("d", "set", "across", every="2 1/2", count=4, angle=45)]


def made(steps: list[Plain], name: str) -> Cloth:
    (cloth,) = run(recipe(steps, [name]), Given()).table.piles[name]
    return cloth


def outline(cloth: Cloth) -> Polygon:
    return union_all([Polygon(patch.seen.points) for patch in cloth.patches], grid_size=1e-9)


def is_shape(cloth: Cloth, *points: tuple[float, float]) -> bool:
    return bool(outline(cloth).symmetric_difference(Polygon(points), grid_size=1e-9).area < 1e-6)


def test_leaning_segments_sewn_again_stay_level_and_their_seams_meet() -> None:
    """Each seam takes two allowances square to itself: 2 x seam / cos 45 along the row (trigonometry)."""
    cloth = made([*DIAMONDS, sew("row", ["d.*"], "across", edge="cut")], "row")
    long = (4 * 2.5 - 3 * 2 * SEAM) / cos(radians(45))
    assert is_shape(cloth, (6.5, 0), (6.5 + long, 0), (long, 6.5), (0, 6.5))
    across = [seam.line for seam in cloth.seams if seam.step == "set" and seam.join == 1]
    ends = sorted(sorted((line.start, line.end)) for line in across)
    for before, after in itertools.pairwise(ends):
        assert hypot(before[1][0] - after[0][0], before[1][1] - after[0][1]) < 1e-9


@pytest.mark.parametrize(("by", "letter"), [(180, "C"), (0, "A")])
def test_a_leaning_segment_turned_end_for_end_fits_as_well(by: int, letter: str) -> None:
    turned = [turn("t", "d.2", by)] if by else [turn("h", "d.2", 90), turn("t", "h", 270)]
    cloth = made([*DIAMONDS, *turned, sew("row", ["d.1", "t"], "across", edge="cut")], "row")
    top = max(cloth.patches, key=lambda patch: max(point[0] - point[1] for point in patch.seen.points))
    assert top.letter == letter


def test_a_chevron_is_two_leaning_segments_stood_upright() -> None:
    """Leaning left and right, leveled, sewn by their long edges: seams rise to the middle on both sides."""
    other = [
        *(lay(name, name.upper(), "2 1/2", "24") for name in "xyz"),
        sew("other", ["x", "y", "z"], "down"),
        cut("e", "other", "across", every="2 1/2", count=1, angle=-45),
    ]
    steps = [
        *DIAMONDS,
        *other,
        leveled("l", "d.1", "right"),
        leveled("r", "e.1", "left"),
        sew("pair", ["l", "r"], "across", edge="cut"),
        square("block", "pair", "4 1/2", "4", **{"from": "centre"}),
    ]
    found = facts(steps)
    assert (found.unfinished.width, found.unfinished.height) == (Fraction(9, 2), 4)
    slopes = {
        round(float(seam.end[1] - seam.start[1]) / float(seam.end[0] - seam.start[0]))
        for seam in the_kind(found).seams
        if seam.step in ("set", "other")
    }
    assert slopes == {1, -1}


@given(st.data())
def test_the_second_piece_is_turned_until_its_edge_fits(data: st.DataObject) -> None:
    """A strip sewn on a slice at any slant: every corner of it lies where a ruler would put it."""
    start, end = (Fraction(data.draw(st.integers(4, 40)), 8) for _ in "se")
    width = Fraction(data.draw(st.integers(8, 24)), 8)
    run_, length = float(end - start), hypot(float(end - start), 5)
    steps = [
        lay("a", "A", "5", "8"),
        sliced("p", "a", ("top", str(start)), ("bottom", str(end))),
        lay("s", "S", str(width), "12"),
        turn("t", "s", 90),
        sew("q", ["p.1", "t"], "across", edge="cut"),
    ]
    assume(max(start, end) > 1)
    steps[-1]["align"] = "centre"
    cloth = made(steps, "q")
    strip = next(patch for patch in cloth.patches if patch.letter == "S")
    part = next(patch for patch in cloth.patches if patch.letter == "A")
    assert float(strip.seen.area) == pytest.approx((float(width) - SEAM) * 12)
    slope = (run_ / length, 5 / length)
    sides = [
        (b[0] - a[0], b[1] - a[1]) for a, b in zip(strip.seen.points, strip.seen.points[1:], strict=False)
    ]
    assert all(
        min(abs(x * slope[0] + y * slope[1]), abs(x * slope[1] - y * slope[0])) < 1e-9 for x, y in sides
    )
    lost = SEAM * length / 5
    assert float(part.seen.area) == pytest.approx(float(start + end) / 2 * 5 - lost * 5)
    (seam,) = cloth.seams
    ends = sorted((seam.line.start, seam.line.end), key=lambda end: end[1])
    assert hypot(float(ends[1][0] - ends[0][0]), float(ends[1][1] - ends[0][1])) == pytest.approx(length)
    apart = Polygon(strip.seen.points).distance(Polygon(part.seen.points))
    assert apart < 1e-9
    assert Polygon(strip.seen.points).intersection(Polygon(part.seen.points), grid_size=1e-9).area < 1e-6


def test_a_strip_sewn_on_a_cut_corner_and_trimmed_flush_restores_the_sides() -> None:
    steps = [
        lay("a", "A", "6", "8"),
        sliced("p", "a", ("left", "3"), ("top", "4")),
        lay("s", "S", "3 1/2", "10"),
        sew("block", ["p.2", "s"], "down", edge="cut", flush=True),
    ]
    found = facts(steps)
    assert (float(found.unfinished.width), float(found.unfinished.height)) == pytest.approx((8, 6))
    triangle = next(patch for patch in the_kind(found).patches if patch.fabric == "S")
    assert {
        round(edge.degrees, 3) for edge in the_kind(found).bias_edges if edge.fabric == "S" and edge.outer
    } == {36.87}
    assert len(triangle.points) == 3
    ledger = found.ledger
    assert float(ledger.seen + ledger.allowance + ledger.waste) == pytest.approx(83)


def test_log_rounds_are_sewn_long_and_trimmed_flush() -> None:
    steps: list[Plain] = [lay("p0", "A", "2 1/2", "2 1/2")]
    for number in range(4):
        log = f"l{number}"
        steps.append(lay(log, "B", "1 1/2", "8"))
        if number % 2 == 0:
            steps.append(turn(f"t{number}", log, 90))
            log = f"t{number}"
        pieces = [f"p{number}", log]
        axis = "across" if number % 2 == 0 else "down"
        steps.append(sew(f"p{number + 1}", pieces, axis, flush=True, align="start"))
    found = facts(steps, ["p4"])
    assert (found.unfinished.width, found.unfinished.height) == (Fraction(9, 2), Fraction(9, 2))
    assert isinstance(found.ledger.waste, Fraction)
    lengths = [Fraction(5, 2), Fraction(7, 2), Fraction(7, 2), Fraction(9, 2)]
    assert found.ledger.waste == sum(Fraction(3, 2) * (8 - length) for length in lengths)


@pytest.mark.parametrize(("align", "top"), [("start", 0.0), ("centre", -2.0), ("end", -4.0)])
def test_where_ends_of_slanted_edges_lie(align: str, top: float) -> None:
    steps = [
        lay("a", "A", "4", "8"),
        sliced("p", "a", ("top", "4"), ("bottom", "4")),
        lay("s", "S", "3", "8"),
        turn("t", "s", 90),
        sew("q", ["p.1", "t"], "across", edge="cut", align=align),
    ]
    cloth = made(steps, "q")
    strip = next(patch for patch in cloth.patches if patch.letter == "S")
    part = next(patch for patch in cloth.patches if patch.letter == "A")
    assert float(strip.seen.box.top - part.seen.box.top) == pytest.approx(top)


def test_a_step_moves_along_the_slanted_seam() -> None:
    steps = [*DIAMONDS, sew("row", ["d.1", "d.2"], "across", edge="cut", step="1")]
    cloth = made(steps, "row")
    assert float(cloth.box.height) == pytest.approx(6.5 + sqrt(0.5))
    made_of = recipe(steps, ["row"])
    (handle,) = SEW.handles(made_of.steps[-1], run(made_of, Given()).outcomes[-1])
    assert handle.place.key == "step"
    assert hypot(*handle.toward) == pytest.approx(1)


def test_outer_edges_stay_cut_edges_so_that_rows_are_sewn_on() -> None:
    steps = [
        *DIAMONDS,
        sew("one", ["d.1", "d.2"], "across", edge="cut"),
        sew("two", ["d.3", "d.4"], "across", edge="cut"),
        sew("row", ["one", "two"], "across", edge="cut"),
    ]
    together = made([*DIAMONDS, sew("row", ["d.*"], "across", edge="cut")], "row")
    assert outline(made(steps, "row")).equals_exact(outline(together), 1e-9, normalize=True)


def test_a_seam_along_a_slant_is_pressed_to_one_of_its_sides() -> None:
    steps = [*DIAMONDS, sew("row", ["d.1", "d.2"], "across", edge="cut"), press("row", "left")]
    (seam,) = [
        seam
        for seam in the_kind(facts([*steps, square("block", "row", "3", "2")])).seams
        if seam.step == "row"
    ]
    assert seam.pressed == "left"


def test_layers_are_exchanged_and_sewn_along_their_cut() -> None:
    steps = [
        *rails(2, "12"),
        cut("d", "set", "across", every="3", count=2, angle=20),
        shuffle("s", "d.2", 1),
        sew("row", ["d.1", "s"], "across", edge="cut"),
        square("block", "row", "4", "4"),
    ]
    kind = the_kind(facts(steps, stack=2))
    assert {patch.layer for patch in kind.patches} == {0, 1}


REFUSED: dict[str, tuple[list[Plain], str]] = {
    "no cut edge": (
        [lay("a", "A", "4", "6"), lay("b", "B", "4", "6"), sew("block", ["a", "b"], "down", edge="cut")],
        'steps[2].edge: Neither a nor b has an edge that a slice or a leaning cut made. Leave "edge" out.',
    ),
    "unlike": (
        [*DIAMONDS, lay("s", "S", "2", "12"), sew("block", ["d.1", "s"], "down", edge="cut")],
        ("steps[6].sew: The edge of d.1 is 9.192 in long and that of s is 12 in: too unlike to ease. "
        'Trim the longer one to 9.192 in, or say with "align" which ends are even.'),
    ),
    "middle": (
        [
            lay("a", "A", "4", "9"),
            sliced("p", "a", ("top", "3"), ("bottom", "4")),
            lay("b", "B", "4", "9"),
            sliced("q", "b", ("top", "3"), ("bottom", "4")),
            sew("block", ["p.1", "q.2", "p.2"], "across", edge="cut"),
        ],
        ("steps[4].sew[1]: q.2 has one edge cut last, and in the middle of a row it is sewn on two. "
        "Sew these pieces two by two."),
    ),
    "match": (
        [*DIAMONDS, sew("block", ["d.1", "d.2"], "across", edge="cut", match="points")],
        ("steps[5].match: Matched points say how pieces lie, so nothing else can. "
        'Leave "align", "step", "edge" and "flush" out.'),
    ),
    "squared": (
        [
            *DIAMONDS,
            square("s", "d.1", "1", "1"),
            square("t", "d.2", "1", "1"),
            sew("block", ["s", "t"], "across", edge="cut"),
        ],
        'steps[7].edge: Neither s nor t has an edge that a slice or a leaning cut made. Leave "edge" out.',
    ),
    "apart": (
        [*DIAMONDS, sew("block", ["d.1", "d.2"], "across", edge="cut", step="12")],
        ("steps[5].sew: d.1 and d.2 lie so far apart along the seam that their edges do not meet. "
        "Make the step smaller."),
    ),
    "hidden": (
        [
            *SET,
            cut("d", "set", "across", widths=["2 1/2", "1/2", "2 1/2"], angle=45),
            sew("block", ["d.*"], "across", edge="cut"),
        ],
        ("steps[5].sew: Sewing d.2 hides a patch of fabric A in the seam: nothing of it is seen. "
        "A patch sewn on both sides must be wider than 1/2 in."),
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", REFUSED)
def test_what_can_not_be_sewn_is_refused(name: str) -> None:
    assert refusal(REFUSED[name][0]) == REFUSED[name][1]


def test_sewing_along_a_cut_is_said_in_words() -> None:
    steps = [*DIAMONDS, sew("q", ["d.1", "d.2"], "across", edge="cut", align="start", step="1/2", flush=True)]
    making = run(recipe(steps, ["q"]), Given())
    assert str(making.outcomes[-1].sentence) == (
        "Sew d.1 and d.2 together along the edges cut last, each to the one before, the upper (or left) ends even, "
        "each 1/2 in further along the seam; then trim the others even with the sides of d.1: "
        "q measures 12.51 x 6.5 in unfinished."
    )
    event = first(making.outcomes[-1].events, Joined)
    assert not event.plain
    assert [move.turn_degrees for move in event.moves] == [0, 0]


def test_a_diamond_of_diamonds() -> None:
    """Nine diamonds of 60 degrees from three rows: as wide as one of three times the finished width."""
    strips = [lay(name, name.upper(), "2", "30") for name in "abc"]
    rows = [
        *strips,
        sew("set", ["a", "b", "c"], "down"),
        cut("d", "set", "across", every="2", count=3, angle=30),
        sew("large", ["d.*"], "across", edge="cut"),
    ]
    cloth = made(rows, "large")
    high, wide = 3 * 1.5 + 0.5, (3 * 1.5 + 0.5) / sin(radians(60))
    assert is_shape(
        cloth, (high * tan(radians(30)), 0), (high * tan(radians(30)) + wide, 0), (wide, high), (0, high)
    )


@pytest.mark.parametrize("align", ["start", "centre", "end"])
def test_a_broken_edge_is_squared_first_whichever_ends_are_even(align: str) -> None:
    """The bottom edge runs from the end of the leftmost line to that of the rightmost; here these ends differ."""
    steps = [
        lay("a", "A", "6", "4"),
        lay("b", "B", "4", "4"),
        sew("pair", ["a", "b"], "across", align="start"),
        lay("c", "C", "2", "7 1/2"),
        sew("block", ["pair", "c"], "down", align=align),
    ]
    with pytest.raises(MakingError, match="The bottom edge of pair is not one straight line"):
        run(recipe(steps), Given())
