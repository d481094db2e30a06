"""Tubes: sewn, cut into rings, each opened at another seam."""

from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely import LineString, Polygon, union_all  # type: ignore[import-untyped]  # it ships without types

from piecewright.errors import MakingError
from piecewright.geometry.motion import Point
from piecewright.making.cloth import Cloth
from piecewright.making.facts import Facts, Kind
from piecewright.making.given import Given
from piecewright.making.run import facts as facts_of_recipe
from piecewright.making.run import run
from piecewright.making.verbs.unpick import _seams_across
from tests.core.making.building import (
    Plain,
    boxes,
    cut,
    facts,
    lay,
    looped,
    press,
    rails,
    recipe,
    refusal,
    sew,
    shuffle,
    sliced,
    the_kind,
    turn,
    unpicked,
)
from tests.core.making.strategies import Sewable, sewable_recipes

TUBE = [*rails(4, "10"), looped("tube", "set", "down")]
RINGS = [*TUBE, cut("ring", "tube", "across", every="2 1/2", count=4)]


def test_a_tube_is_shorter_by_two_allowances_and_gets_them_back() -> None:
    making = run(recipe([*RINGS, unpicked("block", "ring.1", 4)]), Given())
    assert making.table.piles["tube"][0].box.height == 8
    assert making.table.piles["block"][0].box.height == Fraction(17, 2)
    found = facts([*RINGS, unpicked("block", "ring.1", 4)])
    plain = facts([*rails(4, "10"), cut("p", "set", "across", every="2 1/2", count=4)], ["p.1"])
    assert boxes(the_kind(found)) == boxes(the_kind(plain))
    assert (found.ledger.laid, found.ledger.seen) == (plain.ledger.laid, plain.ledger.seen)
    assert found.ledger.waste == plain.ledger.waste == 3 * Fraction(5, 2) * Fraction(10)


@pytest.mark.parametrize(("seam", "order"), [(1, "BCDA"), (2, "CDAB"), (3, "DABC"), (4, "ABCD")])
def test_seams_are_counted_from_the_top_and_the_tubes_own_is_the_last(seam: int, order: str) -> None:
    kind = the_kind(facts([*RINGS, unpicked("block", "ring.2", seam)]))
    assert "".join(patch.fabric for patch in kind.patches) == order
    assert [box[3:] for box in boxes(kind)] == [(0, 2, 2), (2, 2, 4), (4, 2, 6), (6, 2, 8)]
    steps = [row.step for row in kind.seams]
    assert sorted(steps) == ["set"] * (2 if seam < 4 else 3) + ["tube"] * (1 if seam < 4 else 0)


def test_tubes_round_the_other_way_are_counted_from_the_left() -> None:
    steps = [
        *rails(3, "10"),
        turn("t", "set", 270),
        looped("tube", "t", "across"),
        unpicked("block", "tube", 1),
    ]
    kind = the_kind(facts(steps))
    assert [patch.fabric for patch in kind.patches] == ["B", "C", "A"]
    assert facts(steps).unfinished.width == Fraction(13, 2)


def test_a_color_wave() -> None:
    """Rings opened one seam further each, sewn beside each other: every fabric steps up by one."""
    steps = [
        *RINGS,
        *(unpicked(f"row{number}", f"ring.{number}", number) for number in (1, 2, 3, 4)),
        sew("block", [f"row{number}" for number in (1, 2, 3, 4)], "across"),
    ]
    found = facts(steps)
    assert (found.finished.width, found.finished.height) == (8, 8)
    assert found.ledger.waste == 0
    columns: dict[float, str] = {}
    for fabric, _, left, *_ in boxes(the_kind(found)):
        columns[left] = columns.get(left, "") + fabric
    assert list(columns.values()) == ["BCDA", "CDAB", "DABC", "ABCD"]
    (bed,) = found.beds
    assert (len(bed.lanes), bed.cuts) == (4, (Fraction(5, 2),) * 4)


def assert_alike(found: Facts, before: Facts) -> None:
    """Every patch as it was, and seams wherever there were seams, in however many stretches."""
    assert patches(found) == patches(before)
    for kind, other in zip(found.kinds, before.kinds, strict=True):
        assert sewn(kind).symmetric_difference(sewn(other)).area < 1e-6


def patches(found: Facts) -> list[object]:
    return [
        (patch.fabric, patch.layer, rounded(patch.points)) for kind in found.kinds for patch in kind.patches
    ]


def sewn(kind: Kind) -> Polygon:
    """All seams, a little wide."""
    lines = [LineString([[float(x), float(y)] for x, y in (seam.start, seam.end)]) for seam in kind.seams]
    return union_all(lines).buffer(1e-3)


def rounded(points: Iterable[Point]) -> list[tuple[float, float]]:
    """To six places, a little aside, so that no fraction lies where rounding goes either way."""
    return [(round(float(x) + 1.7e-7, 6) + 0.0, round(float(y) + 1.7e-7, 6) + 0.0) for x, y in points]


