"""The materials of a design: carried along they are what they are from nothing, and they keep sense."""

from collections import Counter
from dataclasses import fields
from fractions import Fraction
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from piecewright.edit.placing import place_block
from piecewright.edit.recoloring import recolor_letter
from piecewright.edit.registry import Cell, apply
from piecewright.errors import EditError
from piecewright.making.recipe import Recipe
from piecewright.making.shipped import shipped_recipes
from piecewright.model.design import Design
from piecewright.model.fabric import Fabric, Print
from piecewright.model.quilt import Border, Placement, Row, Turn
from piecewright.model.value import Letters, Sizes
from piecewright.plan.difference import difference
from piecewright.plan.materials import Materials, materials
from piecewright.plan.stage import RERUNS, forget
from piecewright.plan.text import materials_text
from tests.core.edit_strategies import random_call
from tests.core.plan.samples import (
    BLOCK,
    BOLT,
    UNTRUED,
    block,
    design,
    letters,
    of_recipe,
    quilt,
    rails,
)
from tests.core.strategies import designs, random_design, random_settings, randoms


def recipe(*steps: dict[str, object], blocks: str = "block") -> Recipe:
    return Recipe.from_plain({"recipe": 1, "name": "Sample", "steps": list(steps), "block": [blocks]})


def assert_warm_is_cold(warm: Design) -> None:
    carried = materials(warm)
    forget()
    from_nothing = materials(warm)
    for field in fields(Materials):
        assert getattr(carried, field.name) == getattr(from_nothing, field.name), field.name


def edited(random: Random, found: Design, steps: int) -> Design:
    for _ in range(steps):
        try:
            found = apply(found, random_call(random, found))
        except EditError:
            continue
        materials(found)
    return found


# carried along


@settings(max_examples=60)
@given(randoms, st.integers(1, 12))
def test_after_any_edits_the_carried_answer_is_the_answer_from_nothing(random: Random, steps: int) -> None:
    forget()
    first = random_design(random).changed(settings=random_settings(random))
    materials(first)
    assert_warm_is_cold(edited(random, first, steps))


def test_a_long_walk_of_edits_ends_where_counting_from_nothing_ends() -> None:
    random = Random(20)
    found = random_design(random)
    for _ in range(12):
        found = edited(random, found, 25)
        assert_warm_is_cold(found)


@given(randoms)
def test_a_new_color_or_name_of_a_fabric_sews_nothing_anew(random: Random) -> None:
    found = random_design(random)
    materials(found)
    RERUNS.clear()
    renamed = tuple(fabric.changed(name="Renamed", color="#123456") for fabric in found.fabrics)
    materials(found.changed(fabrics=renamed))
    assert not {"account", "batch", "strip_set", "lay_out"} & RERUNS.keys()


@pytest.mark.parametrize("count", [100, 1000])
def test_one_recolored_block_reruns_as_few_stages_in_a_large_quilt_as_in_a_small(count: int) -> None:
    found = rails(count)
    forget()
    materials(found)
    RERUNS.clear()
    materials(recolor_letter(found, cells=(Cell(3, 4),), letter="B", fabric="f4"))
    assert (
        Counter(
            materials=1,
            account=1,
            role=1,
            batch=2,
            _asks=1,
            strip_set=2,
            pack=2,
            strip_use=RERUNS["strip_use"],
            cloth=RERUNS["cloth"],
            _lay_out=1,
            _row=1,
            _placed=1,
        )
        == RERUNS
    )
    assert RERUNS["cloth"] <= 4
    assert RERUNS["strip_use"] <= 4


def test_a_block_changed_on_the_shelf_counts_only_its_own_anew() -> None:
    shelf = tuple(
        block(
            shipped_recipes()["rail-fence-of-three"],
            letters(A="f1", B="f2", C=f"f{number}"),
            number=number + 29,
        )
        for number in (1, 2)
    )
    wall = quilt(60, 10, Fraction(6))
    other = Row(5, tuple(placement.changed(block="b31") for placement in wall.rows[5].placements))
    found = design(shelf, wall.changed(rows=(*wall.rows[:5], other)))
    forget()
    materials(found)
    changed = found.blocks[1].changed(fabrics=letters(A="f1", B="f2", C="f5"))
    RERUNS.clear()
    materials(found.changed(blocks=(found.blocks[0], changed)))
    assert RERUNS["batch"] == 1
    assert_warm_is_cold(found.changed(blocks=(found.blocks[0], changed)))


