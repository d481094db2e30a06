"""Partial seams: pieces sewn round a middle, the first seam left open at one end and finished last."""

from fractions import Fraction
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from piecewright.making.expressions import Expression
from piecewright.making.facts import Facts
from piecewright.making.given import Given
from piecewright.making.goals import Finish
from piecewright.making.matters import matters
from piecewright.making.nudging import spot_text
from piecewright.making.partial_seams import laid_along, laid_flat
from piecewright.making.recipe import Recipe
from piecewright.making.run import facts as facts_of_recipe
from piecewright.making.run import run
from piecewright.making.solve import solve
from piecewright.units.sizes import Finished
from tests.core.making.building import (
    Plain,
    boxes,
    cut,
    facts,
    finish,
    lay,
    press,
    recipe,
    refusal,
    sew,
    shuffle,
    square,
    the_kind,
    turn,
)

SEAM = Fraction(1, 4)
SIDES = ("top", "right", "bottom", "left")


def spiral(
    middle: tuple[Fraction, Fraction],
    widths: tuple[Fraction, Fraction, Fraction, Fraction],
    leave: Fraction,
    start: int = 0,
    forward: int = 1,
    turns: tuple[int, int, int] = (0, 0, 0),
) -> list[Plain]:
    """Steps that sew four strips of some finished widths (top, right, bottom, left) round a finished middle.

    The strip at side `start` comes first and the others follow, clockwise where `forward` is 1; between them the
    work is turned by quarters.
    """
    steps = [lay("m", "E", str(middle[1] + 2 * SEAM), str(middle[0] + 2 * SEAM))]
    piece, turned = "m", 0
    for index in range(4):
        side = (start + forward * index) % 4
        length = middle[side % 2] + widths[(side - forward) % 4]
        fabric = "ABCD"[side]
        strip, upright = f"s{index}", f"u{index}"
        steps.append(lay(strip, fabric, str(widths[side] + 2 * SEAM), str(length + 2 * SEAM)))
        lying = (side + turned) % 4
        if lying % 2:
            steps.append(turn(upright, strip, 90))
            strip = upright
        axis = "across" if lying % 2 else "down"
        pair = [strip, piece] if SIDES[lying] in ("top", "left") else [piece, strip]
        keys = {"leave": [SIDES[(lying - forward) % 4], str(leave)]} if index == 0 else {}
        piece = f"w{index}"
        steps.append(sew(piece, pair, axis, **keys))
        if index < 3 and turns[index]:
            turned = (turned + turns[index]) % 4
            steps.append(turn(f"t{index}", piece, 90 * turns[index]))
            piece = f"t{index}"
    steps.append(finish("done", piece))
    steps.append(turn("block", "done", 360 - 90 * turned) if turned else turn("block", "done", 180))
    if not turned:
        steps[-2:] = [finish("block", piece)]
    return steps


def rectangles(
    middle: tuple[Fraction, Fraction], widths: tuple[Fraction, ...], forward: int
) -> dict[str, tuple[float, float, float, float]]:
    """Where each finished piece lies: left, top, right, bottom."""
    top, right, bottom, left = widths
    width, height = left + middle[0] + right, top + middle[1] + bottom
    x1, x2, y1, y2 = left, left + middle[0], top, top + middle[1]
    if forward == 1:
        found = {
            "A": (0, 0, x2, y1),
            "B": (x2, 0, width, y2),
            "C": (x1, y2, width, height),
            "D": (0, y1, x1, height),
        }
    else:
        found = {
            "A": (x1, 0, width, y1),
            "B": (x2, y1, width, height),
            "C": (0, y2, x2, height),
            "D": (0, 0, x1, y2),
        }
    found["E"] = (x1, y1, x2, y2)
    return {fabric: tuple(map(float, box)) for fabric, box in found.items()}  # type: ignore[misc]


def seen(found: Facts) -> dict[str, tuple[float, ...]]:
    return {fabric: tuple(box) for fabric, _, *box in boxes(the_kind(found))}


@pytest.mark.parametrize(("a", "b"), [("6", "2"), ("4", "3"), ("7 1/2", "1"), ("5", "4")])
def test_four_rectangles_round_a_square_finish_as_a_square(a: str, b: str) -> None:
    """The partial-seam block: rectangles a x b round a square of a - b give a square of a + b."""
    long, short = Expression.parse(a).evaluate({}), Expression.parse(b).evaluate({})
    inner = long - short
    found = facts(spiral((inner, inner), (short,) * 4, inner / 2 + SEAM))
    assert found.finished == Finished(long + short, long + short)
    assert seen(found) == rectangles((inner, inner), (short,) * 4, 1)
    assert found.ledger.waste == 0
    assert found.ledger.laid == found.ledger.seen + found.ledger.allowance
    lengths = {seam.step: seam.length for seam in the_kind(found).seams}
    assert lengths == dict.fromkeys(("w0", "w1", "w2", "w3"), long)


