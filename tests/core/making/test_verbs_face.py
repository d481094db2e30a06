"""Two pieces right sides together: sewn on drawn lines, cut apart, opened."""

from fractions import Fraction
from math import hypot, sqrt

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely import Polygon, union_all  # type: ignore[import-untyped]  # it ships without types
from shapely.affinity import affine_transform  # type: ignore[import-untyped]

from piecewright.making.given import Given
from piecewright.making.run import run
from piecewright.making.verbs.face import FACE
from tests.core.making.building import (
    Plain,
    corner,
    cut,
    face,
    facts,
    lay,
    line,
    opened,
    press,
    recipe,
    refusal,
    sew,
    shuffle,
    sliced,
    square,
    the_kind,
    turn,
)

CLOSE = 1e-9
A, B = lay("a", "A", "4", "4"), lay("b", "B", "4", "4")
TWO = [lay("u", "U", "4", "2 1/4"), lay("v", "V", "4", "2 1/4"), sew("b", ["u", "v"], "across")]
DOWN = line(("top", "0"), ("bottom", "4"), beside="seam")
"""From the top left to the bottom right, sewn on both sides."""


def halves(side: str) -> list[Plain]:
    """Two squares, sewn on both sides of the diagonal, cut on it and opened into unit.1 and unit.2."""
    return [
        lay("a", "A", side, side),
        lay("b", "B", side, side),
        face("pair", "a", "b", line(("top", "0"), ("bottom", side), beside="seam")),
        sliced("half", "pair", ("top", "0"), ("bottom", side)),
        opened("unit", "half.*"),
    ]


def test_two_half_square_triangles_from_two_squares() -> None:
    """The unit is the square less its seam along the diagonal, sqrt 2 x seam (simple trigonometry)."""
    found = facts(halves("4"), ["unit.*"])
    side = 4 - sqrt(2) / 4
    assert float(found.unfinished.width) == pytest.approx(side, abs=CLOSE)
    assert float(found.unfinished.height) == pytest.approx(side, abs=CLOSE)
    assert found.blocks == 2
    assert float(found.ledger.waste) == 0
    for kind in found.kinds:
        halves_seen = {patch.fabric: Polygon(patch.points).area for patch in kind.patches}
        assert halves_seen == pytest.approx({"A": (side - 0.5) ** 2 / 2, "B": (side - 0.5) ** 2 / 2})
        (seam,) = kind.seams
        assert float(seam.length) == pytest.approx((side - 0.5) * sqrt(2))


def test_the_first_piece_stays_and_the_second_is_folded_over_the_seam() -> None:
    kinds = facts(halves("4"), ["unit.*"]).kinds
    below = [next(patch.fabric for patch in kind.patches if patch.points[0] == (0, 0)) for kind in kinds]
    middles = [{patch.fabric: Polygon(patch.points).centroid.x for patch in kind.patches} for kind in kinds]
    assert middles[0]["A"] < middles[0]["B"]
    assert middles[1]["A"] > middles[1]["B"]
    assert len(below) == 2


@pytest.mark.parametrize(("at", "upper"), [("1/4", "B"), ("3 3/4", "A")])
def test_a_seam_along_an_edge_opens_like_one_that_is_sewn(at: str, upper: str) -> None:
    steps = [A, B, face("pair", "a", "b", line(("left", at), ("right", at))), opened("block", "pair")]
    found = facts(steps)
    assert (found.unfinished.width, found.unfinished.height) == (4, Fraction(15, 2))
    assert isinstance(found.ledger.seen, Fraction)
    assert the_kind(found).patches[0].fabric == upper


def test_the_second_piece_is_turned_over_like_a_page() -> None:
    """U lies left of V; face down it lies right; folded back over the upper edge it still does."""
    steps = [A, *TWO, face("pair", "a", "b", line(("left", "1/4"), ("right", "1/4"))), opened("o", "pair")]
    making = run(recipe(steps, ["o"]), Given())
    (pair,), (flat,) = making.table.piles["pair"], making.table.piles["o"]
    assert pair.over is not None
    assert {patch.letter: patch.seen.box.left for patch in pair.over.patches} == {"U": 2, "V": 0}
    assert {patch.letter: patch.seen.box.left for patch in flat.patches} == {"A": 0, "U": 2, "V": 0}
    assert {patch.came.turn_degrees for patch in flat.patches if patch.letter in "UV"} == {180}
    assert not any(patch.came.faced for patch in flat.patches)


