"""The pressing plan, held against pressing every seam every way by `press` steps and looking at the blocks."""

from collections.abc import Iterator, Sequence
from itertools import combinations, product

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from piecewright.errors import MakingError
from piecewright.geometry.motion import Point
from piecewright.making.facts import Facts, Kind, SeenSeam
from piecewright.making.given import Given
from piecewright.making.pressing_plan import PressingPlan, SewnSeam, plan_of, pressing_plan
from piecewright.making.pressing_words import (
    Decision,
    bulge_sentences,
    bulges,
    press_decisions,
    pressing_findings,
    pressing_sentences,
    pressing_summary,
)
from piecewright.making.recipe import Recipe
from piecewright.making.run import facts, run
from piecewright.making.shipped import shipped_recipes
from tests.core.making.building import Plain, cut, lay, sew, shuffle, turn
from tests.core.making.strategies import Sewable, sewable_recipes

GIVEN = Given()
MOST_SEAMS = 6


def recipe(steps: Sequence[Plain], block: str, stack: int = 1) -> Recipe:
    return Recipe.from_plain(
        {"recipe": 1, "name": "Any", "stack": stack, "steps": list(steps), "block": [block]}
    )


def press(decision: Decision) -> Plain:
    said: Plain = {"seam": decision.seam, "toward": decision.toward}
    if decision.layers is not None:
        said["layers"] = list(decision.layers)
    return {"press": said}


def with_presses(steps: Sequence[Plain], decisions: Sequence[Decision]) -> list[Plain]:
    return [*steps, *(press(decision) for decision in decisions)]


def clashes_seen(made: Facts) -> int:
    """Crossings pressed to one side in all blocks of a batch, from what is seen of square blocks alone."""
    return sum(
        len(kind.blocks)
        * len(kind.layers)
        * sum(one.pressed == other.pressed for one, other in crossing(kind))
        for kind in made.kinds
    )


def crossings_seen(made: Facts) -> int:
    return sum(len(kind.blocks) * len(kind.layers) * len(list(crossing(kind))) for kind in made.kinds)


def crossing(kind: Kind) -> Iterator[tuple[SeenSeam, SeenSeam]]:
    """Seams in one line that end at a point which a third runs through."""
    for one, other in combinations(kind.seams, 2):
        for first, second in ((one, other), (other, one)):
            straight = (
                {first.start[0], first.end[0], second.start[0], second.end[0]},
                {
                    first.start[1],
                    first.end[1],
                    second.start[1],
                    second.end[1],
                },
            )
            meets = first.end == second.start and 1 in map(len, straight)
            if meets and any(runs_through(third, first.end) for third in kind.seams):
                yield first, second


def runs_through(seam: SeenSeam, point: Point) -> bool:
    (x1, y1), (x2, y2), (x, y) = seam.start, seam.end, point
    return bool((x1 == x2 == x and y1 < y < y2) or (y1 == y2 == y and x1 < x < x2))


@st.composite
def makings(draw: st.DrawFn) -> tuple[list[Plain], str, int]:
    """Strips sewn, cut, some parts turned or shuffled, sewn again, and perhaps that once more."""
    stack = draw(st.sampled_from([1, 1, 2]))
    strips = draw(st.integers(2, 3))
    steps = [lay(f"s{number}", "ABC"[number], "2 1/2", "36") for number in range(strips)]
    steps.append(sew("set", [f"s{number}" for number in range(strips)], "down"))
    piece, axis = "set", ""
    for turn_of in range(draw(st.integers(1, 2))):
        parts = draw(st.integers(2, 3))
        # widths that leave no seam too near a raw edge
        widths = {"": {"every": "7 1/4", "count": parts}, "across": {"every": "4 1/8", "count": parts}}
        steps.append(cut(f"part{turn_of}", piece, "across", **widths.get(axis, {"into": parts})))
        names = []
        for number in range(1, parts + 1):
            name = f"part{turn_of}.{number}"
            change = draw(st.sampled_from(["", "", "turn", "shuffle"]))
            if change == "turn":
                steps.append(turn(f"t{turn_of}{number}", name, 180))
                name = f"t{turn_of}{number}"
            elif change == "shuffle" and stack > 1:
                steps.append(shuffle(f"t{turn_of}{number}", name, 1))
                name = f"t{turn_of}{number}"
            names.append(name)
        axis = draw(st.sampled_from(["across", "down"]))
        piece = f"sewn{turn_of}"
        steps.append(sew(piece, names, axis))
    return steps, piece, stack