eighths = st.integers(4, 30).map(lambda count: Fraction(count, 8))
quarters = st.integers(0, 3)


@given(
    st.tuples(eighths, eighths),
    st.tuples(eighths, eighths, eighths, eighths),
    st.fractions(Fraction(1, 10), Fraction(9, 10), max_denominator=10),
    quarters,
    st.sampled_from([1, -1]),
    st.tuples(quarters, quarters, quarters),
)
def test_a_spiral_of_unequal_strips(
    middle: tuple[Fraction, Fraction],
    widths: tuple[Fraction, Fraction, Fraction, Fraction],
    share: Fraction,
    start: int,
    forward: int,
    turns: tuple[int, int, int],
) -> None:
    """Whatever the widths, the first side, the way round, the turns between and the length left open."""
    seam = middle[start % 2] + 2 * SEAM
    leave = SEAM + share * (seam - 2 * SEAM)
    found = facts(spiral(middle, widths, leave, start, forward, turns))
    assert seen(found) == rectangles(middle, widths, forward)
    assert (found.ledger.waste, found.warnings) == (0, ())
    assert found.ledger.laid == found.ledger.seen + found.ledger.allowance


@pytest.mark.parametrize(
    ("lost", "start", "forward"),
    list(product([Fraction(1, 32), Fraction(-1, 32), Fraction(1, 64)], range(4), [1, -1])),
)
def test_with_a_seam_of_ones_own_the_ends_are_eased(lost: Fraction, start: int, forward: int) -> None:
    """Each strip meets an edge that is `lost` shorter or longer than planned: what differs is trimmed or hidden."""
    steps = spiral((Fraction(4), Fraction(4)), (Fraction(2),) * 4, Fraction(2), start, forward)
    found = facts_of_recipe(recipe(steps), Given(lost=lost))
    ledger = found.ledger
    assert ledger.laid == ledger.seen + ledger.allowance + ledger.waste
    assert ledger.waste > 0
    planned, sewn_so = Fraction(17, 2), Fraction(17, 2) - 2 * lost
    for size in (found.unfinished.width, found.unfinished.height):
        assert min(planned, sewn_so) <= size <= max(planned, sewn_so)
    assert {warning.code for warning in found.warnings} <= {"eased", "finish-eased"}


def test_a_piece_with_a_partial_seam_lies_flat_as_it_will_when_finished() -> None:
    steps = spiral((Fraction(4), Fraction(4)), (Fraction(2),) * 4, Fraction(3, 2))
    making = run(recipe(steps), Given())
    first, last, block = (making.table.piles[name][0] for name in ("w0", "w3", "block"))
    assert first.state == last.state == "partial"
    assert (first.box.width, first.box.height) == (Fraction(13, 2), Fraction(13, 2))
    assert last.box == block.box
    areas = [float(sum(patch.seen.area for patch in cloth.patches)) for cloth in (laid_flat(last), block)]
    assert areas[0] == areas[1] == 8.5 * 8.5
    (stretch, _) = laid_along(first)
    assert (stretch.start, stretch.end) == ((Fraction(7, 2), Fraction(9, 4)), (2, Fraction(9, 4)))
    assert laid_along(last)[0].end == (0, Fraction(9, 4))


def test_pieces_sewn_round_may_themselves_be_sewn() -> None:
    """The strip that is left open is a strip set: its own seam runs into the seam that is finished."""
    steps = spiral((Fraction(4), Fraction(4)), (Fraction(2),) * 4, Fraction(2))
    pieced = [
        lay("p", "A", "2 1/2", "3 1/2"),
        lay("q", "F", "2 1/2", "3 1/2"),
        sew("s0", ["p", "q"], "across"),
    ]
    steps[1:2] = pieced
    found = facts(steps)
    assert seen(found)["F"] == (3, 0, 6, 2)
    assert found.ledger.waste == 0
    lengths = {seam.step: seam.length for seam in the_kind(found).seams}
    assert (lengths["s0"], lengths["w0"]) == (2, 6)


def test_a_round_about_a_round() -> None:
    inner = spiral((Fraction(2), Fraction(2)), (Fraction(1),) * 4, Fraction(1))
    outer = spiral((Fraction(4), Fraction(4)), (Fraction(1),) * 4, Fraction(2), 2, -1)
    renamed = [
        {
            key: _renamed(value) if key in ("make", "sew", "turn", "finish") else value
            for key, value in step.items()
        }
        for step in outer[1:]
    ]
    inner[-1] = finish("Xm", "w3")
    renamed[-1]["make"] = "block"
    found = facts([*inner, *renamed])
    assert found.finished == Finished(Fraction(6), Fraction(6))
    assert found.ledger.waste == 0
    assert len(the_kind(found).patches) == 9


