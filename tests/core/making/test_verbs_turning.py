"""Turns by any angle, and until a slanted edge lies level."""

from fractions import Fraction
from math import atan, degrees, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Polygon, union_all  # type: ignore[import-untyped]  # it ships without types
from shapely.affinity import rotate, translate  # type: ignore[import-untyped]

from piecewright.making.cloth import Cloth
from piecewright.making.events import Moved, first
from piecewright.making.given import Given
from piecewright.making.run import run
from tests.core.making.building import (
    PAIR,
    Plain,
    cut,
    face,
    facts,
    lay,
    leveled,
    line,
    opened,
    press,
    rails,
    recipe,
    refusal,
    sew,
    sliced,
    square,
    the_kind,
    turn,
)

RECT = Polygon([(0, 0), (6, 0), (6, 4.5), (0, 4.5)])


def made(steps: list[Plain], name: str) -> Cloth:
    (cloth,) = run(recipe(steps, [name]), Given()).table.piles[name]
    return cloth


def outline(cloth: Cloth) -> Polygon:
    return union_all([Polygon(patch.seen.points) for patch in cloth.patches], grid_size=1e-9)


@given(st.floats(0.1, 359.9))
def test_a_turn_is_clockwise_and_ends_at_home(angle: float) -> None:
    """Against shapely, whose angles run the other way round where y runs up: on screen both are clockwise."""
    expected = rotate(RECT, angle, origin=(0, 0))
    left, top, right, bottom = expected.bounds
    cloth = made([*PAIR, turn("t", "pair", angle)], "t")
    found = outline(cloth)
    assert found.symmetric_difference(translate(expected, -left, -top), grid_size=1e-9).area < 1e-6
    assert (float(cloth.box.width), float(cloth.box.height)) == pytest.approx((right - left, bottom - top))


def test_quarter_turns_stay_exact_and_turns_add_up_to_them() -> None:
    once = made([*PAIR, turn("t", "pair", 90.0)], "t")
    assert isinstance(once.box.right, Fraction)
    assert once.box.right == Fraction(9, 2)
    halves = [*PAIR, turn("t", "pair", 22.5), turn("u", "t", 67.5), square("block", "u", "4", "5")]
    kind = the_kind(facts(halves))
    assert {patch.grain_deg for patch in kind.patches} == {180}
    assert [patch.fabric for patch in kind.patches] == ["B", "A"]
    assert made(halves[:-1], "u").whole


def test_threads_turn_and_their_edges_are_measured_anew() -> None:
    steps = [*PAIR, turn("t", "pair", 30), square("block", "t", "3", "3")]
    kind = the_kind(facts(steps))
    assert {patch.grain_deg for patch in kind.patches} == {120}
    outer = {round(edge.degrees, 6) for edge in kind.bias_edges if edge.outer}
    assert outer == {30}
    assert not [edge for edge in kind.bias_edges if not edge.outer]


SLANTED = [lay("a", "A", "6", "8"), sliced("p", "a", ("left", "1"), ("right", "3"))]
SLANT = degrees(atan(2 / 8))


@pytest.mark.parametrize(
    ("piece", "side", "by"),
    [
        ("p.2", "top", 360 - SLANT),
        ("p.2", "right", 90 - SLANT),
        ("p.1", "bottom", 360 - SLANT),
        ("p.1", "left", 90 - SLANT),
    ],
)
def test_the_edge_cut_last_is_brought_level_or_upright(piece: str, side: str, by: float) -> None:
    steps = [*SLANTED, leveled("t", piece, side)]
    making = run(recipe(steps, ["t"]), Given())
    event = first(making.outcomes[-1].events, Moved)
    (cloth,) = making.table.piles["t"]
    (edge,) = cloth.cut_edges
    axis = 1 if side in ("top", "bottom") else 0
    assert float(edge.start[axis]) == pytest.approx(float(edge.end[axis]), abs=1e-12)
    place = {"top": 0, "left": 0, "right": float(cloth.box.right), "bottom": float(cloth.box.bottom)}[side]
    assert float(edge.start[axis]) == pytest.approx(place, abs=1e-12)
    assert event.motion.turn_degrees == pytest.approx(by % 360)


def test_a_slanted_side_is_leveled_where_nothing_was_cut_last() -> None:
    diamond = [*rails(2, "20"), cut("d", "set", "across", every="3", count=1, angle=45)]
    steps = [*diamond, turn("t", "d.1", 10), turn("u", "t", 350), leveled("v", "u", "left")]
    making = run(recipe(steps, ["v"]), Given())
    assert first(making.outcomes[-1].events, Moved).motion.turn_degrees == pytest.approx(315)
    assert float(making.table.piles["v"][0].box.left) == pytest.approx(0)