def test_eight_half_square_triangles_at_once() -> None:
    """Each unit is half the square less sqrt 2 x seam; the ends of the other diagonal's seams lie in the allowance."""
    found = facts(eight("6"), [f"u{number}.*" for number in (1, 2, 3, 4)])
    assert found.blocks == 8
    assert float(found.unfinished.width) == pytest.approx(3 - sqrt(2) / 4, abs=CLOSE)
    assert not found.warnings
    assert float(found.ledger.waste) == 0


def eight(side: str) -> list[Plain]:
    """Two squares sewn on both sides of both diagonals, cut in quarters and on the diagonals, opened."""
    half = f"{side} / 2"
    diagonals = (
        line(("top", "0"), ("bottom", side), beside="seam"),
        line(("top", side), ("bottom", "0"), beside="seam"),
    )
    falling, rising = (("top", "0"), ("right", half)), (("top", half), ("left", half))
    quarters = {"q1.1": falling, "q1.2": rising, "q2.1": rising, "q2.2": falling}
    return [
        lay("a", "A", side, side),
        lay("b", "B", side, side),
        face("pair", "a", "b", *diagonals),
        cut("row", "pair", "down", into=2),
        cut("q1", "row.1", "across", into=2),
        cut("q2", "row.2", "across", into=2),
        *(sliced(f"t{n}", quarter, *ends) for n, (quarter, ends) in enumerate(quarters.items(), start=1)),
        *(opened(f"u{n}", f"t{n}.*") for n in (1, 2, 3, 4)),
    ]


def test_triangles_cut_from_a_tube_lose_the_few_stitches_at_their_tip() -> None:
    """Two strips sewn on both long edges, cut at 45 degrees: a unit is (width - seam) x sqrt 2 (trigonometry)."""
    edges = [line(("left", at), ("right", at)) for at in ("1/4", "3 1/4")]
    steps = [
        lay("a", "A", "3 1/2", "14"),
        lay("b", "B", "3 1/2", "14"),
        face("tube", "a", "b", *edges),
        sliced("first", "tube", ("top", "0"), ("bottom", "3 1/2")),
        sliced("next", "first.2", ("bottom", "3 1/2"), ("top", "7")),
        opened("o", "next.1"),
    ]
    making = run(recipe(steps, ["o"]), Given())
    (cloth,) = making.table.piles["o"]
    side = 3.25 * sqrt(2)
    assert sum(float(patch.seen.area) for patch in cloth.patches) == pytest.approx(side**2)
    assert str(making.outcomes[-1].sentence).startswith(
        "Pick out the few stitches that cross a tip. Open next.1"
    )
    wide = [line(("left", at), ("right", at)) for at in ("1/4", "2 5/8")]
    said = refusal([*steps[:2], face("tube", "a", "b", *wide), *steps[3:5], opened("block", "next.1")])
    assert said == (
        "steps[5].open: next.1 is held by 2 seams, so it does not open flat. Cut between the seams first."
    )


lengths = st.integers(16, 64).map(lambda eighths: Fraction(eighths, 8))