@given(sewable_recipes(), st.sampled_from(["down", "across"]), st.data())
def test_opened_where_it_was_closed_a_piece_is_what_it_was(
    sewable: Sewable, axis: str, data: st.DataObject
) -> None:
    """Whatever it is sewn of: and opened at another seam, sewn again and opened at its first, as well."""
    assume(not sewable.block[0].endswith("*") and not any("layers" in step for step in sewable.steps))

    def with_steps(*steps: Plain) -> Facts:
        last = steps[-1]["make"] if steps else sewable.block[0]
        longer = replace(sewable, steps=(*sewable.steps, *steps), block=(last,))
        try:
            return facts_of_recipe(longer.recipe(), longer.given)
        except MakingError as fault:
            assume(fault.message.code != "making.no-seen-width")
            raise

    before = with_steps()
    tube = looped("tube", sewable.block[0], axis)
    with_tube = replace(sewable, steps=(*sewable.steps, tube), block=("tube",))
    making = run_or_pass(with_tube)
    count = len(_seams_across(making, 0 if axis == "across" else 1))
    assert_alike(with_steps(tube, unpicked("flat", "tube", count)), before)
    seam = data.draw(st.integers(1, count))
    there = [tube, unpicked("other", "tube", seam), looped("again", "other", axis)]
    back = unpicked("flat", "again", count - seam if seam < count else count)
    assert_alike(with_steps(*there, back), before)


def run_or_pass(sewable: Sewable) -> Cloth:
    try:
        return run(sewable.recipe(), sewable.given).table.piles["tube"][0]
    except MakingError as fault:
        assume(fault.message.code != "making.no-seen-width")
        raise


def test_pressing_goes_with_the_seams() -> None:
    steps = [*TUBE, press("tube", "down"), press("set.2", "up"), unpicked("block", "tube", 1)]
    seams = the_kind(facts(steps)).seams
    assert [
        (seam.step, seam.start[1], seam.pressed) for seam in sorted(seams, key=lambda row: row.start[1])
    ] == [
        ("set", 2, "up"),
        ("set", 4, None),
        ("tube", 6, "down"),
    ]


def test_rings_of_a_stack_are_shuffled() -> None:
    kind = the_kind(facts([*RINGS, shuffle("s", "ring.1", 1), unpicked("block", "s", 1)], stack=3))
    assert {patch.layer for patch in kind.patches} == {1}


REFUSED: dict[str, tuple[list[Plain], str]] = {
    "ragged": (
        [lay("a", "A", "6", "8"), sliced("p", "a", ("left", "1"), ("right", "3")), looped("block", "p.2", "down")],
        "steps[2].loop: p.2 is not a rectangle, so its ends do not make a tube. Square p.2 up first.",
    ),
    "all seam": (
        [lay("a", "A", "1/2", "8"), looped("block", "a", "down")],
        ("steps[1].loop: Sewing a hides a patch of fabric A in the seam: nothing of it is seen. "
        "A patch sewn on both sides must be wider than 1/2 in."),
    ),
    "along": (
        [*TUBE, cut("block", "tube", "down", into=2)],
        ("steps[6].axis: tube is a tube, which is cut square to the way it closes. "
        "Cut it along the other axis, without a lean; or unpick one of its seams first."),
    ),
    "leaning": (
        [*TUBE, cut("block", "tube", "across", into=2, angle=30)],
        ("steps[6].angle: tube is a tube, which is cut square to the way it closes. "
        "Cut it along the other axis, without a lean; or unpick one of its seams first."),
    ),
    "sewn": (
        [*TUBE, lay("e", "E", "2", "10"), sew("block", ["tube", "e"], "down")],
        "steps[7].sew[0]: tube is a tube. Unpick one of its seams first.",
    ),
    "turned": (
        [*TUBE, turn("block", "tube", 90)],
        "steps[6].turn: tube is a tube. Unpick one of its seams first.",
    ),
    "finished": (
        [*rails(2, "9"), looped("block", "set", "down")],
        "block[0]: block is a tube. Unpick one of its seams first.",
    ),
    "flat": (
        [*rails(2, "9"), unpicked("block", "set", 1)],
        'steps[3].unpick: set is not a tube. Sew its ends together with "loop" first.',
    ),
    "too many": (
        [*TUBE, unpicked("block", "tube", 5)],
        ("steps[6].seam: There is no seam 5 right across the tube. "
        "tube has 4 seams right across, the last of them its own."),
    ),
    "none": (
        [*TUBE, unpicked("block", "tube", 0)],
        "steps[6].seam: 0 can not stand here. Write a whole number from 1 up.",
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", REFUSED)
def test_what_is_no_tube_is_refused(name: str) -> None:
    steps, said = REFUSED[name]
    assert refusal(steps, "block.1" if "cut" in steps[-1] else "block") == said


def test_tubes_are_said_in_words() -> None:
    making = run(recipe([*RINGS, unpicked("row", "ring.2", 2)], ["row"]), Given())
    assert [str(making.outcomes[index].sentence) for index in (5, 7)] == [
        "Sew the top of set to the bottom, right sides together: a tube 8 in round.",
        "Unpick seam 2 of ring.2: it measures 2 1/2 x 8 1/2 in unfinished.",
    ]
    both = run(recipe([*RINGS, unpicked("row", "ring.*", 2)], ["row.1"]), Given())
    assert str(both.outcomes[7].sentence) == (
        "Unpick seam 2 of ring.1, ring.2, ring.3 and ring.4: they measure 2 1/2 x 8 1/2 in unfinished."
    )