def all_decisions(plan: PressingPlan) -> Iterator[list[Decision]]:
    """Every way to press every seam of every layer."""
    ways = [("left", "right") if seam.toward in ("left", "right") else ("up", "down") for seam in plan.seams]
    for found in product(*ways):
        yield [
            Decision(planned.seam.step, planned.seam.join, way, (planned.seam.layer,))
            for planned, way in zip(plan.seams, found, strict=True)
        ]


@settings(max_examples=40)
@given(makings())
def test_no_pressing_has_fewer_clashes(made: tuple[list[Plain], str, int]) -> None:
    steps, block, stack = made
    plan = plan_of(recipe(steps, block, stack), GIVEN)
    said = facts(recipe(with_presses(steps, press_decisions(plan)), block, stack), GIVEN)
    assert all(seam.pressed for kind in said.kinds for seam in kind.seams)
    assert (plan.crossings, len(plan.clashes)) == (crossings_seen(said), clashes_seen(said))
    assert plan.proven
    if len(plan.seams) <= MOST_SEAMS:
        least = min(
            clashes_seen(facts(recipe(with_presses(steps, found), block, stack), GIVEN))
            for found in all_decisions(plan)
        )
        assert len(plan.clashes) == least


@given(makings())
def test_seams_that_flip_together_flip_at_no_cost_and_opened_ones_leave_no_clash(
    made: tuple[list[Plain], str, int],
) -> None:
    steps, block, stack = made
    plan = plan_of(recipe(steps, block, stack), GIVEN)
    opposite = {"up": "down", "down": "up", "left": "right", "right": "left"}
    each = [
        Decision(
            planned.seam.step,
            planned.seam.join,
            opposite[planned.toward] if flips else planned.toward,
            (planned.seam.layer,),
        )
        for planned, flips in zip(plan.seams, plan.flips, strict=True)
    ]
    flipped = facts(recipe(with_presses(steps, each), block, stack), GIVEN)
    assert clashes_seen(flipped) == len(plan.clashes)
    to_open = [
        Decision(planned.seam.step, planned.seam.join, "open", (planned.seam.layer,))
        for planned in plan.press_open
    ]
    opened = plan_of(recipe(with_presses(steps, to_open), block, stack), GIVEN)
    assert not opened.clashes


@given(makings(), st.data())
def test_what_a_recipe_says_is_held_to(made: tuple[list[Plain], str, int], data: st.DataObject) -> None:
    steps, block, stack = made
    free = plan_of(recipe(steps, block, stack), GIVEN)
    said = data.draw(st.sampled_from(list(all_decisions(free))[:64]))[: data.draw(st.integers(0, 3))]
    plan = plan_of(recipe(with_presses(steps, said), block, stack), GIVEN)
    toward = {planned.seam: (planned.toward, planned.fixed) for planned in plan.seams}
    for decision in said:
        for layer in decision.layers or ():
            assert toward[SewnSeam(decision.step, decision.join or 0, layer)] == (decision.toward, True)
    assert plan.bound >= free.bound


