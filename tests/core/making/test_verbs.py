"""Laying, sewing, turning, shuffling and pressing: where cloth comes to lie, and what is refused in words."""

from fractions import Fraction

import pytest

from piecewright.making.given import Given
from piecewright.making.run import run
from tests.core.making.building import (
    PAIR,
    A,
    B,
    boxes,
    cut,
    facts,
    lay,
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


def test_sewn_down_the_first_lies_on_top() -> None:
    found = facts(PAIR, ["pair"])
    assert boxes(the_kind(found)) == [("A", 0, 0, 0, 5.5, 2.5), ("B", 0, 0, 2.5, 5.5, 4)]
    (seam,) = the_kind(found).seams
    assert (seam.start, seam.end, seam.length) == ((0, 2.5), (5.5, 2.5), 5.5)


def test_sewn_across_the_first_lies_left() -> None:
    found = facts(
        [lay("a", "A", "4", "3"), lay("b", "B", "4", "2"), sew("pair", ["a", "b"], "across")], ["pair"]
    )
    assert boxes(the_kind(found)) == [("A", 0, 0, 0, 2.5, 3.5), ("B", 0, 2.5, 0, 4, 3.5)]


def test_each_seam_takes_its_allowance_from_both_sides() -> None:
    found = facts(PAIR, ["pair"])
    assert (found.unfinished.width, found.unfinished.height) == (6, Fraction(9, 2))
    narrow = facts(PAIR, ["pair"], seam="1/8")
    assert (narrow.unfinished.height, narrow.finished.height) == (Fraction(19, 4), Fraction(9, 2))


@pytest.mark.parametrize(
    ("by", "expected"),
    [
        (90, [("B", 0, 0, 0, 1.5, 5.5), ("A", 0, 1.5, 0, 4, 5.5)]),
        (180, [("B", 0, 0, 0, 5.5, 1.5), ("A", 0, 0, 1.5, 5.5, 4)]),
        (270, [("A", 0, 0, 0, 2.5, 5.5), ("B", 0, 2.5, 0, 4, 5.5)]),
    ],
)
def test_a_turn_is_clockwise_on_screen(by: int, expected: list[object]) -> None:
    kind = the_kind(facts([*PAIR, turn("block", "pair", by)]))
    assert boxes(kind) == expected
    assert {patch.grain_deg for patch in kind.patches} == {(90 + by) % 360}


@pytest.mark.parametrize(("grain", "degrees"), [("crosswise", 90), ("lengthwise", 0), ("bias", 45)])
def test_a_strip_has_its_lengthwise_thread_where_its_grain_says(grain: str, degrees: int) -> None:
    kind = the_kind(facts([lay("block", "A", "3", "6", grain=grain)]))
    assert kind.patches[0].grain_deg == degrees
    assert [round(edge.degrees) for edge in kind.bias_edges] == ([45] * 4 if grain == "bias" else [])
    assert all(edge.outer for edge in kind.bias_edges)


UNLIKE = [lay("a", "A", "8", "3"), lay("b", "B", "4", "3")]


@pytest.mark.parametrize(("align", "top"), [("start", 0), ("centre", 2), ("end", 4)])
def test_align_says_which_ends_are_even(align: str, top: int) -> None:
    steps = [*UNLIKE, sew("pair", ["a", "b"], "across", align=align)]
    making = run(recipe(steps, ["pair"]), Given())
    (cloth,) = making.table.piles["pair"]
    assert [patch.seen.box.top for patch in cloth.patches] == [0, top]
    assert not cloth.whole
    start = {"start": "top left", "centre": "centre", "end": "bottom left"}[align]
    squared = facts([*steps, square("block", "pair", "5 1/2", "4", **{"from": start})])
    assert (squared.finished.height, squared.ledger.waste) == (Fraction(7, 2), 12)


def test_a_step_moves_each_further_piece_along_the_seam() -> None:
    steps = [*rails(3, "20"), cut("p", "set", "across", every="2", count=4)]
    making = run(recipe([*steps, sew("stairs", ["p.*"], "across", step="1")], ["stairs"]), Given())
    (cloth,) = making.table.piles["stairs"]
    tops = [patch.seen.box.top for patch in cloth.patches if patch.letter == "A"]
    assert tops == [0, 1, 2, 3]
    assert "each 1 in further along the seam" in str(making.outcomes[-1].sentence)
    back = run(recipe([*steps, sew("stairs", ["p.*"], "across", step="-1")], ["stairs"]), Given())
    (cloth,) = back.table.piles["stairs"]
    assert [patch.seen.box.top for patch in cloth.patches if patch.letter == "A"] == [3, 2, 1, 0]
    assert "each 1 in further back along the seam" in str(back.outcomes[-1].sentence)
    squared = facts([*steps, sew("s", ["p.*"], "across", step="1"), square("block", "s", "fit", "fit")])
    assert (squared.unfinished.width, squared.unfinished.height) == (Fraction(13, 2), Fraction(7, 2))


def test_edges_that_differ_a_little_are_eased_with_a_warning() -> None:
    steps = [lay("a", "A", "6", "4"), lay("b", "B", "6 1/16", "4"), sew("block", ["a", "b"], "across")]
    found = facts(steps)
    assert (found.unfinished.height, found.ledger.waste) == (6, Fraction(1, 4))
    (warning,) = found.warnings
    assert (warning.code, warning.step) == ("eased", "block")
    assert (
        str(warning.message) == "a and b differ by 1/16 in and are eased together; the excess is trimmed off."
    )
    (upper,) = {patch.seen.box.top for patch in run(recipe(steps), Given()).table.piles["block"][0].patches}
    assert upper == 0


@pytest.mark.parametrize(("longer", "eased"), [("24 1/4", True), ("24 5/16", False)])
def test_easing_stops_at_an_eighth_in_twelve_inches(longer: str, eased: bool) -> None:
    steps = [lay("a", "A", "24", "4"), lay("b", "B", longer, "4"), sew("block", ["a", "b"], "across")]
    if eased:
        assert facts(steps).unfinished.height == 24
    else:
        assert refusal(steps) == (
            "steps[2].sew: The edge of a is 24 in long and that of b is 24 5/16 in: too unlike to ease. "
            'Trim the longer one to 24 in, or say with "align" which ends are even.'
        )


def test_a_patch_that_a_seam_swallows_is_refused() -> None:
    steps = [*PAIR, cut("p", "pair", "down", widths=["3", "1 1/2"]), lay("c", "C", "2", "6")]
    assert facts([*steps, sew("block", ["c", "p.1"], "down")]).unfinished.height == Fraction(9, 2)
    assert refusal([*steps, sew("block", ["p.1", "c"], "down")]) == (
        "steps[5].sew: Sewing p.1 hides a patch of fabric B in the seam: nothing of it is seen. "
        "A patch sewn on both sides must be wider than 1/2 in."
    )


def test_seams_that_miss_across_a_matched_edge_warn() -> None:
    uneven = [lay("f", "F", "2", "9"), lay("g", "G", "3", "9"), sew("three", ["f", "g"], "down")]
    cuts = [
        sliced(part, piece, ("top", "4"), ("bottom", "5")) for part, piece in (("p", "set"), ("q", "three"))
    ]
    found = facts([*rails(2, "9"), *uneven, *cuts, sew("block", ["p.1", "q.2"], "across", match="points")])
    (warning,) = found.warnings
    assert warning.code == "seams-miss"
    assert "miss each other by 0.5" in str(warning.message)


def test_a_slanted_edge_is_sewn_only_by_matching_its_points() -> None:
    steps = [*rails(2, "9"), sliced("p", "set", ("top", "4"), ("bottom", "5"))]
    said = refusal([*steps, sew("block", ["p.1", "p.2"], "across")])
    assert said.startswith("steps[4].sew: The right edge of p.1 runs at a slant. Square p.1 up first,")
    turned = [*steps, turn("t", "p.2", 180), sew("block", ["p.1", "t"], "across", match="points")]
    assert refusal(turned).startswith("steps[5].match: t does not lie in the frame it was sliced in")
    said = refusal([*steps, sew("block", ["p.2", "p.1"], "down")])
    assert (
        said
        == "steps[4].sew: The bottom edge of p.2 is not one straight line from end to end. Square p.2 up first."
    )


def test_a_shuffle_brings_layer_j_plus_n_to_layer_j() -> None:
    steps = [A, B, shuffle("q", "b", 2), sew("block", ["a", "q"], "down")]
    kind = the_kind(facts(steps, stack=5))
    assert [(patch.fabric, patch.layer) for patch in kind.patches] == [("A", 0), ("B", 2)]
    twice = [A, B, shuffle("q", "b", 2), shuffle("r", "q", 4), sew("block", ["a", "r"], "down")]
    assert [patch.layer for patch in the_kind(facts(twice, stack=5)).patches] == [0, 1]
    assert refusal([A, shuffle("block", "a", 3)], stack=3) == (
        "steps[1].by: Moving 3 layers of a stack of 3 can not be. Move 2 layers at most."
    )


def test_layers_turned_alone_come_out_as_kinds() -> None:
    steps = [*PAIR, turn("block", "pair", 180, layers=[0, 2])]
    found = facts(steps, stack=4)
    assert [kind.layers for kind in found.kinds] == [(0, 2), (1, 3)]
    assert [[patch.fabric for patch in kind.patches] for kind in found.kinds] == [["B", "A"], ["A", "B"]]
    shuffled = facts([*PAIR, turn("t", "pair", 180, layers=[0]), shuffle("block", "t", 1)], stack=3)
    assert [kind.layers for kind in shuffled.kinds] == [(0, 1), (2,)]
    assert [[patch.fabric for patch in kind.patches] for kind in shuffled.kinds] == [["A", "B"], ["B", "A"]]
    assert shuffled.ledger.laid == 30
    assert refusal([*PAIR, turn("block", "pair", 90, layers=[0])], stack=2) == (
        "steps[3].layers: Turned by 90 degrees, these layers no longer lie under the same outline as the others. "
        "Turn all layers, or by 180 degrees."
    )
    assert refusal([*PAIR, turn("block", "pair", 180, layers=[2])], stack=2) == (
        "steps[3].layers[0]: There is no layer 3 in a stack of 2. "
        "The top layer is 0 where layers are written, and the lowest here 1."
    )


def test_wildcards_do_it_to_every_part_that_which_picks() -> None:
    steps = [*PAIR, cut("p", "pair", "across", every="1 1/2", count=4)]
    for which, turned in (("odd", [1, 3]), ("even", [2, 4]), ([1, 4], [1, 4]), (None, [1, 2, 3, 4])):
        keys = {} if which is None else {"which": which}
        making = run(recipe([*steps, turn("t", "p.*", 180, **keys)], ["t.*"]), Given())
        tops = {n: making.table.piles[f"t.{n}"][0].patches[0].came.quarters for n in range(1, 5)}
        assert [n for n, quarters in tops.items() if quarters == 2] == turned
    picked = facts([*steps, sew("block", ["p.*"], "across", which="odd")])
    assert (picked.unfinished.width, picked.ledger.waste) == (Fraction(5, 2), 15)


def test_pressing_is_inherited_by_every_part_and_turned_with_it() -> None:
    steps = [
        *PAIR,
        press("pair", "down"),
        cut("p", "pair", "across", every="3", count=2),
        turn("t", "p.2", 180),
        sew("block", ["p.1", "t"], "across"),
        press("block.1", "open"),
    ]
    kind = the_kind(facts(steps))
    assert [(seam.step, seam.start[0], seam.pressed) for seam in kind.seams] == [
        ("pair", 0, "down"),
        ("pair", Fraction(5, 2), "up"),
        ("block", Fraction(5, 2), "open"),
    ]


def test_pressing_in_and_out_and_in_some_layers() -> None:
    kind = the_kind(facts([*rails(4, "9"), press("set", "in")], ["set"]))
    assert [seam.pressed for seam in kind.seams] == ["down", None, "up"]
    kind = the_kind(facts([*rails(4, "9"), press("set", "out"), press("set.2", "darker")], ["set"]))
    assert [seam.pressed for seam in kind.seams] == ["up", "darker", "down"]
    found = facts([*rails(2, "9"), press("set", "up", layers=[1])], ["set"], stack=2)
    assert [(kind.layers, kind.seams[0].pressed) for kind in found.kinds] == [((0,), None), ((1,), "up")]
    assert refusal([*rails(2, "9"), press("set", "left")], "set") == (
        "steps[3].press.toward: The seam set runs the other way, so it can not be pressed left. "
        "Press it up, down or open."
    )
    assert refusal([*rails(2, "9"), press("set.1", "in")], "set").startswith(
        "steps[3].press.toward: set.1 is the middle seam"
    )