# what must not matter


@given(designs(), st.randoms(use_true_random=False))
def test_turning_blocks_end_for_end_changes_no_count(found: Design, random: Random) -> None:
    def turned(placement: Placement) -> Placement:
        half: dict[Turn, Turn] = {0: 180, 90: 270, 180: 0, 270: 90}
        return placement.changed(turn=half[placement.turn]) if random.random() < 0.5 else placement

    rows = tuple(row.changed(placements=tuple(map(turned, row.placements))) for row in found.quilt.rows)
    before, after = materials(found), materials(found.with_quilt(found.quilt.changed(rows=rows)))
    assert after == before


@settings(max_examples=60)
@given(randoms)
def test_a_block_more_never_takes_less_cloth(random: Random) -> None:
    found = random_design(random)
    call = random_call(random, found, "place-block")
    try:
        more = apply(found, call)
    except EditError:
        return
    before, after = materials(found), materials(more)
    least = {cloth.fabric: cloth.inches for cloth in after.cloth}
    assert all(least.get(cloth.fabric, 0) >= cloth.inches for cloth in before.cloth)
    assert after.set_count >= before.set_count
    assert after.strip_count >= before.strip_count


@given(randoms)
def test_cloth_is_the_sum_of_its_uses_and_what_is_bought_is_never_less(random: Random) -> None:
    found = random_design(random).changed(settings=random_settings(random))
    made = materials(found)
    for cloth in made.cloth:
        assert cloth.inches == sum(use.inches for use in cloth.uses)
        assert cloth.buy >= cloth.inches + found.settings.margin
    piecing = Counter[tuple[str, Fraction]]()
    for alike in made.sets:
        for lane in alike.lanes:
            piecing[lane.fabric, lane.width] += alike.sets
    told = Counter[tuple[str, Fraction]]()
    for cloth in made.cloth:
        for use in cloth.uses:
            if use.part == "piecing":
                told[cloth.fabric, use.size] += use.count
    assert piecing == told
    assert made.block_count == sum(len(row.placements) for row in found.quilt.rows)


# sets


def test_blocks_share_the_sets_of_their_strips() -> None:
    made = materials(rails(110, UNTRUED))
    (sets,) = made.sets
    assert (sets.sets, sets.strips, sets.blocks, sets.per_set) == (19, 57, 110, 6)
    assert sets.to_spare == 3
    assert str(sets.why) == (
        "57 strips = 19 sets of 3; 110 blocks, 6 to a set: 42 usable / 6 1/2 = 6, 3 in to spare."
    )


def test_truing_is_told_and_taken_off() -> None:
    (sets,) = materials(rails(110)).sets
    assert sets.to_spare == Fraction(9, 4)
    assert "(42 usable - 3/4 truing) / 6 1/2 = 6, 2 1/4 in to spare" in str(sets.why)


def test_sets_are_told_tight_under_half_an_inch() -> None:
    found = rails(12)
    assert not materials(found).sets[0].tight
    narrow = BOLT.changed(usable=Fraction(40))
    assert materials(found.changed(settings=narrow)).sets[0].to_spare == Fraction(1, 4)
    assert materials(found.changed(settings=narrow)).sets[0].tight


def test_unlike_recipes_and_sets_turned_end_for_end_share_sets() -> None:
    three, turned = shipped_recipes()["rail-fence-of-three"], shipped_recipes()["cut-turn-sew"]
    shelf = (
        block(three, letters(A="f1", B="f2", C="f3")),
        block(turned, letters(A="f3", B="f2", C="f1"), number=31),
    )
    wall = quilt(2, 2, Fraction(6))
    both = Row(0, (Placement(0, BLOCK), Placement(1, "b31")))
    made = materials(design(shelf, wall.changed(rows=(both,))))
    assert [alike.sets for alike in made.sets] == [1]
    assert made.sets[0].cuts[0].segments == ((Fraction(13, 2), 1), (Fraction(7, 2), 2))


