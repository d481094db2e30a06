"""Pressing across joins, held against laying every seam of a small wall out and trying every choice."""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import combinations, pairwise, product
from random import Random
from typing import NamedTuple

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from piecewright.making.recipe import Recipe
from piecewright.making.shipped import shipped_recipes
from piecewright.model.design import Design
from piecewright.model.quilt import Lattice, Placement, Quilt, Row
from piecewright.model.value import Sizes
from piecewright.plan.pressing import QuiltPressing, block_plan, quilt_pressing
from piecewright.sewing.assembly import Knot, Section
from tests.core.plan.samples import block, design, letters, rails
from tests.core.strategies import designs

Spot = tuple[float, float]
INCH = Fraction(1)
SQUARES = (
    "rail-fence-of-two",
    "rail-fence-of-three",
    "cut-turn-sew",
    "framed-four-patch",
    "middle-end-for-end",
)


class Line(NamedTuple):
    """A seam where it lies in the quilt, where it is pressed to (a direction), and which choice turns that over."""

    start: Spot
    end: Spot
    way: Spot
    choice: int | None
    join: bool


def wall(random: Random, columns: int, rows: int) -> Design:
    """Blocks 6 in square of several recipes, turned at random; in some places two halves, 3 x 6 in."""
    shelf = [
        block(recipe, letters(**dict.fromkeys(recipe.letters, "f1")), Sizes({"F": 6 * INCH}), number)
        for number, recipe in enumerate([shipped_recipes()[name] for name in SQUARES], 30)
    ]
    half = block(
        shipped_recipes()["two-halves-from-thirds"], letters(A="f1", B="f2"), Sizes({"F": 6 * INCH}), 40
    )
    placed: dict[int, list[Placement]] = {}
    for column, row in product(range(columns), range(rows)):
        at, down = 2 * column, 2 * row
        kind = random.randrange(7)
        if kind < 5:
            turn = random.choice((0, 90, 180, 270))
            placed.setdefault(down, []).append(Placement(at, f"b{30 + kind}", turn))  # type: ignore[arg-type]
        elif kind == 5:
            turns = random.choices((0, 180), k=2)
            placed.setdefault(down, []).append(Placement(at, "b40", turns[0]))  # type: ignore[arg-type]
            placed[down].append(Placement(at + 1, "b40", turns[1]))  # type: ignore[arg-type]
        else:
            turns = random.choices((90, 270), k=2)
            placed.setdefault(down, []).append(Placement(at, "b40", turns[0]))  # type: ignore[arg-type]
            placed.setdefault(down + 1, []).append(Placement(at, "b40", turns[1]))  # type: ignore[arg-type]
    lines = tuple(
        Row(row, tuple(sorted(blocks, key=lambda placement: placement.column)))
        for row, blocks in sorted(placed.items())
    )
    quilt = Quilt("Wall", Lattice(3 * INCH, 2 * columns, 2 * rows), lines)
    return design((*shelf, half), quilt)


def all_lines(found: Design, pressing: QuiltPressing) -> list[Line]:
    """Every seam of every block and every join, as planned; choice n turns block n over, later ones the joins."""
    lines = []
    for number, pressed in enumerate(pressing.blocks):
        placement = pressed.placed.laid.placement
        plan = block_plan(found, placement)
        assert plan is not None
        rect = pressed.placed.rect
        for line in plan.blocks[0].work.lines:
            sign, flips = plan.signs[line.seam], plan.flips[line.seam]
            way = sign * line.toward[0], sign * line.toward[1]
            size = float(plan.finished.width), float(plan.finished.height)
            ends = [turned_point(end, size, placement.turn) for end in (line.start, line.end)]
            start, end = ((x + float(rect.x), y + float(rect.y)) for x, y in ends)
            lines.append(Line(start, end, turned(way, placement.turn), number if flips else None, join=False))
    return lines + list(join_lines(pressing))


def join_lines(pressing: QuiltPressing) -> Iterator[Line]:
    number = len(pressing.blocks)
    for part in pressing.order.parts:
        if not isinstance(part, Section):
            assert not isinstance(part, Knot)
            continue
        for inner in part.parts[:-1]:
            box = part.box
            if part.axis == "across":
                x = float(inner.box.right)
                yield Line((x, float(box.top)), (x, float(box.bottom)), (1, 0), number, join=True)
            else:
                y = float(inner.box.bottom)
                yield Line((float(box.left), y), (float(box.right), y), (0, 1), number, join=True)
            number += 1