def test_a_unit_from_a_tube_is_squared_by_a_turn() -> None:
    """Strips of 3 1/2 in: (3 1/2 - 1/4) x sqrt 2 (trigonometry); it stands on its tip until turned by 45."""
    edges = [line(("left", at), ("right", at)) for at in ("1/4", "3 1/4")]
    steps = [
        lay("a", "A", "3 1/2", "14"),
        lay("b", "B", "3 1/2", "14"),
        face("tube", "a", "b", *edges),
        sliced("first", "tube", ("top", "0"), ("bottom", "3 1/2")),
        sliced("next", "first.2", ("bottom", "3 1/2"), ("top", "7")),
        opened("o", "next.1"),
        turn("unit", "o", 45),
    ]
    found = facts(steps, ["unit"])
    side = 3.25 * sqrt(2)
    size = (float(found.unfinished.width), float(found.unfinished.height))
    assert size == pytest.approx((side, side))
    assert {round(edge.degrees) for edge in the_kind(found).bias_edges if edge.outer} == {45}


def test_pressing_is_told_to_the_side_that_the_seam_has_after_the_turn() -> None:
    steps = [*PAIR, press("pair", "down")]
    for by, pressed in ((30, "down"), (60, "left"), (45, "left"), (200, "up"), (300, "right")):
        (seam,) = the_kind(facts([*steps, turn("t", "pair", by), square("block", "t", "2", "2")])).seams
        assert seam.pressed == pressed


def test_a_tilted_band() -> None:
    """Segments sewn in steps, the stairs sliced off along their points, leveled: a band of tilted squares."""
    steps = [
        *rails(3, "30"),
        cut("p", "set", "across", every="2 1/2", count=10),
        sew("stairs", ["p.*"], "across", align="start", step="2"),
        turn("tilted", "stairs", 315),
        square("block", "tilted", "12", "3"),
    ]
    found = facts(steps)
    assert (found.unfinished.width, found.unfinished.height) == (12, 3)
    kind = the_kind(found)
    assert {round(edge.degrees) for edge in kind.bias_edges if edge.outer} == {45}


REFUSED: dict[str, tuple[Plain, str]] = {
    "both": (
        {"by": 90, "level": "top"},
        ('steps[3].turn: A turn says one way to turn. Give "by" in degrees, or with "level" the side on which an edge '
        "is to lie level."),
    ),
    "none": (
        {},
        ('steps[3].turn: A turn says one way to turn. Give "by" in degrees, or with "level" the side on which an edge '
        "is to lie level."),
    ),
    "whole turn": ({"by": 360}, "steps[3].by: 360 can not stand here. Write a number of degrees between 0 and 360."),
    "side": (
        {"level": "up"},
        'steps[3].level: "up" can not stand here. Write "bottom", "left", "right" or "top".',
    ),
}  # fmt: skip


@pytest.mark.parametrize("keys", REFUSED)
def test_what_is_no_turn_is_refused(keys: str) -> None:
    assert refusal([*PAIR, {"make": "block", "turn": "pair", **REFUSED[keys][0]}]) == REFUSED[keys][1]


def test_a_side_that_is_not_straight_is_not_leveled() -> None:
    steps = [*rails(3, "20"), cut("p", "set", "across", every="2", count=4)]
    stairs = [*steps, sew("stairs", ["p.*"], "across", step="1"), leveled("block", "stairs", "top")]
    assert refusal(stairs) == (
        "steps[6].level: stairs has no straight edge that looks to the top. "
        'Name the side nearest to its slanted edge, or turn it "by" degrees.'
    )


def test_turns_are_said_in_words() -> None:
    making = run(recipe([*SLANTED, leveled("t", "p.2", "top"), turn("u", "t", 22.5)], ["u"]), Given())
    assert [str(making.outcomes[index].sentence) for index in (2, 3)] == [
        "Turn p.2 clockwise, by 345.96°, until the slanted edge lies level on top.",
        "Turn t 22.5° clockwise.",
    ]


def test_layers_are_counted_from_one_in_words() -> None:
    steps = [*rails(2, "6"), square("s", "set", "4", "4"), turn("block", "s", 180, layers=[0, 2])]
    making = run(recipe(steps, stack=3), Given())
    assert str(making.outcomes[-1].sentence) == "Turn s end for end, only in layers 1 and 3 (1 is on top)."
    steps[-1] = turn("block", "s", 180, layers=[3])
    assert refusal(steps, stack=3) == (
        "steps[4].layers[0]: There is no layer 4 in a stack of 3. "
        "The top layer is 0 where layers are written, and the lowest here 2."
    )