def test_a_one_way_print_keeps_its_set_the_right_way_up() -> None:
    three = shipped_recipes()["rail-fence-of-three"]
    shelf = (
        block(three, letters(A="f1", B="f2", C="f3")),
        block(three, letters(A="f3", B="f2", C="f1"), number=31),
    )
    both = Row(0, (Placement(0, BLOCK), Placement(1, "b31")))
    found = design(shelf, quilt(2, 2, Fraction(6)).changed(rows=(both,)))
    one_way = Fabric("f1", "Up", "#808080", Print("leaves", ("#000000",), one_way=True))
    assert len(materials(found).sets) == 1
    assert len(materials(found.changed(fabrics=(one_way, *found.fabrics[1:]))).sets) == 2


def test_a_narrow_fabric_shortens_the_sets_it_is_in() -> None:
    found = rails(6)
    narrow = found.fabrics[0].changed(width=Fraction(20))
    (sets,) = materials(found.changed(fabrics=(narrow, *found.fabrics[1:]))).sets
    assert sets.usable == 20
    assert (sets.per_set, sets.sets) == (3, 2)


# Values of the trade (common practice, no source): 40 strips of 2 1/2 x 42 in, no truing.
FORTY = [
    ("rail-fence-of-two", 180, 20),
    ("rail-fence-of-three", 78, 13),
    ("rail-fence-of-four", 40, 10),
    ("two-halves-from-thirds", 40, 20),
    ("middle-end-for-end", 20, 20),
]


@pytest.mark.parametrize(("name", "blocks", "sets"), FORTY)
def test_what_forty_strips_give(name: str, blocks: int, sets: int) -> None:
    ids = dict(zip(shipped_recipes()[name].letters, ("f1", "f2", "f3", "f4"), strict=False))
    made, one_more = (materials(of_recipe(name, count, UNTRUED, **ids)) for count in (blocks, blocks + 1))
    assert made.set_count == sets
    assert sum(alike.strips for alike in made.sets) <= 40
    assert sum(alike.strips for alike in one_more.sets) > 39
    assert one_more.set_count == sets + 1


def test_framed_four_patches_from_forty_strips() -> None:
    five = Letters({"A": ("f1", "f2", "f3", "f4", "f5")})
    found = design((block(shipped_recipes()["framed-four-patch"], five),), quilt(1, 10, Fraction(8)), UNTRUED)
    layers = tuple(
        Row(row, tuple(Placement(layer, BLOCK, layer=layer) for layer in range(5))) for row in range(8)
    )
    lattice = found.quilt.lattice.changed(rows=8)
    made = materials(found.with_quilt(found.quilt.changed(lattice=lattice, rows=layers)))
    assert made.block_count == 40
    assert [alike.strips for alike in made.sets] == [8] * 5
    assert [batch.batches for batch in made.batches] == [8]


# batches


def test_the_most_wanted_layer_decides_the_batches_and_the_rest_is_over() -> None:
    two = Letters({"A": ("f1", "f2"), "B": ("f3",), "C": ("f3",), "D": ("f3",)})
    found = design((block(shipped_recipes()["slanted-exchange"], two),), quilt(3, 10, Fraction(8)), BOLT)
    row = Row(0, (Placement(0, BLOCK), Placement(1, BLOCK), Placement(2, BLOCK, layer=1)))
    (batch,) = materials(found.with_quilt(found.quilt.changed(rows=(row,)))).batches
    assert (batch.batches, batch.per_batch, batch.blocks, batch.over) == (2, 2, 3, 1)


def test_layers_that_look_alike_stand_in_for_each_other() -> None:
    ids = {"A": "f1", "B": "f2", "C": "f3", "D": "f4"}
    (batch,) = materials(of_recipe("slanted-exchange", 4, BOLT, **ids)).batches
    assert (batch.batches, batch.over) == (2, 0)