def _renamed(value: object) -> object:
    return [f"X{name}" for name in value] if isinstance(value, list) else f"X{value}"


def test_pressing_goes_with_the_whole_seam() -> None:
    steps = spiral((Fraction(4), Fraction(4)), (Fraction(2),) * 4, Fraction(2))
    found = facts([*steps, press("w0", "up"), press("w3", "left")])
    assert {seam.step: seam.pressed for seam in the_kind(found).seams} == {
        "w0": "up",
        "w1": None,
        "w2": None,
        "w3": "left",
    }


def test_layers_are_shuffled_while_a_seam_is_open() -> None:
    steps = spiral((Fraction(4), Fraction(4)), (Fraction(2),) * 4, Fraction(2))
    at = next(index for index, step in enumerate(steps) if step["make"] == "w0")
    steps.insert(at + 1, shuffle("z", "w0", 1))
    steps[at + 4]["sew"] = ["z", "u1"]
    patches = the_kind(facts(steps, stack=3)).patches
    assert {patch.fabric: patch.layer for patch in patches} == {"A": 1, "E": 1, "B": 0, "C": 0, "D": 0}


def test_parts_are_finished_all_at_once() -> None:
    steps = [
        lay("m", "E", "4 1/2", "4 1/2"),
        lay("a", "A", "2 1/2", "6 1/2"),
        sew("w", ["a", "m"], "down", leave=["left", "2"]),
        lay("d", "D", "2 1/2", "4 1/2"),
        turn("u", "d", 90),
        sew("x", ["u", "w"], "across"),
        turn("y", "x", 180),
        finish("done", "y"),
        turn("block", "done", 180),
    ]
    found = facts(steps)
    assert found.finished == Finished(Fraction(6), Fraction(6))
    assert seen(found) == {"A": (0, 0, 6, 2), "D": (0, 2, 2, 6), "E": (2, 2, 6, 6)}


ROUND = spiral((Fraction(4), Fraction(4)), (Fraction(2),) * 4, Fraction(2))
OPEN = ROUND[:3]
"""Strip s0 above the middle m, the seam of w0 open at its left end."""

