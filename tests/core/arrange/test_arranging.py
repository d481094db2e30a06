"""Arrangements against brute force on small walls, and what must hold of every one."""

from fractions import Fraction
from itertools import permutations
from random import Random

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from piecewright.arrange.arranging import Layout, Scatter, Wish, arrange, improve
from piecewright.arrange.filling import Filling
from piecewright.arrange.looks import Looks
from piecewright.arrange.room import Hanging, room_of
from piecewright.arrange.scattering import better, scatter, touching
from piecewright.arrange.spreading import off, spread
from piecewright.arrange.targets import Bands, Checker, FromCenter, Places, Rings, Shape, Toward
from piecewright.edit.arranging import lock_blocks
from piecewright.edit.footprint import all_laid
from piecewright.edit.registry import Cell, apply
from piecewright.model.design import Design
from piecewright.model.quilt import Lattice, Placement, Quilt, Row, turned_by
from piecewright.model.setting import Sashing
from piecewright.model.value import Letters
from piecewright.plan.layout import layout
from tests.core.edit.quilts import RAILS, THIRDS, at, design, drawn, laid
from tests.core.strategies import designs, randoms

SPREADS = (
    Toward(30),
    FromCenter(),
    FromCenter(inward=True),
    Rings(),
    Bands(),
    Checker(),
    Shape((Cell(1, 0),)),
)
WISHES: tuple[Wish, ...] = (
    *SPREADS,
    Scatter(),
    Layout("barn raising"),
    Layout("straight furrow", other=True),
    Layout("streak of lightning"),
    Layout("basket weave"),
    Layout("alternate turns"),
)


def rails(columns: int, rows: int, random: Random) -> Design:
    """A wall of rails, each in fabrics drawn from three, turned anyhow."""
    made = design(columns, rows)
    drawn_rows = tuple(
        Row(
            row,
            tuple(
                Placement(
                    column,
                    RAILS,
                    random.choice((0, 90, 180, 270)),
                    fabrics=Letters({letter: (random.choice(("f1", "f2", "f3")),) for letter in "ABC"}),
                )
                for column in range(columns)
            ),
        )
        for row in range(rows)
    )
    return made.with_quilt(Quilt("Rails", Lattice(Fraction(6), columns, rows), drawn_rows))


def look_of(made: Design, placement: Placement, columns: int = 1, rows: int = 1) -> list[str]:
    """What a block's four edges show, as fabric numbers two inches apart."""
    look = Looks(made).of(placement, columns, rows)
    names = [fabric.id for fabric in made.fabrics]
    return ["".join(names[number][1:] for number in edge[::4]) for edge in look.edges_turned(placement.turn)]


def test_edges_show_what_is_cut_there() -> None:
    made = design()
    fabrics = Letters({"A": ("f1",), "B": ("f2",), "C": ("f3",)})
    assert look_of(made, Placement(0, RAILS, 0, fabrics=fabrics)) == ["111", "123", "333", "123"]
    assert look_of(made, Placement(0, RAILS, 90, fabrics=fabrics)) == ["321", "111", "321", "333"]
    assert look_of(made, Placement(0, RAILS, 180, fabrics=fabrics)) == ["333", "321", "111", "321"]
    assert look_of(made, Placement(0, RAILS, 270, fabrics=fabrics)) == ["123", "333", "123", "111"]


def test_the_light_side_turns_with_the_block() -> None:
    made = design()
    fabrics = Letters({"A": ("f1",), "B": ("f2",), "C": ("f3",)})  # f1 is lighter than f3
    look = Looks(made).of(Placement(0, RAILS, fabrics=fabrics), 1, 1)
    assert look.lean[0] == pytest.approx(0)
    assert look.lean[1] < 0
    assert look.lean_turned(90)[0] > 0
    assert look.lean_turned(180)[1] > 0
    assert look.lean_turned(270)[0] < 0


@settings(max_examples=60, deadline=None)
@given(random=randoms, wish=st.sampled_from(SPREADS))
def test_no_order_of_a_few_blocks_comes_nearer(random: Random, wish: Toward) -> None:
    room = room_of(rails(3, 2, random))
    least = min(off(room, wish, order) for order in permutations(range(6)))
    assert spread(room, wish, 1).off == pytest.approx(least, abs=1e-9)