def test_blocks_of_the_whole_width_get_it_less_their_truing() -> None:
    # common practice, no source: 6 x 7 = 42 leaves nothing for truing, so 5 to a set with the usual 1/2 in
    wide = recipe(
        {"make": "a", "lay": {"fabric": "A", "width": "4", "length": "usable"}},
        {"make": "b", "lay": {"fabric": "B", "width": "3 1/2", "length": "usable"}},
        {"make": "set", "sew": ["a", "b"], "axis": "down"},
        {"make": "block", "cut": "set", "axis": "across", "every": "7", "count": "fit"},
        blocks="block.*",
    )
    shelf = (block(wide, letters(A="f1", B="f2")),)
    wall = quilt(12, 4, Fraction(13, 2))
    made = materials(design(shelf, wall, UNTRUED))
    assert [(alike.sets, alike.per_set) for alike in made.sets] == [(2, 6)]
    trued = materials(design(shelf, wall))
    assert [(alike.sets, alike.per_set) for alike in trued.sets] == [(3, 5)]
    assert [batch.per_batch for batch in trued.batches] == [5]


def test_no_block_from_the_strip_is_said_loudly_with_the_width_that_would_do() -> None:
    found = of_recipe("middle-end-for-end", 4, BOLT.changed(usable=Fraction(40)), A="f1", B="f2")
    made = materials(found)
    (loud,) = [finding for finding in made.findings if finding.severity == "error"]
    assert loud.code == "plan.no-block"
    assert "40 1/2 from 40 usable: no block" in str(loud.message)
    assert "41 in" in str(loud.hint)
    assert made.sets == ()
    wider = materials(found.changed(settings=BOLT.changed(usable=Fraction(41))))
    assert {finding.code for finding in wider.findings} == {"plan.binding-tight", "plan.cells-empty"}


def test_truing_alone_can_leave_no_block() -> None:
    found = of_recipe("middle-end-for-end", 1, BOLT.changed(usable=Fraction(81, 2)), A="f1", B="f2")
    assert "plan.no-block-trued" in [finding.code for finding in materials(found).findings]


def test_a_making_that_fails_is_a_finding_and_everything_else_is_still_counted() -> None:
    broken = recipe(
        {"make": "a", "lay": {"fabric": "A", "width": "2", "length": "6"}},
        {"make": "block", "cut": "a", "axis": "across", "every": "7", "count": 1},
        blocks="block.1",
    )
    shelf = (
        block(shipped_recipes()["rail-fence-of-three"], letters(A="f1", B="f2", C="f3")),
        block(broken, letters(A="f1"), number=31),
    )
    both = Row(0, (Placement(0, BLOCK), Placement(1, "b31")))
    made = materials(design(shelf, quilt(2, 2, Fraction(6)).changed(rows=(both,))))
    assert made.findings[0].code == "plan.cannot-be-made"
    assert made.set_count == 1
    assert made.block_count == 2


def test_letters_without_fabric_are_counted_apart_and_told() -> None:
    three = shipped_recipes()["rail-fence-of-three"]
    made = materials(design((block(three, letters(A="f1")),), quilt(6, 6, Fraction(6))))
    assert [finding.code for finding in made.findings] == ["plan.no-fabric", "plan.no-fabric"]
    assert [cloth.fabric for cloth in made.cloth] == ["f1", "?B", "?C", "?backing", "?binding"]


def test_empty_cells_are_counted() -> None:
    found = rails(37)
    made = materials(found)
    assert made.missing == 3
    assert [str(finding.message) for finding in made.findings] == ["3 of 40 cells have no block yet."]


def test_cloth_narrower_than_its_joins_is_found_and_takes_nothing() -> None:
    borders = (Border("f4", Fraction(3)),)
    made = materials(rails(10, BOLT.changed(usable=Fraction(1, 2)), borders=borders))
    codes = {finding.code for finding in made.findings}
    assert codes == {
        "plan.no-block",
        "plan.border-too-narrow",
        "plan.binding-too-narrow",
        "plan.backing-too-narrow",
    }
    assert (made.borders[0].strips, made.binding.strips, made.backing.panels.count) == (0, 0, 0)
    assert all(str(finding.sentence()) for finding in made.findings)


# along the bolt and on the bias