@settings(max_examples=60)
@given(sewable_recipes())
def test_any_recipe_has_a_plan_and_the_plan_as_press_steps_is_the_plan(made: Sewable) -> None:
    try:
        making = run(made.recipe(), made.given)
    except MakingError as fault:  # slices may leave a patch too small to be sewn
        assume(fault.message.code != "making.no-seen-width")
        raise
    plan = pressing_plan(making)
    assert plan.bound <= len(plan.clashes) <= plan.crossings
    assert all(str(sentence) for sentence in (*pressing_sentences(plan), *bulge_sentences(plan)))
    if any("use" in step for step in made.steps):
        return  # seams of a recipe used have no name for a press step
    said = made.recipe().plain
    said["steps"] += [press(decision) for decision in press_decisions(plan)]
    again = pressing_plan(run(Recipe.from_plain(said), made.given))
    assert [(planned.seam, planned.toward) for planned in again.seams] == [
        (planned.seam, planned.toward) for planned in plan.seams
    ]
    assert all(planned.fixed for planned in again.seams)
    assert (again.signs, again.clashes) == (plan.signs, plan.clashes)


def decided(name: str) -> list[Decision]:
    return list(press_decisions(plan_of(shipped_recipes()[name], GIVEN)))


@pytest.mark.parametrize(
    ("name", "crossings"),
    [
        ("cut-turn-sew", 2),
        ("framed-four-patch", 5),
        ("middle-end-for-end", 10),
        ("rail-fence-of-two", 0),
        ("rail-fence-of-three", 0),
        ("rail-fence-of-four", 0),
        ("slanted-exchange", 6),
        ("two-halves-from-thirds", 0),
    ],
)
def test_basic_makings_nest_whole(name: str, crossings: int) -> None:
    plan = plan_of(shipped_recipes()[name], GIVEN)
    assert (plan.crossings, plan.clashes, plan.bound) == (crossings, (), 0)
    assert pressing_findings(plan) == ()


@pytest.mark.parametrize("name", shipped_recipes())
def test_every_shipped_recipe_can_be_pressed_so_that_all_its_seams_nest(name: str) -> None:
    plan = plan_of(shipped_recipes()[name], GIVEN)
    assert (plan.clashes, plan.bound) == ((), 0)


SMALL = sorted(
    name
    for name, each in shipped_recipes().items()
    if len(plan_of(each, GIVEN).seams) <= MOST_SEAMS
    and not any("use" in step for step in each.plain["steps"])
)


@pytest.mark.parametrize("name", SMALL)
def test_no_pressing_of_a_small_shipped_recipe_nests_more_than_its_plan(name: str) -> None:
    """Seen in square blocks alone, where the crossings are found by looking at the seams of the finished block."""
    asked = shipped_recipes()[name]
    plan = plan_of(asked, GIVEN)

    def pressed(decisions: Sequence[Decision]) -> Facts:
        plain = asked.plain
        return facts(Recipe.from_plain({**plain, "steps": with_presses(plain["steps"], decisions)}), GIVEN)

    said = pressed(list(press_decisions(plan)))
    found = [clashes_seen(pressed(each)) for each in all_decisions(plan)]
    assert clashes_seen(said) == min(found)
    if not any(kind.bias_edges for kind in said.kinds):
        assert (plan.crossings, len(plan.clashes)) == (crossings_seen(said), min(found))


def test_a_turned_half_nests_when_all_seams_are_pressed_one_way() -> None:
    """Common practice, no source; the notes of both recipes say so."""
    assert decided("cut-turn-sew")[0] == ("set", None, "down", None)
    assert decided("middle-end-for-end")[:2] == [("set", None, "down", None), ("slab", None, "down", None)]


def test_frames_are_pressed_to_the_frame() -> None:
    """Away from the side with seams, which is less bulk (common practice, no source)."""
    assert decided("framed-four-patch")[3:] == [
        ("row", 1, "left", None),
        ("row", 2, "right", None),
        ("block", 1, "up", None),
        ("block", 2, "down", None),
    ]


def test_exchanged_halves_need_opposite_pressing_in_their_layers() -> None:
    """Common practice, no source: two sets that change halves are pressed in opposite directions."""
    assert decided("slanted-exchange")[:2] == [("set", None, "down", (0,)), ("set", None, "up", (1,))]
    opposite = (
        "The seams of set are pressed one way in some layers and the other way in others, so that they nest "
    )
    opposite += "once parts have changed places."
    said = [
        str(sentence)
        for sentence in pressing_sentences(plan_of(shipped_recipes()["slanted-exchange"], GIVEN))
    ]
    assert said[-2:] == [
        opposite,
        "Pressed so, 6 crossings nest, and none lies to one side.",
    ]