REFUSED: dict[str, tuple[list[Plain], str]] = {
    "side": (
        [*OPEN[:2], sew("block", ["s0", "m"], "down", leave=["top", "2"])],
        "steps[2].leave[0]: The seam has no end at the top. Leave it open at the left or at the right.",
    ),
    "too long": (
        [*OPEN[:2], sew("block", ["s0", "m"], "down", leave=["left", "4 1/4"])],
        ("steps[2].leave[1]: A seam of 4 1/2 in can not be left open for 4 1/4 in. "
        "Leave more than 1/4 in open and less than 4 1/4 in."),
    ),
    "too short": (
        [*OPEN[:2], sew("block", ["s0", "m"], "down", leave=["left", "1/4"])],
        ("steps[2].leave[1]: A seam of 4 1/2 in can not be left open for 1/4 in. "
        "Leave more than 1/4 in open and less than 4 1/4 in."),
    ),
    "nothing": (
        [*OPEN[:2], sew("block", ["s0", "m"], "down", leave=["left", "0"])],
        ("steps[2].leave[1]: A seam of 4 1/2 in can not be left open for 0 in. "
        "Leave more than 1/4 in open and less than 4 1/4 in."),
    ),
    "narrow": (
        [lay("a", "A", "2", "3"), lay("b", "B", "2", "1/2"), sew("block", ["a", "b"], "down", leave=["left", "1/4"])],
        "steps[2].leave: A seam of 1/2 in is too short to be left open at one end. Leave \"leave\" out.",
    ),
    "even": (
        [lay("a", "A", "2", "3"), lay("b", "B", "2", "3"), sew("block", ["a", "b"], "down", leave=["left", "1"])],
        ("steps[2].leave: a and b end alike at the left, so nothing can be sewn in there. "
        "Leave \"leave\" out, or let one of them stand out there."),
    ),
    "three": (
        [lay("c", "C", "2", "3"), *OPEN[:2], sew("block", ["s0", "m", "c"], "down", leave=["left", "1"])],
        ("steps[3].leave: A seam left open at one end joins two pieces, and these are 3. "
        "Name two; sew the others on by steps of their own."),
    ),
    "flush": (
        [*OPEN[:2], sew("block", ["s0", "m"], "down", leave=["left", "1"], flush=True)],
        "steps[2].leave: A seam left open at one end is sewn plainly. Leave \"match\", \"edge\" and \"flush\" out.",
    ),
    "the flap's side": (
        [*OPEN, lay("e", "E", "2", "6 1/2"), sew("block", ["e", "w0"], "down")],
        "steps[4].sew: The top of w0 lies beyond its partial seam. Close it with \"finish\" first.",
    ),
    "two at once": (
        [*ROUND[:5], lay("e", "E", "2", "6 1/2"), sew("block", ["w0", "u1", "e"], "across")],
        ("steps[6].sew: w0 has a partial seam, so it is sewn to one flat piece at a time. "
        "Name it and one other piece; sew the others on by steps of their own."),
    ),
    "trimmed": (
        [*ROUND[:5], turn("v", "w0", 180), sew("block", ["u1", "v"], "across", flush=True)],
        ("steps[6].sew: v has a partial seam, so it is sewn plainly, and trims others only where it is named first. "
        "Close it with \"finish\" first."),
    ),
    "cut": (
        [*OPEN, cut("block", "w0", "across", into=2)],
        "steps[3].cut: w0 has a partial seam. Close it with \"finish\" first.",
    ),
    "squared": (
        [*OPEN, square("block", "w0", "4", "4")],
        "steps[3].square: w0 has a partial seam. Close it with \"finish\" first.",
    ),
    "leaning": (
        [*OPEN, turn("block", "w0", 30)],
        ("steps[3].turn: w0 has a partial seam. "
        "Turn it by 90, 180 or 270 in all layers, or close the seam with \"finish\" first."),
    ),
    "block": (OPEN, "block[0]: w0 has a partial seam. Close it with \"finish\" first."),
    "missing": (
        [*OPEN, finish("block", "w0")],
        ("steps[3].finish: Along the partial seam of w0 one edge is 4 1/2 in long and the other 6 1/2 in. "
        "Sew in what is missing, or make both 4 1/2 in long."),
    ),
    "stands out": (
        [*ROUND[:3], lay("d", "D", "2 1/2", "6"), turn("u", "d", 90), sew("x", ["u", "w0"], "across", align="end"),
         finish("block", "x")],
        ("steps[6].finish: The edge beside the open end of the seam of x is not one straight line. "
        "Sew the pieces in there with even ends."),
    ),
    "flat": (
        [*OPEN[:2], finish("block", "m")],
        "steps[2].finish: m has no partial seam. Leave a seam open with \"leave\" where it is sewn.",
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", REFUSED)
def test_what_a_partial_seam_does_not_allow_is_refused(name: str) -> None:
    steps, said = REFUSED[name]
    last = steps[-1]["make"]
    assert refusal(steps, f"{last}.1" if "cut" in steps[-1] else last) == said


def test_partial_seams_are_said_in_words() -> None:
    making = run(recipe(ROUND), Given())
    assert str(making.outcomes[2].sentence) == (
        "Sew s0 and m together, each below the one before, right ends even; leave the seam open for 2 in "
        "from its left end: w0 measures 6 1/2 x 6 1/2 in unfinished."
    )
    assert (
        str(making.outcomes[-1].sentence)
        == "Finish the partial seam of w3: it measures 8 1/2 x 8 1/2 in unfinished."
    )


def test_strips_round_a_middle_are_beds_of_their_own() -> None:
    assert [(bed.step, len(bed.lanes)) for bed in facts(ROUND).beds] == [
        ("m", 1),
        ("s0", 1),
        ("s1", 1),
        ("s2", 1),
        ("s3", 1),
    ]
    assert Recipe.from_plain(recipe(ROUND).plain) == recipe(ROUND)


@settings(max_examples=20)
@given(st.integers(50, 100), quarters, st.sampled_from([1, -1]))
def test_a_finished_size_can_be_asked_for(eighth: int, start: int, forward: int) -> None:
    """The cuts that a larger or smaller block takes, found exactly from plain numbers."""
    size = Fraction(eighth, 8)
    asked = recipe(spiral((Fraction(4), Fraction(4)), (Fraction(2),) * 4, Fraction(2), start, forward))
    found = solve(asked, Given(), Finish(size, size))
    assert facts_of_recipe(found.recipe, found.given).finished == Finished(size, size)


def test_the_length_left_open_is_as_one_likes() -> None:
    marks = {str(spot_text(row.length.place)): row.mark for row in matters(recipe(ROUND), Given())}
    assert marks["steps[2].leave[1]"] == "as you like"
    assert {mark for place, mark in marks.items() if "leave" not in place} == {"exact"}