@given(st.data())
def test_an_opened_piece_is_what_is_seen_and_its_image_in_the_seam(data: st.DataObject) -> None:
    """Against a reflection by shapely, for any slant of the cut and any distance of the seam from it."""
    width, height = data.draw(lengths), data.draw(lengths)
    start, end = (data.draw(st.integers(1, int(width * 8) - 1).map(lambda n: Fraction(n, 8))) for _ in "se")
    beside = Fraction(data.draw(st.integers(1, 4)), 8)
    ends = ("top", str(start)), ("bottom", str(end))
    rect = Polygon([(0, 0), (width, 0), (width, height), (0, height)])
    run_, length = float(end - start), hypot(float(end - start), float(height))
    ux, uy = run_ / length, float(height) / length
    for number, sign in ((1, 1), (2, -1)):
        x, y = float(start) - sign * uy * float(beside), sign * ux * float(beside)
        far = 1000
        ahead, back = (x + far * ux, y + far * uy), (x - far * ux, y - far * uy)
        side = Polygon(
            [
                ahead,
                back,
                (back[0] - sign * far * uy, back[1] + sign * far * ux),
                (ahead[0] - sign * far * uy, ahead[1] + sign * far * ux),
            ]
        )
        body = rect.intersection(side)
        cut_off = rect.intersection(
            Polygon(
                [
                    (float(start) - far * ux, -far * uy),
                    (float(start) + far * ux, far * uy),
                    (float(start) + far * ux - sign * far * uy, far * uy + sign * far * ux),
                    (float(start) - far * ux - sign * far * uy, -far * uy + sign * far * ux),
                ]
            )
        )
        assume(body.area > 0.51 * cut_off.area)
        steps = [
            lay("a", "A", str(height), str(width)),
            lay("b", "B", str(height), str(width)),
            face("pair", "a", "b", line(*ends, beside=str(beside))),
            sliced("part", "pair", *ends),
            opened("o", f"part.{number}"),
        ]
        (cloth,) = run(recipe(steps, ["o"]), Given()).table.piles["o"]
        c2, s2 = ux * ux - uy * uy, 2 * ux * uy
        image = affine_transform(body, [c2, s2, s2, -c2, x - c2 * x - s2 * y, y - s2 * x + c2 * y])
        both = union_all([body, image])
        left, top, _, _ = both.bounds
        expected = affine_transform(both, [1, 0, 0, 1, -left, -top])
        found = union_all([Polygon(patch.seen.points) for patch in cloth.patches], grid_size=1e-9)
        assert found.symmetric_difference(expected, grid_size=1e-9).area < 1e-6
        areas = sorted(float(patch.seen.area) for patch in cloth.patches)
        assert areas == pytest.approx([body.area] * 2)


def test_pieces_face_to_face_are_cut_turned_shuffled_and_squared_together() -> None:
    steps = [
        A,
        B,
        face("pair", "a", "b", line(("left", "1/4"), ("right", "1/4"))),
        cut("p", "pair", "across", every="2", count=2),
        turn("t", "p.2", 180),
        shuffle("s", "t", 1),
        square("q", "s", "2", "3", **{"from": "bottom left"}),
        opened("block", "q"),
    ]
    found = facts(steps, stack=2)
    assert (found.unfinished.width, found.unfinished.height) == (2, Fraction(11, 2))
    kind = the_kind(found)
    assert [(patch.fabric, patch.layer) for patch in kind.patches] == [("A", 1), ("B", 1)]
    assert {patch.grain_deg for patch in kind.patches} == {270, 90}


def test_seams_of_opened_pieces_are_pressed_by_the_name_of_the_step_that_opened_them() -> None:
    steps = halves("4")
    kinds = facts([*steps, press("unit.2", "right"), press("unit.1", "up")], ["unit.*"]).kinds
    assert [kind.seams[0].pressed for kind in kinds] == ["up", "right"]
    edge = [A, B, face("pair", "a", "b", line(("left", "1/4"), ("right", "1/4"))), opened("block", "pair")]
    assert the_kind(facts([*edge, press("block", "down")])).seams[0].pressed == "down"
    assert refusal([*edge, press("block", "left")]) == (
        "steps[4].press.toward: The seam block runs the other way, so it can not be pressed left. "
        "Press it to one of its sides, or open."
    )
    assert refusal([*edge, press("block", "in")]).startswith(
        "steps[4].press.toward: block is the middle seam"
    )


def test_the_pair_cut_off_a_corner_can_be_kept_sewn_and_opened() -> None:
    """Legs of the pair: square less sqrt 2 x seam; opened it loses as much again."""
    steps = [
        lay("a", "A", "4", "6"),
        lay("s", "S", "3", "3"),
        corner("c", "a", "s", "bottom right", keep=True),
        opened("small", "c.2"),
    ]
    found = facts(steps, ["c.1"])
    assert (found.unfinished.width, found.unfinished.height) == (6, 4)
    small = facts([*steps], ["small"])
    assert float(small.unfinished.width) == pytest.approx(3 - sqrt(2) / 2)
    assert small.ledger.waste + small.ledger.seen + small.ledger.allowance == pytest.approx(33.0)
    tiny = [
        lay("a", "A", "4", "6"),
        lay("s", "S", "1", "1"),
        corner("c", "a", "s", "bottom right", keep=True),
    ]
    assert refusal(tiny, "c.1") == (
        'steps[2].keep: What is trimmed off is too small to be sewn again. Leave "keep" out, or sew on a larger square.'
    )