def nine_patch() -> Recipe:
    """A nine-patch from two strip sets: dark light dark, and light dark light between."""
    strips = [lay(name, fabric, "2 1/2", "5") for name, fabric in zip("abcdef", "DLDLDL", strict=True)]
    return recipe(
        [
            *strips,
            sew("dark", ["a", "b", "c"], "down"),
            sew("light", ["d", "e", "f"], "down"),
            cut("outer", "dark", "across", widths=["2 1/2", "2 1/2"]),
            cut("inner", "light", "across", widths=["2 1/2"]),
            sew("block", ["outer.1", "inner.1", "outer.2"], "across"),
        ],
        "block",
    )


def test_a_nine_patch_nests_pressed_to_the_dark_and_no_seam_of_it_need_be_opened() -> None:
    """Both sets pressed toward the dark nest (common practice, no source): outward in one, inward in the other."""
    free = plan_of(nine_patch(), GIVEN)
    assert (free.crossings, free.clashes) == (4, ())
    plain = nine_patch().plain
    toward_dark = {
        SewnSeam("dark", 1, 0): "up",
        SewnSeam("dark", 2, 0): "down",
        SewnSeam("light", 1, 0): "down",
        SewnSeam("light", 2, 0): "up",
    }
    plain["steps"] += [
        {"press": {"seam": "dark", "toward": "darker"}},
        {"press": {"seam": "light", "toward": "darker"}},
    ]
    dark = Recipe.from_plain(plain)
    assert pressing_plan(run(dark, GIVEN), toward_dark).clashes == ()
    assert [planned.toward for planned in pressing_plan(run(dark, GIVEN)).seams[:4]] == ["darker"] * 4


def same_way_twice() -> Recipe:
    return recipe(
        [
            lay("a", "A", "2 1/2", "12"),
            lay("b", "B", "2 1/2", "12"),
            sew("set", ["a", "b"], "down"),
            cut("half", "set", "across", into=2),
            sew("block", ["half.*"], "across"),
        ],
        "block",
    )


def test_a_seam_that_meets_itself_can_not_nest_and_is_opened() -> None:
    plan = plan_of(same_way_twice(), GIVEN)
    assert (len(plan.clashes), plan.bound) == (1, 1)
    assert [planned.name for planned in plan.press_open] == ["set"]
    (finding,) = pressing_findings(plan)
    assert str(finding.message) == "set and set lie to one side where they meet on block, at 1 crossing."
    assert str(finding.hint) == "Press set open."
    assert str(pressing_summary(plan)) == "1 of 1 crossing can not nest, whatever the way."


def test_layers_of_a_four_patch() -> None:
    """Counted by hand, cloth by cloth: nested and pressed one way 7, opened last 6, spun 5; clashing 9."""
    (_, lumps), *_ = plan_of(shipped_recipes()["cut-turn-sew"], GIVEN).lumps()
    assert [(each.pressed, each.opened, each.spun) for each in lumps] == [(7, 6, 5)] * 2
    (_, clashing) = plan_of(same_way_twice(), GIVEN).lumps()[0]
    assert [each.pressed for each in clashing] == [9]
    assert [
        str(sentence) for sentence in bulge_sentences(plan_of(shipped_recipes()["cut-turn-sew"], GIVEN))
    ] == [
        "Where seams meet on block, 7 layers lie on each other, at 2 places.",
        "Spun (the seam pressed to opposite sides of the crossing) they are 5.",
    ]


def test_a_frame_is_least_bulky_as_planned() -> None:
    """By hand: a seam that ends on one pressed away from it makes 5 layers, opened 6."""
    found = bulges(plan_of(shipped_recipes()["framed-four-patch"], GIVEN))
    assert {(bulge.step, bulge.pressed, bulge.best, bulge.places) for bulge in found} == {
        ("middle", 7, "spun", 5),
        ("row", 5, "pressed", 10),
        ("block", 5, "pressed", 30),
    }