@settings(max_examples=40, deadline=None)
@given(made=designs(), random=randoms, wish=st.sampled_from(WISHES), turning=st.booleans())
def test_arranging_only_exchanges_and_turns_what_is_free(
    made: Design, random: Random, wish: Wish, turning: bool
) -> None:
    there = all_laid(made, made.quilt)
    covered = layout(made).covered()
    if there and covered.max() <= 1:
        made = lock_blocks(made, cells=at(*{one[:2] for one in random.sample(there, len(there) // 3 + 1)}))
    answer = arrange(made, wish, seed=random.randrange(9), turning=turning)
    assert answer.score.text()
    if answer.call is None or covered.max() > 1:
        return
    after = apply(made, answer.call)
    was, now = all_laid(made, made.quilt), all_laid(after, after.quilt)
    assert {one for one in was if one.placement.locked} <= set(now)
    assert sorted(_loose(one.placement, turning) for one in was) == sorted(
        _loose(one.placement, turning) for one in now
    )
    assert sorted(one[:4] for one in was) == sorted(one[:4] for one in now)
    assert arrange(after, wish, seed=3, turning=False).proven or isinstance(wish, Scatter)


def _loose(placement: Placement, turning: bool) -> str:
    """A placed block but for its place and, where it may be turned, its turn."""
    return repr(placement.changed(column=0, turn=0 if turning else placement.turn))


@settings(max_examples=30, deadline=None)
@given(random=randoms)
def test_touching_is_what_walking_along_every_edge_finds(random: Random) -> None:
    made = rails(3, 3, random)
    room = room_of(made)
    inch = 6 / 12
    edges = {
        one[:2]: Looks(made).of(one.placement, 1, 1).edges_turned(one.placement.turn)
        for one in all_laid(made, made.quilt)
    }
    met = 0.0
    for (column, row), (_, right, bottom, _) in edges.items():
        for other, mine, theirs in (((column + 1, row), right, 3), ((column, row + 1), bottom, 0)):
            if other in edges:
                met += inch * float((mine == edges[other][theirs]).sum())
    assert touching(room, room.now) == pytest.approx(met)


def cost_of(wall: Filling, order: tuple[int, ...]) -> float:
    """What a hanging without turns costs."""
    hanging = Hanging(order, tuple(wall.room.items[item].laid.placement.turn for item in order))
    wall.hang(hanging)
    return touching(wall.room, hanging) + wall.closeness()


@settings(max_examples=8, deadline=None)
@given(random=randoms, size=st.sampled_from(((2, 2), (5, 1))))
def test_scattering_gets_better_and_comes_near_the_best_of_a_few(
    random: Random, size: tuple[int, int]
) -> None:
    room = room_of(rails(*size, random), turning=False)
    wall = Filling(room, Random(0))
    best = min(cost_of(wall, order) for order in permutations(range(len(room.items))))
    first = scatter(room, 5)
    assert first.touching == pytest.approx(touching(room, first.hanging))
    costs = [found.cost for found in better(room, first, 5, 40)]
    assert costs == sorted(costs, reverse=True)
    assert best - 1e-9 <= costs[-1] <= best * 1.05


def test_a_wall_of_unlike_rails_comes_out_with_few_touching() -> None:
    made = rails(10, 10, Random(4))
    room = room_of(made)
    first = scatter(room, 1)
    assert first.touching < touching(room, room.now) / 2
    found = list(better(room, first, 1, 3))
    assert found[-1].cost < first.cost
    assert [one.hanging for one in better(room, first, 1, 3)] == [one.hanging for one in found]
    answers = list(improve(made, seed=1, rounds=3))
    assert answers[-1].call == room.call(found[-1].hanging)
    assert answers[0].call == arrange(made, Scatter(), seed=1).call


def test_blocks_of_unlike_size_keep_to_their_places() -> None:
    made = laid("rt.o..", "o-m-..", "rr--..")
    answer = arrange(made, Scatter(), seed=2)
    after = made if answer.call is None else apply(made, answer.call)
    for one, other in zip(
        sorted(one[:4] for one in all_laid(made, made.quilt)),
        sorted(one[:4] for one in all_laid(after, after.quilt)),
        strict=True,
    ):
        assert one == other


def test_barn_raising_turns_the_light_sides_to_the_middle() -> None:
    letters = Letters({"A": ("f1",), "B": ("f2",), "C": ("f3",)})
    rows = tuple(
        Row(row, tuple(Placement(column, RAILS, fabrics=letters) for column in range(4))) for row in range(4)
    )
    made = design(4, 4).with_quilt(Quilt("Q", Lattice(Fraction(6), 4, 4), rows))
    room = room_of(made)
    answer = arrange(made, Layout("barn raising"))
    assert answer.call is not None
    after = room_of(apply(made, answer.call))
    for item in after.items:
        x, y = item.look.lean_turned(item.laid.placement.turn)
        assert x * (1.5 - item.laid.column) + y * (1.5 - item.laid.row) > 0
    assert arrange(made, Layout("barn raising", other=True)).call != answer.call
    assert len(room.items) == 16


def test_a_basket_weave_turns_every_second_block_a_quarter() -> None:
    answer = arrange(laid("rrr...", "rrr..."), Layout("basket weave"))
    assert answer.call is not None
    assert drawn(apply(laid("rrr...", "rrr..."), answer.call)) == ("rRr...", "RrR...")


def test_blocks_longer_than_wide_are_turned_half_round_at_most() -> None:
    answer = arrange(laid("tt....", "--...."), Layout("basket weave"))
    assert answer.call is None
    assert answer.score.text() == "1 block cannot be turned so: longer than wide, or turning was not allowed."
    turned = arrange(laid("tt....", "--...."), Layout("alternate turns"))
    assert turned.call is not None
    after = apply(laid("tt....", "--...."), turned.call)
    assert [one.placement.turn for one in all_laid(after, after.quilt)] == [0, turned_by(0, 180)]
    assert all(one.placement.block == THIRDS for one in all_laid(after, after.quilt))


def test_light_goes_where_it_was_asked() -> None:
    made = rails(6, 1, Random(1))
    answer = arrange(made, Toward(0))
    after = made if answer.call is None else apply(made, answer.call)
    light = [item.look.light for item in room_of(after).items]
    assert light == sorted(light)
    assert Rings().targets(square(3)).tolist() == [1, 1, 1, 1, 0, 1, 1, 1, 1]
    assert Checker().targets(square(2)).tolist() == [1, 0, 0, 1]
    assert Bands(45, 1).targets(square(3)).tolist() == [1, 0, 1, 0, 1, 0, 1, 0, 1]


def square(side: int) -> Places:
    """So many places in a square, six inches apart."""
    cells = np.array([(x, y, 1, 1) for y in range(side) for x in range(side)])
    return Places(cells, cells[:, :2] * 6.0 + 3, np.full((side * side, 2), 6.0), 6.0)


def on_point(columns: int, rows: int) -> Design:
    """Rails on point, all places taken."""
    made = design()
    lattice = Lattice(Fraction(6), columns, rows, "on point")
    letters = Letters({"A": ("f1",), "B": ("f2",), "C": ("f3",)})
    hung = tuple(
        Row(row, placed)
        for row in range(lattice.down)
        if (
            placed := tuple(
                Placement(column, RAILS, fabrics=letters)
                for column in range(lattice.across)
                if lattice.holds(column, row)
            )
        )
    )
    return made.with_quilt(Quilt("On point", lattice, hung))


def test_on_point_the_light_lies_where_it_is_asked_on_the_quilt() -> None:
    made = on_point(3, 3)
    room = room_of(made)
    assert len(room.items) == 13
    across = Toward(0).targets(room.places)
    order = np.argsort(room.places.middles[:, 0], kind="stable")
    assert (np.diff(across[order]) >= -1e-9).all()
    answer = arrange(made, Layout("barn raising"))
    after = made if answer.call is None else apply(made, answer.call)
    for item, middle in zip(room_of(after).items, room_of(after).places.centered, strict=True):
        x, y = item.look.lean_turned(item.laid.placement.turn)
        toward = (x - y) * -middle[0] + (x + y) * -middle[1]
        others = [
            (a - b) * -middle[0] + (a + b) * -middle[1] for a, b in map(item.look.lean_turned, item.turns)
        ]
        assert toward == pytest.approx(max(others))


def test_blocks_parted_by_sashing_do_not_touch() -> None:
    made = rails(4, 4, Random(3))
    quilt = made.quilt
    sashed = made.with_quilt(quilt.changed(sashing=Sashing("f2", Fraction(1), Fraction(1))))
    assert touching(room_of(made), room_of(made).now) > 0
    assert touching(room_of(sashed), room_of(sashed).now) == 0
    only_rows = made.with_quilt(quilt.changed(sashing=Sashing("f2", Fraction(0), Fraction(1))))
    assert (
        0 < touching(room_of(only_rows), room_of(only_rows).now) < touching(room_of(made), room_of(made).now)
    )
    first = scatter(room_of(sashed), 1)
    assert first.touching == 0


def test_nothing_free_is_said() -> None:
    assert arrange(design(), Scatter()).score.text().startswith("Nothing here may be moved")