REFUSED = {
    "unlike": (
        [A, lay("b", "B", "4", "5"), face("block", "a", "b", DOWN)],
        ("steps[2].face: b, turned over, does not lie edge to edge on a: a measures 4 x 4 in unfinished and "
        "b 5 x 4 in unfinished. Square both up to one size first."),
    ),
    "one side": (
        [A, B, face("block", "a", "b", line(("top", "0"), ("top", "4")))],
        "steps[2].seams[0].to: A slice can not begin and end on the same side (top). Let it end on another side.",
    ),
    "off": (
        [A, B, face("block", "a", "b", DOWN, line(("left", "1"), ("right", "1"), beside="3"))],
        ("steps[2].seams[1]: This seam does not run over block. "
        "Move its line into the piece, or sew nearer to the line."),
    ),
    "edge": (
        [A, B, face("block", "a", "b", line(("left", "0"), ("right", "0")))],
        ("steps[2].seams[0]: This seam does not run over block. "
        "Move its line into the piece, or sew nearer to the line."),
    ),
    "nothing beside": (
        [A, B, face("block", "a", "b", {**DOWN, "beside": "0"})],
        "steps[2].seams[0].beside: 0 in is no length of cloth. A piece of cloth is wider and longer than nothing.",
    ),
    "sewn": (
        [A, B, face("pair", "a", "b", DOWN), lay("c", "C", "4", "4"), sew("block", ["pair", "c"], "down")],
        "steps[4].sew[0]: pair is two pieces, right sides together. Open it first.",
    ),
    "block": (
        [A, B, face("block", "a", "b", DOWN)],
        "block[0]: block is two pieces, right sides together. Open it first.",
    ),
    "flat": ([A, opened("block", "a")],
        ("steps[1].open: a is not two pieces, right sides together. "
        'Lay another piece face down on it with "face".'),
    ),
    "held": (
        [A, B, face("pair", "a", "b", DOWN), opened("block", "pair")],
        "steps[3].open: pair is held by 2 seams, so it does not open flat. Cut between the seams first.",
    ),
    "middle": (
        [A, B, face("pair", "a", "b", line(("left", "2"), ("right", "2"))), opened("block", "pair")],
        ("steps[3].open: The seam runs through the middle of pair, so neither side is its allowance. "
        "Cut beside a seam, so that its allowance is on one side of it."),
    ),
    "loose": (
        [
            A,
            B,
            face("pair", "a", "b", line(("left", "1/4"), ("right", "1/4"))),
            cut("p", "pair", "down", into=2),
            opened("block", "p.2"),
        ],
        ("steps[4].open: No seam holds p.2 together. "
        "Cut beside a seam, so that its allowance is on one side of it."),
    ),
    "three": (
        [A, B, {"make": "block", "face": ["a", "b", "c"], "seams": [DOWN]}],
        "steps[2].face: The list has 3 entries. Write a list of 2 entries.",
    ),
}  # fmt: skip


@pytest.mark.parametrize("steps", REFUSED)
def test_what_can_not_be_is_refused(steps: str) -> None:
    assert refusal(REFUSED[steps][0]) == REFUSED[steps][1]


def test_facing_and_opening_are_said_in_words() -> None:
    making = run(recipe(halves("4"), ["unit.*"]), Given())
    assert [str(making.outcomes[index].sentence) for index in (2, 4)] == [
        ("Lay b face down on a, edges even, and sew both together 1/4 in on both sides of the line "
        "from 0 in along the top to 4 in along the bottom."),
        "Open half.1 and half.2 along the seams: each measures 3.646 x 3.646 in unfinished.",
    ]  # fmt: skip


def test_the_ends_of_drawn_lines_are_handles() -> None:
    made = recipe(halves("4"), ["unit.*"])
    outcome = run(made, Given()).outcomes[2]
    found = FACE.handles(made.steps[2], outcome)
    assert [(handle.place.key, handle.place.index, handle.line.start, handle.toward) for handle in found] == [
        ("seams[0].from", 1, (0, 0), (1, 0)),
        ("seams[0].to", 1, (4, 4), (1, 0)),
    ]