def squares(grain: str, width: str = "3") -> Design:
    lay = {"fabric": "A", "width": width, "length": "3", "grain": grain}
    shelf = (block(recipe({"make": "block", "lay": lay}), letters(A="f1")),)
    return design(shelf, quilt(60, 10, Fraction(5, 2)), UNTRUED)


def test_strips_along_the_selvage_lie_side_by_side_on_the_bolt() -> None:
    made = materials(squares("lengthwise"))
    use = made.cloth[0].uses[0]
    # one square to a strip 3 in long, 14 strips side by side in 42 in: 5 rows of 3 in
    assert (use.count, use.grain, use.run) == (60, "lengthwise", Fraction(3))
    assert use.inches == 15
    # cut as long as needed: nothing to spare is no slip away from another set
    assert not made.sets[0].tight
    page = materials_text(made)
    assert "60 of 3 x 3 in cut" in page
    assert "60 of 3 in, cut into 1 x 3 in" in page
    assert "to spare" not in page


def test_strips_on_the_bias_take_the_cloth_that_their_slant_takes() -> None:
    made = materials(squares("bias"))
    (sets,) = made.sets
    # 42 x sqrt 2 - 3 = 56.4 in is the longest square-ended strip 3 in wide: 18 squares
    assert sets.usable == Fraction(451, 8)
    assert (sets.per_set, sets.sets) == (18, 4)
    use = made.cloth[0].uses[0]
    # (54 + 3) / sqrt 2 + 3 x 3 x sqrt 2 = 53.03
    assert use.inches == Fraction(425, 8)
    assert "4 of 3 x 54 in cut" in materials_text(made)


# differences


def test_recoloring_one_block_may_cost_a_whole_set() -> None:
    found = rails(60)
    recolored = recolor_letter(found, cells=(Cell(0, 0),), letter="B", fabric="f4")
    changes = difference(materials(found), materials(recolored))
    told = [(change.part, str(change.what), change.by) for change in changes]
    assert ("sets", "Cloth 1 2 1/2, Cloth 4 2 1/2, Cloth 3 2 1/2", 1) in told
    assert ("strips", "Cloth 1, cut 2 1/2 in", 1) in told
    assert ("strips", "Cloth 4, cut 2 1/2 in", 1) in told
    assert {change.part for change in changes} == {"sets", "strips", "cloth"}
    assert difference(materials(recolored), materials(recolored)) == ()


def test_recoloring_another_block_costs_no_set_while_there_is_room_in_its_own() -> None:
    found = recolor_letter(rails(60), cells=(Cell(0, 0),), letter="B", fabric="f4")
    recolored = recolor_letter(found, cells=(Cell(1, 0),), letter="B", fabric="f4")
    assert difference(materials(found), materials(recolored)) == ()


@given(randoms, st.integers(1, 6))
def test_the_differences_back_are_the_differences_forth_turned_round(random: Random, steps: int) -> None:
    before = random_design(random)
    after = edited(random, before, steps)
    forth = difference(materials(before), materials(after))
    back = difference(materials(after), materials(before))
    assert Counter((change.part, change.by) for change in forth) == Counter(
        (change.part, -change.by) for change in back
    )
    assert all(str(change.said) for change in forth)


def test_a_placed_block_is_counted_where_it_fits() -> None:
    found = place_block(rails(59), block=BLOCK, cell=Cell(9, 5))
    assert materials(found).block_count == 60
    assert materials(found).missing == 0


def test_sizes_of_a_block_are_batches_of_their_own() -> None:
    three, cloths = shipped_recipes()["rail-fence-of-three"], letters(A="f1", B="f2", C="f3")
    shelf = (block(three, cloths), block(three, cloths, Sizes({"F": Fraction(9)}), number=31))
    wall = quilt(1, 10, Fraction(3), borders=(Border("f1", Fraction(2)),))
    row = Row(0, (Placement(0, BLOCK), Placement(2, "b31")))
    made = materials(design(shelf, wall.changed(lattice=wall.lattice.changed(rows=3), rows=(row,))))
    assert len(made.batches) == len(made.sets) == 2
    assert made.missing == 30 - 4 - 9