def turned(way: Spot, turn: int) -> Spot:
    for _ in range(turn // 90):
        way = (-way[1], way[0])
    return way


def turned_point(point: Spot, size: Spot, turn: int) -> Spot:
    for _ in range(turn // 90):
        point, size = (size[1] - point[1], point[0]), (size[1], size[0])
    return point


class Meeting(NamedTuple):
    """Two seams in one line that meet on a join; whether they nest where no choice turns them over."""

    one: int | None
    other: int | None
    nests: bool


def meetings(lines: Sequence[Line]) -> list[Meeting]:
    ends: dict[Spot, list[tuple[Line, Spot]]] = {}
    for line in lines:
        for here, there in ((line.start, line.end), (line.end, line.start)):
            place = (round(here[0], 4), round(here[1], 4))
            ends.setdefault(place, []).append((line, (there[0] - here[0], there[1] - here[1])))
    found = []
    for place, leaving in ends.items():
        if any(line.join and runs_through(line, place) for line in lines):
            for (one, out), (other, back) in combinations(leaving, 2):
                if out[0] * back[0] + out[1] * back[1] < 0:
                    against = one.way[0] * other.way[0] + one.way[1] * other.way[1] < 0
                    found.append(Meeting(one.choice, other.choice, against))
    return found


def runs_through(line: Line, place: Spot) -> bool:
    (x1, y1), (x2, y2) = sorted((line.start, line.end))
    if abs(x1 - x2) < 1e-6:
        return abs(x1 - place[0]) < 1e-4 and y1 + 1e-4 < place[1] < y2 - 1e-4
    return abs(y1 - place[1]) < 1e-4 and x1 + 1e-4 < place[0] < x2 - 1e-4


def clashes(found: Sequence[Meeting], over: Sequence[bool]) -> int:
    turned_over = [
        (one is not None and over[one]) != (other is not None and over[other]) for one, other, _ in found
    ]
    return sum(meeting.nests == flipped for meeting, flipped in zip(found, turned_over, strict=True))


def chosen(pressing: QuiltPressing) -> list[bool]:
    return [
        *(pressed.other_way for pressed in pressing.blocks),
        *(join.toward in ("left", "up") for join in pressing.joins),
    ]


@settings(max_examples=40)
@given(st.integers(0, 2**32).map(Random), st.sampled_from([(2, 2), (2, 1), (3, 1)]))
def test_no_choice_has_fewer_clashes_at_joins(random: Random, size: tuple[int, int]) -> None:
    found = wall(random, *size)
    pressing = quilt_pressing(found)
    met = meetings(all_lines(found, pressing))
    over = chosen(pressing)
    assert (pressing.crossings, len(pressing.clashes)) == (len(met), clashes(met, over))
    assert pressing.proven
    if len(over) <= 9:
        least = min(clashes(met, choice) for choice in product((False, True), repeat=len(over)))
        assert pressing.bound == least


@given(designs())
def test_any_design_has_a_pressing(found: Design) -> None:
    pressing = quilt_pressing(found)
    assert len(pressing.blocks) == len(pressing.order.blocks)
    assert 0 <= pressing.bound <= len(pressing.clashes) <= pressing.crossings
    assert all(str(sentence) for sentence in pressing.sentences)
    assert len(pressing.findings) == len({clash.part for clash in pressing.clashes})


def test_rows_of_rails_are_pressed_to_opposite_sides() -> None:
    """Common practice, no source: joins of one row to the right and of the next to the left, so that corners nest."""
    pressing = quilt_pressing(rails(20))
    towards = [join.toward for join in pressing.joins[:10]]
    assert set(pairwise(towards)) == {("up", "down"), ("down", "up")}
    assert not pressing.clashes


def test_rails_side_by_side_are_pressed_by_turns() -> None:
    """Rails that run on into their neighbor nest when every other block is pressed the other way."""
    pressing = quilt_pressing(rails(10))
    assert pressing.crossings == 9 * 2
    assert not pressing.clashes
    assert [pressed.other_way for pressed in pressing.blocks] == [False, True] * 5
    assert (
        str(pressing.sentences[0])
        == "Block 30: press 5 of 10 the other way than its own plan says, the rest as it says."
    )


def with_recipe(found: Design, recipe: Recipe) -> Design:
    return found.changed(recipes=tuple(entry.changed(recipe=recipe) for entry in found.recipes))


@pytest.mark.parametrize(("toward", "ways"), [("down", ["down", "down"]), ("darker", ["up", "down"])])
def test_what_the_recipe_says_is_not_turned_over(toward: str, ways: list[str]) -> None:
    """Cloth 1 is black, cloth 2 white, cloth 3 nearly black: toward the darker is away from the middle."""
    plain = shipped_recipes()["rail-fence-of-three"].plain
    plain["steps"].append({"press": {"seam": "set", "toward": toward}})
    found = with_recipe(rails(10), Recipe.from_plain(plain))
    colors = dict(zip(("f1", "f2", "f3"), ("#000000", "#ffffff", "#101010"), strict=True))
    found = found.changed(
        fabrics=tuple(fabric.changed(color=colors.get(fabric.id, fabric.color)) for fabric in found.fabrics)
    )
    pressing = quilt_pressing(found)
    assert not any(pressed.other_way for pressed in pressing.blocks)
    assert (len(pressing.clashes), pressing.bound) == (18, 18)
    plan = block_plan(found, pressing.blocks[0].placed.laid.placement)
    assert plan is not None
    assert [planned.toward for planned in plan.seams] == ways
